"""Written methods: each turns a question into frozen steps on squared paper."""

from generator.methods.addition import column_addition
from generator.methods.subtraction import column_subtraction
from generator.methods.working import Conventions, Working
from generator.questions import Operation, Question

__all__ = ["Conventions", "Working", "written_working"]

_METHODS = {
    Operation.ADD: column_addition,
    Operation.SUBTRACT: column_subtraction,
}


def written_working(question: Question, conventions: Conventions | None = None) -> Working:
    """The question worked by its written method, step by step."""
    return _METHODS[question.operation](question.operands, conventions or Conventions())
