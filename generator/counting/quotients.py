"""Short divisions: which dividends a divisor divides in a given way, counted exactly.

The dividend's digits are gone through from the left. What the rest of a division depends
on is the remainder so far, whether the quotient has begun, on which side of the bounds
the dividend is, and what the watches remember. Counting the ways from there gives the
exact number of dividends, and walking the counts fetches one by number.

After the last digit come noughts that nobody chooses: those that a decimal divisor asks
for, then those by which a division is carried on into decimal places.
"""

from bisect import bisect_right
from collections.abc import Hashable, Iterator
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


class _Past(NamedTuple):
    """What the rest of a division hangs on, beside the remainder."""

    begun: bool  # whether the quotient has a digit yet
    noughts: int
    on_low: bool  # the digits so far are those of the lower bound
    on_high: bool
    remembered: tuple[Hashable, ...]


class _Node:
    """A past with what may follow it: found once, then looked up by small whole numbers."""

    __slots__ = ("after", "branches", "past", "ways")

    def __init__(self, past: _Past) -> None:
        self.past = past
        self.after: dict[int, _Node | None] = {}  # by what happens in a column
        self.ways: dict[int, int] = {}  # to write the rest, by place and remainder
        self.branches: dict[int, _Branches] = {}  # the same, digit by digit


