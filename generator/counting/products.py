"""Products of whole numbers: which products carry when they are worked, counted exactly.

In the written working the multiplicand stands on top. Each digit of the multiplier but
nought makes a row: from the right, the digit times each digit of the multiplicand, plus
what was carried. A product carries when it comes to ten or more, what was carried to it
included; the left-most product too, although its ten is written straight into the row.

For one multiplier the multiplicand is gone through digit by digit from the right. What
the rest depends on is what each row carries and what each watch remembers: counting the
ways from there gives the exact number of multiplicands, and walking the counts fetches
one by number. Few states arise, because what all the rows carry hangs on one number, the
digits gone through so far.
"""

from bisect import bisect_right
from collections.abc import Hashable, Iterable
from enum import IntEnum
from functools import lru_cache
from itertools import accumulate
from typing import NamedTuple, Protocol


class Rows(IntEnum):
    """What a watch sees of the rows of a working."""

    IGNORED = 0
    IN_ANY_ORDER = 1  # multipliers with the same digits are alike
    IN_ORDER = 2


class ProductColumn(NamedTuple):
    """One digit of the multiplicand, and which rows' products carry there.

    ``place`` counts from the right; ``top`` marks the left-most digit.
    """

    place: int
    digit: int
    carries: tuple[bool, ...]
    top: bool


class ProductWatch(Protocol):
    """A condition that follows the multiplicand from the right, remembering a little.

    ``step`` gives the state after a digit, or None when the condition is broken there;
    ``accepts`` says at the end whether it is met. Watches are hashable values.
    """

    @property
    def rows(self) -> Rows:
        """What ``step`` looks at."""

    @property
    def start(self) -> Hashable:
        """The state before the right-most digit."""

    def step(self, state: Hashable, column: ProductColumn) -> Hashable | None:
        """The state after a digit, or None."""

    def accepts(self, state: Hashable) -> bool:
        """Whether the condition is met once all digits are done."""


