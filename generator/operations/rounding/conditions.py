"""The words of rounding: how the number is written, what it is rounded to, which way it goes."""

from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.place_value import COLUMN_NAMES, PLACE_NAMED
from generator.operations.columns.lengths import MOST_PLACES
from generator.operations.spans import Length, each_of
from specs.languages.saying import say
from specs.shapes import Chosen, Either, OneField, OneOf, Range, SetOf, WholeNumber
from specs.words import Word

MOST_WHOLE: Final = 4
_PLACES: Final = Range(0, MOST_PLACES)
_ROUNDED_TO: Final = [COLUMN_NAMES[place] for place in range(3, -4, -1)]
_ROUND: Final = frozenset({"round"})


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


PLACES = Word(
    "places",
    _ROUND,
    Either(WholeNumber(0, MOST_PLACES), OneField({"between": _PLACES}, short="between")),
    say(
        "Decimal places of the number: how many, or {{between: [2, 4]}} ({{between: [2, 3]}} when "
        "not given)."
    ),
)
PLACES_DEFAULT: Final = Chosen("between", (2, 3))

WHOLE = Word(
    "whole",
    _ROUND,
    Either(
        WholeNumber(0, MOST_WHOLE), OneField({"between": Range(0, MOST_WHOLE)}, short="between")
    ),
    say(
        "Digits before the point: a number (0 writes 0.…) or {{between: [0, 2]}} "
        "({{between: [0, 1]}} when not given)."
    ),
)
WHOLE_DEFAULT: Final = Chosen("between", (0, 1))

TO = Word(
    "to",
    _ROUND,
    SetOf(*_ROUNDED_TO),
    say(
        "The column that is rounded to, or several to choose from: tenths is one decimal place, "
        "ones the nearest whole number ([tenths] when not given)."
    ),
)
TO_DEFAULT: Final = ("tenths",)

GOES = Word(
    "goes",
    _ROUND,
    OneOf("up", "down"),
    say("Whether the number goes up or down (either when not given)."),
)

OVER_NINE = Word(
    "over_nine",
    _ROUND,
    OneOf("require", "forbid"),
    say("Whether the digit rounded up is a 9, so that one is carried (either when not given)."),
)


def narrow_places(asked: Length, outline: RoundOutline) -> RoundOutline:
    """Decimal places of the number to be rounded."""
    return replace(outline, places=each_of(asked))


def narrow_whole(asked: Length, outline: RoundOutline) -> RoundOutline:
    """Digits before the point."""
    return replace(outline, whole=each_of(asked))


def narrow_to(value: tuple[str, ...], outline: RoundOutline) -> RoundOutline:
    """What is rounded to."""
    return replace(outline, to=tuple(PLACE_NAMED[name] for name in value))


def narrow_goes(value: str, outline: RoundOutline) -> RoundOutline:
    """Up or down."""
    return replace(outline, up=value == "up")


def narrow_over_nine(value: str, outline: RoundOutline) -> RoundOutline:
    """A 9 that goes up, or none."""
    return replace(outline, over_nine=value == "require")
