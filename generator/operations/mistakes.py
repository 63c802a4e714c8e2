"""Wrong procedures: what a wrong answer says about how it was reached.

Each topic has its own (``generator/operations/…/topic.py``); here they are looked up.
"""

from collections.abc import Collection
from typing import Final

from generator.arithmetic.questions import Operation
from generator.operations.mistake import Mistake, agree, is_right, reply, right_reply
from generator.operations.table import MISTAKES, MISTAKES_OF_METHODS
from specs.replies import Reply

__all__ = [
    "EVERY_MISTAKE",
    "MISTAKES",
    "MISTAKES_OF_METHODS",
    "NO_WAYS",
    "Mistake",
    "Reply",
    "agree",
    "is_right",
    "mistake_named",
    "mistakes_in_methods",
    "mistakes_of",
    "mistakes_searched_for",
    "reply",
    "right_reply",
    "with_mistakes_of_their_own",
]

EVERY_MISTAKE: Final = (*MISTAKES, *MISTAKES_OF_METHODS)
"""Every mistake that is known, those of methods that a spec must choose last."""

NO_WAYS: Final = frozenset[str]()
"""Methods with mistakes of their own, where none of these is taught."""

_WITH_THEIR_OWN: Final = NO_WAYS.union(*(mistake.ways for mistake in MISTAKES_OF_METHODS))


def mistakes_of(operation: Operation) -> tuple[Mistake, ...]:
    """The mistakes of an operation, more common ones first."""
    return tuple(mistake for mistake in MISTAKES if operation in mistake.operations)


def mistakes_in_methods(operation: Operation, ways: Collection[str]) -> tuple[Mistake, ...]:
    """The mistakes of an operation that are made by the methods chosen, the methods' own first."""
    own = (m for m in MISTAKES_OF_METHODS if operation in m.operations)
    return tuple(m for m in (*own, *mistakes_of(operation)) if m.is_made_in(ways))


def with_mistakes_of_their_own(ways: Collection[str]) -> frozenset[str]:
    """Those of some methods whose mistakes are made by nobody else: the grid, counting up, …"""
    return _WITH_THEIR_OWN.intersection(ways)


def mistakes_searched_for(ways: Collection[str]) -> tuple[Mistake, ...]:
    """The mistakes that the answers of a class are searched for that works by some methods.

    All but those of methods that it was not taught: who learns the grid may fall back on columns,
    but who was taught columns leaves out no part of a grid.
    """
    return (*MISTAKES, *(m for m in MISTAKES_OF_METHODS if m.is_made_in(ways)))


def mistake_named(name: str) -> Mistake:
    """The mistake of that name. Raises KeyError when there is none."""
    for mistake in (*MISTAKES, *MISTAKES_OF_METHODS):
        if mistake.name == name:
            return mistake
    raise KeyError(name)
