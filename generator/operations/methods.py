"""Written methods: each turns a question into frozen steps on squared paper."""

from collections.abc import Callable
from functools import lru_cache
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.columns.addition import column_addition
from generator.operations.columns.equal_addition import equal_addition
from generator.operations.columns.subtraction import column_subtraction
from generator.operations.order.ordering import comparison, ordering
from generator.operations.powers.moving_digits import moving_digits
from generator.operations.products.multiplication import multiplication
from generator.operations.quotients.division import short_division
from generator.operations.rounding.rounding import rounding
from generator.operations.working import Conventions, Working

__all__ = ["Conventions", "Working", "written_working"]

_Method = Callable[[Question, Conventions], Working]

_METHODS: Final[dict[Operation, _Method]] = {
    Operation.ADD: column_addition,
    Operation.MULTIPLY: multiplication,
    Operation.DIVIDE: short_division,
    Operation.ORDER: ordering,
    Operation.COMPARE: comparison,
    Operation.ROUND: rounding,
}
_SUBTRACTIONS: Final[dict[str, _Method]] = {
    "exchange": column_subtraction,
    "equal addition": equal_addition,
}


def written_working(question: Question, conventions: Conventions | None = None) -> Working:
    """The question worked by its written method, step by step."""
    return _worked(question, conventions or Conventions())


@lru_cache(maxsize=1024)  # the questions of a class's sheets, each on its sheet and in the key
def _worked(question: Question, agreed: Conventions) -> Working:
    if question.power_of_ten:
        return moving_digits(question, agreed)
    if question.operation is Operation.SUBTRACT:
        return _SUBTRACTIONS[agreed.subtraction](question, agreed)
    return _METHODS[question.operation](question, agreed)
