"""What is said of a question and its working is a saying to its last word: any language has it.

``tests.untranslated`` has a language in Greek letters; a Latin letter in it was no saying.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.estimating import estimate
from generator.operations.methods import written_working
from generator.operations.mistakes import mistakes_of
from generator.operations.products.known_fact import related_product, whole_number_fact
from generator.operations.quotients.related_quotient import follows_from_its_fact, related_quotient
from generator.operations.worked_wrongly import wrong_working
from generator.operations.working import Conventions, Ink, Working
from tests.generator.ladders import questions
from tests.untranslated import NOBODYS

RUNGS = (
    "operation: add, addends: 4, places: {ragged: [0, 3]}, whole: {between: [0, 3]}",
    "operation: add, places: {between: [0, 2]}, whole: 2, carries: none",
    "operation: add, places: {ragged: [0, 2]}, whole: {between: [1, 2]}",
    "operation: add, places: 0, whole: 3, carries: every",
    "operation: subtract, places: {between: [0, 3]}, whole: {between: [1, 2]}",
    "operation: subtract, places: [0, 3], whole: 1, exchanges: {through_zeros: 2}",
    "operation: subtract, places: 0, whole: {between: [2, 4]}, answer: {ends_in_zero: true}",
    "operation: subtract, places: 1, whole: 1, answer: {below: 1}",
    "operation: order, places: {between: [0, 3]}, whole: {between: [0, 2]}",
    "operation: order, places: {ragged: [1, 3]}, whole: 1, same_to: ones",
    "operation: compare, places: {between: [1, 2]}, same_to: tenths, zeros: {end: allow}",
    "operation: round, places: 3, whole: {between: [0, 3]}, to: [hundreds, ones, hundredths]",
    "operation: round, places: 2, whole: 2, to: [tens, tenths], over_nine: require",
    "operation: multiply, power_of_ten: {places: [0, 3], whole: [0, 3]}",
    "operation: divide, power_of_ten: {places: [0, 3], whole: [0, 3]}",
    "operation: multiply, digits: 1, places: {between: [0, 2]}, zeros: {end: allow}",
    "operation: multiply, digits: [3, 1], places: {between: [0, 2]}, zeros: {end: allow}",
    "operation: multiply, digits: 3, places: {between: [0, 2]}",
    "operation: multiply, digits: 2, places: 0, carries: none, zeros: {end: require}",
    "operation: multiply, factors: 3, digits: [2, 1, 1], places: {between: [0, 1]}",
    "operation: divide, dividend: {digits: [1, 4]}, places: {between: [0, 2]}, "
    "divisor: {between: [2, 25]}, divisor_places: {between: [0, 2]}",
    "operation: divide, dividend: 3, divisor: {digits: [1, 2]}, ending: remainder",
    "operation: divide, dividend: {digits: [1, 3]}, divisor: {digits: [1, 2]}, ending: fraction",
    "operation: divide, places: {between: [0, 1]}, divisor: [4, 8, 25], ending: {decimal: 2}",
    "operation: divide, places: {between: [0, 2]}, divisor: [3, 7, 11], ending: {rounded: 0}",
    "operation: divide, dividend: 4, divisor: [3, 7, 11], ending: {rounded: 2}",
)
_BY_NO_RUNG = (
    ((1203, 0), (4567, 0)),
    ((25, 0), (4, 0), (3, 0)),
    ((0, 0), (20, 0)),
    ((0, 1), (3, 0)),
    ((5, 1), (7, 0), Ending.FRACTION),
    ((85, 1), (15, 1), Ending.REMAINDER),
)
"""Numbers (units, places) of products and divisions that no rung has, and that still are worked."""
_ASKED = 24
_WAYS = (
    ("columns", "short", "exchange"),
    ("grid", "long", "equal addition"),
    ("expanded", "chunking", "counting up"),
)
_ON_ITS_LINE = {
    "factors": "on one line",
    "first_row": "the highest digit",
    "product_carries": "kept in mind",
}
_SCHOOLS = tuple(
    Conventions(
        carries, placeholders, subtraction, multiplication=multiplication, division=division
    )
    for carries, placeholders, (multiplication, division, subtraction) in product(
        ("below", "above"), (True, False), _WAYS
    )
)
_SCHOOLS += tuple(replace(_SCHOOLS[0], carries=at, **_ON_ITS_LINE) for at in ("between", "below"))
_WORDS = (Ink.HEADING, Ink.NOTE, Ink.LEFT_OVER)


def _of_working(working: Working) -> Iterator[str]:
    for step in working.steps:
        yield step.sentence
        yield from (mark.text for mark in step.marks if mark.ink in _WORDS)


def _said(question: Question, conventions: Conventions) -> Iterator[str]:
    yield question.text
    yield question.answer_text
    yield from _of_working(written_working(question, conventions))
    if estimated := estimate(question):
        yield from (estimated.first, estimated.afterwards)
    if whole_number_fact(question) and question.operation is Operation.MULTIPLY:
        yield from _of_working(related_product(question))
    elif whole_number_fact(question) and follows_from_its_fact(question):
        yield from _of_working(related_quotient(question))
    for mistake in mistakes_of(question.operation):
        wrong = wrong_working(question, mistake, conventions)
        yield from _of_working(wrong) if wrong else ()


@pytest.mark.parametrize("rung", RUNGS)
def test_it_is_a_saying(rung: str) -> None:
    asked = questions(rung)
    said = [*asked.widenings]
    for at in range(_ASKED):
        question = asked.unrank(at * (asked.count - 1) // (_ASKED - 1))
        said += _said(question, _SCHOOLS[at % len(_SCHOOLS)])
        said += asked.signature(question).features
    assert [text for text in said if re.search("[A-Za-z]", NOBODYS.says(text))] == []


@pytest.mark.parametrize("asked", _BY_NO_RUNG)
def test_what_no_rung_asks_is_a_saying(asked: tuple[tuple[int, int] | Ending, ...]) -> None:
    numbers = tuple(Number(*each) for each in asked if isinstance(each, tuple))
    endings = [each for each in asked if isinstance(each, Ending)]
    operation = Operation.DIVIDE if endings else Operation.MULTIPLY
    question = Question(operation, numbers, *endings)
    said = [text for school in _SCHOOLS for text in _of_working(written_working(question, school))]
    assert [text for text in said if re.search("[A-Za-z]", NOBODYS.says(text))] == []


@pytest.mark.parametrize("operation", Operation)
def test_a_sign_read_aloud_is_a_saying(operation: Operation) -> None:
    assert not re.search("[A-Za-z]", NOBODYS.says(operation.spoken))
