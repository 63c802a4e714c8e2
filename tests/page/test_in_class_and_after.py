"""In class and after it: the lesson shown, marks typed, a sheet found again, by keys alone."""

import base64
import json
import re
import subprocess
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from generator.packs.likely_answers import likely_for
from rungsheet.desk import in_class, marks, packs, specs
from tests.page.browser import Browser, missing
from tests.page.looking import complaints
from tests.page.thrown import files_in, said_natively

DEMO = specs.shipped_text()
PUPILS = 28
DIGIT = 1490 / 2048
"""A digit's height, in ems (layouts/planning/typeface.py)."""

_SAVED = """
    window.saved = [];
    HTMLAnchorElement.prototype.click = () => {};  // no window of a browser takes the keys away
    const made = URL.createObjectURL;
    URL.createObjectURL = (blob) => {
        if (blob.type !== "text/javascript") window.saved.push(blob);  // the worker's program
        return made.call(URL, blob);
    };
"""


@pytest.fixture(scope="module")
def page(browser: Browser, made: Path) -> Iterator[Browser]:
    """The page opened anew, small as on a teacher's laptop, with what it saves kept in it."""
    browser.tell("size", 1366, 768)
    browser.open(made.as_uri())
    browser.evaluate(_SAVED)
    browser.ready()
    browser.until("rungsheet.lesson.title !== ''")
    yield browser
    assert browser.evaluate("return window.violations") == []


def text_of(page: Browser, selector: str) -> str:
    """The words of an element, with single spaces."""
    words = page.evaluate(f"return document.querySelector({json.dumps(selector)}).textContent")
    return " ".join(words.split())


def go(page: Browser, place: int) -> None:
    """Go to a place by its key."""
    page.evaluate(
        f"document.dispatchEvent(new KeyboardEvent('keydown', "
        f"{{ altKey: true, code: 'Digit{place}', bubbles: true }}))"
    )


def until(page: Browser, reached: Callable[[], bool], key: str) -> None:
    """Press a key until something is reached, and not for ever."""
    for _ in range(20):
        if reached():
            return
        page.tell("press", key)
    raise AssertionError(f"{key} does not get there")


def saved(page: Browser) -> bytes:
    """What the page saved last."""
    page.until("window.saved.length > 0")
    sent = page.evaluate(
        """
        const bytes = new Uint8Array(await window.saved.at(-1).arrayBuffer());
        window.saved.length = 0;
        return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
        """
    )
    return base64.b64decode(sent)


