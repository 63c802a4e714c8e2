"""What the words of a rung must fit together, before anything is counted."""

from collections.abc import Iterator
from typing import Final

from generator.arithmetic.place_value import HIGHEST_PLACE, LOWEST_PLACE
from generator.operations.columns import addends, lengths
from generator.operations.columns.lengths import Lengths, lengths_of_each
from generator.operations.numbers_shown import POWER_OF_TEN
from generator.operations.products import factors
from generator.operations.quotients import conditions as division
from specs.shapes import Chosen
from specs.spec import TELLS_APART, RungSpec
from specs.words import Check, Word

MOST_DIGITS: Final = 9
_MOST_ROWS: Final = 3  # of a long multiplication
_MOST_OF_THREE: Final = (2, 5)  # digits of each of three factors, and of all together

Found = Iterator[tuple[int, str, str]]


def _numbers(rung: RungSpec) -> int:
    """How many numbers a question of the rung has."""
    match rung.operation:
        case "add":
            return addends.WORD.of(rung) or addends.DEFAULT
        case "multiply":
            return factors.FACTORS.of(rung) or factors.USUAL_FACTORS
    return 2


def _line(rung: RungSpec, *words: str) -> int:
    """The last line on which one of the words stands, or the rung's own."""
    lines = [condition.line for condition in rung.conditions if condition.word in words]
    return max(lines, default=rung.line)


_LENGTHS: Final[tuple[Word[Lengths], ...]] = (
    lengths.PLACES,
    lengths.WHOLE,
    factors.DIGITS,
    factors.PLACES,
)


def lists_name_every_number(rung: RungSpec) -> Found:
    """A list of lengths has an entry for each number."""
    numbers = _numbers(rung)
    for word in _LENGTHS:
        asked = word.of(rung)
        if isinstance(asked, tuple) and len(asked) != numbers:
            yield (
                _line(rung, word.name),
                f"{word.name} lists {len(asked)} numbers but the question has {numbers}",
                f"list {numbers}, one for each number in turn",
            )


def numbers_fit_the_page(rung: RungSpec) -> Found:
    """No number of an addition or subtraction has more than nine digits."""
    asked = [word.of(rung) for word in (lengths.PLACES, lengths.WHOLE)]
    if rung.operation not in ("add", "subtract") or asked == [None, None]:
        return
    places, whole = asked
    longest = (
        _longest(lengths.PLACES_DEFAULT if places is None else places),
        _longest(lengths.WHOLE_DEFAULT if whole is None else whole),
    )
    if sum(longest) > MOST_DIGITS:
        yield (
            _line(rung, "places", "whole"),
            f"numbers could have {sum(longest)} digits",
            f"keep whole and places to {MOST_DIGITS} digits together",
        )


def factors_are_workable(rung: RungSpec) -> Found:
    """A product has few rows of working, and its answer no column without a name."""
    if rung.operation != "multiply":
        return
    numbers = _numbers(rung)
    asked = factors.DIGITS.of(rung) or (2 if numbers == 2 else 1)
    digits = sorted(map(max, lengths_of_each(asked, numbers)))
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
    said = factors.PLACES.of(rung)
    each_places = lengths_of_each(factors.PLACES_DEFAULT if said is None else said, numbers)
    places = sum(map(max, each_places))
    if places > -LOWEST_PLACE:
        yield (
            _line(rung, "places", "factors"),
            f"the answer could have {places} decimal places",
            f"keep the places of all factors to {-LOWEST_PLACE} together",
        )


def _longest(asked: Lengths) -> int:
    """The greatest length of any number."""
    return max(map(max, lengths_of_each(asked, 1)))


def _shortest(asked: Lengths) -> int:
    """The least length of any number."""
    return min(map(min, lengths_of_each(asked, 1)))


def digits_only_move(rung: RungSpec) -> Found:
    """Where digits move by a power of ten, ``power_of_ten`` says all that there is to say."""
    moves = POWER_OF_TEN.name
    if any(condition.word == moves for condition in rung.conditions):
        for condition in rung.conditions:
            if condition.word not in (moves, TELLS_APART):
                what = f"'{condition.word}' has no meaning beside '{moves}'"
                yield condition.line, what, "leave it out"


def remainders_are_of_whole_numbers(rung: RungSpec) -> Found:
    """What is left over of decimals is not written as a remainder or a fraction."""
    ending = division.ENDING.of(rung)
    if ending not in ("remainder", "fraction"):
        return
    for word in (division.PLACES, division.DIVISOR_PLACES):
        if _longest(word.of(rung) or 0):
            yield (
                _line(rung, word.name),
                f"a division of decimals does not end with a {ending}",
                f"leave {word.name} out, or end with exact, {{decimal: 2}} or {{rounded: 2}}",
            )


def quotients_fit_the_page(rung: RungSpec) -> Found:
    """A division has no column without a name, once its divisor is whole."""
    if rung.operation != "divide":
        return
    places = division.PLACES.of(rung) or 0
    by_places = division.DIVISOR_PLACES.of(rung) or 0
    ending = division.ENDING.of(rung)
    scaled = max(_longest(places) - _shortest(by_places), 0)
    if isinstance(ending, Chosen) and ending.word == "decimal":
        scaled += ending.value
    if scaled > -LOWEST_PLACE:
        yield (
            _line(rung, "places", "ending"),
            f"the quotient could have {scaled} decimal places",
            f"keep to {-LOWEST_PLACE}: fewer places, or a division that ends sooner",
        )
    dividend = division.DIVIDEND.of(rung) or division.USUAL_DIVIDEND
    digits = _longest(dividend) - _shortest(places) + _longest(by_places)
    if digits > HIGHEST_PLACE:
        yield (
            _line(rung, "dividend", "divisor_places"),
            f"the dividend could have {digits} whole digits once the divisor is whole",
            f"keep to {HIGHEST_PLACE}: fewer digits, or fewer divisor_places",
        )


CHECKS: Final[tuple[Check, ...]] = (
    lists_name_every_number,
    numbers_fit_the_page,
    factors_are_workable,
    digits_only_move,
    remainders_are_of_whole_numbers,
    quotients_fit_the_page,
)
