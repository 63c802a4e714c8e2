"""Someone goes on while the engine is still at work: another lesson is opened, a field typed in.

The engine is given something to do first, so that what is asked of it next comes later: what
would be seen now and then on a slow laptop is seen here each time.
"""

import json

import pytest

from rungsheet.desk import editing, specs
from tests.page.teacher import DEMO, Teacher

_PAUSES_ARE_LONG = """
    window.before = document.activeElement;
    window.usual = window.setTimeout;
    window.setTimeout = (job, pause, ...given) =>
        usual(job, pause === 600 ? 60_000 : pause, ...given);
"""
"""A list waits so long after a key for the next that the page is drawn again in the meantime."""

CORE = '[data-key="{} core"]'


def occupied(page: Teacher) -> None:
    """The engine has something to do for a second or so."""
    sent = json.dumps({"text": DEMO, "seed": 99})
    page.browser.evaluate(f"window.busy = rungsheet.engine.ask('zip', {sent});")


def at_rest(page: Teacher) -> None:
    """The engine has done that, and what was asked after it."""
    page.browser.evaluate("await window.busy;")
    page.at_rest()


@pytest.mark.slow
@pytest.mark.parametrize("field", ["#lesson-title", CORE.format("over-the-point")])
def test_a_change_under_way_never_comes_to_another_lesson(
    page_as_opened: Teacher, field: str
) -> None:
    """What was typed for a lesson is dropped with it, when another takes its place."""
    page = page_as_opened
    occupied(page)
    page.clicks(field)
    page.presses("Control+a")
    page.types("4")
    page.clicks("[data-lesson=sharing]")
    at_rest(page)
    assert page.spec == specs.shipped_text("sharing")

    occupied(page)
    page.clicks("#lesson-title")
    page.presses("Control+a")
    page.types("Beans")
    page.clicks("#undo")
    at_rest(page)
    assert page.spec == DEMO


