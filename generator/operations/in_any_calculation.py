"""Mistakes that more than one topic shares: the point is ignored, or another sign is read."""

from typing import Final

from generator.arithmetic.numbers import Number, total
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.mistake import NO_SOURCE, AnswerAlone, Mistake, reply
from specs.replies import Reply


def point_ignored(question: Question) -> Reply | None:
    """3.25 + 4.61 as 325 + 461, and no point in the answer: 786."""
    if not any(number.places for number in question.operands):
        return None
    whole = tuple(Number(number.units) for number in question.operands)
    if question.operation is Operation.DIVIDE:
        if not whole[1].units:
            return None
        exact = whole[0].value / whole[1].value
        return reply(Number(exact.numerator)) if exact.denominator == 1 else None
    if question.operation is Operation.SUBTRACT and whole[0].units < whole[1].units:
        return None
    return reply(Question(question.operation, whole, Ending.EXACT).answer)


def adds_instead(question: Question) -> Reply | None:
    """6 − 2 as 6 + 2."""
    return reply(total(question.operands))


POINT_IGNORED: Final = Mistake(
    "point ignored",
    frozenset(operation for operation in Operation if operation.is_calculation),
    NO_SOURCE,
    AnswerAlone(point_ignored),
)
ADDS_INSTEAD: Final = Mistake(
    "adds instead",
    frozenset({Operation.SUBTRACT, Operation.MULTIPLY}),
    NO_SOURCE,
    AnswerAlone(adds_instead),
)
MISTAKES: Final = (POINT_IGNORED, ADDS_INSTEAD)
