"""Something is left out of a calculation, and the answer is given: what the two ways share.

Whatever is left out, exactly one filling makes what is printed true.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, ClassVar, Self

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import PLACE_NAMED, column_name
from generator.arithmetic.questions import Ending, Question
from generator.forms.form import CALCULATIONS, Form, OnSquares, Turn
from generator.forms.frames import Frame
from generator.forms.plain_data import whole_of
from generator.forms.question_words import given_answer, is_exact, spoken
from specs.languages.saying import Saying, joined, say
from specs.missing import ANSWER, NUMBERS
from specs.problems import listed
from specs.replies import Reply, read_replies
from specs.spec import RungSpec


@dataclass(frozen=True, slots=True)
class Missing(Form):
    """A number or a digit is left out, and the answer is given (unless the digit is its own).

    ``operand`` counts from 0; None is the answer. ``place`` is the digit's column; None
    hides the whole number.
    """

    operand: int | None
    place: int | None = None

    goes_with: ClassVar[tuple[str, ...]] = CALCULATIONS
    asks_for_the_answer: ClassVar[bool] = False
    box: ClassVar[str]
    """What stands where something is missing."""

    # Offer.

    @classmethod
    def everywhere(cls, question: Question) -> Iterator[Self]:
        """Each thing that could be left out, whether or not only one filling is true."""
        raise NotImplementedError

    def fillings(self, question: Question) -> int:
        """How many ways there are to fill the box truly."""
        raise NotImplementedError

    @classmethod
    def offered(cls, question: Question, rung: RungSpec, turn: Turn) -> Self | None:
        """Something missing, drawn from what has exactly one filling; None for none."""
        for missing in turn.order(list(cls.wanted(question, rung))):
            if missing.fillings(question) == 1:
                return missing
        return None

    @classmethod
    def fits(cls, question: Question, rung: RungSpec) -> bool:
        """Whether something can be left out with exactly one filling."""
        return any(missing.fillings(question) == 1 for missing in cls.wanted(question, rung))

    @classmethod
    def wanted(cls, question: Question, rung: RungSpec) -> Iterator[Self]:
        """Each thing that could be left out and that the rung's ``missing`` names."""
        gap = rung.missing
        for missing in cls.everywhere(question):
            number = ANSWER if missing.operand is None else NUMBERS[missing.operand]
            column = "" if missing.place is None else column_name(missing.place)
            if gap is None or (gap.of in (None, number) and (not gap.digit or column in gap.digit)):
                yield missing

    @classmethod
    def wanting(cls, rung: RungSpec) -> Saying:
        """``has a missing digit that can be only one``."""
        gap = rung.missing
        if gap is None:
            return say("has a {form} that can be only one", form=cls.name)
        if not gap.digit:
            return say("has a {of} number that can be left out and found again", of=gap.of)
        columns = listed(gap.digit)
        if gap.of is None:
            return say("has a digit in the {columns} that can be only one", columns=columns)
        if gap.of == ANSWER:
            return say(
                "has a digit in the {columns} of the answer that can be only one", columns=columns
            )
        return say(
            "has a digit in the {columns} of the {of} number that can be only one",
            columns=columns,
            of=gap.of,
        )

    @classmethod
    def instead(cls, rung: RungSpec) -> Saying:
        """Other calculations may have it."""
        word = "missing" if rung.missing else "form"
        return say("leave out '{word}', or loosen the conditions", word=word)

    # Ask.

    def boxed(self, written: str) -> str:
        """A number as it is written, with the box in it or in its place."""
        raise NotImplementedError

    def text(self, question: Question) -> str:
        """``3.4 + ▭ = 3.67`` or ``3.□ + 0.27 = 3.67``."""
        numbers = [
            self.boxed(str(number)) if at == self.operand else str(number)
            for at, number in enumerate(question.operands)
        ]
        sign = "=" if is_exact(question) else "≈"
        calculation = f" {question.operation.sign} ".join(numbers)
        return joined((calculation, sign, self._answer(question, self.boxed)))

    def _answer(self, question: Question, box: Callable[[str], str]) -> str:
        """The answer as it stands there, boxed where the box is in it."""
        if self.operand is not None:
            return question.answer_text
        number = str(given_answer(question))
        boxed = box(number)
        left = question.remainder
        if question.ending is Ending.REMAINDER and left is not None and left.units:
            return say("{quotient} r {left}", quotient=boxed, left=str(left.trimmed()))
        return boxed + question.answer_text.removeprefix(number)

    def asked(self, question: Question) -> str:
        """The same."""
        return self.text(question)

    # Reply.

    def number(self, question: Question) -> Number:
        """The number that is hidden, or that has the hidden digit."""
        return given_answer(question) if self.operand is None else question.operands[self.operand]

    def answered(self, question: Question) -> tuple[str, str, str]:
        """What was missing follows the calculation: ``3.4 + ▭ = 3.67, ▭ = 0.27``."""
        return self.asked(question) + ",", f"{self.box} =", self.reply(question)

    def with_answer(self, question: Question) -> tuple[str, str]:
        """On one line."""
        return joined(self.answered(question)), ""

    def in_brief(self, question: Question) -> tuple[str, ...]:
        """With what was missing."""
        return self.with_answer(question)[:1]

    # Say.

    def said(self, question: Question) -> str:
        """``3.4 plus a missing number equals 3.67``."""
        numbers = [
            self._box_said(str(number)) if at == self.operand else str(number)
            for at, number in enumerate(question.operands)
        ]
        calculation = spoken(numbers, question.operation)
        answer = self._answer(question, self._box_said)
        if is_exact(question):
            return say("{calculation} equals {answer}", calculation=calculation, answer=answer)
        return say("{calculation} is about {answer}", calculation=calculation, answer=answer)

    def _box_said(self, written: str) -> str:
        """A number as it is written, with the words for the box in it or in its place."""
        raise NotImplementedError

    # Set out.

    def on_squares(self, given: OnSquares) -> Frame:
        """Bare squares: the question stands on a line."""
        return given.framed("none")

    # Record.

    def record(self, question: Question) -> dict[str, Any]:
        """Where what is hidden stands, and what it is."""
        hidden = {
            "number": "answer" if self.operand is None else self.operand + 1,
            "place": None if self.place is None else column_name(self.place),
            "is": self.reply(question),
        }
        return {"form": self.name, "asked": self.text(question), "hidden": hidden}

    @classmethod
    def read(cls, data: Mapping[str, Any], question: Question) -> Self:
        """What a question misses; it must be what is hidden there."""
        hidden = data["hidden"]
        operand = None if hidden["number"] == "answer" else whole_of(hidden["number"]) - 1
        place = None if hidden["place"] is None else PLACE_NAMED[hidden["place"]]
        form = cls(operand, place)
        known = operand is None or 0 <= operand < len(question.operands)
        if not (known and form.is_of_its_kind) or form.reply(question) != hidden["is"]:
            raise ValueError(
                say("what is missing in {question} does not hold together", question=question.text)
            )
        return form

    @property
    def is_of_its_kind(self) -> bool:
        """Whether it hides the kind of thing that its form leaves out."""
        raise NotImplementedError

    # Mark.

    def is_right(self, question: Question, replies: Sequence[Reply]) -> bool:
        """What goes in the box is what is marked."""
        wanted = {reply.value for reply in read_replies(self.reply(question))}
        return any(given.value in wanted and not given.left for given in replies)

    # What both kinds reckon with.

    def is_true(self, question: Question, value: Number) -> bool:
        """Whether the printed calculation is true with that number in the hidden one's stead."""
        if self.operand is None:
            return value.value == question.answer.value
        numbers = list(question.operands)
        numbers[self.operand] = value
        try:
            changed = replace(question, operands=tuple(numbers))
            return changed.answer.value == question.answer.value and (
                size(changed.remainder) == size(question.remainder)
            )
        except (ValueError, ZeroDivisionError):  # no answer from nought upwards, or none that ends
            return False


def size(number: Number | None) -> Fraction:
    """A number's value, nought where there is none."""
    return number.value if number else Fraction(0)
