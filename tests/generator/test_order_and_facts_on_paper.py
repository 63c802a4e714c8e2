"""Rounding, order, moved digits and known facts as they stand on squared paper, and are said.

A row of the paper is written as its squares from the left, the sign's square first; a point is
a character of its own, whether it stands on a grid line or in a square. The room of a working
is its rows, its columns and the column of its ones. Common practice all, no source.
"""

from dataclasses import replace

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.products.known_fact import related_product
from generator.operations.working import Ink

LINE = Conventions()
COLUMN = Conventions(point="column")
BARE = Conventions(placeholders=False)


def numbers(text: str) -> tuple[Number, ...]:
    return tuple(map(Number.parse, text.split(", ")))


def rounded(text: str, places: int) -> Question:
    return Question(Operation.ROUND, numbers(text), places=places)


def ordered(text: str) -> Question:
    return Question(Operation.ORDER, numbers(text))


def compared(text: str) -> Question:
    return Question(Operation.COMPARE, numbers(text))


def moved(text: str) -> Question:
    number, sign, power = text.split(" ")
    operation = Operation.MULTIPLY if sign == "×" else Operation.DIVIDE
    return Question(operation, numbers(f"{number}, {power}"), Ending.MOVED)


def product(text: str) -> Question:
    return Question(Operation.MULTIPLY, numbers(text.replace(" × ", ", ")))


def shared(text: str) -> Question:
    return Question(Operation.DIVIDE, numbers(text.replace(" ÷ ", ", ")), Ending.FRACTION)


def paper(working: Working) -> list[str]:
    squares = {(mark.row, mark.column): mark.text for mark in working.marks()}
    on_lines = {(point.row, point.column) for point in working.points() if not point.in_square}
    squares |= {(point.row, point.column): "." for point in working.points() if point.in_square}
    return [
        "".join(
            squares.get((row, column), " ") + "." * ((row, column) in on_lines)
            for column in range(working.columns)
        ).rstrip()
        for row in range(working.rows)
    ]


def room(working: Working) -> tuple[int, int, int]:
    return working.rows, working.columns, working.units_column


def lines(working: Working) -> list[tuple[int, int, int]]:
    return [(rule.row, rule.start, rule.end) for rule in working.rules_drawn()]


def said(working: Working) -> list[str]:
    return [step.sentence for step in working.steps]


def columns_in_play(working: Working) -> list[int | None]:
    return [step.column for step in working.steps]


def inks(working: Working, row: int) -> set[Ink]:
    return {mark.ink for mark in working.marks() if mark.row == row}


@pytest.mark.parametrize(
    ("text", "places", "conventions", "squares", "written"),
    [
        ("3.42", 1, LINE, (2, 4, 1), [" 3.42", " 3.4"]),
        ("3.42", 1, COLUMN, (2, 5, 1), [" 3.42", " 3.4"]),
        ("3.42", 0, LINE, (2, 4, 1), [" 3.42", " 3"]),
        ("0.04", 1, LINE, (2, 4, 1), [" 0.04", " 0.0"]),
        ("9.96", 1, LINE, (2, 5, 2), ["  9.96", " 10.0"]),
        ("9.96", 1, COLUMN, (2, 6, 2), ["  9.96", " 10.0"]),
        ("999.5", 0, LINE, (2, 6, 4), ["  999.5", " 1000"]),
        ("349", -1, LINE, (2, 4, 3), [" 349", " 350"]),
        ("951", -2, LINE, (2, 5, 4), ["  951", " 1000"]),
        ("3512", -3, LINE, (2, 5, 4), [" 3512", " 4000"]),
    ],
)
def test_a_rounded_number_stands_under_the_number(text, places, conventions, squares, written):
    working = written_working(rounded(text, places), conventions)
    assert room(working) == squares
    assert lines(working) == [(1, 0, squares[1] - 1)]
    assert paper(working) == written
    assert inks(working, 0) == {Ink.GIVEN}
    assert inks(working, 1) == {Ink.ANSWER}


TO_TENTHS = "Round to the tenths: the digit to look at is the next one, the hundredths."


