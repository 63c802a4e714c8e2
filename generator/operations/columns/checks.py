"""What the words of an addition or a subtraction must fit together."""

from typing import Final

from generator.operations.columns import addends, lengths
from generator.operations.fixed_numbers import Usual, fits_its_rung
from generator.operations.rung_values import Found, line_of, lists_name_every_number
from generator.operations.spans import each_of, longest
from specs.languages.saying import counted, say
from specs.spec import RungSpec
from specs.words import Check

MOST_DIGITS: Final = 9


def numbers_of(rung: RungSpec) -> int:
    """How many numbers a question of the rung has."""
    return 2 if rung.operation != "add" else addends.WORD.of(rung) or addends.DEFAULT


def numbers_fit_the_page(rung: RungSpec) -> Found:
    """No number of an addition or subtraction has more than nine digits."""
    places, whole = lengths.PLACES.of(rung), lengths.WHOLE.of(rung)
    digits = longest(lengths.PLACES_DEFAULT if places is None else places)
    digits += longest(lengths.WHOLE_DEFAULT if whole is None else whole)
    if digits > MOST_DIGITS:
        yield (
            line_of(rung, "places", "whole"),
            say("numbers could have {digits} digits", digits=digits),
            say("keep whole and places to {digits} digits together", digits=MOST_DIGITS),
        )


_USUAL: Final = (
    Usual(
        lengths.PLACES,
        lambda number: number.places,
        counted("{count} decimal place", "{count} decimal places"),
        lambda rung, at: each_of(lengths.PLACES_DEFAULT),
    ),
    Usual(
        lengths.WHOLE,
        lambda number: number.whole_digits,
        counted("{count} digit before the point", "{count} digits before the point"),
        lambda rung, at: each_of(lengths.WHOLE_DEFAULT),
    ),
)

CHECKS: Final[tuple[Check, ...]] = (
    lists_name_every_number(numbers_of, lengths.PLACES, lengths.WHOLE),
    fits_its_rung(numbers_of, *_USUAL),
    numbers_fit_the_page,
)
