"""Wrong procedures: what a wrong answer says about how it was reached.

Each topic has its own (``generator/operations/…/topic.py``); here they are looked up.
"""

from collections.abc import Collection

from generator.arithmetic.questions import Operation
from generator.operations.mistake import Mistake, agree, is_right, reply, right_reply
from generator.operations.table import MISTAKES, MISTAKES_OF_METHODS
from specs.replies import Reply

__all__ = [
    "MISTAKES",
    "MISTAKES_OF_METHODS",
    "Mistake",
    "Reply",
    "agree",
    "is_right",
    "mistake_named",
    "mistakes_in_methods",
    "mistakes_of",
    "reply",
    "right_reply",
]


def mistakes_of(operation: Operation) -> tuple[Mistake, ...]:
    """The mistakes of an operation, more common ones first."""
    return tuple(mistake for mistake in MISTAKES if operation in mistake.operations)


def mistakes_in_methods(operation: Operation, ways: Collection[str]) -> tuple[Mistake, ...]:
    """The mistakes of an operation that are made by the methods chosen, the methods' own first."""
    own = (m for m in MISTAKES_OF_METHODS if operation in m.operations)
    return tuple(m for m in (*own, *mistakes_of(operation)) if m.is_made_in(ways))


def mistake_named(name: str) -> Mistake:
    """The mistake of that name. Raises KeyError when there is none."""
    for mistake in MISTAKES:
        if mistake.name == name:
            return mistake
    raise KeyError(name)