@pytest.mark.parametrize(
    ("text", "places", "sentences"),
    [
        (
            "3.24",
            1,
            [
                TO_TENTHS,
                "The hundredths digit is 4: less than 5, so the 2 tenths stay.",
                "To 1 decimal place, 3.24 is about 3.2.",
            ],
        ),
        (
            "3.11",
            1,
            [
                TO_TENTHS,
                "The hundredths digit is 1: less than 5, so the 1 tenth stays.",
                "To 1 decimal place, 3.11 is about 3.1.",
            ],
        ),
        (
            "3.15",
            1,
            [
                TO_TENTHS,
                "The hundredths digit is 5: 5 or more, so round up. 1 tenth becomes 2 tenths.",
                "To 1 decimal place, 3.15 is about 3.2.",
            ],
        ),
        (
            "3.86",
            1,
            [
                TO_TENTHS,
                "The hundredths digit is 6: 5 or more, so round up. 8 tenths become 9 tenths.",
                "To 1 decimal place, 3.86 is about 3.9.",
            ],
        ),
        (
            "99.96",
            1,
            [
                TO_TENTHS,
                "The hundredths digit is 6: 5 or more, so round up.",
                "9 tenths + 1 tenth = 10 tenths = 1 one and 0 tenths: "
                "write 0, carry 1 to the ones.",
                "9 ones + 1 one carried = 10 ones = 1 ten and 0 ones: "
                "write 0, carry 1 to the tens.",
                "9 tens + 1 ten carried = 10 tens = 1 hundred and 0 tens: "
                "write 0, carry 1 to the hundreds.",
                "Only 1 hundred carried in this column: write 1.",
                "To 1 decimal place, 99.96 is about 100.0.",
            ],
        ),
        (
            "349",
            -1,
            [
                "Round to the tens: the digit to look at is the next one, the ones.",
                "The ones digit is 9: 5 or more, so round up. 4 tens become 5 tens.",
                "To the nearest ten, 349 is about 350.",
            ],
        ),
        (
            "96",
            -2,
            [
                "Round to the hundreds: the digit to look at is the next one, the tens.",
                "The tens digit is 9: 5 or more, so round up. 0 hundreds become 1 hundred.",
                "To the nearest hundred, 96 is about 100.",
            ],
        ),
    ],
)
def test_what_is_said_when_rounding(text, places, sentences):
    assert said(written_working(rounded(text, places))) == sentences


def test_rounding_looks_at_the_next_digit_and_then_goes_to_the_left():
    assert columns_in_play(written_working(rounded("3.24", 1))) == [3, 3, None]
    assert columns_in_play(written_working(rounded("9.96", 1))) == [4, 4, 3, 2, 1, None]
    assert columns_in_play(written_working(rounded("349", -1))) == [3, 3, None]


@pytest.mark.parametrize(
    ("text", "conventions", "squares", "written"),
    [
        ("34, 5, 12", LINE, (6, 3, 2), [" 34", "  5", " 12", "  5", " 12", " 34"]),
        ("34, 5, 12", COLUMN, (6, 3, 2), [" 34", "  5", " 12", "  5", " 12", " 34"]),
        ("3.4, 2.55", LINE, (4, 4, 1), [" 3.40", " 2.55", " 2.55", " 3.4"]),
        ("3.4, 2.55", COLUMN, (4, 5, 1), [" 3.40", " 2.55", " 2.55", " 3.4"]),
        ("3.4, 2.55", BARE, (4, 4, 1), [" 3.4", " 2.55", " 2.55", " 3.4"]),
        ("3.4, 2.5", LINE, (4, 3, 1), [" 3.4", " 2.5", " 2.5", " 3.4"]),
        ("12, 3.5", LINE, (4, 4, 2), [" 12.0", "  3.5", "  3.5", " 12"]),
    ],
)
def test_numbers_in_order_stand_under_the_numbers(text, conventions, squares, written):
    working = written_working(ordered(text), conventions)
    assert room(working) == squares
    first = squares[0] // 2
    assert lines(working) == [(first, 0, squares[1] - 1)]
    assert paper(working) == written
    for row in range(squares[0]):
        main = Ink.GIVEN if row < first else Ink.ANSWER
        assert main in inks(working, row)
        assert inks(working, row) <= {main, Ink.PLACEHOLDER}
    empty = sum(max(n.places for n in numbers(text)) - n.places for n in numbers(text))
    filled = sum(mark.ink is Ink.PLACEHOLDER for mark in working.marks())
    assert filled == (empty if conventions.placeholders else 0)


