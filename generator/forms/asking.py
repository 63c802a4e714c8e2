"""How a rung's questions are asked: the form of each, and whether a question can have it."""

from collections.abc import Collection, Iterable, Iterator
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.forms.contexts import fits, in_words
from generator.forms.forms import (
    PLAIN,
    Form,
    FromFact,
    can_be_missed,
    from_fact,
    missing,
    mistaken,
    turned,
)
from generator.numbered.permutation import Permutation
from generator.numbered.question_sets import QuestionSet
from generator.numbered.seeds import Dice, key
from generator.operations.rungs import rung_set
from specs.problems import listed
from specs.shapes import decimal_text
from specs.spec import SPOT, RungSpec

LOOKED_AT: Final = 3_000
"""Questions of a rung that are tried before it is said that none can be asked as it wishes.
Of a rung with no more than these, every one is tried."""


class CannotBeAskedError(Exception):
    """No question of a rung can be asked in its form. The message says what would help."""

    def __init__(self, rung: RungSpec, tried_all: bool) -> None:
        self.rung = rung
        found = "no question" if tried_all else f"not one of {LOOKED_AT} questions"
        if rung.context:
            self.what = f"{found} of {rung.name} can be put in words about {listed(rung.context)}"
            self.instead = f"there {_numbers_taken(rung)}"
        elif rung.form == SPOT:
            self.what = f"{found} of {rung.name} shows a mistake that can be set out on squares"
            self.instead = (
                "sums that carry, products of two numbers that carry, subtractions that exchange "
                "and divisions that hand something on, and do not end with a fraction, do"
            )
        else:
            why = {FromFact.name: "follows from a whole-number fact"}
            usual = f"has a {rung.form} that can be only one"
            self.what = f"{found} of {rung.name} {why.get(rung.form, usual)}"
            self.instead = _form_instead(rung)
        super().__init__(f"{self.what}; {self.instead}")

    @property
    def line(self) -> int:
        """The line of the rung."""
        return self.rung.line


_CALCULATIONS: Final = tuple(str(operation) for operation in Operation if operation.is_calculation)
_GOES_WITH: Final = {FromFact.name: (str(Operation.MULTIPLY), str(Operation.DIVIDE))}


def _form_instead(rung: RungSpec) -> str:
    """What to write where no question of a rung can have its form."""
    operations = _GOES_WITH.get(rung.form, _CALCULATIONS)
    if rung.operation not in operations:
        return f"'form: {rung.form}' goes with {listed(operations, 'and')}; leave it out"
    if rung.form == FromFact.name:
        return "give its numbers decimal places, or leave out 'form'"
    return "leave out 'form', or loosen the conditions"


def form_of(
    rung: RungSpec, question: Question, dice: Dice, turn: int = 0, used: Collection[str] = ()
) -> Form | None:
    """The form in which a question of a rung is asked; None when it cannot have it.

    What may be missing, or be said, is put in an order by ``words``; each ``turn`` begins
    one further along it, so that neighbours on a sheet differ. ``used`` names the templates
    that other questions of the sheet have.
    """
    if rung.context:
        return in_words(question, turned(dice.shuffled(rung.templates), turn), used)
    if rung.form == SPOT:
        return mistaken(question, dice, turn)
    if rung.form == FromFact.name:
        return from_fact(question)
    if rung.form != PLAIN.name:
        return missing(question, rung.form, dice, turn)
    return PLAIN


def can_be_asked(rung: RungSpec, question: Question) -> bool:
    """Whether a question can have its rung's form."""
    if rung.context:
        return any(fits(template, question) for template in rung.templates)
    if rung.form == SPOT:
        return mistaken(question, Dice(key("asking", rung.text))) is not None
    if rung.form == FromFact.name:
        return from_fact(question) is not None
    return rung.form == PLAIN.name or can_be_missed(question, rung.form)


def check_can_be_asked(rung: RungSpec, questions: QuestionSet) -> None:
    """Raise CannotBeAskedError when none of the questions looked at can have the rung's form."""
    if (rung.form == PLAIN.name and not rung.context) or not questions.count:
        return
    order = Permutation(questions.count, key("asking", rung.text))
    tried = min(questions.count, LOOKED_AT)
    if not any(can_be_asked(rung, questions.unrank(order[at])) for at in range(tried)):
        raise CannotBeAskedError(rung, tried_all=tried == questions.count)


def cannot_be_asked(rungs: Iterable[RungSpec]) -> Iterator[CannotBeAskedError]:
    """What is wrong with those rungs of which no question can be asked as they wish."""
    for rung in rungs:
        try:
            check_can_be_asked(rung, rung_set(rung))
        except CannotBeAskedError as error:
            yield error


def _numbers_taken(rung: RungSpec) -> str:
    """What numbers the templates of a rung take, in words."""
    quantities = [q for template in rung.templates for q in template.quantities]
    places = sorted({places for q in quantities for places in q.places})
    least = min(quantity.least for quantity in quantities)
    greatest = max(quantity.greatest for quantity in quantities)
    counts = sorted({len(t.quantities) for t in rung.templates if not t.any_number})
    many = f", {listed(map(str, counts))} of them" if counts else ""
    return (
        f"numbers have {listed(map(str, places))} decimal places and lie between "
        f"{decimal_text(least)} and {decimal_text(greatest)}{many}, with an answer to match"
    )
