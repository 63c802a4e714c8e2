"""A rung of the ladder as the exact set of its questions."""

from functools import lru_cache
from typing import Any

from generator.arithmetic.questions import Operation
from generator.numbered.question_sets import QuestionSet
from generator.operations.conditions import narrowed
from specs.spec import Condition, RungSpec


@lru_cache(maxsize=512)
def question_set(operation: Operation, conditions: tuple[Condition, ...]) -> QuestionSet[Any]:
    """The questions that an operation and conditions leave; counted once in a run."""
    return fresh_set(operation, conditions)


def fresh_set(operation: Operation, conditions: tuple[Condition, ...]) -> QuestionSet[Any]:
    """The same, of which nobody has counted anything yet."""
    topic, outline = narrowed(operation, conditions)
    return topic.questions(outline)


def rung_set(rung: RungSpec) -> QuestionSet[Any]:
    """The questions on a rung."""
    return question_set(Operation(rung.operation), rung.conditions)
