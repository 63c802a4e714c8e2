"""Mistakes in counting up: a jump that is not added."""

from typing import Final

from generator.arithmetic.numbers import total
from generator.arithmetic.questions import Operation, Question
from generator.operations.columns.counting_up import jumps_between
from generator.operations.mistake import NO_SOURCE, AnswerAlone, Mistake, reply
from specs.replies import Reply


def last_jump_left_out(question: Question) -> Reply | None:
    """932 − 457: 3 + 40 + 400, up to 900: 443. None where there is one jump alone."""
    minuend, subtrahend = question.operands
    if minuend.value < subtrahend.value:
        return None
    sizes = tuple(jump.size for jump in jumps_between(subtrahend, minuend))
    return reply(total(sizes[:-1])) if len(sizes) > 1 else None


def first_jump_left_out(question: Question) -> Reply | None:
    """932 − 457: from 460 on 40 + 400 + 32: 472. None where there is one jump alone."""
    minuend, subtrahend = question.operands
    if minuend.value < subtrahend.value:
        return None
    sizes = tuple(jump.size for jump in jumps_between(subtrahend, minuend))
    return reply(total(sizes[1:])) if len(sizes) > 1 else None


_SUBTRACT: Final = frozenset({Operation.SUBTRACT})
_WAYS: Final = frozenset({"counting up"})

LAST_LEFT_OUT: Final = Mistake(
    "last jump left out", _SUBTRACT, NO_SOURCE, AnswerAlone(last_jump_left_out), ways=_WAYS
)
FIRST_LEFT_OUT: Final = Mistake(
    "first jump left out", _SUBTRACT, NO_SOURCE, AnswerAlone(first_jump_left_out), ways=_WAYS
)
