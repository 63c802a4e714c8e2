"""Reads questions and answers back from finished PDFs as text, and works them out anew.

Nothing of the generator or the layouts is used but the command line: what is judged is what
a class would have in hand. ``python -m tests.hard.independent --questions 100000``.
"""

import argparse
import json
import re
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

import pypdfium2

LESSON = """\
title: Read back
ladder:
  a-two: {operation: add, addends: 2, places: {between: [0, 3]}, whole: {between: [0, 3]}}
  a-three: {operation: add, addends: 3, places: {ragged: [0, 3]}, carries: some}
  a-six: {operation: add, addends: 6, places: {between: [0, 2]}}
  a-nought: {operation: add, places: {between: [1, 3]}, answer: {ends_in_zero: true}}
  s-any: {operation: subtract, places: {between: [0, 3]}, whole: {between: [0, 3]}}
  s-zeros: {operation: subtract, places: 3, whole: 1, exchanges: {through_zeros: [1, 2]}}
  s-longer: {operation: subtract, places: {ragged: [0, 3]}, longer: second}
  m-any: {operation: multiply, digits: [3, 2], places: [2, 1]}
  m-short: {operation: multiply, digits: [4, 1], places: [0, 2]}
  m-nought: {operation: multiply, answer: {ends_in_zero: true}}
  d-exact: {operation: divide}
  d-point: {operation: divide, places: 2, dividend: {digits: [3, 4]}}
  d-by-point: {operation: divide, divisor_places: 1, dividend: {digits: [3, 4]}}
  d-left: {operation: divide, ending: remainder, dividend: {digits: [2, 4]}}
  d-part: {operation: divide, ending: fraction, dividend: {digits: [2, 4]}}
  d-on: {operation: divide, ending: {decimal: 3}, dividend: {digits: [2, 4]}}
  d-rounded: {operation: divide, ending: {rounded: 2}, dividend: {digits: [2, 4]}}
  d-nought: {operation: divide, zero_in_quotient: require, dividend: {digits: [3, 5]}}
matching: rung
starter: {a-two: 2, s-any: 2, m-any: 2, d-exact: 2}
examples: [a-three, s-zeros, m-short, d-left]
tiers:
  columns: {a-two: 4, a-three: 3, a-six: 2, a-nought: 2, s-any: 4, s-zeros: 2, s-longer: 2}
  products: {m-any: 4, m-short: 3, m-nought: 2}
  quotients: {d-exact: 2, d-point: 2, d-by-point: 2, d-left: 2, d-part: 2, d-on: 2, d-rounded: 2,
    d-nought: 2}
"""

NUMBER = r"[0-9]+(?:\.[0-9]+)?"
QUESTION = rf"{NUMBER}(?: [+−×÷] {NUMBER})+"
ANSWER = rf"{NUMBER} r {NUMBER}|(?:[0-9]+ )?[0-9]+/[0-9]+|{NUMBER}"
WORDS = r"with remainder|remainder as a fraction|as a decimal|to the nearest whole number"
ENDING = rf"(?:, (?:{WORDS}|to [0-9] decimal places?))?"
IN_KEY = re.compile(
    rf"(?<!\S)([a-z]{{1,2}})\) ({QUESTION}){ENDING} ([=≈]) ({ANSWER})(?: = ({NUMBER}))?(?!\S)"
)
ON_SLIDE = re.compile(  # at the start of a line: an r further on may be a remainder's
    rf"(?m)^([a-z]{{1,2}}) ({QUESTION}){ENDING} ([=≈]) ({ANSWER})(?: = ({NUMBER}))?(?!\S)"
)


@dataclass(frozen=True)
class Line:
    """A question with its answer as it is printed."""

    label: str
    question: str
    sign: str
    answer: str
    again: str | None


