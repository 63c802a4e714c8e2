"""The words of ordering, comparing and rounding, and of moving digits by a power of ten.

These questions are about numbers as they stand; their conditions say how they are written.
"""

from dataclasses import dataclass, replace
from typing import Final, Protocol

from generator.arithmetic.place_value import COLUMN_NAMES, PLACE_NAMED
from generator.arithmetic.questions import Operation
from generator.operations.columns.lengths import MOST_PLACES, ragged, spread
from specs.shapes import Chosen, Either, Fields, OneField, OneOf, Range, SetOf, WholeNumber
from specs.words import Word

MOST_WHOLE: Final = 4
_PLACES: Final = Range(0, MOST_PLACES)
_LOWEST_SHARED: Final = -3
_ROUNDED_TO: Final = [COLUMN_NAMES[place] for place in range(3, -4, -1)]

_ORDERED: Final = frozenset({"order", "compare"})


@dataclass(frozen=True, slots=True)
class OrderOutline:
    """Numbers to be put in order or compared.

    ``whole`` and ``places`` are the allowed lengths; ``ragged`` is True where the places
    must not all be equal, False where they must. ``shared`` is the column down to which all
    numbers have the same digits (None: they need share none). ``lengths``, where given, are
    those that the numbers have, (whole, places) in rising order.
    """

    operation: Operation
    numbers: int
    whole: tuple[int, ...] = (0, 1)
    places: tuple[int, ...] = (1, 2, 3)
    ragged: bool | None = True
    shared: int | None = None
    end_zero: bool = False
    lengths: tuple[tuple[int, int], ...] | None = None


@dataclass(frozen=True, slots=True)
class RoundOutline:
    """Numbers to be rounded: their lengths, and the places they are rounded to.

    ``up`` and ``over_nine`` say whether they go up, and whether a 9 that goes up is carried;
    None leaves it open.
    """

    whole: tuple[int, ...] = (0, 1)
    places: tuple[int, ...] = (2, 3)
    to: tuple[int, ...] = (-1,)
    up: bool | None = None
    over_nine: bool | None = None


@dataclass(frozen=True, slots=True)
class PowerOutline:
    """Numbers to be multiplied or divided by 10, 100 or 1000."""

    operation: Operation
    powers: tuple[int, ...] = (1, 2, 3)
    whole: tuple[int, ...] = (0, 1)
    places: tuple[int, ...] = (1, 2)


NUMBERS = Word(
    "numbers",
    frozenset({"order"}),
    WholeNumber(3, 6),
    "How many numbers are put in order: 3 to 6 (4 when not given).",
)
NUMBERS_DEFAULT: Final = 4

PLACES = Word(
    "places",
    _ORDERED,
    Either(
        WholeNumber(0, MOST_PLACES),
        OneField({"ragged": _PLACES, "same": _PLACES, "between": _PLACES}, short="between"),
    ),
    "Decimal places: a number for all alike, {ragged: [1, 3]} for lengths that are not all equal, "
    "{same: [1, 2]} for equal lengths in a range, {between: [1, 3]} for any mixture "
    "({ragged: [1, 3]} when not given).",
)
PLACES_DEFAULT: Final = Chosen("ragged", (1, 3))

WHOLE = Word(
    "whole",
    _ORDERED | {"round"},
    Either(
        WholeNumber(0, MOST_WHOLE), OneField({"between": Range(0, MOST_WHOLE)}, short="between")
    ),
    "Digits before the point: a number (0 writes 0.…) or {between: [0, 2]} "
    "({between: [0, 1]} when not given).",
)
WHOLE_DEFAULT: Final = Chosen("between", (0, 1))

SAME_TO = Word(
    "same_to",
    _ORDERED,
    OneOf(*(COLUMN_NAMES[place] for place in range(0, _LOWEST_SHARED - 1, -1))),
    "The column down to which all the numbers have the same digits, so that columns further to "
    "the right must settle their order: ones, tenths, hundredths or thousandths.",
)

END_ZEROS = Word(
    "zeros",
    frozenset({"compare"}),
    OneField({"end": OneOf("allow", "forbid")}),
    "Whether decimals may end in a nought, so that 0.5 and 0.50 can meet (forbid when not given).",
)

ROUND_PLACES = Word(
    "places",
    frozenset({"round"}),
    Either(WholeNumber(0, MOST_PLACES), OneField({"between": _PLACES}, short="between")),
    "Decimal places of the number: how many, or {between: [2, 4]} ({between: [2, 3]} when not "
    "given).",
)
ROUND_PLACES_DEFAULT: Final = Chosen("between", (2, 3))

