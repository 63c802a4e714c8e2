"""Long division as several lands set it out: each way against a worked example, and laws.

Where numbers and lines stand in these lands is common practice, no source, written out from
memory; the numbers are those of the England appendix (DFE-00180-2013), 432 ÷ 15, whose answers
are 28 r 12, 28 4/5 and 28.8.
"""

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.form import Written
from generator.forms.missing_digit import MissingDigit
from generator.forms.plain import Plain
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.mistakes import mistake_named, mistakes_of
from generator.operations.quotients.set_outs import BELOW_THE_DIVIDEND, SET_OUTS, SHORT_DIVISIONS
from generator.operations.worked_wrongly import wrong_working
from generator.operations.working import Ink, Rule, Upright
from generator.packs.working_out import conventions
from specs import lands
from specs.lands import land
from specs.spec import Presentation
from tests.asked import question
from tests.generator import squares


def set_out_by(name: str) -> Conventions:
    """A land's long division."""
    its = land(name)
    return Conventions(
        division="long", set_out=its.set_out, below_the_dividend=its.below_the_dividend
    )


def of_land(name: str) -> Conventions:
    """A land's written methods."""
    return conventions(Presentation(land=name))


def work(text: str, name: str, ending: Ending = Ending.EXACT, places: int = 0) -> Working:
    return written_working(question(text, ending, places), set_out_by(name))


def rows(working: Working) -> list[str]:
    """The full-sized marks of each row, blanks for empty squares; points stand after digits."""
    return squares.rows(working, points=True)


# fmt: off
WITH_REMAINDER = {
    "England": [
        "   28r12",
        "15432",
        " −30",
        "  132",
        " −120",
        "   12",
    ],
    "Germany": [
        " 432÷15=28r12",
        "−30",
        " 132",
        "−120",
        "  12",
    ],
    "Austria": [
        " 432÷15=28r12",
        " 132",
        "  12",
    ],
    "France": [
        " 43215",
        "−30 28r12",
        " 132",
        "−120",
        "  12",
    ],
    "Italy": [
        " 43215",
        " 13228r12",
        "  12",
    ],
    "Netherlands": [
        r"15/432\28r12",
        "  −30",
        "   132",
        "  −120",
        "    12",
    ],
    "Poland": [
        "  28r12",
        " 432÷15",
        "−30",
        " 132",
        "−120",
        "  12",
    ],
    "India": [
        "15)432(28r12",
        "  −30",
        "   132",
        "  −120",
        "    12",
    ],
}
"""432 ÷ 15 with its remainder. Lines between and under the numbers are tested below."""

CARRIED_ON = {
    "England": [
        "   28.8",
        "15432.0",
        " −30",
        "  132",
        " −120",
        "   120",
        "  −120",
        "     0",
    ],
    "Germany": [
        " 432÷15=28.8",
        "−30",
        " 132",
        "−120",
        "  120",
        " −120",
        "    0",
    ],
    "Austria": [
        " 432÷15=28.8",
        " 132",
        "  120",
        "    0",
    ],
    "France": [
        " 432.0  15",
        "−30    28.8",
        " 132",
        "−120",
        "  120",
        " −120",
        "    0",
    ],
    "Poland": [
        "  28.8",
        " 432.0  ÷15",
        "−30",
        " 132",
        "−120",
        "  120",
        " −120",
        "    0",
    ],
}
"""The same carried on to tenths: noughts are written in the dividend, or below at once."""
# fmt: on


@pytest.mark.parametrize("name", WITH_REMAINDER)
def test_432_by_15_with_its_remainder(name: str) -> None:
    assert rows(work("432 ÷ 15", name, Ending.REMAINDER)) == WITH_REMAINDER[name]


@pytest.mark.parametrize("name", CARRIED_ON)
def test_432_by_15_carried_on_to_tenths(name: str) -> None:
    working = work("432 ÷ 15", name, Ending.DECIMAL)
    assert rows(working) == CARRIED_ON[name]
    assert str(working.answer) == "28.8"


