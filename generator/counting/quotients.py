"""Short divisions: which dividends a divisor divides in a given way, counted exactly.

The dividend's digits are gone through from the left. What the rest of a division depends
on is the remainder so far, whether the quotient has begun, on which side of the bounds
the dividend is, and what the watches remember. Counting the ways from there gives the
exact number of dividends, and walking the counts fetches one by number.

After the last digit come noughts that nobody chooses: those that a decimal divisor asks
for, then those by which a division is carried on into decimal places.
"""

from bisect import bisect_right
from collections.abc import Hashable
from dataclasses import dataclass
from itertools import accumulate
from typing import Final, NamedTuple, Protocol

from generator.numbers import Number
from generator.questions import Ending


class QuotientColumn(NamedTuple):
    """One column of a short division, once the quotient has begun.

    ``nought`` says that the quotient has a nought there; ``passes`` that a remainder is
    handed to the next column.
    """

    nought: bool
    passes: bool


class QuotientWatch(Protocol):
    """A condition that follows the quotient from the left, remembering a little.

    It sees the columns from the quotient's first digit other than nought. ``step`` gives
    the state after a column, or None when the condition is broken there; ``accepts`` says
    at the end whether it is met. Watches are hashable values.
    """

    @property
    def start(self) -> Hashable:
        """The state before the first column."""

    def step(self, state: Hashable, column: QuotientColumn) -> Hashable | None:
        """The state after a column, or None."""

    def accepts(self, state: Hashable) -> bool:
        """Whether the condition is met once all columns are done."""


@dataclass(frozen=True, slots=True)
class Finish:
    """What follows the dividend's last digit.

    ``filled`` noughts belong to the whole-number working of a decimal divisor. ``most``
    noughts more may follow, and ``fewest`` must, before nothing is left over (a decimal
    ending), or exactly ``most`` follow and something is left over still (rounded).
    """

    ending: Ending
    filled: int = 0
    fewest: int = 0
    most: int = 0


@dataclass(frozen=True, slots=True)
class Digits:
    """How a dividend's digits may be written.

    ``inside_zero`` and ``end_zero`` allow a nought between other digits and at the end;
    ``wants_inside`` and ``wants_end`` ask for one.
    """

    inside_zero: bool = True
    end_zero: bool = True
    wants_inside: bool = False
    wants_end: bool = False


ANY_DIGITS: Final = Digits()

_PENDING: Final = 1  # the digits so far end in a nought
_INSIDE: Final = 2  # there is a nought between other digits
_MOST_PLACES: Final = 12  # a quotient that still goes on here is taken to go on for ever


class _State(NamedTuple):
    remainder: int
    begun: bool
    noughts: int
    on_low: bool  # the digits so far are those of the lower bound
    on_high: bool
    remembered: tuple[Hashable, ...]


class _Branches(NamedTuple):
    """The digits that can come next, the states after them, and running totals of the ways."""

    digits: tuple[int, ...]
    states: tuple[_State, ...]
    upto: tuple[int, ...]


