"""A lesson of many parts at the front door: built, found again from any sheet, changed, marked."""

import io
import json
import re
from pathlib import Path

import pypdf
import pytest

from generator.packs.codes import PageCode
from rungsheet.desk import editing, in_class, packs, specs
from rungsheet.desk.again import from_code
from rungsheet.desk.problems import Refused
from tests.front_door.test_commands import refused, run

LESSON = """\
title: "Beans: two blocks"   # shown on every sheet
ladder:
  level: {operation: add, places: 2, whole: 1, carries: none}
  ragged: {operation: add, places: {ragged: [1, 2]}, whole: 1}
  crates: {operation: subtract, places: 1, whole: 1, exchanges: {count: 1}}
lesson:
  - starter: {level: 2}
  - examples: [level, ragged]   # in this order
  - practice:
      minutes: 9
      questions: {level: 2}
  - Worked examples:
      questions: {crates: 1}
  - practice:
      tiers:
        support: {crates: 2}
        core:
          questions:
            crates: 1
            level: 2   # to keep it up
  - exit question: {ragged: 1}
  - homework: {tiers: {all: {level: 1, ragged: 1}, more: {crates: 2}}}
versions: {practice-2-core: 3}
"""


@pytest.fixture(autouse=True)
def in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("beans.yaml").write_text(LESSON, encoding="utf-8")


def built(*arguments: str, out: str = "pack") -> dict[str, bytes]:
    done = run("build", "beans.yaml", *arguments, "--out", out)
    assert done.exit_code == 0, done.output
    return {path.name: path.read_bytes() for path in Path(out).iterdir()}


def codes_in(data: bytes) -> list[str]:
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    return list(dict.fromkeys(re.findall(r"code ([A-Z0-9-]+)", text)))


SHEETS = (
    *("starter.pdf", "practice.pdf", "practice-2-support.pdf", "practice-2-core.pdf", "exit.pdf"),
    *("homework-all.pdf", "homework-more.pdf", "examples-on-paper.pdf"),
    *("plan.pdf", "answers-on-paper.pdf", "key.pdf"),
)


def test_its_pack_is_built_again_from_the_code_of_any_sheet() -> None:
    files = built("--seed", "11", "--versions", "2")
    found = {name: codes_in(files[name])[-1] for name in SHEETS}
    assert len(codes_in(files["practice-2-core.pdf"])) == 3
    spec = specs.read(LESSON, "beans.yaml")
    for name, code in found.items():
        meant = PageCode.parse(code)
        assert (meant.seed, meant.versions) == (11, 2), name
        assert from_code(code, spec).pack.sections, name
    again = built("--code", codes_in(files["practice-2-core.pdf"])[2], out="again")
    assert again == files
    wrong = found["exit.pdf"][:-1] + ("A" if found["exit.pdf"][-1] != "A" else "C")
    assert "is no page's code" in refused("build", "beans.yaml", "--code", wrong)


def test_files_that_their_names_do_not_tell_are_headed_as_pupils_see_them() -> None:
    text = LESSON.replace("support: {crates: 2}", "support: {questions: {crates: 2}, shown_as: A}")
    text = text.replace(
        "starter: {level: 2}", "starter: {shown_as: To warm up, questions: {level: 2}}"
    )
    pack = packs.build(specs.read(text), packs.Edition(3))
    assert pack.headings == {
        "starter.pdf": "To warm up",
        "examples-2.pdf": "Worked examples 2",
        "practice-2-support.pdf": "A",
        "practice-2-core.pdf": "Core practice 2",
        "homework-all.pdf": "Homework: All",
        "homework-more.pdf": "Homework: More",
    }
    for name in pack.headings.keys() & set(pack.names):
        page = pypdf.PdfReader(io.BytesIO(pack.drawn(name).data)).pages[0]
        assert pack.headings[name] in page.extract_text()


@pytest.mark.parametrize("versions", [2, pytest.param(50, marks=pytest.mark.slow)])
def test_each_of_its_files_has_its_key(versions: int) -> None:
    built("--seed", "3", "--versions", str(versions))
    record = json.loads(Path("pack/pack.json").read_bytes())
    headings = {
        "starter.pdf": ["Starter"],
        "homework-more.pdf": ["Homework: More"],
        "exit.pdf": ["Exit question"],
        "practice.pdf": [f"Practice, version {n}" for n in range(1, versions + 1)],
    }
    for name, said in headings.items():
        done = run("key", f"pack/{name}", "--out", f"key-{name}")
        assert done.exit_code == 0, done.output
        section = name.removesuffix(".pdf")
        asked = [s for s in record["sections"] if s["name"] == section]
        assert len(asked) == len(said)
        for one in asked:
            for question in one["questions"]:
                assert f"{question['label']}  {question['answer']}" in done.stdout
        if len(said) > 1:
            assert all(heading in done.stdout for heading in said)
    for name in ("lesson.pdf", "plan.pdf"):
        done = run("key", f"pack/{name}", "--out", f"key-{name}")
        assert done.exit_code == 0, done.output
        assert "Exit question" in done.stdout


