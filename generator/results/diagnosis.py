"""What one pupil's answers say: a habit, not there yet, secure, slips, or not enough to say.

It is read off the ``posterior``, in this order:

1. Fewer than four answers: not enough to say.
2. A *habit* is a procedure, or several that nothing asked tells apart or that are mended by the
   same follow-up, likelier than nine in ten, of which at least one wrong answer was written. There
   may be several: one in additions and another in subtractions, say.
3. *Not there yet* on some rung: less than half of its questions are within reach, by right and
   wrong alone (``rung_level``).
4. None wrong: *secure*.
5. A procedure as likely as one in four, or work of a kind that nobody knows: not enough to say.
   So are wrong answers that are more than a fifth of all.
6. Otherwise *slips*.

The thresholds are common practice, no source; ``python -m tests.bench.diagnosis`` shows how often
what is said is right, and whether what is said with nine in ten is right nine times of ten.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import Final

from generator.operations.mistakes import Mistake, agree
from generator.results.attempts import Attempt
from generator.results.how_sure import how_sure
from generator.results.posterior import (
    Evidence,
    FieldPosterior,
    Possible,
    Posterior,
    class_priors,
    evidence_of,
    posterior,
)
from generator.results.pupil_model import added, answers_by_procedure, field_of
from generator.results.rung_level import NOT_THERE_FROM, PERHAPS_FROM, SECURE_FROM, by_rung, level
from specs.languages.saying import Saying, say

FEWEST_ANSWERS: Final = 4
NAMED_FROM: Final = 0.9
"""How likely a habit must be to be named."""

POINTS_FROM: Final = 0.25
"""How likely a procedure must be for answers to point at it."""

HARDLY: Final = 0.05
"""A procedure less likely than this is not mentioned beside another."""

SLIPS_SHARE: Final = Fraction(4, 5)


class Kind(StrEnum):
    """What is found about a pupil."""

    SECURE = "secure"
    SLIPS = "slips"
    HABIT = "habit"
    NOT_THERE = "not there yet"
    NOT_ENOUGH = "not enough to say"

    @property
    def said(self) -> Saying:
        """The finding as pages say it."""
        return _FINDINGS[self]


_FINDINGS: Final = {
    Kind.SECURE: say("secure"),
    Kind.SLIPS: say("slips"),
    Kind.HABIT: say("habit"),
    Kind.NOT_THERE: say("not there yet"),
    Kind.NOT_ENOUGH: say("not enough to say"),
}


@dataclass(frozen=True, slots=True)
class Habit:
    """A wrong procedure that a pupil follows, and how sure that is.

    ``mistakes`` are its names: several where nothing asked tells them apart, or where the same
    follow-up mends them, the likelier first. ``sure`` is the chance that the pupil follows one of
    them. In the ``fields`` where it was seen they would have shown ``shows`` times, and gave
    ``explained`` of the written wrong answers.
    """

    mistakes: tuple[Mistake, ...]
    sure: float
    explained: int
    shows: int
    fields: tuple[str, ...]

    @property
    def mistake(self) -> Mistake:
        """The likeliest."""
        return self.mistakes[0]

    @property
    def also(self) -> tuple[Mistake, ...]:
        """The others that it may be."""
        return self.mistakes[1:]

    @property
    def how_sure(self) -> Saying:
        """How sure it is, in words: ``9 in 10``."""
        return how_sure(self.sure)


@dataclass(frozen=True, slots=True)
class Finding:
    """What a pupil's answers say.

    ``sure`` is the chance that what is said is so, 0 where there is not enough to say. ``habits``
    has all that the pupil has, the one that explains most first; ``mistake``, ``explained``,
    ``shows`` and ``also``, the other names that it may have, are the first one's. Where there
    is not enough to say, ``also`` has the procedures that the answers point at.

    ``not_there``, ``perhaps_not_there`` and ``secure_on`` name rungs (operations where an attempt
    has no rung); the second says what two crosses in a row allow. ``unknown`` names fields, such as
    divisions, where wrong answers seem to come from a way of working that is not known here.
    """

    kind: Kind
    mistake: Mistake | None = None
    explained: int = 0
    shows: int = 0
    also: tuple[Mistake, ...] = ()
    sure: float = 0.0
    habits: tuple[Habit, ...] = ()
    not_there: tuple[str, ...] = ()
    perhaps_not_there: tuple[str, ...] = ()
    secure_on: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()

    @property
    def how_sure(self) -> Saying:
        """How sure it is, in words: ``9 in 10``; NOTHING where there is not enough to say."""
        return how_sure(self.sure)


def diagnose(attempts: Sequence[Attempt]) -> Finding:
    """What a pupil's answers say by themselves."""
    return found(attempts, posterior(evidence_of(attempts)))


@dataclass(frozen=True, slots=True)
class Diagnosed:
    """A pupil's finding, and the posterior behind it."""

    finding: Finding
    posterior: Posterior


def diagnose_class(pupils: Sequence[Sequence[Attempt]]) -> tuple[Diagnosed, ...]:
    """What each pupil's answers say, with how common a habit is learnt from the rest of the class.

    From ``CLASS_FROM`` pupils on: a habit that three certainly have is likelier in a fourth.
    """
    evidence: list[Evidence] = [evidence_of(attempts) for attempts in pupils]
    first = [posterior(of_pupil) for of_pupil in evidence]
    answered = [one for one in first if one.fields]
    learnt = iter(class_priors(answered))
    known = [
        posterior(e, next(learnt)) if p.fields else p for e, p in zip(evidence, first, strict=True)
    ]
    return tuple(
        Diagnosed(found(attempts, of_pupil), of_pupil)
        for attempts, of_pupil in zip(pupils, known, strict=True)
    )


