"""The question as it is: ``3.4 + 0.27``."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Final

from generator.arithmetic.questions import Question
from generator.forms import question_words
from generator.forms.form import Form, Turn
from specs.spec import PLAIN as PLAIN_FORM
from specs.spec import RungSpec


@dataclass(frozen=True, slots=True)
class Plain(Form):
    """The question as it is."""

    name: ClassVar[str] = PLAIN_FORM

    @classmethod
    def offered(cls, question: Question, rung: RungSpec, turn: Turn) -> "Plain":
        """Every question can be asked as it is."""
        return PLAIN

    @classmethod
    def fits(cls, question: Question, rung: RungSpec) -> bool:
        """Every question can be asked as it is."""
        return True

    def asked_on_a_line(self, question: Question) -> str:
        """``0.6 × 0.07 =``."""
        return question_words.asked_on_a_line(question)

    def record(self, question: Question) -> dict[str, Any]:
        """Nothing: what is said of the question says all."""
        return {}

    @classmethod
    def read(cls, data: Mapping[str, Any], question: Question) -> "Plain":
        """The one plain form."""
        return PLAIN


PLAIN: Final = Plain()
