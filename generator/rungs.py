"""A rung of the ladder as the exact set of its questions."""

from collections.abc import Callable
from functools import lru_cache
from typing import Any, Final

from generator.column_questions import ColumnQuestions
from generator.conditions import outline_of
from generator.conditions.numbers_shown import PowerOutline
from generator.order_questions import OrderQuestions
from generator.power_questions import PowerQuestions
from generator.product_questions import ProductQuestions
from generator.question_sets import QuestionSet
from generator.questions import Operation
from generator.quotient_questions import QuotientQuestions
from generator.round_questions import RoundQuestions
from specs.spec import Condition, RungSpec

_SETS: Final[dict[Operation, Callable[[Any], QuestionSet]]] = {
    Operation.ADD: ColumnQuestions,
    Operation.SUBTRACT: ColumnQuestions,
    Operation.MULTIPLY: ProductQuestions,
    Operation.DIVIDE: QuotientQuestions,
    Operation.ORDER: OrderQuestions,
    Operation.COMPARE: OrderQuestions,
    Operation.ROUND: RoundQuestions,
}


@lru_cache(maxsize=512)
def question_set(operation: Operation, conditions: tuple[Condition, ...]) -> QuestionSet:
    """The questions that an operation and conditions leave; counted once in a run."""
    return fresh_set(operation, conditions)


def fresh_set(operation: Operation, conditions: tuple[Condition, ...]) -> QuestionSet:
    """The same, of which nobody has counted anything yet."""
    outline = outline_of(operation, conditions)
    if isinstance(outline, PowerOutline):
        return PowerQuestions(outline)
    return _SETS[operation](outline)


def rung_set(rung: RungSpec) -> QuestionSet:
    """The questions on a rung."""
    return question_set(Operation(rung.operation), rung.conditions)
