"""Short division: published examples, spoken steps, every ending, laws."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.quotients.division import short_division
from generator.operations.working import SMALL_MARKS, Ink, Rule, Upright
from tests.asked import question


def work(text: str, ending: Ending = Ending.EXACT, places: int = 0) -> Working:
    return written_working(question(text, ending, places))


def row(working: Working, at: int, *inks: Ink) -> str:
    """A row's marks of some inks (all but small ones when none is named), a blank for no mark."""
    squares = {
        mark.column: mark.text
        for mark in working.marks()
        if mark.row == at and (mark.ink in inks if inks else mark.ink not in SMALL_MARKS)
    }
    return "".join(squares.get(column, " ") for column in range(working.columns))


def carried_on(working: Working) -> dict[int, str]:
    """The small remainders by place."""
    return {
        working.units_column - mark.column: mark.text
        for mark in working.marks()
        if mark.ink is Ink.CARRIED_ON
    }


def sentences(text: str, ending: Ending = Ending.EXACT, places: int = 0) -> list[str]:
    return [step.sentence for step in work(text, ending, places).steps]


# Department for Education, "National curriculum in England: mathematics programmes of study",
# Appendix 1, DFE-00180-2013, Open Government Licence. The numbers are from memory. The
# appendix divides 432 by 15 by long division; its answers are the same.
ENGLAND_APPENDIX = [
    ("98 ÷ 7", Ending.EXACT, "14", {0: "2"}),
    ("432 ÷ 5", Ending.REMAINDER, "86 r 2", {0: "3"}),
    ("496 ÷ 11", Ending.REMAINDER, "45 r 1", {0: "5"}),
    ("432 ÷ 15", Ending.REMAINDER, "28 r 12", {0: "13"}),
    ("432 ÷ 15", Ending.FRACTION, "28 4/5", {0: "13"}),
    ("432 ÷ 15", Ending.DECIMAL, "28.8", {0: "13", -1: "12"}),
]


@pytest.mark.parametrize(("text", "ending", "answer", "carried"), ENGLAND_APPENDIX)
def test_the_england_appendix(text, ending, answer, carried):
    asked, working = question(text, ending), work(text, ending)
    assert asked.answer_text == answer
    assert working.agrees_with(asked)
    assert carried_on(working) == carried


def test_the_half_box_stands_about_the_dividend():
    working = work("432 ÷ 5", Ending.REMAINDER)
    assert row(working, 0) == "  86r2"
    assert row(working, 1) == "5432  "
    assert working.rules == (Rule(1, 1, 3),)
    assert working.uprights == (Upright(1, 1, 1),)


def test_an_exact_division_spoken_in_full():
    assert sentences("98 ÷ 7") == [
        "Set the division out: 98 inside, 7 outside.",
        "9 tens ÷ 7 = 1 ten, 2 tens left over: write 1, carry 2 to the ones. "
        "2 tens and 8 ones are 28 ones.",
        "28 ones ÷ 7 = 4 ones: write 4.",
    ]


def test_a_division_with_a_remainder_spoken_in_full():
    assert sentences("432 ÷ 5", Ending.REMAINDER) == [
        "Set the division out: 432 inside, 5 outside.",
        "4 hundreds are less than 5 hundreds: no hundreds in the answer. "
        "4 hundreds and 3 tens are 43 tens.",
        "43 tens ÷ 5 = 8 tens, 3 tens left over: write 8, carry 3 to the ones. "
        "3 tens and 2 ones are 32 ones.",
        "32 ones ÷ 5 = 6 ones, 2 ones left over: write 6.",
        "2 ones are left over. Write remainder 2.",
    ]


@pytest.mark.parametrize("way", ["short", "long", "chunking"])
def test_no_nought_stands_before_a_fraction(way):
    """3 ÷ 5 is 3/5, not 0 3/5; common practice, no source."""
    asked = Question(Operation.DIVIDE, (Number(3), Number(5)), Ending.FRACTION)
    working = written_working(asked, Conventions(division=way))
    written = [mark.text for mark in working.marks() if mark.ink is not Ink.GIVEN]
    assert written == ["3", "5"]
    assert working.agrees_with(asked)