@pytest.mark.parametrize(
    ("text", "conventions", "squares", "written"),
    [
        ("34, 5", LINE, (3, 5, 2), [" 34", "  5", " 34>5"]),
        ("3.4, 3.5", LINE, (3, 6, 1), [" 3.4", " 3.5", " 3.4<3.5"]),
        ("3.4, 2.55", LINE, (3, 7, 1), [" 3.40", " 2.55", " 3.4>2.55"]),
        ("3.4, 2.55", COLUMN, (3, 9, 1), [" 3.40", " 2.55", " 3.4>2.55"]),
        ("3.4, 2.55", BARE, (3, 7, 1), [" 3.4", " 2.55", " 3.4>2.55"]),
        ("0.5, 0.50", LINE, (3, 7, 1), [" 0.50", " 0.50", " 0.5=0.50"]),
    ],
)
def test_two_numbers_are_compared_in_a_line_below(text, conventions, squares, written):
    working = written_working(compared(text), conventions)
    assert room(working) == squares
    assert lines(working) == [(2, 0, squares[1] - 1)]
    assert paper(working) == written
    assert inks(working, 2) == {Ink.ANSWER, Ink.SIGN}


IN_LINE = "Set the numbers out with the points in line."
FILLED = f"{IN_LINE} Noughts fill the empty places."
FURTHER = "All the same: look one column further to the right."


@pytest.mark.parametrize(
    ("question", "conventions", "sentences"),
    [
        (
            ordered("34, 5, 12"),
            LINE,
            [
                "Set the numbers out with ones under ones.",
                "Tens: 3, 0 and 1. 0 tens are less than 1 ten and 1 ten is less than 3 tens.",
                "In order, smallest first: 5, 12, 34.",
            ],
        ),
        (
            ordered("3.4, 2.5"),
            LINE,
            [
                IN_LINE,
                "Ones: 3 and 2. 2 ones are less than 3 ones.",
                "In order, smallest first: 2.5, 3.4.",
            ],
        ),
        (
            ordered("0.4, 0.35, 0.42"),
            LINE,
            [
                FILLED,
                f"Ones: 0, 0 and 0. {FURTHER}",
                "Tenths: 4, 3 and 4. 3 tenths are less than 4 tenths. "
                "0.4 and 0.42 are still alike.",
                "Hundredths: 0 for 0.4 and 2 for 0.42. 0 hundredths are less than 2 hundredths.",
                "In order, smallest first: 0.35, 0.4, 0.42.",
            ],
        ),
        (
            ordered("123, 124, 132, 133"),
            LINE,
            [
                "Set the numbers out with ones under ones.",
                f"Hundreds: 1, 1, 1 and 1. {FURTHER}",
                "Tens: 2, 2, 3 and 3. 2 tens are less than 3 tens. "
                "123 and 124, and 132 and 133 are still alike.",
                "Ones: 3 for 123, 4 for 124, 2 for 132 and 3 for 133. "
                "3 ones are less than 4 ones. 2 ones are less than 3 ones.",
                "In order, smallest first: 123, 124, 132, 133.",
            ],
        ),
        (
            ordered("3.41, 3.42, 2"),
            BARE,
            [
                IN_LINE,
                "Ones: 3, 3 and 2. 2 ones are less than 3 ones. 3.41 and 3.42 are still alike.",
                f"Tenths: 4 for 3.41 and 4 for 3.42. {FURTHER}",
                "Hundredths: 1 for 3.41 and 2 for 3.42. 1 hundredth is less than 2 hundredths.",
                "In order, smallest first: 2, 3.41, 3.42.",
            ],
        ),
        (
            compared("3.4, 3.40"),
            LINE,
            [
                FILLED,
                f"Ones: 3 and 3. {FURTHER}",
                f"Tenths: 4 and 4. {FURTHER}",
                "Hundredths: 0 and 0. No column is left to tell them apart.",
                "3.4 is equal to 3.40.",
            ],
        ),
        (
            compared("34, 5"),
            BARE,
            [
                "Set the numbers out with ones under ones.",
                "Tens: 3 and 0. 0 tens are less than 3 tens.",
                "34 is greater than 5.",
            ],
        ),
    ],
    ids=lambda value: getattr(value, "text", None),
)
def test_what_is_said_when_telling_numbers_apart(question, conventions, sentences):
    assert said(written_working(question, conventions)) == sentences


