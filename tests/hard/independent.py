"""Reads questions and answers back from finished PDFs as text, and works them out anew.

Nothing of the generator or the layouts is used but the command line: what is judged is what
a class would have in hand. ``python -m tests.hard.independent --questions 100000``.

Read and worked out: every operation, ending and form, in the key, on the answer slides, on the
slides of worked examples (the finished working, the match and its answer), on examples on paper,
and what a screen reader says of each question on pupils' sheets. A missing digit is found by
trying all ten, an order by sorting fractions, rounding by ``decimal``. Pupils' sheets are read
as ink too, where a question stands on a line or its digits stand on squares; with frames, only
where it stands on a line. ``pack.json`` says how many questions to expect and under which
letters; fewer, others or more are failures.

Not covered: the digits of workings in the key and on slides (``tests/generator/test_replay.py``
and ``tests/layouts/test_read_back.py`` read those), decimal points and small digits on squares,
which calculation a sentence asks for (taken from ``pack.json``; its numbers are looked for in
the sentence), and ``marks.pdf``.
"""

import argparse
import ctypes
import json
import re
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pypdfium2.raw as pdfium
from typer.testing import CliRunner

import rungsheet.command_line

LESSON = """\
title: Read back
ladder:
  a-two: {operation: add, addends: 2, places: {between: [0, 3]}, whole: {between: [0, 3]}}
  a-three: {operation: add, addends: 3, places: {ragged: [0, 3]}, carries: some}
  a-six: {operation: add, addends: 6, places: {between: [0, 2]}}
  a-nought: {operation: add, places: {between: [1, 3]}, answer: {ends_in_zero: true}}
  a-digit: {operation: add, places: {ragged: [1, 2]}, form: missing digit}
  a-number: {operation: add, addends: 3, places: {between: [0, 2]}, form: missing number}
  a-spot: {operation: add, places: 2, carries: some, form: spot the mistake}
  a-words: {operation: add, places: {between: [0, 2]}, whole: 1, context: any}
  s-any: {operation: subtract, places: {between: [0, 3]}, whole: {between: [0, 3]}}
  s-zeros: {operation: subtract, places: 3, whole: 1, exchanges: {through_zeros: [1, 2]}}
  s-longer: {operation: subtract, places: {ragged: [0, 3]}, longer: second}
  s-digit: {operation: subtract, places: {between: [0, 2]}, form: missing digit}
  s-number: {operation: subtract, places: {between: [0, 2]}, form: missing number}
  s-spot: {operation: subtract, places: {between: [1, 2]}, whole: 2, exchanges: some,
    form: spot the mistake}
  s-words: {operation: subtract, places: 2, whole: 2, context: any}
  m-any: {operation: multiply, digits: [3, 2], places: [2, 1]}
  m-short: {operation: multiply, digits: [4, 1], places: [0, 2]}
  m-nought: {operation: multiply, answer: {ends_in_zero: true}}
  m-power: {operation: multiply, power_of_ten: {by: [ten, hundred, thousand], places: [0, 2],
    whole: [0, 2]}}
  m-fact: {operation: multiply, digits: 2, places: {between: [0, 2]}, form: known fact}
  m-digit: {operation: multiply, digits: [3, 1], places: [2, 0], form: missing digit}
  m-number: {operation: multiply, digits: [2, 1], places: [1, 0], form: missing number}
  m-words: {operation: multiply, digits: [2, 1], places: {between: [0, 2]}, context: any}
  d-exact: {operation: divide}
  d-point: {operation: divide, places: 2, dividend: {digits: [3, 4]}}
  d-by-point: {operation: divide, divisor_places: 1, dividend: {digits: [3, 4]}}
  d-left: {operation: divide, ending: remainder, dividend: {digits: [2, 4]}}
  d-part: {operation: divide, ending: fraction, dividend: {digits: [2, 4]}}
  d-on: {operation: divide, ending: {decimal: 3}, dividend: {digits: [2, 4]}}
  d-rounded: {operation: divide, ending: {rounded: 2}, dividend: {digits: [2, 4]}}
  d-nought: {operation: divide, zero_in_quotient: require, dividend: {digits: [3, 5]}}
  d-power: {operation: divide, power_of_ten: {by: [ten, hundred], places: [0, 1], whole: [1, 2]}}
  d-fact: {operation: divide, places: {between: [1, 2]}, dividend: {digits: [2, 3]},
    form: known fact}
  d-digit: {operation: divide, ending: remainder, dividend: {digits: [2, 3]}, form: missing digit}
  d-number: {operation: divide, ending: fraction, dividend: {digits: [2, 3]},
    form: missing number}
  d-about: {operation: divide, ending: {rounded: 2}, dividend: {digits: [2, 3]},
    form: missing digit}
  d-words: {operation: divide, ending: remainder, dividend: {digits: [2, 3]}, context: any}
  d-round-words: {operation: divide, ending: {rounded: 2}, dividend: {digits: [2, 3]},
    context: any}
  order: {operation: order, numbers: 4, places: {ragged: [1, 3]}, whole: 1}
  compare: {operation: compare, places: {between: [1, 3]}, whole: {between: [0, 1]},
    zeros: {end: allow}}
  round: {operation: round, places: {between: [1, 3]}, whole: {between: [0, 3]},
    to: [hundredths, tenths, ones, tens]}
matching: rung
starter: {a-two: 2, s-any: 2, m-any: 2, d-exact: 2, order: 1, round: 1, a-digit: 1}
examples: [a-three, a-digit, a-spot, a-words, s-zeros, s-number, m-short, m-any, m-fact, m-power,
  d-left, d-digit, d-words, d-rounded, order, compare, round]
tiers:
  columns: {a-two: 4, a-three: 3, a-six: 2, a-nought: 2, s-any: 4, s-zeros: 2, s-longer: 2}
  products: {m-any: 4, m-short: 3, m-nought: 2, m-power: 2}
  quotients: {d-exact: 2, d-point: 2, d-by-point: 2, d-left: 2, d-part: 2, d-on: 2, d-rounded: 2,
    d-nought: 2, d-power: 2}
  gaps: {a-digit: 2, a-number: 2, s-digit: 2, s-number: 2, m-digit: 1, m-number: 1, d-digit: 2,
    d-number: 1, d-about: 1}
  told: {a-spot: 2, s-spot: 2, a-words: 2, s-words: 2, m-words: 2, d-words: 2, d-round-words: 1,
    m-fact: 2, d-fact: 2}
  numbers: {order: 2, compare: 3, round: 4}
"""

