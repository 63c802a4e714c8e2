"""Written arithmetic done again in the plainest way, on text and by ``decimal``: for comparison.

Shares no code with the generator. ``decimal`` is CPython's, an implementation of the
General Decimal Arithmetic specification (libmpdec).
"""

from dataclasses import dataclass
from decimal import Decimal


def columns(numbers: list[str]) -> list[tuple[int, list[int]]]:
    """(place, digits) from the right-most column to the left-most, padded with noughts."""
    wholes = [n.partition(".")[0] for n in numbers]
    parts = [n.partition(".")[2] for n in numbers]
    left, right = max(map(len, wholes)), max(map(len, parts))
    padded = [
        whole.rjust(left, "0") + part.ljust(right, "0")
        for whole, part in zip(wholes, parts, strict=True)
    ]
    width = left + right
    return [(at - right, [int(row[width - 1 - at]) for row in padded]) for at in range(width)]


@dataclass(frozen=True)
class Worked:
    """What happens when a question is worked: transfers by place, and noughts passed through."""

    transfers: dict[int, int]
    zeros_passed: tuple[int, ...]


def add(numbers: list[str]) -> Worked:
    """Column addition by hand."""
    carry, carries = 0, {}
    for place, digits in columns(numbers):
        carry = (sum(digits) + carry) // 10
        if carry:
            carries[place] = carry
    return Worked(carries, ())


def subtract(numbers: list[str]) -> Worked:
    """Column subtraction by exchange, done on a list of digits as on paper."""
    rows = columns(numbers)
    places = [place for place, _ in rows]
    upper = [digits[0] for _, digits in rows]
    original = list(upper)
    received: dict[int, int] = {}
    passed: list[int] = []
    for at, (_, (_, lower)) in enumerate(rows):
        if upper[at] >= lower:
            continue
        source = at + 1
        while upper[source] == 0:
            source += 1
        for step in range(source, at, -1):
            upper[step] -= 1
            upper[step - 1] += 10
            received[places[step - 1]] = 1
            if step < source and original[step] == 0:
                passed.append(places[step])
    return Worked(received, tuple(sorted(passed)))


def answer(operation: str, numbers: list[str]) -> Decimal:
    """The answer by ``decimal``."""
    values = [Decimal(number) for number in numbers]
    return sum(values, Decimal(0)) if operation == "add" else values[0] - values[1]


def carries_across_point(numbers: list[str]) -> bool:
    """Whether the tenths' total reaches ten."""
    return -1 in add(numbers).transfers


def inside_zero(number: str) -> bool:
    """Whether a nought stands between the first and the last written digit, with another
    digit than nought to its right.
    """
    digits = number.replace(".", "")
    return "0" in digits[1:].rstrip("0")


def end_zero(number: str) -> bool:
    """Whether the last written digit is a nought."""
    return number.endswith("0")
