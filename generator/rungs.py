"""A rung of the ladder as the exact set of its questions."""

from functools import lru_cache

from generator.column_questions import ColumnQuestions
from generator.conditions import outline_of
from generator.question_sets import QuestionSet
from generator.questions import Operation
from specs.spec import Condition, RungSpec

_SETS = {
    Operation.ADD: ColumnQuestions,
    Operation.SUBTRACT: ColumnQuestions,
}


@lru_cache(maxsize=512)
def question_set(operation: Operation, conditions: tuple[Condition, ...]) -> QuestionSet:
    """The questions that an operation and conditions leave; counted once in a run."""
    return _SETS[operation](outline_of(operation, conditions))


def rung_set(rung: RungSpec) -> QuestionSet:
    """The questions on a rung."""
    return question_set(Operation(rung.operation), rung.conditions)
