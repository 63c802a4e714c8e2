"""``carries`` and ``answer`` of a multiplication: how it is worked, and what comes of it.

A carry is a product of two digits that comes to ten or more, what was carried to it
included, in any row of the short or long multiplication (the left-most product's too,
although its ten is written straight into the row). A nought of the multiplier makes no
row. Adding up the rows of a long multiplication is not counted.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, Final

from generator.operations.columns.answer import AskedAnswer
from generator.operations.how_many import HOW_MANY, fewest_and_most
from generator.operations.products.counting import ProductColumn, ProductWatch, Rows, row_of
from generator.operations.products.factors import Multiplier, ProductOutline, WorkedProduct
from specs.languages.saying import say
from specs.shapes import Chosen, DecimalNumber, DecimalRange, Either, Fields, OneField, Range, YesNo
from specs.words import Word

_MULTIPLY: Final = frozenset({"multiply"})
_MOST_CARRIES: Final = 18
MOST_ANSWER_PLACES: Final = 6
_MOST_ANSWER_DIGITS: Final = 9
_GREATEST: Final = 10**_MOST_ANSWER_DIGITS
_BOUND = DecimalNumber(0, _GREATEST)

CARRIES = Word(
    "carries",
    _MULTIPLY,
    Either(HOW_MANY, OneField({"count": Range(0, _MOST_CARRIES)}, short="count")),
    say(
        "Carries (products of two digits that, with what is carried to them, come to ten or more, "
        "in any row of the short or long multiplication, in which the first printed of two "
        "numbers with equally many digits is multiplied by the other): none, some, every product, "
        "or {{count: [1, 2]}}. Numbers that may stand in any order are printed with the greater "
        "first, or in another order where only that has the carries: 34 × 13 has two, 13 × 34 one."
    ),
)

ANSWER = Word(
    "answer",
    _MULTIPLY,
    Fields(
        AskedAnswer,
        {
            "places": Range(0, MOST_ANSWER_PLACES),
            "whole": Range(0, _MOST_ANSWER_DIGITS),
            "ends_in_zero": YesNo(),
            "whole_number": YesNo(),
            "above": _BOUND,
            "below": _BOUND,
            "between": DecimalRange(0, _GREATEST),
        },
    ),
    say(
        "The answer: places (after noughts at its end are dropped), whole (digits before the "
        "point), ends_in_zero (the product of the whole numbers does: 0.5 × 0.04 = 0.020 = 0.02), "
        "whole_number, above, below, and between [least, greatest]."
    ),
)


def _flat(worked: WorkedProduct) -> list[bool]:
    return [carry for work in worked.carries for row in work for carry in row]


@dataclass(frozen=True, slots=True)
class CarryCount:
    """So many products carry."""

    low: int
    high: int
    uses_places: bool = False

    def holds(self, worked: WorkedProduct) -> bool:
        """Whether that many do."""
        return self.low <= sum(_flat(worked)) <= self.high

    def watches(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...]:
        """Counts along the multiplicand."""
        return (_CarryCounter(self.low, self.high),)

    def turned(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...]:
        """Counts row by row."""
        return self.watches(multiplier)


@dataclass(frozen=True, slots=True)
class _CarryCounter:
    """Watches how many products carry; it stops counting where more makes no difference."""

    low: int
    high: int
    rows: Rows = Rows.IN_ANY_ORDER
    start: int = 0

    def step(self, state: int, column: ProductColumn) -> int | None:
        count = state + sum(column.carries)
        if self.high >= _MOST_CARRIES:
            return min(count, self.low)
        return count if count <= self.high else None

    def accepts(self, state: int) -> bool:
        return state >= self.low


@dataclass(frozen=True, slots=True)
class _EveryCarry:
    """Every product of every row carries."""

    uses_places: bool = False
    rows: Rows = Rows.IN_ANY_ORDER
    start: bool = True

    def holds(self, worked: WorkedProduct) -> bool:
        return all(_flat(worked))

    def watches(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...]:
        return (self,)

    def turned(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...]:
        return (self,)

    def step(self, state: bool, column: ProductColumn) -> bool | None:
        return True if all(column.carries) else None

    def accepts(self, state: bool) -> bool:
        return True


@lru_cache(maxsize=1 << 10)
def _carries_of_ones(multiplier: int) -> frozenset[tuple[bool, ...]]:
    """Which rows can carry in the column of the ones, by the digit that stands there."""
    rows = [int(digit) for digit in reversed(str(multiplier)) if digit != "0"]
    return frozenset(tuple(row * digit >= 10 for row in rows) for digit in range(10))


@dataclass(frozen=True, slots=True)
class SameCarries:
    """The very same products carry as in a pattern."""

    pattern: tuple[tuple[tuple[bool, ...], ...], ...]
    uses_places: bool = False

    def holds(self, worked: WorkedProduct) -> bool:
        """Whether the pattern is the same."""
        return worked.carries == self.pattern

    def watches(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...] | None:
        """Follows the pattern; no multiplicand will do where the noughts make other rows."""
        (rows,) = self.pattern
        noughts = tuple(not row for row in rows)
        if noughts != tuple(digit == "0" for digit in reversed(str(multiplier.units))):
            return None
        columns = tuple(zip(*(row for row in rows if row), strict=True))
        if len(columns) != multiplier.length or columns[0] not in _carries_of_ones(
            multiplier.units
        ):
            return None
        return (_CarryPattern(columns),)

    def turned(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...] | None:
        """Follows the pattern row by row."""
        (rows,) = self.pattern
        can_be = {row_of(digit, multiplier.units) for digit in range(10)}
        if len(rows) != multiplier.length or not can_be.issuperset(rows):
            return None
        return (_CarryPattern(rows),)


@dataclass(frozen=True, slots=True)
class _CarryPattern:
    """Watches that in each column the same rows carry, or in each row the same columns."""

    columns: tuple[tuple[bool, ...], ...]
    rows: Rows = Rows.IN_ORDER
    start: bool = True

    def step(self, state: bool, column: ProductColumn) -> bool | None:
        return True if column.carries == self.columns[column.place] else None

    def accepts(self, state: bool) -> bool:
        return True


@dataclass(frozen=True, slots=True)
class EndsInZero:
    """The product of the whole numbers ends in nought, or does not."""

    zero: bool
    uses_places: bool = False

    def holds(self, worked: WorkedProduct) -> bool:
        """Whether it does as asked."""
        return (worked.noughts or worked.product % 10 == 0) is self.zero

    def watches(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...] | None:
        """The last digits decide, where no factor brings noughts of its own."""
        if multiplier.noughts:
            return () if self.zero else None
        last = multiplier.units % 10
        allowed = tuple(digit for digit in range(10) if (digit * last % 10 == 0) is self.zero)
        return (_LastDigit(allowed),)


@dataclass(frozen=True, slots=True)
class _LastDigit:
    """Watches the multiplicand's last digit."""

    allowed: tuple[int, ...]
    rows: Rows = Rows.IGNORED
    start: bool = True

    def step(self, state: bool, column: ProductColumn) -> bool | None:
        return True if column.place or column.digit in self.allowed else None

    def accepts(self, state: bool) -> bool:
        return True


