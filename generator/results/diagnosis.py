"""What one pupil's answers say: secure, slips, a habit, or not enough to say.

The rule, in this order:

1. Fewer than four answers: not enough to say.
2. None wrong: secure.
3. A *habit* is a procedure that gave at least three of the pupil's wrong answers, at
   least three quarters of the answers to questions on which it would show, and at least
   half of the wrong answers to questions of its kind. Of several, the one that agrees with most
   of the pupil's answers, right ones too. Where two agree equally well they are one
   finding when the same follow-up helps both, or when one is the other with a second
   mistake added that never showed; two habits in different answers are both real, and the
   one with more answers is named. Otherwise: not enough to say.
4. Two or more wrong answers point at one procedure, but too few for a habit: not enough
   to say.
5. At least four fifths right: slips.
6. Otherwise not enough to say.

The numbers are common practice, no source; ``python -m tests.bench.diagnosis`` shows how
often the rule is right, wrong and silent.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from typing import Final

from generator.arithmetic.questions import Question
from generator.operations.mistakes import MISTAKES, Mistake, agree, is_right
from specs.replies import Reply

FEWEST_ANSWERS: Final = 4
HABIT_ANSWERS: Final = 3
HABIT_SHARE: Final = Fraction(3, 4)
HABIT_OF_WRONG: Final = Fraction(1, 2)
SUSPICIOUS: Final = 2
SLIPS_SHARE: Final = Fraction(4, 5)


class Kind(StrEnum):
    """What is found about a pupil."""

    SECURE = "secure"
    SLIPS = "slips"
    HABIT = "habit"
    NOT_ENOUGH = "not enough to say"


@dataclass(frozen=True, slots=True)
class Attempt:
    """A pupil's answer to a question.

    ``replies`` are the ways to read what was written, none where only a tick or a cross
    was noted. ``worked`` says that what was asked for is the question's own answer: only
    then can a wrong procedure be recognised by what it gives.
    """

    question: Question
    right: bool
    replies: tuple[Reply, ...] = ()
    worked: bool = True
    rung: str = ""
    weight: Fraction = Fraction(1)

    @classmethod
    def answered(cls, question: Question, replies: tuple[Reply, ...]) -> "Attempt":
        """The attempt that an answer makes."""
        return cls(question, any(is_right(question, given) for given in replies), replies)

    @property
    def is_known(self) -> bool:
        """Whether it is known what the pupil answered to the question as it stands."""
        return self.worked and (self.right or bool(self.replies))


@dataclass(frozen=True, slots=True)
class Finding:
    """What a pupil's answers say.

    ``explained`` of the wrong answers are the mistake's, which would have shown ``shows``
    times. ``also`` are other mistakes: for a habit those that fit as well, or a second
    habit; where there is not enough to say, those that the answers point at.
    """

    kind: Kind
    mistake: Mistake | None = None
    explained: int = 0
    shows: int = 0
    also: tuple[Mistake, ...] = ()


@dataclass(frozen=True, slots=True)
class _Fit:
    """How well a mistake fits a pupil's answers."""

    mistake: Mistake
    explained: frozenset[int]
    shows: int
    agrees: int
    wrong_of_its_kind: int

    @property
    def is_steady(self) -> bool:
        return self.shows > 0 and len(self.explained) >= HABIT_SHARE * self.shows

    @property
    def is_habit(self) -> bool:
        return (
            self.is_steady
            and len(self.explained) >= HABIT_ANSWERS
            and len(self.explained) >= HABIT_OF_WRONG * self.wrong_of_its_kind
        )


def diagnose(attempts: Sequence[Attempt]) -> Finding:
    """What a pupil's answers say, by the rule at the head of this module."""
    if len(attempts) < FEWEST_ANSWERS:
        return Finding(Kind.NOT_ENOUGH)
    right = sum(attempt.right for attempt in attempts)
    if right == len(attempts):
        return Finding(Kind.SECURE)
    fits = [_fit(mistake, attempts) for mistake in MISTAKES]
    habits = [fit for fit in fits if fit.is_habit]
    if habits:
        return _habit(habits)
    pointing = [fit for fit in fits if fit.is_steady and len(fit.explained) >= SUSPICIOUS]
    if pointing:
        return Finding(Kind.NOT_ENOUGH, also=tuple(fit.mistake for fit in pointing))
    if right >= SLIPS_SHARE * len(attempts):
        return Finding(Kind.SLIPS)
    return Finding(Kind.NOT_ENOUGH)


@lru_cache(maxsize=1 << 16)
def _wrong_answer(mistake: Mistake, question: Question) -> Reply | None:
    return mistake.wrong_answer(question)


def _fit(mistake: Mistake, attempts: Sequence[Attempt]) -> _Fit:
    explained, shows, agrees, wrong = set(), 0, 0, 0
    for at, attempt in enumerate(attempts):
        if not attempt.is_known:
            continue
        concerns = mistake.concerns(attempt.question)
        wrong += concerns and not attempt.right
        expected = _wrong_answer(mistake, attempt.question) if concerns else None
        if expected is None:
            agrees += attempt.right
            continue
        shows += 1
        given = any(agree(attempt.question, expected, reply) for reply in attempt.replies)
        if given and not attempt.right:
            explained.add(at)
            agrees += 1
    return _Fit(mistake, frozenset(explained), shows, agrees, wrong)


def _habit(habits: list[_Fit]) -> Finding:
    most = max(fit.agrees for fit in habits)
    best, *rivals = [fit for fit in habits if fit.agrees == most]
    also = []
    for rival in rivals:
        one_finding = (
            rival.mistake.follow_up == best.mistake.follow_up
            or rival.mistake.together
            or not rival.explained & best.explained
        )
        if not one_finding:
            return Finding(Kind.NOT_ENOUGH, also=(best.mistake, *(r.mistake for r in rivals)))
        if not rival.mistake.together:
            also.append(rival.mistake)
    also += [
        fit.mistake for fit in habits if fit.agrees < most and not fit.explained & best.explained
    ]
    return Finding(Kind.HABIT, best.mistake, len(best.explained), best.shows, tuple(also))
