"""Files that are no lesson or cannot be read, files dropped, and the page left with work in it."""

import json
from pathlib import Path

import pytest

from specs.yaml_text import LARGEST
from tests.page.browser import browsing
from tests.page.teacher import DEMO, Teacher

SAID = "document.getElementById('state').textContent"


def dropped(page: Teacher, place: str, name: str, text: str) -> bool:
    """Drop a file on a place; whether the browser would leave the page for it."""
    return bool(
        page.browser.evaluate(
            f"""
            const dataTransfer = new DataTransfer();
            dataTransfer.items.add(new File([{json.dumps(text)}], {json.dumps(name)}));
            const host = document.getElementById("place-{place}");
            const given = {{ dataTransfer, bubbles: true, cancelable: true }};
            const went = ["dragover", "drop"].map((name) =>
                host.dispatchEvent(new DragEvent(name, given)));
            return went.some(Boolean);
            """
        )
    )


@pytest.mark.slow
def test_a_file_that_is_no_lesson_is_refused_in_words(
    page_as_opened: Teacher, tmp_path: Path
) -> None:
    page = page_as_opened
    for name, data, why in (
        ("long.yaml", b"#" * (LARGEST + 1), "has 256 KiB at most"),
        ("sheet.pdf", b"%PDF-1.7\n\0", "opened at Find a sheet"),
    ):
        (tmp_path / name).write_bytes(data)
        page.opens_file("#open-spec", tmp_path / name)
        page.until(f"{SAID}.includes({json.dumps(why)})")
        assert page.sees(SAID).startswith(f"{name} is ")
        assert page.spec == DEMO
    (tmp_path / "most.yaml").write_bytes(DEMO.encode().ljust(LARGEST, b"#"))
    page.opens_file("#open-spec", tmp_path / "most.yaml")
    page.until("rungsheet.lesson.name === 'most.yaml'")
    page.until("rungsheet.lesson.title.startsWith('Produce stall')")


@pytest.mark.slow
def test_a_dropped_file_never_leaves_the_page_and_a_lesson_is_opened(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    for place in ("sheets", "in-class", "marks", "find"):
        page.goes(place)
        assert not dropped(page, place, "own.yaml", "title: Beans")
        assert page.sees("rungsheet.lesson.text") == DEMO
    page.goes("lesson")
    own = DEMO.replace("Produce stall", "Beans")
    assert not dropped(page, "lesson", "own.yaml", own)
    page.until("rungsheet.lesson.title.startsWith('Beans')")
    assert page.sees("rungsheet.lesson.name") == "own.yaml"
    assert page.spec == own


@pytest.mark.slow
def test_a_file_that_cannot_be_read_is_said_wherever_it_is_opened(page_as_opened: Teacher) -> None:
    """Moved, or on a stick that was taken out, since it was chosen."""
    page = page_as_opened
    page.browser.evaluate(
        """
        window.usual = Blob.prototype.arrayBuffer;
        Blob.prototype.arrayBuffer = () => Promise.reject(new DOMException("", "NotReadableError"));
        """
    )
    try:
        for place in ("lesson", "marks", "find"):
            page.goes(place)
            dropped(page, place, "gone.yaml", DEMO)
            page.until("document.body.innerText.includes('gone.yaml could not be read')")
    finally:
        page.browser.evaluate("Blob.prototype.arrayBuffer = window.usual;")
    page.browser.evaluate(
        "document.querySelectorAll('.problems').forEach((one) => one.replaceChildren());"
    )


@pytest.mark.slow
def test_a_changed_lesson_holds_the_page_back_until_it_is_saved(page_as_opened: Teacher) -> None:
    page = page_as_opened

    def may_go() -> bool:
        script = "return dispatchEvent(new Event('beforeunload', { cancelable: true }))"
        return bool(page.browser.evaluate(script))

    assert may_go()
    changed = json.dumps(DEMO.replace("Produce stall", "Beans"))
    page.browser.evaluate(f"rungsheet.lesson.change({{ text: {changed} }});")
    assert not may_go()
    page.clicks("#undo")
    assert may_go()
    page.clicks("#redo")
    assert not may_go()
    page.clicks("[data-lesson=sharing]")
    assert may_go()
    page.clicks("#undo")  # the changed one is there again
    assert not may_go()
    page.clicks("#save-lesson")
    page.saved()
    assert may_go()
    page.clicks("#undo")  # as it ships, though it was saved otherwise
    assert may_go()
    for place, save in (("sheets", "#save-spec"), ("find", "#save-for-others")):
        page.browser.evaluate(f"rungsheet.lesson.change({{ text: {changed} + '# {place}' }});")
        assert not may_go()
        page.goes(place)
        page.clicks(save)
        page.saved()
        assert may_go()


@pytest.mark.slow
def test_an_engine_that_cannot_run_says_so_and_refuses_at_once(
    browser_name: str, made: Path, tmp_path: Path
) -> None:
    """In a browser of its own, with a page whose Python is damaged."""
    page = made.read_text("utf-8")
    head, mark, rest = page.partition('id="part-python_stdlib.zip"')
    assert mark
    start, close, rest = rest.partition(">")
    _, end, rest = rest.partition("</script>")
    damaged = tmp_path / "damaged.html"
    damaged.write_text(f"{head}{mark}{start}{close}AAAA{end}{rest}", "utf-8")
    with browsing(browser_name, tmp_path / "profile") as browser:
        browser.open(damaged.as_uri())
        browser.until("document.body.dataset.engine === 'broken'")
        cannot = "This browser cannot run the page."
        browser.until(f"{SAID}.startsWith('{cannot}')")
        why = browser.evaluate(
            "return rungsheet.lesson.edit('title', 'Beans').then(() => 'done', ({ why }) => why);"
        )
        assert why == "broken"
        browser.evaluate("rungsheet.lesson.say('');")
        browser.click("#lesson-title")
        browser.keys("Beans")
        browser.press("Tab")
        browser.until(f"{SAID}.startsWith('{cannot}')")