BOX = "□"
"""Stands for a box on paper, whatever its size."""

NUMBER = r"[0-9]+(?:\.[0-9]+)?"
HOLED = rf"[0-9{BOX}]+(?:\.[0-9{BOX}]+)?|{BOX}\.[0-9{BOX}]+"
SUM = rf"{NUMBER}(?:[+−×÷]{NUMBER})+"
WITH_A_GAP = rf"(?:{HOLED})(?:[+−×÷](?:{HOLED}))+"
ANSWER = rf"{NUMBER} r {NUMBER}|(?:[0-9]+ )?[0-9]+/[0-9]+|{NUMBER}"
ANSWER_WITH_A_GAP = rf"(?:{HOLED}) r {NUMBER}|(?:[0-9{BOX}]+ )?[0-9]+/[0-9]+|{HOLED}"
WORDS = (
    r",(?:with a remainder|the remainder as a fraction|as a decimal"
    r"|to the nearest whole number|to [0-9] decimal places?)"
)
ENDING = rf"(?:{WORDS})?"
AMOUNT = rf"£?({NUMBER})(?: (?!and )[a-z]+[²³]?)?"
REPLY = rf"{AMOUNT}(?: and {AMOUNT} left over)?"
TO = r"to (?:the nearest [a-z ]*?(?:whole number|ten|hundred|thousand)|[0-9] decimal places?)"
ENDS = r"(?![0-9.]*[0-9])"


@dataclass(frozen=True)
class Line:
    """A question with its answer as it is printed."""

    question: str
    sign: str
    answer: str
    again: str | None = None


def exact(question: str) -> Fraction:
    """What a question comes to, its signs worked from the left."""
    first, *rest = re.split(r"\s*([+−×÷])\s*", question)
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


def untrue(question: str, sign: str, answer: str) -> str | None:
    """Why an answer is not true; None when it is."""
    value = exact(question)
    if value < 0:
        return "less than nought"
    if sign == "≈":
        unit = Fraction(1, 10 ** places(answer))
        off = Fraction(answer) - value
        # Half a unit rounds up: common practice, no source.
        return None if off and -unit / 2 < off <= unit / 2 else "wrongly rounded"
    if " r " in answer:
        quotient, left = map(Fraction, answer.split(" r "))
        dividend, divisor = map(Fraction, re.split(r"\s*÷\s*", question))
        good = quotient * divisor + left == dividend and 0 < left < divisor
        return None if good and quotient.denominator == 1 else "wrong remainder"
    if "/" in answer:
        whole, part = re.fullmatch(r"(?:([0-9]+) )?([0-9]+/[0-9]+)", answer).groups()  # type: ignore[union-attr]
        over, under = map(int, part.split("/"))
        lowest = Fraction(part).denominator == under
        good = int(whole or 0) + Fraction(part) == value and over < under and lowest
        return None if good else "wrong fraction"
    return None if Fraction(answer) == value else f"it is {value}"


