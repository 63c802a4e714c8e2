"""Wrong procedures: what a wrong answer says about how it was reached.

``MISTAKES`` is the one table of them. A further mistake is one more row (and its
procedure, in the module of its kind).
"""

from typing import Final

from generator.arithmetic.questions import Operation
from generator.operations.columns import carrying, exchanging, setting_out
from generator.operations.mistake import Mistake, agree, is_right, reply, right_reply
from generator.operations.order import misreading as ordering
from generator.operations.order.misreading import ORDERING, OrderingMistake
from generator.operations.powers import moving
from generator.operations.products import multiplying
from generator.operations.quotients import dividing
from generator.operations.rounding import misrounding as rounding
from specs.replies import Reply

__all__ = [
    "MISTAKES",
    "ORDERING",
    "Mistake",
    "OrderingMistake",
    "Reply",
    "agree",
    "is_right",
    "mistake_named",
    "mistakes_of",
    "reply",
    "right_reply",
]

MISTAKES: Final[tuple[Mistake, ...]] = (
    setting_out.LINED_UP,
    exchanging.SMALLER_FROM_LARGER,
    carrying.NOT_ADDED,
    carrying.DROPPED,
    exchanging.NOT_LOWERED,
    setting_out.COPIED,
    setting_out.DROPPED,
    exchanging.STOPS,
    exchanging.PASSES_OVER,
    exchanging.ZERO_GIVES_N,
    exchanging.ZERO_GIVES_ZERO,
    exchanging.ONE_WHERE_BLANK,
    exchanging.BOTH,
    setting_out.PARTS_APART,
    carrying.SWAPPED,
    carrying.TWICE,
    moving.NOUGHT_ADDED,
    moving.WRONG_WAY,
    multiplying.POINT_AS_IN_ADDITION,
    multiplying.ZEROS_SKIPPED,
    multiplying.CARRY_NOT_ADDED,
    multiplying.NOUGHT_LEFT_OUT,
    multiplying.CARRY_ADDED_FIRST,
    multiplying.CARRY_SWAPPED,
    multiplying.POWERS_ADDED,
    dividing.NOT_CARRIED,
    dividing.ZERO_LEFT_OUT,
    dividing.REMAINDER_AS_DECIMAL,
    dividing.NOT_SCALED,
    dividing.LARGER_BY_SMALLER,
    setting_out.POINT_IGNORED,
    setting_out.ADDS_INSTEAD,
    rounding.CUT_OFF,
    rounding.ALWAYS_UP,
    rounding.TEN_IN_ONE_COLUMN,
    ordering.MORE_DIGITS,
    ordering.FEWER_DIGITS,
    ordering.ZERO_APART,
)
"""Every mistake, in each operation the more common before the less (common practice, no source)."""


def mistakes_of(operation: Operation) -> tuple[Mistake, ...]:
    """The mistakes of an operation, more common ones first."""
    return tuple(mistake for mistake in MISTAKES if operation in mistake.operations)


def mistake_named(name: str) -> Mistake:
    """The mistake of that name. Raises KeyError when there is none."""
    for mistake in MISTAKES:
        if mistake.name == name:
            return mistake
    raise KeyError(name)
