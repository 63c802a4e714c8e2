"""Mistakes in multiplying: the point, the noughts, and what is carried in each row."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import NO_SOURCE, Mistake, reply
from generator.operations.products.whole_product import RowHabit
from specs.replies import Reply

_MOST_PLACES: Final = 6


def point_as_in_addition(question: Question) -> Reply | None:
    """0.6 × 0.7: 42, and one place as in both numbers: 4.2."""
    places = [number.places for number in question.operands]
    if sum(map(bool, places)) < 2:
        return None
    return reply(Number(_whole_product(question), max(places)))


def powers_added(question: Question) -> Reply | None:
    """0.6 × 0.7: 42, made 10 + 10 = 20 times smaller: 2.1."""
    powers = [10**number.places for number in question.operands if number.places]
    if len(powers) < 2:
        return None
    exact = Fraction(_whole_product(question), sum(powers))
    for places in range(_MOST_PLACES + 1):
        if (exact * 10**places).denominator == 1:
            return reply(Number(int(exact * 10**places), places))
    return None  # 42 ÷ 110 never ends, and nobody writes it


def zeros_skipped(question: Question) -> Reply | None:
    """304 × 6 as 34 × 6: 204. A nought between other digits is passed over."""
    if question.power_of_ten:
        return None  # no column is multiplied: the digits are moved
    units, shown = 1, False
    for number in question.operands:
        kept = number.units
        while kept and kept % 10 == 0:
            kept //= 10
        inside = str(kept).replace("0", "") if kept else "0"
        shown = shown or inside != str(kept)
        ends = number.units // kept if kept else 1
        units *= int(inside) * ends
    places = sum(number.places for number in question.operands)
    return reply(Number(units, places)) if shown else None


def _row(number: int, by: int, habit: RowHabit) -> int:
    digits = [int(digit) for digit in reversed(str(number))]
    answer, carry = 0, 0
    for at, digit in enumerate(digits):
        written, carry = habit(digit, by, carry, at == len(digits) - 1)
        answer += written * 10**at
    return answer


def _rows(question: Question, habit: RowHabit) -> Reply | None:
    """The product of two numbers by short or long multiplication, each row by a habit.

    The number with more digits stands above; noughts at the ends are left to the end.
    """
    if len(question.operands) != 2:
        return None
    upper, lower, noughts = _above_and_below(question)
    product = sum(
        _row(upper, int(digit), habit) * 10**at for at, digit in enumerate(reversed(str(lower)))
    )
    if product == upper * lower:
        return None
    return reply(Number(product * 10**noughts, sum(n.places for n in question.operands)))


def _above_and_below(question: Question) -> tuple[int, int, int]:
    """The two numbers without noughts at their ends, longer first, and how many those were."""
    bare, noughts = [], 0
    for number in question.operands:
        units = number.units
        while units and units % 10 == 0:
            units, noughts = units // 10, noughts + 1
        bare.append(units)
    upper, lower = sorted(bare, key=lambda units: -len(str(units)))
    return upper, lower, noughts


def carry_dropped(question: Question) -> Reply | None:
    """24 × 6: 24, write 4; 12: 124."""
    return _rows(question, last_digits_only)


def carry_added_first(question: Question) -> Reply | None:
    """24 × 6: 24, write 4, carry 2; 2 + 2 = 4, 4 × 6 = 24: 244."""
    return _rows(question, added_first)


def carry_swapped(question: Question) -> Reply | None:
    """24 × 6: 24, write 2, carry 4; 12 + 4 = 16: 162."""
    return _rows(question, swapped)


def last_digits_only(digit: int, by: int, carry: int, last: bool) -> tuple[int, int]:
    """Of each product the ones, of the last all of it, and nothing carried."""
    return (digit * by if last else digit * by % 10), 0


def added_first(digit: int, by: int, carry: int, last: bool) -> tuple[int, int]:
    """What is carried added to the digit before it is multiplied."""
    made = (digit + carry) * by
    return (made, 0) if last else (made % 10, made // 10)


def swapped(digit: int, by: int, carry: int, last: bool) -> tuple[int, int]:
    """The tens of the product written, the ones carried."""
    made = digit * by + carry
    if last:
        return made, 0
    return (made // 10, made % 10) if made >= 10 else (made, 0)


def nought_left_out(question: Question) -> Reply | None:
    """24 × 16: 144 and 24, one under the other: 168."""
    if len(question.operands) != 2:
        return None
    upper, lower, noughts = _above_and_below(question)
    if lower < 10:
        return None
    product = sum(upper * int(digit) for digit in str(lower))
    return reply(Number(product * 10**noughts, sum(n.places for n in question.operands)))


def _whole_product(question: Question) -> int:
    product = 1
    for number in question.operands:
        product *= number.units
    return product


_MULTIPLY: Final = frozenset({Operation.MULTIPLY})
_SCALING: Final = (
    "Estimate first; then show 0.6 × 0.7 as 6 × 7 made 10 × 10 = 100 times smaller, on squared "
    "paper ten by ten."
)

POINT_AS_IN_ADDITION: Final = Mistake(
    "point placed as in addition",
    _MULTIPLY,
    "Gives the product as many decimal places as the longer number has.",
    _SCALING,
    NO_SOURCE,
    point_as_in_addition,
)
POWERS_ADDED: Final = Mistake(
    "powers of ten added not multiplied",
    _MULTIPLY,
    "Makes the whole-number product 10 + 10 times smaller instead of 10 × 10 times.",
    _SCALING,
    NO_SOURCE,
    powers_added,
)
ZEROS_SKIPPED: Final = Mistake(
    "zero digits skipped in multiplying",
    _MULTIPLY,
    "Passes over a nought inside a number as if it were not there.",
    "Multiply 300 + 4 by 6 part by part, and compare with the column working.",
    NO_SOURCE,
    zeros_skipped,
)
CARRY_NOT_ADDED: Final = Mistake(
    "carry not added in multiplying",
    _MULTIPLY,
    "Writes the last digit of each product and never adds what is carried.",
    "Write out 20 × 6 and 4 × 6 and add them, beside the short form.",
    NO_SOURCE,
    carry_dropped,
)
CARRY_ADDED_FIRST: Final = Mistake(
    "carry added before multiplying",
    _MULTIPLY,
    "Adds the carried digit to the next digit and multiplies the two together.",
    "Write out 20 × 6 and 4 × 6 and add them, beside the short form.",
    NO_SOURCE,
    carry_added_first,
)
CARRY_SWAPPED: Final = Mistake(
    "carried and kept figures swapped in multiplying",
    _MULTIPLY,
    "Writes the tens of a product in the answer and carries the ones.",
    "Say the product in words, two tens and four: the four stays, the two tens move left.",
    NO_SOURCE,
    carry_swapped,
)
NOUGHT_LEFT_OUT: Final = Mistake(
    "rows of a long multiplication not moved along",
    _MULTIPLY,
    "Sets every row out from the ones, so the tens row counts as ones.",
    "Split 24 × 16 into 24 × 6 and 24 × 10, and write the nought of the second row first.",
    NO_SOURCE,
    nought_left_out,
)
