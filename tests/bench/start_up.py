"""How long the command line takes: from a command to its help, to a checked spec, to a pack.

``python -m tests.bench.start_up`` runs each command in a process of its own, beside a
Python that starts and does nothing: the shortest wall time and the least time of processors of
several rounds, and the modules that each command loads. With ``--quick``, fewer rounds.
"""

import resource
import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter
from typing import Final, NamedTuple

from specs import DEMO

ROUNDS: Final = 12
QUICK: Final = 3

NOTHING: Final = "python -c pass"

HEAVY: Final = ("reportlab", "pypdf", "segno")
"""What only drawing and reading pages needs."""

COMMANDS: Final = {
    "rungsheet --help": ("--help",),
    f"rungsheet check {DEMO}": ("check", DEMO),
    "rungsheet build": ("build",),
}

_COUNTING: Final = f"""\
import sys
started = set(sys.modules)
import rungsheet.command_line
try:
    rungsheet.command_line.app(sys.argv[1:])
except SystemExit:
    pass
loaded = sys.modules.keys() - started
print(len(loaded), *(name for name in {HEAVY!r} if name in loaded))
"""


class Times(NamedTuple):
    """Seconds from start to end, and of processors."""

    wall: float
    processors: float


def times(arguments: tuple[str, ...]) -> Times:
    """One Python process, in a folder of its own."""
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, *arguments]
        started, before = perf_counter(), _spent_by_children()
        subprocess.run(command, cwd=folder, env=_environment(), capture_output=True, check=True)
        return Times(perf_counter() - started, _spent_by_children() - before)


def _spent_by_children() -> float:
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent.ru_utime + spent.ru_stime


def modules(arguments: tuple[str, ...]) -> tuple[int, tuple[str, ...]]:
    """How many modules a command loads, and which of the heavy ones are among them."""
    command = [sys.executable, "-c", _COUNTING, *arguments]
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(
            command, cwd=folder, env=_environment(), capture_output=True, text=True, check=True
        )
    count, *heavy = done.stdout.splitlines()[-1].split()
    return int(count), tuple(heavy)


def _environment() -> dict[str, str]:
    """Nothing but where this project's modules are."""
    return {"PYTHONPATH": str(Path(__file__).parents[2])}


def table(rounds: int = ROUNDS) -> str:
    """The commands as a Markdown table."""
    measured: dict[str, tuple[str, ...]] = {
        NOTHING: ("-c", "pass"),
        **{name: ("-m", "rungsheet", *words) for name, words in COMMANDS.items()},
    }
    runs: dict[str, list[Times]] = {name: [] for name in measured}
    for _ in range(rounds):
        for name, arguments in measured.items():
            runs[name].append(times(arguments))
    best = {name: Times(*map(min, zip(*found, strict=True))) for name, found in runs.items()}
    lines = [
        "| command | seconds | beside `python -c pass` | seconds of processors | modules loaded "
        "| heavy ones among them |",
        "| --- | ---: | ---: | ---: | ---: | --- |",
    ]
    for name, (wall, processors) in best.items():
        count, heavy = modules(COMMANDS[name]) if name in COMMANDS else (0, ())
        lines.append(
            f"| `{name}` | {wall:.2f} | {wall / best[NOTHING].wall:.0f} × | {processors:.2f} "
            f"| {count} | {', '.join(heavy) or 'none'} |"
        )
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(QUICK if "--quick" in sys.argv else ROUNDS))
