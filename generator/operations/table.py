"""The one table of operations: a row a topic. A further topic is one more row.

What else is known of all operations together follows from the rows: which words a rung may use,
which mistakes there are, whose questions are whose.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations import in_any_calculation
from generator.operations.columns.topic import COLUMNS
from generator.operations.mistake import Mistake
from generator.operations.order.topic import ORDER
from generator.operations.powers.topic import POWERS
from generator.operations.products.topic import PRODUCTS
from generator.operations.quotients.topic import QUOTIENTS
from generator.operations.rounding.topic import ROUNDING
from generator.operations.topic import Topic

TOPICS: Final[tuple[Topic, ...]] = (COLUMNS, POWERS, PRODUCTS, QUOTIENTS, ROUNDING, ORDER)


def topics_of(operation: Operation) -> Iterator[Topic]:
    """The topics that have an operation, those with a word or an ending of their own first."""
    found = [topic for topic in TOPICS if operation in topic.outlines]
    yield from (topic for topic in found if topic.opened_by is not None)
    yield from (topic for topic in found if topic.opened_by is None)


def topic_of(question: Question) -> Topic:
    """The topic that a question belongs to."""
    for topic in topics_of(question.operation):
        if topic.ending in (None, question.ending):
            return topic
    raise KeyError(question.operation)


def topic_of_rung(operation: Operation, words: frozenset[str]) -> Topic:
    """The topic of a rung that uses those words."""
    for topic in topics_of(operation):
        if topic.opened_by is None or topic.opened_by in words:
            return topic
    raise KeyError(operation)


def mistakes_in(topics: Sequence[Topic]) -> Iterator[Mistake]:
    """Those of calculations, those that calculations share, and those of other questions."""
    calculations = [t for t in topics if all(o.is_calculation for o in t.outlines)]
    for topic in calculations:
        yield from topic.mistakes
    yield from in_any_calculation.MISTAKES
    for topic in topics:
        if topic not in calculations:
            yield from topic.mistakes


MISTAKES: Final[tuple[Mistake, ...]] = tuple(mistakes_in(TOPICS))
"""Every mistake, in each operation the more common before the less (common practice, no source)."""

MISTAKES_OF_METHODS: Final = tuple(m for topic in TOPICS for m in topic.mistakes_of_methods)
"""Those of methods that a spec must choose."""
