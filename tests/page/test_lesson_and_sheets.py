"""A lesson shaped and its sheets saved, as a teacher does it, beside what the desk says."""

import base64
import io
import json
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from rungsheet.desk import archive, choices, editing, packs, rungs, specs
from tests.page.browser import Browser
from tests.page.looking import complaints

DEMO = specs.shipped_text()
A4 = (595.28, 841.89)

_SAVED = """
    window.saved = [];
    const made = URL.createObjectURL;
    URL.createObjectURL = (blob) => {
        if (blob.type !== "text/javascript") window.saved.push(blob);  // the worker's program
        return made.call(URL, blob);
    };
"""


@pytest.fixture(scope="module")
def page(browser: Browser, made: Path) -> Iterator[Browser]:
    """The page opened anew, as large as a small laptop's screen."""
    browser.tell("size", 1366, 768)
    browser.open(made.as_uri())
    browser.evaluate(_SAVED)
    yield browser
    assert browser.evaluate("return window.violations") == []


def test_a_sheet_is_there_before_the_engine(page: Browser) -> None:
    """It is in the file: nothing needs to have run."""
    shown = page.evaluate(
        "const { width, height } = document.querySelector('#first-sheet svg, .preview .picture')"
        ".getBoundingClientRect(); return Math.min(width, height)"
    )
    assert shown > 200
    page.ready()
    page.until("document.querySelectorAll('.strip').length > 0 && rungsheet.lesson.spec")


def text_of_spec(page: Browser) -> str:
    """The text of the spec, which the field shows too."""
    text, shown = page.evaluate(
        "return [rungsheet.lesson.text, document.getElementById('spec-text').value]"
    )
    assert text == shown
    return str(text)


def choose(page: Browser, key: str, at: int) -> None:
    """Choose in a list of choices, as its user does."""
    page.evaluate(
        f"""
        const list = document.querySelector('[data-key="{key}"]');
        list.focus();
        list.value = {at};
        list.dispatchEvent(new Event("change", {{ bubbles: true }}));
        """
    )


def is_narrow_enough(page: Browser) -> bool:
    """Whether nothing makes the whole page wider than the screen."""
    return bool(page.evaluate("return document.documentElement.scrollWidth <= innerWidth"))


def test_every_rung_is_a_strip_with_its_exact_number(page: Browser) -> None:
    strips = page.evaluate(
        "return [...document.querySelectorAll('.strip')].map((strip) => "
        "[strip.dataset.rung, strip.querySelector('.strip-count').textContent])"
    )
    views = rungs.count(specs.read(DEMO))
    assert strips == [[view.rung.name, f"{view.questions:,} questions"] for view in views]
    assert complaints(page) == []


def test_a_rung_opened_by_key_says_what_each_choice_would_leave(page: Browser) -> None:
    page.evaluate("document.querySelector('.strip-head').focus()")
    page.tell("press", "Enter")
    page.until("document.querySelector('.strip-body[data-counted]')")
    for _ in range(3):  # the next field is in the strip: its name, then what to do with it
        page.tell("press", "Tab")
    assert page.evaluate("return document.activeElement.closest('.strip').dataset.rung") == (
        "equal-places"
    )
    spec = specs.read(DEMO)
    left = choices.left(spec, "equal-places", "addends", iter([None, 2, 3]))
    told = page.evaluate(
        "return [...document.querySelector('[data-key=addends]').options]"
        ".slice(0, 3).map((option) => option.textContent)"
    )
    counts = [f"({one.count:,})" for one in left]
    assert told == [f"not said  {counts[0]}", "2", f"3  {counts[2]}"]
    assert complaints(page) == []


def test_a_choice_changes_its_value_in_the_text_and_nothing_else(page: Browser) -> None:
    at = page.evaluate(
        "return [...document.querySelector('[data-key=carries]').options]"
        ".findIndex((option) => option.textContent.startsWith('some'))"
    )
    choose(page, "carries", at)
    page.until(f"rungsheet.lesson.text !== {json.dumps(DEMO)}")
    assert text_of_spec(page) == editing.set_word(DEMO, "equal-places", "carries", "some")
    page.until("document.querySelector('.strip-count').textContent.startsWith('292,775')")
    page.evaluate("document.getElementById('undo').click()")
    assert text_of_spec(page) == DEMO


