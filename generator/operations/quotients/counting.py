"""Short divisions: which dividends a divisor divides in a given way, counted exactly.

The dividend's digits are gone through from the left. What the rest of a division depends
on is the remainder so far, whether the quotient has begun, on which side of the bounds
the dividend is, and what the watches remember. Counting the ways from there gives the
exact number of dividends, and walking the counts fetches one by number.

After the last digit come noughts that nobody chooses: those that a decimal divisor asks
for, then those by which a division is carried on into decimal places.
"""

from collections.abc import Hashable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, cycle, islice
from math import gcd
from operator import add, sub
from typing import Any, Final, NamedTuple, Protocol, TypeVar

from generator.allowance import Meter
from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending


class QuotientColumn(NamedTuple):
    """One column of a short division, once the quotient has begun.

    ``nought`` says that the quotient has a nought there; ``passes`` that a remainder is
    handed to the next column.
    """

    nought: bool
    passes: bool


State = TypeVar("State", bound=Hashable)
"""What a watch remembers."""


class QuotientWatch(Protocol[State]):
    """A condition that follows the quotient from the left, remembering a little.

    It sees the columns from the quotient's first digit other than nought. ``step`` gives
    the state after a column, or None when the condition is broken there; ``accepts`` says
    at the end whether it is met. Watches are hashable values.
    """

    @property
    def start(self) -> State:
        """The state before the first column."""

    def step(self, state: State, column: QuotientColumn) -> State | None:
        """The state after a column, or None."""

    def accepts(self, state: State) -> bool:
        """Whether the condition is met once all columns are done."""


@dataclass(frozen=True, slots=True)
class Finish:
    """What follows the dividend's last digit.

    ``filled`` noughts belong to the whole-number working of a decimal divisor. ``most``
    noughts more may follow, and ``fewest`` must, before nothing is left over (a decimal
    ending), or exactly ``most`` follow and something is left over still (rounded). ``cancels``
    says whether the fraction of what is left over must cancel, or must not; None: either.
    ``cut`` of the dividend's own last digits stand after the place to which a quotient is
    rounded. No column of the quotient is theirs; they leave something over, as no decimal
    ends in a nought.
    """

    ending: Ending
    filled: int = 0
    fewest: int = 0
    most: int = 0
    cancels: bool | None = None
    cut: int = 0


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

    @property
    def satisfied_by_one(self) -> bool:
        """Whether nothing hangs on further noughts once one stands between other digits."""
        return self.inside_zero and not self.wants_end


ANY_DIGITS: Final = Digits()

_PENDING: Final = 1  # the digits so far end in a nought
_INSIDE: Final = 2  # there is a nought between other digits
_MOST_PLACES: Final = 12  # a quotient that still goes on here is taken to go on for ever


class _Past:
    """What the rest of a division hangs on, beside the remainder and the bounds.

    ``begun`` says whether the quotient has a digit yet. What follows is found once.
    """

    __slots__ = ("after", "after_nought", "begun", "noughts", "remembered")

    def __init__(self, begun: bool, noughts: int, remembered: tuple[Hashable, ...]) -> None:
        self.begun = begun
        self.noughts = noughts
        self.remembered = remembered
        # By what happens in a column: whether it is the dividend's last one, and whether it
        # stands after the place rounded to.
        self.after: dict[tuple[bool, bool], list[_Past | None]] = {}
        self.after_nought: list[_Past | None] = []


_DIGIT: Final = 4
_QUOTIENT: Final = 2
_REMAINDER: Final = 1
_EVENTS: Final = range(8)
"""What happens in a column, as a sum: 4 where the dividend's digit there is no nought, 2 where
the quotient's is none, 1 where something is left over. Dividing 609 by 4:

    6: 1, 2 over    4 + 2 + 1
    0: 5, 0 over        2
    9: 2, 1 over    4 + 2 + 1

Lists "by what happens in a column" are indexed by it: entry 0 is for nought, nought, nothing
over. A nought after the dividend's last digit has the first four entries only."""


