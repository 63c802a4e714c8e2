"""Written methods: each turns a question into frozen steps on squared paper."""

from generator.arithmetic.questions import Question
from generator.operations.table import topic_of
from generator.operations.working import Conventions, Working

__all__ = ["Conventions", "Working", "written_working"]


def written_working(question: Question, conventions: Conventions | None = None) -> Working:
    """The question worked by its written method, step by step."""
    return topic_of(question).method(question, conventions or Conventions())