def test_numbers_are_told_apart_from_the_left_and_no_further_than_needed():
    assert columns_in_play(written_working(ordered("0.4, 0.35, 0.42"))) == [None, 1, 2, 3, None]
    assert columns_in_play(written_working(ordered("3.41, 2.55, 1.2"))) == [None, 1, None]
    assert columns_in_play(written_working(compared("3.42, 3.52"))) == [None, 1, 2, None]


def test_the_answer_of_an_order_is_its_greatest_number():
    assert written_working(ordered("5, 34, 12")).answer == Number(34)
    assert written_working(compared("3.5, 3.4")).answer == Number(35, 1)


@pytest.mark.parametrize(
    ("text", "conventions", "squares", "written"),
    [
        ("3.45 × 100", LINE, (3, 6, 3), [" HTOth", "   3.45", " 345"]),
        ("3.45 × 100", COLUMN, (3, 7, 3), [" HTO th", "   3.45", " 345"]),
        ("3.4 × 100", LINE, (3, 5, 3), [" HTOt", "   3.4", " 340"]),
        ("0.304 × 10", LINE, (3, 5, 1), [" Othth", " 0.304", " 3.04"]),
        ("0.05 × 10", LINE, (3, 4, 1), [" Oth", " 0.05", " 0.5"]),
        ("0.5 × 1000", LINE, (3, 5, 3), [" HTOt", "   0.5", " 500"]),
        ("12 × 10", LINE, (3, 4, 3), [" HTO", "  12", " 120"]),
        ("3.4 ÷ 100", LINE, (3, 5, 1), [" Othth", " 3.4", " 0.034"]),
        ("3.4 ÷ 100", COLUMN, (3, 6, 1), [" O thth", " 3.4", " 0.034"]),
        ("340 ÷ 100", LINE, (3, 5, 3), [" HTOt", " 340", "   3.4"]),
        ("30 ÷ 10", LINE, (3, 3, 2), [" TO", " 30", "  3"]),
        ("400 ÷ 1000", LINE, (3, 5, 3), [" HTOt", " 400", "   0.4"]),
        ("7 ÷ 1000", LINE, (3, 5, 1), [" Othth", " 7", " 0.007"]),
        ("0.0 × 10", LINE, (3, 3, 1), [" Ot", " 0.0", " 0"]),
        ("0 ÷ 100", LINE, (3, 2, 1), [" O", " 0", " 0"]),
    ],
)
def test_digits_move_between_headed_columns(text, conventions, squares, written):
    working = written_working(moved(text), conventions)
    assert room(working) == squares
    assert lines(working) == [(1, 0, squares[1] - 1), (2, 0, squares[1] - 1)]
    assert paper(working) == written
    assert [inks(working, row) for row in range(3)] == [{Ink.HEADING}, {Ink.GIVEN}, {Ink.ANSWER}]


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        (
            "1.4 × 10",
            [
                "Set 1.4 out in its columns.",
                "× 10: each digit moves 1 column to the left, and the point stays where it is.",
                "1 one becomes 1 ten.",
                "4 tenths become 4 ones.",
            ],
        ),
        (
            "3.4 × 100",
            [
                "Set 3.4 out in its columns.",
                "× 100: each digit moves 2 columns to the left, and the point stays where it is.",
                "3 ones become 3 hundreds.",
                "4 tenths become 4 tens.",
                "Write a nought in the empty ones column.",
            ],
        ),
        (
            "400 ÷ 1000",
            [
                "Set 400 out in its columns.",
                "÷ 1000: each digit moves 3 columns to the right, and the point stays where it is.",
                "4 hundreds become 4 tenths.",
                "0 tens become 0 hundredths: no nought is needed at the end.",
                "0 ones become 0 thousandths: no nought is needed at the end.",
                "Write a nought in the empty ones column.",
            ],
        ),
        (
            "7 ÷ 1000",
            [
                "Set 7 out in its columns.",
                "÷ 1000: each digit moves 3 columns to the right, and the point stays where it is.",
                "7 ones become 7 thousandths.",
                "Write noughts in the empty ones, tenths and hundredths columns.",
            ],
        ),
        (
            "0.05 × 10",
            [
                "Set 0.05 out in its columns.",
                "× 10: each digit moves 1 column to the left, and the point stays where it is.",
                "5 hundredths become 5 tenths.",
                "Write a nought in the empty ones column.",
            ],
        ),
        (
            "0.0 × 10",
            [
                "Set 0.0 out in its columns.",
                "× 10: each digit moves 1 column to the left, and the point stays where it is.",
                "0 tenths become 0 ones.",
            ],
        ),
    ],
)
def test_what_is_said_when_digits_move(text, sentences):
    assert said(written_working(moved(text))) == sentences


