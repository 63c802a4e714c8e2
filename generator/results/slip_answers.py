"""What a slip writes: how likely an answer is when someone who meant another one slipped.

Of a hundred slips at numbers so many are of each kind (assumptions, no source; the kinds are
those that handbooks of marking name: a column one out, a fact wrong, digits swapped, the point
misplaced): the counts in ``OF_A_HUNDRED``. A slip of one kind is equally likely to be any of
that kind. ``python -m tests.bench.diagnosis`` tries the whole under slips of other make-ups.
"""

from collections.abc import Collection
from functools import lru_cache
from math import factorial
from typing import Final

from generator.arithmetic.questions import Operation, Question
from specs.replies import Reply

OF_A_HUNDRED: Final = {
    "a digit one out": 40.0,
    "another digit wrong": 18.0,
    "two neighbours swapped": 4.0,
    "the point misplaced": 4.0,
    "a wrong procedure, this once": 6.0,
    "anything else": 28.0,
}
ANYTHING: Final = 60.0
"""Among so many answers is one that no kind of slip accounts for."""

MOST_PLACES: Final = 12
"""Answers with more decimal places are compared by their size alone."""

OPPOSITE: Final = 0.9
"""Of slips at a sign so many write the opposite one, the rest "="."""


def slip_chance(
    question: Question, meant: Reply, written: Reply, procedures: Collection[Reply] = ()
) -> float:
    """The chance that a slip writes this, where that was meant: over all answers about 1.

    ``procedures`` has the wrong answers that known procedures give to the question, each once.
    """
    if question.operation is Operation.COMPARE:
        return OPPOSITE if "=" not in (meant.sign, written.sign) else 1.0 - OPPOSITE
    if question.operation is Operation.ORDER:
        return 1.0 / (factorial(len(question.operands)) - 1)
    shares = OF_A_HUNDRED
    chance = shares["anything else"] / ANYTHING
    if written in procedures:
        chance += shares["a wrong procedure, this once"] / len(procedures)
    kind, of_its_kind = _kind(meant, written)
    if kind:
        chance += shares[kind] / of_its_kind
    return chance / 100.0


def unknown_chance(question: Question, written: Reply, procedures: Collection[Reply] = ()) -> float:
    """The chance of a wrong answer from somebody who follows a procedure that nobody knows."""
    if question.operation in (Operation.COMPARE, Operation.ORDER):
        return 0.5 if question.operation is Operation.COMPARE else _by_chance(question)
    chance = 0.9 / ANYTHING
    return chance + (0.1 / len(procedures) if written in procedures else 0.0)


def _by_chance(question: Question) -> float:
    return 1.0 / (factorial(len(question.operands)) - 1)


@lru_cache(maxsize=1 << 16)
def _kind(meant: Reply, written: Reply) -> tuple[str, int]:
    """The kind of slip that turns one number into another, and how many slips are of it."""
    if meant.left != written.left:
        if meant.value != written.value:
            return "", 1
        return _kind(Reply(meant.left), Reply(written.left))
    if meant.value == written.value:
        return "", 1
    first, second = (number.value * 10**MOST_PLACES for number in (meant, written))
    if first.denominator != 1 or second.denominator != 1 or first < 0 or second < 0:
        return "", 1
    one, other = _significant(int(first), int(second))
    digits = len(str(max(one, other)))
    apart = _bare(abs(one - other))
    if apart == 1:
        return "a digit one out", 2 * digits
    if apart < 10:
        return "another digit wrong", 16 * digits
    if _bare(one) == _bare(other):
        return "the point misplaced", 4
    if apart % 9 == 0 and sorted(str(one)) == sorted(str(other)):
        return "two neighbours swapped", max(digits - 1, 1)
    return "", 1


def _significant(first: int, second: int) -> tuple[int, int]:
    """Two whole numbers without the noughts that both end in."""
    while first % 10 == 0 and second % 10 == 0 and first + second:
        first, second = first // 10, second // 10
    return first, second


def _bare(number: int) -> int:
    """A whole number without the noughts at its end."""
    while number and number % 10 == 0:
        number //= 10
    return number
