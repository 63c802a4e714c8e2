"""Pictures of the page's screens, as on a small laptop.

``python -m tests.page.pictures [PAGE]`` opens the page (made anew unless its file is named) in
Chromium and writes a picture of each place into out/demo.
"""

import sys
import tempfile
from pathlib import Path
from typing import Final

from rungsheet.page.bind import page
from tests.page.browser import Browser, browsing, missing

SIZE: Final = (1366, 768)
OUT: Final = Path(__file__).parents[2] / "out" / "demo"

SCREENS: Final = {
    "lesson": (
        "rungsheet.places.go('lesson'); document.querySelectorAll('.strip-head')[1].click();",
        "document.querySelector('.strip-body[data-counted]')",
    ),
    "text": (
        "document.getElementById('toggle-text').click();",
        "document.getElementById('spec-text').value !== ''",
    ),
    "to-sheets": (
        "rungsheet.places.go('sheets');",
        "document.querySelector('button[data-file=\"practice-core.pdf\"]')",
    ),
    "sheets": (
        "document.querySelector('button[data-file=\"practice-core.pdf\"]').click();",
        "document.querySelector('.questions [data-section=core]')",
    ),
}
"""By the name of a picture: how its screen is come to, and what is there then."""

LEFT_OUT: Final = ("to-sheets",)
"""Screens on the way to another."""


def look(browser: Browser, folder: Path) -> None:
    """Write a picture of each screen into a folder."""
    browser.until("document.querySelectorAll('.strip').length > 0")
    for name, (how, there) in SCREENS.items():
        browser.evaluate(how)
        browser.until(there)
        browser.evaluate("await new Promise(requestAnimationFrame)")
        if name not in LEFT_OUT:
            browser.tell("picture", str(folder / f"page-{name}.png"))


def main(given: list[str]) -> None:
    """Make the pictures, of a page that is there or of one made for them."""
    needs = missing("chrome")
    if needs:
        sys.exit(needs)
    OUT.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        file = Path(given[0]).resolve() if given else Path(scratch, "rungsheet.html")
        if not given:
            file.write_bytes(page())
        with browsing("chrome", Path(scratch, "profile")) as browser:
            browser.tell("size", *SIZE)
            browser.open(file.as_uri())
            browser.ready()
            look(browser, OUT)


if __name__ == "__main__":
    main(sys.argv[1:])
