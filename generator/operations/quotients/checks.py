"""What the words of a division must fit together."""

from typing import Final

from generator.arithmetic.place_value import HIGHEST_PLACE, LOWEST_PLACE
from generator.operations.fixed_numbers import Usual, fits_its_rung
from generator.operations.quotients import conditions as division
from generator.operations.rung_values import Found, line_of
from generator.operations.spans import longest, shortest, spread
from specs.languages.saying import counted, say
from specs.shapes import Chosen
from specs.spec import RungSpec
from specs.words import Check

_NOT_OF_DECIMALS: Final = {
    "remainder": say("a division of decimals does not end with a remainder"),
    "fraction": say("a division of decimals does not end with a fraction"),
}


def remainders_are_of_whole_numbers(rung: RungSpec) -> Found:
    """What is left over of decimals is not written as a remainder or a fraction."""
    ending = division.ENDING.of(rung)
    if isinstance(ending, str) and ending in _NOT_OF_DECIMALS:
        for word in (division.PLACES, division.DIVISOR_PLACES):
            if longest(word.of(rung) or 0):
                yield (
                    line_of(rung, word.name),
                    _NOT_OF_DECIMALS[ending],
                    say(
                        "leave {word} out, or end with exact, {{decimal: 2}} or {{rounded: 2}}",
                        word=word.name,
                    ),
                )


def quotients_fit_the_page(rung: RungSpec) -> Found:
    """A division has no column without a name, once its divisor is whole."""
    places = division.PLACES.of(rung) or 0
    by_places = division.DIVISOR_PLACES.of(rung) or 0
    ending = division.ENDING.of(rung)
    scaled = max(longest(places) - shortest(by_places), 0)
    if isinstance(ending, Chosen) and ending.word == "decimal":
        scaled += ending.value
    if scaled > -LOWEST_PLACE:
        yield (
            line_of(rung, "places", "ending"),
            say("the quotient could have {places} decimal places", places=scaled),
            say("keep to {most}: fewer places, or a division that ends sooner", most=-LOWEST_PLACE),
        )
    dividend = division.DIVIDEND.of(rung) or division.USUAL_DIVIDEND
    digits = longest(dividend) - shortest(places) + longest(by_places)
    if digits > HIGHEST_PLACE:
        yield (
            line_of(rung, "dividend", "divisor_places"),
            say(
                "the dividend could have {digits} whole digits once the divisor is whole",
                digits=digits,
            ),
            say("keep to {most}: fewer digits, or fewer divisor_places", most=HIGHEST_PLACE),
        )


def _numbers_of(rung: RungSpec) -> int:
    return 2


_USUAL: Final = (
    Usual(
        division.DIVIDEND,
        lambda number: len(str(number.units)),
        counted("{count} significant digit", "{count} significant digits"),
        lambda rung, at: spread(division.USUAL_DIVIDEND.value) if at == 0 else None,
    ),
    Usual(
        division.PLACES,
        lambda number: number.places,
        counted("{count} decimal place", "{count} decimal places"),
        lambda rung, at: (0,) if at == 0 else None,
    ),
    Usual(
        division.DIVISOR,
        lambda number: len(str(number.units)),
        counted("{count} digit", "{count} digits"),
        lambda rung, at: (1,) if at == 1 else None,
    ),
    Usual(
        division.DIVISOR_PLACES,
        lambda number: number.places,
        counted("{count} decimal place", "{count} decimal places"),
        lambda rung, at: (0,) if at == 1 else None,
    ),
)

CHECKS: Final[tuple[Check, ...]] = (
    fits_its_rung(_numbers_of, *_USUAL),
    remainders_are_of_whole_numbers,
    quotients_fit_the_page,
)
