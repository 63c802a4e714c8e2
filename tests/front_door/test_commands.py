"""The command line, used as its user would: what is written, what is said, what is refused."""

import hashlib
import json
import os
import subprocess
import sys
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

import rungsheet.command_line
from specs import shipped
from tests import golden

FOR_THE_LESSON = {
    "lesson.pdf": "lesson",
    "answers.pdf": "answers",
    "answers-on-paper.pdf": "answers on paper",
    "plan.pdf": "plan",
}
PACK_FILES = {
    "starter.pdf": "starter",
    "examples.pdf": "examples",
    "examples-on-paper.pdf": "examples",
    "practice-support.pdf": "practice",
    "practice-core.pdf": "practice",
    "practice-stretch.pdf": "practice",
    **FOR_THE_LESSON,
    "key.pdf": "key",
    "marks.csv": "marks",
    "wrong-only.csv": "wrong answers",
}


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


def spec_file(text: str, name: str = "lesson.yaml") -> str:
    Path(name).write_text(text, encoding="utf-8")
    return name


GOOD = """\
title: Weighing beans
ladder:
  beans: {operation: add, places: 2, carries: none}
tiers:
  core: {beans: 4}
"""


def test_build_with_no_arguments_builds_the_demo() -> None:
    result = run("build")
    assert result.exit_code == 0, result.output
    folder = Path("out/produce-stall-1")
    assert {path.name for path in folder.iterdir()} == {*PACK_FILES, "pack.json"}
    assert str(folder) in result.stdout
    assert not result.stderr


def test_pack_json_records_the_pack() -> None:
    run("build", "--seed", "5", "--out", "monday")
    record = json.loads(Path("monday/pack.json").read_text(encoding="utf-8"))
    assert record["seed"] == 5
    assert [s["name"] for s in record["sections"]] == [
        "starter",
        "examples",
        "support",
        "core",
        "stretch",
    ]
    for section in record["sections"]:
        for asked in section["questions"]:
            numbers = [Decimal(text) for text in asked["operands"]]
            answer, remainder = Decimal(asked["answer"]), Decimal(asked["remainder"] or 0)
            match asked["operation"]:
                case "add":
                    assert answer == sum(numbers)
                case "subtract":
                    assert answer == numbers[0] - numbers[1]
                case "multiply":
                    assert answer == numbers[0] * numbers[1]
                case "divide":
                    assert answer * numbers[1] + remainder == numbers[0]
                    assert remainder < numbers[1]
    assert {file["name"]: file["role"] for file in record["files"]} == PACK_FILES
    for file in record["files"]:
        data = Path("monday", file["name"]).read_bytes()
        assert hashlib.sha256(data).hexdigest() == file["sha256"]


def test_versions_are_sections_of_their_own() -> None:
    assert run("build", spec_file(GOOD), "--versions", "3", "--out", "three").exit_code == 0
    record = json.loads(Path("three/pack.json").read_text(encoding="utf-8"))
    assert [(s["name"], s["version"]) for s in record["sections"]] == [
        ("core", n) for n in (1, 2, 3)
    ]
    operands = [tuple(q["operands"]) for s in record["sections"] for q in s["questions"]]
    assert len(set(operands)) == 12


def test_the_folder_is_named_after_spec_and_seed() -> None:
    assert run("build", spec_file(GOOD, "beans.yaml"), "--seed", "44").exit_code == 0
    assert Path("out/beans-44/practice-core.pdf").is_file()


def test_an_existing_pack_is_replaced_whole() -> None:
    run("build", "--out", "pack")
    assert run("build", spec_file(GOOD), "--out", "pack").exit_code == 0
    names = {path.name for path in Path("pack").iterdir()}
    assert names == {"practice-core.pdf", "key.pdf", *FOR_THE_LESSON} | SHEETS
    assert [path.name for path in Path().iterdir() if path.name.startswith(".")] == []


