"""``point: column``: the decimal point in a column of its own, by every method.

Both ways of writing it are common practice, no source; the answers are checked against the
standard library's decimal and fractions.
"""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.mistakes import mistake_named
from generator.operations.products.known_fact import related_product
from generator.operations.worked_wrongly import wrong_working
from generator.operations.working import Ink, line_width, write_line

AGREED = Conventions(point="column")
numbers = st.builds(Number, st.integers(0, 10**6 - 1), st.integers(0, 4))
decimals = st.builds(Number, st.integers(1, 9999), st.integers(1, 4))
conventions = st.builds(
    Conventions,
    st.sampled_from(["below", "above", "between"]),
    st.booleans(),
    st.sampled_from(["exchange", "equal addition"]),
    st.just("column"),
)


def asked(operation: Operation, *operands: str | Number, **words: object) -> Question:
    read = (Number.parse(text) if isinstance(text, str) else text for text in operands)
    return Question(operation, tuple(read), **words)  # type: ignore[arg-type]


def row_text(working: Working, row: int, *inks: Ink) -> str:
    """A row as it stands, one character a square, a blank for an empty one."""
    squares = {m.column: m.text for m in working.marks() if m.row == row and m.ink in inks}
    for point in working.points():
        if point.row == row and point.ink in inks:
            assert point.in_square
            squares[point.column] = "."
    return "".join(squares.get(column, " ") for column in range(working.columns)).rstrip()


def decimal(number: Number) -> Decimal:
    return Decimal(str(number))


def check_points(working: Working) -> None:
    """Each point has its square to itself, with digits at both sides, all on the paper."""
    marks = {(mark.row, mark.column) for mark in working.marks()}
    digits = {(mark.row, mark.column) for mark in working.marks() if mark.text.isdigit()}
    points = [(point.row, point.column) for point in working.points()]
    assert len(points) == len(set(points))
    assert all(point.in_square for point in working.points())
    for row, column in points:
        assert (row, column) not in marks, "a mark shares the square of a point"
        assert (row, column - 1) in digits
        assert (row, column + 1) in digits
    for row, column in (*marks, *points):
        assert 0 <= row < working.rows
        assert 0 <= column < working.columns


def check_point_column(working: Working) -> None:
    """All points stand in the column after the ones, where no mark stands in any row."""
    check_points(working)
    own = working.units_column + 1
    assert {point.column for point in working.points()} <= {own}
    if list(working.points()):
        assert own not in {mark.column for mark in working.marks()}
        assert own not in {step.column for step in working.steps}, "no column of digits in play"


def test_an_addition_square_by_square():
    working = written_working(asked(Operation.ADD, "3.4", "0.27"), AGREED)
    inks = (Ink.GIVEN, Ink.SIGN, Ink.PLACEHOLDER)
    assert [row_text(working, row, *inks) for row in (0, 1)] == [" 3.40", "+0.27"]
    assert row_text(working, 2, Ink.ANSWER) == " 3.67"
    assert (working.columns, working.units_column) == (5, 1)
    assert [(rule.start, rule.end) for rule in working.rules] == [(0, 4), (0, 4)]


def test_whole_numbers_have_no_column_for_a_point():
    for operation in (Operation.ADD, Operation.SUBTRACT, Operation.MULTIPLY, Operation.DIVIDE):
        question = asked(operation, "84", "7")
        with_column, usual = written_working(question, AGREED), written_working(question)
        assert (with_column.columns, with_column.steps) == (usual.columns, usual.steps)


def test_the_usual_is_the_line():
    assert Conventions().point == "line"
    working = written_working(asked(Operation.ADD, "3.4", "0.27"))
    assert not any(point.in_square for point in working.points())
    assert (working.columns, working.units_column) == (4, 1)


@given(st.lists(numbers, min_size=2, max_size=6), conventions)
def test_every_addition(addends, agreed):
    working = written_working(Question(Operation.ADD, tuple(addends)), agreed)
    assert decimal(working.answer) == sum(map(decimal, addends))
    check_point_column(working)


@given(numbers, numbers, conventions)
def test_every_subtraction_both_ways(one, other, agreed):
    first, second = (one, other) if one.value >= other.value else (other, one)
    working = written_working(Question(Operation.SUBTRACT, (first, second)), agreed)
    assert decimal(working.answer) == decimal(first) - decimal(second)
    check_point_column(working)


@given(decimals, decimals, conventions)
def test_every_multiplication(first, second, agreed):
    question = Question(Operation.MULTIPLY, (first, second))
    for working in (written_working(question, agreed), related_product(question, agreed)):
        assert decimal(working.answer) == decimal(first) * decimal(second)
        check_points(working)
        answer_points = {p.column for p in working.points() if p.ink is Ink.ANSWER}
        assert answer_points == {working.units_column + 1}
        row = working.rows - 1
        assert Decimal(row_text(working, row, Ink.ANSWER).strip()) == decimal(working.answer)


