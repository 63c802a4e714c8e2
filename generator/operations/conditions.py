"""The words of a rung, and what they leave of a topic's questions."""

from collections.abc import Sequence
from typing import Any, Final

from generator.arithmetic.questions import Operation
from generator.operations import tells_apart, worked_by
from generator.operations.mistake import Mistake
from generator.operations.rung_values import Found
from generator.operations.table import MISTAKES, TOPICS, topic_of_rung
from generator.operations.topic import Topic
from specs.spec import Condition, RungSpec
from specs.words import Vocabulary

__all__ = ["CONDITIONS", "narrowed", "vocabulary_of"]


def narrowed(operation: Operation, conditions: tuple[Condition, ...]) -> tuple[Topic, Any]:
    """The topic of an operation and its conditions, and the outline that they leave.

    Conditions apply in the order of the topic's rows; one with a default applies even where a
    rung does not mention its word.
    """
    values = {condition.word: condition.value for condition in conditions}
    topic = topic_of_rung(operation, frozenset(values))
    outline = topic.outlines[operation]
    for row in topic.conditions:
        if operation in row.word.operations:
            value = values.get(row.word.name, row.default)
            if value is not None:
                outline = row.narrow(value, outline)
    return topic, outline


def _fits_its_topic(rung: RungSpec) -> Found:
    """What is wrong with a rung's words together, as its topic judges them."""
    words = frozenset(condition.word for condition in rung.conditions)
    for check in topic_of_rung(Operation(rung.operation), words).checks:
        yield from check(rung)


def vocabulary_of(topics: Sequence[Topic], mistakes: Sequence[Mistake]) -> Vocabulary:
    """All that a rung may say of some topics."""
    rows = [row.word for topic in topics for row in topic.conditions]
    operations = {operation for topic in topics for operation in topic.outlines}
    return Vocabulary(
        operations=tuple(operation for operation in Operation if operation in operations),
        words=(*rows, *tells_apart.words_of(mistakes), *worked_by.words_of(mistakes)),
        checks=(_fits_its_topic, tells_apart.asks_for_answers, worked_by.goes_with_its_form),
        leaves_out={
            str(operation): said for topic in topics for operation, said in topic.leaves_out.items()
        },
        of_methods={
            mistake.name: frozenset(map(str, mistake.operations))
            for topic in topics
            for mistake in topic.mistakes_of_methods
        },
    )


CONDITIONS: Final = vocabulary_of(TOPICS, MISTAKES)
