"""The words of ordering and comparing: how the numbers are written, and how much they share."""

from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.place_value import COLUMN_NAMES, PLACE_NAMED
from generator.arithmetic.questions import Operation
from generator.operations.columns.lengths import MOST_PLACES
from generator.operations.spans import Length, each_of, ragged
from specs.languages.saying import say
from specs.shapes import Chosen, Either, OneField, OneOf, Range, WholeNumber
from specs.words import Word

MOST_WHOLE: Final = 4
_PLACES: Final = Range(0, MOST_PLACES)
_LOWEST_SHARED: Final = -3

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


NUMBERS = Word(
    "numbers",
    frozenset({"order"}),
    WholeNumber(3, 6),
    say("How many numbers are put in order: 3 to 6 (4 when not given)."),
)
NUMBERS_DEFAULT: Final = 4

PLACES = Word(
    "places",
    _ORDERED,
    Either(
        WholeNumber(0, MOST_PLACES),
        OneField({"ragged": _PLACES, "same": _PLACES, "between": _PLACES}, short="between"),
    ),
    say(
        "Decimal places: a number for all alike, {{ragged: [1, 3]}} for lengths that are not all "
        "equal, {{same: [1, 2]}} for equal lengths in a range, {{between: [1, 3]}} for any "
        "mixture ({{ragged: [1, 3]}} when not given)."
    ),
)
PLACES_DEFAULT: Final = Chosen("ragged", (1, 3))

WHOLE = Word(
    "whole",
    _ORDERED,
    Either(
        WholeNumber(0, MOST_WHOLE), OneField({"between": Range(0, MOST_WHOLE)}, short="between")
    ),
    say(
        "Digits before the point: a number (0 writes 0.…) or {{between: [0, 2]}} "
        "({{between: [0, 1]}} when not given)."
    ),
)
WHOLE_DEFAULT: Final = Chosen("between", (0, 1))

SAME_TO = Word(
    "same_to",
    _ORDERED,
    OneOf(*(COLUMN_NAMES[place] for place in range(0, _LOWEST_SHARED - 1, -1))),
    say(
        "The column down to which all the numbers have the same digits, so that columns further to "
        "the right must settle their order: ones, tenths, hundredths or thousandths."
    ),
)

END_ZEROS = Word(
    "zeros",
    frozenset({"compare"}),
    OneField({"end": OneOf("allow", "forbid")}),
    say(
        "Whether decimals may end in a nought, so that 0.5 and 0.50 can meet (forbid when not "
        "given)."
    ),
)


def narrow_numbers(value: int, outline: OrderOutline) -> OrderOutline:
    """So many numbers."""
    return replace(outline, numbers=value)


def narrow_places(asked: Length, outline: OrderOutline) -> OrderOutline:
    """Lengths to the right of the point."""
    return replace(outline, places=each_of(asked), ragged=ragged(asked))


def narrow_whole(asked: Length, outline: OrderOutline) -> OrderOutline:
    """Lengths to the left of the point."""
    return replace(outline, whole=each_of(asked))


def narrow_same_to(value: str, outline: OrderOutline) -> OrderOutline:
    """Digits that all the numbers share."""
    return replace(outline, shared=PLACE_NAMED[value])


def narrow_end_zeros(asked: Chosen[str], outline: OrderOutline) -> OrderOutline:
    """Noughts at the end."""
    return replace(outline, end_zero=asked.value == "allow")
