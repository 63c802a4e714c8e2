"""The room that each written method takes: rows, columns, the ones' column, and its lines.

A line is (row, first column, last column), along the top of the row: an answer stands between
two of them, and they reach from the sign to the last digit. Rows hold what is written, and one
for carried digits whether or not there are any, since the room must not tell.
"""

from dataclasses import replace

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.spoken import amount, column_name
from tests.asked import question

USUAL = Conventions()
ABOVE = Conventions(carries="above")
ADDING = Conventions(subtraction="equal addition")


def work(text: str, conventions: Conventions = USUAL, ending: Ending = Ending.EXACT) -> Working:
    return written_working(question(text, ending), conventions)


ROOM = [
    ("789 + 642", USUAL, (4, 5, 4), [(2, 0, 4), (3, 0, 4)]),
    ("789 + 642", ABOVE, (4, 5, 4), [(3, 0, 4), (4, 0, 4)]),
    ("123 + 456", USUAL, (4, 4, 3), [(2, 0, 3), (3, 0, 3)]),
    ("0.9 + 0.75", USUAL, (4, 4, 1), [(2, 0, 3), (3, 0, 3)]),
    ("932 − 457", USUAL, (4, 4, 3), [(3, 0, 3), (4, 0, 3)]),
    ("9.32 − 4.5", USUAL, (4, 4, 1), [(3, 0, 3), (4, 0, 3)]),
    ("932 − 457", ADDING, (3, 4, 3), [(2, 0, 3), (3, 0, 3)]),
    ("9.32 − 4.5", ADDING, (3, 4, 1), [(2, 0, 3), (3, 0, 3)]),
    ("342 × 7", USUAL, (4, 5, 4), [(2, 0, 4), (3, 0, 4)]),
    ("342 × 7", ABOVE, (4, 5, 4), [(3, 0, 4), (4, 0, 4)]),
    ("124 × 26", USUAL, (6, 6, 5), [(2, 0, 5), (4, 0, 5), (5, 0, 5)]),
    ("124 × 26", ABOVE, (6, 6, 5), [(2, 0, 5), (5, 0, 5), (6, 0, 5)]),
    ("6 × 7", USUAL, (1, 6, 5), []),
    ("60 × 70", USUAL, (3, 6, 5), []),
    ("2 × 3 × 4", USUAL, (3, 6, 5), []),
    ("3.42 × 7", USUAL, (7, 11, 4), [(4, 0, 4), (5, 0, 4)]),
    ("1.2 × 3.4", USUAL, (11, 9, 4), [(6, 0, 4), (8, 0, 4), (9, 0, 4)]),
    ("1.2 × 3.4", ABOVE, (11, 9, 4), [(6, 0, 4), (9, 0, 4), (10, 0, 4)]),
    ("1.2 × 30", USUAL, (8, 8, 3), [(4, 0, 3), (5, 0, 3)]),
    ("408 ÷ 2", USUAL, (2, 4, 3), [(1, 1, 3)]),
    ("4.08 ÷ 0.2", USUAL, (4, 12, 2), [(3, 1, 3)]),
]


@pytest.mark.parametrize(("text", "conventions", "room", "lines"), ROOM)
def test_the_room_and_the_lines(
    text: str,
    conventions: Conventions,
    room: tuple[int, int, int],
    lines: list[tuple[int, int, int]],
) -> None:
    working = work(text, conventions)
    assert (working.rows, working.columns, working.units_column) == room
    assert [(rule.row, rule.start, rule.end) for rule in working.rules_drawn()] == lines


@pytest.mark.parametrize(
    ("text", "conventions", "rows"),
    [
        ("3.42 × 7", USUAL, {(2, 5)}),
        ("1.2 × 3.4", USUAL, {(4, 9)}),
        ("1.2 × 3.4", ABOVE, {(4, 9)}),
        ("2 × 3 × 4", USUAL, {(1, 1), (2, 2)}),
        ("12 × 13 × 3", USUAL, {(1, 6), (7, 10)}),
        ("432 ÷ 8", USUAL, {(0, 1)}),
        ("4.08 ÷ 0.2", USUAL, {(2, 3)}),
    ],
)
def test_the_rows_in_play(text: str, conventions: Conventions, rows: set[tuple[int, int]]) -> None:
    """Within a longer working, each step names the rows of its part."""
    assert {step.rows for step in work(text, conventions).steps if step.rows} == rows


