"""``worked_by``: the mistakes by which the questions of a rung are worked wrongly, to be put right.

The word leaves the rung's set as it is; it decides what is shown with ``form: spot the mistake``,
and so which of the set can be asked. See ``generator/forms/spot_the_mistake.py``.
"""

from collections.abc import Sequence
from typing import Final, cast

from generator.arithmetic.questions import Operation
from generator.operations.mistake import Mistake
from generator.operations.rung_values import Found
from specs.languages.saying import say
from specs.shapes.phrases import SetOfPhrases
from specs.spec import RungSpec
from specs.words import Word

NAME: Final = "worked_by"
FORM: Final = "spot the mistake"
_SAYS: Final = say(
    "With 'form: {form}': the mistakes by which its questions are worked, any that can be shown "
    "when not given.",
    form=FORM,
)


def words_of(mistakes: Sequence[Mistake]) -> tuple[Word[tuple[str, ...]], ...]:
    """A word for each operation that is worked in writing, as each has mistakes of its own."""
    found = []
    for operation in Operation:
        names = [mistake.name for mistake in mistakes if operation in mistake.operations]
        if names and operation.is_calculation:
            found.append(Word(NAME, frozenset({str(operation)}), SetOfPhrases(*names), _SAYS))
    return tuple(found)


def named(rung: RungSpec) -> tuple[str, ...]:
    """The mistakes by which a rung's questions are worked; none where any will do."""
    found = (condition.value for condition in rung.conditions if condition.word == NAME)
    return cast(tuple[str, ...], next(found, ()))


def goes_with_its_form(rung: RungSpec) -> Found:
    """Only questions that are worked wrongly are worked by a mistake."""
    for condition in rung.conditions:
        if condition.word == NAME and rung.form != FORM:
            what = say("'{word}' has no meaning without 'form: {form}'", word=NAME, form=FORM)
            yield condition.line, what, say("leave it out, or add 'form: {form}'", form=FORM)
