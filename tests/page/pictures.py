"""Pictures of the page's screens, as on a small laptop and from a projector.

``python -m tests.page.pictures [PAGE]`` opens the page (made anew unless its file is named) in
Chromium and writes a picture of each screen into out/demo.
"""

import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Final

from PIL import Image

from generator.packs.codes import page_code
from rungsheet.desk import packs, specs
from rungsheet.page.bind import page
from tests.page.browser import browsing, missing
from tests.page.teacher import LAPTOP, Teacher

PROJECTOR: Final = (1280, 720)
OUT: Final = Path(__file__).parents[2] / "out" / "demo"
COLOURS: Final = 48
"""So many are kept: enough for type and ink, and files are far smaller."""


def lesson(teacher: Teacher) -> None:
    """The ladder with a rung that is open."""
    teacher.goes("lesson")
    teacher.presses_button("[data-rung=mixed-places] .strip-head")
    teacher.until("document.querySelector('.strip-body[data-counted]')")
    teacher.reaches("[data-key=addends]")
    teacher.browser.evaluate("scrollTo(0, 0)")


def text(teacher: Teacher) -> None:
    """The text beside the ladder, as it is when a lesson is opened."""
    teacher.goes("lesson")
    teacher.clicks("#toggle-text")


def sheets(teacher: Teacher) -> None:
    """A practice sheet, and its questions."""
    teacher.goes("sheets")
    teacher.until("document.querySelector('button[data-file=\"practice-core.pdf\"]')")
    teacher.presses_button('button[data-file="practice-core.pdf"]')
    teacher.until("document.querySelector('.questions [data-section=core]')")


def before_class(teacher: Teacher) -> None:
    """What the lesson will show, and the keys."""
    teacher.goes("in-class")
    teacher.until("document.querySelector('.plan input')")


def in_class(wanted: str) -> Callable[[Teacher], None]:
    """The lesson on the whole screen, at one of its moments."""

    def show(teacher: Teacher) -> None:
        teacher.goes("in-class")
        teacher.until("!document.getElementById('begin').disabled")
        teacher.presses_button("#begin")
        teacher.until("!document.getElementById('show').hidden")
        before = ""
        while wanted not in (where := teacher.text_of("#show .where")):
            assert where != before, f"{wanted} is never shown"
            before = where
            teacher.presses("PageDown")

    return show


def marks(teacher: Teacher) -> None:
    """A class typed, and what its marks say."""
    wrong = {3: "17.08", 7: "17.08", 12: "9.4", 15: "17.08"}
    teacher.goes("marks")
    teacher.presses_button("#begin-marks")
    teacher.until("document.activeElement.matches('.marks-grid input')")
    for pupil in range(1, 21):
        teacher.types("-" if pupil == 9 else "core" if pupil % 3 else "support")
        if pupil in wrong:
            teacher.presses(*["Tab"] * 7)
            teacher.types(wrong[pupil])
            teacher.presses("Tab")
            teacher.types("10.2")
            teacher.presses("Home", "ArrowRight")
        teacher.presses("Enter")
    teacher.until("document.querySelector('.groups')")
    teacher.browser.evaluate(
        "scrollTo(0, 0); document.querySelector('.marks-grid').parentElement.scrollTo(0, 0);"
    )


def find(teacher: Teacher) -> None:
    """The answers of a sheet, found by its code."""
    pack = packs.build(specs.read(specs.shipped_text())).pack
    core = next(section for section in pack.sections if section.name == "core")
    teacher.goes("find")
    teacher.reaches("#code")
    teacher.types(str(page_code(pack, core, 1)))
    teacher.presses("Enter")
    teacher.until("document.getElementById('save-key')")


SCREENS: Final[dict[str, tuple[tuple[int, int], Callable[[Teacher], None]]]] = {
    "lesson": (LAPTOP, lesson),
    "text": (LAPTOP, text),
    "sheets": (LAPTOP, sheets),
    "find": (LAPTOP, find),
    "marks": (LAPTOP, marks),
    "before-class": (LAPTOP, before_class),
    "in-class-answers": (PROJECTOR, in_class("answers · 3 of")),
    "in-class-step": (PROJECTOR, in_class("Example 2: Exchanging through noughts · step 8")),
    "in-class-your-turn": (PROJECTOR, in_class("Your turn 2: Exchanging through noughts · try it")),
    "in-class-laptop": (LAPTOP, in_class("Example 3: Price times a number · step 6")),
}
"""By the name of a picture: the size of the screen, and how what it shows is come to."""


def smaller(file: Path) -> None:
    """Keep fewer colours."""
    with Image.open(file) as picture:
        kept = picture.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    kept.save(file, optimize=True)


def look(teacher: Teacher, folder: Path) -> None:
    """Write a picture of each screen into a folder."""
    for name, (size, come) in SCREENS.items():
        teacher.browser.tell("size", *size)
        come(teacher)
        teacher.browser.evaluate("await new Promise((later) => setTimeout(later, 400))")
        file = folder / f"page-{name}.png"
        teacher.browser.tell("picture", str(file))
        smaller(file)
        if "in-class" in name:
            teacher.presses("Escape")


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
            teacher = Teacher(browser, file.as_uri())
            teacher.opens()
            look(teacher, OUT)


if __name__ == "__main__":
    main(sys.argv[1:])