@lru_cache(maxsize=1 << 16)
def _times(
    rows: tuple[int, ...], carried: tuple[int, ...], digit: int
) -> tuple[tuple[bool, ...], tuple[int, ...]]:
    """Which rows carry at a digit of the multiplicand, and what each carries on."""
    totals = [row * digit + carry for row, carry in zip(rows, carried, strict=True)]
    return tuple(total >= 10 for total in totals), tuple(total // 10 for total in totals)


def carries(multiplicand: int, multiplier: int) -> tuple[tuple[bool, ...], ...]:
    """For each digit of the multiplier, from the right, which products carry, from the right.

    A nought of the multiplier makes no row: its entry is empty.
    """
    found = []
    for row in map(int, reversed(str(multiplier))):
        carried, row_carries = 0, []
        for digit in map(int, reversed(str(multiplicand))):
            carried = (row * digit + carried) // 10
            row_carries.append(carried > 0)
        found.append(tuple(row_carries) if row else ())
    return tuple(found)


class _State(NamedTuple):
    carried: tuple[int, ...]
    remembered: tuple[Hashable, ...]


class _Branches(NamedTuple):
    """The digits that can come next, the states after them, and running totals of the ways."""

    digits: tuple[int, ...]
    states: tuple[_State, ...]
    upto: tuple[int, ...]


class Multiplicands:
    """The multiplicands of a length that every watch lets pass, as a numbered sequence.

    ``rows`` are the digits of the multiplier that make rows, in the order in which the
    watches see them.
    """

    def __init__(
        self, length: int, rows: tuple[int, ...], watches: tuple[ProductWatch, ...]
    ) -> None:
        self._length = length
        self._rows = rows
        self._watches = watches
        self._branches: dict[tuple[int, _State], _Branches] = {}
        self._ends: dict[tuple[Hashable, ...], int] = {}
        self._start = _State((0,) * len(rows), tuple(watch.start for watch in watches))
        self.count = self._ways(0, self._start)

    def unrank(self, number: int) -> int:
        """Multiplicand ``number``, 0 ≤ number < count."""
        found, state = 0, self._start
        for place in range(self._length):
            branches = self._branches[place, state]
            which = bisect_right(branches.upto, number)
            number -= branches.upto[which - 1] if which else 0
            found += branches.digits[which] * 10**place
            state = branches.states[which]
        return found

    def rank(self, multiplicand: int) -> int | None:
        """The number of a multiplicand, or None when it is not one of these."""
        if len(str(multiplicand)) != self._length or not self.count:
            return None
        number, state = 0, self._start
        for place in range(self._length):
            branches = self._branches[place, state]
            digit = multiplicand // 10**place % 10
            if digit not in branches.digits:
                return None
            which = branches.digits.index(digit)
            number += branches.upto[which - 1] if which else 0
            state = branches.states[which]
        return number

    def _ways(self, place: int, state: _State) -> int:
        """How many ways there are to write the digits from a place on."""
        known = self._branches.get((place, state))
        if known is None:
            known = self._branches[place, state] = self._branch_out(place, state)
        return known.upto[-1] if known.upto else 0

    def _branch_out(self, place: int, state: _State) -> _Branches:
        top = place == self._length - 1
        digits, states, ways = [], [], []
        for digit in range(1 if top else 0, 10):
            row_carries, carried = _times(self._rows, state.carried, digit)
            column = ProductColumn(place, digit, row_carries, top)
            remembered = self._watched(state.remembered, column)
            if remembered is None:
                continue
            after = _State(() if top else carried, remembered)
            onwards = self._accepted(remembered) if top else self._ways(place + 1, after)
            if onwards:
                digits.append(digit)
                states.append(after)
                ways.append(onwards)
        return _Branches(tuple(digits), tuple(states), tuple(accumulate(ways)))

    def _watched(
        self, before: tuple[Hashable, ...], column: ProductColumn
    ) -> tuple[Hashable, ...] | None:
        """What the watches remember after a digit, or None when one is broken there."""
        remembered = []
        for watch, memory in zip(self._watches, before, strict=True):
            after = watch.step(memory, column)
            if after is None:
                return None
            remembered.append(after)
        return tuple(remembered)

    def _accepted(self, remembered: tuple[Hashable, ...]) -> int:
        """1 when every watch is content at the end, else 0."""
        if remembered not in self._ends:
            self._ends[remembered] = int(
                all(
                    watch.accepts(memory)
                    for watch, memory in zip(self._watches, remembered, strict=True)
                )
            )
        return self._ends[remembered]


class Watched(NamedTuple):
    """A multiplier, and the watches over its multiplicands."""

    multiplier: int
    watches: tuple[ProductWatch, ...]


class Pairs:
    """Pairs of a multiplicand of a length and a multiplier, as a numbered sequence.

    ``known`` remembers multiplicands already counted; sequences may share it.
    """

    def __init__(
        self,
        length: int,
        multipliers: Iterable[Watched],
        known: dict[Hashable, Multiplicands],
    ) -> None:
        self._multipliers: list[int] = []
        self._multiplicands: list[Multiplicands] = []
        for multiplier, watches in multipliers:
            rows = _rows_seen(multiplier, watches)
            key = (length, rows, watches)
            if key not in known:
                known[key] = Multiplicands(length, rows, watches)
            if known[key].count:
                self._multipliers.append(multiplier)
                self._multiplicands.append(known[key])
        self._upto = list(accumulate(found.count for found in self._multiplicands))
        self._place_of = {multiplier: at for at, multiplier in enumerate(self._multipliers)}

    @property
    def count(self) -> int:
        """How many pairs there are."""
        return self._upto[-1] if self._upto else 0

    def unrank(self, number: int) -> tuple[int, int]:
        """The multiplicand and multiplier of pair ``number``, 0 ≤ number < count."""
        at = bisect_right(self._upto, number)
        number -= self._upto[at - 1] if at else 0
        return self._multiplicands[at].unrank(number), self._multipliers[at]

    def rank(self, multiplicand: int, multiplier: int) -> int | None:
        """The number of a pair, or None when it is not one of these."""
        at = self._place_of.get(multiplier)
        found = None if at is None else self._multiplicands[at].rank(multiplicand)
        if at is None or found is None:
            return None
        return found + (self._upto[at - 1] if at else 0)


def _rows_seen(multiplier: int, watches: tuple[ProductWatch, ...]) -> tuple[int, ...]:
    """The rows of a multiplier so far as the watches see them."""
    seen = max((watch.rows for watch in watches), default=Rows.IGNORED)
    if seen is Rows.IGNORED:
        return ()
    rows = [int(digit) for digit in reversed(str(multiplier)) if digit != "0"]
    return tuple(rows if seen is Rows.IN_ORDER else sorted(rows))