def pages(file: Path) -> Iterator[str]:
    """The text of each page in lines, those that go on with a sign put together."""
    document = pypdfium2.PdfDocument(file)
    for page in document:
        text = page.get_textpage().get_text_range().replace("\r\n", "\n")
        yield re.sub(r"[ \N{NO-BREAK SPACE}]+", " ", re.sub(r"\s*\n(?=[+−×÷=≈] )", " ", text))
    document.close()


def exact(question: str) -> Fraction:
    """What a question comes to, its signs worked from the left."""
    first, *rest = question.split(" ")
    value = Fraction(first)
    for sign, number in zip(rest[::2], map(Fraction, rest[1::2]), strict=True):
        match sign:
            case "+":
                value += number
            case "−":
                value -= number
            case "×":
                value *= number
            case "÷":
                value /= number
    return value


def places(number: str) -> int:
    return len(number.partition(".")[2])


def wrong(line: Line) -> str | None:
    """What is wrong with a line; None when it is right."""
    value = exact(line.question)
    if value < 0:
        return "less than nought"
    if re.search(r"(?<![0-9.])0[0-9]", line.question):
        return "a nought in front"
    if line.sign == "≈":
        unit = Fraction(1, 10 ** places(line.answer))
        off = Fraction(line.answer) - value
        # Half a unit rounds up: common practice, no source.
        return None if off and -unit / 2 < off <= unit / 2 else "wrongly rounded"
    if " r " in line.answer:
        quotient, left = map(Fraction, line.answer.split(" r "))
        dividend, divisor = map(Fraction, line.question.split(" ÷ "))
        good = quotient * divisor + left == dividend and 0 < left < divisor
        return None if good and quotient.denominator == 1 else "wrong remainder"
    if "/" in line.answer:
        whole, part = re.fullmatch(r"(?:([0-9]+) )?([0-9]+/[0-9]+)", line.answer).groups()  # type: ignore[union-attr]
        over, under = map(int, part.split("/"))
        lowest = Fraction(part).denominator == under
        good = int(whole or 0) + Fraction(part) == value and over < under and lowest
        return None if good else "wrong fraction"
    if Fraction(line.answer) != value:
        return f"it is {value}"
    ends_in_nought = "." in line.answer and line.answer.endswith("0")
    if ends_in_nought != (line.again is not None):
        return "noughts at the end, and nothing said of it"
    if line.again is not None and (
        Fraction(line.again) != value or re.search(r"\.[0-9]*0$", line.again)
    ):
        return "wrong when written again"
    return None


@dataclass
class Count:
    """What was read back."""

    questions: int = 0
    printed: Counter[str] = field(default_factory=Counter)
    by_sign: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        signs = ", ".join(f"{count} {sign}" for sign, count in sorted(self.by_sign.items()))
        where = ", ".join(f"{count} on {file}" for file, count in sorted(self.printed.items()))
        return (
            f"{self.questions} questions ({signs}) read back from print ({where}): "
            f"{len(self.wrong)} wrong"
        )


def read_back(folder: Path, count: Count) -> None:
    """Read a pack's files back. What is wrong, or is not there, is noted."""
    record = json.loads((folder / "pack.json").read_text(encoding="utf-8"))
    sections = record["sections"]
    asked = [(s, q) for s in sections for q in s["questions"]]
    count.questions += len(asked)
    lines = {
        "key": [found for page in pages(folder / "key.pdf") for found in IN_KEY.findall(page)],
        "answers": [
            found for page in pages(folder / "answers.pdf") for found in ON_SLIDE.findall(page)
        ],
    }
    expected = {
        "key": [printed(q) for _, q in asked],
        "answers": [printed(q) for s, q in asked if s["kind"] != "example"],
    }
    for file, found in lines.items():
        count.printed[file] += len(found)
        read = [(label, question) for label, question, *_ in found]
        if sorted(read) != sorted(expected[file]):
            missing = Counter(expected[file]) - Counter(read)
            extra = Counter(read) - Counter(expected[file])
            count.wrong.append(f"{file}: not read {list(missing)[:3]}, extra {list(extra)[:3]}")
        for label, question, sign, answer, again in found:
            line = Line(label, question, sign, answer, again or None)
            why = wrong(line)
            if why:
                count.wrong.append(f"{file}: {line}: {why}")
            if file == "key":
                count.by_sign[re.findall("[+−×÷]", question)[0]] += 1
    read_sheets(folder, sections, count)