TO = Word(
    "to",
    frozenset({"round"}),
    SetOf(*_ROUNDED_TO),
    "The column that is rounded to, or several to choose from: tenths is one decimal place, ones "
    "the nearest whole number ([tenths] when not given).",
)
TO_DEFAULT: Final = ("tenths",)

GOES = Word(
    "goes",
    frozenset({"round"}),
    OneOf("up", "down"),
    "Whether the number goes up or down (either when not given).",
)

OVER_NINE = Word(
    "over_nine",
    frozenset({"round"}),
    OneOf("require", "forbid"),
    "Whether the digit rounded up is a 9, so that one is carried (either when not given).",
)


@dataclass(frozen=True, slots=True)
class AskedPower:
    """By which powers of ten digits move, and how long the number is; None: not asked."""

    by: tuple[str, ...] | None = None
    places: tuple[int, int] | None = None
    whole: tuple[int, int] | None = None


POWER_OF_TEN = Word(
    "power_of_ten",
    frozenset({"multiply", "divide"}),
    Fields(
        AskedPower,
        {
            "by": SetOf(
                "ten",
                "hundred",
                "thousand",
                also={"10": "ten", "100": "hundred", "1000": "thousand"},
            ),
            "places": Range(0, 3),
            "whole": Range(0, MOST_WHOLE),
        },
        short="by",
    ),
    "Makes the rung one of multiplying or dividing by 10, 100 or 1000 on a place-value grid: by "
    "[ten, hundred, thousand] to choose from (all three when not given), places and whole of the "
    "number, each how many or [fewest, most] (places [1, 2] and whole [0, 1] when not given).",
)
_POWERS: Final = {"ten": 1, "hundred": 2, "thousand": 3}


Length = int | Chosen[tuple[int, int]]
"""So many, or a range that is ``ragged``, ``same`` or ``between``."""


def _lengths(asked: Length) -> tuple[int, ...]:
    return spread(asked.value) if isinstance(asked, Chosen) else (asked,)


def narrow_numbers(value: int, outline: OrderOutline) -> OrderOutline:
    """So many numbers."""
    return replace(outline, numbers=value)


def narrow_places(asked: Length, outline: OrderOutline) -> OrderOutline:
    """Lengths to the right of the point."""
    return replace(outline, places=_lengths(asked), ragged=ragged(asked))


Whole = OrderOutline | RoundOutline


def narrow_whole(asked: Length, outline: Whole) -> Whole:
    """Lengths to the left of the point."""
    return replace(outline, whole=_lengths(asked))


def narrow_same_to(value: str, outline: OrderOutline) -> OrderOutline:
    """Digits that all the numbers share."""
    return replace(outline, shared=PLACE_NAMED[value])


def narrow_end_zeros(asked: Chosen[str], outline: OrderOutline) -> OrderOutline:
    """Noughts at the end."""
    return replace(outline, end_zero=asked.value == "allow")


def narrow_round_places(asked: Length, outline: RoundOutline) -> RoundOutline:
    """Decimal places of the number to be rounded."""
    return replace(outline, places=_lengths(asked))


def narrow_to(value: tuple[str, ...], outline: RoundOutline) -> RoundOutline:
    """What is rounded to."""
    return replace(outline, to=tuple(PLACE_NAMED[name] for name in value))


def narrow_goes(value: str, outline: RoundOutline) -> RoundOutline:
    """Up or down."""
    return replace(outline, up=value == "up")


def narrow_over_nine(value: str, outline: RoundOutline) -> RoundOutline:
    """A 9 that goes up, or none."""
    return replace(outline, over_nine=value == "require")


class Outlined(Protocol):
    """An outline of any family: it knows its operation."""

    @property
    def operation(self) -> Operation:
        """The operation of its questions."""


def narrow_power_of_ten(asked: AskedPower, outline: Outlined) -> PowerOutline:
    """A rung of moving digits, for which no other condition narrows anything.

    ``checks.digits_only_move`` refuses the words that would.
    """
    usual = PowerOutline(outline.operation)
    return PowerOutline(
        outline.operation,
        tuple(_POWERS[name] for name in asked.by) if asked.by else usual.powers,
        spread(asked.whole) if asked.whole else usual.whole,
        spread(asked.places) if asked.places else usual.places,
    )
