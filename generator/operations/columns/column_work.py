"""What is counted: numbers in their roles, the work of a column, and the watches over it."""

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import Any, NamedTuple, Protocol, TypeVar

from generator.operations.columns.facts import Column, Fact
from generator.operations.columns.fills import Role

State = TypeVar("State", bound=Hashable)
"""What a watch remembers."""


class Watch(Protocol[State]):
    """A condition that follows the columns from the right, remembering a little.

    ``step`` gives the state after a column, or None when the condition is broken there;
    ``accepts`` says at the end whether it is met. States are hashable and never None.
    """

    @property
    def needs(self) -> frozenset[Fact]:
        """The facts that ``step`` looks at, beyond place, carries and digit."""

    @property
    def start(self) -> State:
        """The state before the first column."""

    def step(self, state: State, column: Column) -> State | None:
        """The state after a column, or None."""

    def accepts(self, state: State) -> bool:
        """Whether the condition is met once all columns are done."""


class ColumnWork(NamedTuple):
    """What the written method does in a column: the answer's digit, what goes to the next
    column, and whether an exchange passes through a nought here.
    """

    digit: int
    carry_out: int
    passes_zero: bool


def add_column(total: int, carry_in: int) -> ColumnWork:
    """Addition of a column whose digits have a total."""
    carry_out, digit = divmod(total + carry_in, 10)
    return ColumnWork(digit, carry_out, False)


SUBTRAHEND_WEIGHT = 16  # a subtraction's column total is upper + 16 × lower


def subtract_column(total: int, carry_in: int) -> ColumnWork:
    """Subtraction of a column, which lends one to the right when ``carry_in`` is 1."""
    lower, upper = divmod(total, SUBTRAHEND_WEIGHT)
    left = upper - carry_in - lower
    return ColumnWork(left % 10, int(left < 0), upper == 0 and carry_in == 1)


@dataclass(frozen=True, slots=True)
class Form:
    """What is counted: numbers in their roles, the column work, and the watches over it.

    ``extra_columns`` are columns to the left of all numbers that the answer may reach.
    ``distinct`` allows no digit twice in a column.
    """

    roles: tuple[Role, ...]
    work: Callable[[int, int], ColumnWork]
    extra_columns: int
    watches: tuple[Watch[Any], ...]
    distinct: bool = False

    @property
    def columns(self) -> range:
        """The places from the right-most to the left-most."""
        last = min(role.kind.last_place for role in self.roles)
        top = max(role.kind.top_place for role in self.roles)
        return range(last, top + 1 + self.extra_columns)
