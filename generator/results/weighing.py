"""How much each rung needs to come again, and how many of tomorrow's questions that gives it.

A rung weighs the share of wrong answers on it, plus ``habits`` times the share of the pupils whose
habit gave a wrong answer there. Rungs that weigh a fifth or more are *needed*, and share the
questions in proportion to their weights: of two rungs the heavier never gets fewer. Where no rung
is needed, the next rung on the ladder takes their place. The numbers are common practice, no
source.
"""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from generator.operations.mistakes import Mistake
from generator.results.class_results import ClassResults, PupilResult
from specs.languages.saying import Saying, say, several

NEEDED: Final = Fraction(1, 5)
ANY: Final = Fraction(0)
"""For pupils who only slip: whatever went wrong is looked at again."""

NEXT_RUNG: Final = say("the next rung")
"""Why a rung comes that nobody was asked yet."""


@dataclass(frozen=True, slots=True)
class Choice:
    """So many questions of a rung, and why."""

    rung: str
    count: int
    why: Saying


@dataclass(frozen=True, slots=True)
class Need:
    """How much a rung that was answered needs to come again, and what that rests on."""

    rung: str
    weight: Fraction
    why: Saying


def needs(
    ladder: Sequence[str], results: ClassResults, pupils: Collection[PupilResult], habits: int = 1
) -> tuple[Need, ...]:
    """What the answers of some pupils say of each rung that they tried, in the ladder's order."""
    rung_of = {result.column.name: result.column.item.rung for result in results.questions}
    attempted: Counter[str] = Counter()
    wrong: Counter[str] = Counter()
    for pupil in pupils:
        for name, attempt in pupil.attempts.items():
            attempted[rung_of[name]] += 1
            wrong[rung_of[name]] += not attempt.right
    found = []
    for rung in ladder:
        if not attempted[rung]:
            continue
        with_habit = len(_with_a_habit_on(rung, rung_of, pupils))
        weight = Fraction(wrong[rung], attempted[rung]) + habits * Fraction(with_habit, len(pupils))
        why = say("{wrong} of {attempted} wrong", wrong=wrong[rung], attempted=attempted[rung])
        if with_habit:
            why = several(
                "{some_wrong}, a habit of {count} pupil",
                "{some_wrong}, a habit of {count} pupils",
                with_habit,
                some_wrong=why,
            )
        found.append(Need(rung, weight, why))
    return tuple(found)


def shared_out(
    ladder: Sequence[str], found: Sequence[Need], questions: int, least: Fraction = NEEDED
) -> tuple[Choice, ...]:
    """So many questions for the rungs in need, in the ladder's order.

    ``found`` has a need at least. Those below ``least`` get none, unless no rung is needed and
    the ladder ends with them.
    """
    weights = {need.rung: need.weight for need in found if need.weight and need.weight >= least}
    why = {need.rung: need.why for need in found}
    if not weights:
        last = max(ladder.index(need.rung) for need in found)
        following = ladder[last + 1] if last + 1 < len(ladder) else None
        weights = {following or ladder[last]: Fraction(1)}
        why = dict.fromkeys(weights, NEXT_RUNG if following else say("the last rung"))
    counts = _apportioned(weights, questions)
    return tuple(Choice(rung, counts[rung], why[rung]) for rung in ladder if counts.get(rung))


def _apportioned(weights: Mapping[str, Fraction], seats: int) -> dict[str, int]:
    """So many questions in proportion to weights, by largest remainders; earlier ones first."""
    whole = sum(weights.values())
    exact = {name: seats * weight / whole for name, weight in weights.items()}
    counts = {name: int(share) for name, share in exact.items()}
    by_remainder = sorted(exact, key=lambda name: counts[name] - exact[name])
    for name in by_remainder[: seats - sum(counts.values())]:
        counts[name] += 1
    return counts


def habits_on(
    rung: str, results: ClassResults, pupils: Collection[PupilResult]
) -> tuple[Mistake, ...]:
    """The habits that gave wrong answers on a rung, the most frequent first."""
    rung_of = {result.column.name: result.column.item.rung for result in results.questions}
    shown = _with_a_habit_on(rung, rung_of, pupils)
    counts = Counter(mistake for mistakes in shown.values() for mistake in mistakes)
    return tuple(mistake for mistake, _ in counts.most_common())


def _with_a_habit_on(
    rung: str, rung_of: Mapping[str, str], pupils: Collection[PupilResult]
) -> dict[str, tuple[Mistake, ...]]:
    """The pupils whose habits gave a wrong answer on a rung, each with those habits."""
    found = {}
    for pupil in pupils:
        given = {
            pupil.habit_in(attempt)
            for name, attempt in pupil.attempts.items()
            if rung_of[name] == rung
        }
        shown = tuple(mistake for mistake in pupil.habits if mistake in given)
        if shown:
            found[pupil.pupil] = shown
    return found
