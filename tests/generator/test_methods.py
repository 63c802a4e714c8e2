"""Written methods: the published examples, and laws that hold for every question."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.working import Ink
from tests.asked import question
from tests.generator import oracle


def work(text: str, conventions: Conventions | None = None) -> Working:
    return written_working(question(text), conventions)


def row(working: Working, inks: set[Ink], at: int) -> str:
    """A row's marks of some inks as text, blanks for empty squares."""
    squares = {m.column: m.text for m in working.marks() if m.row == at and m.ink in inks}
    return "".join(squares.get(column, " ") for column in range(working.columns))


# Department for Education, "National curriculum in England: mathematics programmes of study",
# Appendix 1, DFE-00180-2013, Open Government Licence. The numbers are from memory.
ENGLAND_APPENDIX = [
    ("789 + 642", "1431"),
    ("874 − 523", "351"),
    ("932 − 457", "475"),
]


@pytest.mark.parametrize(("text", "answer"), ENGLAND_APPENDIX)
def test_the_england_appendix(text: str, answer: str) -> None:
    assert str(work(text).answer) == answer


def test_789_plus_642_carries_a_one_to_the_tens_and_to_the_hundreds() -> None:
    working = work("789 + 642")
    assert row(working, {Ink.GIVEN, Ink.SIGN}, 0) == "  789"
    assert row(working, {Ink.GIVEN, Ink.SIGN}, 1) == "+ 642"
    assert row(working, {Ink.ANSWER}, 2) == " 1431"
    assert row(working, {Ink.CARRY}, 3) == "  11 "


def test_874_minus_523_exchanges_nothing() -> None:
    working = work("874 − 523")
    assert not list(working.strikes())
    assert row(working, {Ink.ANSWER}, 3) == " 351"


def test_932_minus_457_exchanges_a_ten_and_a_hundred() -> None:
    working = work("932 − 457")
    assert row(working, {Ink.LEFT}, 0) == " 82 "
    assert {(m.row, m.column) for m in working.marks() if m.ink is Ink.TEN} == {(1, 3), (0, 2)}
    assert {(s.row, s.column) for s in working.strikes()} == {(1, 1), (1, 2)}


def test_carries_stand_between_numbers_and_answer_where_a_school_sets_them_there() -> None:
    """As in Germany: under the last number, over the line (common practice, no source)."""
    working = work("789 + 642", Conventions(carries="between"))
    rows = sorted({mark.row for mark in working.marks() if mark.ink is Ink.CARRY})
    answer = {mark.row for mark in working.marks() if mark.ink is Ink.ANSWER}
    assert (rows, answer, working.rules[0].row, working.rows) == ([2], {3}, 3, 4)


def test_carries_stand_above_where_a_school_sets_them_there() -> None:
    working = work("789 + 642", Conventions(carries="above"))
    assert row(working, {Ink.CARRY}, 0) == "  11 "
    assert row(working, {Ink.ANSWER}, 3) == " 1431"


def test_each_step_says_what_is_done_in_place_value_words() -> None:
    sentences = [step.sentence for step in work("0.275 + 3.4 + 12.64").steps]
    assert sentences == [
        "Set the numbers out with the points in line. Noughts fill the empty places.",
        "The point in the answer stands under the other points.",
        "Only 5 thousandths in this column: write 5.",
        "7 hundredths + 4 hundredths = 11 hundredths = 1 tenth and 1 hundredth: "
        "write 1, carry 1 to the tenths.",
        "2 tenths + 4 tenths + 6 tenths + 1 tenth carried = 13 tenths = 1 one and 3 tenths: "
        "write 3, carry 1 to the ones.",
        "0 ones + 3 ones + 2 ones + 1 one carried = 6 ones: write 6.",
        "Only 1 ten in this column: write 1.",
    ]


def test_an_exchange_through_two_noughts_is_one_step_a_column() -> None:
    steps = work("3.004 − 1.237").steps[2:9]
    assert [step.sentence for step in steps] == [
        "4 thousandths are less than 7 thousandths.",
        "There are no hundredths to exchange: look at the tenths.",
        "There are no tenths to exchange: look at the ones.",
        "Exchange 1 one for 10 tenths: 3 ones become 2 ones, and 0 tenths become 10 tenths.",
        "Exchange 1 tenth for 10 hundredths: 10 tenths become 9 tenths, and 0 hundredths become "
        "10 hundredths.",
        "Exchange 1 hundredth for 10 thousandths: 10 hundredths become 9 hundredths, and "
        "4 thousandths become 14 thousandths.",
        "14 thousandths − 7 thousandths = 7 thousandths: write 7.",
    ]
    assert [set(step.lit) for step in steps] == [  # what a step speaks of, and nothing else
        {(1, 4), (2, 4)},
        {(1, 3)},
        {(1, 2)},
        {(1, 1), (0, 1), (1, 2)},
        {(1, 2), (0, 2), (1, 3)},
        {(1, 3), (0, 3), (1, 4)},
        set(),
    ]


