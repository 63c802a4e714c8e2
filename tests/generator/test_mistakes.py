"""Wrong procedures, against published wrong answers, and by their laws."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.mistakes import (
    MISTAKES,
    is_right,
    mistake_named,
    mistakes_of,
    right_reply,
)
from generator.operations.order.misreading import JudgedBy
from generator.operations.worked_wrongly import wrong_working
from generator.operations.working import SMALL_MARKS, Ink
from specs.replies import Reply, read_replies
from tests.asked import question as asked


def wrong(name: str, text: str, ending: Ending = Ending.EXACT) -> str | None:
    found = mistake_named(name).wrong_answer(asked(text, ending))
    return found.text if found else None


VANLEHN = "VanLehn (1983, 1986), as cited in Ben-Zeev, DOI 10.4324/9780203053270-5"
ABSTRACT = "DOI 10.4324/9780203052969-6, abstract"
BROWN_BURTON = "Brown & Burton, Cognitive Science 2 (1978), from memory"
SMALLER = "smaller digit taken from larger"
BLANK = "one taken where the lower number has no digit"


@pytest.mark.parametrize(
    ("question", "answer", "name", "source"),
    [
        ("63 − 29", "46", SMALLER, VANLEHN),
        ("42 − 18", "36", SMALLER, ABSTRACT),
        ("35 − 2", "23", BLANK, ABSTRACT),
        ("671 − 28", "557", f"{SMALLER} and {BLANK}", ABSTRACT),
        ("253 − 118", "145", SMALLER, BROWN_BURTON),
        ("103 − 45", "158", "stops at a zero", BROWN_BURTON),
        ("140 − 21", "121", "zero minus n gives n", BROWN_BURTON),
        ("304 − 75", "139", "passes over a zero", BROWN_BURTON),
    ],
)
def test_published_wrong_answers_in_subtraction(
    question: str, answer: str, name: str, source: str
) -> None:
    assert wrong(name, question) == answer, source


@pytest.mark.parametrize(
    ("question", "answer", "name"),
    [
        ("3.4 + 0.27", "0.61", "numbers lined up at the right-hand end"),
        ("3.4 − 0.27", "0.07", "numbers lined up at the right-hand end"),
        ("3.25 + 4.61", "786", "point ignored"),
        ("0.6 × 0.07", "42", "point ignored"),
        ("8.4 ÷ 2", "42", "point ignored"),
        ("3.7 + 4.8", "7.15", "whole and decimal parts worked apart"),
        ("24 + 18", "32", "carry written but not added"),
        ("67 + 58", "115", "carry written but not added"),
        ("67 + 58", "15", "carry dropped"),
        ("24 + 18", "52", "carry added twice"),
        ("24 + 18", "51", "carried figure and kept figure swapped"),
        ("63 − 29", "44", "exchange without lowering the next column"),
        ("140 − 21", "120", "zero minus n gives 0"),
        ("5.3 − 2.17", "3.27", "missing place copied down"),
        ("5.3 − 2.17", "3.2", "missing place left out"),
        ("6.2 − 2.1", "8.3", "adds instead"),
        ("0.6 × 0.7", "4.2", "point placed as in addition"),
        ("0.6 × 0.7", "2.1", "powers of ten added not multiplied"),
        ("304 × 6", "204", "zero digits skipped in multiplying"),
        ("24 × 6", "124", "carry not added in multiplying"),
        ("24 × 6", "244", "carry added before multiplying"),
        ("24 × 6", "162", "carried and kept figures swapped in multiplying"),
        ("24 × 16", "168", "rows of a long multiplication not moved along"),
        ("98 ÷ 7", "11 r 1", "remainder not carried"),
        ("816 ÷ 8", "12", "zero left out of a quotient"),
        ("840 ÷ 4", "21", "zero left out of a quotient"),
        ("8.4 ÷ 0.2", "4.2", "divisor made whole and dividend left as it was"),
        ("4 ÷ 8", "2", "divides larger by smaller"),
    ],
)
def test_worked_wrong_answers(question: str, answer: str, name: str) -> None:
    """Worked by hand, as each procedure says; no source."""
    assert wrong(name, question) == answer


@pytest.mark.parametrize(
    ("question", "answer", "name"),
    [
        ("3.45 × 10", "3.450", "nought added at the end"),
        ("3.45 × 100", "3.4500", "nought added at the end"),
        ("3.45 × 10", "0.345", "digits moved the wrong way"),
        ("45 × 100", "0.45", "digits moved the wrong way"),
        ("47.9 ÷ 10", "479", "digits moved the wrong way"),
        ("7 ÷ 1000", "7000", "digits moved the wrong way"),
        ("45 × 10", None, "nought added at the end"),  # which is right there
        ("47.9 ÷ 10", None, "remainder not carried"),  # nothing is shared out
        ("504 ÷ 10", None, "zero left out of a quotient"),
        ("0.5 ÷ 10", None, "divides larger by smaller"),
        ("40.5 × 100", None, "zero digits skipped in multiplying"),
    ],
)
def test_digits_moved_wrongly(question: str, answer: str | None, name: str) -> None:
    """Worked by hand; no source. They belong to digits that are moved, and to nothing else."""
    assert wrong(name, question, Ending.MOVED) == answer
    if mistake_named(name).moving:
        assert wrong(name, question) is None
        assert not mistake_named(name).concerns(asked(question))
        assert mistake_named(name).concerns(asked(question, Ending.MOVED))


@pytest.mark.parametrize(
    ("question", "places", "answer"),
    [
        ("699 ÷ 7", 0, None),  # 99.8…: the noughts of 100 come from rounding
        ("599 ÷ 30", 1, None),  # 19.96…
        ("6.37 ÷ 6", 1, "1.6"),  # 1.06…, written as 1.6
        ("721 ÷ 7", 1, "13"),  # 103.00
    ],
)
def test_a_nought_is_left_out_before_a_quotient_is_rounded(
    question: str, places: int, answer: str | None
) -> None:
    """Worked by hand; no source."""
    numbers = asked(question).operands
    rounded = Question(Operation.DIVIDE, numbers, Ending.ROUNDED, places)
    found = mistake_named("zero left out of a quotient").wrong_answer(rounded)
    assert (found.text if found else None) == answer


@pytest.mark.parametrize(
    ("question", "answer", "name"),
    [
        ("453 ÷ 5", "9 3/5", "zero left out of a quotient"),
        ("98 ÷ 5", "11 3/5", "remainder not carried"),
        ("4 ÷ 9", "2 1/4", "divides larger by smaller"),
    ],
)
def test_what_is_left_over_is_written_as_the_question_wants_it(
    question: str, answer: str, name: str
) -> None:
    """Worked by hand; no source."""
    assert wrong(name, question, Ending.FRACTION) == answer


@pytest.mark.parametrize(
    ("number", "places", "answer", "name"),
    [
        ("2.96", 1, "2.9", "cut off and not rounded"),
        ("2.93", 1, None, "cut off and not rounded"),  # which is right there
        ("47.5", 0, "47", "cut off and not rounded"),
        ("2.31", 1, "2.4", "always rounded up"),
        ("2.35", 1, None, "always rounded up"),
        ("341", -2, "400", "always rounded up"),
        ("3.96", 1, "3.10", "ten written where a nine goes over"),
        ("39.6", 0, "310", "ten written where a nine goes over"),
        ("9.97", 1, "9.10", "ten written where a nine goes over"),
        ("3.94", 1, None, "ten written where a nine goes over"),
        ("3.86", 1, None, "ten written where a nine goes over"),
    ],
)
def test_numbers_rounded_wrongly(number: str, places: int, answer: str | None, name: str) -> None:
    """Worked by hand; no source."""
    question = Question(Operation.ROUND, (Number.parse(number),), places=places)
    found = mistake_named(name).wrong_answer(question)
    assert (found.text if found else None) == answer


def test_a_remainder_written_as_a_decimal_digit() -> None:
    name = "remainder written as a decimal digit"
    assert wrong(name, "17 ÷ 3", Ending.REMAINDER) == "5.2"
    assert wrong(name, "432 ÷ 15", Ending.DECIMAL) == "28.12"
    assert wrong(name, "96 ÷ 8") is None


@pytest.mark.parametrize(
    ("question", "name"),
    [
        ("63 − 21", SMALLER),  # no column needs an exchange
        ("24 + 15", "carry dropped"),
        ("3.4 + 1.2", "numbers lined up at the right-hand end"),
        ("6 × 0.7", "point placed as in addition"),
        ("0.6 × 0.07", "powers of ten added not multiplied"),  # 42 ÷ 110 never ends
        ("96 ÷ 3", "remainder not carried"),
        ("0.6 × 0.7", SMALLER),  # a mistake of another operation
    ],
)
def test_a_procedure_that_nothing_sets_off_gives_no_wrong_answer(question: str, name: str) -> None:
    assert wrong(name, question) is None


RESNICK = "Resnick et al., J. Research in Mathematics Education 20 (1989), from memory"


@pytest.mark.parametrize(
    ("name", "smaller", "larger"),
    [
        ("more digits taken as larger", "4.8", "4.63"),
        ("more digits taken as larger", "0.5", "0.36"),
        ("more digits taken as larger", "4.7", "4.08"),
        ("fewer digits taken as larger", "4.4502", "4.45"),
        ("fewer digits taken as larger", "0.83", "0.4"),
        ("nought after the point handled apart", "4.08", "4.7"),
        ("nought after the point handled apart", "4.8", "4.63"),
    ],
)
def test_published_wrong_orders_of_decimals(name: str, smaller: str, larger: str) -> None:
    mistake = mistake_named(name)
    assert isinstance(mistake.procedure, JudgedBy)
    pair = Number.parse(larger), Number.parse(smaller)
    assert [str(number) for number in mistake.procedure.order(pair)] == [smaller, larger], RESNICK
    assert "Resnick" in mistake.source


numbers = st.builds(Number, st.integers(0, 99_999), st.integers(0, 3))
factors = st.builds(Number, st.integers(1, 999), st.integers(0, 2))


@st.composite
def questions(draw: st.DrawFn) -> Question:
    operation = draw(st.sampled_from([o for o in Operation if o.is_calculation]))
    if operation is Operation.ADD:
        return Question(operation, tuple(draw(st.lists(numbers, min_size=2, max_size=5))))
    if operation is Operation.SUBTRACT:
        pair = sorted((draw(numbers), draw(numbers)), key=lambda n: n.value)
        return Question(operation, (pair[1], pair[0]))
    if operation is Operation.MULTIPLY:
        return Question(operation, tuple(draw(st.lists(factors, min_size=2, max_size=3))))
    divisor, quotient = draw(factors), draw(factors)
    kind = draw(st.sampled_from([Ending.EXACT, Ending.REMAINDER, Ending.FRACTION]))
    if kind is Ending.EXACT:
        product = Question(Operation.MULTIPLY, (divisor, quotient)).answer.trimmed()
        return Question(operation, (product, divisor))
    return Question(operation, (Number(draw(st.integers(1, 9999))), Number(divisor.units)), kind)


@given(questions())
def test_a_wrong_answer_is_never_the_right_one(question: Question) -> None:
    for mistake in MISTAKES:
        given = mistake.wrong_answer(question)
        if given is not None:
            assert question.operation in mistake.operations
            assert not is_right(question, given)


@given(questions())
def test_the_right_answer_is_right_in_every_form_it_is_written_in(question: Question) -> None:
    right = right_reply(question)
    assert is_right(question, right)
    assert right in read_replies(question.answer_text)
    assert not is_right(question, Reply(right.value + 1, right.left))


@given(questions())
def test_what_a_procedure_gives_can_be_read_back_from_a_pupils_page(question: Question) -> None:
    for mistake in mistakes_of(question.operation):
        given = mistake.wrong_answer(question)
        if given is not None and len(given.text) <= 48:
            assert given in read_replies(given.text)


def test_forms_of_a_quotient_count_alike() -> None:
    question = asked("432 ÷ 15", Ending.FRACTION)
    for text in ("28 4/5", "28 12/15", "28.8", "28,8", "28 r 12"):
        assert any(is_right(question, given) for given in read_replies(text)), text
    for text in ("28.12", "28", "28 r 3", "28 5/4"):
        assert not any(is_right(question, given) for given in read_replies(text)), text


def test_every_mistake_says_what_the_teacher_needs() -> None:
    names = [mistake.name for mistake in MISTAKES]
    assert len(set(names)) == len(names)
    for mistake in MISTAKES:
        assert mistake.sentence.endswith(".")
        assert mistake.follow_up.endswith((".", "?"))
        assert mistake.source
    assert all(mistakes_of(operation) for operation in Operation if operation.is_calculation)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        (
            "remainder not carried",
            "the pupil divides each digit alone and loses what the column before left over.",
        ),
        ("zero minus n gives 0", "where the upper digit is 0, the pupil writes 0."),
        (
            "smaller digit taken from larger",
            "in each column the pupil takes the smaller digit from the larger, "
            "whichever stands above.",
        ),
    ],
)
def test_behind_a_colon_a_mistake_has_a_subject_and_no_capital(name: str, told: str) -> None:
    assert mistake_named(name).told == told


def test_every_mistake_told_is_its_sentence_with_a_subject_before_the_verb() -> None:
    for mistake in MISTAKES:
        before, subject, after = mistake.told.partition("the pupil ")
        assert subject
        assert (before + after).lower() == mistake.sentence.lower()
        assert after.split()[0].endswith("s")
        assert mistake.told[0].islower()


def test_no_sentence_of_a_mistake_in_equal_addition_too_says_that_a_column_gives() -> None:
    assert "give" not in mistake_named("exchange without lowering the next column").sentence


def test_answers_hold_exact_fractions() -> None:
    assert read_replies("28 4/5")[0].value == Fraction(144, 5)


@given(questions())
def test_what_is_worked_wrongly_on_squares_has_the_mistakes_own_answer(question: Question) -> None:
    for mistake in MISTAKES:
        working = wrong_working(question, mistake)
        if working is None:
            continue
        wrong = mistake.wrong_answer(question)
        assert wrong is not None
        assert working.answer.value == wrong.value
        squares = [(m.row, m.column, m.ink in SMALL_MARKS) for m in working.marks()]
        assert len(set(squares)) == len(squares)
        assert all(
            0 <= row < working.rows and 0 <= column < working.columns for row, column, _ in squares
        )


@pytest.mark.parametrize(
    ("question", "name"),
    [
        ("2.4 + 1.375", "numbers lined up at the right-hand end"),
        ("67 + 58", "carry written but not added"),
        ("67 + 58", "carried figure and kept figure swapped"),
        ("63 − 29", SMALLER),
        ("103 − 45", "stops at a zero"),
        ("304 − 105", "passes over a zero"),
    ],
)
def test_a_procedure_can_be_worked_on_squares(question: str, name: str) -> None:
    working = wrong_working(asked(question), mistake_named(name))
    assert working is not None
    given = [m.text for m in working.setting_out.marks if m.ink is Ink.GIVEN]
    assert given == [digit for digit in question if digit.isdigit()]


def test_numbers_lined_up_at_the_right_stand_so_on_the_squares() -> None:
    working = wrong_working(
        asked("2.4 + 1.375"), mistake_named("numbers lined up at the right-hand end")
    )
    assert working is not None
    last = {max(m.column for m in working.setting_out.marks if m.row == row) for row in (0, 1)}
    assert len(last) == 1
    assert len({point.column for point in working.setting_out.points}) == 2
    assert str(working.answer) == "1.399"


# What a mistake is said to do, and what its procedure does.


def said_lowered(first: str, second: str) -> str:
    """Each digit but 0 in front of the lower number's first digit lowered by one, by hand."""
    ahead = len(first) - len(second)
    lowered = "".join(str(int(d) - 1) if d != "0" else d for d in first[:ahead])
    return lowered + str(int(first[ahead:]) - int(second)).rjust(len(second), "0")