def test_what_is_replaced_is_said_where_it_is_another_pack() -> None:
    first = run("build", spec_file(GOOD), "--versions", "2", "--out", "pack")
    assert first.exit_code == 0
    assert not first.stderr
    code = json.loads(Path("pack/pack.json").read_bytes())["code"]
    for arguments in (["--seed", "2"], []):  # another pack; the same in one version
        run("build", "lesson.yaml", "--versions", "2", "--out", "pack")
        again = run("build", "lesson.yaml", *arguments, "--out", "pack")
        assert again.exit_code == 0
        says = f"pack: the pack there, {code} in 2 versions, 'Weighing beans', is to be replaced; "
        assert again.stderr.startswith(says)
        assert again.stderr.count("\n") == 1
    assert not run("build", "lesson.yaml", "--out", "pack").stderr


@pytest.mark.parametrize("record", ["{}", '{"files": []}', '{"files": [], "name": "x"}', "[]"])
def test_another_programs_pack_json_is_left_alone(record: str) -> None:
    Path("mine").mkdir()
    Path("mine/pack.json").write_text(record, encoding="utf-8")
    message = refused("build", "--out", "mine")
    assert message.startswith("mine: ")
    assert message.endswith("; name another folder with --out\n")
    assert Path("mine/pack.json").read_text(encoding="utf-8") == record


@pytest.mark.parametrize("command", ["build", "check", "rungs", "key", "marks", "follow"])
def test_a_name_too_long_for_the_file_system_is_named(command: str) -> None:
    name = "x" * 300
    arguments = [name, name] if command in ("marks", "follow") else [name]
    assert refused(command, *arguments).startswith(name)
    if command in ("build", "key", "marks", "follow"):
        assert run("build", "--out", "pack").exit_code == 0
        long = {"build": [], "key": ["pack/key.pdf"]}.get(command, ["pack", "pack/marks.csv"])
        assert ": " in refused(command, *long, "--out", name)


def test_a_link_that_leads_to_itself_is_named() -> None:
    for name in ("a.csv", "a.yaml", "a.pdf", "loop"):
        Path(name).symlink_to(name)
    assert run("build", spec_file(GOOD), "--out", "pack").exit_code == 0
    sheet = "pack/marks.csv"
    for arguments in (
        *(("build", "a.yaml"), ("check", "a.yaml"), ("rungs", "a.yaml"), ("key", "a.pdf")),
        *(("marks", "pack", "a.csv"), ("marks", "pack", sheet, "a.csv"), ("marks", "loop", sheet)),
        *(("follow", "pack", "a.csv"), ("follow", "pack", sheet, "--out", "loop")),
        ("build", "lesson.yaml", "--out", "loop"),
        *(("marks", "pack", sheet, "--out", out) for out in ("loop", "loop/below")),
    ):
        (loop,) = [word for word in arguments if word.startswith(("a.", "loop"))]
        assert refused(*arguments).splitlines()[-1].startswith(loop), arguments


@pytest.mark.skipif(not hasattr(os, "O_NOFOLLOW"), reason="no links are followed here")
def test_a_lock_that_is_a_link_makes_no_file_elsewhere() -> None:
    Path("elsewhere").mkdir()
    Path(".pack.lock").symlink_to("elsewhere/made")
    assert "a link is in the way" in refused("build", spec_file(GOOD), "--out", "pack")
    assert not list(Path("elsewhere").iterdir())


def test_a_lock_left_by_a_colleague_locks_nobody_out(monkeypatch: pytest.MonkeyPatch) -> None:
    Path(".pack.lock").touch()
    opened = os.open

    def mine_to_read_alone(path: Any, flags: int, *mode: int) -> int:
        if Path(path).name == ".pack.lock" and flags & os.O_RDWR:
            raise PermissionError(13, "Permission denied")
        return opened(path, flags, *mode)

    monkeypatch.setattr(os, "open", mine_to_read_alone)
    assert run("build", spec_file(GOOD), "--out", "pack").exit_code == 0