def test_what_cannot_be_is_refused_with_the_reason(page: Browser) -> None:
    page.until("document.querySelector('.strip-count').textContent.startsWith('35,680')")
    page.evaluate("document.querySelectorAll('.strip-head')[3].click()")
    page.until("document.querySelector('[data-row=exchanges]')")
    choose(page, "places", 2)  # one decimal place, and an exchange through two noughts
    page.until("document.querySelector('[data-row=places] .why').textContent !== ''")
    why = page.evaluate("return document.querySelector('[data-row=places] .why').textContent")
    assert "no question of through-zeros" in why
    assert text_of_spec(page) == DEMO


def test_questions_are_shared_out_in_a_table(page: Browser) -> None:
    page.evaluate(
        """
        const field = document.querySelector('[data-key="over-the-point core"]');
        field.value = 4;
        field.dispatchEvent(new Event("change", { bubbles: true }));
        """
    )
    page.until(f"rungsheet.lesson.text !== {json.dumps(DEMO)}")
    assert text_of_spec(page) == editing.set_count(DEMO, "core", "over-the-point", 4)
    page.evaluate("document.getElementById('undo').click()")


def test_a_part_may_find_out_habits(page: Browser) -> None:
    box = "document.querySelector('[data-key=\"finds out starter\"]')"
    assert page.evaluate(f"return {box}.checked") is False
    page.evaluate(f"{box}.click()")
    page.until(f"rungsheet.lesson.text !== {json.dumps(DEMO)}")
    assert text_of_spec(page) == editing.set_finding_out(DEMO, "starter", True)
    page.until(f"{box}.checked")
    page.evaluate(f"{box}.click()")
    page.until(f"rungsheet.lesson.text === {json.dumps(DEMO)}")


def test_a_mistake_in_the_text_is_shown_at_its_line(page: Browser) -> None:
    page.evaluate("document.getElementById('toggle-text').click()")
    wrong = DEMO.replace("addends: 3", "addends: three")
    page.evaluate(
        f"""
        const field = document.getElementById("spec-text");
        field.value = {json.dumps(wrong)};
        field.dispatchEvent(new Event("input", {{ bubbles: true }}));
        """
    )
    page.until("document.querySelector('#spec-problems .problem')")
    line = wrong[: wrong.index("three")].count("\n") + 1
    told = page.evaluate("return document.querySelector('#spec-problems .problem').textContent")
    assert told.startswith(f"Line {line}: 'addends' cannot be 'three'; write")
    page.evaluate("document.querySelector('#spec-problems .problem').click()")
    assert (
        page.evaluate(
            "const { value, selectionStart, selectionEnd } = document.activeElement;"
            "return value.slice(selectionStart, selectionEnd)"
        )
        .strip()
        .startswith("addends: three")
    )
    assert page.evaluate("return document.querySelector('.strips').inert")
    assert complaints(page) == []
    page.evaluate("document.getElementById('undo').click()")
    page.until("!document.querySelector('.strips').inert")
    assert text_of_spec(page) == DEMO


@pytest.mark.parametrize("size", [(1366, 768), (1024, 640), (683, 384)])  # the last: at 200 %
def test_lesson_and_sheets_fit_their_screen(page: Browser, size: tuple[int, int]) -> None:
    page.tell("size", *size)
    for place in ("lesson", "sheets"):
        page.evaluate(f"rungsheet.lesson.go('{place}')")
        assert is_narrow_enough(page), (place, size)
    page.tell("size", 1366, 768)


def shown(page: Browser, file: str) -> None:
    """Go to a sheet."""
    page.evaluate("rungsheet.lesson.go('sheets')")
    page.until(f"document.querySelector('[data-file=\"{file}\"]')")
    page.evaluate(f"document.querySelector('button[data-file=\"{file}\"]').click()")
    page.until(f"document.querySelector('.pages').dataset.file === '{file}'")


