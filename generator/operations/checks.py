"""What the words of a rung must fit together, before anything is counted."""

from collections.abc import Iterator
from typing import Final

from generator.arithmetic.place_value import HIGHEST_PLACE, LOWEST_PLACE
from generator.operations.columns.addends import DEFAULT as USUAL_ADDENDS
from generator.operations.numbers_shown import POWER_OF_TEN
from generator.operations.products.factors import USUAL_FACTORS
from specs.shapes import Fieldset
from specs.spec import TELLS_APART, RungSpec
from specs.words import Check

MOST_DIGITS: Final = 9
_MOST_ROWS: Final = 3  # of a long multiplication
_MOST_OF_THREE: Final = (2, 5)  # digits of each of three factors, and of all together

Found = Iterator[tuple[int, str, str]]


def _numbers(rung: RungSpec) -> int:
    """How many numbers a question of the rung has."""
    match rung.operation:
        case "add":
            value = _value(rung, "addends", USUAL_ADDENDS)
        case "multiply":
            value = _value(rung, "factors", USUAL_FACTORS)
        case _:
            return 2
    assert isinstance(value, int)
    return value


def _value(rung: RungSpec, word: str, usual: object) -> object:
    """The value of a word of the rung, or the usual one."""
    return next((found.value for found in rung.conditions if found.word == word), usual)


def _line(rung: RungSpec, *words: str) -> int:
    """The last line on which one of the words stands, or the rung's own."""
    lines = [condition.line for condition in rung.conditions if condition.word in words]
    return max(lines, default=rung.line)


_LENGTHS: Final = ("places", "whole", "digits")


def lists_name_every_number(rung: RungSpec) -> Found:
    """A list of lengths has an entry for each number."""
    numbers = _numbers(rung)
    for condition in rung.conditions:
        if condition.word in _LENGTHS and isinstance(condition.value, tuple):
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
    """No number of an addition or subtraction has more than nine digits."""
    if rung.operation not in ("add", "subtract"):
        return
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


def factors_are_workable(rung: RungSpec) -> Found:
    """A product has few rows of working, and its answer no column without a name."""
    if rung.operation != "multiply":
        return
    numbers = _numbers(rung)
    digits = sorted(_each(_value(rung, "digits", 2 if numbers == 2 else 1), numbers))
    if numbers == 2 and digits[0] > _MOST_ROWS:
        yield (
            _line(rung, "digits"),
            f"both factors could have {digits[0]} digits",
            f"keep one of them to {_MOST_ROWS}, for instance digits: [{digits[-1]}, {_MOST_ROWS}]",
        )
    each, together = _MOST_OF_THREE
    if numbers > 2 and (digits[-1] > each or sum(digits) > together):
        yield (
            _line(rung, "digits", "factors"),
            f"three factors could have {sum(digits)} digits",
            f"keep each to {each} and all to {together} together, for instance digits: [2, 2, 1]",
        )
    places = sum(_each(_value(rung, "places", 2), numbers))
    if places > -LOWEST_PLACE:
        yield (
            _line(rung, "places", "factors"),
            f"the answer could have {places} decimal places",
            f"keep the places of all factors to {-LOWEST_PLACE} together",
        )


def _each(value: object, numbers: int) -> list[int]:
    """The greatest length of each number."""
    if isinstance(value, tuple):
        return [_greatest(length) for length in value]
    return [_greatest(value)] * numbers


def digits_only_move(rung: RungSpec) -> Found:
    """Where digits move by a power of ten, ``power_of_ten`` says all that there is to say."""
    moves = POWER_OF_TEN.name
    if any(condition.word == moves for condition in rung.conditions):
        for condition in rung.conditions:
            if condition.word not in (moves, TELLS_APART):
                what = f"'{condition.word}' has no meaning beside '{moves}'"
                yield condition.line, what, "leave it out"


def one_ending(rung: RungSpec) -> Found:
    """A division is carried on or rounded: not both."""
    ending = _value(rung, "ending", None)
    if rung.operation == "divide" and isinstance(ending, Fieldset) and len(ending) > 1:
        yield (
            _line(rung, "ending"),
            f"ending cannot be {' and '.join(ending)} at once",
            "keep one of them, for instance ending: {decimal: 2}",
        )


def remainders_are_of_whole_numbers(rung: RungSpec) -> Found:
    """What is left over of decimals is not written as a remainder or a fraction."""
    ending = _value(rung, "ending", "exact")
    if rung.operation == "divide" and ending in ("remainder", "fraction"):
        for word in ("places", "divisor_places"):
            if _greatest(_value(rung, word, 0)):
                yield (
                    _line(rung, word),
                    f"a division of decimals does not end with a {ending}",
                    f"leave {word} out, or end with exact, {{decimal: 2}} or {{rounded: 2}}",
                )


def quotients_fit_the_page(rung: RungSpec) -> Found:
    """A division has no column without a name, once its divisor is whole."""
    if rung.operation != "divide":
        return
    places = _value(rung, "places", 0)
    by_places = _value(rung, "divisor_places", 0)
    ending = _value(rung, "ending", "exact")
    scaled = max(_greatest(places) - _least(by_places), 0)
    if isinstance(ending, Fieldset) and "decimal" in ending:
        scaled += _greatest(ending["decimal"])
    if scaled > -LOWEST_PLACE:
        yield (
            _line(rung, "places", "ending"),
            f"the quotient could have {scaled} decimal places",
            f"keep to {-LOWEST_PLACE}: fewer places, or a division that ends sooner",
        )
    digits = _greatest(_value(rung, "dividend", 3)) - _least(places) + _greatest(by_places)
    if digits > HIGHEST_PLACE:
        yield (
            _line(rung, "dividend", "divisor_places"),
            f"the dividend could have {digits} whole digits once the divisor is whole",
            f"keep to {HIGHEST_PLACE}: fewer digits, or fewer divisor_places",
        )


def _greatest(value: object) -> int:
    if isinstance(value, int):
        return value
    parts = value.values() if isinstance(value, Fieldset) else value
    assert isinstance(parts, tuple) or hasattr(parts, "__iter__")
    return max(_greatest(part) for part in parts)


def _least(value: object) -> int:
    if isinstance(value, int):
        return value
    parts = value.values() if isinstance(value, Fieldset) else value
    assert isinstance(parts, tuple) or hasattr(parts, "__iter__")
    return min(_least(part) for part in parts)


CHECKS: Final[tuple[Check, ...]] = (
    lists_name_every_number,
    one_choice_of_places,
    numbers_fit_the_page,
    factors_are_workable,
    digits_only_move,
    one_ending,
    remainders_are_of_whole_numbers,
    quotients_fit_the_page,
)