def test_digits_that_are_not_written_have_no_column_in_play():
    working = written_working(moved("400 ÷ 1000"))
    assert columns_in_play(working) == [None, None, 4, None, None, None]
    assert columns_in_play(written_working(moved("3.45 × 100"))) == [None, None, 1, 2, 3]


@pytest.mark.parametrize(
    ("text", "conventions", "squares", "written"),
    [
        (
            "2.4 × 0.16",
            LINE,
            (5, 11, 3),
            ["24×16=384", "2.4=24÷10", "0.16=16÷100", "10×100=1000", "   0.384"],
        ),
        (
            "2.4 × 0.16",
            COLUMN,
            (5, 11, 3),
            ["24×16=384", "2.4=24÷10", "0.16=16÷100", "10×100=1000", "   0.384"],
        ),
        ("1.24 × 26", LINE, (3, 11, 4), ["124×26=3224", "1.24=124÷100", "   32.24"]),
        ("1.24 × 26", COLUMN, (3, 12, 4), ["124×26=3224", "1.24=124÷100", "   32.24"]),
        ("0.5 × 4", LINE, (3, 7, 2), ["5×4=20", "0.5=5÷10", "  2.0"]),
        ("0.3 × 0.2", LINE, (5, 9, 1), ["3×2=6", "0.3=3÷10", "0.2=2÷10", "10×10=100", " 0.06"]),
    ],
)
def test_a_product_from_a_fact_stands_below_what_is_known(text, conventions, squares, written):
    working = related_product(product(text), conventions)
    assert room(working) == squares
    assert lines(working) == []
    assert paper(working) == written
    last = squares[0] - 1
    assert inks(working, 0) == {Ink.GIVEN, Ink.SIGN}
    assert inks(working, last) == {Ink.ANSWER}
    assert all(inks(working, row) == {Ink.PARTIAL, Ink.SIGN} for row in range(1, last))


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        (
            "0.5 × 4",
            [
                "Begin with what is known: 5 × 4 = 20.",
                "0.5 is 5 ÷ 10.",
                "20 ÷ 10: 20 ones become 20 tenths, so 2.0.",
                "The nought at the end is not needed: 2.0 = 2.",
            ],
        ),
        (
            "2.5 × 0.04",
            [
                "Begin with what is known: 25 × 4 = 100.",
                "2.5 is 25 ÷ 10.",
                "0.04 is 4 ÷ 100.",
                "10 × 100 = 1000: divide the whole-number answer by 1000.",
                "100 ÷ 1000: 100 ones become 100 thousandths, so 0.100.",
                "The 2 noughts at the end are not needed: 0.100 = 0.1.",
            ],
        ),
        (
            "0.1 × 0.1",
            [
                "Begin with what is known: 1 × 1 = 1.",
                "0.1 is 1 ÷ 10.",
                "0.1 is 1 ÷ 10.",
                "10 × 10 = 100: divide the whole-number answer by 100.",
                "1 ÷ 100: 1 one becomes 1 hundredth, so 0.01.",
            ],
        ),
    ],
)
def test_what_is_said_from_a_fact(text, sentences):
    assert said(related_product(product(text))) == sentences