def test_a_lesson_is_shown_from_starter_to_answers(page: Browser) -> None:
    lesson = in_class.shown(packs.build(specs.read(DEMO)))
    (starter,) = (one for part in lesson.parts for one in part.asked)
    examples = [one for part in lesson.parts for one in part.examples]
    sheets = [one for part in lesson.parts for one in part.sheets]
    answered = [one for part in lesson.parts for one in part.answers]
    go(page, 3)
    page.until("!document.getElementById('begin').disabled")
    assert complaints(page) == []
    page.evaluate("document.getElementById('begin').focus()")
    page.tell("press", "Enter")
    page.until("!document.getElementById('show').hidden")

    where = "#show .where"
    assert text_of(page, where).startswith("Starter")
    assert complaints(page) == []
    height = "parseFloat(getComputedStyle(document.querySelector('#show .screen')).fontSize)"
    assert page.evaluate(f"return {height} / innerHeight") * DIGIT >= 1 / 12

    page.tell("press", "t")
    page.until("document.querySelector('#show .clock').textContent === '9:59'", 5)
    page.tell("press", "t")
    page.tell("press", "b")
    assert page.evaluate("return !document.querySelector('#show .black').hidden")
    page.tell("press", "b")
    assert page.evaluate("return document.querySelector('#show .black').hidden")

    answers = "[...document.querySelectorAll('#show .answer')]"
    seen = f"return {answers}.filter((one) => getComputedStyle(one).visibility === 'visible')"
    assert page.evaluate(f"{seen}.length") == 0
    until(page, lambda: "answers" in text_of(page, where), "PageDown")
    assert page.evaluate(f"{seen}.map((one) => one.textContent)") == [starter.questions[0].reply]
    page.tell("press", "PageUp")
    assert "answers" not in text_of(page, where)
    page.tell("press", "a")
    until(page, lambda: f"of {len(starter.questions)}" in text_of(page, where), "ArrowRight")
    page.tell("press", "a")
    assert page.evaluate(f"{seen}.at(-1).textContent") == starter.questions[-1].reply
    until(page, lambda: "answers" not in text_of(page, where), "ArrowRight")

    for number, example in enumerate(examples, 1):
        for step in example.steps:
            assert text_of(page, where).startswith(f"Example {number}")
            assert text_of(page, "#show .sentence") == " ".join(step.sentence.split())
            page.tell("press", "ArrowRight")
        assert example.match is not None
        for question in (example.match.asked, example.match.answered):
            assert text_of(page, where).startswith(f"Your turn {number}")
            assert text_of(page, "#show .mine .question") == " ".join(question.split())
            assert text_of(page, "#show .kept .caption") == " ".join(example.answered.split())
            page.tell("press", " ")
    assert text_of(page, where) == "Practice"
    assert all(tier.heading in text_of(page, "#show .tiers") for tier in sheets)
    shown: list[str] = []
    for _ in range(12):
        page.tell("press", "PageDown")
        shown.append(text_of(page, where).partition(" · ")[0])
    assert list(dict.fromkeys(shown)) == [f"{tier.heading}: answers" for tier in answered]
    last = page.evaluate(f"{seen}.at(-1).textContent")
    assert last == answered[-1].questions[-1].answer
    page.tell("press", "Escape")
    page.until("document.getElementById('show').hidden")


WHOLE = specs.shipped_text("adding-then-taking-away")


def opened(page: Browser) -> list[str]:
    """A lesson of many parts, and what the page before it lists: where it can be begun."""
    page.evaluate(f"rungsheet.lesson.open({json.dumps(WHOLE)}, 'blocks.yaml')")
    page.until("rungsheet.lesson.title === 'Adding decimals, then taking away'")
    go(page, 3)
    page.until("document.querySelectorAll('.plan .part').length > 12")
    assert complaints(page) == []
    found = page.evaluate(
        "return [...document.querySelectorAll('.plan .part')].map(n => n.textContent)"
    )
    return list(map(str, found))


IN_ORDER = [
    *("Starter: to learn", "Starter", "Starter: answers"),
    *("Example 1: one carry", "Your turn 1: one carry"),
    *("Example 2: three numbers", "Your turn 2: three numbers"),
    *("Practice", "Practice: answers", "Worked examples 2: to learn"),
    *("Example 3: exchanging through a nought", "Your turn 3: exchanging through a nought"),
    *("Example 4: exchanging through two noughts", "Your turn 4: exchanging through two noughts"),
    *("Practice 2", "Sheet A: answers", "Sheet B: answers", "Exit questions"),
]


def test_a_lesson_of_many_parts_is_listed_in_its_order(page: Browser) -> None:
    assert opened(page) == IN_ORDER
    page.evaluate(f"rungsheet.lesson.open({json.dumps(DEMO)}, 'produce-stall.yaml')")
    page.until("document.querySelectorAll('.plan .part').length > 0")


@pytest.mark.slow
def test_a_lesson_of_many_parts_is_taught_through_by_keys_alone(page: Browser) -> None:
    opened(page)
    page.evaluate("document.getElementById('begin').focus()")
    page.tell("press", "Enter")
    page.until("!document.getElementById('show').hidden")
    seen: list[str] = []
    for _ in range(120):
        part, _, _ = text_of(page, "#show .where").partition(" · ")
        seen.append(part)
        if part == IN_ORDER[-1]:
            break
        page.tell("press", "PageDown")
    assert list(dict.fromkeys(seen)) == IN_ORDER
    page.tell("press", "Escape")
    page.evaluate(f"rungsheet.lesson.open({json.dumps(DEMO)}, 'produce-stall.yaml')")
    page.until("document.querySelectorAll('.plan .part').length > 0")


