"""Marks in and a starter out, used as a teacher would."""

import json
import shutil
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from typer.testing import CliRunner, Result

import rungsheet.command_line
from generator.operations.mistakes import mistake_named, right_reply
from generator.packs.record import PackRecord, read_record
from generator.results.mark_sheet import MarkColumn, mark_columns
from rungsheet.desk import marks, packs, specs
from tests.generator.test_follow_up import LESSON

LINED_UP = "numbers lined up at the right-hand end"
SMALLER = "smaller digit taken from larger"


@pytest.fixture(scope="module")
def pack(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lesson at the stall, built once for these tests, and left as it was."""
    folder = tmp_path_factory.mktemp("monday") / "stall"
    lesson = folder.with_name("lesson.yaml")
    lesson.write_text(LESSON, encoding="utf-8")
    assert run("build", str(lesson), "--seed", "4", "--out", str(folder)).exit_code == 0
    return folder


@pytest.fixture(autouse=True)
def in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(rungsheet.command_line.app, list(arguments))


def refused(*arguments: str) -> str:
    result = run(*arguments)
    assert result.exit_code == 2, result.output
    assert not result.stdout
    assert "Traceback" not in result.stderr
    return result.stderr


def record(folder: Path) -> PackRecord:
    return read_record(json.loads((folder / "pack.json").read_bytes()))


def given(column: MarkColumn, habit: str | None) -> str:
    question = column.item.question
    wrong = mistake_named(habit).wrong_answer(question) if habit else None
    return (wrong or right_reply(question)).text


def filled(folder: Path, habits: list[str | None], sections: tuple[str, ...], *extra: str) -> str:
    """A mark sheet, filled in by pupils who never slip."""
    columns = mark_columns(record(folder).sections)
    lines = [(folder / "marks.csv").read_text(encoding="utf-8").splitlines()[0]]
    for pupil, habit in enumerate(habits, 1):
        cells = [given(c, habit) if c.section.name in sections else "" for c in columns]
        lines.append(",".join([str(pupil), *cells]))
    Path("marks.csv").write_text("\n".join([*lines, *extra]), encoding="utf-8")
    return "marks.csv"


CLASS: list[str | None] = [None, LINED_UP, LINED_UP, None, SMALLER]


def marked(folder: Path, *extra: str) -> dict[str, Any]:
    sheet = filled(folder, CLASS, ("starter", "core", "stretch"), *extra)
    result = run("marks", str(folder), sheet, "--out", "out")
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(Path("out/marks.json").read_text(encoding="utf-8"))
    return found


def test_marks_say_what_each_pupil_does(pack: Path) -> None:
    results = marked(pack)
    assert [(p["pupil"], p["finding"], p["mistake"]) for p in results["pupils"]] == [
        ("1", "secure", None),
        ("2", "habit", LINED_UP),
        ("3", "habit", LINED_UP),
        ("4", "secure", None),
        ("5", "habit", SMALLER),
    ]
    groups = {group["mistake"] or group["finding"]: group["pupils"] for group in results["groups"]}
    assert groups == {LINED_UP: ["2", "3"], SMALLER: ["5"], "secure": ["1", "4"]}


def test_marks_say_how_each_question_went(pack: Path) -> None:
    results = marked(pack)
    questions = {(q["section"], q["label"]): q for q in results["questions"]}
    assert len(questions) == len(mark_columns(record(pack).sections))
    assert questions["starter", "a"]["attempted"] == 5
    assert questions["starter", "a"]["rung"] == "equal-places"
    assert questions["starter", "a"]["right"] == 5
    assert questions["support", "a"]["attempted"] == 0
    asked = next(c for c in mark_columns(record(pack).sections) if c.name == "starter.f")
    lined_up = mistake_named(LINED_UP).wrong_answer(asked.item.question)
    assert questions["starter", "f"]["right"] == (3 if lined_up else 5)
    assert set(results["reteach"]) <= {"mixed-places", "five-addends"}


def test_marks_pdf_shows_it_to_the_teacher(pack: Path) -> None:
    marked(pack)
    with pdfplumber.open("out/marks.pdf") as pdf:
        pages = [page.extract_text() for page in pdf.pages]
        size = {(round(float(page.width)), round(float(page.height))) for page in pdf.pages}
    assert size == {(595, 842)}  # A4, ISO 216
    text = "\n".join(pages)
    assert "Numbers lined up at the right-hand end: 2, 3" in text
    assert mistake_named(SMALLER).sentence in text
    assert "5 of 5" in text
    assert "no names are needed" in text


def test_letters_that_the_typeface_lacks_are_told_and_the_rest_of_a_name_is_printed(
    pack: Path,
) -> None:
    columns = len(mark_columns(record(pack).sections))
    rows = ",".join(["Zoe\u0301 悠 Ł"] + ["y"] * columns), ",".join(["Юлія"] + ["n"] * columns)
    sheet = filled(pack, CLASS, ("starter",), *rows)
    result = run("marks", str(pack), sheet, "--out", "out")
    assert result.exit_code == 0
    [told] = [line for line in result.stderr.splitlines() if "typeface" in line]
    assert told == (
        "marks.pdf: pupil 'Zoé 悠 Ł' is 'Zoé ? Ł' there, as the typeface has no 悠; "
        "a number instead of a name always prints"
    )
    with pdfplumber.open("out/marks.pdf") as pdf:
        text = "\n".join(page.extract_text() for page in pdf.pages)
    assert "Zoé ? Ł" in text
    assert "Юлія" in text
    pupils = json.loads(Path("out/marks.json").read_text(encoding="utf-8"))["pupils"]
    assert "Zoé 悠 Ł" in [pupil["pupil"] for pupil in pupils]


def test_the_same_marks_give_the_same_bytes(pack: Path) -> None:
    marked(pack)
    first = Path("out/marks.pdf").read_bytes()
    marked(pack)
    assert Path("out/marks.pdf").read_bytes() == first


def test_unreadable_cells_are_named_and_the_rest_is_used(pack: Path) -> None:
    sheet = filled(pack, CLASS, ("starter",), "6,about 3")
    result = run("marks", str(pack), sheet, "--out", "out")
    assert result.exit_code == 0
    assert "marks.csv: row 7, column starter.a: 'about 3' is no answer" in result.stderr
    plain = json.loads(Path("out/marks.json").read_text(encoding="utf-8"))
    assert [pupil["attempted"] for pupil in plain["pupils"]] == [6, 6, 6, 6, 6, 0]
    assert "row 7, column starter.a" in plain["unread"][0]


def test_the_usual_folder_is_beside_the_pack(pack: Path) -> None:
    filled(pack, CLASS, ("starter",))
    shutil.copytree(pack, "stall")
    Path("marks.csv").replace("stall/marks.csv")
    assert run("marks", "stall", "stall/marks.csv").exit_code == 0
    assert {path.name for path in Path("stall-marks").iterdir()} == {
        "marks.pdf",
        "marks.json",
    }


def test_another_class_has_a_folder_of_its_own(pack: Path) -> None:
    Path(filled(pack, CLASS, ("starter",))).rename("9b.csv")
    for command in ("marks", "follow"):
        assert run(command, str(pack), "9b.csv").exit_code == 0
        assert pack.with_name(f"stall-{command}-9b").is_dir()


def test_versions_have_columns_of_their_own(pack: Path) -> None:
    Path("lesson.yaml").write_text(LESSON, encoding="utf-8")
    assert run("build", "lesson.yaml", "--versions", "2", "--out", "two").exit_code == 0
    header = Path("two/marks.csv").read_text(encoding="utf-8").splitlines()[0].split(",")
    assert {"starter.a", "core.1.a", "core.2.a", "core.2.i"} <= set(header)
    second = record(Path("two")).sections[-1]
    assert (second.name, second.version) == ("stretch", 2)
    cells = ";".join(item.question.answer_text.replace(".", ",") for item in second.items)
    names = ";".join(f"stretch.2.{item.label}" for item in second.items)
    Path("marks.csv").write_text(f"\ufeffpupil;{names}\n1;{cells}\n", encoding="utf-8")
    assert run("marks", "two", "marks.csv", "--out", "out").exit_code == 0
    plain = json.loads(Path("out/marks.json").read_text(encoding="utf-8"))
    assert plain["pupils"][0]["finding"] == "secure"
    assert plain["pupils"][0]["right"] == 9


def test_follow_writes_a_spec_and_a_pack_of_new_questions(pack: Path) -> None:
    sheet = filled(pack, CLASS, ("starter", "core", "stretch"))
    result = run("follow", str(pack), sheet, "--out", "tuesday", "--questions", "8")
    assert result.exit_code == 0, result.output
    assert "Mixed places: " in result.stdout
    assert "a habit of 2 pupils" in result.stdout
    new = record(Path("tuesday"))
    assert [(section.name, len(section.items)) for section in new.sections] == [("starter", 8)]
    assert new.title == "Produce stall: adding and subtracting: tomorrow's starter"
    old = {question.identity for question in record(pack).questions}
    assert not old & {question.identity for question in new.questions}
    assert {path.name for path in Path("tuesday").iterdir()} == {
        *("starter.pdf", "answers.pdf", "key.pdf", "follow-up.yaml"),
        *("lesson.pdf", "plan.pdf", "answers-on-paper.pdf"),
        *("marks.csv", "wrong-only.csv", "pack.json"),
    }
    # The spec and the seed that stands in the pack give the very same starter.
    spec = "tuesday/follow-up.yaml"
    assert run("build", spec, "--seed", str(new.seed), "--out", "again").exit_code == 0
    assert Path("again/starter.pdf").read_bytes() == Path("tuesday/starter.pdf").read_bytes()


def test_follow_is_chosen_to_settle_what_is_not_enough_to_say_and_says_so(pack: Path) -> None:
    sheet = filled(pack, [None, None], ("core",))
    column = next(c for c in mark_columns(record(pack).sections) if c.name == "core.h")
    (head, *rows) = Path(sheet).read_text(encoding="utf-8").splitlines()
    once = rows[0].replace(given(column, None), given(column, SMALLER))
    assert once != rows[0]
    Path(sheet).write_text("\n".join([head, once, *rows[1:]]), encoding="utf-8")
    result = run("follow", str(pack), sheet, "--groups", "--out", "tuesday")
    assert result.exit_code == 0, result.output
    assert "group-1: chosen to find out what is not settled of 1: " in result.stdout
    spec = Path("tuesday/follow-up.yaml").read_text(encoding="utf-8")
    assert "finds_out: [" in spec or "finds_out: smaller" in spec
    key = run("key", "tuesday/practice-group-1.pdf")
    assert key.exit_code == 0, key.output


def test_follow_repeats_nothing_from_packs_to_be_avoided(pack: Path) -> None:
    sheet = filled(pack, CLASS, ("starter", "core"))
    assert run("follow", str(pack), sheet, "--out", "tuesday", "--seed", "9").exit_code == 0
    assert run("follow", str(pack), sheet, "--out", "same", "--seed", "9").exit_code == 0
    assert record(Path("same")) == record(Path("tuesday"))
    arguments = ["follow", str(pack), sheet, "--seed", "9", "--avoid", "tuesday"]
    assert run(*arguments, "--out", "wednesday").exit_code == 0
    before = {question.identity for question in record(Path("tuesday")).questions}
    assert not before & {q.identity for q in record(Path("wednesday")).questions}


@pytest.mark.slow
def test_the_seed_after_the_last_is_the_first(pack: Path) -> None:
    Path("lesson.yaml").write_text(LESSON, encoding="utf-8")
    for seed in ("999999998", "999999999"):
        assert run("build", "lesson.yaml", "--seed", seed, "--out", seed).exit_code == 0
        sheet = filled(Path(seed), CLASS, ("core",))
        assert run("follow", seed, sheet, "--out", f"after-{seed}").exit_code == 0
        new = record(Path(f"after-{seed}")).seed
        again = run("build", f"after-{seed}/follow-up.yaml", "--seed", str(new), "--out", "again")
        assert again.exit_code == 0, again.output


def test_marks_of_another_pack_are_doubted(pack: Path) -> None:
    Path("lesson.yaml").write_text(LESSON, encoding="utf-8")
    assert run("build", "lesson.yaml", "--seed", "5", "--out", "other").exit_code == 0
    sheet = filled(pack, [None] * 4, ("starter", "core"))
    assert "another pack" not in run("marks", str(pack), sheet, "--out", "own").stderr
    codes = record(pack).code, record(Path("other")).code
    refused_by = refused("marks", "other", sheet)
    assert f"the sheet is of the pack '{codes[0]}', and this pack is {codes[1]}" in refused_by
    text = Path(sheet).read_text(encoding="utf-8")
    Path(sheet).write_text(text.replace(f"pupil ({codes[0]})", "pupil"), encoding="utf-8")
    doubted = run("marks", "other", sheet)
    assert doubted.exit_code == 0
    assert (
        "answers are right; look whether this is the mark sheet of another pack" in doubted.stderr
    )


def test_a_pack_that_is_looked_at_is_not_replaced(pack: Path) -> None:
    sheet = filled(pack, [SMALLER], ("core",))
    assert run("follow", str(pack), sheet, "--out", "tuesday").exit_code == 0
    before = {path.name: path.read_bytes() for path in Path("tuesday").iterdir()}
    says = "tuesday: the starter would take the place of a pack that it follows or avoids; name"
    assert says in refused("follow", str(pack), sheet, "--avoid", "tuesday", "--out", "tuesday")
    assert says in refused("follow", "tuesday/pack.json", sheet, "--out", "./tuesday")
    assert {path.name: path.read_bytes() for path in Path("tuesday").iterdir()} == before


def test_a_follow_up_can_be_followed(pack: Path) -> None:
    sheet = filled(pack, CLASS, ("starter", "core"))
    assert run("follow", str(pack), sheet, "--out", "tuesday").exit_code == 0
    sheet = filled(Path("tuesday"), [None, SMALLER], ("starter",))
    arguments = ["follow", "tuesday", sheet, "--avoid", str(pack), "--out", "wednesday"]
    assert run(*arguments).exit_code == 0
    title = record(Path("wednesday")).title
    assert title == "Produce stall: adding and subtracting: tomorrow's starter"


def test_a_pack_without_answers_or_spec_is_not_followed(pack: Path) -> None:
    sheet = filled(pack, CLASS, ())
    assert "no question of the ladder has an answer" in refused("follow", str(pack), sheet)
    plain = json.loads((pack / "pack.json").read_bytes())
    Path("old").mkdir()
    for spec, says in (("", "holds no spec"), ("title: x", "its spec:1: ")):
        Path("old/pack.json").write_text(json.dumps(plain | {"spec": spec}), encoding="utf-8")
        assert says in refused("follow", "old", sheet)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "the file is empty"),
        ("name,starter.a\n1,2\n", "no column is called 'pupil'"),
        ("pupil,sums.a\n1,2\n", "no column is a question of the pack"),
    ],
)
def test_what_is_no_mark_sheet_is_refused(pack: Path, text: str, says: str) -> None:
    Path("marks.csv").write_text(text, encoding="utf-8")
    for command in ("marks", "follow"):
        assert says in refused(command, str(pack), "marks.csv", "--out", "out")
    assert not Path("out").exists()


def test_what_is_no_pack_is_refused(pack: Path) -> None:
    sheet = filled(pack, CLASS, ("starter",))
    Path("broken").mkdir()
    Path("broken/pack.json").write_text('{"title": 3}', encoding="utf-8")
    Path("deep").mkdir()
    Path("deep/pack.json").write_text("[" * 100_000, encoding="utf-8")
    for command in ("marks", "follow"):
        assert "there is no such file" in refused(command, "nowhere", sheet, "--out", "out")
        assert "not the record of a pack" in refused(command, "broken", sheet, "--out", "out")
        assert "not JSON" in refused(command, "deep", sheet, "--out", "out")
        assert "cannot be opened" in refused(command, str(pack), "no.csv", "--out", "out")
    assert not Path("out").exists()


def test_a_folder_without_a_name_is_no_pack(pack: Path) -> None:
    root = Path(pack.anchor)
    for command in ("marks", "follow"):
        for sheet in (str(root), "marks.csv"):
            assert refused(command, str(root), sheet) == (
                f"{root}: no pack is there; name the folder of a pack that was built\n"
            )


def test_a_spec_that_was_edited_in_a_record_is_refused_in_words(pack: Path) -> None:
    """Every way in which one can be refused: ``test_desk``."""
    sheet = filled(pack, CLASS, ("starter",))
    plain = json.loads((pack / "pack.json").read_bytes())
    wide = (
        "addends: 6, places: {ragged: [0, 4]}, whole: {between: [0, 5]}, zeros: {inside: require}, "
        "carries: {count: [2, 5], across_point: true}, answer: {between: [10, 100000]}"
    )
    spec = LESSON.replace("addends: 5, places: {ragged: [1, 3]}", wide)
    Path("edited").mkdir()
    Path("edited/pack.json").write_text(json.dumps(plain | {"spec": spec}), encoding="utf-8")
    message = refused("follow", "edited", sheet)
    assert message.startswith("edited: its spec:11: five-addends mixes too many lengths")
    assert message.count("\n") == 1


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no file without an end here")
def test_a_sheet_without_end_is_refused(pack: Path) -> None:
    for command in ("marks", "follow"):
        assert "too large" in refused(command, str(pack), "/dev/zero", "--out", "out")
        assert "far larger" in refused(command, "/dev/zero", "/dev/zero", "--out", "out")
    assert "far larger" in refused("key", "/dev/zero")
    assert not Path("out").exists()


def test_a_folder_of_the_teachers_is_left_alone(pack: Path) -> None:
    sheet = filled(pack, CLASS, ("starter",))
    Path("mine").mkdir()
    Path("mine/notes.txt").write_text("mine", encoding="utf-8")
    for command in ("marks", "follow"):
        message = refused(command, str(pack), sheet, "--out", "mine")
        assert "name another folder with --out" in message
    assert [path.name for path in Path("mine").iterdir()] == ["notes.txt"]


def test_help_gives_the_usual_cautions() -> None:
    for command in ("marks", "follow"):
        said = " ".join(run(command, "--help").stdout.split())
        assert "No names are needed" in said
        assert "leaves this machine" in said
        assert f"Example: rungsheet {command}" in said


ROWS = """title: Numbers in order
ladder:
  pairs: {operation: compare, places: {between: [1, 3]}, whole: 1, same_to: ones}
  rows: {operation: order, numbers: 4, places: {between: [1, 3]}, whole: 1, same_to: ones}
starter:
  tells_apart:
    - more digits taken as larger
    - fewer digits taken as larger
    - nought after the point handled apart
  questions: {pairs: 2, rows: 8}
"""


def test_orders_and_signs_are_marked_and_a_habit_in_them_is_named() -> None:
    Path("rows.yaml").write_text(ROWS, encoding="utf-8")
    assert run("build", "rows.yaml", "--seed", "2", "--out", "rows").exit_code == 0
    (section,) = record(Path("rows")).sections
    words = {"<": "smaller", ">": ">", "=": "equal"}

    def cells(name: str | None) -> list[str]:
        found = []
        for item in section.items:
            wrong = mistake_named(name).wrong_answer(item.question) if name else None
            answer = wrong.text if wrong else item.question.answer_text
            found.append(words.get(answer, answer.replace(", ", " ")))
        return found

    more, fewer = "more digits taken as larger", "fewer digits taken as larger"
    apart = "nought after the point handled apart"
    rows = [*map(cells, (None, more, fewer, apart)), ["0.5", "a b", *[""] * 8]]
    names = ",".join(f"starter.{item.label}" for item in section.items)
    lines = [f"pupil,{names}", *(f"{n},{','.join(row)}" for n, row in enumerate(rows, 1))]
    Path("marks.csv").write_text("\n".join(lines), encoding="utf-8")
    result = run("marks", "rows", "marks.csv", "--out", "out")
    assert result.exit_code == 0, result.output
    assert "row 6, column starter.a: '0.5' is no answer, tick or cross; write <, >" in result.stderr
    pupils = json.loads(Path("out/marks.json").read_text(encoding="utf-8"))["pupils"]
    assert [pupil["finding"] for pupil in pupils[:4]] == ["secure", *["habit"] * 3]
    assert [pupil["mistake"] for pupil in pupils[:4]] == [None, more, fewer, apart]
    assert pupils[4]["attempted"] == 0
    assert run("follow", "rows", "marks.csv", "--out", "next").exit_code == 0


def test_a_pack_of_several_versions_has_a_narrow_sheet_as_well() -> None:
    assert run("build", "--versions", "3", "--out", "three").exit_code == 0
    wide = Path("three/marks.csv").read_text(encoding="utf-8").splitlines()
    narrow = Path("three/marks-by-version.csv").read_text(encoding="utf-8").splitlines()
    head = f"pupil ({record(Path('three')).code})"
    assert narrow[0].startswith(f"{head},version,starter.a,")
    assert len(narrow) == len(wide) == 31
    assert len(narrow[0].split(",")) < len(wide[0].split(",")) / 2
    files = json.loads(Path("three/pack.json").read_bytes())["files"]
    assert [f["role"] for f in files if f["name"] == "marks-by-version.csv"] == ["marks by version"]

    answers = {
        (section.name, section.version, item.label): item.question.answer_text
        for section in record(Path("three")).sections
        for item in section.items
    }
    names = narrow[0].split(",")[2:]
    lines = [narrow[0]]
    for pupil in range(1, 5):
        version = pupil if pupil < 4 else 1
        cells = []
        for name in names:
            section, label = name.split(".")
            of = version if (section, 2, label) in answers else 1
            cells.append(answers[section, of, label])
        lines.append(",".join([str(pupil), str(pupil), *cells]))
    Path("marks.csv").write_text("\n".join(lines), encoding="utf-8")
    result = run("marks", "three", "marks.csv", "--out", "out")
    assert result.exit_code == 0, result.output
    assert "row 5, column version: '4' is no version of the pack; write a number" in result.stderr
    pupils = json.loads(Path("out/marks.json").read_text(encoding="utf-8"))["pupils"]
    assert [pupil["finding"] for pupil in pupils] == ["secure"] * 4
    assert [pupil["attempted"] for pupil in pupils[:3]] == [len(names)] * 3
    assert pupils[3]["attempted"] == sum(name.startswith("starter.") for name in names)
    assert run("build", "--out", "one").exit_code == 0
    assert not Path("one/marks-by-version.csv").exists()


GAPS = """\
title: Gaps at the stall
ladder:
  sums: {operation: add, places: {ragged: [1, 2]}, whole: 1}
  gaps: {operation: add, places: {ragged: [1, 2]}, whole: 1, form: missing number}
tiers:
  core: {sums: 4, gaps: 4}
"""


def test_a_habit_where_something_was_missing_is_followed_as_well() -> None:
    """Whoever writes the sum into the gap is wrong there, and no habit can be told from it."""
    Path("gaps.yaml").write_text(GAPS, encoding="utf-8")
    assert run("build", "gaps.yaml", "--out", "gaps").exit_code == 0
    sheet = filled(Path("gaps"), [LINED_UP] * 3, ("core",))
    assert run("marks", "gaps", sheet, "--out", "out").exit_code == 0
    with pdfplumber.open("out/marks.pdf") as pdf:
        text = "\n".join(page.extract_text() for page in pdf.pages)
    for column in mark_columns(record(Path("gaps")).sections):
        question = column.item.question
        shown = "" if column.item.rung == "gaps" else f" = {question.answer_text}"
        assert (f"{question.text}{shown}" in text) is (column.item.rung == "sums")
        if column.item.rung == "gaps":
            assert f"= {column.item.form.reply(question)}" in text
    result = run("follow", "gaps", sheet, "--out", "next")
    assert result.exit_code == 0, result.output
    spec = Path("next/follow-up.yaml").read_text(encoding="utf-8")
    assert spec.count("tells_apart") == 1
    assert spec.index("tells_apart") < spec.index("gaps:")


PRICES = """
title: Prices
pages: {land: LAND}
ladder:
  prices: {operation: multiply, digits: [3, 1], places: [2, 0], context: money}
starter: {prices: 4}
"""


@pytest.mark.parametrize(
    ("land", "written", "doubted"),
    [("England", "£{}", 0), ("Germany", "{} €", 0), ("Germany", "£{}", 4)],
)
def test_answers_have_the_money_of_the_pages_land(land: str, written: str, doubted: int) -> None:
    spec = specs.read(PRICES.replace("LAND", land))
    chosen = packs.choose(spec)
    pack = PackRecord(chosen.title, 1, chosen.code, chosen.sections, spec.text)
    columns = mark_columns(pack.sections)
    cells = [written.format(column.item.question.answer_text) for column in columns]
    sheet = f"pupil ({pack.code}),{','.join(c.name for c in columns)}\n1,{','.join(cells)}\n"
    found = marks.mark(pack, sheet, "marks.csv")
    assert len(found.cells) == doubted
    assert [result.right for result in found.results.questions] == [int(not doubted)] * 4
