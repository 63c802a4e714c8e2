"""All benchmarks one after another, as the README's tables in their order.

``python -m tests.bench`` takes about a quarter of an hour on a quiet machine; with ``--quick``
some minutes: fewer repeats, no set of 3,000 sheets, and no simulated pupils. Each runs in a
process of its own, with nothing left over from the one before.
"""

import subprocess
import sys
from typing import Final

HEADINGS: Final = {
    "diagnosis": "How often a diagnosis is right",
    "finding_out": "Questions that find out",
    "foreseeing": "What answers will tell, foreseen",
    "drawing": "Questions drawn, rare ones and common ones",
    "try_and_retry": "Counting beside trying at random",
    "pages": "Class sets beside a bare loop",
    "start_up": "From a command to its end",
    "page": "The page beside Python",
    "hostile": "What is made to harm",
}
"""The modules of this folder, in the order of the README."""

ONLY_IN_FULL: Final = ("diagnosis", "finding_out")
"""What a quick run leaves out."""


def main(arguments: list[str]) -> int:
    """Run all benchmarks; 2 where an argument is unknown, 1 where a benchmark fails."""
    if set(arguments) - {"--quick"}:
        print("use: python -m tests.bench [--quick]", file=sys.stderr)
        return 2
    names = [name for name in HEADINGS if not (arguments and name in ONLY_IN_FULL)]
    for name in names:
        print(f"## {HEADINGS[name]} (`python -m tests.bench.{name}`)\n", flush=True)
        command = [sys.executable, "-m", f"tests.bench.{name}", *arguments]
        if subprocess.run(command, check=False).returncode:
            return 1
        print(flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
