"""What every set of questions can do, whatever its operation: count, fetch, find, match."""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from functools import cached_property
from typing import ClassVar, Generic, Protocol, TypeVar

from generator.allowance import Meter, TooWideError
from generator.arithmetic.questions import Operation, Question
from generator.numbered.seeds import Dice
from generator.numbered.sequences import Parts
from specs.canonical import Plain


class Signature(Protocol):
    """What matched questions share: a frozen, hashable value. Its text goes into ``pack.json``."""

    @property
    def plain(self) -> Plain:
        """All of it as plain data, on which choices hang: its words and their values stay."""

    @property
    def features(self) -> tuple[str, ...]:
        """The signature in words for the teacher's key."""

    @property
    def difficulty(self) -> tuple[int, ...]:
        """How hard a question is beside others of its rung: harder ones compare greater."""

    def __hash__(self) -> int: ...


Shared = TypeVar("Shared", bound=Signature)
"""The signatures of a set's questions."""


class QuestionSet(ABC, Generic[Shared]):
    """An exact set of questions, numbered from 0.

    ``widenings`` says in words what still matches at each step of widening: nothing at
    step 0, where signatures are equal, and ``"same rung only"`` at the last.
    """

    widenings: ClassVar[tuple[str, ...]]

    @property
    @abstractmethod
    def operation(self) -> Operation:
        """The operation of all its questions."""

    @property
    @abstractmethod
    def count(self) -> int:
        """Exactly how many questions there are."""

    @property
    def work(self) -> int:
        """How much work counting has been, in steps of under a millionth of a second."""
        return 0

    def count_within(self, work: int) -> int:
        """As ``count``; raises TooWideError when so much work is not enough.

        It is not enough either where that has been counted before with more.
        """
        return self.count

    @abstractmethod
    def unrank(self, number: int) -> Question:
        """Question ``number``, 0 ≤ number < count; raises IndexError outside that range."""

    def rank(self, question: Question) -> int:
        """The number of a question; raises ValueError when it is not in the set.

        The order of addends or factors does not count.
        """
        found = self._number_of(question) if question.operation is self.operation else None
        if found is None:
            raise ValueError(f"{question.text} is not among these questions")
        return found

    @abstractmethod
    def _number_of(self, question: Question) -> int | None:
        """The number of a question of the set's operation, or None when it is not in the set."""

    def __contains__(self, question: Question) -> bool:
        try:
            self.rank(question)
        except ValueError:
            return False
        return True

    @abstractmethod
    def signature(self, question: Question) -> Shared:
        """The signature of a question of this set."""

    @abstractmethod
    def matching(self, signature: Shared, step: int) -> "QuestionSet[Shared]":
        """The questions of this set that match a signature, at a step of widening."""

    def matches(self, question: Question, signature: Shared, step: int) -> bool:
        """Whether a question of ``matching`` does match, where that set holds others too.

        False only where matching questions are not counted by themselves.
        """
        return True

    def arranged(self, question: Question, dice: Dice) -> Question:
        """The question with its numbers in an order drawn for it, where their order is free."""
        return question

    def as_written(self, question: Question) -> Question:
        """A question of this set with its numbers in the order in which someone wrote them,
        where that order is free; otherwise in the order in which they are printed.
        """
        return self.unrank(self.rank(question))


class PartedQuestions(QuestionSet[Shared]):
    """A set in parts, numbered one part after another.

    A set whose parts take work to count keeps account of it on ``_meter``.
    """

    @cached_property
    def _meter(self) -> Meter:
        return Meter()

    @property
    def work(self) -> int:
        """How much work counting has been."""
        return self._meter.spent

    def count_within(self, work: int) -> int:
        """As ``count``; raises TooWideError when so much work is not enough."""
        self._meter.most = work
        try:
            found = self.count
            self._meter.spend(0)  # it may have been counted before with more
        except TooWideError:
            if "_parts" not in self.__dict__:
                self.__dict__.pop("_meter")  # what was broken off is begun anew
            raise
        return found

    @property
    @abstractmethod
    def _sizes(self) -> Sequence[int]:
        """How many questions each part holds."""

    @abstractmethod
    def _fetched(self, part: int, number: int) -> Question:
        """Question ``number`` of a part, 0 ≤ number < its size."""

    @abstractmethod
    def _found(self, question: Question) -> tuple[int, int] | None:
        """The part that a question is in and its number there, or None when it is in none."""

    @cached_property
    def _parts(self) -> Parts:
        return Parts(self._sizes)

    @property
    def count(self) -> int:
        """Exactly how many questions there are."""
        return self._parts.count

    def unrank(self, number: int) -> Question:
        """Question ``number``, 0 ≤ number < count; raises IndexError outside that range."""
        if not 0 <= number < self.count:
            raise IndexError(f"question {number} of {self.count}")
        return self._fetched(*self._parts.find(number))

    def _number_of(self, question: Question) -> int | None:
        found = self._found(question)
        return None if found is None else self._parts.before(found[0]) + found[1]