class _Branches(NamedTuple):
    """The digits that can come next, what each leads to, and running totals of the ways."""

    digits: list[int]
    remainders: list[int]
    nodes: list[_Node]
    upto: list[int]


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
        self._nodes: dict[_Past, _Node] = {}
        self._minds_noughts = not digits.inside_zero or digits.wants_inside or digits.wants_end
        self._leaves_nothing = finish.ending is Ending.EXACT and not finish.filled
        self._leaves_something = finish.ending in (Ending.REMAINDER, Ending.FRACTION)

    def count(self, length: int) -> int:
        """How many dividends of so many digits there are."""
        start = self._start_of(length)
        return 0 if start is None else self._ways(length, 0, start)

    def unrank(self, length: int, number: int) -> int:
        """Dividend ``number`` of so many digits, 0 ≤ number < count(length)."""
        node = self._start_of(length)
        assert node is not None
        found = remainder = 0
        for left in range(length, 0, -1):
            branches = self._branches(left, remainder, node)
            which = bisect_right(branches.upto, number)
            number -= branches.upto[which - 1] if which else 0
            found = 10 * found + branches.digits[which]
            remainder, node = branches.remainders[which], branches.nodes[which]
        return found

    def rank(self, dividend: int) -> int | None:
        """The number of a dividend among those of its length, or None when it is not here."""
        digits = list(map(int, str(dividend)))
        number, remainder, node = 0, 0, self._start_of(len(digits))
        if node is None:
            return None
        for left, digit in zip(range(len(digits), 0, -1), digits, strict=True):
            branches = self._branches(left, remainder, node)
            if digit not in branches.digits:
                return None
            which = branches.digits.index(digit)
            number += branches.upto[which - 1] if which else 0
            remainder, node = branches.remainders[which], branches.nodes[which]
        return number

    def _node(self, past: _Past) -> _Node:
        if past not in self._nodes:
            self._nodes[past] = _Node(past)
        return self._nodes[past]

    def _start_of(self, length: int) -> _Node | None:
        """The node before the first digit; None when no dividend of that length is in bounds."""
        least, greatest = 10 ** (length - 1), 10**length - 1
        low = least if self._low is None else self._low
        high = greatest if self._high is None else self._high
        if low > greatest or high < least:
            return None
        remembered = tuple(watch.start for watch in self._watches)
        return self._node(_Past(False, 0, low >= least, high <= greatest, remembered))

    def _choices(self, left: int, remainder: int, node: _Node) -> range:
        """The digits worth trying when so many are left to write; the first is no nought."""
        lowest = 0 if node.past.begun or remainder else 1
        if left == 1 and self._leaves_nothing:
            last = -10 * remainder % self._divisor
            return range(last or lowest * self._divisor, 10, self._divisor)
        return range(lowest, 10)

    def _ways(self, left: int, remainder: int, node: _Node) -> int:
        """How many ways there are to write the last digits, so many left."""
        key = left * self._divisor + remainder
        known = node.ways.get(key)
        if known is None:
            if left:
                known = sum(ways for _, _, _, ways in self._each(left, remainder, node))
            else:
                known = int(self._finishes(remainder, node.past))
            node.ways[key] = known
        return known

    def _branches(self, left: int, remainder: int, node: _Node) -> _Branches:
        key = left * self._divisor + remainder
        if key not in node.branches:
            digits, remainders, nodes, ways = [], [], [], []
            for digit, after, following, onwards in self._each(left, remainder, node):
                digits.append(digit)
                remainders.append(after)
                nodes.append(following)
                ways.append(onwards)
            node.branches[key] = _Branches(digits, remainders, nodes, list(accumulate(ways)))
        return node.branches[key]

    def _each(
        self, left: int, remainder: int, node: _Node
    ) -> Iterator[tuple[int, int, _Node, int]]:
        """Each next digit with what it leads to: remainder, node, and the ways from there."""
        divisor, after_node = self._divisor, node.after
        here, onwards_from = 40 * left, (left - 1) * divisor
        for digit in self._choices(left, remainder, node):
            quotient, after = divmod(10 * remainder + digit, divisor)
            # What happens here, as one number: place, digit, and whether 0 is written or left.
            event = here + 4 * digit + (2 if quotient else 0) + (1 if after else 0)
            if event not in after_node:
                after_node[event] = self._after(node.past, left, digit, quotient, after)
            following = after_node[event]
            if following is not None:
                ways = following.ways.get(onwards_from + after)
                if ways is None:
                    ways = self._ways(left - 1, after, following)
                if ways:
                    yield digit, after, following, ways

    def _after(
        self, past: _Past, left: int, digit: int, quotient: int, remainder: int
    ) -> _Node | None:
        """The node after a digit, or None when it cannot stand there."""
        begun, noughts, on_low, on_high, remembered = past
        if not digit and left == 1 and not self._digits.end_zero:
            return None
        if self._minds_noughts:
            if digit and noughts & _PENDING:
                if not self._digits.inside_zero:
                    return None
                noughts = _INSIDE
            elif not digit:
                noughts |= _PENDING
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
        if quotient or begun:
            passes = remainder > 0 and not (left == 1 and self._leaves_something)
            following = self._watched(remembered, QuotientColumn(not quotient, passes))
            if following is None:
                return None
            remembered, begun = following, True
        return self._node(_Past(begun, noughts, on_low, on_high, remembered))

    def _watched(
        self, remembered: tuple[Hashable, ...], column: QuotientColumn
    ) -> tuple[Hashable, ...] | None:
        """What the watches remember after a column, or None when one is broken there."""
        after = []
        for watch, memory in zip(self._watches, remembered, strict=True):
            state = watch.step(memory, column)
            if state is None:
                return None
            after.append(state)
        return tuple(after)

    def _finishes(self, remainder: int, past: _Past) -> bool:
        """Whether a division whose dividend is written out ends as asked."""
        wants_inside, wants_end = self._digits.wants_inside, self._digits.wants_end
        if (wants_inside and not past.noughts & _INSIDE) or (
            wants_end and not past.noughts & _PENDING
        ):
            return False
        end = self._worked_on(remainder, past)
        return end is not None and all(
            watch.accepts(memory)
            for watch, memory in zip(self._watches, end.remembered, strict=True)
        )

    def _worked_on(self, remainder: int, past: _Past) -> _Past | None:
        """The past after the noughts that follow the dividend; None when it cannot end so."""
        finish, following = self._finish, past
        for _ in range(finish.filled):
            remainder, onwards = self._nought_divided(remainder, following)
            if onwards is None:
                return None
            following = onwards
        if finish.ending is Ending.EXACT:
            return None if remainder else following
        if not remainder:
            return None
        if self._leaves_something:
            return following if following.begun else None
        for more in range(1, finish.most + 1):
            remainder, onwards = self._nought_divided(remainder, following)
            if onwards is None:
                return None
            following = onwards
            if not remainder:
                ends = finish.ending is Ending.DECIMAL and more >= finish.fewest
                return following if ends else None
        return following if finish.ending is Ending.ROUNDED and following.begun else None

    def _nought_divided(self, remainder: int, past: _Past) -> tuple[int, _Past | None]:
        """The remainder and the past after one nought more."""
        quotient, after = divmod(10 * remainder, self._divisor)
        if not quotient and not past.begun:
            return after, past
        following = self._watched(past.remembered, QuotientColumn(not quotient, after > 0))
        if following is None:
            return after, None
        return after, past._replace(begun=True, remembered=following)


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
