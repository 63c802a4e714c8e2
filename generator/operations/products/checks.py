"""What the words of a multiplication must fit together."""

from typing import Final

from generator.arithmetic.place_value import LOWEST_PLACE
from generator.operations.fixed_numbers import Usual, fits_its_rung
from generator.operations.products import factors
from generator.operations.rung_values import Found, line_of, lists_name_every_number
from generator.operations.spans import each_in_turn, each_of
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
            f"both factors could have {digits[0]} digits",
            f"keep one of them to {_MOST_ROWS}, for instance digits: [{digits[-1]}, {_MOST_ROWS}]",
        )
    each, together = _MOST_OF_THREE
    if numbers > 2 and (digits[-1] > each or sum(digits) > together):
        yield (
            line_of(rung, "digits", "factors"),
            f"three factors could have {sum(digits)} digits",
            f"keep each to {each} and all to {together} together, for instance digits: [2, 2, 1]",
        )
    said = factors.PLACES.of(rung)
    each_places = each_in_turn(factors.PLACES_DEFAULT if said is None else said, numbers)
    places = sum(map(max, each_places))
    if places > -LOWEST_PLACE:
        yield (
            line_of(rung, "places", "factors"),
            f"the answer could have {places} decimal places",
            f"keep the places of all factors to {-LOWEST_PLACE} together",
        )


def _usual_digits(rung: RungSpec, at: int) -> tuple[int, ...]:
    return (1, 2) if numbers_of(rung) == factors.USUAL_FACTORS else (1,)


_USUAL: Final = (
    Usual(
        factors.DIGITS,
        lambda number: factors.taken_apart(number)[0].digits,
        "significant digits",
        _usual_digits,
    ),
    Usual(
        factors.PLACES,
        lambda number: number.places,
        "decimal places",
        lambda rung, at: each_of(factors.PLACES_DEFAULT),
    ),
)

CHECKS: Final[tuple[Check, ...]] = (
    lists_name_every_number(numbers_of, factors.DIGITS, factors.PLACES),
    fits_its_rung(numbers_of, *_USUAL),
    factors_are_workable,
)
