"""Throws specs at the front door and watches what it does with them.

``python -m tests.hard.fuzz --examples 50000`` prints one line a target. Each example must end
with exit code 0 or 2 within five seconds of work, say what is wrong as
``file:line: what; instead``, and write nothing. Every so often a spec that was found good is
built, and the pack must be whole.
"""

import argparse
import contextlib
import os
import re
import resource
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import seed as seeded
from hypothesis.strategies import SearchStrategy
from typer.testing import CliRunner

import rungsheet.command_line
from generator.operations.rungs import question_set
from generator.packs.codes import CodeError, PageCode
from tests.hard.files_thrown import CODES, LESSON, Sheet, mark_sheets, pdfs
from tests.hard.specs_thrown import SPECS

SECONDS = 5
"""The most work, in seconds of the processor's time, on one example."""

MEGABYTES = 500

LONGEST_LINE = 3000
"""No message is longer: it would not be read."""

PROBLEM = re.compile(r"lesson\.yaml:[0-9]+: [^;]+.*; .+")


class TooSlow(BaseException):
    """An example has had its time. Not an Exception, so that nothing under test swallows it."""


@contextlib.contextmanager
def at_most(seconds: float) -> Iterator[None]:
    """Raises TooSlow after so much of the processor's time, which other programs do not use up."""

    def stop(*_: object) -> None:
        raise TooSlow

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


@dataclass
class Tally:
    """What became of the examples of one target."""

    name: str
    outcomes: Counter[str] = field(default_factory=Counter)
    failures: dict[str, Any] = field(default_factory=dict)
    slowest: float = 0.0
    built: int = 0
    off_the_page: int = 0  # good, but too large for the paper asked for

    def failed(self, why: str, example: Any) -> None:
        """Keep the smallest example of each kind of failure."""
        self.outcomes["FAILED"] += 1
        kept = self.failures.get(why)
        if kept is None or len(repr(example)) < len(repr(kept)):
            self.failures[why] = example

    def __str__(self) -> str:
        counted = ", ".join(f"{count} {what}" for what, count in sorted(self.outcomes.items()))
        memory = most_memory()
        return (
            f"{self.name}: {sum(self.outcomes.values())} examples: {counted}; "
            f"{self.built} of the good built, {self.off_the_page} refused by the page; "
            f"slowest {self.slowest:.1f} s; most memory {memory} MB"
        )


def most_memory() -> int:
    """The most megabytes that this process has taken so far.

    Where the system tells it of this program alone: the usual measure begins with the size
    of the process that started it.
    """
    status = Path("/proc/self/status")
    if status.exists():
        return int(status.read_text().split("VmHWM:")[1].split()[0]) // 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024


def where(error: BaseException) -> str:
    """An exception's kind, and the last place of our own code that it came through."""
    places = [
        frame
        for frame in traceback.extract_tb(error.__traceback__)
        if "site-packages" not in frame.filename and "/tests/" not in frame.filename
    ]
    at = f"{Path(places[-1].filename).name}:{places[-1].lineno}" if places else "?"
    return f"{type(error).__name__} at {at}"


def invoke(*arguments: str) -> tuple[int, str, str]:
    """The command line in this process: its exit code and what it said."""
    result = CliRunner().invoke(rungsheet.command_line.app, list(arguments))
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.exit_code, result.stdout, result.stderr


def problem_with_spec(data: bytes, tally: Tally, build_every: int = 40) -> str | None:
    """What is wrong with how ``check`` treats a file; None when nothing is."""
    Path("lesson.yaml").write_bytes(data)
    code, said, problems = invoke("check", "lesson.yaml")
    if code not in (0, 2):
        return f"exit code {code}"
    if said:
        return "check writes on standard output"
    if code == 0:
        if problems:
            return "a good spec and yet a message"
        tally.outcomes["good"] += 1
        if tally.outcomes["good"] % build_every == 1:
            return problem_with_build(tally)
        return None
    tally.outcomes["refused"] += 1
    lines = problems.removesuffix("\n").split("\n")
    for line in lines:
        if not PROBLEM.fullmatch(line):
            return f"not a message: {line[:200]!r}"
        if len(line) > LONGEST_LINE:
            return f"a message too long to be read: {line[:100]!r}"
        if not line.isprintable():
            return f"unprintable: {line[:200]!r}"
    return None


def problem_with_build(tally: Tally) -> str | None:
    code, _, problems = invoke("build", "lesson.yaml", "--out", "pack")
    if code == 2 and problems.count("\n") == 1 and not Path("pack").exists():
        tally.off_the_page += 1
        return None
    if code or problems:
        return f"a good spec is not built: {problems[:200]!r}"
    tally.built += 1
    shutil.rmtree("pack")
    return None


def throw(
    tally: Tally,
    begin: Callable[[], SearchStrategy[Any]],
    examples: int,
    judge: Callable[[Any, Tally], str | None],
    seed: int,
) -> Tally:
    """Judge so many examples, each in a folder in which nothing may appear but its own files.

    ``begin`` makes ready in that folder and gives what the examples are drawn from.
    """

    def one(example: Any) -> None:
        question_set.cache_clear()
        start = time.process_time()
        try:
            with at_most(SECONDS):
                why = judge(example, tally)
        except TooSlow as error:
            why = f"over {SECONDS} s: {where(error)}"
        except Exception as error:
            why = where(error)
        tally.slowest = max(tally.slowest, time.process_time() - start)
        if why:
            tally.failed(why, example)
        stray = there() - own
        if stray:
            tally.failed(f"stray files {sorted(stray)}", example)

    def there() -> set[Path]:
        return set(Path.cwd().parent.rglob("*"))

    with tempfile.TemporaryDirectory() as outside:
        before = Path.cwd()
        inside = Path(outside, "inside")
        inside.mkdir()
        os.chdir(inside)
        try:
            strategy = begin()
            own = there() | {
                Path.cwd() / name for name in ("lesson.yaml", "sheet.pdf", "class.csv")
            }
            seeded(seed)(
                settings(
                    max_examples=examples,
                    phases=[Phase.generate],
                    database=None,
                    deadline=None,
                    suppress_health_check=list(HealthCheck),
                )(given(strategy)(one))
            )()
        finally:
            os.chdir(before)
    return tally


