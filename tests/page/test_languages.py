"""The page in other languages than English: every text, at once, and nothing lost by it."""

import json
import shutil
import subprocess
from functools import cache
from pathlib import Path
from typing import Any, Final

import pytest

from rungsheet.desk import ready
from rungsheet.page.gather import SHELL
from specs.languages.language import LANGUAGES, language
from tests.page.teacher import DEMO, PLACES, Teacher

WORDS: Final = Path(__file__).with_name("words.mjs")

ALIKE: Final = {
    "frame.name",  # the name of the program
    "frame.key",  # a key: it is the same on a German keyboard
    "engine.ready",  # nothing
    "lesson.rung_name",  # Name
    "lesson.count_of",  # in
    "lesson.text",  # Text
    "in_class.keys.2.0",  # a key, as are the next three
    "in_class.keys.3.0",
    "in_class.keys.4.0",
    "in_class.keys.6.0",
    "find.code",  # Code
}
"""The texts that are the same in German."""

GERMAN_LESSON: Final = DEMO.replace("\ntitle:", "\npages: {language: German}\ntitle:", 1)

SHOWN: Final = """
    const there = [];
    const own = (element) => !element.closest("#languages, #licences, script, style") &&
        (%s || !element.closest("[lang]:not(html)")?.lang.startsWith("en"));
    const walker = document.createTreeWalker(document.body, 1 | 4);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        if (!own(node.nodeType === 3 ? node.parentElement : node)) continue;
        if (node.nodeType === 3) there.push(node.data);
        else for (const name of ["aria-label", "title", "placeholder"])
            if (node.hasAttribute(name)) there.push(node.getAttribute(name));
    }
    return there.map((text) => text.trim()).filter((text) => text !== "");
"""
"""Every text of the page and its labels, seen or not; those in English only where that is asked."""


OF_CONTROLS: Final = """
    const all = [...document.querySelectorAll(".strip-says, .strip-body *, .settings *")];
    return all.flatMap((one) => [
        ...[...one.childNodes].filter((node) => node.nodeType === 3).map((node) => node.data),
        ...["aria-label", "title"].map((name) => one.getAttribute(name) ?? ""),
    ]);
"""
"""Every text of what rungs ask, of an open rung's controls and of the settings, with labels."""


@cache
def catalogues() -> list[dict[str, Any]]:
    """The page's texts in each language, English first."""
    found: list[dict[str, Any]] = json.loads(_told())
    return found


