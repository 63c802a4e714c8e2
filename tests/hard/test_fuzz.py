"""Whatever is thrown at the front door, it says what is wrong in a line and stays on its feet."""

import os
import re
import subprocess
import sys
import time
from pathlib import Path

import pytest
from typer.testing import CliRunner

import rungsheet.command_line
from tests.hard.fuzz import SECONDS, TARGETS, TooSlow, at_most

pytestmark = pytest.mark.slow

NIGHTLY = bool(os.environ.get("RUNGSHEET_NIGHTLY"))

RUNS = range(1, 51 if NIGHTLY else 3)
"""Many short runs and not a long one: what draws the examples remembers all of a run's."""

EXAMPLES = {"specs": 1000}
"""How many examples of a target in each run."""

OTHERS = 400


@pytest.mark.parametrize("seed", RUNS)
@pytest.mark.parametrize("target", sorted(TARGETS))
def test_nothing_that_is_thrown_does_harm(target: str, seed: int) -> None:
    """In a process of its own, whose memory is limited and then measured."""
    examples = EXAMPLES.get(target, OTHERS)
    command = [sys.executable, "-m", "tests.hard.fuzz", "--target", target]
    done = subprocess.run(
        [*command, "--examples", str(examples), "--seed", str(seed)],
        capture_output=True,
        text=True,
        cwd=Path(__file__).parents[2],
    )
    assert done.returncode == 0, done.stdout + done.stderr
    tried, memory = re.search(r"(\d+) examples.*most memory (\d+) MB", done.stdout).groups()  # type: ignore[union-attr]
    assert int(tried) >= examples
    assert int(memory) < 500


def test_time_is_that_of_the_processor_so_that_a_busy_machine_fails_nothing() -> None:
    """Waiting, as while other programs have the processor, uses none of it up."""
    with at_most(0.1):
        time.sleep(0.4)
    with pytest.raises(TooSlow), at_most(0.1):
        work_for_ever()


def work_for_ever() -> None:
    while True:
        pass


WIDE = """\
title: Wide
ladder:
  rung:
    operation: add
    addends: 6
    places: {{between: [0, 6]}}
    whole: {{between: [0, 3]}}
    zeros: {{inside: require, end: require}}
    carries: {carries}
    answer: {answer}
tiers:
  core: {{rung: 4}}
"""

ONE_MORE = """\
  rung-{at}:
    operation: add
    addends: 6
    places: {{ragged: [0, 4]}}
    whole: {{between: [0, 3]}}
    carries: {{count: [{at}, 7], across_point: true}}
"""


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (WIDE.format(carries="every", answer="{whole: 7, places: 5, below: 2}"), 2),
        (WIDE.format(carries="{count: 9, across_point: true}", answer="{whole_number: true}"), 2),
        (
            WIDE.format(
                carries="{count: 9, in: [ones], not_in: [ones], across_point: true}",
                answer="{whole: 7, places: 5, between: [0.5, 999], ends_in_zero: true}",
            ),
            2,
        ),
        (  # once refused as too wide to count, and counted now
            "title: x\nladder:\n"
            + "".join(ONE_MORE.format(at=at) for at in range(1, 6))
            + "tiers: {core: {rung-1: 4}}\n",
            0,
        ),
        (
            "title: x\nladder: {a: {operation: add}}\ntiers:\n"
            + "".join(f"  t{i}: {{a: 40}}\n" for i in range(5000)),
            2,
        ),
        (
            "title: x\nladder: {a: {operation: add}}\nexamples: [a]\npages: {large: {core: 18}}\n",
            2,
        ),
        (f"&{'x' * 100_000} a: 1\n", 2),
    ],
)
def test_what_once_took_too_long_or_fell_over(
    text: str, code: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lesson.yaml").write_text(text, encoding="utf-8")
    with at_most(SECONDS):
        result = CliRunner().invoke(rungsheet.command_line.app, ["check", "lesson.yaml"])
    assert result.exit_code == code
    assert (code == 2) is bool(result.stderr)
    assert all(re.match(r"lesson\.yaml:\d+: .+; .+", line) for line in result.stderr.splitlines())
    assert all(len(line) < 1000 for line in result.stderr.splitlines())