def test_the_lines_of_a_multiplication_give_each_point_a_square():
    working = written_working(asked(Operation.MULTIPLY, "0.6", "0.07"), AGREED)
    assert row_text(working, 0, Ink.GIVEN, Ink.SIGN) == "0.6×0.07"
    assert row_text(working, 1, Ink.PARTIAL, Ink.SIGN) == "0.6=6÷10"
    assert working.columns >= len("0.07=7÷100")


@given(decimals, st.integers(1, 12), st.sampled_from(Ending))
def test_every_division_by_a_whole_number(quotient, divisor, ending):
    if ending not in (Ending.EXACT, Ending.DECIMAL):
        return
    dividend = Number(quotient.units * divisor, quotient.places).trimmed()
    end = Ending.DECIMAL if not dividend.places else ending
    question = asked(Operation.DIVIDE, dividend, str(divisor), ending=end)
    if question.power_of_ten:
        return
    working = written_working(question, AGREED)
    assert Fraction(str(working.answer)) == Fraction(str(dividend)) / divisor
    check_point_column(working)


def test_a_division_that_goes_on_after_a_whole_dividend():
    working = written_working(asked(Operation.DIVIDE, "7", "4", ending=Ending.DECIMAL), AGREED)
    assert row_text(working, 0, Ink.ANSWER) == " 1.75"
    assert row_text(working, 1, Ink.GIVEN, Ink.PLACEHOLDER) == "47.00"
    over = {column for rule in working.rules_drawn() for column in range(rule.start, rule.end + 1)}
    assert over == {1, 2, 3, 4}, "the line runs on over the point"


def test_a_division_by_a_decimal_and_one_that_is_rounded():
    working = written_working(asked(Operation.DIVIDE, "8.4", "0.12"), AGREED)
    assert row_text(working, 0, Ink.GIVEN, Ink.PARTIAL, Ink.SIGN) == "8.4÷0.12=840÷12"
    assert str(working.answer) == "70"
    check_points(working)
    question = asked(Operation.DIVIDE, "20", "3", ending=Ending.ROUNDED, places=2)
    working = written_working(question, AGREED)
    assert row_text(working, 0, Ink.PARTIAL, Ink.ANSWER, Ink.SIGN) == "  6.666≈6.67"
    check_points(working)


@pytest.mark.parametrize("power", ["10", "100", "1000"])
@pytest.mark.parametrize("operation", [Operation.MULTIPLY, Operation.DIVIDE])
@given(number=decimals)
def test_moving_digits(power, operation, number):
    working = written_working(asked(operation, number, power, ending=Ending.MOVED), AGREED)
    right = decimal(number) * int(power) if operation is Operation.MULTIPLY else None
    assert decimal(working.answer) == (decimal(number) / int(power) if right is None else right)
    check_point_column(working)


@given(decimals)
def test_rounding_to_tenths_or_ones(number):
    for places in range(min(2, number.places)):
        question = asked(Operation.ROUND, number, places=places)
        working = written_working(question, AGREED)
        to = Decimal(1).scaleb(-places)
        assert decimal(working.answer) == decimal(number).quantize(to, ROUND_HALF_UP)
        check_point_column(working)


@given(st.lists(decimals, min_size=2, max_size=5, unique_by=lambda number: number.value))
def test_ordering_and_comparing(several):
    working = written_working(Question(Operation.ORDER, tuple(several)), AGREED)
    rows = [row_text(working, at + len(several), Ink.ANSWER) for at in range(len(several))]
    assert [Decimal(row.strip()) for row in rows] == sorted(map(decimal, several))
    check_point_column(working)
    first, second = several[:2]
    working = written_working(Question(Operation.COMPARE, (first, second)), AGREED)
    sign = "<" if decimal(first) < decimal(second) else ">"
    assert row_text(working, 2, Ink.ANSWER, Ink.SIGN) == f" {first}{sign}{second}"
    check_points(working)


@given(decimals, st.integers(0, 5))
def test_a_line_of_writing_is_as_wide_as_said(number, start):
    text = f"{number}={number}"
    line = write_line(text, 0, start, Ink.GIVEN, point_column=True)
    taken = [thing.column for thing in (*line.marks, *line.points)]
    assert sorted(taken) == list(range(start, start + line_width(text, point_column=True)))


def test_mistakes_shown_worked_keep_the_point_column():
    question = asked(Operation.ADD, "12.75", "3.48")
    shown = wrong_working(question, mistake_named("carry written but not added"), AGREED)
    usual = wrong_working(question, mistake_named("carry written but not added"))
    assert shown is not None
    assert usual is not None
    assert shown.answer == usual.answer
    check_point_column(shown)
