"""How a number left out of a calculation is found: the inverse, stated, worked and checked.

The inverse is worked by its own written method where there is a short one. A division by more
than a short divisor has none: there the number is built up from its parts on lines. What is to be
found is never said before it is reasoned out (common practice, no source).
"""

from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.numbers import Number, total
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.on_lines import Lines, by_its_parts, by_what_is_left, less, times
from generator.forms.question_words import equals, given_answer, is_exact
from generator.forms.which_number import MISSING, the_number
from generator.operations.methods import written_working
from generator.operations.working import Conventions, Step, Working
from specs.languages.saying import counted, joined, say, several

_MOVED_LEFT: Final = counted(
    "Each digit has moved {count} column to the left, as by {by}.",
    "Each digit has moved {count} columns to the left, as by {by}.",
)
_MOVED_RIGHT: Final = counted(
    "Each digit has moved {count} column to the right, as by {by}.",
    "Each digit has moved {count} columns to the right, as by {by}.",
)

SHORT_DIVISOR: Final = 12
"""By more than this nobody divides from a table known by heart."""


@dataclass(frozen=True, slots=True)
class Inverse:
    """The way back to one operand of a question, of which ``place`` is missing, or the whole."""

    question: Question
    operand: int
    place: int | None = None

    @property
    def hidden(self) -> Number:
        """The number that is missing, or whose digit is."""
        return self.question.operands[self.operand]

    @property
    def others(self) -> tuple[Number, ...]:
        """The numbers beside it."""
        operands = self.question.operands
        return (*operands[: self.operand], *operands[self.operand + 1 :])

    @property
    def _answer(self) -> Number:
        return given_answer(self.question)

    @property
    def _left(self) -> Number | None:
        left = self.question.remainder
        return left.trimmed() if left and left.units else None

    @property
    def _left_beside(self) -> Number | None:
        """What is left over where it is not part of the answer, as a fraction is."""
        return None if self.question.ending is Ending.FRACTION else self._left

    @property
    def text(self) -> str:
        """The calculation that finds it: ``3.67 − 3.4``, ``(432 − 2) ÷ 86``."""
        others, answer = [str(number) for number in self.others], str(self._answer)
        left = self._left_beside
        if self.question.ending is Ending.FRACTION:
            answer = self.question.answer_text
        match self.question.operation:
            case Operation.ADD:
                return " − ".join([answer, *others])
            case Operation.SUBTRACT:
                return f"{answer} + {others[0]}" if not self.operand else f"{others[0]} − {answer}"
            case Operation.MULTIPLY:
                return " ÷ ".join([answer, *others])
            case Operation.DIVIDE if self.operand == 0:
                return f"{answer} × {others[0]}" + (f" + {left}" if left else "")
        return f"{f'({others[0]} − {left})' if left else others[0]} ÷ {answer}"

    @property
    def lead(self) -> str:
        """The inverse in words, without what it gives."""
        if self._is_by_what_is_left:
            if self.question.operation is Operation.MULTIPLY:
                if not self._has_other_digits:
                    return say("Which digit, multiplied by the rest, makes the answer?")
                return say(
                    "First multiply the digits you can see. The missing digit must make the rest."
                )
            makes = say("The answer times the second number makes what is divided.")
            if self._left_beside:
                makes = say(
                    "The answer times the second number, plus what is left over, makes what is "
                    "divided."
                )
            if not self._has_other_digits:
                return joined((makes, say("Which digit fits?")))
            first = say(
                "First multiply by the digits you can see. The missing digit must make the rest."
            )
            return joined((makes, first))
        match self.question.operation:
            case Operation.ADD:
                why = say("Subtracting undoes adding")
            case Operation.SUBTRACT if self.operand == 0:
                why = say("Adding undoes subtracting")
            case Operation.SUBTRACT:
                why = say("What is left and what is taken away make the first number")
            case Operation.MULTIPLY:
                why = say("Dividing undoes multiplying")
            case Operation.DIVIDE if self.operand == 0:
                why = say("Multiplying undoes dividing")
            case _ if self._left_beside:
                why = say(
                    "The answer times {number}, plus what is left over, makes what is divided",
                    number=self._name,
                )
            case _:
                why = say("The answer times {number} makes what is divided", number=self._name)
        number, found = self._name, self.text
        if is_exact(self.question):
            return say("{why}: {number} is {found}.", why=why, number=number, found=found)
        return say("{why}: {number} is about {found}.", why=why, number=number, found=found)

    @property
    def _is_by_what_is_left(self) -> bool:
        """Whether a digit is found from what the rest of its number leaves of a product."""
        question = self.question
        if self.place is None or question.power_of_ten or self.calculation is not None:
            return False
        if question.operation is Operation.MULTIPLY:
            return True
        divides = question.operation is Operation.DIVIDE and self.operand == 1
        return divides and is_exact(question)

    @property
    def _has_other_digits(self) -> bool:
        """Whether its number has a digit but nought beside the one that is missing."""
        assert self.place is not None
        digits = [self.hidden.digit(place) for place in range(self.hidden.last_place, 12)]
        return sum(digits) > self.hidden.digit(self.place)

    @property
    def _name(self) -> str:
        return MISSING if self.place is None else the_number(self.operand)

    @property
    def calculation(self) -> Question | None:
        """The one calculation that finds it by a written method; None where there is none.

        None where it takes more than one calculation, a division by more than a short divisor,
        or digits moved by a power of ten; of fractions and of rounded answers too.
        """
        question, left, answer = self.question, self._left, self._answer
        if len(self.others) > 1 or question.power_of_ten or left or not is_exact(question):
            return None
        (other,) = self.others
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
        if found.operation is Operation.DIVIDE and not _is_short(found.operands[1]):
            return None
        return found if found.answer.value == self.hidden.value else None

    def working(self, conventions: Conventions, found: str, check: str) -> Working:
        """The inverse stated, worked and checked. ``found`` says what was missing."""
        working = self._worked(conventions)
        first, *rest = working.steps
        first = replace(first, sentence=joined((self.lead, first.sentence)))
        return replace(working, steps=(first, *rest, Step(found, None), Step(check, None)))

    def _worked(self, conventions: Conventions) -> Working:
        calculation = self.calculation
        if calculation is not None:
            return written_working(calculation, conventions)
        if self.question.power_of_ten:
            return self._moved_back(conventions)
        if self.question.operation is Operation.ADD:
            return self._after_the_others(conventions)
        lines = Lines(conventions.point_column)
        self._on_lines(lines)
        return lines.working(self.hidden)

    def _moved_back(self, conventions: Conventions) -> Working:
        """Digits moved the other way; for a missing 10, 100 or 1000, how far they have moved."""
        question, power = self.question, self.question.power_of_ten
        multiplies = question.operation is Operation.MULTIPLY
        if self.operand == 0:
            back = Operation.DIVIDE if multiplies else Operation.MULTIPLY
            operands = (self._answer, question.operands[1])
            return written_working(Question(back, operands, Ending.MOVED), conventions)
        moved = written_working(question, conventions)
        set_out, told, *digits = moved.steps
        told = replace(told, sentence=say("See how far each digit has moved."))
        by = str(question.operands[1])
        far = Step(several(*(_MOVED_LEFT if multiplies else _MOVED_RIGHT), power, by=by), None)
        return replace(moved, steps=(set_out, told, *digits, far))

    def _after_the_others(self, conventions: Conventions) -> Working:
        """What the other addends make together taken from the total."""
        others = total(self.others).trimmed()
        rest = Question(Operation.SUBTRACT, (self._answer, others))
        working = written_working(rest, conventions)
        first, *steps = working.steps
        summed = f"{' + '.join(map(str, self.others))} = {others}"
        together = say("Together the others make {calculation}.", calculation=summed)
        said = joined((together, first.sentence))
        return replace(working, steps=(replace(first, sentence=said), *steps))

    def _on_lines(self, lines: Lines) -> None:
        """A division by a long divisor, and what is left over or rounded."""
        question, answer, left = self.question, self._answer, self._left
        if question.operation is Operation.DIVIDE:
            (other,) = self.others
            if question.ending is Ending.FRACTION and left:
                self._with_a_fraction(lines, other, left)
            elif self.operand == 0:
                self._dividend(lines, other)
            elif not is_exact(question):
                share = times(answer, self.hidden)
                lines.write(
                    f"{answer}×{self.hidden}={share}",
                    _about(f"{answer} × {self.hidden} = {share}", other),
                )
            else:
                made = less(other, left) if left else other
                if left:
                    lines.write(f"{other}−{left}={made}", f"{other} − {left} = {made}.")
                self._factor(lines, made, answer)
            return
        by = self.others[0]
        for other in self.others[1:]:
            together = times(by, other)
            lines.write(f"{by}×{other}={together}", f"{by} × {other} = {together}.")
            by = together
        self._factor(lines, answer, by)

    def _factor(self, lines: Lines, made: Number, by: Number) -> None:
        """How often ``by`` makes ``made``, or the digit of that which is missing."""
        if self.place is None:
            by_its_parts(lines, made, by, self.hidden)
        else:
            by_what_is_left(lines, made, by, self.hidden, self.place)

    def _dividend(self, lines: Lines, divisor: Number) -> None:
        """What was divided: the answer times the divisor, and what was left over."""
        answer, left = self._answer, self._left
        made = times(answer, divisor)
        if left:
            lines.write(f"{answer}×{divisor}={made}", f"{answer} × {divisor} = {made}.")
            lines.write(
                f"{made}+{left}={self.hidden}",
                f"{made} + {left} = {self.hidden}.",
                last=True,
            )
        else:
            lines.write(
                f"{answer}×{divisor}={made}",
                _about(f"{answer} × {divisor} = {made}", self.hidden),
            )

    def _with_a_fraction(self, lines: Lines, other: Number, left: Number) -> None:
        """An answer with a fraction: its two parts multiplied, or the whole made a fraction."""
        whole, hidden = self._answer, self.hidden
        part = left.value / self.question.operands[1].value
        fraction = f"{part.numerator}/{part.denominator}"
        if self.operand == 0:
            made = times(whole, other)
            if whole.units:
                lines.write(f"{whole}×{other}={made}", f"{whole} × {other} = {made}.")
            lines.write(f"{fraction}×{other}={left}", f"{fraction} × {other} = {left}.")
            if whole.units:
                lines.write(f"{made}+{left}={hidden}", f"{made} + {left} = {hidden}.", last=True)
            return
        over = whole.units * part.denominator + part.numerator
        under = Number(part.denominator)
        made = times(other, under)
        mixed = self.question.answer_text
        lines.write(
            f"{other}×{under}={made}",
            say(
                "{known}, so {count} times the number is {calculation}.",
                known=f"{mixed} = {over}/{under}"
                if whole.units
                else say("{fraction} is {division}", fraction=mixed, division=f"{over} ÷ {under}"),
                count=over,
                calculation=f"{other} × {under} = {made}",
            ),
        )
        self._factor(lines, made, Number(over))


def _is_short(divisor: Number) -> bool:
    """Whether a divisor's table is known by heart, once it is a whole number."""
    return 1 < divisor.units <= SHORT_DIVISOR


def checked(question: Question) -> str:
    """``Check: 3.4 + 0.27 = 3.67.``"""
    whole = joined((question.text, equals(question), question.answer_text))
    return say("Check: {calculation}.", calculation=whole)


def _about(calculation: str, number: Number) -> str:
    return say("{calculation}, about {number}.", calculation=calculation, number=str(number))
