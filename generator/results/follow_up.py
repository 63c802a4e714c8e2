"""Tomorrow's starter: questions weighted to what today's marks show.

A rung's weight is the share of wrong answers on it, plus ``habits`` times the share of the
class whose habit gave a wrong answer there. Rungs with a weight of a fifth or more are
*needed*; the starter's questions are shared among them in proportion to their weights. A
part of the questions, ``review``, goes to *older* rungs: those that were marked and are not
needed, earliest on the ladder first. Where no rung is needed, the next rung on the ladder
takes their place. Questions of a needed rung must tell apart the two most frequent habits
that showed on it, as far as the rung allows; what the spec's starter tells apart this one does
too, as far as its rungs allow. The numbers are common practice, no source.
"""

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.mistakes import MISTAKES, Mistake, mistake_named
from generator.operations.tells_apart import NAME, words_of
from generator.packs.building import TooFewQuestionsError, build_pack, passed_over
from generator.packs.pack import Pack
from generator.packs.telling_apart import CannotTellApartError
from generator.results.class_results import ClassResults
from generator.vocabulary import VOCABULARY
from specs.avoided import MOST_AVOIDED
from specs.reading import read_spec
from specs.spec import (
    PLAIN,
    STARTER,
    BySheet,
    Part,
    RungSpec,
    SectionSpec,
    Share,
    Spec,
)
from specs.writing import spec_text

NEEDED: Final = Fraction(1, 5)
MOST_TOLD_APART: Final = 2
SEEDS_TRIED: Final = 8
USUAL_MINUTES: Final = 10
LONGEST_TITLE: Final = 80
FILE: Final = "follow-up.yaml"
_ENDING: Final = ": tomorrow's starter"


@dataclass(frozen=True, slots=True)
class Weighting:
    """How tomorrow's questions are shared out.

    ``review`` is the share for older rungs, from 0 to 1; ``habits`` what a class with one
    habit counts for beside a class with only wrong answers.
    """

    questions: int = 6
    review: Fraction = Fraction(1, 3)
    habits: int = 1


@dataclass(frozen=True, slots=True)
class Choice:
    """So many questions of a rung, and why."""

    rung: str
    count: int
    why: str


@dataclass(frozen=True, slots=True)
class FollowUp:
    """Tomorrow's spec and pack, which the spec and its seed give again.

    ``listed`` is how many questions asked before the spec names, to be avoided, because they
    stood in the pack's way.
    """

    spec: Spec
    pack: Pack
    choices: tuple[Choice, ...]
    listed: int = 0


class TooManyAvoidedError(Exception):
    """More questions stand in the way of a starter than its spec can name."""


class NothingToFollowError(Exception):
    """There is no answer on the mark sheet, so nothing follows from it."""


def follow_up(
    spec: Spec,
    results: ClassResults,
    weighting: Weighting,
    seeds: Sequence[int],
    avoided: Collection[Question],
) -> FollowUp:
    """Tomorrow's starter for a class, with no question among those avoided.

    ``seeds`` are tried in turn for a pack that avoids them by itself; when none does, the
    questions are drawn around them with the first, and the spec names those that stood in the
    way. Raises NothingToFollowError; TooFewQuestionsError when so many questions are avoided
    that too few are left; TooManyAvoidedError when a spec cannot name them all.
    """
    choices = _choices(spec, results, weighting)
    habits = {choice.rung: _habits_on(choice.rung, results) for choice in choices}
    together = _told_apart_together(spec, choices)
    while True:
        wanted = _spec(spec, choices, habits, together)
        try:
            wanted, pack = _drawn(wanted, seeds, avoided)
        except CannotTellApartError as error:
            if error.rung is None:
                together = ()
                continue
            if not habits.get(error.rung.name):
                raise
            habits[error.rung.name] = habits[error.rung.name][:-1]
        else:
            return FollowUp(wanted, pack, choices, len(wanted.avoid) - len(spec.avoid))


def _drawn(spec: Spec, seeds: Sequence[int], avoided: Collection[Question]) -> tuple[Spec, Pack]:
    """The pack of the first seed that avoids the questions, and the spec that gives it."""
    identities = {question.identity for question in avoided}
    for seed in seeds:
        try:
            pack = build_pack(spec, seed)
        except TooFewQuestionsError:
            break
        asked = (item.question for section in pack.sections for item in section.items)
        if not any(question.identity in identities for question in asked):
            return spec, pack
    names = (*spec.avoid, *passed_over(spec, seeds[0], avoided))
    if len(names) > MOST_AVOIDED:
        raise TooManyAvoidedError(
            f"{len(names):,} questions asked before stand in the way, more than the "
            f"{MOST_AVOIDED:,} that a spec can name; give another seed, or name fewer packs"
        )
    around = _read(replace(spec, avoid=names))
    return around, build_pack(around, seeds[0])