DIFFERENCES = [(a, b) for a in (*range(0, 130, 3), 200, 1000, 1001) for b in range(0, a + 1, 7)]


@pytest.mark.parametrize("conventions", [USUAL, ADDING], ids=["exchange", "equal addition"])
def test_no_nought_is_written_in_front_of_a_difference(conventions: Conventions) -> None:
    for a, b in [*DIFFERENCES, (1000, 991), (1000, 999), (100, 91), (10, 9)]:
        for places in (0, 1):
            numbers = Number(a, places), Number(b, places)
            asked = Question(Operation.SUBTRACT, numbers)
            working = written_working(asked, conventions)
            answers = [m for m in working.marks() if m.ink == "answer"]
            written = "".join(m.text for m in sorted(answers, key=lambda mark: mark.column))
            assert written == str(Number(a - b, places)).replace(".", ""), asked.text


def said(text: str, conventions: Conventions = USUAL, ending: Ending = Ending.EXACT) -> list[str]:
    return [step.sentence for step in work(text, conventions, ending).steps]


IN_LINE = "Set the numbers out with the points in line."
FILLED = f"{IN_LINE} Noughts fill the empty places."
BARE = Conventions(placeholders=False)


@pytest.mark.parametrize(
    ("text", "conventions", "sentence"),
    [
        ("34 + 5", USUAL, "Set the numbers out: ones under ones, tens under tens."),
        ("3.4 + 2.5", USUAL, IN_LINE),
        ("3.4 + 2.55", USUAL, FILLED),
        ("3.4 + 2", USUAL, FILLED),
        ("3.4 + 2.55", BARE, IN_LINE),
        ("3.4 + 2.5", BARE, IN_LINE),
        ("34 − 5", USUAL, "Set the numbers out: ones under ones, the number to subtract below."),
        ("3.4 − 2.5", USUAL, IN_LINE),
        ("3.45 − 2.5", USUAL, FILLED),
        ("3.4 − 2.55", USUAL, f"{FILLED[:-1]}, so that there is something to subtract from."),
    ],
)
def test_what_is_said_of_setting_out(text: str, conventions: Conventions, sentence: str) -> None:
    assert said(text, conventions)[0] == sentence


@pytest.mark.parametrize(
    ("text", "conventions", "noughts"),
    [
        ("3.4 − 2.55", USUAL, 1),
        ("3.4 − 2.55", BARE, 1),
        ("3.45 − 2.5", USUAL, 1),
        ("3.45 − 2.5", BARE, 0),
        ("3.4 − 2.5", USUAL, 0),
        ("3.5 − 0.2555", USUAL, 3),
        ("3.4 + 2.55", USUAL, 1),
        ("3.4 + 2.55", BARE, 0),
    ],
)
@pytest.mark.parametrize("subtraction", ["exchange", "equal addition"])
def test_how_many_empty_places_get_noughts(
    text: str, conventions: Conventions, noughts: int, subtraction: str
) -> None:
    """The number to subtract from gets its noughts always."""
    working = work(text, replace(conventions, subtraction=subtraction))
    assert sum(mark.ink == "placeholder" for mark in working.marks()) == noughts


def test_an_exchange_says_why_and_past_which_noughts_it_goes() -> None:
    assert said("52 − 27")[1].startswith("2 ones are less than 7 ones. ")
    assert said("502 − 127")[1:3] == [
        "2 ones are less than 7 ones.",
        "There are no tens to exchange: look at the hundreds.",
    ]
    assert said("5002 − 1127")[1:4] == [
        "2 ones are less than 7 ones.",
        "There are no tens to exchange: look at the hundreds.",
        "There are no hundreds to exchange: look at the thousands.",
    ]


def test_rows_of_a_long_multiplication_begin_with_noughts() -> None:
    begun = [s for s in said("1234 × 2345") if s.startswith("Now")]
    assert begun == [
        "Now the 4 tens. Begin the row with a nought: no ones.",
        "Now the 3 hundreds. Begin the row with 2 noughts: no ones and no tens.",
        "Now the 2 thousands. Begin the row with 3 noughts: no ones, and so on.",
    ]