def planted() -> tuple[str, dict[str, str]]:
    """A mistake that a pupil who makes it on core, and nothing else wrong, is found to make.

    Its name, and what it makes of each question that can show it.
    """
    built = packs.build(specs.read(DEMO))
    pack = marks.read_pack(built.record(()).data, "pack.json")
    columns = marks.columns(pack)
    by_mistake: dict[str, dict[str, str]] = {}
    for column in columns:
        if column.section.name == "core":
            for likely in likely_for(column.item, 99):
                for mistake in likely.mistakes:
                    answers = by_mistake.setdefault(mistake.name, {})
                    answers[column.item.label] = likely.reply.text
    for name, wrong in by_mistake.items():
        cells = [
            wrong.get(column.item.label, "y") if column.section.name == "core" else "y"
            for column in columns
            if column.section.name in ("starter", "core")
        ]
        heads = [c.name for c in columns if c.section.name in ("starter", "core")]
        sheet = f"pupil,{','.join(heads)}\n1,{','.join(cells)}\n"
        (pupil,) = marks.mark(pack, sheet, "marks.csv").results.pupils
        if pupil.finding.mistake and pupil.finding.mistake.name == name:
            return name, wrong
    raise AssertionError("the demo shows no habit on core")


def test_a_class_is_marked_by_keys_and_tomorrow_starts_from_it(
    page: Browser, tmp_path: Path
) -> None:
    mistake, wrong = planted()
    (tmp_path / "lesson.yaml").write_text(DEMO, "utf-8")
    said_natively("build", tmp_path / "lesson.yaml", "--out", tmp_path / "pack")
    go(page, 4)
    page.until("!document.getElementById('begin-marks').disabled")
    page.evaluate("document.getElementById('begin-marks').focus()")
    page.tell("press", "Enter")
    page.until(f"document.querySelectorAll('.marks-grid tbody tr').length === {PUPILS}")
    page.until("document.activeElement.matches('.marks-grid input')")

    def typed(text: str) -> None:
        page.tell("type", ":focus", text)

    for pupil in range(1, PUPILS + 1):
        if pupil == 9:
            typed("-")
        else:
            typed("c" if pupil % 2 else "su")
        if pupil in (3, 7, 11):
            at = 0
            page.tell("press", "End")
            for label in sorted(wrong, reverse=True):
                for _ in range("abcdefghi".index("i") - at - "abcdefghi".index(label)):
                    page.tell("press", "ArrowLeft")
                    at += 1
                typed(wrong[label])
            page.tell("press", "Home")
            page.tell("press", "ArrowRight")
        if pupil == 4:
            page.tell("press", "Tab")
            typed("n")
            page.tell("press", "Tab")
            typed("what")
        page.tell("press", "Enter")
    page.until("document.querySelectorAll('#unread li').length === 1", 20)
    assert "Pupil 4, Starter b" in text_of(page, "#unread")
    assert complaints(page) == []
    page.tell("press", "Escape")
    assert page.evaluate("return document.activeElement.id") == "save-marks-pdf"

    page.tell("press", "Enter")
    pdf = saved(page)
    page.tell("press", "Tab")
    page.tell("press", "Enter")
    (tmp_path / "marks.csv").write_bytes(saved(page))
    said_natively("marks", tmp_path / "pack", tmp_path / "marks.csv", "--out", tmp_path / "marks")
    native = files_in(tmp_path / "marks")
    assert native["marks.pdf"] == pdf
    expected = json.loads(native["marks.json"])
    assert expected["groups"][0]["mistake"] == mistake
    assert expected["groups"][0]["pupils"] == ["3", "7", "11"]
    groups = [
        f"{group['mistake'] or group['finding']} ({len(group['pupils'])}): "
        f"{', '.join(group['pupils'])}"
        for group in expected["groups"]
    ]
    terms = "[...document.querySelectorAll('#findings dt')].map((one) => one.textContent)"
    assert page.evaluate(f"return {terms}") == groups
    shares = page.evaluate(
        "return [...document.querySelectorAll('.went tr')].map((row) => row.innerText)"
    )
    tried = [one for one in expected["rungs"] if one["attempted"]]
    assert [re.findall(r"\d+", row)[-2:] for row in shares] == [
        [str(one["right"]), str(one["attempted"])] for one in tried
    ]

    page.evaluate("document.getElementById('tomorrow').focus()")
    page.tell("press", "Enter")
    page.until("rungsheet.places.here === 'lesson'")
    said_natively("follow", tmp_path / "pack", tmp_path / "marks.csv", "--out", tmp_path / "follow")
    followed = files_in(tmp_path / "follow")
    assert page.evaluate("return rungsheet.lesson.text").encode() == followed["follow-up.yaml"]
    seed = json.loads(followed["pack.json"])["seed"]
    assert page.evaluate("return rungsheet.lesson.seed") == seed

    go(page, 4)
    stored = "return [localStorage.length, sessionStorage.length, document.cookie]"
    assert page.evaluate(stored) == [0, 0, ""]
    page.evaluate("document.getElementById('forget').focus()")
    page.tell("press", "Enter")
    page.tell("press", "Enter")
    assert page.evaluate("return document.querySelector('.marks-grid')") is None