@pytest.mark.parametrize("name", lands.names())
@pytest.mark.parametrize(
    ("text", "ending", "places", "answer"),
    [
        ("432 ÷ 15", Ending.REMAINDER, 0, "28 r 12"),
        ("432 ÷ 15", Ending.FRACTION, 0, "28 4/5"),
        ("432 ÷ 15", Ending.DECIMAL, 0, "28.8"),
        ("496 ÷ 11", Ending.REMAINDER, 0, "45 r 1"),
        ("3 ÷ 8", Ending.DECIMAL, 0, "0.375"),
        ("8.5 ÷ 0.25", Ending.EXACT, 0, "34"),
        ("20 ÷ 3", Ending.ROUNDED, 2, "6.67"),
        ("816 ÷ 8", Ending.EXACT, 0, "102"),
        ("4.1 ÷ 5", Ending.EXACT, 0, "0.82"),
    ],
)
def test_every_land_has_the_same_answers(
    name: str, text: str, ending: Ending, places: int, answer: str
) -> None:
    asked = question(text, ending, places)
    assert asked.answer_text == answer
    working = work(text, name, ending, places)
    assert working.agrees_with(asked)
    assert working.fits_its_squares


def test_lines_of_the_divisor_at_the_right() -> None:
    working = work("432 ÷ 15", "France", Ending.REMAINDER)
    assert working.uprights == (Upright(4, 0, 1),)
    assert working.rules == (Rule(1, 4, 5),)


def test_lines_of_the_quotient_above_with_the_divisor_after() -> None:
    working = work("432 ÷ 15", "Poland", Ending.REMAINDER)
    assert (working.uprights, working.rules) == ((), (Rule(1, 1, 3),))


def test_a_division_on_one_line_needs_no_lines_and_stays_set_out() -> None:
    asked = question("432 ÷ 15", Ending.REMAINDER)
    working = work("432 ÷ 15", "Germany", Ending.REMAINDER)
    assert (working.uprights, working.rules) == ((), ())
    given = Plain().set_out(Written.by(asked, set_out_by("Germany")), "numbers").squares
    assert "".join(mark.text for mark in given.setting_out.marks) == "432÷15="


def test_a_decimal_divisor_is_made_whole_before_it_is_set_out() -> None:
    written = rows(work("8.5 ÷ 0.25", "Germany"))
    assert written == [
        "8.5÷0.25=850÷25",
        "",
        " 850÷25=34",
        "−75",
        " 100",
        "−100",
        "   0",
    ]


def test_a_land_that_writes_remainders_only_says_what_is_taken_away_in_the_head() -> None:
    said = [step.sentence for step in work("432 ÷ 15", "Austria", Ending.REMAINDER).steps]
    assert said == [
        "Set the division out on one line. The answer goes after the equals sign.",
        "4 hundreds are less than 15 hundreds: no hundreds in the answer. "
        "4 hundreds and 3 tens are 43 tens.",
        "43 tens ÷ 15: 2 × 15 = 30, and 3 × 15 = 45 is too many. Write 2.",
        "15 × 2 tens = 30 tens, and 43 tens − 30 tens = 13 tens: write 13 under the 43.",
        "Bring down the 2: 13 tens and 2 ones are 132 ones.",
        "132 ones ÷ 15: 8 × 15 = 120, and 9 × 15 = 135 is too many. Write 8.",
        "15 × 8 ones = 120 ones, and 132 ones − 120 ones = 12 ones: write 12 under the 132.",
        "12 ones are left over. Write remainder 12.",
    ]


def test_a_first_digit_too_small_is_written_below_with_its_nought() -> None:
    working = work("3 ÷ 8", "Germany", Ending.DECIMAL)
    assert rows(working)[:3] == [" 3÷8=0.375", " 30", "−24"]
    said = [step.sentence for step in working.steps]
    assert said[2] == "3 ones left over. Write the point in the answer."
    assert said[3] == "3 ones become 30 tenths: write 30 below."


