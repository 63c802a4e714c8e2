"""Every step of every method done again by a reader who sees only the marks on the paper.

The reader knows the squares, the inks and the rules of arithmetic; it shares no code with the
methods. It follows the steps in order, column by column, refuses a mark that does not follow
from the marks before it, and must land on the answer that ``fractions`` gives.

With ``RUNGSHEET_NIGHTLY`` set, four times as many questions are read.
"""

import os
import random
import re
from collections import defaultdict
from dataclasses import replace
from fractions import Fraction
from math import prod

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.methods import Conventions, written_working
from generator.operations.working import Ink, Working

COUNT = 10_000 if os.environ.get("RUNGSHEET_NIGHTLY") else 2_500
ON_THE_WAY = (Ink.GIVEN, Ink.SIGN, Ink.PLACEHOLDER, Ink.PARTIAL, Ink.ANSWER)


class Paper:
    """The squares as they fill: text by row, column and ink; points by row, column and ink."""

    def __init__(self) -> None:
        self.squares: dict[tuple[int, int], dict[Ink, str]] = defaultdict(dict)
        self.points: dict[tuple[int, int], Ink] = {}
        self.rules: list[int] = []
        self.struck: set[tuple[int, int]] = set()

    def take(self, step) -> None:
        for mark in step.marks:
            square = self.squares[mark.row, mark.column]
            assert mark.ink not in square, "written twice"
            square[mark.ink] = mark.text
        for point in step.points:
            self.points[point.row, point.column] = point.ink
        self.struck |= {(strike.row, strike.column) for strike in step.strikes}
        self.rules += sorted({rule.row for rule in step.rules} - set(self.rules))

    def small(self, row: int, column: int, ink: Ink) -> int:
        return int(self.squares[row, column].get(ink, "0"))

    def digit(self, row: int, column: int) -> int:
        """The full-size digit of a square; nought for an empty one."""
        square = self.squares[row, column]
        found = [square[ink] for ink in ON_THE_WAY if ink in square and square[ink].isdigit()]
        assert len(found) < 2, "two digits in one square"
        return int(found[0]) if found else 0

    def line(self, row: int, inks=ON_THE_WAY, first: int = 0, last: int = 10**6) -> str:
        """A row from left to right as text, empty squares left out."""
        found = [
            (column, square[ink] + ("." if self.points.get((row, column)) in inks else ""))
            for (at, column), square in self.squares.items()
            if at == row and first <= column <= last
            for ink in inks
            if ink in square
        ]
        return "".join(text for _, text in sorted(found))


def value(text: str) -> Fraction:
    """A number, or a chain of × and ÷, read from the left."""
    first, *rest = re.split(r"([×÷])", text)
    total = Fraction(first)
    for sign, number in zip(rest[::2], rest[1::2], strict=True):
        total = total * Fraction(number) if sign == "×" else total / Fraction(number)
    return total


def lay(working: Working):
    """Paper with the rules that are there from the start."""
    paper = Paper()
    paper.rules = sorted({rule.row for rule in working.rules})
    return paper


def written_answer(paper: Paper) -> str:
    (row,) = {
        row for (row, _), square in paper.squares.items() if Ink.ANSWER in square
    }  # an answer is in one row
    return paper.line(row, (Ink.ANSWER,))


# Addition and subtraction.


def replay_addition(question: Question, working: Working) -> str:
    paper = lay(working)
    paper.take(working.setting_out)
    rows = {row for (row, _), square in paper.squares.items() if Ink.GIVEN in square}
    assert [Fraction(paper.line(row).strip("+")) for row in sorted(rows)] == [
        Fraction(str(number)) for number in question.operands
    ]
    for step in working.steps[1:]:
        paper.take(step)
        if step.column is None:
            continue
        here = [m for m in step.marks if m.column == step.column]
        (answer,) = (m for m in here if m.ink is Ink.ANSWER)
        handed_on = [int(m.text) for m in step.marks if m.column == step.column - 1]
        carried = sum(
            int(square[Ink.CARRY])
            for (_, column), square in paper.squares.items()
            if column == step.column and Ink.CARRY in square
        )
        total = sum(paper.digit(row, step.column) for row in rows) + carried
        assert total == 10 * sum(handed_on) + int(answer.text)
    return written_answer(paper)