@pytest.mark.parametrize(
    "question", [product("24 × 16"), Question(Operation.DIVIDE, numbers("9.8, 0.7"))]
)
def test_only_a_product_with_a_point_is_worked_from_a_fact(question):
    with pytest.raises(ValueError, match=f"{question.text} does not follow from a fact"):
        related_product(question)


@pytest.mark.parametrize(
    ("text", "sentence", "over", "under"),
    [
        ("432 ÷ 5", "2 ones are left over: 2 ÷ 5 = 2/5. Write 2/5.", "2", "5"),
        ("433 ÷ 4", "1 one is left over: 1 ÷ 4 = 1/4. Write 1/4.", "1", "4"),
        ("434 ÷ 4", "2 ones are left over: 2 ÷ 4 = 2/4 = 1/2. Write 1/2.", "1", "2"),
        ("12 ÷ 8", "4 ones are left over: 4 ÷ 8 = 4/8 = 1/2. Write 1/2.", "1", "2"),
        ("15 ÷ 9", "6 ones are left over: 6 ÷ 9 = 6/9 = 2/3. Write 2/3.", "2", "3"),
    ],
)
def test_a_fraction_is_written_after_the_quotient(text, sentence, over, under):
    working = written_working(shared(text))
    assert said(working)[-1] == sentence
    (above,) = (mark for mark in working.marks() if mark.ink is Ink.NUMERATOR)
    (below,) = (mark for mark in working.marks() if mark.ink is Ink.DENOMINATOR)
    assert (above.text, below.text) == (over, under)
    after = working.units_column + 1
    assert {(mark.row, mark.column) for mark in (above, below)} == {(0, after)}


def test_a_division_that_comes_out_has_no_fraction():
    asked = shared("435 ÷ 5")
    working = written_working(asked)
    assert not any(mark.ink is Ink.DENOMINATOR for mark in working.marks())
    assert working.agrees_with(asked)


@pytest.mark.parametrize("subtraction", ["exchange", "equal addition"])
def test_what_is_said_past_the_end_of_the_number_to_subtract(subtraction):
    def difference(text: str) -> list[str]:
        asked = Question(Operation.SUBTRACT, numbers(text))
        return said(written_working(asked, replace(LINE, subtraction=subtraction)))

    assert difference("34, 4") == [
        "Set the numbers out: ones under ones, the number to subtract below.",
        "4 ones − 4 ones = 0 ones: write 0.",
        "Nothing is taken from 3 tens: write 3.",
    ]
    assert difference("34, 10")[-1] == "3 tens − 1 ten = 2 tens: write 2."
    assert difference("304, 104")[-1] == "3 hundreds − 1 hundred = 2 hundreds: write 2."
    assert difference("304, 104")[-2] == "0 tens − 0 tens = 0 tens: write 0."
    assert difference("3.5, 0.2")[-1] == "3 ones − 0 ones = 3 ones: write 3."
    assert difference("34, 30")[-1] == "3 tens − 3 tens = 0 tens: no digit is needed in front."


def test_ten_added_below_past_the_end_of_the_number_to_subtract_is_taken():
    asked = Question(Operation.SUBTRACT, numbers("32, 4"))
    sentences = said(written_working(asked, Conventions(subtraction="equal addition")))
    assert sentences[-1] == "3 tens − 1 ten = 2 tens: write 2."
    assert said(written_working(asked))[-1] == "Nothing is taken from 2 tens: write 2."


@pytest.mark.parametrize(
    ("question", "conventions", "top", "last"),
    [
        (moved("12 × 10"), LINE, 2, 0),
        (moved("12 × 10"), COLUMN, 2, 0),
        (moved("3.4 ÷ 10"), LINE, 0, -2),
        (moved("3.4 ÷ 10"), COLUMN, 0, -2),
    ],
)
def test_the_places_of_a_working_go_as_far_as_its_squares(question, conventions, top, last):
    places = written_working(question, conventions).places
    assert (places.top, places.last) == (top, last)
