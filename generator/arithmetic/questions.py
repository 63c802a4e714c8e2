"""A question: an operation, the numbers it works on, and the exact answer."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Final

from generator.arithmetic.boxes import SIGN_BOX
from generator.arithmetic.numbers import Number, difference, total
from specs.languages.saying import Saying, joined, say, say_of, several

_POWERS: Final = {"10": 1, "100": 2, "1000": 3}

_SPOKEN: Final = {
    "add": say_of("sign", "plus"),
    "subtract": say_of("sign", "minus"),
    "multiply": say_of("sign", "times"),
    "divide": say_of("sign", "divided by"),
    "order": say_of("sign", "and"),
    "compare": say_of("sign", "compared with"),
    "round": say_of("sign", "is about"),
}

_NEAREST: Final = {
    0: (say("to the nearest whole number"), say("To the nearest whole number")),
    -1: (say("to the nearest ten"), say("To the nearest ten")),
    -2: (say("to the nearest hundred"), say("To the nearest hundred")),
    -3: (say("to the nearest thousand"), say("To the nearest thousand")),
    -4: (say("to the nearest ten thousand"), say("To the nearest ten thousand")),
    -5: (say("to the nearest hundred thousand"), say("To the nearest hundred thousand")),
    -6: (say("to the nearest million"), say("To the nearest million")),
    -7: (say("to the nearest ten million"), say("To the nearest ten million")),
    -8: (say("to the nearest hundred million"), say("To the nearest hundred million")),
    -9: (say("to the nearest thousand million"), say("To the nearest thousand million")),
}
"""How far a number is rounded to no decimal places; second, as the first words of a sentence."""


Identity = tuple[str | int | tuple[tuple[int, int], ...], ...]
"""What makes two questions the same: an operation, and numbers as (places, units)."""


class Operation(StrEnum):
    """What is to be done, in the words that specs and packs use."""

    ADD = "add"
    SUBTRACT = "subtract"
    MULTIPLY = "multiply"
    DIVIDE = "divide"
    ORDER = "order"
    COMPARE = "compare"
    ROUND = "round"

    @property
    def sign(self) -> str:
        """The printed sign."""
        return {
            "add": "+",
            "subtract": "−",
            "multiply": "×",
            "divide": "÷",
            "order": ",",
            "compare": SIGN_BOX,
            "round": "≈",
        }[self]

    @property
    def spoken(self) -> Saying:
        """The sign read aloud."""
        return _SPOKEN[self]

    @property
    def order_is_free(self) -> bool:
        """Whether the order of the numbers does not count."""
        return self not in (Operation.SUBTRACT, Operation.DIVIDE)

    @property
    def is_calculation(self) -> bool:
        """Whether it is one of the four operations of arithmetic."""
        return self not in (Operation.ORDER, Operation.COMPARE, Operation.ROUND)


class Ending(StrEnum):
    """How a division ends, or how a product is found."""

    EXACT = "exact"  # nothing is left over
    REMAINDER = "remainder"  # 86 r 2
    FRACTION = "fraction"  # 28 4/5
    DECIMAL = "decimal"  # carried on into decimal places until nothing is left over
    MOVED = "digits moved"  # by a power of ten, on a place-value grid; for products too
    ROUNDED = "rounded"  # carried on, and rounded to so many places


@dataclass(frozen=True, slots=True)
class Question:
    """One question. Operands stand in the order in which they are printed.

    ``ending`` is for divisions, and says of products too that digits are moved. ``places``
    says to how many decimal places a rounded quotient or number is given (below 0 for tens
    and hundreds).
    """

    operation: Operation
    operands: tuple[Number, ...]
    ending: Ending = Ending.EXACT
    places: int = 0

    @property
    def answer(self) -> Number:
        """The answer by exact whole-number arithmetic, with no written method.

        It is written as the method leaves it: 1.25 + 0.75 gives 2.00, and 0.5 × 0.04
        gives 0.020. For a division it is the quotient, without what is left over; of
        numbers to be ordered or compared it is the greatest. Digits moved by a power of ten
        leave no nought behind the point: 3.45 × 100 gives 345.
        """
        match self.operation:
            case Operation.ORDER | Operation.COMPARE:
                return max(self.operands, key=lambda number: number.value)
            case Operation.ROUND:
                return rounded(self.operands[0], self.places)
            case Operation.ADD:
                return total(self.operands)
            case Operation.SUBTRACT:
                return difference(*self.operands)
            case Operation.MULTIPLY:
                product, power = _product(self.operands), self.power_of_ten
                kept = max(self.operands[0].places - power, 0) if power else product.places
                return product.to_places(kept)
            case Operation.DIVIDE:
                return self._quotient

    @property
    def power_of_ten(self) -> int:
        """1, 2 or 3 where digits are to be moved by 10, 100 or 1000, the second number.

        0 for every other question. Raises ValueError for a second number that is none of them.
        """
        if self.ending is not Ending.MOVED:
            return 0
        by = str(self.operands[1])
        if by not in _POWERS:
            raise ValueError(
                say("{question} does not move digits by 10, 100 or 1000", question=self.text)
            )
        return _POWERS[by]

    @property
    def in_order(self) -> tuple[Number, ...]:
        """The numbers, smallest first."""
        finest = max(number.places for number in self.operands)
        return tuple(sorted(self.operands, key=lambda number: number.units_of(finest)))

    @property
    def remainder(self) -> Number | None:
        """What a division leaves over, where it ends with a remainder or a fraction."""
        if self.operation is not Operation.DIVIDE or self.ending not in (
            Ending.REMAINDER,
            Ending.FRACTION,
        ):
            return None
        dividend, divisor = self.operands
        return difference(dividend, _product((divisor, self._quotient)))

    @property
    def _quotient(self) -> Number:
        dividend, divisor = self.operands
        exact = dividend.value / divisor.value
        if self.ending in (Ending.REMAINDER, Ending.FRACTION):
            return Number(exact.numerator // exact.denominator)
        if self.ending is Ending.ROUNDED:
            scaled = exact * 10**self.places + Fraction(1, 2)
            return Number(scaled.numerator // scaled.denominator, self.places)
        places = max(dividend.places - divisor.places, 0)
        while (exact * 10**places).denominator != 1:
            places += 1
            if places > 12:
                raise ValueError(say("{question} never ends", question=self.text))
        scaled = exact * 10**places
        return Number(scaled.numerator, places)

    @property
    def text(self) -> str:
        """The question on one line: ``3.4 + 0.27``, ``0.4, 0.35``, ``3.47 to 1 decimal place``."""
        if self.operation is Operation.ORDER:
            return ", ".join(map(str, self.operands))
        if self.operation is Operation.ROUND:
            return joined((str(self.operands[0]), rounded_to(self.places)))
        return f" {self.operation.sign} ".join(map(str, self.operands))

    @property
    def answer_text(self) -> str:
        """The answer as a marker would write it: ``3.67``, ``86 r 2``, ``28 4/5``."""
        match self.operation:
            case Operation.ORDER:
                return ", ".join(map(str, self.in_order))
            case Operation.COMPARE:
                first, second = (number.value for number in self.operands)
                return "<" if first < second else ">" if first > second else "="
            case Operation.ROUND:
                return str(self.answer)
        if self.ending is Ending.ROUNDED:  # its noughts say how far it was rounded
            return str(self.answer)
        plain = str(self.answer.trimmed())
        left = self.remainder
        if left is None or not left.units:
            return plain
        if self.ending is Ending.REMAINDER:
            return say("{quotient} r {left}", quotient=plain, left=str(left.trimmed()))
        part = left.value / self.operands[1].value
        whole = "" if plain == "0" else f"{plain} "
        return f"{whole}{part.numerator}/{part.denominator}"

    @property
    def identity(self) -> Identity:
        """What makes two questions the same to a pupil: the order of addends or factors is free.

        How a division ends makes no difference: 432 ÷ 15 printed twice is a repeat, even if
        it ends with a remainder once and as a decimal once. Nor do noughts at the end of a
        number that is calculated with: 0.42 + 0.50 is 0.42 + 0.5. To compare or order them is
        another thing.
        """
        same = [n.trimmed() if self.operation.is_calculation else n for n in self.operands]
        numbers = [(number.places, number.units) for number in same]
        return (
            str(self.operation),
            *([self.places] if self.operation is Operation.ROUND else []),
            tuple(sorted(numbers) if self.operation.order_is_free else numbers),
        )


def rounded(number: Number, places: int) -> Number:
    """A number to so many decimal places (below 0: to tens, hundreds); a half goes up."""
    steps = number.value * Fraction(10) ** places + Fraction(1, 2)
    units = steps.numerator // steps.denominator
    return Number(units, places) if places >= 0 else Number(units * int(10**-places))


def rounded_to(places: int, *, first: bool = False) -> Saying:
    """``to 2 decimal places``, ``to the nearest whole number``, ``to the nearest ten``.

    ``first`` has it as the first words of a sentence.
    """
    if places <= 0:
        return _NEAREST[places][first]
    if first:
        return several("To {count} decimal place", "To {count} decimal places", places)
    return several("to {count} decimal place", "to {count} decimal places", places)


def _product(factors: tuple[Number, ...]) -> Number:
    units, places = 1, 0
    for factor in factors:
        units, places = units * factor.units, places + factor.places
    return Number(units, places)
