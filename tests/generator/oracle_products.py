"""Products and divisions worked again in the plainest way, on text: for comparison.

Shares no code with the generator.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache


@cache
def significant(number: str) -> str:
    """A number's digits from the first that is not nought to the last that is not."""
    return number.replace(".", "").strip("0")


def places(number: str) -> int:
    """How many digits stand after the point."""
    return len(number.partition(".")[2])


def inside_nought(number: str) -> bool:
    """Whether a nought stands between other written digits: 2.05, and 0.05 too."""
    return "0" in number.replace(".", "")[1:].rstrip("0")


def decimals(digits: range, after: range, noughts: range = range(1)) -> list[str]:
    """Every factor with so many significant digits and places, in text; no 1 among them.

    Whole numbers end in so many noughts; decimals end in none.
    """
    found = []
    for length in digits:
        for units in range(10 ** (length - 1), 10**length):
            text = str(units)
            if text.endswith("0") or text == "1":
                continue
            if 0 in after:
                found += [text + "0" * many for many in noughts]
            found += [
                f"{padded[:-p]}.{padded[-p:]}"
                for p in after
                if p and (padded := text.rjust(p + 1, "0"))
            ]
    return found


@cache
def rows(upper: str, lower: str) -> list[list[int]]:
    """What is carried on from each product of two digits, row by row, from the right."""
    found = []
    for digit in reversed(lower):
        if digit == "0":
            continue
        carried, row = 0, []
        for other in reversed(upper):
            carried = (int(digit) * int(other) + carried) // 10
            row.append(carried)
        found.append(row)
    return found


def product_rows(numbers: list[str]) -> list[list[int]]:
    """The rows of a product worked in the order of printing, the longer number on top.

    Noughts at the end of the product so far are left aside.
    """
    so_far, found = significant(numbers[0]), []
    for number in numbers[1:]:
        factor = significant(number)
        upper, lower = (so_far, factor) if len(so_far) >= len(factor) else (factor, so_far)
        found += rows(upper, lower)
        so_far = str(int(so_far) * int(factor)).rstrip("0")
    return found


def carries(numbers: list[str]) -> int:
    """How many products of two digits come to ten or more with what is carried to them."""
    return sum(carried > 0 for row in product_rows(numbers) for carried in row)


def product(numbers: list[str]) -> Decimal:
    """The product by ``decimal``."""
    answer = Decimal(1)
    for number in numbers:
        answer *= Decimal(number)
    return answer


def whole_product(numbers: list[str]) -> int:
    """The product of the numbers with their points left out."""
    answer = 1
    for number in numbers:
        answer *= int(number.replace(".", ""))
    return answer


@dataclass(frozen=True)
class Divided:
    """A division on paper, from the quotient's first digit other than nought.

    ``passed`` are remainders handed to the next column (nought where none is); ``left`` is
    what is left over after the last, in units of its column.
    """

    quotient: str
    passed: list[int]
    left: int


def divide(dividend: str, divisor: str, more: int = 0) -> Divided:
    """Short division column by column, carried on for so many noughts more.

    A decimal divisor's point is moved to its end, and the dividend's by as many places.
    """
    by = int(divisor.replace(".", ""))
    whole, _, part = dividend.partition(".")
    part = part.ljust(places(divisor), "0")
    quotient, passed, held = "", [], 0
    for digit in whole + part + "0" * more:
        held = 10 * held + int(digit)
        times, held = held // by, held % by
        if quotient or times:
            quotient += str(times)
            passed.append(held)
    return Divided(quotient, passed[:-1], held)


def exact(dividend: str, divisor: str) -> Fraction:
    """The quotient by ``fractions``."""
    return Fraction(dividend) / Fraction(divisor)


def places_needed(value: Fraction) -> int | None:
    """How many decimal places a fraction takes, or None when it never ends."""
    for count in range(20):
        if (value * 10**count).denominator == 1:
            return count
    return None
