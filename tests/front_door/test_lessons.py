"""The ready lessons: each checks, builds, and keeps what the comments on its rungs promise."""

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

import rungsheet.command_line
from generator.arithmetic.questions import Ending, Operation
from generator.operations.rungs import rung_set
from generator.vocabulary import VOCABULARY
from specs import load_spec, shipped
from specs.shipped import lesson_names
from specs.spec import EXAMPLES
from tests.asked import question

PROMISED = re.compile(
    r"^  # ([\d.]+(?: [+−×÷] [\d.]+)+)(?:[:, ].*)?\n(?:  #.*\n)*  ([a-z-]+):$", re.M
)
"""A calculation that the comment above a rung begins with, and the rung's name."""


def promised() -> list[tuple[str, str, str]]:
    """Each lesson, rung and calculation that stands above it."""
    return [
        (lesson, rung, calculation)
        for lesson in lesson_names()
        for calculation, rung in PROMISED.findall(shipped(lesson).read_text(encoding="utf-8"))
    ]


def test_there_is_a_lesson_for_each_thing_taught() -> None:
    assert len(lesson_names()) == 18
    operations = {
        rung.operation
        for lesson in lesson_names()
        for rung in load_spec(shipped(lesson), VOCABULARY).ladder
    }
    assert operations == {operation.value for operation in Operation}


def test_most_rungs_show_one_of_their_questions() -> None:
    assert len(promised()) > 45


@pytest.mark.parametrize(("lesson", "name", "calculation"), promised())
def test_the_calculation_above_a_rung_is_on_it(lesson: str, name: str, calculation: str) -> None:
    rung = load_spec(shipped(lesson), VOCABULARY).rung(name)
    asked = [question(calculation, ending, places) for ending in Ending for places in (0, 2)]
    if not any(one in rung_set(rung) for one in asked):
        pytest.fail(f"{calculation} is not on {name}")


@pytest.mark.parametrize("lesson", lesson_names())
@pytest.mark.slow
def test_a_lesson_builds_whole(lesson: str, tmp_path: Path) -> None:
    run = CliRunner()
    assert run.invoke(rungsheet.command_line.app, ["check", lesson]).output == ""
    pack = tmp_path / "pack"
    done = run.invoke(rungsheet.command_line.app, ["build", lesson, "--out", str(pack)])
    assert done.exit_code == 0, done.output
    names = {path.name for path in pack.iterdir()}
    sections = load_spec(shipped(lesson), VOCABULARY).sections
    sheets = {f"{s.place.stem}.pdf" for s in sections if s.place and s.place.kind != EXAMPLES}
    assert len(sheets) >= 4
    for_the_teacher = {"lesson.pdf", "plan.pdf", "answers-on-paper.pdf", "key.pdf", "marks.csv"}
    assert names >= sheets | for_the_teacher | {"examples.pdf", "answers.pdf"}
