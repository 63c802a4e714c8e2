"""``answer``: the length, the last digit and the size of the answer."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from generator.arithmetic.place_value import HIGHEST_PLACE, LOWEST_PLACE
from generator.operations.columns.facts import Column, Fact
from generator.operations.columns.outline import Outline
from specs.languages.saying import say
from specs.shapes import DecimalNumber, DecimalRange, Fields, Range, YesNo
from specs.words import Word

_GREATEST: Final = 10 ** (HIGHEST_PLACE + 1)
_BOUND = DecimalNumber(0, _GREATEST)


@dataclass(frozen=True, slots=True)
class AskedAnswer:
    """What the answer must look like; None where a spec leaves it open.

    ``places`` and ``whole`` are the fewest and the most digits on either side of the point,
    ``between`` the least and the greatest size.
    """

    places: tuple[int, int] | None = None
    whole: tuple[int, int] | None = None
    ends_in_zero: bool | None = None
    whole_number: bool | None = None
    above: Fraction | None = None
    below: Fraction | None = None
    between: tuple[Fraction, Fraction] | None = None


WORD = Word(
    "answer",
    frozenset({"add", "subtract"}),
    Fields(
        AskedAnswer,
        {
            "places": Range(0, -LOWEST_PLACE),
            "whole": Range(0, HIGHEST_PLACE + 1),
            "ends_in_zero": YesNo(),
            "whole_number": YesNo(),
            "above": _BOUND,
            "below": _BOUND,
            "between": DecimalRange(0, _GREATEST),
        },
    ),
    say(
        "The answer: places (after noughts at its end are dropped), whole (digits before the "
        "point), ends_in_zero (as the column method leaves it), whole_number, above, below, and "
        "between [least, greatest]."
    ),
)


@dataclass(frozen=True, slots=True)
class AnswerLength:
    """Watches the answer's places and digits before the point: the outermost digits but noughts.

    The state is (places, digits before the point) so far; places None while all is nought.
    """

    places: tuple[int, int] | None
    whole: tuple[int, int] | None
    needs: frozenset[Fact] = frozenset()
    start: tuple[int | None, int] = (None, 0)

    def step(self, state: tuple[int | None, int], column: Column) -> tuple[int | None, int]:
        """The outermost digits after one more column."""
        places, whole = state
        if not column.digit:
            return (places, whole)
        first = max(-column.place, 0) if places is None else places
        return (first, max(column.place + 1, 0))

    def accepts(self, state: tuple[int | None, int]) -> bool:
        """Whether both lengths are in their ranges."""
        places, whole = state[0] or 0, state[1]
        return (self.places is None or self.places[0] <= places <= self.places[1]) and (
            self.whole is None or self.whole[0] <= whole <= self.whole[1]
        )


@dataclass(frozen=True, slots=True)
class _LastDigit:
    """Watches the digit in the answer's right-most column: nought, or not."""

    zero: bool
    needs: frozenset[Fact] = frozenset({Fact.PRESENT})
    start: bool = False

    def step(self, state: bool, column: Column) -> bool | None:
        if state or not column.present:
            return bool(state)
        return True if (column.digit == 0) is self.zero else None

    def accepts(self, state: bool) -> bool:
        return bool(state)


@dataclass(frozen=True, slots=True)
class _Fraction:
    """Watches for a decimal part other than nought: there must be one, or there must be none."""

    whole_number: bool
    needs: frozenset[Fact] = frozenset()
    start: bool = False

    def step(self, state: bool, column: Column) -> bool | None:
        part = column.place < 0 and column.digit > 0
        if part and self.whole_number:
            return None
        return bool(state) or part

    def accepts(self, state: bool) -> bool:
        return bool(state) is not self.whole_number


LESS: Final = -1
EQUAL: Final = 0
MORE: Final = 1


@dataclass(frozen=True, slots=True)
class _Bound:
    """Watches on which side of a bound the answer is, from the digits on the right upwards.

    ``allowed`` are the sides that will do. Digits of the bound that no column reaches
    are compared before the first column and after the last.
    """

    bound: Fraction
    allowed: frozenset[int]
    needs: frozenset[Fact] = frozenset()
    start: tuple[int, int | None] = (EQUAL, None)

    def step(self, state: tuple[int, int | None], column: Column) -> tuple[int, int | None]:
        side, before = state
        if before is None:
            tail = self.bound / Fraction(10) ** column.place % 1
            side = LESS if tail else EQUAL
        digit = self.bound // Fraction(10) ** column.place % 10
        side = side if column.digit == digit else (MORE if column.digit > digit else LESS)
        return (side, column.place)

    def accepts(self, state: tuple[int, int | None]) -> bool:
        side, top = state
        if top is not None and self.bound >= Fraction(10) ** (top + 1):
            side = LESS
        return side in self.allowed


def narrow(asked: AskedAnswer, outline: Outline) -> Outline:
    """What the answer must look like."""
    if asked.places is not None or asked.whole is not None:
        outline = outline.watched_by(AnswerLength(asked.places, asked.whole))
    if asked.ends_in_zero is not None:
        outline = outline.watched_by(_LastDigit(asked.ends_in_zero))
    if asked.whole_number is not None:
        outline = outline.watched_by(_Fraction(asked.whole_number))
    if asked.above is not None:
        outline = outline.watched_by(_Bound(asked.above, frozenset({MORE})))
    if asked.below is not None:
        outline = outline.watched_by(_Bound(asked.below, frozenset({LESS})))
    if asked.between is not None:
        least, greatest = asked.between
        outline = outline.watched_by(
            _Bound(least, frozenset({EQUAL, MORE})), _Bound(greatest, frozenset({LESS, EQUAL}))
        )
    return outline


@dataclass(frozen=True, slots=True)
class NotNought:
    """Watches that the answer is not nought: 3.4 − 3.4 is no question."""

    needs: frozenset[Fact] = frozenset()
    start: bool = False

    def step(self, state: bool, column: Column) -> bool:
        """Whether a digit but nought has been seen."""
        return bool(state) or column.digit > 0

    def accepts(self, state: bool) -> bool:
        """Whether one was."""
        return bool(state)
