"""Long division and division by chunks, the options beside short division."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.quotients.chunking import chunks_of
from generator.operations.working import Ink
from tests.asked import question
from tests.generator.squares import rows

WAYS = ("long", "chunking")


def work(text: str, way: str, ending: Ending = Ending.EXACT, places: int = 0) -> Working:
    return written_working(question(text, ending, places), Conventions(division=way))


# Department for Education, "National curriculum in England: mathematics programmes of study",
# Appendix 1, DFE-00180-2013, Open Government Licence: 432 ÷ 15 by long division, as 28 r 12, with
# 28 4/5 and as 28.8; its rows are 30, 132, 120, 12 and, carried on, 120, 120, 0. From memory.


def test_432_by_15_by_long_division():
    working = work("432 ÷ 15", "long", Ending.REMAINDER)
    assert rows(working) == ["   28r12", "15432", " −30", "  132", " −120", "   12"]


def test_432_by_15_carried_on_to_tenths():
    working = work("432 ÷ 15", "long", Ending.DECIMAL)
    written = ["   288", "154320", " −30", "  132", " −120", "   120", "  −120", "     0"]
    assert rows(working) == written
    assert str(working.answer) == "28.8"
    assert not [mark for mark in working.marks() if mark.ink is Ink.CARRIED_ON]


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(
    ("text", "ending", "answer"),
    [
        ("98 ÷ 7", Ending.EXACT, "14"),
        ("432 ÷ 5", Ending.REMAINDER, "86 r 2"),
        ("496 ÷ 11", Ending.REMAINDER, "45 r 1"),
        ("432 ÷ 15", Ending.FRACTION, "28 4/5"),
        ("432 ÷ 15", Ending.DECIMAL, "28.8"),
    ],
)
def test_the_answers_of_the_england_appendix(text, ending, answer, way):
    asked = question(text, ending)
    assert asked.answer_text == answer
    assert work(text, way, ending).agrees_with(asked)


def test_long_division_spoken_in_full():
    working = work("432 ÷ 15", "long", Ending.REMAINDER)
    assert [step.sentence for step in working.steps] == [
        "Set the division out: 432 inside, 15 outside.",
        "4 hundreds are less than 15 hundreds: no hundreds in the answer. "
        "4 hundreds and 3 tens are 43 tens.",
        "43 tens ÷ 15: 2 × 15 = 30, and 3 × 15 = 45 is too many. Write 2.",
        "15 × 2 tens = 30 tens: write 30 under the 43.",
        "43 tens − 30 tens = 13 tens: write 13.",
        "Bring down the 2: 13 tens and 2 ones are 132 ones.",
        "132 ones ÷ 15: 8 × 15 = 120, and 9 × 15 = 135 is too many. Write 8.",
        "15 × 8 ones = 120 ones: write 120 under the 132.",
        "132 ones − 120 ones = 12 ones: write 12.",
        "12 ones are left over. Write remainder 12.",
    ]


def test_a_nought_in_the_quotient_takes_nothing_away():
    assert rows(work("816 ÷ 8", "long"))[:4] == [" 102", "8816", "−8", " 016"]


# Chunks of a divisor that is in no table: common practice, no source.


def test_chunks_are_taken_away_and_named():
    working = work("432 ÷ 15", "chunking", Ending.REMAINDER)
    assert rows(working) == [
        "   28r12",
        "15432",
        " −300 20×15",
        "  132",
        " − 75 5×15",
        "   57",
        "  −30 2×15",
        "   27",
        "  −15 1×15",
        "   12",
    ]
    assert working.steps[-2].sentence == "20 + 5 + 2 + 1 = 28: write 28 above."


def test_chunks_of_a_divisor_in_the_tables_are_as_large_as_can_be():
    assert rows(work("98 ÷ 7", "chunking"))[2::2] == ["−70 10×7", "−28 4×7"]


def test_a_chunk_that_needs_a_place_more_gets_its_nought_first():
    said = [step.sentence for step in work("9 ÷ 4", "chunking", Ending.DECIMAL).steps]
    assert said[1:] == [
        "2 × 4 = 8: take 8 away.",
        "9 − 8 = 1: write 1.",
        "1 is 1.0: write the nought.",
        "0.2 × 4 = 0.8: take 0.8 away.",
        "1.0 − 0.8 = 0.2: write 0.2.",
        "0.2 is 0.20: write the nought.",
        "0.05 × 4 = 0.20: take 0.20 away.",
        "0.20 − 0.20 = 0: write 0.",
        "2 + 0.2 + 0.05 = 2.25: write 2.25 above.",
    ]


numbers = st.builds(Number, st.integers(1, 99_999), st.integers(0, 3))
divisors = st.builds(Number, st.integers(2, 120), st.integers(0, 2))


@given(
    numbers,
    divisors,
    st.sampled_from(WAYS),
    st.sampled_from([Ending.REMAINDER, Ending.FRACTION, Ending.ROUNDED, Ending.DECIMAL]),
    st.sampled_from(["line", "column"]),
)
def test_every_division_agrees_with_exact_arithmetic_and_with_short_division(
    dividend, divisor, way, ending, point
):
    asked = Question(Operation.DIVIDE, (dividend, divisor), ending, places=2)
    if ending is Ending.DECIMAL and not _ends(asked):
        ending = Ending.ROUNDED
        asked = Question(Operation.DIVIDE, (dividend, divisor), ending, places=2)
    working = written_working(asked, Conventions(point=point, division=way))
    short = written_working(asked, Conventions(point=point))
    assert working.agrees_with(asked)
    assert (working.answer, working.remainder) == (short.answer, short.remainder)
    assert working.fits_its_squares
    assert all(0 <= mark.row < working.rows for mark in working.marks())


def _ends(asked: Question) -> bool:
    try:
        return asked.answer.places <= 6
    except ValueError:
        return False


@given(st.integers(1, 99_999), st.integers(2, 99))
def test_chunks_are_all_of_the_divisor_and_leave_less_than_it(dividend, divisor):
    chunks = list(chunks_of(Number(dividend), divisor, 0))
    assert all(chunk.many.value * divisor == chunk.made.value for chunk in chunks)
    left = dividend - sum((chunk.made.value for chunk in chunks), Fraction(0))
    assert 0 <= left < divisor
    assert sorted(chunks, key=lambda chunk: -chunk.made.value) == chunks