def wrong(line: Line) -> str | None:
    """What is wrong with a line; None when it is right."""
    if re.search(r"(?<![0-9.])0[0-9]", line.question):
        return "a nought in front"
    why = untrue(line.question, line.sign, line.answer)
    if why or line.sign == "≈" or " " in line.answer or "/" in line.answer:
        return why
    ends_in_nought = "." in line.answer and line.answer.endswith("0")
    if ends_in_nought != (line.again is not None):
        return "noughts at the end, and nothing said of it"
    if line.again is not None and (
        Fraction(line.again) != Fraction(line.answer) or re.search(r"\.[0-9]*0$", line.again)
    ):
        return "wrong when written again"
    return None


def wrong_reply(calculation: str, sign: str, reply: str) -> str | None:
    """What is wrong with a reply such as ``7.2 kg`` or ``78 pieces and 3 m left over``."""
    found = re.fullmatch(REPLY, reply)
    if not found:
        return "not a reply"
    amount, left = found.groups()
    if left is None:
        return untrue(calculation, sign, amount)
    return untrue(calculation, "=", f"{amount} r {left}")


def fillings(asked: str) -> list[str]:
    """The digits that make a calculation with one box in it true."""
    found = []
    for digit in "0123456789":
        question, sign, answer = re.split("([=≈])", asked.replace(BOX, digit))
        try:
            if untrue(question, sign, answer) is None:
                found.append(digit)
        except ZeroDivisionError:
            continue
    return found


def wrong_gap(asked: str, filling: str) -> str | None:
    """What is wrong with what is said to be missing: each digit is tried, a number put in."""
    if asked.count(BOX) != 1:
        return f"{asked.count(BOX)} boxes"
    question, sign, answer = re.split("([=≈])", asked.replace(BOX, filling))
    why = untrue(question, sign, answer)
    alone = re.search(rf"(?<![0-9.]){BOX}(?![0-9.])", asked)
    if why or (alone and len(filling) > 1):
        return why
    # A number of one digit that stands alone may have been any number, so digits are enough.
    fits = fillings(asked)
    return None if fits == [filling] else f"{fits} would fit"


def wrong_order(numbers: str, rising: str) -> str | None:
    given, put = numbers.split(","), rising.split("<")
    values = list(map(Fraction, put))
    if sorted(map(Fraction, given)) != values or sorted(given) != sorted(put):
        return "not these numbers in order"
    return None if all(a < b for a, b in pairwise(values)) else "two are alike"


def wrong_comparison(first: str, second: str, sign: str) -> str | None:
    a, b = Fraction(first), Fraction(second)
    return None if sign == ("<" if a < b else ">" if a > b else "=") else f"{a} and {b}"


WHOLE = {"whole number": 0, "ten": 1, "hundred": 2, "thousand": 3}


def place_named(to: str) -> int:
    """How far is rounded: 1 for a decimal place, 0 for the ones, −1 for the tens."""
    digits = re.search("[0-9]", to)
    if digits:
        return int(digits[0])
    return -next(tens for name, tens in WHOLE.items() if to.endswith(name))


def wrong_rounding(number: str, to: str, answer: str) -> str | None:
    """Half a unit rounds up: common practice, no source."""
    place = place_named(to)
    rounded = Decimal(number).quantize(Decimal(1).scaleb(-place), ROUND_HALF_UP)
    shown = f"{rounded:f}"
    return None if answer == shown else f"it is {shown}"


def wrong_fact(fact: str, product: str, asked: str) -> str | None:
    """A known fact is true, its numbers are whole, and the question's have the same digits."""
    if exact(fact) != Fraction(product):
        return f"{fact} is {exact(fact)}"

    def digits(calculation: str) -> list[str]:
        return [number.replace(".", "").strip("0") for number in re.findall(NUMBER, calculation)]

    if "." in fact + product or digits(fact) != digits(asked):
        return "the fact has other digits"
    ratio = exact(asked) / Fraction(product)
    while ratio < 1:
        ratio *= 10
    while ratio >= 10:
        ratio /= 10
    return None if ratio == 1 else "the answer does not have the fact's digits"


