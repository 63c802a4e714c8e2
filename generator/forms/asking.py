"""How a rung's questions are asked: the form of each, and whether a question can have it."""

from collections.abc import Iterable, Iterator
from typing import Any, Final

from generator.arithmetic.questions import Question
from generator.forms.form import Form, Turn
from generator.forms.table import form_of_rung
from generator.numbered.permutation import Permutation
from generator.numbered.question_sets import QuestionSet
from generator.numbered.seeds import key
from generator.operations.rungs import rung_set
from specs.spec import PLAIN, RungSpec

LOOKED_AT: Final = 3_000
"""Questions of a rung that are tried before it is said that none can be asked as it wishes.
Of a rung with no more than these, every one is tried."""

LOOKED_AT_OF_A_LADDER: Final = 24_000
"""The same for all rungs of a ladder that ask in a form or in words, shared equally among them:
some three seconds of the slowest form."""


class CannotBeAskedError(Exception):
    """No question of a rung can be asked in its form. The message says what would help."""

    def __init__(self, rung: RungSpec, tried_all: bool, tried: int = LOOKED_AT) -> None:
        self.rung = rung
        form = form_of_rung(rung)
        found = "no question" if tried_all else f"not one of {tried} questions"
        self.what = f"{found} of {rung.name} {form.wanting(rung)}"
        self.instead = form.instead(rung)
        super().__init__(f"{self.what}; {self.instead}")

    @property
    def line(self) -> int:
        """The line of the rung."""
        return self.rung.line


def form_of(rung: RungSpec, question: Question, turn: Turn) -> Form | None:
    """The form in which a question of a rung is asked; None when it cannot have it."""
    return form_of_rung(rung).offered(question, rung, turn)


def can_be_asked(rung: RungSpec, question: Question) -> bool:
    """Whether a question can have its rung's form."""
    return form_of_rung(rung).fits(question, rung)


def _picks(rung: RungSpec) -> bool:
    """Whether some of a rung's questions may not be asked as it wishes."""
    return rung.form != PLAIN or bool(rung.context)


def check_can_be_asked(rung: RungSpec, questions: QuestionSet[Any], most: int = LOOKED_AT) -> None:
    """Raise CannotBeAskedError when none of the questions looked at can have the rung's form."""
    if not _picks(rung) or not questions.count:
        return
    order = Permutation(questions.count, key("asking", rung.text))
    tried = min(questions.count, most)
    if not any(can_be_asked(rung, questions.unrank(order[at])) for at in range(tried)):
        raise CannotBeAskedError(rung, tried == questions.count, tried)


def cannot_be_asked(rungs: Iterable[RungSpec]) -> Iterator[CannotBeAskedError]:
    """What is wrong with those rungs of which no question can be asked as they wish."""
    asked = [rung for rung in rungs if _picks(rung)]
    for rung in asked:
        try:
            most = min(LOOKED_AT, LOOKED_AT_OF_A_LADDER // len(asked))
            check_can_be_asked(rung, rung_set(rung), most)
        except CannotBeAskedError as error:
            yield error
