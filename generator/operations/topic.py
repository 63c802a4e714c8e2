"""What an operation is to the house: one value that says all there is to know of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, TypeVar

from generator.arithmetic.questions import Ending, Operation, Question
from generator.numbered.question_sets import QuestionSet
from generator.operations.mistake import Mistake
from generator.operations.working import Conventions, Working
from specs.languages.saying import Saying
from specs.replies import NUMBER
from specs.words import Check, Word

Value = TypeVar("Value")
Outline = TypeVar("Outline")

Method = Callable[[Question, Conventions], Working]
"""Turns a question into frozen steps on squared paper, by the conventions of a school."""


@dataclass(frozen=True, slots=True)
class Row:
    """A condition: its word, its meaning, and the value it has when not mentioned (None: none).

    ``narrow`` takes the value that the word's shape read and an outline of the topic, and gives
    the narrowed outline. ``seen`` says what a question has of it: ``one carry, in the tenths``.
    """

    word: Word[Any]
    narrow: Callable[[Any, Any], Any]
    default: object = None
    seen: Callable[[Question], Saying] | None = None


def row(
    word: Word[Value],
    narrow: Callable[[Value, Outline], Outline],
    default: Value | None = None,
    seen: Callable[[Question], Saying] | None = None,
) -> Row:
    """A row in which ``narrow`` takes what the word's shape makes."""
    return Row(word, narrow, default, seen)


def a_number(question: Question) -> str:
    """What is answered to most questions."""
    return NUMBER


@dataclass(frozen=True, eq=False, slots=True)
class Topic:
    """Questions that are asked, counted, worked and marked alike: a place in the house.

    ``outlines`` has, for each of its operations, what the conditions of a rung start from;
    ``questions`` is the exact set of those that an outline leaves. ``conditions`` apply in
    their order, which is also that of a rung's words. ``checks`` judge a rung's words together.
    ``method`` works a question. ``mistakes`` are its own, the more common before the less
    (common practice, no source), ``mistakes_of_methods`` those of methods that a spec must choose:
    keys name them, and marks are searched for them, where it does. ``minutes`` is how long a
    question takes, ``answer_kind`` what is answered to it (``specs.replies``), ``numbers`` how many
    it has at least and at most.
    ``admitting`` gives words of lengths that a question is on a rung with, and the question as it
    ends there; None where nobody asks.
    ``leaves_out`` says, for people, which questions of an operation are never asked.

    Where several topics have an operation, a rung belongs to the one whose word ``opened_by``
    it uses, or else to the one without; and a question to the one whose ``ending`` it has.
    """

    name: str
    outlines: Mapping[Operation, Any]
    questions: Callable[[Any], QuestionSet[Any]]
    conditions: tuple[Row, ...]
    method: Method
    minutes: Callable[[Question], Fraction]
    numbers: Mapping[Operation, tuple[int, int]]
    mistakes: tuple[Mistake, ...] = ()
    mistakes_of_methods: tuple[Mistake, ...] = ()
    checks: tuple[Check, ...] = ()
    answer_kind: Callable[[Question], str] = a_number
    leaves_out: Mapping[Operation, Saying] = field(default_factory=dict)
    opened_by: str | None = None
    ending: Ending | None = None
    admitting: Callable[[Question], tuple[Question, Mapping[str, object]]] | None = None

    def takes(self, question: Question) -> bool:
        """Whether a question has as many numbers as such questions may have."""
        fewest, most = self.numbers[question.operation]
        return fewest <= len(question.operands) <= most