class Dividends:
    """The dividends that a divisor divides as asked, as a numbered sequence for each length.

    ``low`` and ``high`` bound the dividend as a whole number of its digits.
    """

    def __init__(
        self,
        divisor: int,
        finish: Finish,
        watches: tuple[QuotientWatch, ...],
        digits: Digits,
        low: int | None = None,
        high: int | None = None,
    ) -> None:
        self._divisor = divisor
        self._finish = finish
        self._watches = watches
        self._digits = digits
        self._low, self._high = low, high
        self._start = tuple(watch.start for watch in watches)
        self._branches: dict[tuple[int, _State], _Branches] = {}
        self._finished: dict[_State, bool] = {}
        self._steps: dict[tuple[tuple[Hashable, ...], bool, bool], tuple[Hashable, ...] | None] = {}
        self._minds_noughts = not digits.inside_zero or digits.wants_inside or digits.wants_end
        self._no_remainder = finish.ending is Ending.EXACT and not finish.filled

    def count(self, length: int) -> int:
        """How many dividends of so many digits there are."""
        start = self._start_of(length)
        return 0 if start is None else self._ways(length, start)

    def unrank(self, length: int, number: int) -> int:
        """Dividend ``number`` of so many digits, 0 ≤ number < count(length)."""
        found, state = 0, self._start_of(length)
        assert state is not None
        for left in range(length, 0, -1):
            branches = self._branches[left, state]
            which = bisect_right(branches.upto, number)
            number -= branches.upto[which - 1] if which else 0
            found = 10 * found + branches.digits[which]
            state = branches.states[which]
        return found

    def rank(self, dividend: int) -> int | None:
        """The number of a dividend among those of its length, or None when it is not here."""
        digits = list(map(int, str(dividend)))
        number, state = 0, self._start_of(len(digits))
        if state is None or not self._ways(len(digits), state):
            return None
        for left, digit in zip(range(len(digits), 0, -1), digits, strict=True):
            branches = self._branches[left, state]
            if digit not in branches.digits:
                return None
            which = branches.digits.index(digit)
            number += branches.upto[which - 1] if which else 0
            state = branches.states[which]
        return number

    def _start_of(self, length: int) -> _State | None:
        """The state before the first digit; None when no dividend of that length is in bounds."""
        on_low = self._low is not None and self._low >= 10 ** (length - 1)
        on_high = self._high is not None and self._high < 10**length
        if on_low and self._low is not None and self._low >= 10**length:
            return None
        if on_high and self._high is not None and self._high < 10 ** (length - 1):
            return None
        return _State(0, False, 0, on_low, on_high, self._start)

    def _choices(self, left: int, state: _State) -> range:
        """The digits worth trying when so many are left to write; the first is no nought."""
        lowest = 0 if state.begun or state.remainder else 1
        if left == 1 and self._no_remainder:
            last = -10 * state.remainder % self._divisor
            return range(last or lowest * self._divisor, 10, self._divisor)
        return range(lowest, 10)

    def _ways(self, left: int, state: _State) -> int:
        """How many ways there are to write the last digits, so many left."""
        if not left:
            if state not in self._finished:
                self._finished[state] = self._finishes(state)
            return int(self._finished[state])
        known = self._branches.get((left, state))
        if known is None:
            known = self._branches[left, state] = self._branch_out(left, state)
        return known.upto[-1] if known.upto else 0

    def _branch_out(self, left: int, state: _State) -> _Branches:
        digits, states, ways = [], [], []
        for digit in self._choices(left, state):
            after = self._after(left, state, digit)
            onwards = self._ways(left - 1, after) if after else 0
            if after and onwards:
                digits.append(digit)
                states.append(after)
                ways.append(onwards)
        return _Branches(tuple(digits), tuple(states), tuple(accumulate(ways)))

    def _after(self, left: int, state: _State, digit: int) -> _State | None:
        """The state after a digit, or None when it cannot stand there."""
        remainder, begun, noughts, on_low, on_high, remembered = state
        if not digit and left == 1 and not self._digits.end_zero:
            return None
        if self._minds_noughts:
            if digit and noughts & _PENDING:
                if not self._digits.inside_zero:
                    return None
                noughts = _INSIDE
            elif not digit:
                noughts |= _PENDING
        if on_low or on_high:
            bounds = self._within(left, digit, on_low, on_high)
            if bounds is None:
                return None
            on_low, on_high = bounds
        quotient, after = divmod(10 * remainder + digit, self._divisor)
        if quotient or begun:
            last = left == 1 and self._finish.ending in (Ending.REMAINDER, Ending.FRACTION)
            following = self._watched(remembered, not quotient, after > 0 and not last)
            if following is None:
                return None
            remembered, begun = following, True
        return _State(after, begun, noughts, on_low, on_high, remembered)

    def _within(
        self, left: int, digit: int, on_low: bool, on_high: bool
    ) -> tuple[bool, bool] | None:
        """Whether the digits are still those of the bounds, or None when they are beyond one."""
        if on_low and self._low is not None:
            bound = self._low // 10 ** (left - 1) % 10
            if digit < bound:
                return None
            on_low = digit == bound
        if on_high and self._high is not None:
            bound = self._high // 10 ** (left - 1) % 10
            if digit > bound:
                return None
            on_high = digit == bound
        return on_low, on_high

    def _watched(
        self, remembered: tuple[Hashable, ...], nought: bool, passes: bool
    ) -> tuple[Hashable, ...] | None:
        key = (remembered, nought, passes)
        if key not in self._steps:
            self._steps[key] = self._step(remembered, QuotientColumn(nought, passes))
        return self._steps[key]

    def _step(
        self, remembered: tuple[Hashable, ...], column: QuotientColumn
    ) -> tuple[Hashable, ...] | None:
        after = []
        for watch, memory in zip(self._watches, remembered, strict=True):
            state = watch.step(memory, column)
            if state is None:
                return None
            after.append(state)
        return tuple(after)

    def _finishes(self, state: _State) -> bool:
        """Whether a division whose dividend is written out ends as asked."""
        wants_inside, wants_end = self._digits.wants_inside, self._digits.wants_end
        if (wants_inside and not state.noughts & _INSIDE) or (
            wants_end and not state.noughts & _PENDING
        ):
            return False
        end = self._worked_on(state)
        return end is not None and all(
            watch.accepts(memory)
            for watch, memory in zip(self._watches, end.remembered, strict=True)
        )

    def _worked_on(self, state: _State) -> _State | None:
        """The state after the noughts that follow the dividend; None when it cannot end so."""
        finish = self._finish
        for _ in range(finish.filled):
            following = self._nought_divided(state)
            if following is None:
                return None
            state = following
        if finish.ending is Ending.EXACT:
            return None if state.remainder else state
        if not state.remainder:
            return None
        if finish.ending in (Ending.REMAINDER, Ending.FRACTION):
            return state if state.begun else None
        for more in range(1, finish.most + 1):
            following = self._nought_divided(state)
            if following is None:
                return None
            state = following
            if not state.remainder:
                return state if finish.ending is Ending.DECIMAL and more >= finish.fewest else None
        return state if finish.ending is Ending.ROUNDED and state.begun else None

    def _nought_divided(self, state: _State) -> _State | None:
        quotient, after = divmod(10 * state.remainder, self._divisor)
        if not quotient and not state.begun:
            return state._replace(remainder=after)
        following = self._watched(state.remembered, not quotient, after > 0)
        if following is None:
            return None
        return state._replace(remainder=after, begun=True, remembered=following)