def test_a_remainder_as_a_fraction_is_put_in_its_lowest_terms():
    last = work("432 ÷ 15", Ending.FRACTION).steps[-1]
    assert last.sentence == "12 ones are left over: 12 ÷ 15 = 12/15 = 4/5. Write 4/5."
    assert [(m.text, m.ink) for m in last.marks] == [
        ("4", Ink.NUMERATOR),
        ("5", Ink.DENOMINATOR),
    ]


def test_a_remainder_carried_on_into_decimal_places():
    assert sentences("9 ÷ 4", Ending.DECIMAL)[2:] == [
        "1 one left over. Write a point after the ones, below and above.",
        "Write a nought in the tenths: 1 one becomes 10 tenths.",
        "10 tenths ÷ 4 = 2 tenths, 2 tenths left over: write 2.",
        "Write a nought in the hundredths: 2 tenths become 20 hundredths.",
        "20 hundredths ÷ 4 = 5 hundredths: write 5.",
    ]
    working = work("9 ÷ 4", Ending.DECIMAL)
    assert row(working, 1, Ink.PLACEHOLDER) == "  00"
    assert {(p.row, p.column) for p in working.points()} == {(0, 1), (1, 1)}


@pytest.mark.parametrize(
    ("text", "places", "worked", "answer", "last"),
    [
        (
            "20 ÷ 3",
            2,
            "6666",
            "6.67",
            "The thousandths digit is 6: 5 or more, so round up. "
            "To 2 decimal places, the answer is 6.67.",
        ),
        (
            "100 ÷ 7",
            0,
            "142",
            "14",
            "The tenths digit is 2: less than 5, so the last digit kept stays as it is. "
            "To the nearest whole number, the answer is 14.",
        ),
        (
            "69.97 ÷ 7",
            2,
            "9995",
            "10.00",
            "The thousandths digit is 5: 5 or more, so round up. "
            "To 2 decimal places, the answer is 10.00.",
        ),
        (
            "5.2 ÷ 4",
            1,
            "130",
            "1.3",
            "The hundredths digit is 0: less than 5, so the last digit kept stays as it is. "
            "To 1 decimal place, the answer is 1.3.",
        ),
    ],
)
def test_a_rounded_quotient_is_worked_one_place_further(text, places, worked, answer, last):
    working = work(text, Ending.ROUNDED, places)
    assert row(working, 0, Ink.PARTIAL).strip() == worked
    assert str(working.answer) == answer
    assert working.steps[-1].sentence == last
    assert question(text, Ending.ROUNDED, places).answer_text == answer


def test_a_decimal_divisor_is_made_a_whole_number_first():
    assert sentences("8.4 ÷ 0.4") == [
        "The divisor is a decimal: make it a whole number first.",
        "Multiply both numbers by 10, and the answer stays the same: 8.4 ÷ 0.4 = 84 ÷ 4.",
        "Set the division out: 84 inside, 4 outside.",
        "8 tens ÷ 4 = 2 tens: write 2.",
        "4 ones ÷ 4 = 1 one: write 1.",
    ]
    working = work("8.4 ÷ 0.4")
    assert row(working, 0) == "84÷04=84÷4"
    assert [row(working, at).rstrip() for at in (1, 2, 3)] == ["", " 21", "484"]


@pytest.mark.parametrize(
    ("text", "scaled"),
    [
        ("6 ÷ 0.04", "600 ÷ 4"),
        ("0.75 ÷ 0.3", "7.5 ÷ 3"),
        ("1.44 ÷ 1.2", "14.4 ÷ 12"),
        ("3.6 ÷ 0.12", "360 ÷ 12"),
    ],
)
def test_both_numbers_are_made_as_many_times_larger(text, scaled):
    assert sentences(text)[1].endswith(f"{text} = {scaled}.")


