"""Multiplication through whole numbers: published examples, spoken steps, laws."""

from decimal import Decimal
from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.products.multiplication import multiplication
from generator.operations.products.whole_product import Manner
from generator.operations.working import SMALL_MARKS, Ink
from tests.asked import question


def work(text: str, conventions: Conventions | None = None) -> Working:
    return written_working(question(text), conventions)


def row(working: Working, at: int, *inks: Ink) -> str:
    """A row's marks of some inks (all but small ones when none is named), a blank for no mark."""
    squares = {
        mark.column: mark.text
        for mark in working.marks()
        if mark.row == at and (mark.ink in inks if inks else mark.ink not in SMALL_MARKS)
    }
    return "".join(squares.get(column, " ") for column in range(working.columns))


def sentences(text: str) -> list[str]:
    return [step.sentence for step in work(text).steps]


# Department for Education, "National curriculum in England: mathematics programmes of study",
# Appendix 1, DFE-00180-2013, Open Government Licence. The numbers are from memory; where
# small carried digits stand varies with the method used, as the appendix says.


@pytest.mark.parametrize(
    ("text", "product", "carried"),
    [
        ("24 × 6", " 144", "  2 "),
        ("342 × 7", " 2394", "  21 "),
        ("2741 × 6", " 16446", "  42  "),
    ],
)
def test_short_multiplication_in_the_england_appendix(text, product, carried):
    working = work(text)
    assert row(working, 2, Ink.ANSWER) == product
    assert row(working, 3, Ink.CARRY) == carried


@pytest.mark.parametrize(
    ("text", "rows", "answer"),
    [("24 × 16", ["  144", "  240"], "384"), ("124 × 26", ["   744", "  2480"], "3224")],
)
def test_long_multiplication_in_the_england_appendix(text, rows, answer):
    working = work(text)
    assert [row(working, at) for at in (2, 3)] == rows
    assert row(working, 4, Ink.ANSWER).strip() == answer == str(working.answer)


def test_124_times_26_carries_small_digits_in_its_rows_and_in_its_sum():
    working = work("124 × 26")
    assert row(working, 2, Ink.CORNER) == "   12 "
    assert row(working, 3, Ink.CORNER).strip() == ""
    assert row(working, 3, Ink.PLACEHOLDER) == "     0"
    assert row(working, 5, Ink.CARRY) == "  11  "


def test_carries_stand_above_where_a_school_sets_them_there():
    working = work("342 × 7", Conventions(carries="above"))
    assert row(working, 0, Ink.CARRY) == "  21 "
    assert row(working, 3, Ink.ANSWER) == " 2394"
    working = work("124 × 26", Conventions(carries="above"))
    assert row(working, 2, Ink.CARRY) == "  11  "


# 0.6 × 0.07 through 6 × 7 and 10 × 100 = 1000: common practice, no source.


def test_each_power_of_ten_is_stated_and_the_digits_move_to_their_columns():
    assert sentences("0.6 × 0.07") == [
        "Multiply whole numbers first, then move the digits to their columns.",
        "0.6 is 6 ÷ 10.",
        "0.07 is 7 ÷ 100.",
        "10 × 100 = 1000: divide the whole-number answer by 1000.",
        "Multiply the whole numbers: 6 × 7 = 42.",
        "42 ÷ 1000: 42 ones become 42 thousandths, so 0.042.",
    ]


def test_the_answers_digits_stand_as_many_columns_to_the_right_as_the_power_has_noughts():
    working = work("0.6 × 0.07")
    *_, product, answer = (row(working, at) for at in range(working.rows))
    assert product.rstrip() == "6×7=42"
    assert answer == "     0042  "
    assert answer.index("42") - product.index("42") == 3
    assert {p.column for p in working.points() if p.ink is Ink.ANSWER} == {working.units_column}


def test_noughts_at_the_end_of_the_answer_are_crossed_out_and_both_forms_are_said():
    working = work("0.5 × 0.04")
    assert (str(working.answer), str(working.answer.trimmed())) == ("0.020", "0.02")
    assert working.steps[-1].sentence == "The nought at the end is not needed: 0.020 = 0.02."
    (strike,) = working.strikes()
    (last,) = (m for m in working.steps[-2].marks if m.column == strike.column)
    assert (last.text, last.row) == ("0", strike.row)


def test_noughts_at_the_end_of_a_whole_number_are_left_aside_and_put_back():
    assert sentences("40 × 0.3") == [
        "Multiply whole numbers first, then move the digits to their columns.",
        "0.3 is 3 ÷ 10.",
        "Multiply the whole numbers: 4 × 3 = 12.",
        "Put the nought back. 12 × 10: 12 ones become 12 tens, so 120.",
        "120 ÷ 10: 120 ones become 120 tenths, so 12.0.",
        "The nought at the end is not needed: 12.0 = 12.",
    ]


def test_a_short_multiplication_spoken_in_full():
    assert sentences("3.42 × 7") == [
        "Multiply whole numbers first, then move the digits to their columns.",
        "3.42 is 342 ÷ 100.",
        "Set out 342 × 7: the digit under the ones.",
        "7 × 2 ones = 14 ones = 1 ten and 4 ones: write 4, carry 1 to the tens.",
        "7 × 4 tens = 28 tens; with 1 ten carried, 29 tens = 2 hundreds and 9 tens: "
        "write 9, carry 2 to the hundreds.",
        "7 × 3 hundreds = 21 hundreds; with 2 hundreds carried, 23 hundreds = "
        "2 thousands and 3 hundreds: write 23.",
        "2394 ÷ 100: 2394 ones become 2394 hundredths, so 23.94.",
    ]


