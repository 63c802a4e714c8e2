"""Several classes at once, a class over weeks, and what follows: used as a teacher would."""

import json
import shutil
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from generator.results.mark_sheet import mark_columns
from tests.front_door.test_marks import (
    CLASS,
    LINED_UP,
    SMALLER,
    filled,
    given,
    in_an_empty_folder,
    record,
    refused,
    run,
)
from tests.generator.test_follow_up import LESSON

__all__ = ["in_an_empty_folder"]

CARRY = "carry not added in multiplying"
STARTER = LESSON[: LESSON.index("starter:")] + "starter: {mixed-places: 6}\n"
SHORT = STARTER.replace("mixed-places: 6", "equal-places: 3, mixed-places: 3") + (
    "tiers: {core: {mixed-places: 4, through-zeros: 5}}\n"
)


@pytest.fixture(scope="module")
def pack(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A short lesson at the stall, built once for these tests, and left as it was."""
    folder = tmp_path_factory.mktemp("monday") / "stall"
    lesson = folder.with_name("lesson.yaml")
    lesson.write_text(SHORT, encoding="utf-8")
    assert run("build", str(lesson), "--seed", "4", "--out", str(folder)).exit_code == 0
    return folder


def sheet_of(folder: Path, name: str, habits: list[str | None], *extra: str) -> str:
    """A filled-in mark sheet by that name."""
    Path(name).parent.mkdir(parents=True, exist_ok=True)
    Path(filled(folder, habits, ("starter", "core"), *extra)).replace(name)
    return name


def plain(folder: str = "out") -> dict[str, Any]:
    found: dict[str, Any] = json.loads(Path(folder, "marks.json").read_text(encoding="utf-8"))
    return found


def text_of(file: str) -> list[str]:
    with pdfplumber.open(file) as pdf:
        return [page.extract_text() for page in pdf.pages]


def test_two_classes_stand_side_by_side_and_each_as_it_is_alone(pack: Path) -> None:
    first = sheet_of(pack, "9a.csv", [LINED_UP, LINED_UP, None], "Zora,y")
    second = sheet_of(pack, "9b.csv", [SMALLER, None, None, None], "5,absent")
    result = run("marks", str(pack), first, second, "--out", "out")
    assert result.exit_code == 0, result.output
    both = plain()
    assert [one["class"] for one in both["classes"]] == ["9a", "9b"]
    for name, sheet in (("9a", first), ("9b", second)):
        assert run("marks", str(pack), sheet, "--out", name).exit_code == 0
        alone = plain(name)
        (of_class,) = (one for one in both["classes"] if one["class"] == name)
        assert of_class == {"class": name} | {
            key: value for key, value in alone.items() if key not in ("unread", "files")
        }
    rung = next(one for one in both["rungs"] if one["rung"] == "equal-places")
    assert [one["attempted"] for one in rung["classes"]] == [10, 12]
    assert {one["mistake"]: [c["pupils"] for c in one["classes"]] for one in both["habits"]} == {
        LINED_UP: [2, 0],
        SMALLER: [0, 1],
    }
    comparison, *pages = text_of("out/marks.pdf")
    assert "2 classes side by side" in comparison
    assert "Absent 0 1" not in comparison  # nought is a dash there
    assert "Absent – 1" in comparison
    assert "Zora" not in comparison, "no pupil is named where classes are compared"
    assert any("Zora" in page for page in pages)
    assert any("Produce stall: adding and subtracting: 9a: marks" in page for page in pages)
    assert any("Absent: 5" in page for page in pages)


def test_classes_whose_sheets_have_one_name_are_called_as_their_folders(pack: Path) -> None:
    sheets = [sheet_of(pack, f"{name}/marks.csv", [None, None]) for name in ("9a", "9b")]
    assert run("marks", str(pack), *sheets, "--out", "out").exit_code == 0
    assert [one["class"] for one in plain()["classes"]] == ["9a", "9b"]


def test_more_classes_than_stand_on_a_page_are_refused(pack: Path) -> None:
    sheets = [sheet_of(pack, f"9-{number}.csv", [None]) for number in range(13)]
    assert "13 classes do not stand" in refused("marks", str(pack), *sheets, "--out", "out")
    assert not Path("out").exists()


@pytest.mark.parametrize("command", ["marks", "follow"])
def test_pack_and_sheet_may_be_swapped(pack: Path, command: str) -> None:
    sheet = sheet_of(pack, "9a.csv", CLASS)
    for out, arguments in (("one", (str(pack), sheet)), ("two", (sheet, str(pack)))):
        assert run(command, *arguments, "--out", out).exit_code == 0
    name = "marks.json" if command == "marks" else "pack.json"
    assert Path("one", name).read_bytes() == Path("two", name).read_bytes()


def test_what_is_named_in_an_order_that_says_nothing_is_refused(pack: Path) -> None:
    sheet = sheet_of(pack, "9a.csv", CLASS)
    other = shutil.copytree(pack, "other")
    assert "its mark sheet is not named" in refused("marks", str(pack))
    assert "its mark sheet is not named" in refused("marks", str(pack), sheet, str(other))
    assert "no pack is named before it" in refused("marks", sheet, str(pack), str(other))
    assert "2 mark sheets are named after it; name those of one class" in refused(
        "marks", str(pack), sheet, sheet, str(other), sheet
    )
    assert "name those of one class" in refused("follow", str(pack), sheet, sheet)


def few(folder: Path, habit: str, questions: int) -> str:
    """A mark sheet of one pupil who shows a habit on so many questions, and did no others."""
    columns = mark_columns(record(folder).sections)
    shows = [c for c in columns if given(c, habit) != given(c, None)]
    done = {column.name for column in shows[:questions]}
    cells = [given(c, habit) if c.name in done else "" for c in columns]
    head = (folder / "marks.csv").read_text(encoding="utf-8").splitlines()[0]
    name = f"{folder.name}.csv"
    Path(name).write_text("\n".join([head, ",".join(["7", *cells])]), encoding="utf-8")
    return name


@pytest.fixture
def weeks() -> list[Path]:
    """Packs of two weeks, the newest first."""
    Path("lesson.yaml").write_text(STARTER, encoding="utf-8")
    for number in (3, 2):
        out = run("build", "lesson.yaml", "--seed", str(number), "--out", f"week-{number}")
        assert out.exit_code == 0
    return [Path("week-3"), Path("week-2")]


def test_evidence_adds_up_over_weeks_and_fades(weeks: list[Path]) -> None:
    """Two answers say nothing; with those of the weeks before they do; old ones alone say less."""
    newest, before = weeks
    today = few(newest, LINED_UP, 2)
    earlier = few(before, LINED_UP, 4)
    assert run("marks", str(newest), today, "--out", "alone").exit_code == 0
    assert plain("alone")["pupils"][0]["finding"] == "not enough to say"
    assert run("marks", str(newest), today, str(before), earlier, "--out", "both").exit_code == 0
    both = plain("both")
    assert (both["pupils"][0]["finding"], both["pupils"][0]["mistake"]) == ("habit", LINED_UP)
    assert both["earlier_packs"] == 1
    assert "Findings rest on 1 earlier pack as well" in text_of("both/marks.pdf")[0]
    # What is counted of questions and rungs is of the newest pack alone.
    for key in ("questions", "rungs", "reteach"):
        assert both[key] == plain("alone")[key]


def test_a_sheet_is_read_for_the_pack_that_it_stands_behind(weeks: list[Path]) -> None:
    newest, before = weeks
    today, earlier = few(newest, LINED_UP, 2), few(before, LINED_UP, 4)
    assert "the sheet is of the pack" in refused(
        "marks", str(newest), today, str(before), today, "--out", "out"
    )
    swapped = run("marks", today, str(newest), earlier, str(before), "--out", "out")
    assert swapped.exit_code == 0, swapped.output
    assert plain()["earlier_packs"] == 1


def test_two_classes_marks_do_not_replace_one_another(pack: Path) -> None:
    """Two mark sheets called marks.csv once wrote to one folder, one in place of the other."""
    stall = Path(shutil.copytree(pack, "stall"))
    for name in ("9a", "9b"):
        sheet = sheet_of(stall, f"{name}/marks.csv", CLASS)
        assert run("marks", str(stall), sheet).exit_code == 0
        assert Path(f"stall-marks-{name}").is_dir()


def test_other_marks_in_a_folder_are_told_of_before_they_are_replaced(pack: Path) -> None:
    other: list[str | None] = [LINED_UP, None, None, SMALLER, None]
    arguments = ("marks", str(pack), sheet_of(pack, "marks.csv", CLASS), "--out", "out")
    assert run(*arguments).stderr == ""
    assert run(*arguments).stderr == ""  # the very same again
    sheet_of(pack, "marks.csv", [*CLASS, None])
    assert run(*arguments).stderr == ""  # one pupil more
    sheet_of(pack, "marks.csv", other)
    assert (
        "out: the marks there are replaced, in which 5 pupils have other answers, of 5 that are in "
        "both; name another folder with --out where they are another class's"
    ) in run(*arguments).stderr


def test_another_look_of_a_pack_is_told_of_before_it_is_replaced() -> None:
    Path("lesson.yaml").write_text(STARTER, encoding="utf-8")
    build = ("build", "lesson.yaml", "--out", "stall")
    assert run(*build, "--large", "24", "--tint", "mint").stderr == ""
    assert "in large print (24 points) on mint, 'Produce stall" in run(*build).stderr
    assert run(*build).stderr == ""
    assert "in another look, 'Produce stall" in run(*build, "--tint", "sky").stderr
    Path("lesson.yaml").write_text(f"# mine\n{STARTER}", encoding="utf-8")
    assert run(*build, "--tint", "sky").stderr == ""  # a remark changes no page


def test_groups_and_the_absent_have_sheets_on_request(pack: Path) -> None:
    sheet = sheet_of(pack, "9a.csv", [LINED_UP, LINED_UP, SMALLER, None], "5,absent", "6,y")
    result = run("follow", str(pack), sheet, "--groups", "--catch-up", "--out", "tuesday")
    assert result.exit_code == 0, result.output
    assert f"for 1, 2 ({LINED_UP}), and examples.pdf puts it right" in result.stdout
    assert "catch-up: " in result.stdout
    assert "for 5\n" in result.stdout
    names = {path.name for path in Path("tuesday").iterdir()}
    assert {"practice-group-1.pdf", "practice-group-2.pdf", "practice-catch-up.pdf"} <= names
    assert {"starter.pdf", "examples.pdf", "key.pdf", "answers.pdf"} <= names
    sheets = {one.name for one in record(Path("tuesday")).sections}
    assert {"starter", "examples", "group-1", "catch-up"} <= sheets
    # A pupil's sheet says a number, not what the pupil does wrong.
    assert "right-hand end" not in "".join(text_of("tuesday/practice-group-1.pdf"))


def test_older_rungs_come_from_packs_of_weeks_before(weeks: list[Path]) -> None:
    newest, *_ = weeks
    tables = (
        "title: Rows\nladder:\n  koerbe: {operation: multiply, digits: [2, 1], shown_as: Körbe}\n"
    )
    Path("tables.yaml").write_text(f"{tables}starter: {{koerbe: 4}}\n", encoding="utf-8")
    assert run("build", "tables.yaml", "--seed", "8", "--out", "week-0").exit_code == 0
    sheet = few(newest, LINED_UP, 4)
    arguments = ["follow", str(newest), sheet, "--earlier", "week-0", "--out", "tuesday"]
    result = run(*arguments)
    assert result.exit_code == 0, result.output
    assert "Körbe: 2 (to keep it up: from the pack before)" in result.stdout
    with_marks = ["follow", str(newest), sheet, "week-0", few(Path("week-0"), CARRY, 3)]
    told = run(*with_marks, "--out", "wednesday")
    assert told.exit_code == 0, told.output
    asked = [q.identity for folder in ("week-0", "week-3") for q in record(Path(folder)).questions]
    for day in ("tuesday", "wednesday"):
        assert not set(asked) & {q.identity for q in record(Path(day)).questions}


def test_wrong_answers_alone_are_filled_in_as_a_teacher_would(pack: Path) -> None:
    """wrong-only.csv from the pack: who was there, the wrong answers, who was absent."""
    lines = (pack / "wrong-only.csv").read_text(encoding="utf-8").splitlines()
    columns = mark_columns(record(pack).sections)
    shows = [c for c in columns if given(c, LINED_UP) != given(c, None)]
    core = [column for column in shows if column.section.name == "core"]
    starter = [column for column in shows if column.section.name == "starter"]
    lines += [f"{pupil},core," for pupil in range(1, 7)]
    for column in (*starter, *core):
        lines.append(f'2,{column.name},"{given(column, LINED_UP)}"')
    lines += [f"3,{core[0].name},", f"4,{core[0].name},-", "7,absent,"]
    Path("wrong-only.csv").write_text("\r\n".join(lines) + "\r\n", encoding="utf-8")
    result = run("marks", str(pack), "wrong-only.csv", "--out", "out")
    assert result.exit_code == 0, result.output
    assert result.stderr == ""
    found = {pupil["pupil"]: pupil for pupil in plain()["pupils"]}
    asked = sum(column.section.name in ("starter", "core") for column in columns)
    assert (found["1"]["right"], found["1"]["attempted"]) == (asked, asked)
    assert (found["2"]["finding"], found["2"]["mistake"]) == ("habit", LINED_UP)
    assert (found["3"]["right"], found["3"]["attempted"]) == (asked - 1, asked)
    assert (found["4"]["right"], found["4"]["attempted"]) == (asked - 1, asked - 1)
    assert plain()["absent"] == ["7"]
    assert run("follow", str(pack), "wrong-only.csv", "--catch-up", "--out", "next").exit_code == 0


def test_of_a_pupil_with_two_habits_both_sheets_are_named(pack: Path) -> None:
    sheet = sheet_of(pack, "9a.csv", [LINED_UP, LINED_UP, SMALLER])
    columns = mark_columns(record(pack).sections)
    cells = [
        given(c, SMALLER) if c.item.rung == "through-zeros" else given(c, LINED_UP)
        for c in columns
        if c.section.name in ("starter", "core")
    ]
    with open(sheet, "a", encoding="utf-8") as file:
        file.write(f"\n4,{','.join(cells)}\n")
    result = run("follow", str(pack), sheet, "--groups", "--out", "tuesday")
    assert result.exit_code == 0, result.output
    assert f"for 1, 2, 4 (group-2 too) ({LINED_UP})" in result.stdout
    assert f"for 3, 4 (group-1 too) ({SMALLER})" in result.stdout