def test_a_remainder_after_scaling_is_made_smaller_again():
    working = work("8.5 ÷ 0.4", Ending.REMAINDER)
    assert working.steps[-1].sentence == (
        "1 one is left over from a number multiplied by 10: 1 ÷ 10 = 0.1. Write remainder 0.1."
    )
    assert str(working.remainder) == "0.1"


def test_digits_below_the_ones_belong_to_the_remainder():
    working = work("7.5 ÷ 2", Ending.REMAINDER)
    assert (str(working.answer), str(working.remainder)) == ("3", "1.5")
    assert question("7.5 ÷ 2", Ending.FRACTION).answer_text == "3 3/4"


def test_noughts_inside_the_quotient_are_written():
    assert sentences("612 ÷ 6")[1:] == [
        "6 hundreds ÷ 6 = 1 hundred: write 1.",
        "1 ten is less than 6 tens: write 0, carry 1 to the ones. 1 ten and 2 ones are 12 ones.",
        "12 ones ÷ 6 = 2 ones: write 2.",
    ]
    assert sentences("8012 ÷ 4")[2] == "0 hundreds ÷ 4 = 0 hundreds: write 0."


def test_a_decimal_dividend_has_its_point_below_the_quotients():
    assert sentences("0.042 ÷ 6")[1:] == [
        "0 ones ÷ 6 = 0 ones: write 0.",
        "The point in the answer stands above the point in the dividend.",
        "0 tenths ÷ 6 = 0 tenths: write 0.",
        "4 hundredths are less than 6 hundredths: write 0, carry 4 to the thousandths. "
        "4 hundredths and 2 thousandths are 42 thousandths.",
        "42 thousandths ÷ 6 = 7 thousandths: write 7.",
    ]


def test_a_two_digit_divisor_says_the_multiple_and_carries_two_digits():
    working = work("3224 ÷ 26")
    assert carried_on(working) == {1: "6", 0: "10"}
    assert working.steps[3].sentence == (
        "62 tens ÷ 26 = 2 tens (2 × 26 = 52), 10 tens left over: write 2, carry 10 to the ones. "
        "10 tens and 4 ones are 104 ones."
    )


@pytest.mark.parametrize(
    ("text", "ending", "answer"),
    [
        ("3 ÷ 5", Ending.REMAINDER, "0 r 3"),
        ("3 ÷ 5", Ending.FRACTION, "3/5"),
        ("35 ÷ 5", Ending.REMAINDER, "7"),
        ("35 ÷ 5", Ending.FRACTION, "7"),
        ("0 ÷ 5", Ending.FRACTION, "0"),
        ("1 ÷ 8", Ending.DECIMAL, "0.125"),
        ("1 ÷ 128", Ending.DECIMAL, "0.0078125"),
        ("8.40 ÷ 0.4", Ending.EXACT, "21"),
    ],
)
def test_answers_at_the_edges(text, ending, answer):
    asked = question(text, ending)
    assert asked.answer_text == answer
    assert written_working(asked).agrees_with(asked)


def test_no_number_is_divided_by_nought():
    with pytest.raises(ValueError, match="nought"):
        work("3 ÷ 0.0")


def test_a_quotient_that_never_ends_is_refused():
    with pytest.raises(ValueError, match="never ends"):
        work("1 ÷ 3", Ending.DECIMAL)


numbers = st.builds(Number, st.integers(0, 99999), st.integers(0, 3))
divisors = st.builds(Number, st.integers(1, 99), st.integers(0, 2))


@st.composite
def divisions(draw) -> Question:
    ending = draw(st.sampled_from([ending for ending in Ending if ending is not Ending.MOVED]))
    dividend, divisor = draw(numbers), draw(divisors)
    if ending in (Ending.EXACT, Ending.DECIMAL):
        quotient = draw(st.builds(Number, st.integers(0, 9999), st.integers(0, 2)))
        dividend = Number(quotient.units * divisor.units, quotient.places + divisor.places)
    places = draw(st.integers(0, 4)) if ending is Ending.ROUNDED else 0
    return Question(Operation.DIVIDE, (dividend, divisor), ending, places)


