"""Which words of written calculation the questions of a sheet need: its key words.

Common practice, no source: the words for what is to be done, for its result, and for the places
that its numbers have.
"""

from collections.abc import Iterable, Iterator
from typing import Final

from generator.arithmetic.questions import Ending, Operation, Question
from specs.languages.saying import Saying, say_of

_DONE: Final = {
    Operation.ADD: (
        say_of("key word", "add"),
        say_of("key word", "sum"),
        say_of("key word", "carry"),
    ),
    Operation.SUBTRACT: (
        say_of("key word", "subtract"),
        say_of("key word", "difference"),
        say_of("key word", "exchange"),
    ),
    Operation.MULTIPLY: (say_of("key word", "multiply"), say_of("key word", "product")),
    Operation.DIVIDE: (say_of("key word", "divide"),),
    Operation.ORDER: (
        say_of("key word", "put in order"),
        say_of("key word", "smallest"),
        say_of("key word", "greatest"),
    ),
    Operation.COMPARE: (
        say_of("key word", "compare"),
        say_of("key word", "less than"),
        say_of("key word", "greater than"),
    ),
    Operation.ROUND: (say_of("key word", "round"),),
}
_REMAINDER: Final = say_of("key word", "remainder")
_ESTIMATE: Final = say_of("key word", "estimate")
_ANSWER: Final = say_of("key word", "answer")
_POINT: Final = say_of("key word", "decimal point")
_PLACES: Final = (
    say_of("key word", "tenths"),
    say_of("key word", "hundredths"),
    say_of("key word", "thousandths"),
)

EVERY: Final = (
    *(word for words in _DONE.values() for word in words),
    *(_REMAINDER, _ESTIMATE, _ANSWER, _POINT),
    *_PLACES,
)
"""All key words that a sheet may have."""


def key_words_of(questions: Iterable[Question], *, estimated: bool) -> tuple[Saying, ...]:
    """The key words of some questions, in the order in which a lesson needs them."""
    return tuple(dict.fromkeys(_needed(tuple(questions), estimated)))


def _needed(questions: tuple[Question, ...], estimated: bool) -> Iterator[Saying]:
    there = {question.operation for question in questions}
    for operation, words in _DONE.items():
        if operation in there:
            yield from words
    if any(question.ending in (Ending.REMAINDER, Ending.FRACTION) for question in questions):
        yield _REMAINDER
    if estimated:
        yield _ESTIMATE
    if any(operation.is_calculation for operation in there):
        yield _ANSWER
    places = max((n.places for question in questions for n in question.operands), default=0)
    if places:
        yield _POINT
    yield from _PLACES[:places]
