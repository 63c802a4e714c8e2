"""A decimal relative of a whole-number fact: ``24 × 16 = 384, so 2.4 × 0.16 =``."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar, Final

from generator.arithmetic.questions import Operation, Question
from generator.forms.form import Form, OnSquares, Turn, Written
from generator.forms.frames import Frame, bare_rows
from generator.forms.question_words import calculation_said
from generator.operations.products.known_fact import related_product, whole_number_fact
from generator.operations.quotients.related_quotient import (
    follows_from_its_fact,
    related_quotient,
)
from generator.operations.working import Working
from specs.languages.saying import Saying, say
from specs.spec import RungSpec

ROWS_AFTER_A_FACT: Final = 3
"""Rows of bare squares below a question that follows from a known fact."""


@dataclass(frozen=True, slots=True)
class KnownFact(Form):
    """The question follows from a whole-number fact, which is given: its decimal relative."""

    fact: Question
    name: ClassVar[str] = "known fact"
    says: ClassVar[Saying] = say("of whole numbers, from which decimals follow")
    goes_with: ClassVar[tuple[str, ...]] = (str(Operation.MULTIPLY), str(Operation.DIVIDE))

    @classmethod
    def of(cls, question: Question) -> "KnownFact | None":
        """The question from its fact; None where it does not follow from one."""
        fact = whole_number_fact(question)
        return cls(fact) if fact else None

    @classmethod
    def offered(cls, question: Question, rung: RungSpec, turn: Turn) -> "KnownFact | None":
        """The question from its fact; None where it does not follow from one."""
        return cls.of(question)

    @classmethod
    def fits(cls, question: Question, rung: RungSpec) -> bool:
        """Whether it follows from a fact."""
        return whole_number_fact(question) is not None

    @classmethod
    def wanting(cls, rung: RungSpec) -> Saying:
        """Why no question of a rung has a fact."""
        return say("follows from a whole-number fact")

    @classmethod
    def instead(cls, rung: RungSpec) -> Saying:
        """It goes with products and quotients of decimals."""
        return say("give its numbers decimal places, or leave out 'form'")

    def text(self, question: Question) -> str:
        """``24 × 16 = 384, so 2.4 × 0.16 =``."""
        known = f"{self.fact.text} = {self.fact.answer}"
        return say("{known}, so {calculation} =", known=known, calculation=question.text)

    def asked(self, question: Question) -> str:
        """The same."""
        return self.text(question)

    def said(self, question: Question) -> str:
        """``24 times 16 equals 384, so what is 2.4 times 0.16``."""
        return say(
            "{known} equals {answer}, so what is {calculation}",
            known=calculation_said(self.fact),
            answer=str(self.fact.answer),
            calculation=calculation_said(question),
        )

    def lead(self, question: Question) -> str:
        """What is known."""
        return say("{known} is known.", known=f"{self.fact.text} = {self.fact.answer}")

    def working(self, written: Written) -> Working:
        """The question is worked from its fact, where that gives the whole of its answer."""
        if written.question.operation is Operation.MULTIPLY:
            return related_product(written.question, written.conventions)
        if follows_from_its_fact(written.question):
            return related_quotient(written.question, written.conventions)
        return Form.working(self, written)

    def on_squares(self, given: OnSquares) -> Frame:
        """The question on a line, and a few rows below it."""
        return bare_rows(given.bare, ROWS_AFTER_A_FACT, given.words)

    @classmethod
    def read(cls, data: Mapping[str, Any], question: Question) -> "KnownFact":
        """The form of a question that follows from a fact."""
        form = cls.of(question)
        if form is None:
            raise ValueError(say("{question} does not follow from a fact", question=question.text))
        return form

    def minutes(self, usual: Fraction) -> Fraction:
        """There is little to write."""
        return Fraction(1)