@given(divisions())
def test_every_division_agrees_with_fractions(asked):
    working = written_working(asked)
    dividend, divisor = (Fraction(str(number)) for number in asked.operands)
    quotient = Fraction(str(working.answer))
    assert working.agrees_with(asked)
    if asked.ending is Ending.ROUNDED:
        step = Decimal(1).scaleb(-asked.places)
        exact = Decimal(dividend.numerator * divisor.denominator) / Decimal(
            dividend.denominator * divisor.numerator
        )
        # Decimal's 28 digits are more than enough: a tie has few digits of its own.
        assert Decimal(str(working.answer)) == exact.quantize(step, ROUND_HALF_UP)
        return
    left = Fraction(str(working.remainder or 0))
    assert dividend == divisor * quotient + left
    assert 0 <= left < divisor


@given(divisions())
def test_every_mark_has_a_square_of_its_own_inside_the_frame(asked):
    working = written_working(asked)
    squares = [(m.row, m.column) for m in working.marks() if m.ink not in SMALL_MARKS]
    assert len(squares) == len(set(squares))
    for thing in (*working.marks(), *working.points()):
        assert 0 <= thing.row < working.rows
        assert 0 <= thing.column < working.columns


@given(divisions())
def test_small_remainders_are_those_of_plain_whole_number_division(asked):
    """Each small number is the dividend down to its column, modulo the divisor."""
    working = written_working(asked)
    assume(asked.operands[1].places == 0)
    dividend, divisor = (Fraction(str(number)) for number in asked.operands)
    for place, text in carried_on(working).items():
        down_to_here = dividend // Fraction(10) ** (place + 1)
        assert int(text) == down_to_here % int(divisor) != 0


@given(divisions())
def test_lines_grow_with_the_dividend_and_never_before_it(asked):
    working = written_working(asked)
    covered: set[int] = set()
    for steps in range(1, len(working.steps) + 1):
        lines = working.rules_drawn(steps)
        covered = {c for rule in lines for c in range(rule.start, rule.end + 1)}
    inside = {
        mark.column
        for mark in working.marks()
        if mark.row == working.rows - 1
        and mark.ink in (Ink.GIVEN, Ink.PLACEHOLDER)
        and mark.column >= working.uprights_drawn()[0].column
    }
    assert covered == inside


@pytest.mark.parametrize(
    ("text", "ending", "places", "quotient", "left", "last"),
    [
        ("432 ÷ 5", Ending.REMAINDER, 0, "  80r2", 2, "2 ones are left over. Write remainder 2."),
        ("975 ÷ 4", Ending.EXACT, 0, " 211r1", 1, "1 one is left over. Write remainder 1."),
        ("974 ÷ 4", Ending.EXACT, 0, " 211", 0, "4 ones ÷ 4 = 1 one: write 1."),
        ("975 ÷ 4", Ending.DECIMAL, 2, " 211", 0, "5 ones ÷ 4 = 1 one, 1 one left over: write 1."),
        ("97.6 ÷ 4", Ending.EXACT, 0, " 211", 0,
         "6 tenths ÷ 4 = 1 tenth, 2 tenths left over: write 1."),
        ("972 ÷ 7", Ending.ROUNDED, 1, " 110", 0, "2 ones are less than 7 ones: write 0."),
    ],
)  # fmt: skip
def test_a_division_that_hands_nothing_on_loses_what_each_digit_leaves(
    text: str, ending: Ending, places: int, quotient: str, left: int, last: str
) -> None:
    """A mistake: what is left at the very end stands as a remainder where there can be one."""
    working = short_division(question(text, ending, places), Conventions(), hands_on=False)
    assert row(working, 0).rstrip() == quotient
    assert working.remainder == Number(left)
    assert working.steps[-1].sentence == last
