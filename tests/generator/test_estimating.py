"""Estimates: each number to one significant figure, and which wrong answers that shows.

England's GCSE subject content asks for it: "estimate answers; check calculations using
approximation and estimation" (DfE, GCSE mathematics subject content, N14; from memory). How far
from an estimate an answer must be is common practice, no source.
"""

from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.estimating import FAR, estimate, to_one_figure
from generator.packs.building import build_pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts.planning.plan import Line
from layouts.sheets.sheet import sheet_pages
from specs.problems import SpecError
from specs.reading import read_spec
from tests.asked import question


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("34.9 × 6.3", "30 × 6 = 180"),
        ("932 − 457", "900 − 500 = 400"),
        ("3.17 + 6.56", "3 + 7 = 10"),
        ("0.47 × 0.082", "0.5 × 0.08 = 0.04"),
        ("432 ÷ 15", "400 ÷ 20 = 20"),
        ("98 ÷ 7", "100 ÷ 7 ≈ 10"),
        ("0.95 ÷ 4", "1 ÷ 4 ≈ 0.3"),
        ("66.4 ÷ 2", "70 ÷ 2 = 35"),
        ("2.9 × 3.1 × 48", "3 × 3 × 50 = 450"),
    ],
)
def test_numbers_are_rounded_to_one_figure(text, written):
    assert estimate(question(text)).text == written


def test_why_it_is_near_is_said():
    up = estimate(question("9.7 × 9.5"))
    assert (
        up.first == "Estimate first: 9.7 rounds to 10 and 9.5 rounds to 10, so about 10 × 10 = 100."
    )
    assert up.afterwards == (
        "The estimate was 100, the answer is 92.15. Rounding has made the estimate too large."
    )
    mixed = estimate(question("3.17 + 6.56")).afterwards
    assert mixed.endswith("One rounding made the estimate larger, another made it smaller.")
    # Both are rounded up, which makes a difference larger and smaller.
    turned = estimate(question("9.6 − 2.7"))
    assert (
        turned.first == "Estimate first: 9.6 rounds to 10 and 2.7 rounds to 3, so about 10 − 3 = 7."
    )
    assert turned.afterwards.endswith(
        "One rounding made the estimate larger, another made it smaller."
    )
    # What is taken away is rounded up, so too little is left.
    assert estimate(question("40 − 17")).afterwards.endswith("too small.")


@pytest.mark.parametrize("text", ["6 × 0.07", "300 + 40", "80 ÷ 4"])
def test_numbers_of_one_figure_need_no_estimate(text):
    assert estimate(question(text)) is None


numbers = st.builds(Number, st.integers(1, 10**6), st.integers(0, 4))


@given(numbers)
def test_rounding_agrees_with_decimal(number):
    context = Context(prec=1, rounding=ROUND_HALF_UP)
    assert Decimal(str(to_one_figure(number))) == context.plus(Decimal(str(number)))


asked = st.builds(
    Question,
    st.sampled_from([Operation.ADD, Operation.SUBTRACT, Operation.MULTIPLY]),
    st.tuples(numbers, numbers),
) | st.builds(
    lambda numbers: Question(Operation.DIVIDE, numbers, Ending.ROUNDED, 2),
    st.tuples(numbers, st.builds(Number, st.integers(2, 99), st.integers(0, 1))),
)


def exactly(question: Question) -> Fraction:
    first, second = (number.value for number in question.operands)
    match question.operation:
        case Operation.ADD:
            return first + second
        case Operation.SUBTRACT:
            return first - second
        case Operation.MULTIPLY:
            return first * second
        case _:
            return first / second


@given(asked)
def test_what_is_said_of_an_estimate_is_true(question):
    first, second = question.operands
    assume(question.operation is not Operation.SUBTRACT or first.value > second.value)
    found = estimate(question)
    assume(found is not None)
    right, size = exactly(question), found.size.value
    if "too large" in found.afterwards:
        assert size > right
    elif "too small" in found.afterwards:
        assert size < right
    assert not found.shows_wrong(right), "the right answer is never shown to be wrong"
    if question.operation in (Operation.ADD, Operation.MULTIPLY):
        assert right < FAR * size
        assert size < FAR * right
        assert found.shows_wrong(right * 10)
        assert found.shows_wrong(right / 10)


# On pages.

SPEC = """\
title: Produce stall
ladder:
  times: {operation: multiply, digits: [2, 2], places: [1, 1]}
  adding: {operation: add, places: 1, whole: 2}
pages: {estimate: ESTIMATE}
starter: {adding: 4}
examples: [times]
tiers:
  support: {adding: 3, times: 3}
  core: {times: 4}
"""


def sections(wish: str):
    spec = read_spec(SPEC.replace("ESTIMATE", wish).encode(), "stall.yaml", VOCABULARY)
    return {section.name: section for section in work(build_pack(spec, 3))}


def test_estimates_are_asked_for_on_all_sheets_or_by_tier():
    assert all(section.is_estimated for section in sections("true").values())
    found = sections("{support: true}")
    asking = {name for name, section in found.items() if section.is_estimated}
    assert asking == {"support", "examples"}
    assert not any(section.is_estimated for section in sections("false").values())
    with pytest.raises(SpecError, match="which no sheet is"):
        sections("{top: true}")


def test_each_question_has_a_line_to_estimate_on_and_the_head_says_so():
    without, found = sections("false")["support"], sections("true")["support"]
    (page,), (plain,) = sheet_pages(found), sheet_pages(without)
    signs = [text for text in page.texts if text.text == "≈"]
    assert len(signs) == len(found.items) == 6
    assert any("estimate first" in text.text for text in page.texts)
    lines = [len([i for i in one.items if isinstance(i, Line)]) for one in (page, plain)]
    assert lines[0] == lines[1] + 6
    assert not any(text.text == "≈" for text in plain.texts)


def test_the_key_says_which_wrong_answers_the_estimate_shows():
    for item in sections("true")["core"].items:
        wrong = {wrong.causes[0]: wrong.far for wrong in item.wrong_answers_to_expect}
        assert wrong["point placed as in adding"], "ten times as large as the answer"
    for item in sections("false")["core"].items:
        assert not any(wrong.far for wrong in item.wrong_answers_to_expect)


def test_examples_are_estimated_first_and_looked_at_again():
    first, *_ = sections("true")["examples"].items
    said = [step.sentence for step in first.example.right.steps]
    assert said[0].startswith("Estimate first: ")
    assert said[-1].startswith("The estimate was ")