def replay_subtraction(question: Question, working: Working) -> str:
    paper = lay(working)
    paper.take(working.setting_out)
    upper, lower = sorted(
        {row for (row, _), square in paper.squares.items() if Ink.GIVEN in square}
    )
    assert [Fraction(paper.line(row).strip("−")) for row in (upper, lower)] == [
        Fraction(str(number)) for number in question.operands
    ]
    held = {column: paper.digit(upper, column) for column in range(1, working.columns)}
    taken = {column: paper.digit(lower, column) for column in range(1, working.columns)}
    at = dict.fromkeys(held, upper)
    for step in working.steps[1:]:
        paper.take(step)
        for mark in step.marks:
            match mark.ink:
                case Ink.TEN:
                    assert (mark.row, mark.text) == (at[mark.column], "1")
                    held[mark.column] += 10
                case Ink.LEFT:
                    assert (at[mark.column], mark.column) in {
                        (s.row, s.column) for s in step.strikes
                    }
                    held[mark.column] -= 1
                    assert int(mark.text) == held[mark.column] >= 0
                    at[mark.column] = mark.row
                case Ink.ADDED:
                    assert (mark.row, mark.text) == (lower, "+1")
                    taken[mark.column] += 1
                case Ink.ANSWER:
                    left = held[mark.column] - taken[mark.column]
                    assert int(mark.text) == left
        gained = [m.column for m in step.marks if m.ink is Ink.TEN]
        paid = [m.column for m in step.marks if m.ink in (Ink.LEFT, Ink.ADDED)]
        assert [column - 1 for column in gained] == paid
    for column, digit in held.items():  # what is not written is nought
        if Ink.ANSWER not in paper.squares[lower + 1, column]:
            assert digit == taken[column]
    return written_answer(paper)


# Multiplication.


class Block:
    """Two whole numbers under one another, being multiplied column by column."""

    def __init__(self, paper: Paper, row: int, ones: int) -> None:
        self.paper, self.row, self.ones = paper, row, ones
        self.upper, self.lower = paper.line(row - 1), paper.line(row).strip("×")
        self.products: list[int] = []  # the rows of products so far
        self.carried: dict[int, int] = {}  # by column, in a row of their own

    @property
    def multipliers(self) -> int:
        return sum(digit != "0" for digit in self.lower)

    def step(self, step) -> int:
        """One column of a row of products or of their sum; gives its row."""
        paper, column = self.paper, step.column
        digits = [m for m in step.marks if m.ink in (Ink.PARTIAL, Ink.ANSWER)]
        (written,) = (m for m in digits if m.column == column)
        row = written.row
        assert all(m.column in (column, column - 1) for m in step.marks)
        handed_on = sum(int(m.text) for m in step.marks if m.column == column - 1)
        carried = paper.small(row, column, Ink.CORNER) + self.carried.pop(column, 0)
        self.carried.update({m.column: int(m.text) for m in step.marks if m.ink is Ink.CARRY})
        if row not in self.products and len(self.products) == self.multipliers > 1:
            total = sum(paper.digit(at, column) for at in self.products)
        else:
            if row not in self.products:
                self.products.append(row)
            shift = sum(
                paper.squares[row, at].get(Ink.PLACEHOLDER) == "0"
                for at in range(column + 1, self.ones + 1)
            )
            total = int(self.lower[-1 - shift]) * paper.digit(self.row - 1, column + shift)
        assert total + carried == 10 * handed_on + int(written.text)
        return row