def compact(text: str) -> str:
    """A text on one line, no room beside signs and boxes."""
    text = re.sub(r"[\s\N{NO-BREAK SPACE}]+", " ", text)
    text = re.sub(r" ?([+−×÷=≈<>,:?]) ?", r"\1", text)
    text = re.sub(rf" ?{BOX}(?: (?!r |[0-9]+/))?", BOX, text)
    return text.replace(f"{BOX}r ", f"{BOX} r ").strip()


CALCULATIONS = ("add", "subtract", "multiply", "divide")
KINDS = (
    *(*CALCULATIONS, "order", "compare", "round"),
    *(f"{name}, {form}" for name in CALCULATIONS for form in ("missing number", "missing digit")),
    *(f"{name}, in words" for name in CALCULATIONS),
    *(f"{name}, spot the mistake" for name in ("add", "subtract")),
    *(
        f"{name}, {how}"
        for name in ("multiply", "divide")
        for how in ("known fact", "digits moved")
    ),
    *(f"divide, {ending}" for ending in ("remainder", "fraction", "decimal", "rounded")),
)
"""The kinds of question that are read: the operation, and the form or ending where it has one."""


@dataclass(frozen=True)
class Asked:
    """A question of ``pack.json``: its kind, its letter and the ways in which it is printed."""

    label: str
    kind: str
    asked: str
    """As the form has it, compact: ``3.4+0.27``, ``3.□+0.27=3.67``, ``order 2.4,2.375``."""
    calculation: str
    operands: tuple[str, ...]
    sentence: str = ""

    @property
    def ways(self) -> tuple[str, str]:
        """What may be read of it: as it is asked, or the bare calculation."""
        return self.asked, self.calculation

    @classmethod
    def of(cls, data: dict[str, Any]) -> "Asked":
        operation, operands = data["operation"], tuple(data["operands"])
        form = data.get("form", "plain")
        signs = {"add": "+", "subtract": "−", "multiply": "×", "divide": "÷"}
        calculation = signs.get(operation, ",").join(operands)
        asked, sentence = calculation, ""
        kind = operation if form == "plain" else f"{operation}, {form}"
        match form:
            case "missing number" | "missing digit":
                asked = compact(data["asked"].replace("▭", BOX).replace("□", BOX))
            case "known fact":
                asked = compact(data["asked"]).removesuffix("=")
            case "spot the mistake":
                asked = f"{calculation}={data['shown']}?"
            case "in words":
                asked = sentence = compact(data["asked"])
            case _ if operation not in signs:
                asked = f"{operation} {calculation}"
                if operation == "round":
                    asked += f" {data['places']}"
                kind = operation
            case _ if data.get("ending", "exact") != "exact":
                kind = f"{operation}, {data['ending']}"
        return cls(data["label"], kind, asked, calculation, operands, sentence)


@dataclass(frozen=True)
class Found:
    """What was read: as ``Asked.asked`` or ``Asked.calculation``, and what is wrong with it."""

    asked: str
    why: str | None


def answered(text: str, expected: Asked | None) -> Found | None:
    """A question with its answer at the start of a text; None where none is."""
    text = compact(text)
    if expected and expected.sentence and text.startswith(expected.sentence):
        rest = text.removeprefix(expected.sentence)
        rest = re.sub(r"^ ?Answer [^.]*\. ?", "", rest).strip()
        found = re.match(REPLY, rest)
        rounded = "rounded" in expected.kind or "≈" in rest
        sign = "≈" if rounded or not exact_reply(expected, found) else "="
        why = "no reply" if not found else wrong_reply(expected.calculation, sign, found[0])
        return Found(expected.sentence, why or wrong_sentence(expected))
    if match := re.match(rf"({WITH_A_GAP})([=≈])({ANSWER_WITH_A_GAP}),{BOX}=({NUMBER})", text):
        question, sign, answer, filling = match.groups()
        if BOX in question + answer:
            asked = f"{question}{sign}{answer}"
            return Found(asked, wrong_gap(asked, filling))
    if match := re.match(rf"({SUM}){ENDING}([=≈])({ANSWER})(?:=({NUMBER}))?", text):
        question, sign, answer, again = match.groups()
        if expected and "in words" in expected.kind:
            reply = re.match(REPLY, text[match.start(3) :])
            return Found(question, wrong_reply(question, sign, reply[0] if reply else ""))
        return Found(question, wrong(Line(question, sign, answer, again)))
    if match := re.match(rf"({SUM}){ENDING}([=≈])({REPLY})", text):
        return Found(match[1], wrong_reply(match[1], match[2], match[3]))
    if match := re.match(rf"({NUMBER}(?:,{NUMBER})+):({NUMBER}(?:<{NUMBER})+)", text):
        return Found(f"order {match[1]}", wrong_order(match[1], match[2]))
    if match := re.match(rf"({NUMBER}){BOX}({NUMBER}):({NUMBER})([<>=])({NUMBER})", text):
        first, second, again, sign, last = match.groups()
        why = None if (again, last) == (first, second) else "other numbers"
        return Found(f"compare {first},{second}", why or wrong_comparison(first, second, sign))
    if match := re.match(rf"({NUMBER}) ({TO}):({NUMBER})", text):
        number, to, answer = match.groups()
        return Found(f"round {number} {place_named(to)}", wrong_rounding(number, to, answer))
    return None