@pytest.mark.parametrize(
    ("text", "written", "kept"),
    [
        ("1.25 + 0.75", "2.00", "2"),
        ("5 − 0.27", "4.73", "4.73"),
        ("10.2 − 9.8", "0.4", "0.4"),
        ("6.5 − 6.25", "0.25", "0.25"),
        ("0.6 + 0.7", "1.3", "1.3"),
        ("100000000 − 1", "99999999", "99999999"),
        ("3.4 − 3.40", "0.00", "0"),
    ],
)
def test_answers_are_written_as_the_columns_leave_them(text: str, written: str, kept: str) -> None:
    working = work(text)
    assert (str(working.answer), str(working.answer.trimmed())) == (written, kept)


def test_a_larger_number_cannot_be_taken_away() -> None:
    with pytest.raises(ValueError, match="no answer"):
        work("1.2 − 3.4")


numbers = st.builds(Number, st.integers(0, 10**9 - 1), st.integers(0, 6))
conventions = st.builds(Conventions, st.sampled_from(["below", "above", "between"]), st.booleans())


@given(st.lists(numbers, min_size=2, max_size=6).map(tuple), conventions)
def test_every_addition_agrees_with_decimal_digit_by_digit(
    many: tuple[Number, ...], agreed: Conventions
) -> None:
    working = written_working(Question(Operation.ADD, many), agreed)
    texts = [str(number) for number in many]
    assert Decimal(str(working.answer)) == oracle.answer("add", texts)
    carried = {
        (m.column - working.units_column, int(m.text))
        for m in working.marks()
        if m.ink is Ink.CARRY
    }
    top = max(len(text.partition(".")[0]) for text in texts) - 1
    expected = {
        (-(place + 1), amount)
        for place, amount in oracle.add(texts).transfers.items()
        if place < top  # the last column's ten is written straight into the answer
    }
    assert carried == expected


@given(numbers, numbers, conventions)
def test_every_subtraction_agrees_with_decimal_exchange_by_exchange(
    one: Number, other: Number, agreed: Conventions
) -> None:
    first, second = (one, other) if one.value >= other.value else (other, one)
    working = written_working(Question(Operation.SUBTRACT, (first, second)), agreed)
    texts = [str(first), str(second)]
    assert Decimal(str(working.answer)) == oracle.answer("subtract", texts)
    received = {m.column for m in working.marks() if m.ink is Ink.TEN}
    expected = oracle.subtract(texts).transfers
    assert received == {working.units_column - place for place in expected}
    assert len(list(working.strikes())) == len(expected)


@given(st.lists(numbers, min_size=2, max_size=6).map(tuple), conventions)
def test_no_two_marks_share_a_square_but_a_ten_and_what_it_is_added_to(
    many: tuple[Number, ...], agreed: Conventions
) -> None:
    ordered = sorted(many, key=lambda number: number.value, reverse=True)
    for asked in (
        Question(Operation.ADD, many),
        Question(Operation.SUBTRACT, tuple(ordered[:2])),
    ):
        working = written_working(asked, agreed)
        squares = [(m.row, m.column) for m in working.marks() if m.ink is not Ink.TEN]
        assert len(squares) == len(set(squares))
        assert all(
            0 <= m.row < working.rows and 0 <= m.column < working.columns for m in working.marks()
        )


@pytest.mark.parametrize("text", ["5.37 − 2.1", "2.1 − 1.37", "5.37 + 2.1", "5.3 − 2.1"])
@pytest.mark.parametrize("subtraction", ["exchange", "equal addition"])
@pytest.mark.parametrize("placeholders", [True, False])
def test_noughts_are_spoken_of_where_they_are_written(
    text: str, subtraction: str, placeholders: bool
) -> None:
    working = work(text, Conventions(placeholders=placeholders, subtraction=subtraction))
    spoken = any("Noughts fill" in step.sentence for step in working.steps)
    assert spoken is any(mark.ink is Ink.PLACEHOLDER for mark in working.marks())
