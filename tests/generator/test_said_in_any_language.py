"""What is said of a question and its working is a saying to its last word: any language has it.

``tests.untranslated`` has a language in Greek letters; a Latin letter in it was no saying.
"""

import re
from collections.abc import Iterator
from itertools import product

import pytest

from generator.arithmetic.questions import Operation, Question
from generator.operations.methods import written_working
from generator.operations.mistakes import mistakes_of
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
)
_ASKED = 24
_SCHOOLS = tuple(
    Conventions(carries, placeholders, subtraction)
    for carries, placeholders, subtraction in product(
        ("below", "above"), (True, False), ("exchange", "equal addition", "counting up")
    )
)
_WORDS = (Ink.HEADING, Ink.NOTE, Ink.LEFT_OVER)


def _of_working(working: Working) -> Iterator[str]:
    for step in working.steps:
        yield step.sentence
        yield from (mark.text for mark in step.marks if mark.ink in _WORDS)


def _said(question: Question, conventions: Conventions) -> Iterator[str]:
    yield question.text
    yield question.answer_text
    yield from _of_working(written_working(question, conventions))
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


@pytest.mark.parametrize("operation", Operation)
def test_a_sign_read_aloud_is_a_saying(operation: Operation) -> None:
    assert not re.search("[A-Za-z]", NOBODYS.says(operation.spoken))