def saved(page: Browser, button: str) -> bytes:
    """What a button saves."""
    page.evaluate(f"window.saved.length = 0; document.getElementById('{button}').click()")
    page.until("window.saved.length > 0")
    sent: Any = page.evaluate(
        """
        const bytes = new Uint8Array(await window.saved.at(-1).arrayBuffer());
        let signs = "";
        for (let at = 0; at < bytes.length; at += 32768)
            signs += String.fromCharCode(...bytes.subarray(at, at + 32768));
        return btoa(signs);
        """
    )
    return base64.b64decode(sent)


def test_sheets_are_saved_as_the_command_line_makes_them(page: Browser) -> None:
    shown(page, "practice-core.pdf")
    assert complaints(page) == []
    built = packs.build(specs.read(DEMO, "produce-stall.yaml"))
    assert saved(page, "save-pdf") == built.drawn("practice-core.pdf").data
    whole = saved(page, "save-zip")
    assert whole == archive.zipped(built.files(), "produce-stall-1")
    with zipfile.ZipFile(io.BytesIO(whole)) as found:
        assert len(found.namelist()) == len(built.files())
    assert saved(page, "save-spec") == DEMO.encode()


def test_one_question_is_changed_and_kept_while_others_change(page: Browser) -> None:
    shown(page, "practice-core.pdf")
    page.until("document.querySelector('.questions [data-label=c]')")
    page.evaluate("document.querySelector('.questions [data-label=c] button').click()")
    page.until("document.querySelector('.questions .kept')")
    kept = editing.another(DEMO, 1, 1, "core", "c")
    assert page.evaluate("return rungsheet.lesson.text") == kept
    questions = (
        "return [...document.querySelectorAll('.question-text')].map((one) => one.textContent)"
    )
    before = page.evaluate(questions)
    page.evaluate("document.getElementById('another').click()")
    page.until(f"document.querySelector('.question-text').textContent !== {json.dumps(before[0])}")
    after = page.evaluate(questions)
    assert after[2] == before[2]
    assert after[2].endswith("(kept)")
    assert sum(one != other for one, other in zip(before, after, strict=True)) >= 7
    page.evaluate(
        f"rungsheet.lesson.change({{ text: {json.dumps(DEMO)}, seed: 1 }})",
    )


def test_a_class_set_shows_how_far_it_is_and_can_be_stopped(page: Browser) -> None:
    page.evaluate("document.getElementById('save-class-set').click()")
    page.until("document.querySelector('.working progress').value > 0")
    assert page.evaluate("return document.querySelector('.working').hidden") is False
    page.evaluate("document.getElementById('stop').click()")
    page.until("document.querySelector('.working').hidden")
    assert page.evaluate("return document.getElementById('state').textContent") == "Stopped."
    page.until("document.body.dataset.engine !== 'starting'")


def test_pages_are_printed_at_their_size(page: Browser, tmp_path: Path) -> None:
    """A browser's own print of the page: only the sheets, each on a page of its own."""
    page.evaluate("window.print = () => { window.printed = true; }")
    shown(page, "practice-core.pdf")
    page.evaluate("document.getElementById('print').click()")
    page.until("window.printed")
    page.tell("print", str(tmp_path / "printed.pdf"))
    drawn = packs.build(specs.read(DEMO)).drawn("practice-core.pdf")
    with (
        pdfplumber.open(io.BytesIO(drawn.data)) as ours,
        pdfplumber.open(tmp_path / "printed.pdf") as printed,
    ):
        assert len(printed.pages) == len(ours.pages)
        for mine, its in zip(ours.pages, printed.pages, strict=True):
            assert (its.width, its.height) == pytest.approx(A4, abs=1)
            places = [place(one) for one in (*its.lines, *its.rects, *its.curves)]
            for line in mine.lines:  # the squares' too
                assert any(place(line) == pytest.approx(one, abs=0.05) for one in places)


def place(drawn: dict[str, float]) -> tuple[float, ...]:
    """Where something stands on a page, in points."""
    return tuple(drawn[side] for side in ("x0", "top", "x1", "bottom"))
