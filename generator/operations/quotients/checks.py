"""What the words of a division must fit together."""

from typing import Final

from generator.arithmetic.place_value import HIGHEST_PLACE, LOWEST_PLACE
from generator.operations.rung_values import Found, greatest, least, line_of, value_of
from specs.shapes import Fieldset
from specs.spec import RungSpec
from specs.words import Check


def one_ending(rung: RungSpec) -> Found:
    """A division is carried on or rounded: not both."""
    ending = value_of(rung, "ending", None)
    if isinstance(ending, Fieldset) and len(ending) > 1:
        yield (
            line_of(rung, "ending"),
            f"ending cannot be {' and '.join(ending)} at once",
            "keep one of them, for instance ending: {decimal: 2}",
        )


def remainders_are_of_whole_numbers(rung: RungSpec) -> Found:
    """What is left over of decimals is not written as a remainder or a fraction."""
    ending = value_of(rung, "ending", "exact")
    if ending in ("remainder", "fraction"):
        for word in ("places", "divisor_places"):
            if greatest(value_of(rung, word, 0)):
                yield (
                    line_of(rung, word),
                    f"a division of decimals does not end with a {ending}",
                    f"leave {word} out, or end with exact, {{decimal: 2}} or {{rounded: 2}}",
                )


def quotients_fit_the_page(rung: RungSpec) -> Found:
    """A division has no column without a name, once its divisor is whole."""
    places = value_of(rung, "places", 0)
    by_places = value_of(rung, "divisor_places", 0)
    ending = value_of(rung, "ending", "exact")
    scaled = max(greatest(places) - least(by_places), 0)
    if isinstance(ending, Fieldset) and "decimal" in ending:
        scaled += greatest(ending["decimal"])
    if scaled > -LOWEST_PLACE:
        yield (
            line_of(rung, "places", "ending"),
            f"the quotient could have {scaled} decimal places",
            f"keep to {-LOWEST_PLACE}: fewer places, or a division that ends sooner",
        )
    digits = greatest(value_of(rung, "dividend", 3)) - least(places) + greatest(by_places)
    if digits > HIGHEST_PLACE:
        yield (
            line_of(rung, "dividend", "divisor_places"),
            f"the dividend could have {digits} whole digits once the divisor is whole",
            f"keep to {HIGHEST_PLACE}: fewer digits, or fewer divisor_places",
        )


CHECKS: Final[tuple[Check, ...]] = (
    one_ending,
    remainders_are_of_whole_numbers,
    quotients_fit_the_page,
)
