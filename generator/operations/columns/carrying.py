"""Mistakes with what is carried, in column addition."""

from collections.abc import Callable
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import NO_SOURCE, Mistake, read_digits, reply
from specs.replies import Reply

ColumnHabit = Callable[[int, bool], tuple[int, int]]
"""From a column's total and whether it is the left-most: the figure that is written, and what
is added to the next column."""


def _columns(numbers: tuple[Number, ...]) -> range:
    return range(min(n.last_place for n in numbers), max(n.top_place for n in numbers) + 1)


def _added(question: Question, habit: ColumnHabit) -> Reply | None:
    """The addition worked by a habit; None when no column makes ten."""
    columns = _columns(question.operands)
    written, carry, carried = {}, 0, False
    for place in columns:
        column_total = carry + sum(number.digit(place) for number in question.operands)
        carried = carried or column_total >= 10
        written[place], carry = habit(column_total, place == columns[-1])
    return reply(read_digits(written)) if carried else None


def carry_dropped(question: Question) -> Reply | None:
    """67 + 58: 15, write 5; 11, write 1: 15. The tens of every column are lost."""
    return _added(question, last_digits_only)


def carry_not_added(question: Question) -> Reply | None:
    """67 + 58: 15, write 5 and a small 1; 6 + 5 = 11: 115. The small 1 is never added."""
    return _added(question, nothing_added)


def carry_added_twice(question: Question) -> Reply | None:
    """24 + 18: 12, write 2, carry 1; 2 + 1 + 1 + 1 = 5: 52."""
    return _added(question, added_twice)


def carry_swapped(question: Question) -> Reply | None:
    """24 + 18: 12, write 1, carry 2; 2 + 1 + 2 = 5: 51."""
    return _added(question, swapped)


def last_digits_only(column: int, last: bool) -> tuple[int, int]:
    """Of each total the ones, and nothing carried."""
    return column % 10, 0


def nothing_added(column: int, last: bool) -> tuple[int, int]:
    """The right digit, and nothing added to the next column."""
    return column if last else column % 10, 0


def added_twice(column: int, last: bool) -> tuple[int, int]:
    """The right digit, and twice what is carried."""
    return _kept(column, last, 2)


def swapped(column: int, last: bool) -> tuple[int, int]:
    """The tens written, the ones carried."""
    return _kept(column, last, 1) if last or column < 10 else (column // 10, column % 10)


def _kept(column: int, last: bool, times: int) -> tuple[int, int]:
    return (column, 0) if last else (column % 10, times * (column // 10))


_ADD: Final = frozenset({Operation.ADD})
_CARRY: Final = (
    "Build a column of ten or more with counters, trade ten for one of the next column, and "
    "write the carried digit where it will be added."
)

NOT_ADDED: Final = Mistake(
    "carry written but not added",
    _ADD,
    "Writes the carried digit and then leaves it out of the next column.",
    _CARRY,
    NO_SOURCE,
    carry_not_added,
)
DROPPED: Final = Mistake(
    "carry dropped",
    _ADD,
    "Writes only the last digit of each column's total, in the left-most column too.",
    _CARRY,
    NO_SOURCE,
    carry_dropped,
)
TWICE: Final = Mistake(
    "carry added twice",
    _ADD,
    "Adds the carried digit at the start of the next column and again at its end.",
    "Have the carried digit crossed out as soon as it has been added.",
    NO_SOURCE,
    carry_added_twice,
)
SWAPPED: Final = Mistake(
    "carried figure and kept figure swapped",
    _ADD,
    "Writes the tens of a column's total in the answer and carries the ones.",
    "Say the total in words, one ten and two: the two stays in its column, the ten moves left.",
    NO_SOURCE,
    carry_swapped,
)