def _told(*words: str, given: str = "") -> str:
    if shutil.which("node") is None:
        pytest.skip("the page is not tried: Node.js is missing: install it (18 or later)")
    done = subprocess.run(
        ["node", str(WORDS), *words], input=given, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_every_language_has_the_same_texts_with_the_same_gaps() -> None:
    english, *others = catalogues()
    shapes = {name: one.get("takes") for name, one in english["words"].items()}
    assert others
    for other in others:
        assert {name: one.get("takes") for name, one in other["words"].items()} == shapes


def test_every_file_of_words_is_spoken_and_languages_are_called_as_in_specs() -> None:
    files = sorted(SHELL.glob("words*.mjs"))
    assert len(files) == len(catalogues())
    for one in catalogues():
        assert LANGUAGES[one["in_specs"]] == one["language"]


def test_no_text_in_german_is_left_in_english() -> None:
    english, german = (one["words"] for one in catalogues())
    same = {
        name
        for name, one in english.items()
        if one == german[name] and any(map(_has_letters, one.get("parts", ["any text"])))
    }
    assert same == ALIKE


def _has_letters(text: str) -> bool:
    return any(map(str.isalpha, text))


GUESSES: Final = (
    (["en-US", "en"], None, True, "en-GB"),
    (["de-AT", "en"], None, True, "de-DE"),
    (["fr-FR", "DE", "en"], None, True, "de-DE"),
    (["fr"], None, True, "en-GB"),
    ([], None, True, "en-GB"),
    (None, None, True, "en-GB"),
    (["en-US"], "de-DE", True, "de-DE"),
    (["de"], "en-GB", True, "en-GB"),
    (["de"], "tlh", True, "de-DE"),
    (["de"], "en-GB", False, "de-DE"),
)
"""What a browser's reader reads, what was chosen before in this session, whether the browser keeps
that, and the language in which the page begins."""


def test_the_page_speaks_as_was_chosen_or_else_as_the_browser_reads() -> None:
    given = [
        {"languages": languages, "kept": kept, "keeps": keeps}
        for languages, kept, keeps, _ in GUESSES
    ]
    found = json.loads(_told("guess", given=json.dumps(given)))
    assert found == [[speaks, speaks] for *_, speaks in GUESSES]


def english_left(shown: list[str]) -> list[str]:
    """The texts in which something of the English catalogue stands that German has not."""
    english, german = (one["words"] for one in catalogues())
    texts = {one["text"].strip() for one in english.values() if "text" in one}
    texts -= {one["text"].strip() for one in german.values() if "text" in one}
    parts = {part for one in english.values() for part in one.get("parts", ())}
    parts -= {part for one in german.values() for part in one.get("parts", ())}
    words = [f" {' '.join(_words(part))} " for part in parts if _has_letters(part)]
    return [
        text
        for text in shown
        if text in texts or any(word in f" {' '.join(_words(text))} " for word in words)
    ]


def _words(text: str) -> list[str]:
    return "".join(sign if sign.isalnum() else " " for sign in text).split()


def speaks(page: Teacher, key: str, language: str) -> None:
    """Choose the language before or after the one that is spoken, by keys."""
    page.reaches("#language", "Shift+Tab")
    page.presses(key)
    page.until(f"document.documentElement.lang === '{language}'")


def of_controls(page: Teacher) -> set[str]:
    """What rungs and settings say in words, without counts and what is the teacher's own."""
    page.goes("lesson")
    page.until("document.querySelector('[data-key=\"setting land\"]')")
    page.until("document.querySelector('[data-key=addends]')")
    texts = {text.partition("  (")[0].strip() for text in page.browser.evaluate(OF_CONTROLS)}
    own = {"Mixed places", "Name", "England", "Punkt"}
    return {text for text in texts if _has_letters(text) and not any(o in text for o in own)}


def meanings(page: Teacher) -> list[str]:
    """What words mean: in any language words of specs stand in that as they are."""
    found: list[str] = page.browser.read(
        "[...document.querySelectorAll('.row-says')].map((e) => e.textContent)"
    )
    return found


def all_but_counts(page: Teacher) -> list[str]:
    """Every text of the page, without the counts of an open rung, which come a few at a time."""
    return [text.partition("  (")[0] for text in page.browser.evaluate(SHOWN % "true")]


def forgets_marks(page: Teacher) -> None:
    """Forget the marks, where there are any."""
    page.browser.evaluate(
        """
        const forget = document.getElementById("forget");
        if (!forget.disabled) for (let press = 0; press < 2; press += 1) forget.click();
        """
    )


def has_used_every_place(page: Teacher) -> None:
    """Have something shown at each place: a rung, what is wrong, moments, marks, a refusal."""
    page.goes("lesson")
    page.browser.evaluate(
        """
        document.querySelector(".settings").open = true;
        const head = document.querySelector("[data-rung=mixed-places] .strip-head");
        if (head.getAttribute("aria-expanded") === "false") head.click();
        """
    )
    page.until("document.querySelector('[data-key=\"setting land\"]')")
    page.until("document.querySelector('[data-key=addends]')")
    page.goes("sheets")
    page.until("document.querySelector('.questions li')")
    page.goes("in-class")
    page.until("!document.getElementById('begin').disabled")
    page.presses_button("#begin")
    page.presses("PageDown")
    page.presses("Escape")
    page.goes("marks")
    forgets_marks(page)
    page.presses_button("#begin-marks")
    page.until("document.activeElement.matches('.marks-grid input')")
    for typed in ("fehlt", "away", "c"):
        page.types(typed)
        page.presses("Enter")
    page.types("nothing such")
    page.presses("Enter")
    page.until("document.querySelectorAll('#unread li').length === 1")
    page.until("document.querySelector('.groups')")
    page.goes("find")
    page.reaches("#code")
    page.presses("Control+a")
    page.types("BBBB-BB-B-B-B")
    page.presses("Enter")
    page.until("document.getElementById('found').textContent.includes('BBBB')")


@pytest.mark.slow
def test_the_whole_page_speaks_german_at_once_and_english_again(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.opens()  # no marks of another test
    page.browser.evaluate(f"rungsheet.lesson.change({{ text: {json.dumps(GERMAN_LESSON)} }})")
    page.at_rest()
    has_used_every_place(page)
    before = all_but_counts(page)
    asked = of_controls(page)
    assert {"addends", "not said", "not in", "carries: from"} <= asked
    page.goes("find")
    cells = """document.querySelectorAll('[data-column="1"]')"""
    away = f"[...{cells}].slice(0, 3).map((one) => one.value)"
    assert page.sees(away) == ["absent", "absent", "core"]

    speaks(page, "ArrowDown", "de-DE")
    for place in PLACES:
        page.goes(place)
        shown = page.browser.evaluate(SHOWN % "false")
        assert english_left([text for text in shown if text not in meanings(page)]) == [], place
        assert catalogues()[1]["words"][f"places.{place}"]["text"] in shown
    asked_in_german = of_controls(page)
    assert {"Anzahl der Summanden", "offen", "nicht in", "Überträge: von"} <= asked_in_german
    headings = {text for text in asked if text.startswith(("Einstieg", "Beispiele", "Übung"))}
    assert asked_in_german & asked == {*headings, "in"}  # the headings of a lesson in German
    assert page.sees("document.querySelector('.ladder [lang|=en], .settings [lang|=en]') === null")
    assert page.sees(away) == ["fehlt", "fehlt", "core"]
    assert page.spec == GERMAN_LESSON
    page.goes("in-class")
    page.until("!document.getElementById('go-on').disabled")
    page.presses_button("#go-on")
    assert page.text_of("#show .where") == "Einstieg: Ergebnisse · 1 von 6"
    page.presses("Escape")

    page.goes("find")
    assert page.sees("document.getElementById('code').value") == "BBBB-BB-B-B-B"
    speaks(page, "ArrowUp", "en-GB")
    assert all_but_counts(page) == before
    assert page.sees("sessionStorage.length") == 0
    forgets_marks(page)
    page.browser.evaluate("document.querySelector('.settings').open = false")


@pytest.mark.slow
def test_what_pupils_read_in_class_is_in_the_language_of_the_lesson(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    page.browser.evaluate(f"rungsheet.lesson.change({{ text: {json.dumps(GERMAN_LESSON)} }})")
    page.at_rest()
    page.goes("in-class")
    page.until("!document.getElementById('begin').disabled")
    page.presses_button("#begin")
    while not page.sees("document.querySelector('#show .whose') !== null"):
        page.presses("PageDown")
    assert page.text_of("#show .whose") == "Jetzt du"
    assert page.sees("document.querySelector('#show .stage').lang") == "de-DE"
    assert page.text_of("#show-back") == "Back"
    page.presses("Escape")


@pytest.mark.slow
def test_what_the_engine_says_of_marks_and_sheets_is_said_in_german(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    page.opens()
    has_used_every_place(page)
    speaks(page, "ArrowDown", "de-DE")
    page.goes("marks")
    assert "Als Nächstes: Bed areas." in page.text_of("#findings .groups")
    assert page.sees("document.querySelectorAll('.found [lang], .head [lang]').length") == 0
    page.goes("find")
    assert page.text_of("#found").startswith("'BBBB-BB-B-B-B' ist kein Code einer Seite: ")
    assert page.sees("document.querySelectorAll('#found [lang]').length") == 0
    page.goes("marks")
    forgets_marks(page)
    speaks(page, "ArrowUp", "en-GB")


@pytest.mark.slow
def test_a_lesson_that_ships_is_listed_and_opened_in_the_language_of_the_page(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    page.opens()
    page.until("document.querySelectorAll('.ready li').length > 10")
    titles = "[...document.querySelectorAll('.ready button')].map((one) => one.textContent)"
    english = page.sees(titles)
    assert english[0] == "Produce stall: written calculation with decimals"
    assert english[1:] == sorted(english[1:])
    speaks(page, "ArrowDown", "de-DE")
    german = page.sees(titles)
    assert german[0] == "Gemüsestand: schriftlich rechnen mit Dezimalzahlen"
    assert not set(german) & set(english)
    assert german[1:] == sorted(german[1:], key=lambda title: title.replace("Ü", "U").lower())
    page.presses_button("[data-lesson=adding-then-taking-away]")
    page.until("rungsheet.lesson.title === 'Dezimalzahlen addieren, dann subtrahieren'")
    assert page.spec == ready.text("adding-then-taking-away", language("German"))
    same = "textContent === 'Gleich viele Stellen'"
    page.until(f"document.querySelector('.strip-name').{same}")
    page.until(f"document.querySelector('.shares th[scope=row]').{same}")

    page.presses_button("[data-lesson=produce-stall]", "Shift+Tab")
    page.until("rungsheet.lesson.title.startsWith('Gemüsestand')")
    page.goes("sheets")
    files = "[...document.querySelectorAll('.files button')].map((one) => one.textContent)"
    page.until(f"{files}.includes('Übung Grundlagen')")
    assert {"Übung Grundlagen", "Übung Standard", "Übung Vertiefung"} <= set(page.sees(files))
    page.goes("marks")
    page.presses_button("#begin-marks")
    page.until("document.activeElement.matches('.marks-grid input')")
    for typed in ("g", "core", "übung vertiefung", "mitte"):
        page.types(typed)
        page.presses("Enter")
    second = """document.querySelectorAll('[data-column="1"]')"""
    had = page.sees(f"[...{second}].slice(0, 4).map((one) => one.value)")
    assert had == ["Grundlagen", "Standard", "Vertiefung", "mitte"], "as pupils' sheets are called"
    for row, said in ((0, "Kind 1: Grundlagen a:"), (1, "Kind 2: Standard a:")):
        practice = f"""document.querySelector('[data-row="{row}"][data-column="8"]')"""
        page.browser.evaluate(f"{practice}.focus()")
        page.until(f"document.querySelector('.cell').textContent.startsWith('{said}')")
    page.until("document.querySelectorAll('#unread li').length === 1")
    assert "Grundlagen, Standard, Vertiefung" in page.text_of("#unread li")
    forgets_marks(page)
    page.goes("lesson")
    speaks(page, "ArrowUp", "en-GB")
    assert page.sees(titles) == english
    page.presses_button("[data-lesson=produce-stall]")
    page.until("rungsheet.lesson.title.startsWith('Produce stall')")
    assert page.spec == DEMO
