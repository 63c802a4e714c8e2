"""Written methods: each turns a question into frozen steps on squared paper."""

from functools import lru_cache

from generator.arithmetic.questions import Question
from generator.operations.table import topic_of
from generator.operations.working import Conventions, Working

__all__ = ["Conventions", "Working", "written_working"]


def written_working(question: Question, conventions: Conventions | None = None) -> Working:
    """The question worked by its written method, step by step."""
    return _by_method(question, conventions or Conventions())


@lru_cache(maxsize=1024)  # the questions of a class's sheets, each on its sheet and in the key
def _by_method(question: Question, agreed: Conventions) -> Working:
    return topic_of(question).method(question, agreed)