class _Pasts:
    """The pasts that watches and the dividend's noughts tell apart, whatever the divisor."""

    def __init__(
        self, watches: tuple[QuotientWatch[Any], ...], digits: Digits, leaves_something: bool
    ) -> None:
        self._watches = watches
        self._digits = digits
        self._leaves_something = leaves_something
        self._minds_noughts = not digits.inside_zero or digits.wants_inside or digits.wants_end
        self._known: dict[tuple[bool, int, tuple[Hashable, ...]], _Past] = {}
        self.start = self.past(False, 0, tuple(watch.start for watch in watches))

    def past(self, begun: bool, noughts: int, remembered: tuple[Hashable, ...]) -> _Past:
        """The one past of this sort."""
        key = (begun, noughts, remembered)
        if key not in self._known:
            self._known[key] = _Past(*key)
        return self._known[key]

    def after(self, past: _Past, last: bool, cut: bool) -> list[_Past | None]:
        """By what happens in a column the past after it, or None when it cannot be so."""
        if (last, cut) not in past.after:
            past.after[last, cut] = [self._after(past, last, cut, event) for event in _EVENTS]
        return past.after[last, cut]

    def _after(self, past: _Past, last: bool, cut: bool, event: int) -> _Past | None:
        noughts, digit = past.noughts, event & _DIGIT
        if last and not digit and not self._digits.end_zero:
            return None
        if self._minds_noughts:
            if digit and noughts & _PENDING:
                if not self._digits.inside_zero:
                    return None
                noughts = _INSIDE
            elif not digit and (not self._digits.satisfied_by_one or not noughts & _INSIDE):
                noughts |= _PENDING
        if cut:  # the quotient has all the digits that it will have
            return self.past(True, noughts, past.remembered) if past.begun else None
        passes = bool(event & _REMAINDER) and not (last and self._leaves_something)
        return self._watched(past, bool(event & _QUOTIENT), passes, noughts)

    def after_nought(self, past: _Past) -> list[_Past | None]:
        """The same after a nought that follows the dividend."""
        if not past.after_nought:
            past.after_nought = [
                self._watched(past, bool(event & _QUOTIENT), bool(event & _REMAINDER), past.noughts)
                for event in _EVENTS[:_DIGIT]
            ]
        return past.after_nought

    def _watched(self, past: _Past, quotient: bool, passes: bool, noughts: int) -> _Past | None:
        """The past once a digit of the quotient, if one is written, has been watched."""
        if not quotient and not past.begun:
            return self.past(False, noughts, past.remembered)
        column = QuotientColumn(not quotient, passes)
        remembered = []
        for watch, memory in zip(self._watches, past.remembered, strict=True):
            after = watch.step(memory, column)
            if after is None:
                return None
            remembered.append(after)
        return self.past(True, noughts, tuple(remembered))

    def accepts(self, past: _Past) -> bool:
        """Whether all that is asked of the quotient and of the dividend's noughts is met."""
        wants_inside, wants_end = self._digits.wants_inside, self._digits.wants_end
        if (wants_inside and not past.noughts & _INSIDE) or (
            wants_end and not past.noughts & _PENDING
        ):
            return False
        return all(
            watch.accepts(memory)
            for watch, memory in zip(self._watches, past.remembered, strict=True)
        )


# What counting costs, in steps of the allowance: a table, beside its remainders; a remainder on
# a bound, with the digits that may follow.
_TABLE: Final = 20
_ON_BOUNDS: Final = 30

_pasts = lru_cache(maxsize=64)(_Pasts)  # one for all divisors


class _State(NamedTuple):
    """A past, and whether the digits so far are those of the lower and the upper bound."""

    past: _Past
    on_low: bool
    on_high: bool


class _Branch(NamedTuple):
    """A digit that can come next, what it leads to, and the ways from there."""

    digit: int
    remainder: int
    past: _Past
    ways: int


