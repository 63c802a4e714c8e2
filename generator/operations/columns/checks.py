"""What the words of an addition or a subtraction must fit together."""

from typing import Final

from generator.operations.columns.addends import DEFAULT as USUAL_ADDENDS
from generator.operations.rung_values import (
    Found,
    greatest,
    lists_name_every_number,
    one_choice_of_places,
    value_of,
)
from specs.spec import RungSpec
from specs.words import Check

MOST_DIGITS: Final = 9


def numbers_of(rung: RungSpec) -> int:
    """How many numbers a question of the rung has."""
    if rung.operation != "add":
        return 2
    addends = value_of(rung, "addends", USUAL_ADDENDS)
    assert isinstance(addends, int)
    return addends


def numbers_fit_the_page(rung: RungSpec) -> Found:
    """No number of an addition or subtraction has more than nine digits."""
    longest = {"places": 2, "whole": 1}
    lines = {}
    for condition in rung.conditions:
        if condition.word in longest:
            longest[condition.word] = greatest(condition.value)
            lines[condition.word] = condition.line
    digits = sum(longest.values())
    if digits > MOST_DIGITS and lines:
        yield (
            max(lines.values()),
            f"numbers could have {digits} digits",
            f"keep whole and places to {MOST_DIGITS} digits together",
        )


CHECKS: Final[tuple[Check, ...]] = (
    lists_name_every_number(numbers_of),
    one_choice_of_places,
    numbers_fit_the_page,
)
