"""What a question has, in words that stand behind ``it has``."""

from collections.abc import Callable, Sequence
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from specs.languages.saying import Saying, counted, say, several
from specs.problems import listed


def many(count: int, none: Saying, some: tuple[str, str]) -> Saying:
    """``no carries``, ``one carry``, ``2 carries``."""
    return several(*some, count) if count else none


def numbers_in(
    question: Question,
    of: Callable[[Number], int],
    none: Saying,
    alike: tuple[str, str],
    in_turn: Callable[[str], Saying],
) -> Saying:
    """``2 and 1 decimal places``: what each number has in turn, or all alike."""
    found = [of(number) for number in question.operands]
    if len(set(found)) == 1:
        return many(found[0], none, alike)
    return in_turn(listed(map(str, found), "and"))


def decimal_places(question: Question) -> Saying:
    """``2, 1 and 2 decimal places``."""
    return numbers_in(
        question,
        lambda number: number.places,
        say("no decimal places in each number"),
        counted("one decimal place in each number", "{count} decimal places in each number"),
        lambda found: say("{found} decimal places", found=found),
    )


def noughts_in(inside: Sequence[Number], end: Sequence[Number]) -> Saying:
    """``a nought inside 3.05 and a nought at the end of 2.50 and 40``: there are some."""
    if not end:
        return say("a nought inside {numbers}", numbers=listed(map(str, inside), "and"))
    if not inside:
        return say("a nought at the end of {numbers}", numbers=listed(map(str, end), "and"))
    return say(
        "a nought inside {numbers} and a nought at the end of {others}",
        numbers=listed(map(str, inside), "and"),
        others=listed(map(str, end), "and"),
    )


def answer(question: Question) -> Saying:
    """``the answer 5.41``."""
    return say("the answer {answer}", answer=str(question.answer))


_AS: Final[tuple[Callable[[Number], Saying], ...]] = (
    lambda number: say("{number} as its first number", number=number),
    lambda number: say("{number} as its second number", number=number),
    lambda number: say("{number} as its third number", number=number),
)


def number_at(at: int) -> Callable[[Question], Saying]:
    """``3.46`` as the number that stands there."""

    def seen(question: Question) -> Saying:
        numbers = question.operands
        return _AS[at](numbers[at]) if at < len(numbers) else say("too few numbers")

    return seen
