"""``repeats``: whether a digit may stand twice in a column of the question."""

from dataclasses import replace

from generator.operations.columns.outline import Outline
from specs.languages.saying import say
from specs.shapes import OneOf
from specs.words import Word

WORD = Word(
    "repeats",
    frozenset({"add", "subtract"}),
    OneOf("allow", "forbid"),
    say(
        "Whether a digit may stand twice in a column of the question, the noughts before the "
        "point of 0.4 left aside (allow when not given)."
    ),
)


def narrow(value: str, outline: Outline) -> Outline:
    """No digit twice in a column, if so asked."""
    return replace(outline, distinct=value == "forbid")
