"""How a rung's questions are asked: the form of each, and whether a question can have it."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Final

from generator.allowance import LOOKED_AT_OF_A_LADDER, Portions
from generator.arithmetic.questions import Question
from generator.forms.form import Form, Turn
from generator.forms.table import form_of_rung
from generator.numbered.permutation import Permutation
from generator.numbered.seeds import key
from generator.operations.rungs import rung_set
from specs.languages.saying import say
from specs.spec import PLAIN, RungSpec

LOOKED_AT: Final = 3_000
"""Questions of a rung that are tried before it is said that none can be asked as it wishes.
Of a rung with no more than these, every one is tried."""


class CannotBeAskedError(Exception):
    """No question of a rung can be asked in its form. The message says what would help."""

    def __init__(self, rung: RungSpec, tried_all: bool, tried: int = LOOKED_AT) -> None:
        self.rung = rung
        form = form_of_rung(rung)
        wanting = form.wanting(rung)
        if tried_all:
            self.what = say("no question of {rung} {can}", rung=rung.name, can=wanting)
        else:
            self.what = say(
                "not one of {tried} questions of {rung} {can}",
                tried=tried,
                rung=rung.name,
                can=wanting,
            )
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


@lru_cache(maxsize=512)  # a command looks when it reads a spec, and again when it chooses
def _tried(rung: RungSpec, most: int) -> tuple[int, bool]:
    """How many of a rung's questions were tried, and whether the last can be asked as it wishes."""
    questions = rung_set(rung)
    if not questions.count:
        return 0, True  # there is nothing that could not be asked
    order = Permutation(questions.count, key("asking", rung.text))
    tried = min(questions.count, most)
    for at in range(tried):
        if can_be_asked(rung, questions.unrank(order[at])):
            return at + 1, True
    return tried, False


def cannot_be_asked(rungs: Iterable[RungSpec]) -> Iterator[CannotBeAskedError]:
    """What is wrong with those rungs of which no question can be asked as they wish."""
    asked = [rung for rung in rungs if _picks(rung)]
    portions = Portions(LOOKED_AT_OF_A_LADDER, len(asked))
    for rung in asked:
        tried, found = _tried(rung, min(LOOKED_AT, portions.next))
        portions.took(tried)
        if not found:
            yield CannotBeAskedError(rung, tried == rung_set(rung).count, tried)
