"""A question: an operation, the numbers it works on, and the exact answer."""

from collections.abc import Hashable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from generator.numbers import Number, difference, total


class Operation(StrEnum):
    """What is to be done, in the words that specs and packs use."""

    ADD = "add"
    SUBTRACT = "subtract"
    MULTIPLY = "multiply"
    DIVIDE = "divide"

    @property
    def sign(self) -> str:
        """The printed sign."""
        return {"add": "+", "subtract": "−", "multiply": "×", "divide": "÷"}[self]

    @property
    def spoken(self) -> str:
        """The sign read aloud."""
        return {
            "add": "plus",
            "subtract": "minus",
            "multiply": "times",
            "divide": "divided by",
        }[self]

    @property
    def order_is_free(self) -> bool:
        """Whether the order of the numbers does not count."""
        return self in (Operation.ADD, Operation.MULTIPLY)


class Ending(StrEnum):
    """How a division ends."""

    EXACT = "exact"  # nothing is left over
    REMAINDER = "remainder"  # 86 r 2
    FRACTION = "fraction"  # 28 4/5
    DECIMAL = "decimal"  # carried on into decimal places until nothing is left over
    ROUNDED = "rounded"  # carried on, and rounded to so many places


@dataclass(frozen=True, slots=True)
class Question:
    """One question. Operands stand in the order in which they are printed.

    ``ending`` is for divisions alone; ``places`` says to how many decimal places a
    rounded quotient is given.
    """

    operation: Operation
    operands: tuple[Number, ...]
    ending: Ending = Ending.EXACT
    places: int = 0

    @property
    def answer(self) -> Number:
        """The answer by exact whole-number arithmetic, with no written method.

        It is written as the method leaves it: 1.25 + 0.75 gives 2.00, and 0.5 × 0.04
        gives 0.020. For a division it is the quotient, without what is left over.
        """
        match self.operation:
            case Operation.ADD:
                return total(self.operands)
            case Operation.SUBTRACT:
                return difference(*self.operands)
            case Operation.MULTIPLY:
                return _product(self.operands)
            case Operation.DIVIDE:
                return self._quotient

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
                raise ValueError(f"{self.text} never ends")
        scaled = exact * 10**places
        return Number(scaled.numerator, places)

    @property
    def text(self) -> str:
        """The question on one line: ``3.4 + 0.27``."""
        return f" {self.operation.sign} ".join(map(str, self.operands))

    @property
    def answer_text(self) -> str:
        """The answer as a marker would write it: ``3.67``, ``86 r 2``, ``28 4/5``."""
        if self.ending is Ending.ROUNDED:  # its noughts say how far it was rounded
            return str(self.answer)
        plain = str(self.answer.trimmed())
        left = self.remainder
        if left is None or not left.units:
            return plain
        if self.ending is Ending.REMAINDER:
            return f"{plain} r {left.trimmed()}"
        part = left.value / self.operands[1].value
        whole = "" if plain == "0" else f"{plain} "
        return f"{whole}{part.numerator}/{part.denominator}"

    @property
    def identity(self) -> Hashable:
        """What makes two questions the same to a pupil: the order of addends or factors is free.

        How a division ends makes no difference: 432 ÷ 15 printed twice is a repeat, even if
        it ends with a remainder once and as a decimal once.
        """
        numbers = [(number.places, number.units) for number in self.operands]
        return (
            str(self.operation),
            tuple(sorted(numbers) if self.operation.order_is_free else numbers),
        )


def _product(factors: tuple[Number, ...]) -> Number:
    units, places = 1, 0
    for factor in factors:
        units, places = units * factor.units, places + factor.places
    return Number(units, places)