# fmt: off
SHORT = {
    "England": [
        " 2.34",
        "49.36",
    ],
    "Germany": [
        " 9.36÷4=2.34",
        " 13",
        "  16",
        "   0",
    ],
    "France": [
        " 9.364",
        " 13 2.34",
        "  16",
        "   0",
    ],
    "Poland": [
        " 2.34",
        " 9.36÷4",
        " 13",
        "  16",
        "   0",
    ],
    "Netherlands": [
        r"4/9.36\2.34",
        " −8",
        "  13",
        " −12",
        "   16",
        "  −16",
        "    0",
    ],
    "India": [
        "4)9.36(2.34",
        " −8",
        "  13",
        " −12",
        "   16",
        "  −16",
        "    0",
    ],
}
"""9.36 ÷ 4 where a spec asks for short division: the half-box, the land's own way with the
subtractions in the head, or the long one where there is no other."""
# fmt: on
ALIKE = {
    "Austria": "Germany",
    "Switzerland": "Germany",
    "Italy": "France",
    "Finland": "England",
    "United States": "England",
}


@pytest.mark.parametrize("name", lands.names())
def test_a_short_division_is_the_lands_own(name: str) -> None:
    agreed = replace(of_land(name), division="short")
    written = rows(written_working(question("9.36 ÷ 4"), agreed))
    assert written == SHORT[ALIKE.get(name, name)]
    assert lands.land(name).short_division in SHORT_DIVISIONS


@pytest.mark.parametrize("name", lands.names())
def test_a_long_division_stays_as_it_is(name: str) -> None:
    asked = question("432 ÷ 15", Ending.REMAINDER)
    written = written_working(asked, replace(of_land(name), division="long"))
    assert written == work("432 ÷ 15", name, Ending.REMAINDER)


# fmt: off
IN_CHUNKS = {
    "Netherlands": [
        r"15/432\28r12",
        "  −300 20×15",
        "   132",
        "  − 75 5×15",
        "    57",
        "   −30 2×15",
        "    27",
        "   −15 1×15",
        "    12",
    ],
    "Germany": [
        " 432÷15=28r12",
        "−300 20×15",
        " 132",
        "− 75 5×15",
        "  57",
        " −30 2×15",
        "  27",
        " −15 1×15",
        "  12",
    ],
    "France": [
        " 43215",
        "−30028r12 20×15",
        " 132",
        "− 75      5×15",
        "  57",
        " −30      2×15",
        "  27",
        " −15      1×15",
        "  12",
    ],
    "Poland": [
        "  28r12",
        " 432÷15",
        "−300 20×15",
        " 132",
        "− 75 5×15",
        "  57",
        " −30 2×15",
        "  27",
        " −15 1×15",
        "  12",
    ],
}
"""432 ÷ 15 by chunks of 20, 5, 2 and 1: divisor and quotient are where the land has them. The
appendix writes it by 20 and 8, above the dividend."""
# fmt: on


@pytest.mark.parametrize("name", IN_CHUNKS)
def test_a_division_by_chunks_is_set_out_as_the_lands_long_one(name: str) -> None:
    agreed = replace(of_land(name), division="chunking")
    asked = question("432 ÷ 15", Ending.REMAINDER)
    assert rows(written_working(asked, agreed)) == IN_CHUNKS[name]


def test_a_dividend_that_needs_noughts_is_written_anew_where_its_line_goes_on() -> None:
    agreed = replace(of_land("Netherlands"), division="chunking")
    working = written_working(question("3 ÷ 8", Ending.DECIMAL), agreed)
    assert rows(working)[:3] == [r"8/3\0.375", "  3.0", " −2.4   0.3×8"]
    said = [step.sentence for step in working.steps]
    assert said[1] == "3 is 3.0: write that below."
    assert said[-1] == "0.3 + 0.07 + 0.005 = 0.375: write 0.375 as the answer."


