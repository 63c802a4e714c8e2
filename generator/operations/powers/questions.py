"""Multiplying and dividing by 10, 100 and 1000: exact sets of numbers whose digits move.

Two questions match when the numbers have the same length and the power of ten is the same.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import ClassVar, Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.numbered.question_sets import PartedQuestions
from generator.numbered.writings import Writing
from generator.operations.powers.conditions import PowerOutline
from specs.canonical import Plain
from specs.languages.saying import counted, say, several

_RUNG_ONLY = 1

_TO_THE_LEFT: Final = counted(
    "digits move {count} column to the left", "digits move {count} columns to the left"
)
_TO_THE_RIGHT: Final = counted(
    "digits move {count} column to the right", "digits move {count} columns to the right"
)


@dataclass(frozen=True)
class PowerQuestions(PartedQuestions["PowerSignature"]):
    """The questions that an outline leaves, counted and numbered."""

    outline: PowerOutline
    widenings: ClassVar[tuple[str, ...]] = ("", say("same rung only"))

    @property
    def operation(self) -> Operation:
        """Multiplication or division."""
        return self.outline.operation

    @cached_property
    def _cases(self) -> list[tuple[int, Writing]]:
        outline = self.outline
        return [
            (power, writing)
            for power in outline.powers
            for whole in outline.whole
            for places in outline.places
            if (writing := Writing(whole, places)).count
        ]

    @property
    def _sizes(self) -> list[int]:
        return [writing.count for _, writing in self._cases]

    def _fetched(self, part: int, number: int) -> Question:
        power, writing = self._cases[part]
        return Question(self.operation, (writing.unrank(number), Number(10**power)), Ending.MOVED)

    def _found(self, question: Question) -> tuple[int, int] | None:
        for at, (power, writing) in enumerate(self._cases):
            index = writing.rank(question.operands[0])
            if power == question.power_of_ten and index is not None:
                return at, index
        return None

    def signature(self, question: Question) -> "PowerSignature":
        """The signature of a question."""
        number = question.operands[0]
        return PowerSignature(
            question.operation, number.whole_digits, number.places, question.power_of_ten
        )

    def matching(self, signature: "PowerSignature", step: int) -> "PowerQuestions":
        """The questions of this set that match a signature, at a step of widening."""
        if step == _RUNG_ONLY:
            return self
        return PowerQuestions(
            PowerOutline(
                signature.operation, (signature.power,), (signature.whole,), (signature.places,)
            )
        )


@dataclass(frozen=True, slots=True)
class PowerSignature:
    """What matched questions share: the number's length, and by how many columns digits move."""

    operation: Operation
    whole: int
    places: int
    power: int

    def __str__(self) -> str:
        return f"{self.operation} lengths {self.whole}.{self.places}; moved {self.power}"

    @property
    def plain(self) -> Plain:
        """The signature as plain data."""
        return {
            "operation": str(self.operation),
            "whole": self.whole,
            "places": self.places,
            "power": self.power,
        }

    @property
    def features(self) -> tuple[str, ...]:
        """The signature in words for the teacher's key."""
        moves = _TO_THE_LEFT if self.operation is Operation.MULTIPLY else _TO_THE_RIGHT
        return (several(*moves, self.power),)

    @property
    def difficulty(self) -> tuple[int, ...]:
        """Harder: noughts to be written, digits moved further, more digits."""
        moved_past = self.power - (
            self.places if self.operation is Operation.MULTIPLY else self.whole
        )
        return (max(moved_past, 0), self.power, self.whole + self.places)