def found(attempts: Sequence[Attempt], of_pupil: Posterior) -> Finding:
    """The finding that a posterior allows, by the order at the head of this module."""
    levels = by_rung(attempts)
    unknown = tuple(f.field for f in of_pupil.fields if f.something_else >= 1.0 - POINTS_FROM)
    not_there = tuple(rung for rung, at in levels.items() if at.not_there >= NOT_THERE_FROM)
    habits = _habits(attempts, of_pupil) if len(attempts) >= FEWEST_ANSWERS else ()
    if habits:
        first = habits[0]
        said = Finding(
            Kind.HABIT,
            first.mistake,
            first.explained,
            first.shows,
            first.also,
            first.sure,
            habits,
        )
    else:
        kind, sure, pointing = _otherwise(attempts, of_pupil, not_there)
        if kind is Kind.NOT_THERE:
            sure = min(levels[rung].not_there for rung in not_there)
        said = Finding(kind, also=pointing, sure=sure)
    return replace(
        said,
        not_there=not_there,
        perhaps_not_there=tuple(
            rung for rung, at in levels.items() if PERHAPS_FROM <= at.not_there < NOT_THERE_FROM
        ),
        secure_on=tuple(rung for rung, at in levels.items() if at.secure >= SECURE_FROM),
        unknown=unknown,
    )


def _otherwise(
    attempts: Sequence[Attempt], of_pupil: Posterior, not_there: Sequence[str]
) -> tuple[Kind, float, tuple[Mistake, ...]]:
    """What is to be said where no habit is: the kind, how sure, and what answers point at."""
    pointing = tuple(
        mistake
        for field in of_pupil.fields
        for possible in field.possible
        if possible.explained and possible.chance >= POINTS_FROM
        for mistake in possible.mistakes
    )
    pointing = tuple(dict.fromkeys(pointing))
    right = sum(attempt.right for attempt in attempts)
    if len(attempts) < FEWEST_ANSWERS:
        return Kind.NOT_ENOUGH, 0.0, pointing
    if not_there:
        return Kind.NOT_THERE, 0.0, pointing
    if right == len(attempts):
        return Kind.SECURE, level(attempts).secure, ()
    if pointing or right < SLIPS_SHARE * len(attempts) or of_pupil.no_habit < 1.0 - POINTS_FROM:
        return Kind.NOT_ENOUGH, 0.0, pointing
    return Kind.SLIPS, of_pupil.no_habit, ()


# Habits


def _habits(attempts: Sequence[Attempt], of_pupil: Posterior) -> tuple[Habit, ...]:
    """The habits of all fields, the one that explains most answers first."""
    merged: list[tuple[tuple[Mistake, ...], float]] = []
    for field in of_pupil.fields:
        for mistakes, sure in _named(field):
            for at, (others, surer) in enumerate(merged):
                common = tuple(mistake for mistake in others if mistake in mistakes)
                if common:  # one habit, seen in two fields
                    merged[at] = common, max(sure, surer)
                    break
            else:
                merged.append((mistakes, sure))
    habits = [_habit(mistakes, sure, attempts, of_pupil) for mistakes, sure in merged]
    habits.sort(key=lambda habit: -habit.explained)
    return tuple(habits)


def _named(field: FieldPosterior) -> Iterator[tuple[tuple[Mistake, ...], float]]:
    """The procedures likely enough to be named in a field, and how likely each is."""
    seen = [possible for possible in field.possible if possible.explained]
    certain = [possible for possible in seen if possible.chance >= NAMED_FROM]
    for possible in certain:
        yield possible.mistakes, possible.chance
    by_follow_up: dict[str, list[Possible]] = {}
    for possible in seen:
        if possible not in certain and possible.chance >= HARDLY:
            by_follow_up.setdefault(possible.mistakes[0].follow_up, []).append(possible)
    for mended_alike in by_follow_up.values():
        together = added(possible.chance for possible in mended_alike)
        if together >= NAMED_FROM:
            names = (mistake for possible in mended_alike for mistake in possible.mistakes)
            yield tuple(names), min(together, 1.0)


def _habit(
    mistakes: tuple[Mistake, ...], sure: float, attempts: Sequence[Attempt], of_pupil: Posterior
) -> Habit:
    fields = tuple(
        field.field
        for field in of_pupil.fields
        if added(p.chance for p in field.possible if set(p.mistakes) & set(mistakes)) >= 0.5
    )
    concerned = [a for a in attempts if a.worked and field_of(a.question) in fields]
    of_these = [(a, answers_by_procedure(a.question, a.ways)) for a in concerned]
    explained = shows = 0
    for attempt, wrong in of_these:
        given = [wrong[mistake] for mistake in mistakes if mistake in wrong]
        shows += bool(given) and attempt.is_known
        explained += not attempt.right and any(
            agree(attempt.question, one, reply) for one in given for reply in attempt.replies
        )
    return Habit(mistakes, sure, explained, shows, fields)