def test_marks_are_pasted_and_opened(page: Browser, tmp_path: Path) -> None:
    page.evaluate(f"rungsheet.lesson.open({json.dumps(DEMO)}, 'produce-stall.yaml')")
    go(page, 4)
    sheet = tmp_path / "wrong-only.csv"
    sheet.write_text(
        "pupil,question,written\n1 to 3,core,\n2,core.b,4.1\n3,core.c,what\n4,absent,\n"
    )
    page.tell("upload", "#open-marks", str(sheet))
    page.until("document.getElementById('state').textContent.includes('wrong-only.csv')")
    cell = ".marks-grid [data-row='{}'][data-column='{}']"
    at_b = 2 + 6 + 1  # pupil, sheet, the starter's six, and core's a before it
    assert page.evaluate(f'return document.querySelector("{cell.format(1, at_b)}").value') == "4.1"
    assert page.evaluate(f'return document.querySelector("{cell.format(3, 1)}").value') == "absent"
    assert "'what' is no answer" in text_of(page, "#place-marks .head .problems")
    page.evaluate(
        f"""
        const data = new DataTransfer();
        data.setData("text/plain", "1.1\\t2.2\\r\\n\\tn\\r\\n");
        const cell = document.querySelector("{cell.format(0, at_b)}");
        cell.focus();
        const event = new Event("paste", {{ bubbles: true, cancelable: true }});
        Object.defineProperty(event, "clipboardData", {{ value: data }});
        cell.dispatchEvent(event);
        """
    )
    values = [
        page.evaluate(f'return document.querySelector("{cell.format(row, at)}").value')
        for row in (0, 1)
        for at in (at_b, at_b + 1)
    ]
    assert values == ["1.1", "2.2", "", "n"]
    page.tell("click", "#forget")
    page.tell("click", "#forget")


def test_a_sheet_that_is_given_back_is_found(page: Browser, tmp_path: Path) -> None:
    (tmp_path / "lesson.yaml").write_text(DEMO, "utf-8")
    said_natively("build", tmp_path / "lesson.yaml", "--seed", 5, "--out", tmp_path / "pack")
    pdf = tmp_path / "pack" / "practice-core.pdf"
    *answers, _ = said_natively("key", pdf, "--out", tmp_path / "key")
    go(page, 5)
    assert page.evaluate("return document.getElementById('copy-link')") is None
    page.tell("upload", "#open-sheet", str(pdf))
    page.until("document.getElementById('save-key')")
    rows = "[...document.querySelectorAll('.answers dl div')]"
    found = (
        f"return {rows}.map((row) => [...row.children].map((one) => one.textContent).join('  '))"
    )
    assert page.evaluate(found) == answers
    assert complaints(page) == []
    page.tell("click", "#save-key")
    assert saved(page) == files_in(tmp_path / "key")["key.pdf"]
    page.tell("click", "#open-its-lesson")
    shown = "return [rungsheet.lesson.text, rungsheet.lesson.seed, rungsheet.places.here]"
    assert page.evaluate(shown) == [DEMO, 5, "lesson"]

    code = json.loads((tmp_path / "pack" / "pack.json").read_bytes())["code"]
    go(page, 5)
    page.tell("type", "#code", code)
    page.tell("press", "Enter")
    page.until("document.querySelector('#found li')")
    assert "is no page's code" in text_of(page, "#found")