SHEETS = {"marks.csv", "wrong-only.csv", "pack.json"}


@pytest.mark.parametrize("in_the_way", ["notes.txt", "pack.json"])
def test_a_folder_that_is_not_a_pack_is_left_alone(in_the_way: str) -> None:
    Path("mine").mkdir()
    Path("mine", in_the_way).write_text("mine", encoding="utf-8")
    assert "name another folder with --out" in refused("build", "--out", "mine")
    assert Path("mine", in_the_way).read_text(encoding="utf-8") == "mine"


def test_a_pack_with_something_of_the_teachers_in_it_is_left_alone() -> None:
    run("build", "--out", "pack")
    Path("pack/notes.txt").write_text("mine", encoding="utf-8")
    assert "notes.txt is not part of it" in refused("build", "--seed", "2", "--out", "pack")
    assert json.loads(Path("pack/pack.json").read_text(encoding="utf-8"))["seed"] == 1


def test_a_mark_sheet_that_was_filled_in_is_left_alone() -> None:
    run("build", "--out", "pack")
    assert run("build", "--seed", "2", "--out", "pack").exit_code == 0
    filled = Path("pack/marks.csv").read_bytes().replace(b"1,,", b"1,3.67,", 1)
    Path("pack/marks.csv").write_bytes(filled)
    message = refused("build", "--seed", "3", "--out", "pack")
    assert "marks.csv there would be lost, and it was changed" in message
    assert Path("pack/marks.csv").read_bytes() == filled


@pytest.mark.slow
def test_a_spec_that_cannot_tell_mistakes_apart_is_refused_at_its_line() -> None:
    asked = GOOD.replace("carries: none", "carries: none,\n    tells_apart: [carry dropped]")
    for command in ("check", "build"):
        message = refused(command, spec_file(asked))
        assert message.startswith("lesson.yaml:4: 'carry dropped' gives the right answer to each")
    assert not Path("out").exists()


def test_a_file_in_the_way_is_left_alone() -> None:
    Path("pack").write_text("mine", encoding="utf-8")
    assert "a file of that name is in the way" in refused("build", "--out", "pack")
    assert "a file is in the way" in refused("build", "--out", "pack/inside")


def test_check_is_silent_about_a_good_spec() -> None:
    result = run("check", spec_file(GOOD))
    assert (result.exit_code, result.output) == (0, "")


def test_check_names_every_problem_with_its_line() -> None:
    bad = GOOD.replace("places: 2", "places: many").replace("beans: 4", "beens: 4")
    lines = refused("check", spec_file(bad)).splitlines()
    assert [line.split(": ")[0] for line in lines] == ["lesson.yaml:3", "lesson.yaml:5"]
    assert "did you mean 'beans'?" in lines[1]


def test_a_rung_with_no_question_is_refused_before_anything_is_written() -> None:
    bad = GOOD.replace("carries: none", "whole: 0, carries: {in: [tens]}")
    for command in (["check"], ["build"], ["rungs"]):
        message = refused(*command, spec_file(bad))
        assert message.startswith("lesson.yaml:3: no question of beans meets")
        assert "there are" in message
    assert not Path("out").exists()


def test_too_few_questions_are_refused_with_both_numbers() -> None:
    few = GOOD.replace("places: 2", "places: 1, whole: 0")
    message = refused("build", spec_file(few), "--versions", "6")
    assert "beans has 20 questions, and 24 are wanted (core 4 in 6 versions)" in message
    assert not Path("out").exists()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["build", "missing.yaml"], "missing.yaml"),
        (["check", "."], "."),
        (["build", "--seed", "-1"], "--seed"),
        (["build", "--versions", "0"], "--versions"),
        (["build", "--seed", "many"], "--seed"),
        (["bild"], "bild"),
    ],
)
def test_wrong_arguments_end_with_a_message(arguments: list[str], says: str) -> None:
    assert says in refused(*arguments)


