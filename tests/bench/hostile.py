"""What specs and files that are made to harm cost before they are refused, or built.

``python -m tests.bench.hostile`` reads and checks each in a process of its own: processor time,
peak memory, and what is said in the end. Names given as arguments choose some of them.
"""

import subprocess
import sys
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final


def ladder(rungs: int, rung: str, questions: int = 1) -> str:
    """A spec of so many rungs alike but for their names, each with so many questions."""
    lines = "".join(f"  beans-{at}: {{{rung}}}\n" for at in range(rungs))
    each = ", ".join(f"beans-{at}: {questions}" for at in range(rungs))
    return f"title: Beans\nladder:\n{lines}tiers:\n  core: {{{each}}}\n"


TIERS: Final = (
    "title: Beans\nladder:\n  beans: {operation: divide, divisor: {between: [2, 9]}, "
    "dividend: {digits: 3}}\n  peas: {operation: multiply, digits: [2, 1], places: [1, 1]}\n"
    "tiers:\n" + "".join(f"  t{at}: {{beans: 40, peas: 20}}\n" for at in range(12))
)

IMPOSSIBLE: Final = "operation: multiply, digits: [4, 3], places: [2, 1], answer: {whole: 9}"
DIVISORS: Final = f"operation: divide, divisor: {list(range(2, 100))}, dividend: {{digits: 4}}"
WIDE_PRODUCT: Final = (
    "operation: multiply, digits: {between: [1, 3]}, places: {between: [0, 3]}, "
    "zeros: {inside: require, end: allow}, carries: {count: [2, 9]}, answer: {above: 2.3456}"
)
WIDE_SUM: Final = (
    "operation: add, addends: 6, places: {ragged: [0, 4]}, whole: {between: [0, 5]}, "
    "zeros: {inside: require}, repeats: forbid, carries: {across_point: true}"
)
SELDOM: Final = (
    "operation: add, places: 3, whole: 3, carries: {count: 1}, form: spot the mistake, "
    "answer: {whole_number: true}"
)
MISSPELT: Final = (
    "title: Beans\nladder:\n"
    + "".join(f"  r{at}: {{operation: add, pluces{at}: 2}}\n" for at in range(60))
    + "tiers:\n  core: {"
    + ", ".join(f"beens{at}: 1" for at in range(9000))
    + "}\n"
)

SPECS: Final = {
    "one tier of 40 divisions by one digit": ladder(
        1, "operation: divide, divisor: {between: [2, 9]}, dividend: {digits: 3}", 40
    ),
    "12 tiers of 60 questions": TIERS,
    "60 rungs of spot the mistake that show none": ladder(
        60, "operation: add, places: 2, whole: 3, carries: none, form: spot the mistake"
    ),
    "60 rungs in words that fit none": ladder(
        60, "operation: add, places: 3, whole: 4, context: money"
    ),
    "60 impossible products": ladder(60, IMPOSSIBLE),
    "60 divisions by 98 divisors": ladder(60, DIVISORS),
    "60 products of many lengths": ladder(60, WIDE_PRODUCT),
    "60 sums of six numbers of many lengths": ladder(60, WIDE_SUM),
    "60 sums that seldom show a mistake, 60 questions": ladder(60, SELDOM),
    "9,000 misspelt names": MISSPELT,
    "a file of 250 KB that is no YAML": "title: [\n" + "  beans: {{ 'a\n" * 16_000,
}


def carried(versions: int, pages: int = 1, filling: int = 0) -> bytes:
    """A PDF of empty pages that claims so many versions of twelve tiers, with so much filling."""
    from pypdf import PdfWriter

    writer = PdfWriter()
    for _ in range(pages):
        writer.add_blank_page(100, 100)
    writer.add_attachment("spec.yaml", TIERS.encode())
    if filling:
        writer.add_attachment("filling", bytes(filling))
    keywords = f"rungsheet 1; seed 1; versions {versions}; look 0; sections t0"
    writer.add_metadata({"/Keywords": keywords})
    buffer = BytesIO()
    writer.write(buffer)
    return buffer.getvalue()


FILES: Final[dict[str, Callable[[], bytes]]] = {
    "a small PDF that claims 40 versions": lambda: carried(40),
    "a small PDF of 25 pages that claims 1,000 versions": lambda: carried(1000, 25),
    "a PDF of 600 MB": lambda: carried(1, 1, 600_000_000),
}


def alone(name: str) -> None:
    """Read and check one of them, and print a row of the table."""
    if name in SPECS:
        with TemporaryDirectory() as folder:
            path = Path(folder) / "lesson.yaml"
            path.write_text(SPECS[name], encoding="utf-8")
            said = run("check", path)
    else:
        with TemporaryDirectory() as folder:
            path = Path(folder) / "sheet.pdf"
            path.write_bytes(FILES[name]())
            said = run("key", path)
    print(f"| {name} | {said} |")


def run(command: str, path: Path) -> str:
    """A command in a process of its own: seconds of processor, peak memory, and how it ends."""
    timed = (
        "import resource, subprocess, sys; "
        "done = subprocess.run([sys.executable, '-m', 'rungsheet', *sys.argv[1:]], "
        "capture_output=True, text=True); "
        "used = resource.getrusage(resource.RUSAGE_CHILDREN); "
        "print(used.ru_utime + used.ru_stime, used.ru_maxrss // 1024); "
        "print(done.returncode); print((done.stderr or done.stdout).strip())"
    )
    done = subprocess.run(
        [
            sys.executable,
            "-c",
            timed,
            command,
            path.name,
            *(["--out", "."] if command == "build" else []),
        ],
        capture_output=True,
        text=True,
        check=True,
        cwd=path.parent,
    )
    used, code, *lines = done.stdout.splitlines()
    seconds, memory = used.split()
    more = f" … {len(lines)} lines" if len(lines) > 1 else ""
    said = lines[0][:110] if lines else ""
    return f"{float(seconds):.1f} s | {memory} MB | {code} | {said}{more}"


def main(arguments: list[str]) -> None:
    """The table, of those with one of the words in their names; `--quick` leaves nothing out."""
    words = [word for word in arguments if not word.startswith("--")]
    print("| | processor | memory | exit code | said |\n|---|---:|---:|---:|---|")
    for name in (*SPECS, *FILES):
        if not words or any(word in name for word in words):
            alone(name)
            sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