def replay_multiplication(question: Question, working: Working) -> str:
    paper, block, whole = lay(working), None, ""
    for step in working.steps:
        paper.take(step)
        if step.column is not None:
            whole = paper.line(block.step(step), (Ink.PARTIAL, Ink.ANSWER))
            continue
        for row in sorted({mark.row for mark in step.marks}):
            line = paper.line(row)
            if line.startswith("×"):
                block = Block(paper, row, working.units_column)
                assert whole.rstrip("0") in ("", block.upper, block.lower), "the product goes on"
            elif "=" in line:
                before, _, after = line.partition("=")
                if after:
                    assert value(before) == value(after), line
                if re.fullmatch(r"\d+×\d+", before) and not re.fullmatch(r"10+×10+", before):
                    assert whole.rstrip("0") in ("", *before.split("×")), "the product goes on"
                    whole = after
            elif row and set(line) <= set("0123456789."):
                inks = {mark.ink for mark in step.marks if mark.row == row}
                if inks <= {Ink.GIVEN, Ink.PLACEHOLDER}:  # set out, or noughts to begin with
                    continue
                if "." in line:  # the same digits in other columns
                    assert line.replace(".", "").lstrip("0") == whole.lstrip("0")
                else:
                    assert line == whole + "0" * (len(line) - len(whole))
                    whole = line
    first_row = paper.line(0).partition("=")[0] if "×" in paper.line(0) else ""
    asked = first_row.split("×") if first_row else [block.upper, block.lower]
    assert sorted(map(Fraction, asked)) == sorted(Fraction(str(n)) for n in question.operands)
    answer = written_answer(paper)
    places = sum(len(str(number).partition(".")[2]) for number in question.operands)
    assert len(answer.partition(".")[2]) == places
    if places:
        kept = len(answer.rstrip("0").rstrip("."))
        assert len(paper.struck) == len(answer[kept:].strip("."))
    return answer


# Division.


def replay_division(question: Question, working: Working) -> str:
    paper, frame, previous, started = lay(working), None, 0, False
    for number, step in enumerate(working.steps, start=1):
        paper.take(step)
        if frame is None and working.uprights_drawn(number):
            (frame,) = working.uprights_drawn(number)
            divisor = int(paper.line(frame.start, last=frame.column - 1))
            inside = Fraction(paper.line(frame.start, first=frame.column))
        elif frame is None and "=" in paper.line(0):
            asked, equal = paper.line(0).split("=")
            assert value(asked) == value(equal)
        filled = [m.text for m in step.marks if m.ink is Ink.PLACEHOLDER]
        assert set(filled) <= {"0"}
        if step.column is None or filled:
            continue
        row, column = frame.start, step.column
        before = paper.small(row, column, Ink.CARRIED_ON)
        if started:
            assert before == previous, "what was left over goes on"
        else:
            assert not before
        held = 10 * previous + paper.digit(row, column)
        quotient = [m for m in step.marks if m.row == row - 1]
        if quotient:
            started = True
            assert [m.column for m in quotient] == [column]
            previous = held - int(quotient[0].text) * divisor
        else:
            previous = held
        assert 0 <= previous < divisor
    exact = Fraction(str(question.operands[0])) / Fraction(str(question.operands[1]))
    first_row = paper.line(0).partition("=")[0]
    asked = first_row.split("÷") if "÷" in first_row else [inside, divisor]
    assert [Fraction(n) for n in asked] == [Fraction(str(n)) for n in question.operands]
    assert inside / divisor == exact
    answer = read_quotient(question, paper, frame.start - 1)
    over = after_the_quotient(paper, frame.start - 1)
    if question.ending is Ending.ROUNDED:
        shift = 10**question.places
        assert Fraction(answer) * shift == (exact * shift + Fraction(1, 2)) // 1
        worked = paper.line(frame.start - 1, (Ink.PARTIAL,))
        assert 0 <= exact - Fraction(worked) < Fraction(1, 10 * shift)
        assert len(answer.partition(".")[2]) == question.places
    elif question.ending is Ending.REMAINDER:
        assert Fraction(answer) + over / Fraction(str(question.operands[1])) == exact
        assert over < Fraction(str(question.operands[1]))
    else:
        assert Fraction(answer) + over == exact
    return answer


def read_quotient(question: Question, paper: Paper, row: int) -> str:
    return paper.line(row, (Ink.ANSWER,)).replace("≈", "") or "0"


def after_the_quotient(paper: Paper, row: int) -> Fraction:
    remainder = paper.line(row, (Ink.LEFT_OVER,)).lstrip("r")
    for (at, _), square in paper.squares.items():
        if at == row and Ink.NUMERATOR in square:
            over, under = int(square[Ink.NUMERATOR]), int(square[Ink.DENOMINATOR])
            assert Fraction(over, under).denominator == under, "in its lowest terms"
            return Fraction(over, under)
    return Fraction(remainder or "0")


# The questions.


def number(source: random.Random, digits: int, places: int) -> Number:
    """Up to so many digits, up to so many of them after the point; many of them noughts."""
    length = source.randint(1, digits)
    text = "".join(source.choice("0123456789" + "0" * source.randint(0, 4)) for _ in range(length))
    return Number(int(text), source.randint(0, places))


