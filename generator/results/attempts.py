"""A pupil's answer to a question: what everything that is said of a pupil rests on."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Question
from generator.operations.mistakes import NO_WAYS, is_right
from specs.replies import Reply

FULL: Final = Fraction(1)


@dataclass(frozen=True, slots=True)
class Attempt:
    """A pupil's answer to a question.

    ``replies`` are the ways to read what was written, none where only a tick or a cross
    was noted. ``worked`` says that what was asked for is the question's own answer: only
    then can a wrong procedure be recognised by what it gives. ``rung`` is the question's rung,
    "" where there is none. ``weight``, above 0 and at most 1, is the chance that the pupil
    still works as when this was answered: 1 today, less for answers of weeks ago. ``ways`` are the
    methods taught for it that have mistakes of their own, such as the grid.
    """

    question: Question
    right: bool
    replies: tuple[Reply, ...] = ()
    worked: bool = True
    rung: str = ""
    weight: Fraction = FULL
    ways: frozenset[str] = NO_WAYS

    @classmethod
    def answered(
        cls, question: Question, replies: tuple[Reply, ...], ways: frozenset[str] = NO_WAYS
    ) -> "Attempt":
        """The attempt that an answer makes."""
        right = any(is_right(question, given) for given in replies)
        return cls(question, right, replies, ways=ways)

    @property
    def is_known(self) -> bool:
        """Whether it is known what the pupil answered to the question as it stands."""
        return self.worked and (self.right or bool(self.replies))
