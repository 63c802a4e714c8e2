"""Wrong procedures: what a wrong answer says about how it was reached.

Each topic has its own (``generator/operations/…/topic.py``); here they are looked up.
"""

from generator.arithmetic.questions import Operation
from generator.operations.mistake import Mistake, agree, is_right, reply, right_reply
from generator.operations.table import MISTAKES
from specs.replies import Reply

__all__ = [
    "MISTAKES",
    "Mistake",
    "Reply",
    "agree",
    "is_right",
    "mistake_named",
    "mistakes_of",
    "reply",
    "right_reply",
]


def mistakes_of(operation: Operation) -> tuple[Mistake, ...]:
    """The mistakes of an operation, more common ones first."""
    return tuple(mistake for mistake in MISTAKES if operation in mistake.operations)


def mistake_named(name: str) -> Mistake:
    """The mistake of that name. Raises KeyError when there is none."""
    for mistake in MISTAKES:
        if mistake.name == name:
            return mistake
    raise KeyError(name)
