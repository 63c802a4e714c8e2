"""Two factors with equally many digits: either may be the one that is multiplied.

A product carries in other places when its factors change places: 34 × 13 does twice, 13 × 34
once. The numbers are printed in the usual order, the greater first, where that has what is asked,
and in the other where only that has. Both orders are followed at once along the digits of one
factor: each digit is multiplied by the other factor's digits in the usual order, and makes a row
of its own when they are turned.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from generator.operations.products.counting import ProductColumn, ProductWatch, Rows, row_of
from generator.operations.products.factors import Multiplier, OrderedCondition

_Watches = tuple[ProductWatch[Any], ...] | None
_States = tuple[Hashable, ...] | None
"""What watches remember; None once one of them is broken."""


class _Followed(NamedTuple):
    """What is remembered of the usual order, of what it is to share, and of the other order."""

    usual: _States
    shared: _States
    turned: _States


def either_order(
    multiplier: Multiplier,
    asked: Sequence[OrderedCondition],
    shared: Sequence[OrderedCondition],
    usual_will_do: bool,
    turned_will_do: bool,
) -> _Watches:
    """Watches that a product has what is asked, and shares more, in the order that it is printed.

    That is the usual one where it has what is asked. An order will not do where the numbers
    must stand as those of another product do. None where neither will.
    """
    usual = _all_of([condition.watches(multiplier) for condition in asked])
    more = _all_of([condition.watches(multiplier) for condition in shared])
    turned = _all_of([condition.turned(multiplier) for condition in (*asked, *shared)])
    more = more if usual_will_do else None
    if turned is None or not turned_will_do:
        return _all_of([usual, more])
    rows = tuple(row_of(digit, multiplier.units) for digit in range(10))
    return (EitherOrder(usual, more, turned, rows),)


def _all_of(found: Sequence[_Watches]) -> _Watches:
    if any(watches is None for watches in found):
        return None
    return tuple(watch for watches in found for watch in watches or ())


@dataclass(frozen=True, slots=True)
class EitherOrder:
    """A watch over both orders. ``products`` are the rows that each digit makes, turned."""

    usual: _Watches
    shared: _Watches
    turned: _Watches
    products: tuple[tuple[bool, ...], ...]

    @property
    def rows(self) -> Rows:
        """What its watches look at."""
        watches = (*(self.usual or ()), *(self.shared or ()))
        return max((watch.rows for watch in watches), default=Rows.IGNORED)

    @property
    def start(self) -> _Followed:
        """Before the first digit."""
        return _Followed(_start(self.usual), _start(self.shared), _start(self.turned))

    def step(self, state: _Followed, column: ProductColumn) -> _Followed | None:
        """Both orders after a digit, or None when neither will do."""
        usual = _after(self.usual, state.usual, column)
        shared = None if usual is None else _after(self.shared, state.shared, column)
        as_row = column._replace(carries=self.products[column.digit])
        turned = _after(self.turned, state.turned, as_row)
        if shared is None and turned is None:
            return None
        return _Followed(usual, shared, turned)

    def accepts(self, state: _Followed) -> bool:
        """Whether the order that is printed has what is asked and shared."""
        if _accepted(self.usual, state.usual):
            return _accepted(self.shared, state.shared)
        return _accepted(self.turned, state.turned)


def _start(watches: _Watches) -> _States:
    return None if watches is None else tuple(watch.start for watch in watches)


def _after(watches: _Watches, states: _States, column: ProductColumn) -> _States:
    if watches is None or states is None:
        return None
    found = []
    for watch, state in zip(watches, states, strict=True):
        after = watch.step(state, column)
        if after is None:
            return None
        found.append(after)
    return tuple(found)


def _accepted(watches: _Watches, states: _States) -> bool:
    if watches is None or states is None:
        return False
    return all(watch.accepts(state) for watch, state in zip(watches, states, strict=True))
