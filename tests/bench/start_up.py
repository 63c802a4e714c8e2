"""How long the command line takes: from a command to its help, to a checked spec, to a pack.

``python -m tests.bench.start_up`` runs each command in a process of its own and takes the
shortest wall time of several rounds, beside a Python that starts and does nothing, and counts
the modules that each command loads. With ``--quick``, fewer rounds.
"""

import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter
from typing import Final

from specs import DEMO

ROUNDS: Final = 12
QUICK: Final = 3

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
import rungsheet
try:
    rungsheet.app(sys.argv[1:])
except SystemExit:
    pass
loaded = sys.modules.keys() - started
print(len(loaded), *(name for name in {HEAVY!r} if name in loaded))
"""


def seconds(arguments: tuple[str, ...]) -> float:
    """The wall time of one Python process, in a folder of its own."""
    with tempfile.TemporaryDirectory() as folder:
        started = perf_counter()
        command = [sys.executable, *arguments]
        subprocess.run(command, cwd=folder, env=_environment(), capture_output=True, check=True)
        return perf_counter() - started


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
        "python -c pass": ("-c", "pass"),
        **{name: ("-m", "rungsheet", *words) for name, words in COMMANDS.items()},
    }
    best = dict.fromkeys(measured, float("inf"))
    for _ in range(rounds):
        for name, arguments in measured.items():
            best[name] = min(best[name], seconds(arguments))
    nothing = best["python -c pass"]
    lines = [
        "| command | seconds | beside `python -c pass` | modules loaded | heavy ones among them |",
        "| --- | ---: | ---: | ---: | --- |",
        f"| `python -c pass` | {nothing:.2f} | 1.0 × | | |",
    ]
    for name, words in COMMANDS.items():
        count, heavy = modules(words)
        lines.append(
            f"| `{name}` | {best[name]:.2f} | {best[name] / nothing:.1f} × | {count} "
            f"| {', '.join(heavy) or 'none'} |"
        )
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(QUICK if "--quick" in sys.argv else ROUNDS))
