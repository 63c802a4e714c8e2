"""``tells_apart``: mistakes that the questions chosen from a rung must tell apart.

The word leaves the rung's set as it is; it decides which of the set are chosen. See
``generator/packs/telling_apart.py``.
"""

from collections.abc import Iterator
from typing import Final

from generator.arithmetic.questions import Operation
from generator.operations.mistakes import mistakes_of
from specs.shapes.phrases import SetOfPhrases
from specs.spec import PLAIN, TELLS_APART, RungSpec
from specs.words import Word

NAME: Final = TELLS_APART

WORDS: Final = tuple(
    Word(
        NAME,
        frozenset({str(operation)}),
        SetOfPhrases(*(mistake.name for mistake in mistakes_of(operation))),
        "Mistakes that each chosen question tells from each other and from the right method.",
    )
    for operation in Operation
    if mistakes_of(operation)
)
"""A word for each operation, as each has mistakes of its own."""


def named(rung: RungSpec) -> tuple[str, ...]:
    """The mistakes that a rung's questions must tell apart; none where it asks for nothing."""
    return next((names for word in WORDS if (names := word.of(rung))), ())


def asks_for_answers(rung: RungSpec) -> Iterator[tuple[int, str, str]]:
    """Mistakes show in answers, so a rung that tells them apart asks for these."""
    missing = rung.form != PLAIN
    for condition in rung.conditions:
        if condition.word == NAME and missing:
            what = f"a rung cannot have both '{NAME}' and 'form: {rung.form}'"
            yield condition.line, what, "keep one of them, or make two rungs of it"
