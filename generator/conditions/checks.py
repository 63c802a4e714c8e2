"""What the words of a rung must fit together, before anything is counted."""

from collections.abc import Iterator
from typing import Final

from generator.conditions.addends import DEFAULT as USUAL_ADDENDS
from specs.shapes import Fieldset
from specs.spec import RungSpec
from specs.words import Check

MOST_DIGITS: Final = 9

Found = Iterator[tuple[int, str, str]]


def _numbers(rung: RungSpec) -> int:
    """How many numbers a question of the rung has."""
    if rung.operation == "subtract":
        return 2
    given = [condition.value for condition in rung.conditions if condition.word == "addends"]
    value = given[0] if given else USUAL_ADDENDS
    assert isinstance(value, int)
    return value


def lists_name_every_number(rung: RungSpec) -> Found:
    """A list of lengths has an entry for each number."""
    numbers = _numbers(rung)
    for condition in rung.conditions:
        if condition.word in ("places", "whole") and isinstance(condition.value, tuple):
            given = len(condition.value)
            if given != numbers:
                yield (
                    condition.line,
                    f"{condition.word} lists {given} numbers but the question has {numbers}",
                    f"list {numbers}, one for each number in turn",
                )


def one_choice_of_places(rung: RungSpec) -> Found:
    """Places are ragged, the same, or anything between: not two of these."""
    for condition in rung.conditions:
        if condition.word == "places" and isinstance(condition.value, Fieldset):
            words = list(condition.value)
            if len(words) > 1:
                yield (
                    condition.line,
                    f"places cannot be {' and '.join(words)} at once",
                    f"keep one of them, for instance places: {{{words[0]}: [1, 3]}}",
                )


def numbers_fit_the_page(rung: RungSpec) -> Found:
    """No number has more than nine digits."""
    longest = {"places": 2, "whole": 1}
    lines = {}
    for condition in rung.conditions:
        if condition.word in longest:
            longest[condition.word] = _greatest(condition.value)
            lines[condition.word] = condition.line
    digits = sum(longest.values())
    if digits > MOST_DIGITS and lines:
        yield (
            max(lines.values()),
            f"numbers could have {digits} digits",
            f"keep whole and places to {MOST_DIGITS} digits together",
        )


def _greatest(value: object) -> int:
    if isinstance(value, int):
        return value
    parts = value.values() if isinstance(value, Fieldset) else value
    assert isinstance(parts, tuple) or hasattr(parts, "__iter__")
    return max(_greatest(part) for part in parts)


CHECKS: Final[tuple[Check, ...]] = (
    lists_name_every_number,
    one_choice_of_places,
    numbers_fit_the_page,
)