def test_rungs_shows_the_ladder_with_exact_counts() -> None:
    result = run("rungs")
    assert "35,680" in result.stdout
    assert "no carries" in result.stdout
    plain = json.loads(run("rungs", "--json").stdout)
    assert [sorted(rung) for rung in plain] == [["name", "operation", "questions", "sample"]] * len(
        plain
    )
    assert plain[0]["name"] == "equal-places"
    assert plain[0]["questions"] == 35_680
    assert plain[0]["sample"]["operation"] == "add"


def test_rungs_says_how_many_numbers_serve_a_run() -> None:
    result = run("rungs", "multiplying-by-the-grid")
    said = "ones-and-tenths, four-boxes; 81 first numbers serve the whole run"
    assert result.stdout.count(said) == 3
    *_, last = json.loads(run("rungs", "multiplying-by-the-grid", "--json").stdout)
    assert last == {
        "run": ["ones-and-tenths", "four-boxes"],
        "section": "examples-2",
        "keep": "first number",
        "serve": 81,  # 1.1 to 9.9, no nought at the end
    }


def test_the_published_schema_is_the_one_that_the_words_make() -> None:
    published = Path(shipped()).with_name("rungsheet.schema.json").read_text(encoding="utf-8")
    assert run("schema").stdout == published


@pytest.mark.parametrize("encoding", ["cp1252", "cp437", "ascii", "utf-8"])
@pytest.mark.slow
def test_what_is_said_can_be_kept_in_any_encoding(encoding: str) -> None:
    environment = {**os.environ, "PYTHONIOENCODING": encoding}
    for words in (["rungs", "autumn-fair"], ["rungs", "--json"], ["schema"]):
        program = [sys.executable, "-m", "rungsheet", *words]
        done = subprocess.run(program, capture_output=True, env=environment)
        assert (done.returncode, done.stderr) == (0, b"")
        if words != ["rungs", "autumn-fair"]:
            json.loads(done.stdout.decode("utf-8"))


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="the system has no /dev/full")
@pytest.mark.parametrize("words", [["rungs"], ["schema"], ["build", "--out", "pack"]])
@pytest.mark.slow
def test_an_output_without_room_is_said_in_a_line(words: list[str]) -> None:
    with open("/dev/full", "w") as full:
        program = [sys.executable, "-m", "rungsheet", *words]
        done = subprocess.run(program, stdout=full, stderr=subprocess.PIPE, text=True)
    assert done.returncode == 2
    assert done.stderr.startswith("the output cannot be written (")
    assert len(done.stderr.splitlines()) == 1
    assert Path("pack/pack.json").exists() is (words[0] == "build")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["build", "--seed", "seven"], "'seven' is no whole number from 0 to 999999999"),
        (["build", "--seed", "7.0"], "'7.0' is no whole number from 0 to 999999999"),
        (["build", "--versions", "0"], "'0' is no whole number from 1 to 10000"),
        (["follow", "a", "b", "--review", "101%"], "'101%' is no whole number from 0 to 100"),
    ],
)
def test_an_option_that_is_no_number_is_said_in_plain_words(
    arguments: list[str], says: str
) -> None:
    assert says in refused(*arguments)


def test_every_rung_that_will_not_do_is_named_at_once() -> None:
    text = """\
title: Beans
ladder:
  few: {operation: multiply, digits: [1, 1], places: 0, factors: 2}
  fact: {operation: add, form: known fact}
  gap: {operation: order, form: missing number}
  none: {operation: add, places: 1, answer: {above: 100000}}
tiers:
  core: {few: 40}
"""
    lines = refused("check", spec_file(text)).splitlines()
    assert [line.split(": ")[0] for line in lines] == [f"lesson.yaml:{at}" for at in (4, 5, 6)]
    assert "it goes with multiply and divide; leave it out" in lines[0]
    assert "goes with add, subtract, multiply and divide; leave it out" in lines[1]
    assert refused("rungs", "lesson.yaml").splitlines() == lines