def test_a_fact_is_asked_and_known() -> None:
    assert said("6 × 7") == ["What is 6 × 7?", "6 × 7 = 42: you know this by heart."]


def test_beyond_the_twelve_times_table_the_multiple_is_said() -> None:
    assert "14 tens ÷ 12 = 1 ten, " in said("145 ÷ 12", ending=Ending.REMAINDER)[2]
    assert "14 tens ÷ 13 = 1 ten (1 × 13 = 13), " in said("145 ÷ 13", ending=Ending.REMAINDER)[2]


def test_a_working_agrees_only_in_its_answer_and_in_what_is_left_over() -> None:
    asked = question("432 ÷ 5", Ending.REMAINDER)
    working = written_working(asked)
    assert working.agrees_with(asked)
    assert not replace(working, answer=Number(87, 0)).agrees_with(asked)
    assert not replace(working, remainder=Number(3, 0)).agrees_with(asked)


def test_the_sign_stands_beside_the_last_number() -> None:
    for text, row in (("1 + 2", 1), ("1 + 2 + 3", 2), ("1 + 2 + 3 + 4", 3)):
        (sign,) = (mark for mark in work(text).marks() if mark.ink == "sign")
        assert (sign.row, sign.column) == (row, 0)


@pytest.mark.parametrize(
    ("text", "conventions", "rows"),
    [
        ("34 + 5", USUAL, []),
        ("3 + 0.5", USUAL, [0, 1, 2]),
        ("3 + 0.5", BARE, [1, 2]),
        ("34 − 5", USUAL, []),
        ("3 − 0.5", BARE, [1, 2, 3]),
        ("3.5 − 2", USUAL, [1, 2, 3]),
        ("3.5 − 2", BARE, [1, 3]),
    ],
)
def test_rows_that_have_a_point(text: str, conventions: Conventions, rows: list[int]) -> None:
    """A whole number has one where noughts fill its empty places."""
    assert sorted(point.row for point in work(text, conventions).points()) == rows


@pytest.mark.parametrize(
    "text", ["0.9 + 0.75", "9.3 − 4.55", "3.42 × 7", "1.2 × 3.4", "4.08 ÷ 0.2"]
)
def test_a_point_has_a_square_only_where_it_has_a_column(text: str) -> None:
    assert not any(point.in_square for point in work(text).points())
    assert all(point.in_square for point in work(text, Conventions(point="column")).points())


def test_columns_are_headed_from_millions_to_millionths() -> None:
    """Common practice, no source."""
    numbers = Number.parse("1234567.654321"), Number(10, 0)
    asked = Question(Operation.MULTIPLY, numbers, Ending.MOVED)
    heads = [mark for mark in written_working(asked).marks() if mark.ink == "heading"]
    assert [mark.text for mark in sorted(heads, key=lambda mark: mark.column)] == (
        ["M", "HTh", "TTh", "Th", "H", "T", "O", "t", "h", "th", "tth", "hth", "m"]
    )
    assert {mark.row for mark in heads} == {0}
    ones = written_working(asked).units_column
    assert sorted(ones - mark.column for mark in heads) == list(range(-6, 7))


@pytest.mark.parametrize(
    ("place", "name"),
    [
        (12, "million millions"),
        (11, "hundred thousand millions"),
        (10, "ten thousand millions"),
        (-7, "ten-millionths"),
        (-8, "hundred-millionths"),
        (-9, "thousand-millionths"),
        (-10, "ten-thousand-millionths"),
        (-11, "hundred-thousand-millionths"),
        (-12, "million-millionths"),
    ],
)
def test_columns_further_out_than_a_questions_own(place: int, name: str) -> None:
    assert column_name(place) == name
    assert amount(1, place) == f"1 {name[:-1]}"


def test_a_number_is_rounded_in_two_rows() -> None:
    asked = Question(Operation.ROUND, (Number.parse("3.96"),), places=1)
    working = written_working(asked)
    assert working.rows == 2
    for ink, row in (("given", 0), ("answer", 1)):
        assert {mark.row for mark in working.marks() if mark.ink == ink} == {row}
    assert [(rule.row, rule.start, rule.end) for rule in working.rules] == [(1, 0, 3)]
