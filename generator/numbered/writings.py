"""Numbers of one length, numbered: so many digits before the point, so many places after it."""

from dataclasses import dataclass

from generator.arithmetic.numbers import Number


@dataclass(frozen=True, slots=True, order=True)
class Writing:
    """How a number is written: ``whole`` digits before the point (0 writes 0.…), ``places`` after.

    Decimals do not end in nought unless ``end_zero``. Nought itself is no number here.
    """

    whole: int
    places: int
    end_zero: bool = False

    @property
    def wholes(self) -> int:
        """How many whole parts there are."""
        return int(9 * 10 ** (self.whole - 1)) if self.whole else 1

    @property
    def decimals(self) -> int:
        """How many decimal parts there are."""
        if not self.places:
            return 1
        return int(10**self.places if self.end_zero else 9 * 10 ** (self.places - 1))

    @property
    def count(self) -> int:
        """How many numbers there are."""
        nought = not self.whole and (self.end_zero or not self.places)
        return self.wholes * self.decimals - nought

    def unrank(self, index: int) -> Number:
        """Number ``index``, 0 ≤ index < count, smallest first."""
        if not 0 <= index < self.count:
            raise IndexError(index)
        if not self.whole and self.end_zero:
            index += 1  # past nought
        whole, part = divmod(index, self.decimals)
        if self.whole:
            whole += 10 ** (self.whole - 1)
        if self.places and not self.end_zero:
            part = part // 9 * 10 + part % 9 + 1
        return Number(whole * 10**self.places + part, self.places)

    def rank(self, number: Number) -> int | None:
        """The index of a number, or None when it is written otherwise."""
        if (number.whole_digits, number.places) != (self.whole, self.places) or not number.units:
            return None
        whole, part = divmod(number.units, int(10**self.places))
        if self.whole:
            whole -= int(10 ** (self.whole - 1))
        if self.places and not self.end_zero:
            if part % 10 == 0:
                return None
            part = part // 10 * 9 + part % 10 - 1
        return whole * self.decimals + part - (not self.whole and self.end_zero)