def _choices(spec: Spec, results: ClassResults, weighting: Weighting) -> tuple[Choice, ...]:
    """How many questions of each rung, in the ladder's order."""
    ladder = [rung.name for rung in spec.ladder]
    known = [rung for rung in results.rungs if rung.attempted and rung.rung in ladder]
    if not known:
        raise NothingToFollowError("no question of the ladder has an answer yet")
    weights = {}
    reasons = {}
    pupils = len(results.marked)
    for rung in known:
        wrong = rung.attempted - rung.right
        with_habit = sum(_habit_counts(rung.rung, results).values())
        weights[rung.rung] = Fraction(wrong, rung.attempted) + weighting.habits * Fraction(
            with_habit, pupils
        )
        reasons[rung.rung] = f"{wrong} of {rung.attempted} wrong" + (
            f", a habit of {with_habit} pupil{'' if with_habit == 1 else 's'}" if with_habit else ""
        )
    needed = {name: weight for name, weight in weights.items() if weight >= NEEDED}
    older = [name for name in ladder if name in weights and name not in needed]
    if not needed:
        following = [name for name in ladder[ladder.index(older[-1]) + 1 :] if name not in weights]
        name = following[0] if following else older[-1]
        needed = {name: Fraction(1)}
        reasons[name] = "the next rung" if following else "the last rung of the ladder"
        older = [other for other in older if other != name]
    share = weighting.review * weighting.questions + Fraction(1, 2)  # a half goes up
    review = min(share.numerator // share.denominator, weighting.questions - 1)
    review = review if older else 0
    counts = Counter(_apportioned(needed, weighting.questions - review))
    reasons |= {name: f"to keep it up: {reasons[name]}" for name in older}
    for at in range(review):
        counts[older[at % len(older)]] += 1
    return tuple(Choice(name, counts[name], reasons[name]) for name in ladder if counts[name])


def _apportioned(weights: dict[str, Fraction], seats: int) -> dict[str, int]:
    """So many questions in proportion to weights, by largest remainders; earlier ones first."""
    whole = sum(weights.values())
    exact = {name: seats * weight / whole for name, weight in weights.items()}
    counts = {name: int(share) for name, share in exact.items()}
    by_remainder = sorted(exact, key=lambda name: counts[name] - exact[name])
    for name in by_remainder[: seats - sum(counts.values())]:
        counts[name] += 1
    return counts


def _habit_counts(rung: str, results: ClassResults) -> Counter[Mistake]:
    """The habits that gave wrong answers on a rung, and how many pupils have each."""
    columns = {
        result.column.name for result in results.questions if result.column.item.rung == rung
    }
    found: Counter[Mistake] = Counter()
    for pupil in results.marked:
        mistake = pupil.finding.mistake
        attempts = [attempt for name, attempt in pupil.attempts.items() if name in columns]
        if mistake and any(
            not attempt.right and mistake.wrong_answer(attempt.question) in attempt.replies
            for attempt in attempts
        ):
            found[mistake] += 1
    return found


def _habits_on(rung: str, results: ClassResults) -> tuple[Mistake, ...]:
    """The most frequent habits on a rung, which its questions are to tell apart."""
    return tuple(
        mistake for mistake, _ in _habit_counts(rung, results).most_common(MOST_TOLD_APART)
    )


def _told_apart_together(spec: Spec, choices: tuple[Choice, ...]) -> tuple[str, ...]:
    """The mistakes that the starter tells apart and that go with rungs of tomorrow's."""
    starter = spec.first(STARTER)
    if starter is None:
        return ()
    plain = [rung for choice in choices if (rung := spec.rung(choice.rung)).form == PLAIN]
    operations = {Operation(rung.operation) for rung in plain}
    return tuple(
        name for name in starter.tells_apart if operations & mistake_named(name).operations
    )


def _spec(
    spec: Spec,
    choices: tuple[Choice, ...],
    habits: dict[str, tuple[Mistake, ...]],
    together: tuple[str, ...],
) -> Spec:
    """Tomorrow's spec: the whole ladder, and a starter of the questions chosen."""
    starter = spec.first(STARTER)
    minutes = starter.minutes if starter else USUAL_MINUTES
    frames = starter.frames if starter else None
    shares = tuple(Share(choice.rung, choice.count) for choice in choices)
    title = spec.title.removesuffix(_ENDING)[: LONGEST_TITLE - len(_ENDING)].rstrip()
    wanted = replace(
        spec,
        title=title + _ENDING,
        ladder=tuple(_rung(rung, habits.get(rung.name, ())) for rung in spec.ladder),
        parts=(Part(STARTER, SectionSpec(STARTER, shares, minutes, frames, tells_apart=together)),),
        versions=BySheet(),
        keep=(),
    )
    return _read(wanted)


def _read(wanted: Spec) -> Spec:
    """A spec as it reads when it has been written out."""
    return read_spec(spec_text(wanted).encode(), FILE, VOCABULARY)


def _rung(rung: RungSpec, habits: tuple[Mistake, ...]) -> RungSpec:
    """A rung whose questions tell some habits apart, where they show in its answers.

    As it is where its spec asks for that already.
    """
    names = tuple(mistake.name for mistake in MISTAKES if mistake in habits)
    asked_already = any(condition.word == NAME for condition in rung.conditions)
    if not names or asked_already or rung.form != PLAIN:
        return rung
    (word,) = (word for word in words_of(MISTAKES) if rung.operation in word.operations)
    return replace(rung, conditions=(*rung.conditions, word.condition(names)))