def exact_reply(expected: Asked, found: re.Match[str] | None) -> bool:
    """Whether a reply without ``left over`` gives the whole of a calculation."""
    if not found or found[2] is not None:
        return True
    return exact(expected.calculation) == Fraction(found[1])


def wrong_sentence(expected: Asked) -> str | None:
    """The numbers of a calculation stand in its sentence."""
    said = Counter(map(Fraction, re.findall(NUMBER, expected.sentence)))
    missing = Counter(map(Fraction, expected.operands)) - said
    return f"{list(missing)} not in the sentence" if missing else None


def worked_out(text: str, expected: Asked | None) -> Found | None:
    """An example with its answer; one that is worked wrongly first has the right one after it."""
    if expected is None or expected.sentence or not expected.asked.endswith("?"):
        return answered(text, expected)
    text = compact(text)
    wrong = asked_alone(text, expected)
    again = text.find(f"{expected.calculation}=", 1)
    if wrong is None or wrong.why or again < 0:
        return wrong and Found(wrong.asked, wrong.why or "the right answer does not follow")
    right = answered(text[again:], expected)
    return right and Found(wrong.asked, right.why)


def asked_alone(text: str, expected: Asked | None) -> Found | None:
    """A question as a pupil gets it at the start of a text; None where none is."""
    text = compact(text)
    if expected and expected.sentence and text.startswith(expected.sentence):
        return Found(expected.sentence, wrong_sentence(expected))
    if match := re.match(rf"({SUM})=({NUMBER}),so (?:what is )?({SUM})", text):
        fact, product, question = match.groups()
        return Found(f"{fact}={product},so {question}", wrong_fact(fact, product, question))
    spot = rf"({SUM})=({NUMBER})(?:\?|\.) ?Find the mistake and put it right\."
    if match := re.match(spot, text):
        question, shown = match.groups()
        why = "what is shown is right" if exact(question) == Fraction(shown) else None
        return Found(f"{question}={shown}?", why)
    if match := re.match(rf"({WITH_A_GAP})([=≈])({ANSWER_WITH_A_GAP})", text):
        asked = match[0]
        if asked.count(BOX) == 1:
            alone = re.search(rf"(?<![0-9.]){BOX}(?![0-9.])", asked)
            fits = [""] if alone else fillings(asked)
            return Found(asked, None if len(fits) == 1 else f"{fits} would fit")
    if match := re.match(rf"({SUM})(?:=|{WORDS}|$| [A-Z])", text):
        return Found(match[1], None)
    if match := re.match(rf"Put in order,smallest first:({NUMBER}(?:,{NUMBER})+)", text):
        return Found(f"order {match[1]}", None)
    compared = rf"Write<,>or=in the box:({NUMBER}){BOX}({NUMBER})"
    spoken = rf"write the sign for is less than,is more than or equals:({NUMBER}),({NUMBER})"
    if match := re.match(compared, text) or re.match(spoken, text):
        return Found(f"compare {match[1]},{match[2]}", None)
    if match := re.match(rf"Round ({NUMBER}) ({TO})", text):
        return Found(f"round {match[1]} {place_named(match[2])}", None)
    return None


SPOKEN = {
    "a missing number": BOX,
    "missing digit": BOX,
    " plus ": "+",
    " minus ": "−",
    " times ": "×",
    " divided by ": "÷",
    " equals ": "=",
    " is about ": "≈",
    " is said to be ": "=",
}


def unspoken(said: str) -> str:
    """What a screen reader says of a question, in signs again."""
    for words, sign in SPOKEN.items():
        said = said.replace(words, sign)
    return said


# Pages as text.