def specs(examples: int, seed: int) -> Tally:
    return throw(Tally("specs"), lambda: SPECS, examples, problem_with_spec, seed)


def one_message(problems: str, file: str) -> str | None:
    """What is wrong with a refusal, which is to be one line that begins with the file's name."""
    if problems.count("\n") != 1 or not problems.startswith(f"{file}: "):
        return f"not one message: {problems[:200]!r}"
    if not problems[:-1].isprintable() or len(problems) > LONGEST_LINE:
        return f"not to be read: {problems[:200]!r}"
    return None


def problem_with_pdf(data: bytes, tally: Tally) -> str | None:
    """What is wrong with how ``key`` treats a PDF."""
    Path("sheet.pdf").write_bytes(data)
    code, said, problems = invoke("key", "sheet.pdf")
    tally.outcomes["read" if code == 0 else "refused"] += 1
    if code == 0:
        return None if said and not problems else "no answers, or a message beside them"
    return "answers of a refused sheet" if said else one_message(problems, "sheet.pdf")


MARKS_PROBLEM = re.compile(r"class\.csv: row [0-9]+(?:, column (?:[^:]+|'.+?'))?: [^;]+.*; .+")


def problem_with_marks(sheet: Sheet, tally: Tally) -> str | None:
    """What is wrong with how ``marks`` treats a mark sheet."""
    Path("class.csv").write_bytes(bytes(sheet))
    code, _, problems = invoke("marks", "good", "class.csv", "--out", "results")
    tally.outcomes["read" if code == 0 else "refused"] += 1
    if code not in (0, 2) or (code == 2 and not problems):
        return f"exit code {code}"
    if code == 0:
        shutil.rmtree("results")
    for line in problems.split("\n")[:-1]:
        if not MARKS_PROBLEM.fullmatch(line) or not line.isprintable():
            return f"not a message: {line[:200]!r}"
        if len(line) > LONGEST_LINE:
            return f"a message too long to be read: {line[:100]!r}"
    return None


def problem_with_code(code: str, tally: Tally) -> str | None:
    """What is wrong with how ``build --code`` treats a code."""
    try:
        PageCode.parse(code)
    except CodeError as error:
        tally.outcomes["refused"] += 1
        if not str(error).isprintable() or len(str(error)) > LONGEST_LINE:
            return f"not to be read: {str(error)[:200]!r}"
    else:
        tally.outcomes["read"] += 1
    exit_code, said, problems = invoke("build", "good.yaml", f"--code={code}", "--out", "again")
    if exit_code == 0:
        shutil.rmtree("again")
        return None
    if exit_code != 2 or said or not problems[:-1].replace("\n", "").isprintable():
        return f"exit code {exit_code}: {problems[:200]!r}"
    return None


def with_a_pack() -> None:
    """A good pack to begin from, in the folder ``good``."""
    Path("good.yaml").write_text(LESSON, encoding="utf-8")
    code, _, problems = invoke("build", "good.yaml", "--out", "good")
    assert code == 0, problems


def pdf_files(examples: int, seed: int) -> Tally:
    def from_pack() -> SearchStrategy[bytes]:
        with_a_pack()
        return pdfs(Path("good").absolute())

    return throw(Tally("pdfs"), from_pack, examples, problem_with_pdf, seed)


def marks(examples: int, seed: int) -> Tally:
    def from_pack() -> SearchStrategy[Sheet]:
        with_a_pack()
        return mark_sheets()

    return throw(Tally("marks"), from_pack, examples, problem_with_marks, seed)


def codes(examples: int, seed: int) -> Tally:
    def from_pack() -> SearchStrategy[str]:
        with_a_pack()
        return CODES

    return throw(Tally("codes"), from_pack, examples, problem_with_code, seed)


TARGETS: dict[str, Callable[[int, int], Tally]] = {
    "specs": specs,
    "pdfs": pdf_files,
    "marks": marks,
    "codes": codes,
}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--examples", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--target", choices=sorted(TARGETS), action="append")
    parser.add_argument("--keep", type=Path, help="a folder for the examples that failed")
    chosen = parser.parse_args()
    limit = 2 * MEGABYTES * 1024 * 1024
    resource.setrlimit(resource.RLIMIT_AS, (limit, limit))
    good = True
    for name in chosen.target or sorted(TARGETS):
        tally = TARGETS[name](chosen.examples, chosen.seed)
        print(tally, flush=True)
        for at, (why, example) in enumerate(tally.failures.items()):
            good = False
            print(f"  {why}: {example[:300]!r}")
            if chosen.keep:
                chosen.keep.mkdir(parents=True, exist_ok=True)
                data = example if isinstance(example, bytes) else str(example).encode()
                (chosen.keep / f"{name}-{at}").write_bytes(data)
    sys.exit(0 if good else 1)


if __name__ == "__main__":
    main()
