"""How what a question has is counted in words."""

from collections.abc import Callable

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from specs.problems import listed


def many(count: int, one: str, more: str) -> str:
    """``no carries``, ``one carry``, ``2 carries``."""
    return f"no {more}" if not count else f"one {one}" if count == 1 else f"{count} {more}"


def numbers_in(question: Question, of: Callable[[Number], int], one: str, after: str = "") -> str:
    """``2 and 1 decimal places``: what each number has, or all alike."""
    found = [of(number) for number in question.operands]
    if len(set(found)) == 1:
        each = "digits" if one == "digit" else f"{one}s"
        return f"{many(found[0], one, each)}{after} in each number"
    return f"{listed(map(str, found), 'and')} {one}s{after}"


def number_at(at: int) -> Callable[[Question], str]:
    """``3.46`` as the number that stands there."""
    names = ("first", "second", "third")

    def seen(question: Question) -> str:
        numbers = question.operands
        return (
            f"{numbers[at]} as its {names[at]} number" if at < len(numbers) else "too few numbers"
        )

    return seen