@pytest.mark.slow
def test_opening_a_lesson_is_undone_with_its_seed_versions_and_look(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    shown = "['name', 'seed', 'versions', 'large'].map((name) => rungsheet.lesson[name])"
    page.browser.evaluate("rungsheet.lesson.change({ seed: 57, versions: 3, large: 18 });")
    page.clicks("[data-lesson=sharing]")
    assert page.sees(shown) == ["sharing.yaml", 1, 1, 18]
    page.clicks("#undo")
    assert page.spec == DEMO
    assert page.sees(shown) == ["produce-stall.yaml", 57, 3, 18]
    page.clicks("#redo")
    assert page.spec == specs.shipped_text("sharing")
    assert page.sees(shown) == ["sharing.yaml", 1, 1, 18]
    page.clicks("#undo")
    page.clicks("[data-lesson=produce-stall]")  # the same text: its seed is another
    assert page.sees(shown) == ["produce-stall.yaml", 1, 1, 18]
    page.clicks("#undo")
    assert page.sees(shown) == ["produce-stall.yaml", 57, 3, 18]


@pytest.mark.slow
def test_nothing_of_the_lesson_before_is_left_where_another_cannot_be_read(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    before = page.text_of("#title")
    assert page.sees("document.querySelectorAll('.strips .strip').length") > 0
    page.browser.evaluate("rungsheet.lesson.open('ladder: [', 'own.yaml');")
    page.until("document.querySelector('#spec-problems .problem')")
    assert page.text_of("#title") == "Rungsheet"
    assert page.sees("document.title") == "Rungsheet"
    assert page.sees("document.getElementById('lesson-title').value") == ""
    assert page.sees("document.querySelectorAll('.strips .strip, .shares td').length") == 0
    page.until("!document.querySelector('.preview-pages .picture')")
    page.goes("sheets")
    page.until("document.querySelector('.pages .problems')")
    page.goes("in-class")
    page.until("document.querySelector('#place-in-class .problems li')")
    page.goes("marks")
    assert page.text_of("#place-marks .of") == ""
    page.goes("lesson")
    page.clicks("#undo")
    page.until("document.querySelectorAll('.strips .strip').length > 0")
    page.until("document.querySelector('.preview-pages .picture')")
    page.until(f"document.getElementById('title').textContent === {json.dumps(before)}")
    page.clicks("#toggle-text")


def drawn_again_while_typing(page: Teacher, field: str, first: str) -> None:
    """A count is changed, and a text begun in a field when the page is drawn again for it."""
    occupied(page)
    page.clicks(CORE.format("over-the-point"))
    page.presses("Control+a")
    page.types("4")
    page.clicks(field)
    page.presses("Control+a")
    page.types(first)
    page.browser.evaluate("window.before = document.activeElement;")
    page.until(f"rungsheet.lesson.text === {json.dumps(CHANGED)}")
    page.at_rest()
    assert page.sees("document.activeElement.value") == first


CHANGED = editing.set_count(DEMO, "core", "over-the-point", 4)


@pytest.mark.slow
@pytest.mark.parametrize("rest", ["2", ""])
def test_a_count_is_typed_while_the_table_is_drawn_again(
    page_as_opened: Teacher, rest: str
) -> None:
    """Whether or not more is typed after that."""
    page = page_as_opened
    drawn_again_while_typing(page, CORE.format("through-zeros"), "1")
    assert not page.sees("window.before.isConnected"), "it was another table that was typed in"
    page.types(rest)
    page.presses("Tab")
    wanted = editing.set_count(CHANGED, "core", "through-zeros", int(f"1{rest}"))
    page.until(f"rungsheet.lesson.text === {json.dumps(wanted)}")
    page.at_rest()
    assert page.spec == wanted


@pytest.mark.slow
def test_a_count_that_is_refused_gives_way_to_the_one_before(page_as_opened: Teacher) -> None:
    """Also by Enter, which leaves the focus where it is."""
    page = page_as_opened
    name = "multiplying-by-the-grid"
    spec = json.dumps(specs.shipped_text(name))
    page.browser.evaluate(f"rungsheet.lesson.open({spec}, '{name}.yaml')")
    page.at_rest()
    page.reaches('[data-key="ones-and-tenths practice"]')
    before = page.sees("document.activeElement.value")
    page.presses("Control+a")
    page.types("40")
    page.presses("Enter")
    page.until("document.querySelector('.shares .why').textContent !== ''")
    assert page.sees("document.activeElement.dataset.key") == "ones-and-tenths practice"
    assert page.sees("document.activeElement.value") == before


@pytest.mark.slow
def test_the_title_and_the_seed_are_typed_while_a_change_is_under_way(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    drawn_again_while_typing(page, "#lesson-title", "Be")
    page.types("ans")
    page.presses("Tab")
    wanted = editing.set_title(CHANGED, "Beans")
    page.until(f"rungsheet.lesson.text === {json.dumps(wanted)}")
    page.browser.evaluate(f"rungsheet.lesson.change({{ text: {json.dumps(DEMO)} }});")
    page.at_rest()
    drawn_again_while_typing(page, "#seed", "5")
    page.types("7")
    page.presses("Tab")
    assert page.sees("rungsheet.lesson.seed") == 57


@pytest.mark.slow
def test_a_rung_is_named_while_the_ladder_is_drawn_again(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.presses_button("[data-rung=equal-places] .strip-head")
    page.until("document.querySelector('.strip-body [data-key=name]')")
    page.at_rest()
    drawn_again_while_typing(page, ".strip-body [data-key=name]", "Le")
    page.types("vel")
    page.presses("Tab")
    wanted = editing.rename_rung(CHANGED, "equal-places", "Level")
    page.until(f"rungsheet.lesson.text === {json.dumps(wanted)}")
    page.at_rest()
    page.presses_button("[data-rung=level] .strip-head", "Shift+Tab")


@pytest.mark.slow
def test_a_list_is_gone_through_by_key_while_the_ladder_is_drawn_again(
    page_as_opened: Teacher,
) -> None:
    """Each step goes on from where the last one was, drawn again or not."""
    page = page_as_opened
    page.presses_button("[data-rung=equal-places] .strip-head")
    page.until("document.querySelector('.strip-body [data-key=addends]')")
    page.at_rest()
    at = "document.querySelector('.strip-body [data-key=addends]').selectedIndex"
    begun = page.sees(at)
    page.reaches("[data-key=addends]")
    page.browser.evaluate(_PAUSES_ARE_LONG)
    page.presses("ArrowDown")
    changed = json.dumps(CHANGED)
    page.browser.evaluate(f"rungsheet.lesson.change({{ text: {changed} }});")
    page.until("!window.before.isConnected")
    page.browser.evaluate("window.setTimeout = window.usual;")
    page.presses("ArrowDown")
    assert page.sees(at) == begun + 2
    wanted = editing.set_word(CHANGED, "equal-places", "addends", 4)
    page.until(f"rungsheet.lesson.text === {json.dumps(wanted)}")
    page.at_rest()
    page.presses_button("[data-rung=equal-places] .strip-head", "Shift+Tab")


@pytest.mark.slow
def test_marks_take_the_place_of_others_while_a_cell_of_those_has_the_focus(
    page_as_opened: Teacher,
) -> None:
    """The cell is left as it goes, which is nothing to the marks that are there then."""
    page = page_as_opened
    said = len(page.browser.tell("said"))
    page.goes("marks")
    page.until("!document.getElementById('begin-marks').disabled")
    page.presses_button("#begin-marks")
    page.until("document.activeElement.matches('.marks-grid input')")
    page.browser.evaluate(
        """
        const text = "pupil,question,written\\n1,core,\\n2,core.b,4.1\\n";
        const pasted = new Event("paste", { bubbles: true, cancelable: true });
        pasted.clipboardData = { getData: () => text };
        document.activeElement.dispatchEvent(pasted);
        """
    )
    page.until("document.querySelectorAll('.marks-grid tbody tr').length === 2")
    page.until("document.getElementById('findings').textContent.includes('Of 2 pupils')")
    assert page.browser.tell("said")[said:] == []
    page.clicks("#forget")
    page.clicks("#forget")
