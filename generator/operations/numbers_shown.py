"""The words of ordering, comparing and rounding, and of moving digits by a power of ten.

These questions are about numbers as they stand; their conditions say how they are written.
"""

from dataclasses import dataclass, replace
from typing import Final, Protocol

from generator.arithmetic.place_value import COLUMN_NAMES, PLACE_NAMED
from generator.arithmetic.questions import Operation
from generator.operations.columns.lengths import MOST_PLACES
from specs.shapes import Either, Fields, Fieldset, OneOf, Range, SetOf, WholeNumber
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
        Fields({"ragged": _PLACES, "same": _PLACES, "between": _PLACES}),
    ),
    "Decimal places: a number for all alike, {ragged: [1, 3]} for lengths that are not all equal, "
    "{same: [1, 2]} for equal lengths in a range, {between: [1, 3]} for any mixture "
    "({ragged: [1, 3]} when not given).",
)
PLACES_DEFAULT: Final = Fieldset({"ragged": (1, 3)})

WHOLE = Word(
    "whole",
    _ORDERED | {"round"},
    Either(WholeNumber(0, MOST_WHOLE), Fields({"between": Range(0, MOST_WHOLE)})),
    "Digits before the point: a number (0 writes 0.…) or {between: [0, 2]} "
    "({between: [0, 1]} when not given).",
)
WHOLE_DEFAULT: Final = Fieldset({"between": (0, 1)})

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
    Fields({"end": OneOf("allow", "forbid")}),
    "Whether decimals may end in a nought, so that 0.5 and 0.50 can meet (forbid when not given).",
)

ROUND_PLACES = Word(
    "places",
    frozenset({"round"}),
    Either(WholeNumber(0, MOST_PLACES), Fields({"between": _PLACES})),
    "Decimal places of the number: how many, or {between: [2, 4]} ({between: [2, 3]} when not "
    "given).",
)
ROUND_PLACES_DEFAULT: Final = Fieldset({"between": (2, 3)})

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

POWER_OF_TEN = Word(
    "power_of_ten",
    frozenset({"multiply", "divide"}),
    Fields(
        {
            "by": SetOf("ten", "hundred", "thousand"),
            "places": Range(0, 3),
            "whole": Range(0, MOST_WHOLE),
        }
    ),
    "Makes the rung one of multiplying or dividing by 10, 100 or 1000 on a place-value grid: by "
    "[ten, hundred, thousand] to choose from (all three when not given), places and whole of the "
    "number, each how many or [fewest, most] (places [1, 2] and whole [0, 1] when not given).",
)
_POWERS: Final = {"ten": 1, "hundred": 2, "thousand": 3}


def _spread(low_high: object) -> tuple[int, ...]:
    assert isinstance(low_high, tuple)
    low, high = low_high
    return tuple(range(low, high + 1))


def narrow_numbers(value: object, outline: OrderOutline) -> OrderOutline:
    """So many numbers."""
    assert isinstance(value, int)
    return replace(outline, numbers=value)


def narrow_places(value: object, outline: OrderOutline) -> OrderOutline:
    """Lengths to the right of the point."""
    if isinstance(value, int):
        return replace(outline, places=(value,), ragged=None)
    assert isinstance(value, Fieldset)
    ((word, low_high),) = value.items()
    ragged = {"ragged": True, "same": False, "between": None}[word]
    return replace(outline, places=_spread(low_high), ragged=ragged)


Whole = OrderOutline | RoundOutline


def narrow_whole(value: object, outline: Whole) -> Whole:
    """Lengths to the left of the point."""
    whole = (value,) if isinstance(value, int) else _between(value)
    return replace(outline, whole=whole)


def narrow_same_to(value: object, outline: OrderOutline) -> OrderOutline:
    """Digits that all the numbers share."""
    return replace(outline, shared=PLACE_NAMED[str(value)])


def narrow_end_zeros(value: object, outline: OrderOutline) -> OrderOutline:
    """Noughts at the end."""
    assert isinstance(value, Fieldset)
    return replace(outline, end_zero=value.get("end") == "allow")


def narrow_round_places(value: object, outline: RoundOutline) -> RoundOutline:
    """Decimal places of the number to be rounded."""
    return replace(outline, places=(value,) if isinstance(value, int) else _between(value))


def narrow_to(value: object, outline: RoundOutline) -> RoundOutline:
    """What is rounded to."""
    assert isinstance(value, tuple)
    return replace(outline, to=tuple(PLACE_NAMED[name] for name in value))


def narrow_goes(value: object, outline: RoundOutline) -> RoundOutline:
    """Up or down."""
    return replace(outline, up=value == "up")


def narrow_over_nine(value: object, outline: RoundOutline) -> RoundOutline:
    """A 9 that goes up, or none."""
    return replace(outline, over_nine=value == "require")


class Outlined(Protocol):
    """An outline of any family: it knows its operation."""

    @property
    def operation(self) -> Operation:
        """The operation of its questions."""


def narrow_power_of_ten(value: object, outline: Outlined) -> PowerOutline:
    """A rung of moving digits, for which no other condition narrows anything.

    ``checks.digits_only_move`` refuses the words that would.
    """
    assert isinstance(value, Fieldset)
    usual = PowerOutline(outline.operation)
    return PowerOutline(
        outline.operation,
        tuple(_POWERS[name] for name in value["by"]) if "by" in value else usual.powers,
        _spread(value["whole"]) if "whole" in value else usual.whole,
        _spread(value["places"]) if "places" in value else usual.places,
    )


def _between(value: object) -> tuple[int, ...]:
    assert isinstance(value, Fieldset)
    return _spread(value["between"])