# fmt: off
WRONG = {
    "England": ([" 1 2", "8816"], [" 11r1", "798"]),
    "Germany": ([" 816÷8=12", "−8", " 016", " −16", "   0"], [" 98÷7=11r1"]),
    "Austria": ([" 816÷8=12", " 016", "   0"], [" 98÷7=11r1"]),
    "France": ([" 8168", "−8  12", " 016", " −16", "   0"], [" 987", "   11r1"]),
    "Poland": ([" 1 2", " 816÷8", "−8", " 016", " −16", "   0"], [" 11r1", " 98÷7"]),
}
"""816 ÷ 8 with the nought left out, and 98 ÷ 7 with what is left over lost."""
# fmt: on


@pytest.mark.parametrize("name", WRONG)
def test_a_mistake_to_spot_stands_as_the_land_divides(name: str) -> None:
    agreed, (nought, lost) = of_land(name), WRONG[name]
    for text, mistake, written in (
        ("816 ÷ 8", "zero left out of a quotient", nought),
        ("98 ÷ 7", "remainder not carried", lost),
    ):
        wrong = wrong_working(question(text), mistake_named(mistake), agreed)
        assert wrong is not None
        assert [line.rstrip() for line in rows(wrong)] == written


def test_noughts_left_out_before_and_after_the_point_close_up_on_a_line() -> None:
    for text, answer in (("41.2 ÷ 4", "1.3"), ("4.08 ÷ 4", "1.2"), ("820.4 ÷ 4", "25.1")):
        wrong = wrong_working(
            question(text), mistake_named("zero left out of a quotient"), of_land("Austria")
        )
        assert wrong is not None
        assert rows(wrong)[0].partition("=")[2] == answer


def _ends(asked: Question) -> bool:
    try:
        return asked.answer.places <= 6
    except ValueError:
        return False


@st.composite
def divisions(draw) -> Question:
    dividend = draw(st.builds(Number, st.integers(0, 99_999), st.integers(0, 3)))
    divisor = draw(st.builds(Number, st.integers(1, 120), st.integers(0, 2)))
    ending = draw(st.sampled_from([one for one in Ending if one is not Ending.MOVED]))
    places = draw(st.integers(0, 3)) if ending is Ending.ROUNDED else 0
    asked = Question(Operation.DIVIDE, (dividend, divisor), ending, places)
    if ending in (Ending.EXACT, Ending.DECIMAL) and not _ends(asked):
        return Question(Operation.DIVIDE, (dividend, divisor), Ending.REMAINDER)
    return asked


ways = st.builds(
    Conventions,
    division=st.sampled_from(["long", "short", "chunking"]),
    short_division=st.sampled_from(BELOW_THE_DIVIDEND),
    point=st.sampled_from(["line", "column"]),
    set_out=st.sampled_from(sorted(SET_OUTS)),
    below_the_dividend=st.sampled_from(BELOW_THE_DIVIDEND),
)


@settings(max_examples=60)
@given(divisions(), ways)
def test_every_way_gives_the_exact_quotient_and_remainder_on_squares_of_its_own(asked, agreed):
    working, short = written_working(asked, agreed), written_working(asked)
    assert working.agrees_with(asked)
    assert (working.answer, working.remainder) == (short.answer, short.remainder)
    assert working.fits_its_squares
    for thing in (*working.marks(), *working.points()):
        assert 0 <= thing.row < working.rows
        assert 0 <= thing.column < working.columns
    lines = (*working.rules_drawn(),)
    assert all(0 <= line.start <= line.end < working.columns for line in lines)


@given(divisions(), ways)
def test_what_is_lit_is_on_the_squares(asked, agreed):
    working = written_working(asked, agreed)
    for step in working.steps:
        for row, column in step.lit:
            assert 0 <= row < working.rows
            assert 0 <= column < working.columns