@pytest.mark.parametrize(
    ("first", "second"), [("35", "2"), ("405", "2"), ("3057", "41"), ("1999", "99"), ("648", "7")]
)
def test_what_is_lowered_is_what_is_said_to_be(first: str, second: str) -> None:
    assert "1 off each upper digit, exchange or not (a 0 stays)" in mistake_named(BLANK).sentence
    assert "the lower number has no more digits on the left" in mistake_named(BLANK).sentence
    assert wrong(BLANK, f"{first} − {second}") == said_lowered(first, second).lstrip("0")


def test_a_digit_is_lowered_whether_it_was_exchanged_from_or_not() -> None:
    # 12 − 8 = 4; the 4 tens are 3 after the exchange, and 2 are written.
    assert wrong(BLANK, "342 − 8") == "224"


def test_a_digit_behind_the_lower_number_is_not_lowered() -> None:
    assert wrong(BLANK, "5.37 − 2.1") is None
    assert wrong(BLANK, "15.37 − 2.1") == "3.27"


@pytest.mark.parametrize(
    ("question", "written"),
    [
        ("4.18 + 0.982", "4.1000"),
        ("3.7 + 4.8", "7.15"),
        ("3.7 + 4.3", "7.10"),
        ("3.70 − 1.2", "2.68"),
    ],
)
def test_parts_worked_apart_are_written_as_they_come(question: str, written: str) -> None:
    assert wrong("whole and decimal parts worked apart", question) == written


@pytest.mark.parametrize(
    ("numbers", "name", "order"),
    [
        (("0.05", "0.5", "0.12"), "more digits taken as larger", None),  # 5 and 5: a tie
        (("0.5", "0.05", "0.12"), "more digits taken as larger", None),
        (("0.4", "0.35", "0.2"), "more digits taken as larger", "0.2, 0.4, 0.35"),
    ],
)
def test_nothing_is_said_of_numbers_that_a_habit_takes_as_equal(numbers, name, order) -> None:
    question = Question(Operation.ORDER, tuple(map(Number.parse, numbers)))
    found = mistake_named(name).works(question)
    assert (found and found.text) == order


@given(
    st.lists(
        st.builds(Number, st.integers(0, 999), st.integers(1, 3)),
        min_size=3,
        max_size=5,
        unique_by=lambda number: number.value,
    ),
    st.randoms(),
)
def test_what_a_habit_gives_hangs_not_on_the_printed_order(numbers, dice) -> None:
    mixed = dice.sample(numbers, len(numbers))
    for mistake in mistakes_of(Operation.ORDER):
        first, second = (
            mistake.works(Question(Operation.ORDER, tuple(order))) for order in (numbers, mixed)
        )
        assert (first and first.text) == (second and second.text)