def test_a_pupils_marks_of_all_parts_are_read() -> None:
    built()
    head = Path("pack/marks.csv").read_text("utf-8").splitlines()[0]
    names = head.split(",")[1:]
    assert [name for name in names if name.endswith(".a")] == [
        *("starter.a", "practice.a", "practice-2-support.a"),
        *(f"practice-2-core.{version}.a" for version in (1, 2, 3)),
        *("exit.a", "homework-all.a", "homework-more.a"),
    ]
    cells = ["y" if "core" not in name and "more" not in name else "" for name in names]
    Path("marks.csv").write_text("\n".join((head, ",".join(["1", *cells]))), "utf-8")
    done = run("marks", "pack", "marks.csv", "--out", "marked")
    assert done.exit_code == 0, done.output
    done = run("follow", "pack", "marks.csv", "--out", "tomorrow")
    assert done.exit_code == 0, done.output
    assert "tomorrow" in str(json.loads(Path("tomorrow/pack.json").read_bytes())["title"])


def test_it_is_shown_in_class_in_its_order() -> None:
    shown = in_class.shown(packs.build(specs.read(LESSON)))
    assert [part.heading for part in shown.parts] == [
        *("Starter", "Worked examples", "Practice", "Worked examples 2", "Practice 2"),
        *("Exit question", "Homework"),
    ]
    starter, examples, practice, _, tiers, door, home = shown.parts
    assert (len(starter.asked), starter.are_answered) == (1, True)
    assert len(examples.examples) == 2
    assert (len(practice.sheets), len(practice.answers)) == (1, 1)
    assert (len(tiers.sheets), len(tiers.answers)) == (2, 4)
    assert (len(door.asked), door.are_answered) == (1, False)
    assert [sheet.heading for sheet in home.sheets] == ["Homework: All", "Homework: More"]
    assert not home.answers


def changed(before: str, after: str) -> list[str]:
    """The lines that are others."""
    old, new = before.splitlines(), after.splitlines()
    return [line for line in new if line not in old] + [f"-{x}" for x in old if x not in new]


def test_counts_and_minutes_are_changed_where_they_stand() -> None:
    text = editing.set_count(LESSON, "practice-2-core", "level", 4)
    assert changed(LESSON, text) == [
        "            level: 4   # to keep it up",
        "-            level: 2   # to keep it up",
    ]
    text = editing.set_count(LESSON, "examples-2", "ragged", 2)
    assert changed(LESSON, text)[0] == "      questions: {crates: 1, ragged: 2}"
    text = editing.set_minutes(LESSON, "practice", 12)
    assert changed(LESSON, text)[0] == "      minutes: 12"
    text = editing.set_minutes(LESSON, "starter", 5)
    assert changed(LESSON, text)[0] == "  - starter: {minutes: 5, questions: {level: 2}}"
    text = editing.keep(LESSON, 1, 1, "homework-more", "b")
    assert 'keep:\n  homework-more: {b: "' in text


def test_a_section_without_questions_goes_and_with_the_last_of_them_its_part() -> None:
    text = editing.set_count(LESSON, "homework-more", "crates", 0)
    assert [section.name for section in specs.read(text).sections][-1] == "homework-all"
    text = editing.set_count(LESSON, "exit", "ragged", 0)
    assert "exit question" not in text
    assert len(specs.read(text).parts) == 6
    text = editing.remove_rung(LESSON.replace("versions: {practice-2-core: 3}\n", ""), "crates")
    assert [section.name for section in specs.read(text).sections] == [
        *("starter", "examples", "practice", "practice-2-core", "exit", "homework-all"),
    ]
    with pytest.raises(Refused, match="the lesson has no sheet 'stretch'"):
        editing.set_count(LESSON, "stretch", "level", 2)
    assert editing.rename_rung(LESSON, "ragged", "mixed").count("mixed") == 4


def test_frames_of_a_rung_go_and_are_renamed_with_it() -> None:
    framed = LESSON.replace("minutes: 9\n", "minutes: 9\n      frames: {level: full}\n")
    framed = framed.replace("tiers:\n", "frames: {level: full, crates: part}\n      tiers:\n")
    text = editing.rename_rung(framed, "level", "even")
    assert "frames: {even: full}" in text
    assert "frames: {even: full, crates: part}" in text
    bare = framed.replace("versions: {practice-2-core: 3}\n", "")
    text = editing.remove_rung(bare, "level")
    assert "frames: {crates: part}" in text
    assert "even" not in text


def test_the_table_of_shares_has_a_column_for_each_section() -> None:
    found = editing.parts(specs.read(LESSON))
    assert [one["name"] for one in found] == [
        *("starter", "examples", "practice", "examples-2"),
        *("practice-2-support", "practice-2-core", "exit", "homework-all", "homework-more"),
    ]
    assert [one["name"] for one in found if one["pairs"]] == ["examples", "examples-2"]
    short = editing.parts(specs.read(LESSON.partition("lesson:")[0] + "tiers: {a: {level: 1}}\n"))
    assert [one["name"] for one in short] == ["starter", "examples", "a"]


def test_letters_that_no_page_has_are_told_with_their_line() -> None:
    text = LESSON.replace(
        "  - starter: {level: 2}", '  - starter: {instructions: "豆", questions: {level: 2}}'
    )
    Path("beans.yaml").write_text(text, encoding="utf-8")
    assert "beans.yaml:7: '豆' cannot be printed" in refused("check", "beans.yaml")


def test_the_class_s_turn_is_shown_in_steps_where_that_is_wanted() -> None:
    in_steps = LESSON.replace(
        "examples: [level, ragged] ", "examples: {your_turn: in steps, questions: [level]} "
    )
    parts = in_class.shown(packs.build(specs.read(in_steps))).parts
    first, second = (part for part in parts if part.examples)
    (match,) = (one.match for one in first.examples)
    assert match is not None
    assert match.steps[-1].question == match.answered
    assert all(one.match and not one.match.steps for one in second.examples)