def test_every_rung_that_holds_too_few_is_named_at_once() -> None:
    rung = "{operation: divide, divisor: 9, dividend: {digits: 1}}"
    text = f"title: Beans\nladder:\n  a: {rung}\n  b: {rung}\ntiers:\n  core: {{a: 2, b: 3}}\n"
    lines = refused("check", spec_file(text)).splitlines()
    assert [line.split(": ")[0] for line in lines] == ["lesson.yaml:3", "lesson.yaml:4"]


def test_rungs_shows_a_question_as_it_is_asked() -> None:
    (gap,) = [
        line for line in run("rungs", "autumn-fair").stdout.splitlines() if "missing-n" in line
    ]
    assert "▭" in gap


def test_version_and_help() -> None:
    assert run("--version").stdout.startswith("rungsheet 1.")
    for command in ([], ["build"], ["check"], ["rungs"], ["schema"]):
        assert run(*command, "--help").exit_code == 0
    for command in ("build", "check", "rungs", "foresee", "schema"):
        assert "Example: rungsheet " + command in run(command, "--help").stdout


LAYOUTS = ("layouts", "reportlab", "segno")
NEEDED_BY_NONE = ("pypdf", "numpy", "rich", "multiprocessing", "layouts.pdf.ink")


COMMANDS = [
    (["--help"], LAYOUTS),
    (["build", "--help"], LAYOUTS),
    (["key", "--help"], LAYOUTS),
    (["words"], LAYOUTS),
    (["schema"], LAYOUTS),
    (["rungs", "produce-stall"], LAYOUTS),
    (["check", "produce-stall"], ()),  # whether pages fit is planned; nothing is drawn
]


def test_a_command_loads_nothing_that_it_does_not_need() -> None:
    """One after another in one process: nothing that a command does without is loaded before it."""
    program = (
        "import sys, rungsheet.command_line\n"
        f"for words, needless in {COMMANDS}:\n"
        "    try: rungsheet.command_line.app(words)\n"
        "    except SystemExit: pass\n"
        f"    needless = (*needless, *{NEEDED_BY_NONE})\n"
        "    loaded = [name for name in needless if name in sys.modules]\n"
        "    print('loaded by', *words, loaded)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    told = [line for line in done.stdout.splitlines() if line.startswith("loaded by ")]
    assert told == [" ".join(["loaded by", *words, "[]"]) for words, _ in COMMANDS]


@pytest.mark.parametrize(
    "setting",
    [
        {"TZ": "Pacific/Chatham", "LC_ALL": "C", "PYTHONHASHSEED": "1"},
        {"TZ": "America/St_Johns", "LC_ALL": "tr_TR.UTF-8", "PYTHONHASHSEED": "2"},
    ],
)
@pytest.mark.slow
def test_the_same_spec_and_seed_give_the_same_bytes_anywhere(setting: dict[str, str]) -> None:
    command = [sys.executable, "-m", "rungsheet", *golden.BUILD, "--out", "there"]
    subprocess.run(command, check=True, env={**os.environ, **setting})
    assert golden.digests(Path("there")) == golden.kept()["digests"]


def test_the_page_is_opened_where_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[str] = []
    monkeypatch.setattr("webbrowser.open", lambda address: not opened.append(address))
    Path("out").mkdir()
    Path("out/rungsheet.html").write_text("<title>Beans</title>", "utf-8")
    done = run("page")
    assert (done.exit_code, opened) == (0, [(tmp_path / "out" / "rungsheet.html").as_uri()])


def test_a_page_that_is_not_there_is_told_how_to_make() -> None:
    said = refused("page")
    assert "out/rungsheet.html: the page is not there" in said.replace(os.sep, "/")
    assert "python -m rungsheet.page" in said


def test_where_no_browser_opens_the_address_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("webbrowser.open", lambda address: False)
    Path("page.html").write_text("<title>Beans</title>", "utf-8")
    assert "file://" in refused("page", "page.html")