def pages(file: Path) -> Iterator[str]:
    """The text of each page in its lines, with a sign for each empty box to write in."""
    document = pypdfium2.PdfDocument(file)
    for page in document:
        yield page_text(page)
    document.close()


Sides = tuple[float, float, float, float]
"""Left, bottom, right, top."""


def boxes_on(page: pypdfium2.PdfPage) -> list[Sides]:
    """Where boxes of the size of writing stand: outlines that are not filled."""
    found = []
    for thing in page.get_objects([pdfium.FPDF_PAGEOBJ_PATH], max_depth=1):
        segments = pdfium.FPDFPath_CountSegments(thing)
        if not 4 <= segments <= 6:
            continue
        left, bottom, right, top = thing.get_bounds()
        if 4 < right - left < 300 and 6 < top - bottom < 100:
            fill, stroke = ctypes.c_int(), pdfium.FPDF_BOOL()
            pdfium.FPDFPath_GetDrawMode(thing, fill, stroke)
            if stroke and not fill.value:
                found.append((left, bottom, right, top))
    return found


def page_text(page: pypdfium2.PdfPage) -> str:
    written = page.get_textpage()
    count = written.count_chars()
    letters = [chr(pdfium.FPDFText_GetUnicode(written, at)) for at in range(count)]
    boxes = boxes_on(page)
    if boxes:
        where = [written.get_charbox(at) for at in range(count)]
        for box in boxes:
            put_box(box, letters, where)
    text = "".join(letters).replace("\r\n", "\n").replace("\r", "\n")
    return re.sub(r"[ \N{NO-BREAK SPACE}]+", " ", text)


def put_box(box: Sides, letters: list[str], where: Sequence[Sides]) -> None:
    """A box's sign beside the letter of its line that is next to it."""
    left, bottom, right, top = box
    nearest, before, at_least = None, False, 3 * (top - bottom)
    for at, (a, b, c, d) in enumerate(where):
        if letters[at][-1].isspace() or not bottom <= (b + d) / 2 <= top:
            continue
        for gap, in_front in ((left - c, False), (a - right, True)):
            if -1 < gap < at_least:
                nearest, before, at_least = at, in_front, gap
    if nearest is not None:
        own = letters[nearest]
        letters[nearest] = f"{BOX}{own}" if before else f"{own}{BOX}"


def said_on(file: Path) -> list[str]:
    """What a screen reader says of the questions of a file."""
    root: Any = pypdf.PdfReader(file).trailer["/Root"]
    parts = [part.get_object() for part in root["/StructTreeRoot"]["/K"].get_object()["/K"]]
    return [str(part["/Alt"]) for part in parts if part["/S"] == "/Formula" and "/Alt" in part]


@dataclass
class Count:
    """What was read back."""

    questions: int = 0
    printed: Counter[str] = field(default_factory=Counter)
    kinds: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)
    looks: int = 0

    def __str__(self) -> str:
        kinds = "\n".join(f"  {count:6} {kind}" for kind, count in sorted(self.kinds.items()))
        where = ", ".join(f"{count} {file}" for file, count in sorted(self.printed.items()))
        return (
            f"{self.questions} questions read back from print ({where}): "
            f"{len(self.wrong)} wrong\n{kinds}"
        )


Reader = Callable[[str, "Asked | None"], "Found | None"]


def read_all(
    what: str, texts: Sequence[str], expected: Sequence[Asked], read: Reader, count: Count
) -> None:
    """Read each text and hold it against the question that is to be there, in this order."""
    if len(texts) != len(expected):
        count.wrong.append(f"{what}: {len(texts)} read, {len(expected)} to be there")
        return
    for text, question in zip(texts, expected, strict=True):
        count.printed[what.partition(":")[0]] += 1
        found = read(text, question)
        if found is None:
            count.wrong.append(f"{what}: {question.label}) not read: {text[:90]!r}")
        elif found.asked not in question.ways:
            count.wrong.append(f"{what}: {question.label}) {found.asked} for {question.asked}")
        elif found.why:
            count.wrong.append(f"{what}: {question.label}) {compact(text)[:90]!r}: {found.why}")


FURNITURE = re.compile(
    r"(?m)^.*\b(?:page [0-9]+ of|version [0-9]|code [0-9A-Z]+-|[0-9]+ minutes?$).*$"
)


