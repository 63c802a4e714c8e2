"""A decimal number as it is written: digits standing in place-value columns.

The value is a whole number of units and a count of decimal places, so 3.40 is
``Number(340, 2)``: exact, never a float, and different on paper from 3.4.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from specs.languages.saying import say

_WRITTEN: Final = re.compile(r"(?P<whole>[0-9]*)(?:\.(?P<part>[0-9]+))?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Number:
    """A non-negative decimal as written.

    ``units`` counts steps of 10**-``places``. Equality is of the writing
    (2.0 is not 2.00); compare ``value`` for equality of size.
    """

    units: int
    places: int = 0

    def __post_init__(self) -> None:
        if self.units < 0 or self.places < 0:
            raise ValueError(f"a written number has no minus sign: {self.units}, {self.places}")

    @classmethod
    def parse(cls, text: str) -> "Number":
        """Read ``3.40``, ``12`` or ``.5`` (an unwritten whole part is nought).

        Raises ValueError for anything else: signs, exponents, spaces, a bare point.
        """
        match = _WRITTEN.fullmatch(text)
        if match is None or not text:
            raise ValueError(say("not a decimal number: {text}", text=repr(text)))
        part = match["part"] or ""
        return cls(int((match["whole"] or "0") + part), len(part))

    def __str__(self) -> str:
        digits = str(self.units).rjust(self.places + 1, "0")
        return f"{digits[: -self.places]}.{digits[-self.places :]}" if self.places else digits

    @property
    def value(self) -> Fraction:
        """The number's exact size."""
        return Fraction(self.units, 10**self.places)

    def units_of(self, places: int) -> int:
        """How many of the last of so many decimal places it is, no fewer than its own.

        3.4 is 340 of the second: sizes of several numbers, to be compared without fractions.
        """
        scale: int = 10 ** (places - self.places)
        return self.units * scale

    @property
    def whole_digits(self) -> int:
        """How many digits stand before the point; 0 when only a nought is written there."""
        return max(len(str(self.units)) - self.places, 0) if self.units else 0

    @property
    def top_place(self) -> int:
        """The place of the first written digit (0 for 0.45: its nought stands in the ones)."""
        return max(self.whole_digits, 1) - 1

    @property
    def last_place(self) -> int:
        """The place of the last written digit: -2 for 3.40."""
        return -self.places

    def digit(self, place: int) -> int:
        """The digit in that column; 0 where nothing is written."""
        shift = place + self.places
        return self.units // 10**shift % 10 if shift >= 0 else 0

    def written_at(self, place: int) -> bool:
        """Whether a digit is written in that column."""
        return self.last_place <= place <= self.top_place

    def to_places(self, places: int) -> "Number":
        """The same value written with so many places.

        Raises ValueError when that would drop a digit other than nought.
        """
        units, dropped = divmod(self.units * 10**places, 10**self.places)
        if dropped:
            raise ValueError(f"{self} has no exact form with {places} decimal places")
        return Number(units, places)

    def trimmed(self) -> "Number":
        """The same value without noughts at the end of its decimal part: 2.50 becomes 2.5."""
        units, places = self.units, self.places
        while places and units % 10 == 0:
            units, places = units // 10, places - 1
        return Number(units, places)


def total(numbers: tuple[Number, ...]) -> Number:
    """The exact sum, written with as many places as the longest number."""
    places = max(number.places for number in numbers)
    return Number(sum(number.to_places(places).units for number in numbers), places)


def difference(first: Number, second: Number) -> Number:
    """The exact difference, written with as many places as the longer number.

    Raises ValueError when the second number is the larger.
    """
    places = max(first.places, second.places)
    return Number(first.to_places(places).units - second.to_places(places).units, places)
