"""The words of a division: its divisor, dividend and quotient, and how it is worked and ends.

A division is worked from the left by short division. With a decimal divisor both numbers
are first made so many times larger that the divisor is whole. The quotient begins with
its first digit other than nought; leading columns without one are not counted.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, ClassVar, Final, NamedTuple

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation
from generator.operations.columns.answer import AskedAnswer
from generator.operations.columns.lengths import MOST_PLACES
from generator.operations.columns.zeros import Noughts
from generator.operations.how_many import HOW_MANY, fewest_and_most
from generator.operations.quotients.counting import (
    ANY_DIGITS,
    Digits,
    Finish,
    QuotientColumn,
    QuotientWatch,
)
from generator.operations.spans import Length, each_of, spread
from specs.languages.saying import say
from specs.shapes import (
    Chosen,
    DecimalNumber,
    DecimalRange,
    Either,
    Fields,
    ListOf,
    OneField,
    OneOf,
    Range,
    WholeNumber,
)
from specs.words import Word

_DIVIDE: Final = frozenset({"divide"})
MOST_DIVIDEND_DIGITS: Final = 8
_GREATEST_DIVISOR: Final = 99
_MOST_COLUMNS: Final = 12
_GREATEST: Final = 10**9
_BOUND = DecimalNumber(0, _GREATEST)
TRIVIAL: Final = (1, 10)
"""Divisors that are used only where a spec lists them."""


class Divisor(NamedTuple):
    """A divisor: its digits as a whole number, and its decimal places."""

    units: int
    places: int


class DividendLength(NamedTuple):
    """How long a dividend is: its significant digits and its decimal places."""

    digits: int
    places: int


@dataclass(frozen=True, slots=True)
class QuotientOutline:
    """What divisor and dividend may look like, how the division ends, and what is watched.

    ``more`` are the fewest and most places by which a decimal ending goes on, or twice the
    places of a rounded quotient. ``least`` and ``greatest`` bound dividend ÷ divisor (bound,
    and whether the bound itself will do). ``cancels`` says whether the fraction at the end is one
    that cancels; None: either. ``fixed`` are the one dividend and the one divisor that there may
    be, None where they are free.
    """

    divisors: tuple[int, ...]
    divisor_places: tuple[int, ...] = (0,)
    dividend_digits: tuple[int, ...] = (2, 3)
    dividend_places: tuple[int, ...] = (0,)
    written: Digits = ANY_DIGITS
    ending: Ending = Ending.EXACT
    more: tuple[int, int] = (0, 0)
    watches: tuple[QuotientWatch[Any], ...] = ()
    least: tuple[tuple[Fraction, bool], ...] = ()
    greatest: tuple[tuple[Fraction, bool], ...] = ()
    cancels: bool | None = None
    fixed: tuple[Number | None, Number | None] = (None, None)
    operation: ClassVar[Operation] = Operation.DIVIDE

    def watched_by(self, *watches: QuotientWatch[Any]) -> "QuotientOutline":
        """The outline with further watches."""
        return replace(self, watches=(*self.watches, *watches))

    def fixing(self, at: int, number: Number) -> "QuotientOutline":
        """The outline in which the dividend (0) or the divisor (1) is settled."""
        dividend, divisor = self.fixed
        return replace(self, fixed=(number, divisor) if at == 0 else (dividend, number))

    @property
    def each_divisor(self) -> Iterator[Divisor]:
        """Every divisor as it may be written: a decimal one does not end in nought."""
        fixed = self.fixed[1]
        for places in self.divisor_places:
            for units in self.divisors:
                if fixed is not None and (units, places) != (fixed.units, fixed.places):
                    continue
                if not places or units % 10:
                    yield Divisor(units, places)

    def digits_written(self, length: DividendLength) -> Digits | None:
        """How the digits of a dividend so long may be written; None: in no way.

        The nought after the point of 0.05 is one inside it; no decimal ends in one.
        """
        fixed = self.fixed[0]
        if fixed is not None and length != DividendLength(len(str(fixed.units)), fixed.places):
            return None
        written = replace(self.written, end_zero=self.written.end_zero and not length.places)
        if length.places > length.digits:
            if not written.inside_zero:
                return None
            written = replace(written, wants_inside=False)
        return None if length.places and written.wants_end else written

    def finish(self, divisor: Divisor, places: int) -> Finish | None:
        """What follows a dividend of so many places; None when it cannot end as asked.

        Remainders and fractions belong to whole numbers.
        """
        filled, scaled = max(divisor.places - places, 0), max(places - divisor.places, 0)
        fewest, most = self.more
        match self.ending:
            case Ending.EXACT | Ending.MOVED:
                return Finish(self.ending, filled)
            case Ending.REMAINDER | Ending.FRACTION:
                of_whole_numbers = not (divisor.places or places)
                return Finish(self.ending, cancels=self.cancels) if of_whole_numbers else None
            case Ending.DECIMAL:
                return Finish(self.ending, filled, fewest, most)
            case Ending.ROUNDED:
                more = max(most - scaled, 0)
                return Finish(self.ending, filled, more, more, cut=max(scaled - most, 0))

    def bounds(self, divisor: Divisor, places: int) -> tuple[int | None, int | None]:
        """The least and greatest dividend, as a whole number of its digits."""
        scale = divisor.units * Fraction(10) ** (places - divisor.places)
        fixed = [self.fixed[0].units] if self.fixed[0] is not None else []
        lows, highs = fixed[:], fixed[:]
        for bound, closed in self.least:
            exact = bound * scale
            low = -(-exact.numerator // exact.denominator)
            lows.append(low + (not closed and exact == low))
        for bound, closed in self.greatest:
            exact = bound * scale
            high = exact.numerator // exact.denominator
            highs.append(high - (not closed and exact == high))
        return max(lows, default=None), min(highs, default=None)


@dataclass(frozen=True, slots=True)
class AskedDivisor:
    """Divisors by their digits and their size, the fewest and the most; None: not asked."""

    digits: tuple[int, int] | None = None
    between: tuple[int, int] | None = None


DIVISOR = Word(
    "divisor",
    _DIVIDE,
    Either(
        WholeNumber(1, _GREATEST_DIVISOR),
        ListOf(WholeNumber(1, _GREATEST_DIVISOR), 1, _GREATEST_DIVISOR),
        Fields(
            AskedDivisor,
            {"digits": Range(1, 2), "between": Range(2, _GREATEST_DIVISOR)},
            short="between",
        ),
    ),
    say(
        "The divisor, written without its point: a number, a list of those allowed, {{digits: 2}} "
        "or {{between: [3, 9]}} ({{digits: 1}} when not given). 1 and 10 only where they are "
        "listed."
    ),
)

DIVISOR_PLACES = Word(
    "divisor_places",
    _DIVIDE,
    Either(WholeNumber(0, 3), OneField({"between": Range(0, 3)}, short="between")),
    say(
        "Decimal places of the divisor: a number or {{between: [0, 1]}} (0 when not given). With "
        "divisor 12, one place makes it 1.2."
    ),
)

DIVIDEND = Word(
    "dividend",
    _DIVIDE,
    OneField({"digits": Range(1, MOST_DIVIDEND_DIGITS)}, short="digits"),
    say(
        "The dividend: how many significant digits it has (0.84 has 2), noughts at the end of a "
        "whole number counted ({{digits: [2, 3]}} when not given)."
    ),
)

USUAL_DIVIDEND: Final = Chosen("digits", (2, 3))

PLACES = Word(
    "places",
    _DIVIDE,
    Either(
        WholeNumber(0, MOST_PLACES), OneField({"between": Range(0, MOST_PLACES)}, short="between")
    ),
    say("Decimal places of the dividend: a number or {{between: [0, 2]}} (0 when not given)."),
)

_CHOICE = OneOf("allow", "require", "forbid")

ZEROS = Word(
    "zeros",
    _DIVIDE,
    Fields(Noughts, {"inside": _CHOICE, "end": _CHOICE}),
    say(
        "Noughts in the dividend: inside (between other digits, as in 205 and 0.05) and end (of a "
        "whole number, as in 420), each allow, require or forbid (allow when not given). A decimal "
        "ends in no nought."
    ),
)

ENDING = Word(
    "ending",
    _DIVIDE,
    Either(
        OneOf("exact", "remainder", "fraction"),
        OneField(
            {"decimal": WholeNumber(1, MOST_PLACES), "rounded": WholeNumber(0, MOST_PLACES - 1)}
        ),
    ),
    say(
        "How the division ends: exact (nothing left over after the dividend's last digit), "
        "remainder or fraction (something is, whole numbers only), {{decimal: 2}} (something is, "
        "and it is carried on for one or two places until nothing is), or {{rounded: 2}} (it does "
        "not end within two decimal places, and is worked to the third; the dividend may have "
        "more places than the quotient). Exact when not given."
    ),
)

QUOTIENT = Word(
    "quotient",
    _DIVIDE,
    OneField({"digits": Range(1, _MOST_COLUMNS)}, short="digits"),
    say(
        "How long the quotient is: {{digits: 3}} or {{digits: [2, 3]}}, from its first digit that "
        "is not nought to the last worked (28.8 has 3; a rounded one counts to its last place, "
        "before it is rounded)."
    ),
)

REMAINDERS = Word(
    "remainders",
    _DIVIDE,
    Either(HOW_MANY, OneField({"count": Range(0, _MOST_COLUMNS)}, short="count")),
    say(
        "Remainders carried between columns: what a digit of the quotient leaves over, handed to "
        "the next column. None, some, every (each digit but the last hands one on, and one at "
        "least does), or {{count: [1, 2]}}. The leading digits taken together at the start are "
        "not counted, nor is what is left over at the end. In a rounded quotient what is handed on "
        "to the place that decides counts too."
    ),
)

ZERO_IN_QUOTIENT = Word(
    "zero_in_quotient",
    _DIVIDE,
    _CHOICE,
    say(
        "A nought in the quotient after its first digit, inside or last: 108, 90 r 2; allow, "
        "require or forbid (allow when not given)."
    ),
)

ANSWER = Word(
    "answer",
    _DIVIDE,
    Fields(
        AskedAnswer,
        {"above": _BOUND, "below": _BOUND, "between": DecimalRange(0, _GREATEST)},
    ),
    say("How large dividend ÷ divisor is, exactly: above, below, and between [least, greatest]."),
)


@dataclass(frozen=True, slots=True)
class _Remainders:
    """Watches how many remainders are passed on; the count stops at ``most``."""

    low: int
    high: int
    start: int = 0

    def step(self, state: int, column: QuotientColumn) -> int | None:
        count = state + column.passes
        if self.high >= _MOST_COLUMNS:
            return min(count, self.low)
        return count if count <= self.high else None

    def accepts(self, state: int) -> bool:
        return state >= self.low


@dataclass(frozen=True, slots=True)
class _EveryRemainder:
    """Watches that each column but the last passes a remainder on, and that one does.

    The state is (how many columns, at most two; whether the last one passed one on).
    """

    start: tuple[int, bool] = (0, True)

    def step(self, state: tuple[int, bool], column: QuotientColumn) -> tuple[int, bool] | None:
        columns, passed = state
        return (min(columns + 1, 2), column.passes) if passed else None

    def accepts(self, state: tuple[int, bool]) -> bool:
        return state[0] == 2 or (state[0] == 1 and bool(state[1]))


@dataclass(frozen=True, slots=True)
class QuotientLength:
    """Watches how many digits the quotient has."""

    low: int
    high: int
    start: int = 0

    def step(self, state: int, column: QuotientColumn) -> int | None:
        """One more digit."""
        return state + 1 if state < self.high else None

    def accepts(self, state: int) -> bool:
        """Whether there are enough; more than enough shows at the digit."""
        return state >= self.low


@dataclass(frozen=True, slots=True)
class _Noughts:
    """Watches for noughts of the quotient: there must be one, or there must be none."""

    wanted: bool
    start: bool = False

    def step(self, state: bool, column: QuotientColumn) -> bool | None:
        if column.nought and not self.wanted:
            return None
        return bool(state) or column.nought

    def accepts(self, state: bool) -> bool:
        return bool(state) is self.wanted


@dataclass(frozen=True, slots=True)
class SameColumns:
    """Watches that the very columns pass remainders on, and have noughts, as in a signature.

    The state is how many columns have been seen. ``noughts``: whether they must agree too.
    """

    columns: tuple[QuotientColumn, ...]
    noughts: bool
    start: int = 0

    def step(self, state: int, column: QuotientColumn) -> int | None:
        """One more column, if it agrees."""
        if state == len(self.columns):
            return None
        wanted = self.columns[state]
        agrees = column == wanted if self.noughts else column.passes == wanted.passes
        return state + 1 if agrees else None

    def accepts(self, state: int) -> bool:
        """Whether there are as many columns."""
        return state == len(self.columns)


def narrow_divisor(
    asked: int | tuple[int, ...] | AskedDivisor, outline: QuotientOutline
) -> QuotientOutline:
    """What is divided by."""
    match asked:
        case int():
            return replace(outline, divisors=(asked,))
        case tuple():
            return replace(outline, divisors=tuple(sorted(set(asked))))
    low, high = asked.between or (2, _GREATEST_DIVISOR)
    shortest, longest = asked.digits or (1, 2)
    return replace(
        outline,
        divisors=tuple(
            units
            for units in range(low, high + 1)
            if units not in TRIVIAL and shortest <= len(str(units)) <= longest
        ),
    )


def narrow_divisor_places(asked: Length, outline: QuotientOutline) -> QuotientOutline:
    """Decimal places of the divisor."""
    return replace(outline, divisor_places=each_of(asked))


def narrow_dividend(asked: Chosen[tuple[int, int]], outline: QuotientOutline) -> QuotientOutline:
    """Significant digits of the dividend."""
    return replace(outline, dividend_digits=spread(asked.value))


def narrow_places(asked: Length, outline: QuotientOutline) -> QuotientOutline:
    """Decimal places of the dividend."""
    return replace(outline, dividend_places=each_of(asked))


def narrow_zeros(asked: Noughts, outline: QuotientOutline) -> QuotientOutline:
    """Noughts of the dividend."""
    inside, end = asked.inside, asked.end
    written = Digits(inside != "forbid", end != "forbid", inside == "require", end == "require")
    return replace(outline, written=written)


def narrow_ending(asked: str | Chosen[int], outline: QuotientOutline) -> QuotientOutline:
    """How the division ends."""
    if isinstance(asked, str):
        return replace(outline, ending=Ending(asked))
    ending, places = Ending(asked.word), asked.value
    more = (1, places) if ending is Ending.DECIMAL else (places, places)
    return replace(outline, ending=ending, more=more)


def narrow_quotient(asked: Chosen[tuple[int, int]], outline: QuotientOutline) -> QuotientOutline:
    """How long the quotient is."""
    return outline.watched_by(QuotientLength(*asked.value))


def narrow_remainders(
    asked: str | Chosen[tuple[int, int]], outline: QuotientOutline
) -> QuotientOutline:
    """Remainders carried between columns."""
    count = fewest_and_most(asked, _MOST_COLUMNS)
    return outline.watched_by(_Remainders(*count) if count else _EveryRemainder())


def narrow_zero_in_quotient(value: str, outline: QuotientOutline) -> QuotientOutline:
    """Noughts of the quotient."""
    return outline if value == "allow" else outline.watched_by(_Noughts(value == "require"))


def narrow_answer(asked: AskedAnswer, outline: QuotientOutline) -> QuotientOutline:
    """The size of the quotient."""
    least, greatest = list(outline.least), list(outline.greatest)
    if asked.above is not None:
        least.append((asked.above, False))
    if asked.below is not None:
        greatest.append((asked.below, False))
    if asked.between is not None:
        low, high = asked.between
        least.append((low, True))
        greatest.append((high, True))
    return replace(outline, least=tuple(least), greatest=tuple(greatest))
