"""A rung of the ladder as the exact set of its questions."""

from collections.abc import Callable
from functools import lru_cache
from typing import Any, Final

from generator.arithmetic.questions import Operation
from generator.numbered.question_sets import QuestionSet
from generator.operations.columns.questions import ColumnQuestions
from generator.operations.conditions import outline_of
from generator.operations.numbers_shown import PowerOutline
from generator.operations.order.questions import OrderQuestions
from generator.operations.powers.questions import PowerQuestions
from generator.operations.products.questions import ProductQuestions
from generator.operations.quotients.questions import QuotientQuestions
from generator.operations.rounding.questions import RoundQuestions
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
