"""Every screen for those who cannot see it well, in a light room and a dark one (axe-core)."""

import json
from collections.abc import Iterator

import pytest

from tests.page.looking import complaints
from tests.page.teacher import DEMO, Teacher

CODE = "AAAA-AA-A-A-A"  # of no page


def screens(page: Teacher) -> Iterator[str]:
    """Every screen of the page in turn, with what can be opened on it open."""
    page.goes("lesson")
    page.presses_button("[data-rung=mixed-places] .strip-head")
    page.until("document.querySelector('[data-key=addends]')?.textContent.includes('(')")
    page.reaches("[data-key=addends]")
    yield "a rung that is open"
    page.reaches("#settings-summary")
    page.presses("Enter")
    page.until("document.querySelector('[data-key=\"setting land\"]')")
    yield "how it is worked"
    page.presses("Enter")
    page.clicks("#toggle-text")
    page.clicks("#spec-text")
    page.presses("Control+End")
    page.types("x: y")
    page.until("document.querySelector('#spec-problems .problem')")
    yield "a text with a mistake"
    page.browser.evaluate(f"rungsheet.lesson.change({{ text: {json.dumps(DEMO)} }})")
    page.clicks("#toggle-text")
    page.at_rest()
    # Backwards: after the last control of the page a browser's own ones have the focus.
    page.presses_button("[data-rung=mixed-places] .strip-head", "Shift+Tab")
    page.goes("sheets")
    page.until("document.querySelector('.questions li')")
    yield "sheets"
    page.clicks("#save-class-set")
    page.until("document.querySelector('.working progress').value > 0")
    yield "a class set being drawn"
    page.clicks("#stop")
    page.browser.ready()
    yield "what the page says"
    page.goes("in-class")
    page.until("!document.getElementById('begin').disabled")
    yield "in class, before it begins"
    page.presses_button("#begin")
    for part in ("Starter", "Starter: answers", "Example 1", "Your turn 1", "Practice", "Support"):
        while not page.text_of("#show .where").startswith(part):
            page.presses("PageDown")
        yield f"in class: {part}"
    page.presses("b")
    yield "in class, black"
    page.presses("b", "Escape")
    page.goes("marks")
    yield "marks, before any"
    page.presses_button("#begin-marks")
    page.until("document.activeElement.matches('.marks-grid input')")
    page.types("c")
    page.presses("Tab")
    page.types("what")
    page.presses("Enter")
    page.until("document.querySelectorAll('#unread li').length === 1")
    page.until("document.querySelector('.groups')")
    yield "marks"
    page.clicks("#forget")
    page.clicks("#forget")
    page.goes("find")
    page.reaches("#code")
    page.presses("Control+a")
    page.types(CODE)
    page.presses("Enter")
    page.until("document.querySelector('#found li')")
    yield "a sheet not found"
    page.presses_button("#terms")
    yield "terms"
    page.clicks("#terms")


@pytest.mark.slow
def test_nothing_is_found_wrong_in_any_screen_in_light_or_dark(page_as_opened: Teacher) -> None:
    page = page_as_opened
    for screen in screens(page):
        assert complaints(page.browser) == [], screen
        if page.browser.name != "chrome":
            continue  # it cannot be told that the room is dark
        page.browser.tell("media", [{"name": "prefers-color-scheme", "value": "dark"}])
        assert complaints(page.browser, "color-contrast") == [], f"{screen}, in the dark"
        page.browser.tell("media", [{"name": "prefers-color-scheme", "value": "light"}])
