"""What the words of a rung say together, for the checks of a topic."""

from collections.abc import Callable, Iterator
from typing import Final

from specs.shapes import Fieldset
from specs.spec import RungSpec
from specs.words import Check

Found = Iterator[tuple[int, str, str]]
"""A line, what is wrong there, and what to write instead."""


def value_of(rung: RungSpec, word: str, usual: object) -> object:
    """The value of a word of the rung, or the usual one."""
    return next((found.value for found in rung.conditions if found.word == word), usual)


def line_of(rung: RungSpec, *words: str) -> int:
    """The last line on which one of the words stands, or the rung's own."""
    lines = [condition.line for condition in rung.conditions if condition.word in words]
    return max(lines, default=rung.line)


def greatest(value: object) -> int:
    """The greatest number in a value."""
    if isinstance(value, int):
        return value
    parts = value.values() if isinstance(value, Fieldset) else value
    assert isinstance(parts, tuple) or hasattr(parts, "__iter__")
    return max(greatest(part) for part in parts)


def least(value: object) -> int:
    """The least number in a value."""
    if isinstance(value, int):
        return value
    parts = value.values() if isinstance(value, Fieldset) else value
    assert isinstance(parts, tuple) or hasattr(parts, "__iter__")
    return min(least(part) for part in parts)


_LENGTHS: Final = ("places", "whole", "digits")


def lists_name_every_number(numbers: Callable[[RungSpec], int]) -> Check:
    """The check that a list of lengths has an entry for each number of a rung's questions."""

    def check(rung: RungSpec) -> Found:
        exist = numbers(rung)
        for condition in rung.conditions:
            if condition.word in _LENGTHS and isinstance(condition.value, tuple):
                given = len(condition.value)
                if given != exist:
                    yield (
                        condition.line,
                        f"{condition.word} lists {given} numbers but the question has {exist}",
                        f"list {exist}, one for each number in turn",
                    )

    return check


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
