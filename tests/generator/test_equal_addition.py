"""Subtraction by equal addition, the option beside exchange."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.working import SMALL_MARKS, Ink

AGREED = Conventions(subtraction="equal addition")


def work(text: str, agreed: Conventions = AGREED) -> Working:
    operands = tuple(map(Number.parse, text.split(" − ")))
    return written_working(Question(Operation.SUBTRACT, operands), agreed)


def places(working: Working, ink: Ink) -> set[tuple[int, int]]:
    """(row, place) of an ink's marks."""
    return {
        (mark.row, working.units_column - mark.column)
        for mark in working.marks()
        if mark.ink is ink
    }


# Department for Education, "National curriculum in England: mathematics programmes of study",
# Appendix 1, DFE-00180-2013, Open Government Licence: 932 − 457 both ways. From memory.


def test_932_minus_457_both_ways_in_the_england_appendix():
    by_exchange, by_addition = work("932 − 457", Conventions()), work("932 − 457")
    assert str(by_exchange.answer) == str(by_addition.answer) == "475"
    assert places(by_addition, Ink.TEN) == {(0, 0), (0, 1)}
    assert places(by_addition, Ink.ADDED) == {(1, 1), (1, 2)}
    assert not list(by_addition.strikes())


def test_932_minus_457_spoken_in_full():
    assert [step.sentence for step in work("932 − 457").steps] == [
        "Set the numbers out: ones under ones, the number to subtract below.",
        "2 ones are less than 7 ones. Add 10 ones above and 1 ten below: 2 ones become 12 ones, "
        "and 5 tens become 6 tens.",
        "12 ones − 7 ones = 5 ones: write 5.",
        "3 tens are less than 6 tens. Add 10 tens above and 1 hundred below: 3 tens become "
        "13 tens, and 4 hundreds become 5 hundreds.",
        "13 tens − 6 tens = 7 tens: write 7.",
        "9 hundreds − 5 hundreds = 4 hundreds: write 4.",
    ]


def test_noughts_need_no_passing_through():
    working = work("3.004 − 1.237")
    assert places(working, Ink.TEN) == {(0, -3), (0, -2), (0, -1)}
    assert places(working, Ink.ADDED) == {(1, -2), (1, -1), (1, 0)}


def test_a_one_is_added_below_where_no_digit_stands():
    working = work("100 − 7")
    assert places(working, Ink.ADDED) == {(1, 1), (1, 2)}
    assert str(working.answer) == "93"


numbers = st.builds(Number, st.integers(0, 10**9 - 1), st.integers(0, 6))


@given(numbers, numbers, st.booleans())
def test_every_subtraction_agrees_with_decimal_and_with_exchange(one, other, placeholders):
    first, second = (one, other) if one.value >= other.value else (other, one)
    asked = Question(Operation.SUBTRACT, (first, second))
    agreed = Conventions(placeholders=placeholders, subtraction="equal addition")
    working = written_working(asked, agreed)
    assert Decimal(str(working.answer)) == Decimal(str(first)) - Decimal(str(second))
    assert working.answer == written_working(asked).answer
    squares = [(m.row, m.column) for m in working.marks() if m.ink not in SMALL_MARKS]
    assert len(squares) == len(set(squares))
    assert all(
        0 <= m.row < working.rows and 0 <= m.column < working.columns for m in working.marks()
    )
