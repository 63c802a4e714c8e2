"""A missing digit: ``3.□ + 0.27 = 3.67``. Only one digit makes the calculation true."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar

from generator.arithmetic.boxes import DIGIT_BOX
from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from generator.forms.form import OnSquares
from generator.forms.frames import Frame, answer_point, in_columns, rows_of_numbers
from generator.forms.missing import Missing
from generator.forms.question_words import given_answer
from generator.operations.working import Ink


@dataclass(frozen=True, slots=True)
class MissingDigit(Missing):
    """One digit is left out of a number or of the answer, which is given."""

    name: ClassVar[str] = "missing digit"
    box: ClassVar[str] = DIGIT_BOX

    @classmethod
    def everywhere(cls, question: Question) -> Iterator["MissingDigit"]:
        """Each written digit of each number and of the answer, but no nought before the point.

        Nor one of 10, 100 or 1000 by which digits move: that number is known by its length.
        """
        if not question.operation.is_calculation:
            return
        printed = question.operands[:1] if question.power_of_ten else question.operands
        numbers = [*enumerate(printed), (None, given_answer(question))]
        for at, number in numbers:
            top = number.top_place if number.whole_digits or not number.places else -1
            for place in range(top, number.last_place - 1, -1):
                yield cls(at, place)

    def fillings(self, question: Question) -> int:
        """How many of the digits from 0 to 9 make the calculation true."""
        place, number = self._place, self.number(question)
        step = 10 ** (place + number.places)
        smallest = number.units - number.digit(place) * step
        tried = (Number(smallest + digit * step, number.places) for digit in range(10))
        return sum(self.is_true(question, value) for value in tried)

    def boxed(self, written: str) -> str:
        """The number with the box in the digit's place."""
        place, whole = self._place, len(written.partition(".")[0])
        at = whole - 1 - place if place >= 0 else whole - place
        return written[:at] + self.box + written[at + 1 :]

    @property
    def is_of_its_kind(self) -> bool:
        """One digit is hidden."""
        return self.place is not None

    def reply(self, question: Question) -> str:
        """The digit that goes in the box."""
        return str(self.number(question).digit(self._place))

    def lead(self, question: Question) -> str:
        """Which digit fits, and where."""
        digit = self.reply(question)
        article = "an" if digit == "8" else "a"
        return f"Only {article} {digit} fits as {self.where(question)}."

    def on_squares(self, given: OnSquares) -> Frame:
        """In columns an empty box for the digit, unless the numbers are left to the pupil."""
        if not in_columns(given.question) or given.kind in ("part", "none"):
            return Missing.on_squares(self, given)
        return self._with_hidden_digit(given)

    def _with_hidden_digit(self, given: OnSquares) -> Frame:
        """A column question with its answer, and an empty box where one digit is missing."""
        bare, working = given.bare, given.written.working
        (step,) = bare.steps
        shift = bare.units_column - working.units_column
        answer_row = bare.rules[0].row
        answer = tuple(
            replace(mark, column=mark.column + shift, ink=Ink.GIVEN)
            for mark in working.marks()
            if mark.ink is Ink.ANSWER and mark.row == answer_row
        )
        column = bare.places[self._place]
        row = answer_row if self.operand is None else rows_of_numbers(bare)[self.operand]
        marks = tuple(m for m in step.marks + answer if (m.row, m.column) != (row, column))
        points = step.points + answer_point(bare, given.question)
        step = replace(step, marks=marks, points=points)
        return Frame(replace(bare, steps=(step,)), hidden=((row, column),))

    @property
    def _place(self) -> int:
        assert self.place is not None
        return self.place