def test_a_link_opens_a_lesson_and_a_damaged_one_says_so(page: Browser) -> None:
    text = DEMO.replace("Produce stall", "Autumn stall")
    plain: dict[str, Any] = {"text": text, "name": "autumn.yaml", "seed": 12, "versions": 2}
    page.evaluate(f"location.hash = {json.dumps(link(plain))}")
    page.until("rungsheet.lesson.seed === 12")
    opened = "return [rungsheet.lesson.text, rungsheet.lesson.name, rungsheet.lesson.versions]"
    assert page.evaluate(opened) == [text, "autumn.yaml", 2]
    page.evaluate(f"location.hash = {json.dumps(link({**plain, 'seed': -1}))}")
    page.until("document.getElementById('state').textContent.includes('holds no lesson')")
    assert page.evaluate(opened) == [text, "autumn.yaml", 2]


def link(plain: object) -> str:
    """The part of a link after # that holds a lesson (RFC 1951, and RFC 4648, 5)."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    packed = packer.compress(json.dumps(plain).encode()) + packer.flush()
    return f"#lesson={base64.urlsafe_b64encode(packed).decode().rstrip('=')}"


_NODE = """
import { readFileSync } from "node:fs";
import { fromLink, linked } from %s;
const told = [];
for (const hash of JSON.parse(readFileSync(0, 'utf8')))
  told.push(await fromLink(hash).catch((error) => error.why ?? String(error)));
const look = { large: 18, tint: "mint" };
const lesson = { text: "title: Äpfel", name: "a.yaml", seed: 3, versions: 4, ...look };
told.push(await linked(lesson), await fromLink(await linked(lesson)));
console.log(JSON.stringify(told));
"""


@pytest.mark.skipif(missing() is not None, reason=str(missing()))
def test_links_are_checked_as_if_anyone_had_written_them() -> None:
    good = {"text": "title: a", "name": "a.yaml", "seed": 3}
    bomb = {**good, "text": "a" * 5_000_000}
    hostile = [
        *("", "#other", "#lesson=", "#lesson=%00", "#lesson=AAAA", f"#lesson={'A' * 200_000}"),
        link([]),
        link(None),
        link({**good, "seed": 1.5}),
        link({**good, "seed": 10**9}),
        link({**good, "versions": 10_000}),
        link({**good, "text": {"a": 1}}),
        link(bomb),
        link({**good, "name": "../<b>.yaml"}),
    ]
    links = Path(__file__).parents[2] / "rungsheet" / "page" / "shell" / "links.mjs"
    done = subprocess.run(
        ["node", "--input-type=module", "-e", _NODE % json.dumps(links.as_uri())],
        input=json.dumps(hostile),
        capture_output=True,
        text=True,
        check=True,
    )
    *told, made, again = json.loads(done.stdout)
    assert told[:6] == [None, None, "damaged", "damaged", "damaged", "too_long"]
    assert told[6:12] == ["damaged"] * 6
    assert told[12] == "too_long"
    assert (told[13]["name"], told[13]["text"]) == ("lesson.yaml", "title: a")
    lesson = {"name": "a.yaml", "seed": 3, "versions": 4, "large": 18, "tint": "mint"}
    assert again == {"text": "title: Äpfel", **lesson}
    packed = base64.urlsafe_b64decode(made.removeprefix("#lesson=") + "==")
    assert json.loads(zlib.decompress(packed, -15)) == again
