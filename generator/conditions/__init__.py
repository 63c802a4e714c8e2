"""The conditions of a rung: each word, the shape of its value, and what it narrows.

``TABLE`` is the one list of them. A row's ``narrow`` takes the value that the word's
shape read and an outline, and gives the narrowed outline. Rows apply in table order; a
row with a default applies even where a rung does not mention its word.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from generator.conditions import addends, answer, lengths, repeats, tells_apart, transfers, zeros
from generator.conditions.checks import CHECKS
from generator.conditions.outline import Outline
from generator.counting.fills import Kind
from generator.questions import Operation
from specs.spec import Condition
from specs.words import Vocabulary, Word

__all__ = ["TABLE", "VOCABULARY", "Outline", "Row", "outline_of"]


@dataclass(frozen=True, slots=True)
class Row:
    """A condition: its word, its meaning, and the value it has when not mentioned (None: none)."""

    word: Word
    narrow: Callable[[object, Outline], Outline]
    default: object = None


TABLE: Final = (
    Row(addends.WORD, addends.narrow, addends.DEFAULT),
    Row(lengths.PLACES, lengths.narrow_places, lengths.PLACES_DEFAULT),
    Row(lengths.WHOLE, lengths.narrow_whole, lengths.WHOLE_DEFAULT),
    Row(lengths.LONGER, lengths.narrow_longer),
    Row(zeros.WORD, zeros.narrow, zeros.DEFAULT),
    Row(repeats.WORD, repeats.narrow),
    Row(transfers.CARRIES, transfers.narrow_carries),
    Row(transfers.EXCHANGES, transfers.narrow_exchanges),
    Row(answer.WORD, answer.narrow),
    *(Row(word, tells_apart.narrow) for word in tells_apart.WORDS),
)

OUTLINES: Final[dict[Operation, Outline]] = {
    operation: Outline(operation, (Kind((), ()),) * 2, (answer.NotNought(),))
    for operation in (Operation.ADD, Operation.SUBTRACT)
}
"""For each operation the outline that its conditions start from."""

VOCABULARY: Final = Vocabulary(
    operations=tuple(OUTLINES),
    words=tuple(row.word for row in TABLE if row.word.operations <= set(OUTLINES)),
    checks=CHECKS,
)


def outline_of(operation: Operation, conditions: tuple[Condition, ...]) -> Outline:
    """The outline that an operation and its conditions leave."""
    values = {condition.word: condition.value for condition in conditions}
    outline = OUTLINES[operation]
    for row in TABLE:
        if operation in row.word.operations:
            value = values.get(row.word.name, row.default)
            if value is not None:
                outline = row.narrow(value, outline)
    return outline
