"""Mistakes with what is carried, in column addition.

A habit says what somebody writes for a column's total and what is carried on. The columns are
gone through in one place (``CarriedBy.columns``): the answer is read off that, and so are the
marks on squares.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final, NamedTuple

from generator.arithmetic.questions import Operation, Question
from generator.operations.columns.addition import column_addition
from generator.operations.columns.on_squares import set_out_as, with_steps
from generator.operations.mistake import NO_SOURCE, Mistake, read_digits, reply
from generator.operations.working import Conventions, Ink, Mark, Step, Working
from specs.languages.saying import say
from specs.replies import Reply

ColumnHabit = Callable[[int, bool], tuple[int, int]]
"""From a column's total and whether it is the left-most: the figure that is written, and what
is added to the next column."""


class _Column(NamedTuple):
    """A column as somebody adds it; the left-most is ``last``."""

    place: int
    total: int
    written: int
    last: bool


@dataclass(frozen=True, slots=True)
class CarriedBy:
    """A column addition in which totals are written and carried by a habit.

    ``noted`` is the small digit that is written for a total of ten or more, None for none.
    """

    habit: ColumnHabit
    noted: Callable[[int], int | None]

    def columns(self, question: Question) -> Iterator[_Column]:
        """The columns from the right."""
        numbers, carry = question.operands, 0
        first = min(number.last_place for number in numbers)
        top = max(number.top_place for number in numbers)
        for place in range(first, top + 1):
            total = carry + sum(number.digit(place) for number in numbers)
            written, carry = self.habit(total, place == top)
            yield _Column(place, total, written, place == top)

    def reply(self, question: Question) -> Reply | None:
        """The figures of the answer; None when no column makes ten."""
        columns = list(self.columns(question))
        if all(column.total < 10 for column in columns):
            return None
        return reply(read_digits({column.place: column.written for column in columns}))

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """The figures in the answer's row, and the small ones that are noted."""
        right = column_addition(question, conventions.of_addition)
        squares = right.places
        _, carry_row, answer_row, _ = conventions.sum_rows(len(question.operands))
        steps = set_out_as(right)
        for place, total, written, last in self.columns(question):
            marks = [Mark(answer_row, squares[place], str(written % 10), Ink.ANSWER)]
            if written >= 10:
                tens = str(written // 10)
                marks.append(Mark(answer_row, squares[place + 1], tens, Ink.ANSWER))
            noted = self.noted(total)
            if total >= 10 and not last and noted is not None:
                marks.append(Mark(carry_row, squares[place + 1], str(noted), Ink.CARRY))
            sentence = say(
                "This column makes {total}: {written} is written.", total=total, written=written
            )
            steps.append(Step(sentence, squares[place], tuple(marks)))
        return with_steps(right, steps)


def tens(total: int) -> int:
    """The small digit of whoever notes the tens."""
    return total // 10


def ones(total: int) -> int:
    """The small digit of whoever notes the ones."""
    return total % 10


def nothing(total: int) -> None:
    """No small digit."""


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

# 67 + 58: 15, write 5 and a small 1; 6 + 5 = 11: 115. The small 1 is never added.
NOT_ADDED: Final = Mistake(
    "carry written but not added", _ADD, NO_SOURCE, CarriedBy(nothing_added, tens)
)
# 67 + 58: 15, write 5; 11, write 1: 15. The tens of every column are lost.
DROPPED: Final = Mistake("carry dropped", _ADD, NO_SOURCE, CarriedBy(last_digits_only, nothing))
# 24 + 18: 12, write 2, carry 1; 2 + 1 + 1 + 1 = 5: 52.
TWICE: Final = Mistake("carry added twice", _ADD, NO_SOURCE, CarriedBy(added_twice, tens))
# 24 + 18: 12, write 1, carry 2; 2 + 1 + 2 = 5: 51.
SWAPPED: Final = Mistake(
    "carried figure and kept figure swapped", _ADD, NO_SOURCE, CarriedBy(swapped, ones)
)
