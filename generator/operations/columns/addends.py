"""``addends``: how many numbers are added, two to six."""

from generator.operations.columns.outline import Outline
from specs.languages.saying import say
from specs.shapes import WholeNumber
from specs.words import Word

WORD = Word(
    "addends",
    frozenset({"add"}),
    WholeNumber(2, 6),
    say("How many numbers are added: 2 to 6 (2 when not given)."),
)

DEFAULT = 2


def narrow(addends: int, outline: Outline) -> Outline:
    """So many numbers, all of the first one's kind."""
    return outline.with_kinds(*[outline.kinds[0]] * addends)
