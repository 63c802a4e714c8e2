"""Mistakes in rounding."""

from fractions import Fraction
from math import ceil, floor
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import NO_SOURCE, Mistake, reply
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

CUT_OFF: Final = Mistake(
    "cut off and not rounded",
    _ROUND,
    "Leaves the further digits out, however large they are.",
    "Mark 2.96 between 2.9 and 3.0 on a number line: which of the two is nearer?",
    NO_SOURCE,
    cut_off,
)
ALWAYS_UP: Final = Mistake(
    "always rounded up",
    _ROUND,
    "Makes the last digit one more, however small the digits behind it are.",
    "Mark 2.31 between 2.3 and 2.4 on a number line: which of the two is nearer?",
    NO_SOURCE,
    always_up,
)
TEN_IN_ONE_COLUMN: Final = Mistake(
    "ten written where a nine goes over",
    _ROUND,
    "Makes a 9 into 10 in its own column: 3.96 to 3.10.",
    "Count on in tenths from 3.8: 3.9, then 4.0, as ten tenths make one.",
    NO_SOURCE,
    ten_in_one_column,
)