def short_division(
    dividend: Number, divisor: Number, ending: Ending, places: int
) -> tuple[QuotientColumn, ...]:
    """The columns of a division from the quotient's first digit other than nought.

    A rounded one is worked to its ``places``. Both numbers are first made so many times
    larger that the divisor is whole.
    """
    digits = str(dividend.units) + "0" * max(divisor.places - dividend.places, 0)
    last_place = -max(dividend.places - divisor.places, 0)
    columns: list[QuotientColumn] = []
    remainder, at = 0, 0
    while at < len(digits) or _goes_on(ending, remainder, last_place - (at - len(digits)), places):
        digit = int(digits[at]) if at < len(digits) else 0
        at += 1
        quotient, remainder = divmod(10 * remainder + digit, divisor.units)
        if quotient or columns:
            last = at == len(digits) and ending in (Ending.REMAINDER, Ending.FRACTION)
            columns.append(QuotientColumn(not quotient, remainder > 0 and not last))
    return tuple(columns)


def _goes_on(ending: Ending, remainder: int, place: int, places: int) -> bool:
    """Whether a division goes on beyond its dividend, whose last worked place is given."""
    if ending is Ending.ROUNDED:
        return -place < places
    return ending is Ending.DECIMAL and remainder > 0 and -place < _MOST_PLACES
