"""Multiplication as several lands set it out: each way against a worked example, and laws.

Where numbers and lines stand in these lands is common practice, no source, written out from
memory; 342 × 7, 24 × 16 and 124 × 26 are of the England appendix (DFE-00180-2013), which has their
answers: 2394, 384 and 3224.
"""

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.forms.form import Written
from generator.forms.missing_digit import MissingDigit
from generator.forms.plain import Plain
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.mistakes import mistakes_of
from generator.operations.products.set_outs import (
    FIRST_ROWS,
    HIGHEST_FIRST,
    IN_MIND,
    PRODUCT_CARRIES,
    SET_OUTS,
)
from generator.operations.worked_wrongly import wrong_working
from generator.operations.working import SMALL_MARKS, Ink, Rule
from generator.packs.working_out import conventions
from specs import lands
from specs.spec import Presentation
from tests.asked import question
from tests.generator import squares
from tests.generator.sentences import read


def of_land(name: str) -> Conventions:
    """A land's written methods."""
    return conventions(Presentation(land=name))


def work(text: str, name: str) -> Working:
    return written_working(question(text), of_land(name))


def rows(working: Working) -> list[str]:
    """The marks of each row, small digits too; blanks for empty squares, points after digits."""
    return squares.rows(working, leaving_out={Ink.CORNER}, points=True)


# fmt: off
ON_ONE_LINE = {
    "342 × 7": [
        "342×7",
        " 2394",
    ],
    "24 × 13": [
        "24×13",
        "  24",
        "   72",
        "  1",
        "  312",
    ],
    "24 × 16": [
        "24×16",
        "  24",
        "  144",
        "",
        "  384",
    ],
    "124 × 26": [
        "124×26",
        "  248",
        "   744",
        "  11",
        "  3224",
    ],
    "124 × 206": [
        "124×206",
        "  248",
        "    744",
        "   1",
        "  25544",
    ],
    "3.4 × 26": [
        "3.4×26",
        "  68",
        "  204",
        "",
        "  88.4",
    ],
    "0.34 × 1.2": [
        "0.34×1.2",
        "   34",
        "    68",
        "   1",
        "  0.408",
    ],
    "4 × 3.42": [
        "3.42×4",
        " 13.68",
    ],
}
"""Germany, Austria and Switzerland: the highest digit first, each row ends under its digit."""

UNDER_ONE_ANOTHER = {
    "342 × 7": [
        "  21",
        "  342",
        "×   7",
        " 2394",
    ],
    "24 × 16": [
        "   24",
        "×  16",
        "",
        "  144",
        "  240",
        "  384",
    ],
}
"""France, Italy, the Netherlands, Poland, Finland, India and the United States."""
# fmt: on


@pytest.mark.parametrize("text", ON_ONE_LINE)
@pytest.mark.parametrize("name", ["Germany", "Austria", "Switzerland"])
def test_both_factors_on_one_line(name: str, text: str) -> None:
    working = work(text, name)
    assert rows(working) == ON_ONE_LINE[text]
    assert working.agrees_with(question(text))


@pytest.mark.parametrize("text", UNDER_ONE_ANOTHER)
@pytest.mark.parametrize(
    "name", ["Finland", "France", "India", "Italy", "Netherlands", "Poland", "United States"]
)
def test_factors_under_one_another(name: str, text: str) -> None:
    assert rows(work(text, name)) == UNDER_ONE_ANOTHER[text]


def test_a_line_stands_under_the_factors_and_over_and_under_the_product() -> None:
    assert work("24 × 13", "Germany").rules_drawn() == (Rule(1, 0, 4), Rule(4, 0, 4), Rule(5, 0, 4))


def test_what_is_said_where_carries_are_kept_in_mind() -> None:
    assert [step.sentence for step in work("24 × 13", "Germany").steps] == [
        "Set out 24 × 13 on one line. Multiply by the 1 ten, then by the 3 ones. Each row ends "
        "under the digit that it is made by.",
        "1 ten × 4 ones = 4 tens: write 4.",
        "1 ten × 2 tens = 2 hundreds: write 2.",
        "Now the 3 ones: the row ends under the 3.",
        "3 × 4 ones = 12 ones = 1 ten and 2 ones: write 2, keep 1 in mind for the tens.",
        "3 × 2 tens = 6 tens; with 1 ten carried, 7 tens: write 7.",
        "Add the 2 rows.",
        "Only 2 ones in this column: write 2.",
        "4 tens + 7 tens = 11 tens = 1 hundred and 1 ten: write 1, carry 1 to the hundreds.",
        "2 hundreds + 1 hundred carried = 3 hundreds: write 3.",
    ]


