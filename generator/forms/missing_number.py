"""A missing number: ``3.4 + ▭ = 3.67``. It follows from the others by the inverse operation."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from generator.arithmetic.boxes import NUMBER_BOX
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.form import Written
from generator.forms.inverse import Inverse, checked
from generator.forms.missing import Missing, size
from generator.operations.working import Working
from specs.languages.saying import say


@dataclass(frozen=True, slots=True)
class MissingNumber(Missing):
    """One of the numbers that are worked with is left out, and the answer is given."""

    name: ClassVar[str] = "missing number"
    box: ClassVar[str] = NUMBER_BOX

    @classmethod
    def everywhere(cls, question: Question) -> Iterator["MissingNumber"]:
        """Each operand, left out."""
        if question.operation.is_calculation:
            yield from map(cls, range(len(question.operands)))

    def fillings(self, question: Question) -> int:
        """1 when the inverse operation gives back the hidden number and nothing else fits; or 0.

        A rounded quotient fits many dividends, a product of nought any factor, and a quotient
        of nought any large enough divisor.
        """
        assert self.operand is not None
        others = [n.value for at, n in enumerate(question.operands) if at != self.operand]
        answer, left = question.answer.value, size(question.remainder)
        hidden = question.operands[self.operand].value
        found: Fraction | None = None
        match question.operation:
            case Operation.ADD:
                found = answer - sum(others)
            case Operation.SUBTRACT:
                found = answer + others[0] if self.operand == 0 else others[0] - answer
            case Operation.MULTIPLY:
                rest = Fraction(1)
                for factor in others:
                    rest *= factor
                found = answer / rest if rest else None
            case Operation.DIVIDE if question.ending is not Ending.ROUNDED:
                if self.operand == 0:
                    found = answer * others[0] + left
                else:
                    found = (others[0] - left) / answer if answer else None
        return int(found == hidden and self.is_true(question, self.number(question)))

    def boxed(self, written: str) -> str:
        """The box alone."""
        return self.box

    def _box_said(self, written: str) -> str:
        return say("a missing number")

    @property
    def is_of_its_kind(self) -> bool:
        """A whole number is hidden, one of those that are worked with."""
        return self.place is None and self.operand is not None

    def reply(self, question: Question) -> str:
        """The number that goes in the box."""
        return str(self.number(question))

    def lead(self, question: Question) -> str:
        """The inverse, without what it gives."""
        return self._inverse(question).lead

    def working(self, written: Written) -> Working:
        """The inverse worked, and what it gives checked in the calculation that was asked."""
        question = written.question
        found = say("The missing number is {number}.", number=self.reply(question))
        return self._inverse(question).working(written.conventions, found, checked(question))

    def finding(self, question: Question) -> Question | None:
        """The one written calculation that finds the number, such as 3.74 − 1.34; or None."""
        return self._inverse(question).calculation

    def _inverse(self, question: Question) -> Inverse:
        assert self.operand is not None
        return Inverse(question, self.operand)
