"""What the words of a multiplication must fit together."""

from typing import Final

from generator.arithmetic.place_value import LOWEST_PLACE
from generator.operations.fixed_numbers import Usual, fits_its_rung
from generator.operations.products import factors
from generator.operations.rung_values import Found, line_of, lists_name_every_number
from generator.operations.spans import each_in_turn, each_of
from specs.languages.saying import counted, say
from specs.spec import RungSpec
from specs.words import Check

_MOST_ROWS: Final = 3  # of a long multiplication
_MOST_OF_THREE: Final = (2, 5)  # digits of each of three factors, and of all together


def numbers_of(rung: RungSpec) -> int:
    """How many numbers a question of the rung has."""
    return factors.FACTORS.of(rung) or factors.USUAL_FACTORS


def factors_are_workable(rung: RungSpec) -> Found:
    """A product has few rows of working, and its answer no column without a name."""
    numbers = numbers_of(rung)
    asked = factors.DIGITS.of(rung) or (2 if numbers == 2 else 1)
    digits = sorted(map(max, each_in_turn(asked, numbers)))
    if numbers == 2 and digits[0] > _MOST_ROWS:
        yield (
            line_of(rung, "digits"),
            say("both factors could have {digits} digits", digits=digits[0]),
            say(
                "keep one of them to {most}, for instance digits: [{longer}, {most}]",
                most=_MOST_ROWS,
                longer=digits[-1],
            ),
        )
    each, together = _MOST_OF_THREE
    if numbers > 2 and (digits[-1] > each or sum(digits) > together):
        yield (
            line_of(rung, "digits", "factors"),
            say("three factors could have {digits} digits", digits=sum(digits)),
            say(
                "keep each to {each} and all to {together} together, for instance "
                "digits: [2, 2, 1]",
                each=each,
                together=together,
            ),
        )
    said = factors.PLACES.of(rung)
    each_places = each_in_turn(factors.PLACES_DEFAULT if said is None else said, numbers)
    places = sum(map(max, each_places))
    if places > -LOWEST_PLACE:
        yield (
            line_of(rung, "places", "factors"),
            say("the answer could have {places} decimal places", places=places),
            say("keep the places of all factors to {most} together", most=-LOWEST_PLACE),
        )


def _usual_digits(rung: RungSpec, at: int) -> tuple[int, ...]:
    return (1, 2) if numbers_of(rung) == factors.USUAL_FACTORS else (1,)


_USUAL: Final = (
    Usual(
        factors.DIGITS,
        lambda number: factors.taken_apart(number)[0].digits,
        counted("{count} significant digit", "{count} significant digits"),
        _usual_digits,
    ),
    Usual(
        factors.PLACES,
        lambda number: number.places,
        counted("{count} decimal place", "{count} decimal places"),
        lambda rung, at: each_of(factors.PLACES_DEFAULT),
    ),
)

CHECKS: Final[tuple[Check, ...]] = (
    lists_name_every_number(numbers_of, factors.DIGITS, factors.PLACES),
    fits_its_rung(numbers_of, *_USUAL),
    factors_are_workable,
)