def test_decimals_stand_on_their_line_and_the_point_is_put_in_last() -> None:
    said = [step.sentence for step in work("0.34 × 1.2", "Germany").steps]
    assert said[0] == (
        "Set out 0.34 × 1.2 on one line. Leave points aside and multiply 34 × 12, by the 1 ten, "
        "then by the 2 ones. Each row ends under the digit that it is made by."
    )
    assert said[-1] == (
        "The factors have 3 decimal places together, and so has the answer. "
        "408 ÷ 1000: 408 ones become 408 thousandths, so 0.408."
    )


def test_noughts_at_the_end_and_a_third_factor_are_put_aside_as_everywhere() -> None:
    assert rows(work("120 × 34", "Germany")) == [
        "120×34", "12×34", "  36", "   48", "  1", "  408", " 4080",
    ]  # fmt: skip


LINE = Conventions(carries="between", factors="on one line", product_carries=IN_MIND)


def test_a_land_may_begin_with_the_ones_on_its_line() -> None:
    assert rows(written_working(question("24 × 13"), LINE))[1:3] == ["   72", "  24"]


def test_a_land_may_write_the_carried_digits_of_a_product_on_its_line() -> None:
    written = replace(LINE, product_carries="written")
    assert rows(written_working(question("342 × 7"), written)) == ["342×7", " 2394", "  21"]


factors = st.builds(Number, st.integers(0, 9999), st.integers(0, 3))
products = st.lists(factors, min_size=2, max_size=3).map(
    lambda many: Question(Operation.MULTIPLY, tuple(many))
)
ways = st.builds(
    Conventions,
    carries=st.sampled_from(["below", "above", "between"]),
    point=st.sampled_from(["line", "column"]),
    multiplication=st.sampled_from(["columns", "columns", "expanded"]),
    factors=st.sampled_from(sorted(SET_OUTS)),
    first_row=st.sampled_from(FIRST_ROWS),
    product_carries=st.sampled_from(PRODUCT_CARRIES),
)


@settings(max_examples=20)
@given(products, ways)
def test_every_way_gives_the_exact_product_on_squares_of_its_own(asked, agreed):
    working = written_working(asked, agreed)
    assert working.agrees_with(asked)
    assert working.fits_its_squares
    for thing in (*working.marks(), *working.points()):
        assert 0 <= thing.row < working.rows
        assert 0 <= thing.column < working.columns
    for step in working.steps:
        assert all(0 <= row < working.rows for row, _ in step.lit)
        assert all(0 <= column < working.columns for _, column in step.lit)
    lines = working.rules_drawn()
    assert all(0 <= line.start <= line.end < working.columns for line in lines)


@settings(max_examples=12)
@given(products, ways)
def test_every_sentence_of_every_way_is_true(asked, agreed):
    for step in written_working(asked, replace(agreed, multiplication="columns")).steps:
        read(step.sentence)


@pytest.mark.slow
@given(products, ways)
def test_many_more_sentences_are_true(asked, agreed):
    for step in written_working(asked, replace(agreed, multiplication="columns")).steps:
        read(step.sentence)


no_nought_last = st.integers(11, 9999).filter(lambda number: number % 10)


@settings(max_examples=20)
@given(no_nought_last, no_nought_last, st.integers(0, 2), st.integers(0, 2), ways)
def test_each_row_is_one_digits_product_ends_under_that_digit_and_they_sum_to_the_whole(
    first, second, places, more, agreed
):
    """The rows of a long multiplication on one line, read off the squares."""
    agreed = replace(agreed, factors="on one line", multiplication="columns", point="line")
    numbers = Number(first, places), Number(second, more)
    working = written_working(Question(Operation.MULTIPLY, numbers), agreed)
    (sign,) = (m for m in working.setting_out.marks if m.ink is Ink.SIGN)
    given_digits = [m for m in working.setting_out.marks if m.ink is Ink.GIVEN]
    assert {mark.row for mark in (*given_digits, sign)} == {0}
    before = "".join(m.text for m in given_digits if m.column < sign.column)
    after = [m for m in given_digits if m.column > sign.column]
    assert sorted([int(before), int("".join(m.text for m in after))]) == sorted([first, second])
    last = after[-1].column
    partial = [m for m in working.marks() if m.ink is Ink.PARTIAL]
    total, ends = 0, []
    for row in sorted({mark.row for mark in partial}):
        digits = sorted((m.column, m.text) for m in partial if m.row == row)
        end = digits[-1][0]
        by = next(int(mark.text) for mark in after if mark.column == end)
        made = int("".join(text for _, text in digits))
        assert made == int(before) * by
        assert [column for column, _ in digits] == list(range(end + 1 - len(digits), end + 1))
        total += made * 10 ** (last - end)
        ends.append(end)
    assert total == first * second == working.answer.units
    assert ends == sorted(ends, reverse=agreed.first_row != HIGHEST_FIRST)
    assert len(ends) == sum(mark.text != "0" for mark in after)


