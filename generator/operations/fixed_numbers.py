"""``first``, ``second``, ``third``: a number of the question that is settled.

Such a condition is counted like any other: the outline of its topic leaves that one number in
its place, and all else that the rung asks is asked of it too.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final, Protocol, Self

from generator.arithmetic.numbers import Number
from generator.operations.rung_values import Found, line_of
from generator.operations.seen import number_at
from generator.operations.topic import Row, row
from specs.languages.saying import joined, say, several
from specs.problems import listed
from specs.shapes import WrittenNumber
from specs.spec import RungSpec
from specs.words import Check, Word

NAMES: Final = ("first", "second", "third")
"""The words, in the order in which numbers are printed."""

MOST_WHOLE_DIGITS: Final = 9
MOST_PLACES: Final = 6
_SHAPE: Final = WrittenNumber(MOST_WHOLE_DIGITS, MOST_PLACES)


class Fixing(Protocol):
    """An outline in which a number can be settled."""

    def fixing(self, at: int, number: Number) -> Self:
        """The outline with number ``at``, from 0 in the order of printing, settled."""


def rows_for(numbers: int, *operations: str) -> tuple[Row, ...]:
    """The conditions that settle one of so many numbers of some operations each."""
    return tuple(
        row(_word(name, operations), _narrow(at), seen=number_at(at))
        for at, name in enumerate(NAMES[:numbers])
    )


def _word(name: str, operations: tuple[str, ...]) -> Word[str]:
    said = _OF_A_DIVISION if operations == ("divide",) else _OF_ANY
    return Word(name, frozenset(operations), _SHAPE, joined((said[name], _ALL_ELSE_TOO)))


_OF_ANY: Final = {
    "first": say("The first number of each question, as it is printed: 3.46."),
    "second": say("The second number of each question, as it is printed: 3.46."),
    "third": say("The third number of each question, as it is printed: 3.46."),
}
_OF_A_DIVISION: Final = {
    "first": say("The first number of each question, the dividend, as it is printed: 3.46."),
    "second": say("The second number of each question, the divisor, as it is printed: 3.46."),
}
_ALL_ELSE_TOO: Final = say("Every other condition holds for it too.")


def _narrow(at: int) -> Callable[[str, Fixing], Fixing]:
    return lambda written, outline: outline.fixing(at, Number.parse(written))


def fixed_in(rung: RungSpec) -> dict[int, Number]:
    """The numbers that a rung settles, by their place from 0."""
    return {
        NAMES.index(condition.word): Number.parse(str(condition.value))
        for condition in rung.conditions
        if condition.word in NAMES
    }


@dataclass(frozen=True, slots=True)
class Usual:
    """How long a number is where a rung's words do not say: what ``word`` would say of it.

    ``of`` measures a number in what ``says`` counts (one, and several of it); ``lengths``
    are those that the number at a place usually has, None where the word says nothing of it.
    """

    word: Word[Any]
    of: Callable[[Number], int]
    says: tuple[str, str]
    lengths: Callable[[RungSpec, int], tuple[int, ...] | None]


def fits_its_rung(numbers_of: Callable[[RungSpec], int], *usual: Usual) -> Check:
    """The check that a settled number is one of the question's, and as long as numbers usually are
    where the rung says nothing of lengths.
    """

    def check(rung: RungSpec) -> Found:
        exist = numbers_of(rung)
        for at, number in fixed_in(rung).items():
            name = NAMES[at]
            if at >= exist:
                what = say(
                    "{word} is given but the question has {exist} numbers", word=name, exist=exist
                )
                yield line_of(rung, name), what, say("leave {word} out", word=name)
                continue
            yield from _unlike_usual(rung, at, number, usual)

    return check


def _unlike_usual(rung: RungSpec, at: int, number: Number, usual: tuple[Usual, ...]) -> Found:
    for one in usual:
        length, lengths = one.of(number), one.lengths(rung, at)
        if lengths is not None and one.word.of(rung) is None and length not in lengths:
            name, word = NAMES[at], one.word.name
            what = say(
                "{name}: {number} has {length}, and numbers have {lengths} where {word} is not "
                "given",
                name=name,
                number=str(number),
                length=several(*one.says, length),
                lengths=listed(map(str, lengths)),
                word=word,
            )
            instead = say("add '{word}:' with lengths that it fits", word=word)
            yield line_of(rung, name), what, instead