@dataclass(frozen=True, slots=True)
class _AnswerPlaces:
    """The answer has so many places once noughts at its end are dropped."""

    low: int
    high: int | None
    uses_places: bool = True

    def holds(self, worked: WorkedProduct) -> bool:
        places, units = max(worked.places, 0), worked.product
        while places and units % 10 == 0:
            places, units = places - 1, units // 10
        return self.low <= places and (self.high is None or places <= self.high)

    def watches(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...] | None:
        """So many noughts at the product's end, no more: 10ⁿ divides it, 10ᵐ does not."""
        if max(multiplier.places, 0) < self.low:
            return None
        watches = []
        if self.high is not None and multiplier.places > self.high:
            watches.append(_Multiple(_left(multiplier, multiplier.places - self.high), True))
        if self.low:
            watches.append(_Multiple(_left(multiplier, multiplier.places - self.low + 1), False))
        if any(watch.modulus == 1 and not watch.wanted for watch in watches):
            return None
        return tuple(watch for watch in watches if watch.modulus > 1)


def _left(multiplier: Multiplier, noughts: int) -> int:
    """What must divide the multiplicand so that the product ends in so many noughts."""
    return Fraction(multiplier.units, 10**noughts).denominator


_SETTLED: Final = -1


@dataclass(frozen=True, slots=True)
class _Multiple:
    """Watches whether the multiplicand is a multiple of a number made of twos and fives.

    The state is what is over so far, until the digits to the left no longer matter.
    """

    modulus: int
    wanted: bool
    rows: Rows = Rows.IGNORED
    start: int = 0

    def step(self, state: int, column: ProductColumn) -> int | None:
        if state == _SETTLED:
            return state
        weight: int = 10**column.place
        over = (state + column.digit * weight) % self.modulus
        if 10 * weight % self.modulus:
            return over
        return _SETTLED if (over == 0) is self.wanted else None

    def accepts(self, state: int) -> bool:
        return state == _SETTLED or (state == 0) is self.wanted