def after_labels(text: str, labels: Sequence[str], mark: str) -> list[str]:
    """What follows each label, up to the next; labels are looked for one after another."""
    ends, at = [], 0
    for label in labels:
        found = re.compile(mark.format(label)).search(text, at)
        if not found:
            break
        ends.append((found.start(), found.end()))
        at = found.end()
    starts = [start for start, _ in ends[1:]]
    return [text[end:after] for (_, end), after in zip(ends, [*starts, len(text)], strict=True)]


BLOCK = re.compile(r"(?<!\S)([a-z]{1,2})\)(.*?)(?=(?<!\S)[a-z]{1,2}\)|\Z)", re.DOTALL)
"""A label on a sheet and what follows it."""

IN_FRONT = r"(?<!\S){}\)"
ON_A_SLIDE = r"(?m)^{} (?=\S)"


def read_back(folder: Path, count: Count) -> None:
    """Read a pack's files back. What is wrong, or is not there, is noted."""
    record = json.loads((folder / "pack.json").read_text(encoding="utf-8"))
    sections = [
        (section, [Asked.of(question) for question in section["questions"]])
        for section in record["sections"]
    ]
    everything = [question for _, questions in sections for question in questions]
    count.questions += len(everything)
    count.kinds.update(question.kind for question in everything)
    key = FURNITURE.sub("", "\n".join(pages(folder / "key.pdf")))
    texts = after_labels(key, [question.label for question in everything], IN_FRONT)
    read_all("in the key", texts, everything, answered, count)
    plain = [
        question
        for section, questions in sections
        for question in questions
        if section["kind"] != "example"
    ]
    slides = "\n".join(page for page in pages(folder / "answers.pdf"))
    texts = after_labels(slides, [question.label for question in plain], ON_A_SLIDE)
    read_all("on answer slides", texts, plain, answered, count)
    examples = [
        q for section, questions in sections for q in questions if section["kind"] == "example"
    ]
    read_example_slides(folder / "examples.pdf", examples, count)
    read_examples_on_paper(folder / "examples-on-paper.pdf", examples, count)
    for file in sorted(folder.glob("*.pdf")):
        name = file.stem.removeprefix("practice-")
        of_file = [
            q
            for section, questions in sections
            for q in questions
            if section["name"] == name and section["kind"] != "example"
        ]
        if name == "starter" or file.name.startswith("practice-"):
            read_sheet(file, of_file, count)


def read_example_slides(file: Path, examples: Sequence[Asked], count: Count) -> None:
    """The last step of each example, its match, and the match's answer."""
    shown, matches, answers = [], [], []
    for page in pages(file):
        heading, _, rest = page.partition("\n")
        step = re.search(r"step ([0-9]+) of ([0-9]+)", page)
        if "side by side" in page:
            continue  # two workings, one of them wrong: their digits are not read here
        if heading.startswith("Worked example") and (not step or step[1] == step[2]):
            shown.append(rest)
        elif heading.strip() == "Your turn: answer":
            part = re.search(r"slide ([0-9]+) of [0-9]+", page)
            if not part or part[1] == "1":  # a tall working is answered on several
                answers.append(rest)
        elif heading.strip() == "Your turn":
            matches.append(rest)
    read_all("on example slides", shown, examples[::2], answered, count)
    read_all("on example slides", matches, examples[1::2], asked_alone, count)
    read_all("on example slides", answers, examples[1::2], answered, count)


def read_examples_on_paper(file: Path, examples: Sequence[Asked], count: Count) -> None:
    text = FURNITURE.sub("", "\n".join(pages(file)))
    texts = after_labels(text, [question.label for question in examples], IN_FRONT)
    what = "in examples on paper"
    read_all(what, texts[::2], examples[::2], worked_out, count)
    read_all(what, texts[1::2], examples[1::2], on_line_or_squares, count)


def read_sheet(file: Path, questions: Sequence[Asked], count: Count) -> None:
    """Pupils' sheets hold the key's questions under the same labels, in ink and as they are said.

    What stands on a line is read as it is; on squares, the digits are read one after another.
    Pages may be put on paper in another order, to be cut apart.
    """
    said = [re.fullmatch(r"question ([a-z]+): (.*)", text) for text in said_on(file)]
    spoken = [(match[1], unspoken(match[2])) for match in said if match]
    read_labelled("said on sheets", file, spoken, questions, asked_alone, count)
    inked = FURNITURE.sub("", "\n".join(pages(file)))
    read_labelled("on sheets", file, BLOCK.findall(inked), questions, on_line_or_squares, count)