@settings(max_examples=15)
@given(products, ways, st.sampled_from(["full", "numbers", "part", "none"]))
def test_what_a_pupil_is_given_tells_no_product(asked, agreed, kind):
    written = Written.by(asked, agreed)
    frame = Plain().set_out(written, kind)
    given = list(frame.squares.marks())
    assert all(mark.ink in (Ink.GIVEN, Ink.SIGN, Ink.PLACEHOLDER, Ink.NOTE) for mark in given)
    full = [(mark.row, mark.column) for mark in given]
    assert len(set(full)) == len(full)
    if agreed.product_carries == IN_MIND and kind == "full":
        assert frame.corners == ()
    if not frame.words and kind == "numbers":
        numbers = "".join(str(number).replace(".", "") for number in asked.operands)
        digits = [mark.text for mark in given if mark.ink is Ink.GIVEN]
        assert sorted(digits) == sorted(numbers)
        assert frame.squares.rows >= written.working.rows


@settings(max_examples=25)
@given(st.integers(11, 99), st.integers(11, 99), st.integers(0, 2))
def test_the_room_for_a_product_on_its_line_does_not_tell_its_length(first, second, places):
    if first % 10 and second % 10:
        numbers = Number(first, places), Number(second)
        working = written_working(Question(Operation.MULTIPLY, numbers), LINE)
        assert working.columns == 5 + (places == 2)


@settings(max_examples=12)
@given(products, st.sampled_from(["below", "above", "between"]))
def test_a_mistake_is_shown_on_the_same_line_and_gives_its_own_answer(asked, carries):
    agreed = replace(LINE, carries=carries, first_row=HIGHEST_FIRST)
    for mistake in mistakes_of(Operation.MULTIPLY):
        working = wrong_working(asked, mistake, agreed)
        if working is not None:
            assert working.fits_its_squares
            assert working.answer.value == mistake.wrong_answer(asked).value != asked.answer.value


@settings(max_examples=12)
@given(products)
def test_a_missing_digit_stands_where_the_line_has_it(asked):
    """With the digit put back the squares hold the factors and the answer as they are printed."""
    agreed = replace(LINE, first_row=HIGHEST_FIRST)
    written = Written.by(asked, agreed)
    for form in sorted(MissingDigit.everywhere(asked), key=repr)[:: 1 + asked.answer.units % 4]:
        frame = form.set_out(written, None)
        if not frame.hidden:
            continue
        (hole,) = frame.hidden
        squares = {(m.row, m.column): m.text for m in frame.squares.marks() if m.ink is Ink.GIVEN}
        assert hole not in squares
        squares[hole] = form.reply(asked)
        lines = [
            "".join(squares[at] for at in sorted(squares) if at[0] == row)
            for row in sorted({row for row, _ in squares})
        ]
        wanted = [re.sub(r"\D", "", str(number)) for number in asked.operands]
        answer = re.sub(r"\D", "", str(asked.answer))
        if frame.words:  # whole numbers, below the line that asks it
            wanted = [str(int(digits)) for digits in wanted]
            answer = str(int(answer))
        assert sorted(lines[0]) == sorted("".join(wanted))
        assert lines[-1] == answer


@pytest.mark.parametrize("name", lands.names())
def test_a_lands_file_has_words_that_there_are(name: str) -> None:
    its = lands.land(name)
    assert its.factors in SET_OUTS
    assert its.first_row in FIRST_ROWS
    assert its.product_carries in PRODUCT_CARRIES
    agreed = of_land(name)
    assert (agreed.factors, agreed.first_row, agreed.product_carries) == (
        its.factors,
        its.first_row,
        its.product_carries,
    )


def test_no_small_digit_is_written_in_a_row_where_it_is_kept_in_mind() -> None:
    small = [m for m in work("987 × 879", "Germany").marks() if m.ink in SMALL_MARKS]
    assert small == []