class Divisions:
    """Divisions by a divisor that are worked and end as asked, however long the dividend.

    A digit of the quotient is found from a remainder and the next digit, together a number
    below ten times the divisor. So ways are counted for all remainders at once: those for
    each such number, ten of which go with each remainder.
    """

    def __init__(
        self,
        divisor: int,
        finish: Finish,
        watches: tuple[QuotientWatch[Any], ...],
        digits: Digits,
        meter: Meter | None = None,
    ) -> None:
        self.divisor = divisor
        self.meter = meter or Meter()
        self._finish = finish
        self._leaves_something = finish.ending in (Ending.REMAINDER, Ending.FRACTION)
        self._pasts = _pasts(watches, digits, self._leaves_something)
        self._tables: dict[tuple[int, _Past], list[int]] = {}
        self._onwards: dict[tuple[int, _Past], list[tuple[_Past, list[int]]]] = {}
        self._none = [0] * divisor

    @property
    def start(self) -> _Past:
        """The past before the first digit."""
        return self._pasts.start

    def table(self, left: int, past: _Past) -> list[int]:
        """For each remainder the ways to write the last digits, so many left.

        Where none are left, or fewer than none: after so many noughts beyond the dividend.
        """
        known = self._tables.get((left, past))
        if known is None:
            self.meter.spend(_TABLE + self.divisor)
            known = self._by_next_digit(left, past) if left > 0 else self._ended(-left, past)
            self._tables[left, past] = known if any(known) else self._none
        return known

    def _ended(self, noughts: int, past: _Past) -> list[int]:
        """For each remainder 1 if the division ends as asked from there, else 0."""
        ending, more = self._finish.ending, noughts - self._finish.filled
        if more < 0:
            return self._worked_on(noughts, past)
        accepted = int(self._pasts.accepts(past))
        something = [0] + [accepted * past.begun] * (self.divisor - 1)
        if self._finish.cut:
            return [accepted * past.begun] * self.divisor
        if ending is Ending.EXACT:
            return [accepted, *self._none[1:]]
        if self._leaves_something:
            cancels = self._finish.cancels
            if cancels is not None:
                for left in range(1, self.divisor):
                    something[left] *= (gcd(left, self.divisor) > 1) is cancels
            return something
        if more < self._finish.most:
            found = self._worked_on(noughts, past)
        else:
            found = something if ending is Ending.ROUNDED else self._none[:]
        ends = ending is Ending.DECIMAL and 0 < more >= self._finish.fewest
        found[0] = accepted if ends else 0
        return found

    def _worked_on(self, noughts: int, past: _Past) -> list[int]:
        """The same, when one nought more is brought down."""
        onwards = [
            self._none if following is None else self.table(-noughts - 1, following)
            for following in self._pasts.after_nought(past)
        ]
        return self._after_each(onwards)[::10]

    def _by_next_digit(self, left: int, past: _Past) -> list[int]:
        """The same, when any digit may be next: ten numbers go with each remainder."""
        onwards, divisor = self._tables_after(left, past), self.divisor
        if all(table is self._none for table in onwards):
            return self._none
        each = self._after_each(onwards[_DIGIT:])
        # each[n] are the ways where remainder and digit together make n, 0 ≤ n < 10 × divisor.
        # A remainder r goes with the ten numbers from 10 r on: wanted is the sum of each such
        # ten. From n = divisor on, each[n] hangs on n mod divisor alone (the quotient is no
        # nought there). For divisor 3, with a, b, c the ways for 0, 1 and 2 over:
        #
        #   n         0 1 2 | 3 4 5 | 6 7 8 | 9 10 11 | …
        #   each      x y z | a b c | a b c | a b  c  | …
        #   r = 1 needs n = 10 … 19:  b c a b c a b c a b
        #
        # So the sums of ten in a row repeat after ``divisor`` of them. One round of them is
        # added up and repeated; every tenth is a remainder's. The few remainders with numbers
        # below the divisor among their ten are added up by themselves.
        running = accumulate(islice(cycle(each[divisor : 2 * divisor]), divisor + 9), initial=0)
        sums = list(running)
        found = (list(map(sub, sums[10:], sums)) * 10)[::10]
        for first in range(0, divisor, 10):
            found[first // 10] = sum(each[first : first + 10])
        noughts = each[::10]
        if onwards[:_DIGIT] != onwards[_DIGIT:]:
            taken, noughts = noughts, self._after_each(onwards[:_DIGIT])[::10]
            found = list(map(add, map(sub, found, taken), noughts))
        if not past.begun:
            found[0] -= noughts[0]  # the dividend's first digit is no nought
        return found

    def _after_each(self, onwards: list[list[int]]) -> list[int]:
        """The ways for each number that a remainder and the next digit make.

        ``onwards`` are the ways when that digit is a nought, or when it is none. The quotient is
        nought below the divisor, then one to nine; at its multiples nothing is left over.
        """
        below = onwards[0][:1] + onwards[_REMAINDER][1:]
        return below + (onwards[_QUOTIENT][:1] + onwards[_QUOTIENT + _REMAINDER][1:]) * 9

    def onwards(self, left: int, past: _Past) -> list[tuple[_Past, list[int]]]:
        """By what happens at the next digit: the past after it, and its table."""
        known = self._onwards.get((left, past))
        if known is None:
            pasts = (following or past for following in self._after(left, past))
            known = list(zip(pasts, self._tables_after(left, past), strict=True))
            self._onwards[left, past] = known
        return known

    def _tables_after(self, left: int, past: _Past) -> list[list[int]]:
        """By what happens at the next digit, the ways from there for each remainder."""
        return [
            self._none if following is None else self.table(left - 1, following)
            for following in self._after(left, past)
        ]

    def _after(self, left: int, past: _Past) -> list[_Past | None]:
        return self._pasts.after(past, left == 1, left <= self._finish.cut)


class Dividends:
    """The dividends that a divisor divides as asked, as a numbered sequence for each length.

    ``low`` and ``high`` bound the dividend as a whole number of its digits.
    """

    def __init__(
        self, divisions: Divisions, low: int | None = None, high: int | None = None
    ) -> None:
        self._divisions = divisions
        self._low, self._high = low, high
        self._on_bounds: dict[tuple[int, int, _State], int] = {}

    def count(self, length: int) -> int:
        """How many dividends of so many digits there are."""
        start = self._start_of(length)
        return 0 if start is None else self._ways(length, 0, start)

    def unrank(self, length: int, number: int) -> int:
        """Dividend ``number`` of so many digits, 0 ≤ number < count(length)."""
        state = self._start_of(length)
        assert state is not None
        found = remainder = 0
        for left in range(length, 0, -1):
            past, on_low, on_high = state
            if not (on_low or on_high):
                return found * int(10**left) + self._unrank(left, remainder, past, number)
            for branch in self._each(left, remainder, state):
                if number < branch.ways:
                    break
                number -= branch.ways
            found, remainder = 10 * found + branch.digit, branch.remainder
            state = self._bounded(left, state, branch)
        return found

    def _unrank(self, length: int, remainder: int, past: _Past, number: int) -> int:
        """The last digits of a dividend, out of bounds. Drawing spends its time here."""
        found, divisor = 0, self._divisions.divisor
        for left in range(length, 0, -1):
            onwards, first = self._divisions.onwards(left, past), 10 * remainder
            for both in range(first if past.begun or remainder else 1, first + 10):
                remainder = both % divisor
                past, table = onwards[
                    (_DIGIT if both > first else 0)
                    + (_QUOTIENT if both >= divisor else 0)
                    + (_REMAINDER if remainder else 0)
                ]
                if number < table[remainder]:
                    break
                number -= table[remainder]
            found = 10 * found + both - first
        return found

    def rank(self, dividend: int) -> int | None:
        """The number of a dividend among those of its length, or None when it is not here."""
        digits = list(map(int, str(dividend)))
        number, remainder, state = 0, 0, self._start_of(len(digits))
        if state is None:
            return None
        for left, digit in zip(range(len(digits), 0, -1), digits, strict=True):
            for branch in self._each(left, remainder, state):
                if branch.digit == digit:
                    break
                number += branch.ways
            else:
                return None
            remainder, state = branch.remainder, self._bounded(left, state, branch)
        return number

    def _start_of(self, length: int) -> _State | None:
        """What there is before the first digit; None when no dividend so long is in bounds."""
        least, greatest = 10 ** (length - 1), 10**length - 1
        low = least if self._low is None else self._low
        high = greatest if self._high is None else self._high
        if low > greatest or high < least:
            return None
        return _State(self._divisions.start, low > least, high < greatest)

    def _ways(self, left: int, remainder: int, state: _State) -> int:
        """How many ways there are to write the last digits, so many left."""
        past, on_low, on_high = state
        if not left or not (on_low or on_high):
            return self._divisions.table(left, past)[remainder]
        key = (left, remainder, state)
        if key not in self._on_bounds:
            self._divisions.meter.spend(_ON_BOUNDS)
            self._on_bounds[key] = sum(branch.ways for branch in self._each(left, remainder, state))
        return self._on_bounds[key]

    def _each(self, left: int, remainder: int, state: _State) -> Iterator[_Branch]:
        """Each next digit that has ways, in rising order."""
        past, on_low, on_high = state
        onwards, divisor = self._divisions.onwards(left, past), self._divisions.divisor
        first = 10 * remainder
        lowest, highest = int(not past.begun and not remainder), 9
        if on_low:
            lowest = max(self._digit_of(self._low, left), lowest)
        if on_high:
            highest = self._digit_of(self._high, left)
        for both in range(first + lowest, first + highest + 1):
            after = both % divisor
            following, table = onwards[
                (_DIGIT if both > first else 0)
                + (_QUOTIENT if both >= divisor else 0)
                + (_REMAINDER if after else 0)
            ]
            if table[after]:
                branch = _Branch(both - first, after, following, table[after])
                if on_low or on_high:
                    bounded = self._bounded(left, state, branch)
                    branch = branch._replace(ways=self._ways(left - 1, after, bounded))
                if branch.ways:
                    yield branch

    def _bounded(self, left: int, state: _State, branch: _Branch) -> _State:
        """The state after a digit."""
        _, on_low, on_high = state
        return _State(
            branch.past,
            on_low and branch.digit == self._digit_of(self._low, left),
            on_high and branch.digit == self._digit_of(self._high, left),
        )

    @staticmethod
    def _digit_of(bound: int | None, left: int) -> int:
        """The digit of a bound where so many digits are left to write."""
        assert bound is not None
        return bound // int(10 ** (left - 1)) % 10


def short_division(
    dividend: Number, divisor: Number, ending: Ending, places: int
) -> tuple[QuotientColumn, ...]:
    """The columns of a division from the quotient's first digit other than nought.

    A rounded one is worked to its ``places``. Both numbers are first made so many times
    larger that the divisor is whole.
    """
    digits = str(dividend.units) + "0" * max(divisor.places - dividend.places, 0)
    last_place = -max(dividend.places - divisor.places, 0)
    if ending is Ending.ROUNDED and -last_place > places:  # its last digits make no columns
        digits, last_place = digits[: last_place + places], -places
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