def printed(question: dict[str, Any]) -> tuple[str, str]:
    sign = {"add": "+", "subtract": "−", "multiply": "×", "divide": "÷"}[question["operation"]]
    return question["label"], f" {sign} ".join(question["operands"])


BLOCK = re.compile(r"(?<!\S)([a-z]{1,2})\)(.*?)(?=(?<!\S)[a-z]{1,2}\)|\Z)", re.DOTALL)
FURNITURE = re.compile(r"(?m)^.*\b(?:page [0-9]+ of|version [0-9]|code [0-9A-Z]+-).*$")


def read_sheets(folder: Path, sections: list[dict[str, Any]], count: Count) -> None:
    """Pupils' sheets hold the key's questions under the same labels.

    What stands on a line is read as it is; on squares, the digits are read one after another.
    """
    for file in sorted(folder.glob("*.pdf")):
        if file.name != "starter.pdf" and not file.name.startswith("practice-"):
            continue
        name = file.stem.removeprefix("practice-")
        found = Counter(on_sheet(block) for page in pages(file) for block in blocks(page))
        expected = Counter(
            (label, digits_of(question))
            for label, question in (
                printed(q) for s in sections if s["name"] == name for q in s["questions"]
            )
        )
        count.printed["sheets"] += found.total()
        if found != expected:
            count.wrong.append(
                f"{file.name}: {list(found - expected)[:3]} for {list(expected - found)[:3]}"
            )


def blocks(page: str) -> list[tuple[str, str]]:
    return BLOCK.findall(FURNITURE.sub("", page))


def on_sheet(block: tuple[str, str]) -> tuple[str, str]:
    label, text = block
    line = re.search(rf"(?<![0-9.] ){QUESTION}(?= =|, )", text)
    return label, digits_of(line[0]) if line else re.sub("[^0-9]", "", text)


def digits_of(question: str) -> str:
    """A question's digits as they stand on squares: a divisor stands before its dividend."""
    numbers = re.findall(NUMBER, question)
    if "÷" in question:
        numbers.reverse()
    return "".join(numbers).replace(".", "")


def built(folder: Path, seed: int, versions: int, extra: str = "") -> Path:
    """A pack of all sorts of questions, built by the command line."""
    spec = folder / "read-back.yaml"
    spec.write_text(LESSON + extra, encoding="utf-8")
    out = folder / f"pack-{seed}"
    command = [sys.executable, "-m", "rungsheet", "build", str(spec), "--seed", str(seed)]
    subprocess.run(
        [*command, "--versions", str(versions), "--out", str(out)],
        check=True,
        capture_output=True,
        cwd=Path(__file__).parents[2],
    )
    return out


LOOKS = (
    "",
    "pages: {paper: A5, squares: 5, carries: above}\n",
    "pages: {paper: Letter, squares: 10, placeholders: false}\n",
    "pages: {to_a_sheet: 2, duplex: true}\n",
    "pages: {large: 18, orientation: landscape}\n",
)


def read_many(questions: int, versions: int, first_seed: int = 1) -> Count:
    """Build packs and read them back until there were so many questions."""
    count, seed = Count(), first_seed
    while count.questions < questions:
        with tempfile.TemporaryDirectory() as folder:
            read_back(built(Path(folder), seed, versions, LOOKS[seed % len(LOOKS)]), count)
        seed += 1
    return count


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--questions", type=int, default=2000)
    parser.add_argument("--versions", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args()
    count = read_many(chosen.questions, chosen.versions, chosen.seed)
    print(count)
    for line in count.wrong[:20]:
        print(f"  {line}")
    sys.exit(1 if count.wrong else 0)


if __name__ == "__main__":
    main()
