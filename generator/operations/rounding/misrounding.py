"""Mistakes in rounding."""

from fractions import Fraction
from math import ceil, floor
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import NO_SOURCE, AnswerAlone, Mistake, reply
from specs.replies import Reply


def cut_off(question: Question) -> Reply:
    """2.96 to 1 decimal place: 2.9. The digits that are not wanted are left out."""
    return reply(_counted(floor(_in_steps(question)), question.places))


def always_up(question: Question) -> Reply:
    """2.31 to 1 decimal place: 2.4, whatever follows."""
    return reply(_counted(ceil(_in_steps(question)), question.places))


def ten_in_one_column(question: Question) -> Reply | None:
    """3.96 to 1 decimal place: 3.10. The 9 becomes 10 where it stands."""
    exact = _in_steps(question)
    steps = floor(exact)
    if steps % 10 != 9 or exact - steps < Fraction(1, 2):
        return None
    written = _counted(steps // 10 * 100 + 10, question.places + (question.places > 0))
    return Reply(written.value, Fraction(0), str(written))


def _in_steps(question: Question) -> Fraction:
    """The number, counted in units of the column that it is rounded to."""
    return question.operands[0].value * Fraction(10) ** question.places


def _counted(steps: int, places: int) -> Number:
    """So many units of a column (``places`` below 0: tens, hundreds)."""
    return Number(steps, places) if places >= 0 else Number(steps * 10**-places)


_ROUND: Final = frozenset({Operation.ROUND})

CUT_OFF: Final = Mistake("cut off and not rounded", _ROUND, NO_SOURCE, AnswerAlone(cut_off))
ALWAYS_UP: Final = Mistake("always rounded up", _ROUND, NO_SOURCE, AnswerAlone(always_up))
TEN_IN_ONE_COLUMN: Final = Mistake(
    "ten written where a nine goes over", _ROUND, NO_SOURCE, AnswerAlone(ten_in_one_column)
)
