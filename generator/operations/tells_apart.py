"""``tells_apart``: mistakes that the questions chosen from a rung must tell apart.

The word leaves the rung's set as it is; it decides which of the set are chosen. See
``generator/packs/telling_apart.py``.
"""

from collections.abc import Sequence
from typing import Final, cast

from generator.arithmetic.questions import Operation
from generator.operations.mistake import Mistake
from generator.operations.rung_values import Found
from specs.languages.saying import say
from specs.shapes.phrases import SetOfPhrases
from specs.spec import PLAIN, TELLS_APART, RungSpec
from specs.words import Word

NAME: Final = TELLS_APART
_SAYS: Final = say(
    "Mistakes that each chosen question tells from each other and from the right method, those of "
    "them that apply to it: one at least shows in its answer."
)


def words_of(mistakes: Sequence[Mistake]) -> tuple[Word[tuple[str, ...]], ...]:
    """A word for each operation, as each has mistakes of its own."""
    found = []
    for operation in Operation:
        names = [mistake.name for mistake in mistakes if operation in mistake.operations]
        if names:
            found.append(Word(NAME, frozenset({str(operation)}), SetOfPhrases(*names), _SAYS))
    return tuple(found)


def named(rung: RungSpec) -> tuple[str, ...]:
    """The mistakes that a rung's questions must tell apart; none where it asks for nothing."""
    found = (condition.value for condition in rung.conditions if condition.word == NAME)
    return cast(tuple[str, ...], next(found, ()))


def asks_for_answers(rung: RungSpec) -> Found:
    """Mistakes show in answers, so a rung that tells them apart asks for these."""
    missing = rung.form != PLAIN
    for condition in rung.conditions:
        if condition.word == NAME and missing:
            what = say(
                "a rung cannot have both '{word}' and 'form: {form}'", word=NAME, form=rung.form
            )
            yield condition.line, what, say("keep one of them, or make two rungs of it")