def read_labelled(
    what: str,
    file: Path,
    found: Sequence[tuple[str, str]],
    expected: Sequence[Asked],
    read: Reader,
    count: Count,
) -> None:
    """Read texts that have labels, which must be those of the questions.

    Copies of a short section may fill a sheet of paper, to be cut apart.
    """
    labels = Counter(label for label, _ in found)
    copies = next((n for n in (1, 2, 4) if len(found) == n * len(expected)), 1)
    count.printed[what] -= (copies - 1) * len(expected)  # each is read, and counted once
    expected = [*expected] * copies
    if labels != Counter(question.label for question in expected):
        count.wrong.append(f"{what}: {file.name}: other labels than in the key")
        return
    waiting = list(expected)  # of several versions, whose pages may lie in any order
    for label, text in found:
        alike = [question for question in waiting if question.label == label]
        fitting = (q for q in alike if (read_as := read(text, q)) and read_as.asked in q.ways)
        question = next(fitting, alike[0])
        waiting.remove(question)
        read_all(what, [text], [question], read, count)


def on_line_or_squares(text: str, expected: Asked | None) -> Found | None:
    """A question on a line or, of a calculation on squares, its digits.

    With a gap they stand on a line of squares: its digits, gaps and signs are read in their order.
    """
    if expected is not None and "missing" in expected.kind:
        line = re.sub(r"[\s.]", "", text.strip().partition("\n")[0])
        if line.removesuffix("=") in {re.sub(r"[ .]", "", way) for way in expected.ways}:
            return Found(expected.asked, None)
    in_squares = IN_SQUARES.match(text)
    found = asked_alone(re.sub(r"\s", "", in_squares[0]) if in_squares else text, expected)
    if found or expected is None:
        return found
    digits = re.sub("[^0-9]", "", text)
    if "missing" in expected.kind:  # the answer on squares has its noughts at the end
        digits = digits.rstrip("0")
    return Found(expected.asked, None) if digits == digits_on_squares(expected) else None


IN_SQUARES = re.compile(r"(?:\s*[0-9.+−×÷](?!\S))+\s*=(?!\S)")
"""A calculation on a line of squares, a character each."""


def digits_on_squares(question: Asked) -> str:
    """A question's digits as they stand on squares: a divisor stands before its dividend."""
    numbers = re.findall(HOLED, question.asked)
    if "÷" in question.asked:
        numbers.reverse()
    digits = re.sub("[^0-9]", "", "".join(numbers))
    return digits.rstrip("0") if "missing" in question.kind else digits


def built(folder: Path, seed: int, versions: int, extra: str = "") -> Path:
    """A pack of all sorts of questions, built by the command line."""
    spec = folder / "read-back.yaml"
    spec.write_text(LESSON + extra, encoding="utf-8")
    out = folder / f"pack-{seed}"
    command = ["build", str(spec), "--seed", str(seed), "--versions", str(versions)]
    command += ["--workings", "all"]
    done = CliRunner().invoke(rungsheet.command_line.app, [*command, "--out", str(out)])
    if done.exit_code:
        raise AssertionError(done.output)
    return out


LOOKS = (
    "",
    "pages: {paper: A5, squares: 5, carries: above}\n",
    "pages: {paper: Letter, squares: 10, placeholders: false}\n",
    "pages: {to_a_sheet: 2, duplex: true}\n",
    "pages: {large: 18, orientation: landscape}\n",
    "pages: {point: column, subtraction: equal addition}\n",
    "pages: {paper: A3, to_a_sheet: 4, tint: mint}\n",
    "pages: {large: {gaps: 24, told: 18}, point: column, carries: above}\n",
)


def read_many(questions: int, versions: int, first_seed: int = 1) -> Count:
    """Build packs in each look and read them back until there were so many questions."""
    count, seed = Count(), first_seed
    while count.questions < questions or seed < first_seed + len(LOOKS):
        with tempfile.TemporaryDirectory() as folder:
            look = LOOKS[seed % len(LOOKS)]
            before, count.looks = len(count.wrong), min(seed - first_seed + 1, len(LOOKS))
            read_back(built(Path(folder), seed, versions, look), count)
            count.wrong[before:] = [
                f"seed {seed}, {look.strip() or 'as it comes'}: {why}"
                for why in count.wrong[before:]
            ]
        seed += 1
    return count


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--questions", type=int, default=2000)
    parser.add_argument("--versions", type=int, default=4)
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args()
    count = read_many(chosen.questions, chosen.versions, chosen.seed)
    print(count)
    for line in count.wrong[:20]:
        print(f"  {line}")
    sys.exit(1 if count.wrong else 0)


if __name__ == "__main__":
    main()