@given(divisions(), ways, st.sampled_from(["full", "numbers", "part", "none"]))
def test_what_a_pupil_is_given_tells_no_quotient(asked, agreed, kind):
    written = Written.by(asked, agreed)
    frame = Plain().set_out(written, kind)
    given = list(frame.squares.marks())
    assert all(mark.ink in (Ink.GIVEN, Ink.SIGN, Ink.PLACEHOLDER, Ink.NOTE) for mark in given)
    full = [(mark.row, mark.column) for mark in given]
    assert len(set(full)) == len(full)
    digits = [mark.text for mark in given if mark.row == written.working.dividend_row]
    if kind == "numbers" and not asked.operands[1].places:
        numbers = "".join(str(number).replace(".", "") for number in asked.operands)
        assert sorted(filter(str.isdigit, digits)) == sorted(numbers)


@given(st.integers(100, 999), st.integers(100, 999), st.integers(2, 9), ways)
def test_the_room_for_a_pupil_hangs_on_what_is_asked_alone(one, other, divisor, agreed):
    """Questions alike in their lengths get squares alike, whatever comes of them."""

    def room(dividend: int) -> tuple[int, int] | None:
        numbers = Number(dividend), Number(divisor)
        asked = Question(Operation.DIVIDE, numbers, Ending.REMAINDER)
        return written_working(asked, agreed).room

    assert room(one) == room(other)


@settings(max_examples=30)
@given(divisions(), ways)
def test_every_mistake_that_is_shown_gives_its_own_answer_on_the_squares(asked, agreed):
    for mistake in mistakes_of(Operation.DIVIDE):
        wrong = wrong_working(asked, mistake, agreed)
        if wrong is not None:
            assert wrong.fits_its_squares
            assert wrong.answer.value == mistake.wrong_answer(asked).value


@settings(max_examples=12)
@given(
    st.integers(2, 999),
    st.integers(2, 99),
    st.integers(0, 2),
    st.one_of(ways, st.builds(Conventions, point=st.sampled_from(["line", "column"]))),
)
def test_the_box_for_a_missing_digit_stands_where_that_digit_is(answer, divisor, places, agreed):
    """Put back, it makes the dividend, the divisor and the quotient again, in every way."""
    dividend = Number(answer * divisor, places)
    asked = Question(Operation.DIVIDE, (dividend, Number(divisor)))
    written = Written.by(asked, agreed)
    numbers = [re.sub(r"\D", "", str(n)) for n in (*asked.operands, asked.answer)]
    for form in MissingDigit.everywhere(asked):
        frame = form.set_out(written, None)
        (hole,) = frame.hidden
        squares = {(m.row, m.column): m.text for m in frame.squares.marks() if m.ink is Ink.GIVEN}
        assert hole not in squares
        before = {at for at in squares if at < hole}
        squares[hole] = form.reply(asked)
        assert 0 <= hole[1] < frame.squares.columns
        assert sorted(squares.values()) == sorted("".join(numbers))
        assert max(column for _, column in squares) < frame.squares.columns
        in_order = "".join(squares[at] for at in sorted(squares))
        own = numbers[2 if form.operand is None else form.operand]
        which = form.number(asked).top_place - form.place
        assert in_order[len(before)] == own[which]
        neighbour = squares.get((hole[0], hole[1] + 1))
        if neighbour is not None and which + 1 < len(own) and agreed.point == "line":
            assert neighbour == own[which + 1]


def test_with_a_column_for_the_point_the_box_is_past_it() -> None:
    """9.3□ ÷ 4: the box is for the hundredths, whose column is one further along."""
    asked = question("9.36 ÷ 4")
    written = Written.by(asked, Conventions(point="column"))
    frame = MissingDigit(0, -2).set_out(written, None)
    assert frame.hidden == ((1, 5),)
    assert "".join(m.text for m in frame.squares.marks() if m.row == 1) == "493"
