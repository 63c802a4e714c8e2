"""``rungsheet foresee``: what is said before anything is printed."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

import rungsheet.command_line
from generator.operations.in_english import IN_BRIEF
from generator.results import foresight

SPEC = """\
title: Weighing beans
ladder:
  beans: {operation: add, addends: 2, places: {ragged: [1, 2]}, whole: 1, carries: some}
  level: {operation: add, places: 1, whole: 1, carries: none}
  gap: {operation: add, places: 2, whole: 1, form: missing digit}
starter: {level: 2, gap: 2}
tiers:
  core: {finds_out: every habit, questions: {beans: 6}}
"""


@pytest.fixture(autouse=True)
def in_a_folder_with_a_spec(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lesson.yaml").write_text(SPEC, encoding="utf-8")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(rungsheet.command_line.app, list(arguments))


def test_each_habit_is_foreseen_after_each_part_and_the_class_with_it() -> None:
    done = run("foresee", "lesson.yaml", "--seed", "3")
    assert done.exit_code == 0
    assert not done.stderr
    assert list(Path().iterdir()) == [Path("lesson.yaml")]
    title, _, _, pupils, _, head, *lines = done.stdout.splitlines()
    assert title == "Weighing beans, seed 3: what the answers will tell"
    assert int(re.search(r"[\d,]{4,}", pupils)[0].replace(",", "")) >= foresight.PUPILS  # type: ignore[index]
    assert re.fullmatch(r"habit +starter +core +may be taken for", head)
    rows = {
        line[: head.index("starter")].strip(): line.split() for line in lines[: lines.index("")]
    }
    starter, core = rows.pop("(pupils with no habit, wrongly said to have one)")[-2:]
    assert (int(starter), int(core) <= 3) == (0, True)
    assert set(rows) <= set(IN_BRIEF.values())
    assert "point left out" in rows
    found = re.search(r"lined up at the right +(\S+) +(\d+)", done.stdout)
    assert found is not None
    assert found[1] == "-", "numbers that are level cannot be lined up wrongly"
    assert int(found[2]) > 80
    assert re.search(r"In a class of 30, expect about [\d.]+ of these habits:", done.stdout)
    assert re.search(r"after core: [\d.]+ found, and [\d.]+ reported for a pupil", done.stdout)


def test_the_same_for_programs() -> None:
    Path("few.yaml").write_text(SPEC.replace("beans: 6", "beans: 3"), encoding="utf-8")
    done = run("foresee", "few.yaml", "--seed", "3", "--json")
    assert done.exit_code == 0
    assert not done.stderr
    plain = json.loads(done.stdout)
    assert (plain["title"], plain["seed"]) == ("Weighing beans", 3)
    assert plain["pupils"] >= foresight.PUPILS
    assert [stage["sections"] for stage in plain["stages"]] == [["starter"], ["starter", "core"]]
    assert plain["stages"][0]["careful_pupils_called"] == 0
    expected = plain["stages"][1]["of_class"]
    assert 0 < expected["named"] < expected["habits"] < expected["pupils"] == foresight.CLASS
    habits = {habit["mistake"]: habit for habit in plain["habits"]}
    assert set(habits) | set(plain["unseen"]) <= set(IN_BRIEF)
    starter, core = habits["numbers lined up at the right-hand end"]["stages"]
    assert starter == {"stage": "starter", "shows": 0, "named": 0}
    assert core["shows"] == 3
    assert core["named"] > 0.6
    rivals = [rival for habit in plain["habits"] for rival in habit["taken_for"]]
    assert rivals
    assert all(0 < rival["chance"] <= 1 for rival in rivals)
    assert {rival["mistake"] for rival in rivals} <= {None, *IN_BRIEF}, "none: careful, with slips"


def test_a_pack_whose_answers_show_nothing_is_refused() -> None:
    Path("gaps.yaml").write_text(
        SPEC.split("starter:")[0] + "starter: {gap: 2}\n", encoding="utf-8"
    )
    done = run("foresee", "gaps.yaml")
    assert done.exit_code == 2
    assert not done.stdout
    assert done.stderr.startswith("gaps.yaml: no question that pupils answer asks for the answer")
    assert "; take some from a rung with 'form: plain'" in done.stderr


def test_what_cannot_be_built_cannot_be_foreseen() -> None:
    Path("many.yaml").write_text(SPEC.replace("level: 2", "levels: 2"), encoding="utf-8")
    done = run("foresee", "many.yaml")
    assert done.exit_code == 2
    assert "many.yaml:6: the ladder has no rung 'levels'" in done.stderr


@pytest.mark.slow
def test_nothing_but_what_is_foreseen_is_reckoned_with_arrays() -> None:
    """Building a pack and reading its marks load no numpy."""
    program = (
        "import sys\n"
        "from rungsheet.command_line import app\n"
        "for words in (['build', 'lesson.yaml', '--out', 'pack'],\n"
        "              ['marks', 'pack', 'pack/marks.csv']):\n"
        "    app(words, standalone_mode=False)\n"
        "    print('numpy' in sys.modules)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    loaded = [line for line in done.stdout.splitlines() if line in ("True", "False")]
    assert loaded == ["False", "False"]
