"""A missing number: ``3.4 + ▭ = 3.67``. It follows from the others by the inverse operation."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from generator.arithmetic.boxes import NUMBER_BOX
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.form import Shown, Written, followed, led
from generator.forms.missing import Missing, size
from generator.forms.question_words import given_answer, is_exact


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

    @property
    def is_of_its_kind(self) -> bool:
        """A whole number is hidden, one of those that are worked with."""
        return self.place is None and self.operand is not None

    def reply(self, question: Question) -> str:
        """The number that goes in the box."""
        return str(self.number(question))

    def lead(self, question: Question) -> str:
        """How what is missing is found."""
        return f"The missing number is {self._inverse(question)} = {self.number(question)}."

    def example(self, written: Written) -> Shown:
        """The calculation that finds the number, where it is one; then the check in a sentence."""
        question = written.question
        finding = self.finding(question)
        if finding is None:
            return Shown(None, self.working(written))
        working = Written.by(finding, written.conventions).working
        found = led(working, f"The missing number is {finding.text}.")
        return Shown(None, followed(found, f"Check: {question.text} = {question.answer_text}."))

    def finding(self, question: Question) -> Question | None:
        """The one written calculation that finds the number, such as 3.74 − 1.34.

        None where it takes more than one calculation, a division by more than two digits, or
        digits moved by a power of ten.
        """
        others = [n for at, n in enumerate(question.operands) if at != self.operand]
        left, answer = question.remainder, given_answer(question)
        several = len(others) > 1 or question.power_of_ten or (left and left.units)
        if several or not is_exact(question):
            return None
        (other,) = others
        match question.operation:
            case Operation.ADD:
                found = Question(Operation.SUBTRACT, (answer, other))
            case Operation.SUBTRACT if self.operand == 0:
                found = Question(Operation.ADD, (answer, other))
            case Operation.SUBTRACT:
                found = Question(Operation.SUBTRACT, (other, answer))
            case Operation.MULTIPLY:
                found = Question(Operation.DIVIDE, (answer, other))
            case Operation.DIVIDE if self.operand == 0:
                found = Question(Operation.MULTIPLY, (answer, other))
            case Operation.DIVIDE:
                found = Question(Operation.DIVIDE, (other, answer))
            case _:
                return None
        if found.operation is Operation.DIVIDE and not 1 < found.operands[1].trimmed().units < 100:
            return None
        return found if found.answer.value == self.number(question).value else None

    def _inverse(self, question: Question) -> str:
        """The calculation that finds a missing number."""
        others = [str(n) for at, n in enumerate(question.operands) if at != self.operand]
        answer = str(given_answer(question))
        left = question.remainder
        if question.ending is Ending.FRACTION:  # what is left over is part of the answer
            answer, left = question.answer_text, None
        match question.operation:
            case Operation.ADD:
                return " − ".join([answer, *others])
            case Operation.SUBTRACT:
                return f"{answer} + {others[0]}" if self.operand == 0 else f"{others[0]} − {answer}"
            case Operation.MULTIPLY:
                return " ÷ ".join([answer, *others])
            case Operation.DIVIDE if self.operand == 0:
                and_left = f" + {left.trimmed()}" if left and left.units else ""
                return f"{answer} × {others[0]}{and_left}"
        total = f"({others[0]} − {left.trimmed()})" if left and left.units else others[0]
        return f"{total} ÷ {answer}"
