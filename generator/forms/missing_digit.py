"""A missing digit: ``3.□ + 0.27 = 3.67``. Only one digit makes the calculation true."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar

from generator.arithmetic.boxes import DIGIT_BOX
from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import COLUMN_NAMES, column_name
from generator.arithmetic.questions import Operation, Question
from generator.forms.column_with_a_gap import with_a_gap
from generator.forms.form import OnSquares, Written, followed, led
from generator.forms.frames import Frame, answer_point, in_columns, rows_of_numbers
from generator.forms.inverse import Inverse, checked
from generator.forms.missing import Missing
from generator.forms.question_words import given_answer
from generator.forms.scaffold import scaffold
from generator.forms.set_out_with_a_gap import division_in_columns, product_in_columns
from generator.forms.which_number import of_the_number
from generator.operations.working import Ink, Working
from specs.languages.saying import joined, say


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
                if place in COLUMN_NAMES:  # further out it has no name
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

    def _box_said(self, written: str) -> str:
        before, _, after = self.boxed(written).partition(self.box)
        if before.endswith("."):
            return joined((say("{digits}. missing digit", digits=before[:-1]), after))
        if after.startswith("."):
            return joined((before, say("missing digit .{digits}", digits=after[1:])))
        return joined((before, say("missing digit"), after))

    @property
    def is_of_its_kind(self) -> bool:
        """One digit is hidden."""
        return self.place is not None

    def reply(self, question: Question) -> str:
        """The digit that goes in the box."""
        return str(self.number(question).digit(self._place))

    def where(self) -> str:
        """The hidden digit in words: ``the tenths digit of the second number``."""
        return say(
            "the {column} digit {of_the_number}",
            column=column_name(self._place),
            of_the_number=of_the_number(self.operand),
        )

    def lead(self, question: Question) -> str:
        """How what is missing is found."""
        if self.operand is None:
            return say("Work it out, and read the missing digit off the answer.")
        if question.operation is Operation.ADD:
            return say("One digit is missing: {digit}.", digit=self.where())
        if question.operation is Operation.SUBTRACT and self.operand == 1:
            added = f"{given_answer(question)} + {self.boxed(str(question.operands[1]))}"
            added = f"{added} = {question.operands[0]}"
            return say("Adding undoes subtracting: {calculation}.", calculation=added)
        return self._inverse(question).lead

    def working(self, written: Written) -> Working:
        """Reasoned from the column of an addition, or by the inverse; the digit is then checked.

        A digit of the answer is read off the usual working.
        """
        question, conventions = written.question, written.conventions
        found = say(
            "The {column} digit {of_the_number} is {digit}.",
            column=column_name(self._place),
            of_the_number=of_the_number(self.operand),
            digit=self.reply(question),
        )
        check = checked(question)
        if self.operand is None:
            return followed(led(written.working, self.lead(question)), found)
        if question.operation is Operation.ADD:
            gap = with_a_gap(question, self.operand, self._place, conventions, self.lead(question))
            return followed(gap, check)
        if question.operation is Operation.SUBTRACT and self.operand == 1:
            added = Question(Operation.ADD, (given_answer(question), question.operands[1]))
            gap = with_a_gap(added, 1, self._place, conventions, self.lead(question))
            return followed(gap, check)
        return self._inverse(question).working(conventions, found, check)

    def _inverse(self, question: Question) -> Inverse:
        assert self.operand is not None
        return Inverse(question, self.operand, self._place)

    def on_squares(self, given: OnSquares) -> Frame:
        """In columns an empty box for the digit, unless the numbers are left to the pupil."""
        if given.kind in ("part", "none"):
            return Missing.on_squares(self, given)
        if in_columns(given.question):
            return self._with_hidden_digit(given)
        return self._set_out(given) or Missing.on_squares(self, given)

    def _set_out(self, given: OnSquares) -> Frame | None:
        """A product or a division with its answer; None where the digit has no place there."""
        question, conventions = given.question, given.written.conventions.in_columns
        if question.operation is Operation.MULTIPLY:
            return product_in_columns(question, self.operand, self._place, conventions, given.words)
        working = Written.by(question, conventions).working
        return division_in_columns(question, self.operand, self._place, working)

    def _with_hidden_digit(self, given: OnSquares) -> Frame:
        """A column question with its answer, and an empty box where one digit is missing."""
        bare, working = given.bare, given.written.working
        if working.line is not None:  # a digit is missing from columns, however it is found
            working = Written.by(given.question, given.written.conventions.in_columns).working
            bare = scaffold(given.question, working)
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
