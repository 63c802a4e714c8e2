"""After the lesson: marks typed, pasted and opened, and a sheet found again, by keys alone."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from generator.operations.mistakes import mistake_named
from generator.packs.likely_answers import likely_for
from rungsheet.desk import marks, packs, specs
from specs.names import name_in_words
from tests.page.looking import complaints
from tests.page.teacher import DEMO, Teacher
from tests.page.thrown import files_in, page_codes, said_natively

PUPILS = 28


def called(group: dict[str, Any]) -> str:
    """What a group of marks.json is called on pages."""
    if group["mistake"]:
        return mistake_named(group["mistake"]).title
    is_on_its_way = group["finding"] == "secure" and group["next"]
    return "secure so far" if is_on_its_way else group["finding"]


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
    page_as_opened: Teacher, tmp_path: Path
) -> None:
    page = page_as_opened
    mistake, wrong = planted()
    (tmp_path / "lesson.yaml").write_text(DEMO, "utf-8")
    said_natively("build", tmp_path / "lesson.yaml", "--out", tmp_path / "pack")
    page.goes("marks")
    page.until("!document.getElementById('begin-marks').disabled")
    page.presses_button("#begin-marks")
    page.until(f"document.querySelectorAll('.marks-grid tbody tr').length === {PUPILS}")
    page.until("document.activeElement.matches('.marks-grid input')")

    for pupil in range(1, PUPILS + 1):
        if pupil == 9:
            page.types("-")
        else:
            page.types("c" if pupil % 2 else "su")
        if pupil in (3, 7, 11):
            at = 0
            page.presses("End")
            for label in sorted(wrong, reverse=True):
                for _ in range("abcdefghi".index("i") - at - "abcdefghi".index(label)):
                    page.presses("ArrowLeft")
                    at += 1
                page.types(wrong[label])
            page.presses("Home")
            page.presses("ArrowRight")
        if pupil == 4:
            page.presses("Tab")
            page.types("n")
            page.presses("Tab")
            page.types("what")
        page.presses("Enter")
    page.until("document.querySelectorAll('#unread li').length === 1", 20)
    assert "Pupil 4, Starter b" in page.text_of("#unread")
    assert complaints(page.browser) == []
    page.presses("Escape")
    assert page.sees("document.activeElement.id") == "save-marks-pdf"

    page.presses("Enter")
    pdf = page.saved()
    page.presses("Tab")
    page.presses("Enter")
    (tmp_path / "marks.csv").write_bytes(page.saved())
    said_natively("marks", tmp_path / "pack", tmp_path / "marks.csv", "--out", tmp_path / "marks")
    native = files_in(tmp_path / "marks")
    assert native["marks.pdf"] == pdf
    expected = json.loads(native["marks.json"])
    assert expected["groups"][0]["mistake"] == mistake
    assert expected["groups"][0]["pupils"] == ["3", "7", "11"]
    groups = [
        f"{called(group)} ({len(group['pupils'])}): {', '.join(group['pupils'])}"
        for group in expected["groups"]
    ]
    terms = "[...document.querySelectorAll('#findings dt')].map((one) => one.textContent)"
    assert page.sees(f"{terms}") == groups
    says = page.text_of("#findings .groups")
    for group in expected["groups"]:
        assert group["next"] is None or f": {name_in_words(group['next'])}." in says
    assert any(group["next"] for group in expected["groups"])
    shares = page.sees("[...document.querySelectorAll('.went tr')].map((row) => row.innerText)")
    tried = [one for one in expected["rungs"] if one["attempted"]]
    assert [re.findall(r"\d+", row)[-2:] for row in shares] == [
        [str(one["right"]), str(one["attempted"])] for one in tried
    ]

    page.presses_button("#tomorrow")
    page.until("rungsheet.places.here === 'lesson'")
    said_natively("follow", tmp_path / "pack", tmp_path / "marks.csv", "--out", tmp_path / "follow")
    followed = files_in(tmp_path / "follow")
    assert page.sees("rungsheet.lesson.text").encode() == followed["follow-up.yaml"]
    seed = json.loads(followed["pack.json"])["seed"]
    assert page.sees("rungsheet.lesson.seed") == seed

    page.goes("marks")
    stored = "[localStorage.length, sessionStorage.length, document.cookie]"
    assert page.sees(stored) == [0, 0, ""]
    page.presses_button("#forget")
    page.presses("Enter")
    assert page.sees("document.querySelector('.marks-grid')") is None


def copied(page: Teacher, text: str) -> None:
    """Copy a text elsewhere, as from a spreadsheet."""
    page.browser.evaluate(
        f"""
        const elsewhere = document.createElement("textarea");
        elsewhere.id = "elsewhere";
        elsewhere.value = {json.dumps(text)};
        document.body.append(elsewhere);
        elsewhere.select();
        """
    )
    page.until("document.activeElement.id === 'elsewhere'")
    page.presses("Control+c")
    page.browser.evaluate("document.getElementById('elsewhere').remove()")


def test_marks_are_pasted_and_opened(page_as_opened: Teacher, tmp_path: Path) -> None:
    page = page_as_opened
    page.goes("marks")
    sheet = tmp_path / "wrong-only.csv"
    sheet.write_text(
        "pupil,question,written\n1 to 3,core,\n2,core.b,4.1\n3,core.c,what\n4,absent,\n"
    )
    page.opens_file("#open-marks", sheet)
    page.until("document.getElementById('state').textContent.includes('wrong-only.csv')")
    cell = ".marks-grid [data-row='{}'][data-column='{}']"
    at_b = 2 + 6 + 1  # pupil, sheet, the starter's six, and core's a before it
    assert page.sees(f'document.querySelector("{cell.format(1, at_b)}").value') == "4.1"
    assert page.sees(f'document.querySelector("{cell.format(3, 1)}").value') == "absent"
    assert "'what' is no answer" in page.text_of("#place-marks .head .problems")
    copied(page, "1.1\t2.2\n\tn\n")
    page.clicks(cell.format(0, at_b))
    page.presses("Control+v")
    values = [
        page.sees(f'document.querySelector("{cell.format(row, at)}").value')
        for row in (0, 1)
        for at in (at_b, at_b + 1)
    ]
    assert values == ["1.1", "2.2", "", "n"]
    page.clicks("#forget")
    page.clicks("#forget")


def test_a_sheet_that_is_given_back_is_found(page_as_opened: Teacher, tmp_path: Path) -> None:
    page = page_as_opened
    (tmp_path / "lesson.yaml").write_text(DEMO, "utf-8")
    said_natively("build", tmp_path / "lesson.yaml", "--seed", 5, "--out", tmp_path / "pack")
    pdf = tmp_path / "pack" / "practice-core.pdf"
    *answers, _ = said_natively("key", pdf, "--out", tmp_path / "key")
    page.goes("find")
    assert page.sees("document.getElementById('copy-link')") is None
    page.opens_file("#open-sheet", pdf)
    page.until("document.getElementById('save-key')")
    rows = "[...document.querySelectorAll('.answers dl div')]"
    found = f"{rows}.map((row) => [...row.children].map((one) => one.textContent).join('  '))"
    assert page.sees(found) == answers
    assert complaints(page.browser) == []
    page.clicks("#save-key")
    assert page.saved() == files_in(tmp_path / "key")["key.pdf"]
    page.clicks("#open-its-lesson")
    shown = "[rungsheet.lesson.text, rungsheet.lesson.seed, rungsheet.places.here]"
    assert page.sees(shown) == [DEMO, 5, "lesson"]

    page.goes("find")
    page.reaches("#code")
    page.presses("Control+a")
    page.types(page_codes(pdf)[0].lower().replace("-", " "))
    page.browser.evaluate(
        """
        window.told = [];
        const found = document.getElementById("found");
        new MutationObserver(() => window.told.push(found.textContent))
            .observe(found, { childList: true });
        """
    )
    page.presses("Enter")
    page.until("document.querySelector('#found .quiet')?.textContent === 'Seed 5'")
    assert page.sees("window.told[0]") == "Looking…"
    assert page.sees(found) == answers
    page.presses("Control+a")
    page.types(json.loads((tmp_path / "pack" / "pack.json").read_bytes())["code"])
    page.presses("Enter")
    page.until("document.querySelector('#found li')")
    assert "is no page's code" in page.text_of("#found")


@pytest.mark.slow
def test_who_is_not_marked_does_not_count_and_is_shown(page_as_opened: Teacher) -> None:
    """A class marked by wrong answers alone: who had none is ticked, and who is left is not."""
    page = page_as_opened
    page.goes("marks")
    page.until("!document.getElementById('begin-marks').disabled")
    page.presses_button("#begin-marks")
    page.until("document.activeElement.matches('.marks-grid input')")
    left = "document.getElementById('not-marked').textContent"
    quiet = "[...document.querySelectorAll('.marks-grid .not-marked td:first-child input')]"
    assert page.sees(left) == "28 pupils are not marked and do not count yet."

    # Giving all a sheet marks nobody.
    page.clicks("#place-marks .typing .tools:not([hidden]) button")
    page.until('document.querySelector(\'.marks-grid [data-row="5"][data-column="1"]\').value')
    assert page.sees(left) == "28 pupils are not marked and do not count yet."
    assert page.text_of("#findings").startswith("What the marks say stands here")

    cell = ".marks-grid [data-row='{}'][data-column='{}']"
    page.clicks(cell.format(1, 3))
    page.types("9.9")  # the second pupil, wrong once
    page.clicks(cell.format(4, 1))
    page.types("y")  # the fifth, all right
    page.presses("Enter")
    page.types("-")  # the sixth, away
    page.presses("Enter")
    page.until(f"{left} === '25 pupils are not marked and do not count yet.'")
    page.until("document.getElementById('findings').textContent.includes('Of 2 pupils')")
    assert "Absent: 6" in page.text_of("#findings")
    sheet = page.sees(f'document.querySelector("{cell.format(0, 1)}").value')
    assert sheet, "every pupil has the sheet"
    assert page.sees(f'document.querySelector("{cell.format(4, 1)}").value') == sheet
    rows = f"{quiet}.map((one) => one.value)"
    assert page.sees(rows) == [str(n) for n in range(1, 29) if n not in (2, 5, 6)]
    assert complaints(page.browser) == []
    page.clicks(cell.format(0, 2))
    assert "(not marked)" in page.text_of("#place-marks .cell")

    # What was typed by mistake and taken out again marks nobody.
    page.types("7")
    page.until(f"{left} === '24 pupils are not marked and do not count yet.'")
    page.presses("Backspace")
    page.presses("Enter")
    page.until(f"{left} === '25 pupils are not marked and do not count yet.'")

    page.clicks("#save-marks-csv")
    lines = page.saved().decode().splitlines()
    assert len(lines) == PUPILS + 1
    assert [line.strip(",") for line in lines[1:5:3]] == ["1", "4"]
    assert lines[5].count("y") == lines[2].count("y") + 1

    page.clicks("#rest-right")
    page.until("document.getElementById('findings').textContent.includes('Of 27 pupils')")
    assert page.sees("document.getElementById('rest-right').closest('div').hidden")
    page.clicks("#forget")
    page.clicks("#forget")

    # Where there is no practice sheet to be told, a tick stands in the second column.
    spec = "title: Beans\nladder:\n  level: {operation: add, places: 1}\nstarter: {level: 4}\n"
    page.sees(f"rungsheet.lesson.open({json.dumps(spec)}, 'beans.yaml', 1), 0")
    page.until("rungsheet.lesson.title === 'Beans'")
    page.presses_button("#begin-marks")
    page.until("document.activeElement.matches('.marks-grid input')")
    page.types("y")
    page.presses("Enter")
    page.types("-")
    page.presses("Enter")
    page.until("document.getElementById('findings').textContent.includes('Of 1 pupil')")
    assert page.sees(f'document.querySelector("{cell.format(0, 1)}").value') == "✓"
    assert page.sees("document.querySelectorAll('#unread li').length") == 0
    assert page.sees(left) == "26 pupils are not marked and do not count yet."
    page.clicks("#forget")
    page.clicks("#forget")
    page.sees(f"rungsheet.lesson.open({json.dumps(DEMO)}, 'produce-stall.yaml', 1), 0")


@pytest.mark.slow
def test_pasted_names_and_sheets_mark_nobody_and_pasted_answers_do(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    types_marks(page)
    cell = ".marks-grid [data-row='{}'][data-column='{}']"
    left = "document.getElementById('not-marked').textContent"

    def pastes(row: int, at: int, text: str) -> None:
        copied(page, text)
        page.clicks(cell.format(row, at))
        page.presses("Control+v")

    all_left = "28 pupils are not marked and do not count yet."
    pastes(0, 0, "".join(f"{number}\n" for number in range(101, 129)))
    page.until(f'document.querySelector("{cell.format(27, 0)}").value === "128"')
    assert page.sees(left) == all_left
    pastes(0, 1, "core\nsupport\n" * 14)
    page.until(f'document.querySelector("{cell.format(27, 1)}").value === "support"')
    assert page.sees(left) == all_left
    pastes(0, 0, "1\tcore\n2\tcore\n")
    page.until(f'document.querySelector("{cell.format(1, 1)}").value === "core"')
    assert page.sees(left) == all_left
    assert page.text_of("#findings").startswith("What the marks say stands here")

    # Who was away, a tick, and answers, of which blank ones are right, do mark.
    pastes(0, 1, "absent\ny\n")
    page.until(f"{left} === '26 pupils are not marked and do not count yet.'")
    pastes(2, 1, "core\t\t9.9\nsupport\t\t\n")
    page.until(f"{left} === '24 pupils are not marked and do not count yet.'")
    pastes(2, 1, "support\ncore\n")  # and who is marked stays so
    page.until("document.getElementById('findings').textContent.includes('Of 3 pupils')")
    assert page.sees(left) == "24 pupils are not marked and do not count yet."
    page.clicks("#forget")
    page.clicks("#forget")


def types_marks(page: Teacher) -> None:
    """Begin to type the marks of the lesson that is open."""
    page.goes("marks")
    page.until("!document.getElementById('begin-marks').disabled")
    page.presses_button("#begin-marks")
    page.until("document.activeElement.matches('.marks-grid input')")


@pytest.mark.slow
def test_marks_that_are_not_saved_give_way_to_others_only_when_that_is_meant(
    page_as_opened: Teacher, tmp_path: Path
) -> None:
    page = page_as_opened
    sheet = tmp_path / "other.csv"
    sheet.write_text("pupil,question,written\n1,core.b,4.1\n")
    types_marks(page)
    cell = ".marks-grid [data-row='{}'][data-column='{}']"
    mine, theirs = cell.format(4, 3), cell.format(0, 2 + 6 + 1)
    value = 'document.querySelector("{}").value'
    asks = "!!document.getElementById('replace-marks')"

    def opens() -> None:
        page.browser.evaluate("rungsheet.lesson.say('')")
        page.opens_file("#open-marks", sheet)

    def types(text: str) -> None:
        page.clicks(mine)
        page.types(text)

    types("9.9")
    opens()
    page.until(asks)
    assert page.text_of("#place-marks [role=alert] span") == "The marks here are not saved."
    assert complaints(page.browser) == []
    page.until("document.activeElement.id === 'keep-marks'")
    page.presses("Enter")
    assert not page.sees(asks)
    assert page.sees(value.format(mine)) == "9.9"
    page.until("document.activeElement.matches('.marks-grid input')")

    opens()
    page.until(asks)
    page.clicks("#replace-marks")
    page.until(f"{value.format(theirs)} === '4.1'")
    assert not page.sees(asks)
    assert page.sees("document.querySelectorAll('.marks-grid tbody tr').length") == 1

    # What was opened is a file already, and so is what was saved: nothing is lost with them.
    opens()
    page.until("document.getElementById('state').textContent === 'Opened: other.csv'")
    assert not page.sees(asks)
    page.clicks(theirs)
    page.types("7.7")
    page.clicks("#save-marks-csv")
    page.saved()
    opens()
    page.until("document.getElementById('state').textContent === 'Opened: other.csv'")
    assert not page.sees(asks)
    assert page.sees(value.format(theirs)) == "4.1"

    # Text that is pasted as a whole mark sheet asks too; and what is forgotten needs no answer.
    page.clicks(theirs)
    page.types("8.8")
    copied(page, sheet.read_text().replace(",", "\t"))
    page.clicks(theirs)
    page.presses("Control+v")
    page.until(asks)
    assert "what was pasted" in page.text_of("#replace-marks")
    assert page.sees(value.format(theirs)) == "8.8"
    page.clicks("#forget")
    page.clicks("#forget")
    assert not page.sees(asks)


@pytest.mark.slow
def test_a_mistyped_code_is_answered_and_the_last_search_is_the_one_shown(
    page_as_opened: Teacher, tmp_path: Path
) -> None:
    """Also where the open lesson has a mistake, of which the code knows nothing."""
    page = page_as_opened
    page.goes("find")
    mistaken = DEMO.replace("addends: 3", "addends: 3x", 1)
    page.sees(f"rungsheet.lesson.change({{ text: {json.dumps(mistaken)} }}), 0")
    page.until("rungsheet.lesson.problems.length > 0")
    page.reaches("#code")
    page.presses("Control+a")
    page.types("XXXX-XX-X")
    page.presses("Enter")
    page.until("document.querySelector('#found li')")
    assert page.text_of("#found").startswith("'XXXX-XX-X' is no page's code")
    page.sees("rungsheet.lesson.undo(), 0")  # at the lesson the mistake would open its text
    page.until("rungsheet.lesson.problems.length === 0")

    (tmp_path / "lesson.yaml").write_text(DEMO, "utf-8")
    said_natively("build", tmp_path / "lesson.yaml", "--seed", 5, "--out", tmp_path / "pack")
    page.browser.evaluate("document.getElementById('found').replaceChildren()")
    page.presses("Enter")
    page.opens_file("#open-sheet", tmp_path / "pack" / "practice-core.pdf")
    page.until("document.getElementById('save-key')")
    page.browser.evaluate(
        """
        window.told_later = [];
        window.watched = new MutationObserver(() => window.told_later.push(1));
        window.watched.observe(document.getElementById("found"), { childList: true });
        """
    )
    page.at_rest()
    page.browser.evaluate("window.watched.disconnect()")
    assert page.sees("window.told_later") == []
    assert page.text_of("#found .quiet") == "Seed 5"
