"""Decimals put in order, and two compared."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.order import conditions, misreading
from generator.operations.order.conditions import OrderOutline
from generator.operations.order.ordering import comparison, ordering
from generator.operations.order.questions import OrderQuestions
from generator.operations.topic import Topic, row
from generator.operations.working import Conventions, Working
from specs.replies import ORDER as AN_ORDER
from specs.replies import SIGN


def _looked_at(question: Question, conventions: Conventions) -> Working:
    """Numbers put in order, or two compared."""
    method = ordering if question.operation is Operation.ORDER else comparison
    return method(question, conventions)


def _answer_kind(question: Question) -> str:
    return AN_ORDER if question.operation is Operation.ORDER else SIGN


def _minutes(question: Question) -> Fraction:
    return Fraction(1)


ORDER: Final = Topic(
    "order",
    outlines={
        Operation.ORDER: OrderOutline(Operation.ORDER, conditions.NUMBERS_DEFAULT),
        Operation.COMPARE: OrderOutline(Operation.COMPARE, 2),
    },
    questions=OrderQuestions,
    conditions=(
        row(conditions.NUMBERS, conditions.narrow_numbers, conditions.NUMBERS_DEFAULT),
        row(conditions.PLACES, conditions.narrow_places, conditions.PLACES_DEFAULT),
        row(conditions.WHOLE, conditions.narrow_whole, conditions.WHOLE_DEFAULT),
        row(conditions.SAME_TO, conditions.narrow_same_to),
        row(conditions.END_ZEROS, conditions.narrow_end_zeros),
    ),
    method=_looked_at,
    mistakes=(misreading.MORE_DIGITS, misreading.FEWER_DIGITS, misreading.ZERO_APART),
    minutes=_minutes,
    answer_kind=_answer_kind,
    numbers={Operation.ORDER: (2, 12), Operation.COMPARE: (2, 2)},
)