@dataclass(frozen=True, slots=True)
class _AnswerSize:
    """The answer is from ``least`` to ``greatest``, the ends counted where they are ``closed``."""

    least: Fraction | None = None
    greatest: Fraction | None = None
    closed: bool = True
    uses_places: bool = True

    def holds(self, worked: WorkedProduct) -> bool:
        low, high = self._within(1, worked.places)  # bounds of the product
        return (low is None or low <= worked.product) and (high is None or worked.product <= high)

    def watches(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...] | None:
        """The answer's bounds as bounds of the multiplicand."""
        return within(multiplier.length, *self._within(multiplier.units, multiplier.places))

    def _within(self, times: int, places: int) -> tuple[int | None, int | None]:
        """The least and greatest whole number whose product with ``times`` is in bounds."""
        low = high = None
        if self.least is not None:
            units, of = _scaled(self.least, places)
            low = -(-units // (of * times))
            low += not self.closed and low * of * times == units
        if self.greatest is not None:
            units, of = _scaled(self.greatest, places)
            high = units // (of * times)
            high -= not self.closed and high * of * times == units
        return low, high


def _scaled(bound: Fraction, places: int) -> tuple[int, int]:
    """A bound in units of so many decimal places, as a numerator and a denominator."""
    if places < 0:
        return bound.numerator, bound.denominator * int(10**-places)
    return bound.numerator * int(10**places), bound.denominator


def within(length: int, low: int | None, high: int | None) -> tuple[ProductWatch[Any], ...] | None:
    """What keeps a multiplicand of a length within bounds: nothing, a watch, or None (none is)."""
    least, greatest = 10 ** (length - 1), 10**length - 1
    low = least if low is None else max(low, least)
    high = greatest if high is None else min(high, greatest)
    if low > high:
        return None
    sides = (None if low == least else low, None if high == greatest else high)
    return () if sides == (None, None) else (_Within(*sides),)


@dataclass(frozen=True, slots=True)
class _Within:
    """Watches on which side of bounds of its own length the multiplicand is.

    The state is the side of each bound so far: -1 below, 0 on it, 1 above. A bound that is
    not there has no side but 0.
    """

    low: int | None
    high: int | None
    rows: Rows = Rows.IGNORED
    start: tuple[int, int] = (0, 0)

    def step(self, state: tuple[int, int], column: ProductColumn) -> tuple[int, int]:
        return _side(state[0], self.low, column), _side(state[1], self.high, column)

    def accepts(self, state: tuple[int, int]) -> bool:
        return bool(state[0] >= 0 and state[1] <= 0)


def _side(before: int, bound: int | None, column: ProductColumn) -> int:
    """On which side of a bound the digits so far are, given the side of those to the right."""
    if bound is None:
        return 0
    own, digit = bound // 10**column.place % 10, column.digit
    return before if digit == own else (1 if digit > own else -1)


def narrow_carries(asked: str | Chosen[tuple[int, int]], outline: ProductOutline) -> ProductOutline:
    """Which products carry, or how many."""
    count = fewest_and_most(asked, _MOST_CARRIES)
    return outline.meeting(CarryCount(*count) if count else _EveryCarry())


def narrow_answer(asked: AskedAnswer, outline: ProductOutline) -> ProductOutline:
    """What the answer must look like."""
    if asked.places is not None:
        outline = outline.meeting(_AnswerPlaces(*asked.places))
    if asked.whole is not None:
        low, high = asked.whole
        outline = outline.meeting(
            _AnswerSize(least=Fraction(10) ** (low - 1) if low else None),
            _AnswerSize(greatest=Fraction(10) ** high, closed=False),
        )
    if asked.ends_in_zero is not None:
        outline = outline.meeting(EndsInZero(asked.ends_in_zero))
    if asked.whole_number is not None:
        whole = asked.whole_number
        outline = outline.meeting(_AnswerPlaces(0, 0) if whole else _AnswerPlaces(1, None))
    if asked.above is not None:
        outline = outline.meeting(_AnswerSize(least=asked.above, closed=False))
    if asked.below is not None:
        outline = outline.meeting(_AnswerSize(greatest=asked.below, closed=False))
    if asked.between is not None:
        least, greatest = asked.between
        outline = outline.meeting(_AnswerSize(least, greatest))
    return outline