def test_a_long_multiplication_spoken_in_full():
    assert sentences("24 × 16") == [
        "Set out 24 × 16. Multiply by the 6 ones, then by the 1 ten.",
        "6 × 4 ones = 24 ones = 2 tens and 4 ones: write 4, carry 2 to the tens.",
        "6 × 2 tens = 12 tens; with 2 tens carried, 14 tens = 1 hundred and 4 tens: write 14.",
        "Now the 1 ten. Begin the row with a nought: no ones.",
        "1 ten × 4 ones = 4 tens: write 4.",
        "1 ten × 2 tens = 2 hundreds: write 2.",
        "Add the 2 rows.",
        "4 ones + 0 ones = 4 ones: write 4.",
        "4 tens + 4 tens = 8 tens: write 8.",
        "1 hundred + 2 hundreds = 3 hundreds: write 3.",
    ]


def test_three_numbers_are_multiplied_two_and_then_the_third():
    working = work("0.3 × 0.4 × 2.5")
    assert str(working.answer) == "0.300"
    lines = [row(working, at).strip() for at in range(working.rows)]
    assert lines[5:8] == ["3×4=12", "12", "×  25"]


def test_a_product_in_between_leaves_its_noughts_aside_too():
    assert sentences("5 × 4 × 7")[1:] == [
        "Multiply the whole numbers: 5 × 4 = 20.",
        "Leave the nought of 20 aside. Multiply the whole numbers: 2 × 7 = 14.",
        "Put the nought back. 14 × 10: 14 ones become 14 tens, so 140.",
    ]


def test_a_nought_inside_the_multiplier_has_no_row():
    working = work("124 × 206")
    assert [row(working, at).strip() for at in (2, 3, 4)] == ["744", "24800", "25544"]


def test_two_digits_by_heart_need_no_columns():
    working = work("6 × 7")
    assert row(working, 0) == "6×7=42"
    assert row(working, 0, Ink.ANSWER) == "    42"


@pytest.mark.parametrize("text", ["0.3 × 0", "0 × 24", "0.00 × 1.5", "1 × 1", "0.1 × 0.1"])
def test_noughts_and_ones(text):
    assert Decimal(str(work(text).answer)) == prod(map(Decimal, text.split(" × ")))


def test_four_factors_are_refused():
    with pytest.raises(ValueError, match="two or three"):
        work("1 × 2 × 3 × 4")


factors = st.builds(Number, st.integers(0, 9999), st.integers(0, 3))
questions = st.lists(factors, min_size=2, max_size=3).map(
    lambda many: Question(Operation.MULTIPLY, tuple(many))
)
conventions = st.builds(Conventions, st.sampled_from(["below", "above", "between"]))


@given(questions, conventions)
def test_every_product_agrees_with_decimal_and_places_add_up(asked, agreed):
    working = written_working(asked, agreed)
    assert Decimal(str(working.answer)) == prod(Decimal(str(n)) for n in asked.operands)
    assert working.answer.places == sum(number.places for number in asked.operands)
    assert working.agrees_with(asked)


@given(questions, conventions)
def test_every_mark_has_a_square_of_its_own_inside_the_frame(asked, agreed):
    working = written_working(asked, agreed)
    squares = [(m.row, m.column) for m in working.marks() if m.ink not in SMALL_MARKS]
    assert len(squares) == len(set(squares))
    for thing in (*working.marks(), *working.points()):
        assert 0 <= thing.row < working.rows
        assert 0 <= thing.column < working.columns
    for rule in working.rules_drawn():
        assert 0 <= rule.row <= working.rows
        assert 0 <= rule.start <= rule.end < working.columns


@given(questions)
def test_both_forms_are_said_just_where_they_differ(asked):
    working = written_working(asked)
    shorter = working.answer.trimmed()
    said = working.steps[-1].sentence.endswith(f"needed: {working.answer} = {shorter}.")
    assert said == (working.answer != shorter)


@given(st.integers(2, 999), st.integers(2, 99))
def test_the_room_for_a_product_does_not_tell_its_length(first, second):
    """Two questions with as many digits take as many columns, carries or no."""
    if first % 10 and second % 10 and max(first, second) > 9:
        working = work(f"{first} × {second}")
        assert working.columns == 1 + len(str(first)) + len(str(second))


def test_rows_that_are_not_moved_stand_right_under_one_another() -> None:
    """A mistake: 124 × 26 = 744 + 248 = 992, with no nought before the tens."""
    working = multiplication(question("124 × 26"), Conventions(), Manner(moves_rows=False))
    rows = [row(working, at).strip() for at in range(working.rows)]
    assert rows[2:4] == ["744", "248"]
    assert working.answer == Number(992)
    said = [step.sentence for step in working.steps if step.sentence.startswith("Here")]
    assert said[:3] == [
        "Here 4 is written and 2 carried.",
        "Here 4 is written and 1 carried.",
        "Here 7 is written.",
    ]


def test_a_product_of_just_tens_is_carried_with_a_nought_written() -> None:
    assert [step.sentence for step in work("25 × 4").steps][1:] == [
        "4 × 5 ones = 20 ones = 2 tens and 0 ones: write 0, carry 2 to the tens.",
        "4 × 2 tens = 8 tens; with 2 tens carried, 10 tens = 1 hundred and 0 tens: write 10.",
    ]
