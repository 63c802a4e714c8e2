"""The outline of a column question: what the conditions of a rung narrow, one after another."""

from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation
from generator.operations.columns.column_work import (
    SUBTRAHEND_WEIGHT,
    Form,
    Watch,
    add_column,
    subtract_column,
)
from generator.operations.columns.fills import Kind, Role


@dataclass(frozen=True, slots=True)
class Outline:
    """What the numbers may look like, and what is watched while they are worked.

    ``kinds`` has an entry for each number, in the order of printing. ``watches`` follow
    the columns from the right. ``distinct`` allows no digit twice in a column.
    """

    operation: Operation
    kinds: tuple[Kind, ...]
    watches: tuple[Watch[Any], ...] = ()
    distinct: bool = False

    def watched_by(self, *watches: Watch[Any]) -> "Outline":
        """The outline with further watches."""
        return replace(self, watches=(*self.watches, *watches))

    def with_kinds(self, *kinds: Kind) -> "Outline":
        """The outline with the numbers' kinds replaced."""
        return replace(self, kinds=kinds)

    def fixing(self, at: int, number: Number) -> "Outline":
        """The outline in which one number, from 0 in the order of printing, is settled.

        One that questions lack settles nothing: a check of the rung's words says so.
        """
        if at >= len(self.kinds):
            return self
        kinds = list(self.kinds)
        kinds[at] = replace(kinds[at], only=number)
        return self.with_kinds(*kinds)

    @property
    def form(self) -> Form:
        """What the column automaton counts."""
        if self.operation is Operation.SUBTRACT:
            first, second = self.kinds
            roles = (
                Role(first, 1, digit_weight=1, presence_weight=1),
                Role(second, 1, digit_weight=SUBTRAHEND_WEIGHT, presence_weight=2),
            )
            return Form(roles, subtract_column, 0, self.watches, self.distinct)
        kinds = sorted(self.kinds, key=lambda kind: (kind.places, kind.whole, str(kind.only or "")))
        counted = tuple(Role(kind, len(list(alike))) for kind, alike in groupby(kinds))
        return Form(counted, add_column, 1, self.watches, self.distinct)
