"""What would settle it: the fewest further questions that part the ways a pupil may be working.

Where answers point at a procedure and no more, or at several that ask for different teaching,
questions are picked one after another (greedily): each time the one after which, on average over
what the pupil may be doing and with answers that fit that, the model is surest of it. It is
settled when, whichever it is, its chance would reach nine in ten; more than ``MOST_MORE`` are not
asked for, of those that are asked anyway as many as there are.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from generator.arithmetic.questions import Question
from generator.operations.mistakes import Mistake, right_reply, with_mistakes_of_their_own
from generator.results.attempts import Attempt
from generator.results.diagnosis import HARDLY, NAMED_FROM
from generator.results.posterior import FieldPosterior, Posterior
from generator.results.pupil_model import (
    PUBLISHED,
    SLIPS,
    STEADY,
    added,
    chances,
    field_of,
    over_grid,
    predicted,
)
from specs.replies import Reply

MOST_MORE: Final = 4
_ALIKE_KEPT: Final = 2
"""So many questions that part the ways in the same manner are looked at."""

Way = Mistake | None
"""A procedure, or careful work."""


@dataclass(frozen=True, slots=True)
class _Open:
    """What a pupil may be doing in a field, and how likely each is."""

    field: str
    ways: tuple[Way, ...]
    chances: tuple[float, ...]


def settling(
    of_pupil: Posterior, pool: Sequence[Question], most: int = MOST_MORE
) -> tuple[Question, ...] | None:
    """The questions of a pool, at most so many of each field, that would settle what a pupil does.

    () where nothing is open: no procedure is likelier than one in twenty, or what is likely is
    mended alike. None where something is and the pool does not settle it.
    """
    picked: list[Question] = []
    for field in of_pupil.fields:
        is_open = _open(field)
        if is_open is None:
            continue
        more = _settle(is_open, _different(is_open, pool, most), most)
        if more is None:
            return None
        picked += more
    return tuple(picked)


def in_question(of_pupil: Posterior) -> tuple[Mistake, ...]:
    """The procedures that a pupil may be following where that is open, the likelier first."""
    found: dict[Mistake, float] = {}
    for is_open in filter(None, map(_open, of_pupil.fields)):
        for way, chance in zip(is_open.ways, is_open.chances, strict=True):
            if way is not None:
                found[way] = max(chance, found.get(way, 0.0))
    return tuple(sorted(found, key=lambda way: -found[way]))


def _open(field: FieldPosterior) -> _Open | None:
    """What is open in a field; None where nothing is."""
    ways: list[Way] = []
    likely: list[float] = []
    for possible in field.possible:
        if not possible.explained:
            continue
        whole = added(PUBLISHED.share(mistake) for mistake in possible.mistakes)
        for mistake in possible.mistakes:
            chance = possible.chance * PUBLISHED.share(mistake) / whole
            if chance >= HARDLY:
                ways.append(mistake)
                likely.append(chance)
    if not ways:
        return None
    if field.careful >= HARDLY:
        ways.append(None)
        likely.append(field.careful)
    whole = added(likely)
    by_follow_up: dict[str | None, float] = {}
    for way, chance in zip(ways, likely, strict=True):
        mended_by = way.follow_up if way else None
        by_follow_up[mended_by] = by_follow_up.get(mended_by, 0.0) + chance
    if max(by_follow_up.values()) >= NAMED_FROM:
        return None
    return _Open(field.field, tuple(ways), tuple(chance / whole for chance in likely))


def _different(is_open: _Open, pool: Iterable[Question], most: int) -> list[Question]:
    """The questions of a field that part its ways: a few of each manner of parting them, or as
    many as may be taken where that is more than usual.
    """
    alike = _ALIKE_KEPT if most <= MOST_MORE else most
    found: dict[tuple[int, ...], list[Question]] = {}
    for question in pool:
        if field_of(question) != is_open.field:
            continue
        answers = [_answer(question, way) for way in is_open.ways]
        manner = tuple(answers.index(answer) for answer in answers)
        kept = found.setdefault(manner, [])
        if any(manner) and len(kept) < alike and question not in kept:
            kept.append(question)
    return [question for kept in found.values() for question in kept]


def _settle(is_open: _Open, pool: Sequence[Question], most: int) -> list[Question] | None:
    """The greedy choice; None where so many do not settle it."""
    # by what the pupil does: how likely each way then is, when answers fit that
    seen = dict.fromkeys(is_open.ways, is_open.chances)
    picked: list[Question] = []
    while not all(_is_settled(is_open, seen[way], way) for way in is_open.ways):
        left = [question for question in pool if question not in picked]
        if len(picked) == most or not left:
            return None
        tried = [
            {way: _after(is_open, seen[way], question, way) for way in seen} for question in left
        ]
        sureness = [
            added(
                chance * _mended_alike(is_open, after[way], way)
                for way, chance in zip(is_open.ways, is_open.chances, strict=True)
            )
            for after in tried
        ]
        best = sureness.index(max(sureness))
        picked.append(left[best])
        seen = tried[best]
    return picked


def _is_settled(is_open: _Open, likely: Sequence[float], way: Way) -> bool:
    return _mended_alike(is_open, likely, way) >= NAMED_FROM


def _mended_alike(is_open: _Open, likely: Sequence[float], way: Way) -> float:
    """The chance of the ways that the same follow-up mends."""
    return added(_of_the_same(is_open, likely, way))


def _of_the_same(is_open: _Open, likely: Sequence[float], way: Way) -> Iterator[float]:
    for other, chance in zip(is_open.ways, likely, strict=True):
        if other is way or (way and other and way.follow_up == other.follow_up):
            yield chance


def _after(
    is_open: _Open, likely: Sequence[float], question: Question, way: Way
) -> tuple[float, ...]:
    """How likely each way is when a question has been answered as one of them has it."""
    answer = _answer(question, way)
    masses = [
        chance * _chance(question, answer, other)
        for chance, other in zip(likely, is_open.ways, strict=True)
    ]
    whole = added(masses)
    return tuple(mass / whole for mass in masses)


def _answer(question: Question, way: Way) -> Reply:
    expected = predicted(question, (way,) if way else (), _taught(way))
    return expected[0] if expected else right_reply(question)


def _taught(way: Way) -> frozenset[str]:
    """The methods that have a procedure for their own."""
    return with_mistakes_of_their_own(way.ways if way else ())


@lru_cache(maxsize=1 << 12)
def _chance(question: Question, answer: Reply, way: Way) -> float:
    """The chance of an answer from somebody who works in that way, whoever it is."""
    attempt = Attempt.answered(question, (answer,), _taught(way))
    expected = predicted(question, (way,) if way else (), _taught(way))
    by_slips = over_grid(chances(attempt, expected), STEADY)
    return added(chance * share for chance, (_, share) in zip(by_slips, SLIPS, strict=True))
