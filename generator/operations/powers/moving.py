"""Mistakes in multiplying and dividing by ten, a hundred or a thousand."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import NO_SOURCE, AnswerAlone, Mistake, reply
from specs.replies import Reply


def nought_added(question: Question) -> Reply | None:
    """3.45 × 10 = 3.450: the rule that serves whole numbers."""
    number, power = question.operands[0], question.power_of_ten
    if not power or not number.places:
        return None
    return Reply(number.value, Fraction(0), f"{number}{'0' * power}")


def moved_the_wrong_way(question: Question) -> Reply | None:
    """47.9 ÷ 10 = 479, and 3.45 × 10 = 0.345."""
    number, power = question.operands[0], question.power_of_ten
    if not power:
        return None
    if question.operation is Operation.MULTIPLY:
        return reply(Number(number.units, number.places + power))
    return reply(Number(number.units * 10**power, number.places))


NOUGHT_ADDED: Final = Mistake(
    "nought added at the end",
    frozenset({Operation.MULTIPLY}),
    NO_SOURCE,
    AnswerAlone(nought_added),
    moving=True,
)
WRONG_WAY: Final = Mistake(
    "digits moved the wrong way",
    frozenset({Operation.MULTIPLY, Operation.DIVIDE}),
    NO_SOURCE,
    AnswerAlone(moved_the_wrong_way),
    moving=True,
)