def addition(source: random.Random) -> Question:
    addends = source.randint(2, 6)
    return Question(Operation.ADD, tuple(number(source, 8, 5) for _ in range(addends)))


def subtraction(source: random.Random) -> Question:
    pair = sorted((number(source, 8, 5), number(source, 8, 5)), key=lambda n: n.value)
    return Question(Operation.SUBTRACT, (pair[1], pair[0]))


def multiplication(source: random.Random) -> Question:
    factors = source.choice((2, 2, 3))
    return Question(
        Operation.MULTIPLY,
        tuple(number(source, 4 if factors == 2 else 3, 3) for _ in range(factors)),
    )


def division(source: random.Random) -> Question:
    ending = source.choice([ending for ending in Ending if ending is not Ending.MOVED])
    divisor = number(source, 2, source.choice((0, 0, 2)))
    while not divisor.units:
        divisor = number(source, 2, 2)
    dividend = number(source, 5, source.choice((0, 0, 3)))
    places = source.randint(0, 4) if ending is Ending.ROUNDED else 0
    if ending in (Ending.EXACT, Ending.DECIMAL):  # so that the quotient ends
        quotient = number(source, 4, 2)
        dividend = Number(quotient.units * divisor.units, quotient.places + divisor.places)
        if source.random() < 0.5:
            dividend = dividend.trimmed()
    return Question(Operation.DIVIDE, (dividend, divisor), ending, places)


METHODS = pytest.mark.parametrize(
    ("ask", "replay"),
    [
        (addition, replay_addition),
        (subtraction, replay_subtraction),
        (multiplication, replay_multiplication),
        (division, replay_division),
    ],
    ids=["add", "subtract", "multiply", "divide"],
)


def some_conventions(source: random.Random) -> Conventions:
    return Conventions(
        source.choice(("below", "above", "between")),
        source.random() < 0.5,
        source.choice(("exchange", "equal addition")),
    )


@METHODS
@pytest.mark.slow
def test_the_marks_alone_lead_to_the_exact_answer(ask, replay):
    source = random.Random(20_250_901)
    for _ in range(COUNT):
        question = ask(source)
        working = written_working(question, some_conventions(source))
        answer = replay(question, working)
        assert answer == str(working.answer), question.text
        assert working.agrees_with(question), question.text
        if question.operation is not Operation.DIVIDE:
            assert Fraction(answer) == exactly(question), question.text


@METHODS
def test_the_reader_notices_any_one_digit_changed(ask, replay):
    """The reader would not be worth much if it let a slip pass.

    Products and quotients of nought are left out: 0 × 5 = 0 is as true as 0 × 9 = 0.
    """
    source = random.Random(20_260_301)
    for _ in range(COUNT // 10):
        question = ask(source)
        if not all(operand.units for operand in question.operands):
            continue
        working = written_working(question, some_conventions(source))
        slipped = with_a_slip(working, source)
        try:
            answer = replay(question, slipped)
        except (AssertionError, ValueError, ZeroDivisionError, IndexError):
            continue
        if question.operation is Operation.DIVIDE:
            pytest.fail(f"{question.text}: a slip passed")
        assert Fraction(answer) != exactly(question), f"{question.text}: a slip passed"


def with_a_slip(working: Working, source: random.Random) -> Working:
    """The working with one digit, large or small, written wrong."""
    digits = [
        (at, mark)
        for at, step in enumerate(working.steps)
        for mark in step.marks
        if mark.text.isdigit()
    ]
    at, mark = source.choice(digits)
    wrong = str((int(mark.text) + source.randint(1, 8)) % 10)
    wrong = wrong if wrong != mark.text else "9"
    step = working.steps[at]
    marks = tuple(replace(m, text=wrong) if m is mark else m for m in step.marks)
    steps = (*working.steps[:at], replace(step, marks=marks), *working.steps[at + 1 :])
    return replace(working, steps=steps)


def exactly(question: Question) -> Fraction:
    first, *others = (Fraction(str(operand)) for operand in question.operands)
    match question.operation:
        case Operation.ADD:
            return first + sum(others)
        case Operation.SUBTRACT:
            return first - others[0]
        case _:
            return first * prod(others)
