"""A question: an operation, the numbers it works on, and the exact answer."""

from dataclasses import dataclass
from enum import StrEnum

from generator.numbers import Number, difference, total


class Operation(StrEnum):
    """What is to be done, in the words that specs and packs use."""

    ADD = "add"
    SUBTRACT = "subtract"

    @property
    def sign(self) -> str:
        """The printed sign."""
        return {"add": "+", "subtract": "−"}[self]

    @property
    def spoken(self) -> str:
        """The sign read aloud."""
        return {"add": "plus", "subtract": "minus"}[self]


@dataclass(frozen=True, slots=True)
class Question:
    """One question. Operands stand in the order in which they are printed."""

    operation: Operation
    operands: tuple[Number, ...]

    @property
    def answer(self) -> Number:
        """The answer by exact whole-number arithmetic, with no column work.

        It is written as the column method leaves it (1.25 + 0.75 gives 2.00).
        """
        if self.operation is Operation.ADD:
            return total(self.operands)
        return difference(*self.operands)

    @property
    def text(self) -> str:
        """The question on one line: ``3.4 + 0.27``."""
        return f" {self.operation.sign} ".join(map(str, self.operands))

    @property
    def identity(self) -> tuple[str, tuple[tuple[int, int], ...]]:
        """What makes two questions the same to a pupil: the order of addends does not count."""
        numbers = [(number.places, number.units) for number in self.operands]
        return self.operation, tuple(
            sorted(numbers) if self.operation is Operation.ADD else numbers
        )
