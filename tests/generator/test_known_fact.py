"""Decimal relatives of a whole-number fact: 24 × 16 = 384, so 2.4 × 0.16 = 0.384.

The facts 24 × 16 = 384, 124 × 26 = 3224 and 98 ÷ 7 = 14 are of the England appendix
(DfE, "National curriculum in England: mathematics programmes of study", Appendix 1,
DFE-00180-2013; numbers from memory). Answers are checked by ``decimal``.
"""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.forms.asking import CannotBeAskedError
from generator.forms.form import Written
from generator.forms.known_fact import KnownFact
from generator.operations.products.known_fact import related_product
from generator.operations.quotients.related_quotient import related_quotient
from generator.operations.rungs import rung_set
from generator.operations.working import Conventions
from generator.packs.building import build_pack
from generator.packs.record import read_record, record
from tests.generator.ladders import spec
from tests.generator.sentences import read


def question(operation: Operation, *numbers: str) -> Question:
    return Question(operation, tuple(map(Number.parse, numbers)))


@pytest.mark.parametrize(
    ("operation", "numbers", "printed", "answer"),
    [
        ("multiply", ("2.4", "0.16"), "24 × 16 = 384, so 2.4 × 0.16 =", "0.384"),
        ("multiply", ("1.24", "26"), "124 × 26 = 3224, so 1.24 × 26 =", "32.24"),
        ("multiply", ("0.5", "0.04"), "5 × 4 = 20, so 0.5 × 0.04 =", "0.02"),
        ("divide", ("9.8", "0.7"), "98 ÷ 7 = 14, so 9.8 ÷ 0.7 =", "14"),
        ("divide", ("0.98", "7"), "98 ÷ 7 = 14, so 0.98 ÷ 7 =", "0.14"),
    ],
)
def test_a_question_is_asked_from_its_fact(operation, numbers, printed, answer):
    asked = question(Operation(operation), *numbers)
    form = KnownFact.of(asked)
    assert form is not None
    assert form.asked(asked) == printed
    assert form.reply(asked) == answer


@pytest.mark.parametrize(
    ("operation", "numbers"),
    [
        ("multiply", ("24", "16")),  # the fact itself
        ("divide", ("0.5", "2")),  # 5 ÷ 2 is not whole
        ("add", ("2.4", "1.6")),
        ("subtract", ("2.4", "1.6")),
    ],
)
def test_some_questions_follow_from_no_fact(operation, numbers):
    assert KnownFact.of(question(Operation(operation), *numbers)) is None


@given(
    st.lists(
        st.builds(Number, st.integers(1, 999), st.integers(0, 3)), min_size=2, max_size=3
    ).filter(lambda factors: any(factor.places for factor in factors))
)
def test_the_working_from_a_fact_lands_on_the_answer(factors):
    asked = Question(Operation.MULTIPLY, tuple(factors))
    working = related_product(asked)
    assert working.agrees_with(asked)
    product = Decimal(1)
    for factor in factors:
        product *= Decimal(str(factor))
    assert Decimal(str(working.answer)) == product


def test_the_steps_say_what_is_known_and_how_digits_move():
    said = [
        step.sentence for step in related_product(question(Operation.MULTIPLY, "2.4", "0.16")).steps
    ]
    assert said == [
        "Begin with what is known: 24 × 16 = 384.",
        "2.4 is 24 ÷ 10.",
        "0.16 is 16 ÷ 100.",
        "10 × 100 = 1000: divide the whole-number answer by 1000.",
        "384 ÷ 1000: 384 ones become 384 thousandths, so 0.384.",
    ]


QUOTIENTS = st.tuples(
    st.integers(1, 999), st.integers(1, 99), st.integers(0, 3), st.integers(0, 3)
).filter(lambda numbers: any(numbers[2:]))


@given(QUOTIENTS, st.sampled_from(["line", "column"]))
def test_a_quotient_scales_its_fact_and_divides_nothing(numbers, point):
    quotient, divisor, first, second = numbers
    operands = (Number(quotient * divisor, first), Number(divisor, second))
    asked = Question(Operation.DIVIDE, operands)
    form, conventions = KnownFact.of(asked), Conventions(point=point)
    assert form is not None
    working = form.working(Written.by(asked, conventions))
    assert working.agrees_with(asked)
    assert working.fits_its_squares
    assert not working.uprights_drawn(), "no half-box: the fact is known"
    assert len(working.steps) <= 4
    begin, *others = [step.sentence for step in working.steps]
    assert begin == f"Begin with what is known: {form.fact.text} = {form.fact.answer}."
    for said in (begin, *others):
        assert read(said)


def test_the_steps_of_a_quotient_scale_one_number_at_a_time():
    said = [
        step.sentence for step in related_quotient(question(Operation.DIVIDE, "39.8", "0.2")).steps
    ]
    assert said == [
        "Begin with what is known: 398 ÷ 2 = 199.",
        "39.8 is 398 ÷ 10, so divide the answer by 10 too: 39.8 ÷ 2 = 19.9.",
        "0.2 is 2 ÷ 10, so it goes in 10 times as often: 39.8 ÷ 0.2 = 199.",
    ]


RUNG = "related: {operation: multiply, digits: 2, places: {between: [0, 2]}, form: known fact}"


def test_a_rung_of_facts_is_its_multiplications_and_reads_back():
    read = spec(RUNG, "examples: [related]\ntiers:\n  core: {related: 5}\n")
    pack = build_pack(read, 4, versions=2)
    for section in pack.sections:
        for item in section.items:
            assert isinstance(item.form, KnownFact)
            assert item.question in rung_set(read.rung("related"))
    back = read_record(record(pack))
    assert [i.form for s in back.sections for i in s.items] == [
        i.form for s in pack.sections for i in s.items
    ]


def test_a_rung_of_whole_numbers_follows_from_nothing():
    read = spec("related: {operation: multiply, digits: 2, places: [0, 0], form: known fact}")
    with pytest.raises(CannotBeAskedError, match="follows from a whole-number fact"):
        build_pack(read, 1)
