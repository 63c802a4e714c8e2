"""What the words of a multiplication must fit together."""

from typing import Final

from generator.arithmetic.place_value import LOWEST_PLACE
from generator.operations.products.factors import USUAL_FACTORS
from generator.operations.rung_values import (
    Found,
    greatest,
    line_of,
    lists_name_every_number,
    one_choice_of_places,
    value_of,
)
from specs.spec import RungSpec
from specs.words import Check

_MOST_ROWS: Final = 3  # of a long multiplication
_MOST_OF_THREE: Final = (2, 5)  # digits of each of three factors, and of all together


def numbers_of(rung: RungSpec) -> int:
    """How many numbers a question of the rung has."""
    factors = value_of(rung, "factors", USUAL_FACTORS)
    assert isinstance(factors, int)
    return factors


def factors_are_workable(rung: RungSpec) -> Found:
    """A product has few rows of working, and its answer no column without a name."""
    numbers = numbers_of(rung)
    digits = sorted(_each(value_of(rung, "digits", 2 if numbers == 2 else 1), numbers))
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
    places = sum(_each(value_of(rung, "places", 2), numbers))
    if places > -LOWEST_PLACE:
        yield (
            line_of(rung, "places", "factors"),
            f"the answer could have {places} decimal places",
            f"keep the places of all factors to {-LOWEST_PLACE} together",
        )


def _each(value: object, numbers: int) -> list[int]:
    """The greatest length of each number."""
    if isinstance(value, tuple):
        return [greatest(length) for length in value]
    return [greatest(value)] * numbers


CHECKS: Final[tuple[Check, ...]] = (
    lists_name_every_number(numbers_of),
    one_choice_of_places,
    factors_are_workable,
)
