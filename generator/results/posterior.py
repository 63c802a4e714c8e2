"""What a pupil's answers make likely: careful work, each procedure, two at once, something else.

By Bayes' rule over ``pupil_model``: the chance of all answers under each way of working, summed
over slip rates and steadiness, times how common the way is. A pupil works each field
(additions, subtractions, …) in a way of its own, at one slip rate throughout; some work carefully
in all of them, and a procedure that belongs to several fields mostly shows in each.

``evidence_of`` looks at the answers once; ``posterior`` weighs that with priors, which is cheap, so
priors learnt within a class (``class_priors``) cost little more.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import combinations
from operator import mul
from typing import Final

from generator.operations.mistakes import EVERY_MISTAKE, NO_WAYS, Mistake, agree
from generator.results.attempts import FULL, Attempt
from generator.results.pupil_model import (
    ALL_CAREFUL,
    ELSE_WRONG,
    FIELDS,
    FIELDS_OF,
    IN_EVERY_FIELD,
    MOST_OF_A_FIELD,
    PAIRS_OFTENER,
    PASSING,
    PASSING_SHARE,
    PUBLISHED,
    SLIPS,
    SOMETHING_ELSE,
    STEADY,
    Grid,
    Prediction,
    Priors,
    Rate,
    added,
    answers_by_procedure,
    chances,
    chances_of_something_else,
    field_of,
    over_grid,
    predicted,
    procedures_of,
)

LIKE_PUPILS: Final = 30.0
"""How many pupils the published priors count for beside a class (assumption, no source)."""

CLASS_FROM: Final = 8
"""The fewest pupils from whom priors are learnt (assumption, no source)."""

Alike = tuple[Mistake, ...]
"""Procedures that give the same answers to every question asked, in the order of the table."""

BySlips = tuple[float, ...]
"""A likelihood for each slip rate of the model."""


@dataclass(frozen=True, slots=True)
class FieldEvidence:
    """What the answers in one field say, before anything is known of priors.

    Likelihoods by slip rate, all to one scale: of careful work, of each of the ``alike`` and of
    ``pairs`` of these (by their places), of who has answers of one in ``passing``, and of something
    else. ``unseen`` are procedures that
    nothing asked sets off; ``explained`` and ``shows`` say of each of the alike how many written
    wrong answers it gives, and on how many questions it is set off. ``ways`` are the methods taught
    that have procedures of their own.
    """

    field: str
    alike: tuple[Alike, ...]
    unseen: Alike
    careful: BySlips
    by_procedure: tuple[BySlips, ...]
    pairs: tuple[tuple[int, int], ...]
    by_pair: tuple[BySlips, ...]
    passing: tuple[BySlips, ...]
    something_else: BySlips
    explained: tuple[int, ...]
    shows: tuple[int, ...]
    ways: frozenset[str] = NO_WAYS

    def place_of(self, mistake: Mistake) -> int | None:
        """Among which of the alike a procedure is; None where it is not set off."""
        return next((at for at, alike in enumerate(self.alike) if mistake in alike), None)


Evidence = tuple[FieldEvidence, ...]
"""What a pupil's answers say, for each field with an answer."""

Rates = tuple[Rate, ...]


@dataclass(frozen=True, slots=True)
class Possible:
    """Procedures that nothing asked tells apart, and the chance that a pupil follows one of them.

    ``mistakes`` has the likelier first; of two that are alike, one made of two others is left out.
    """

    mistakes: tuple[Mistake, ...]
    chance: float
    explained: int
    shows: int


@dataclass(frozen=True)
class FieldPosterior:
    """How a pupil works one field. ``possible`` has the likeliest first.

    ``careful`` counts in who follows no procedure, but has answers of one in passing.
    """

    field: str
    careful: float
    something_else: float
    possible: tuple[Possible, ...]


@dataclass(frozen=True)
class Posterior:
    """How a pupil works: the chance of each way.

    ``careful`` is the chance that nothing but slips stands behind the wrong answers, in every
    field at once; ``no_habit`` that at most answers of a procedure in passing do besides.
    """

    fields: tuple[FieldPosterior, ...]
    careful: float
    no_habit: float

    @cached_property
    def chances(self) -> Mapping[Mistake, float]:
        """The chance of each procedure that was set off in any field."""
        found: dict[Mistake, float] = {}
        for field in self.fields:
            for possible in field.possible:
                for mistake, chance in _shared(possible):
                    found[mistake] = max(chance, found.get(mistake, 0.0))
        return found


def _shared(possible: Possible) -> Iterator[tuple[Mistake, float]]:
    whole = added(PUBLISHED.share(mistake) for mistake in possible.mistakes)
    for mistake in possible.mistakes:
        yield mistake, possible.chance * PUBLISHED.share(mistake) / whole


# Evidence


def evidence_of(attempts: Sequence[Attempt]) -> Evidence:
    """What answers say of each field; their order makes no difference.

    Those that ask for something else than a question's own answer say nothing of procedures.
    """
    by_field: dict[str, list[Attempt]] = {}
    for attempt in sorted((a for a in attempts if a.worked), key=_in_order):
        by_field.setdefault(field_of(attempt.question), []).append(attempt)
    return tuple(_evidence(field, by_field[field]) for field in FIELDS if field in by_field)


def _in_order(attempt: Attempt) -> tuple[str, str, bool, tuple[str, ...], str]:
    question = attempt.question
    written = tuple(
        f"{given.value} {given.left} {given.sign} {given.order}" for given in attempt.replies
    )
    return question.text, question.ending, attempt.right, written, str(attempt.weight)


def _evidence(field: str, attempts: Sequence[Attempt]) -> FieldEvidence:
    wrong = [answers_by_procedure(attempt.question, attempt.ways) for attempt in attempts]
    ways_taught = NO_WAYS.union(*(attempt.ways for attempt in attempts))
    classes: dict[tuple[object, ...], list[Mistake]] = {}
    for mistake in procedures_of(field, ways_taught):
        classes.setdefault(tuple(given.get(mistake) for given in wrong), []).append(mistake)
    nothing = (None,) * len(attempts)
    unseen = tuple(classes.pop(nothing, ()))
    alike = tuple(map(tuple, classes.values()))
    expected = [[predicted(a.question, one[:1], a.ways) for a in attempts] for one in alike]
    explained = [
        frozenset(at for at, attempt in enumerate(attempts) if _gave(attempt, of[at]))
        for of in expected
    ]
    pairs = tuple(_pairs(alike, explained))
    ways: list[Sequence[Prediction]] = [[()] * len(attempts), *expected]
    for first, second in pairs:
        both = zip(expected[first], expected[second], strict=True)
        ways.append([tuple(dict.fromkeys(one + other)) for one, other in both])
    shares = [added(PUBLISHED.share(mistake) for mistake in one) for one in alike]
    steady, passing, unknown = _likelihoods(attempts, ways, expected, shares)
    return FieldEvidence(
        field,
        alike,
        unseen,
        steady[0],
        tuple(steady[1 : 1 + len(alike)]),
        pairs,
        tuple(steady[1 + len(alike) :]),
        tuple(passing),
        unknown,
        tuple(map(len, explained)),
        tuple(len([one for one in of if one]) for of in expected),
        ways_taught,
    )


def _gave(attempt: Attempt, expected: Prediction) -> bool:
    """Whether a written wrong answer is one of those expected."""
    return not attempt.right and any(
        agree(attempt.question, one, given) for one in expected for given in attempt.replies
    )


def _pairs(
    alike: Sequence[Alike], explained: Sequence[frozenset[int]]
) -> Iterator[tuple[int, int]]:
    """Those that may come together: each gave a wrong answer that the other does not give.

    Where neither did, one alone says as much.
    """
    apart = [at for at, one in enumerate(alike) if not all(m.together for m in one)]
    for first, second in combinations(apart, 2):
        if explained[first] - explained[second] and explained[second] - explained[first]:
            yield first, second


def _likelihoods(
    attempts: Sequence[Attempt],
    ways: Sequence[Sequence[Prediction]],
    in_passing: Sequence[Sequence[Prediction]],
    shares: Sequence[float],
) -> tuple[list[BySlips], list[BySlips], BySlips]:
    """The likelihoods of ways followed, of others in passing, and of something else, all to one
    scale.

    The first way is careful work, those behind it have the ``shares`` of pupils. Answers of one
    weight were given at one time, and are believed or forgotten together.
    """
    kinds = [*[STEADY] * len(ways), *[PASSING] * len(in_passing)]
    grids = [[1.0] * (len(SLIPS) * len(rates)) for rates in kinds]
    unknown = [1.0] * (len(SLIPS) * len(ELSE_WRONG))
    for weight in sorted({attempt.weight for attempt in attempts}, reverse=True):
        at_once = [at for at, attempt in enumerate(attempts) if attempt.weight == weight]
        of_these = [attempts[at] for at in at_once]
        news, of_else = _at_one_time(
            of_these,
            [[way[at] for at in at_once] for way in ways],
            [[way[at] for at in at_once] for way in in_passing],
        )
        if weight < FULL:
            *news, of_else = _faded(weight, news, of_else, shares)
        grids = [[*map(mul, grid, new)] for grid, new in zip(grids, news, strict=True)]
        unknown = [*map(mul, unknown, of_else)]
        grids, unknown = _to_scale(grids, unknown)
    summed = [over_grid(grid, kind) for grid, kind in zip(grids, kinds, strict=True)]
    return summed[: len(ways)], summed[len(ways) :], over_grid(unknown, ELSE_WRONG)


def _at_one_time(
    attempts: Sequence[Attempt],
    ways: Sequence[Sequence[Prediction]],
    in_passing: Sequence[Sequence[Prediction]],
) -> tuple[list[list[float]], list[float]]:
    """The likelihoods of answers given at one time, for each of the ways and for something else."""
    kinds = [*[STEADY] * len(ways), *[PASSING] * len(in_passing)]
    grids = [[1.0] * (len(SLIPS) * len(rates)) for rates in kinds]
    unknown = [1.0] * (len(SLIPS) * len(ELSE_WRONG))
    for at, attempt in enumerate(attempts):
        followed, passing = (
            _by_way(attempt, [way[at] for way in of_kind], kind)
            for of_kind, kind in ((ways, STEADY), (in_passing, PASSING))
        )
        news = [*followed, *passing]
        grids = [[*map(mul, grid, new)] for grid, new in zip(grids, news, strict=True)]
        unknown = [*map(mul, unknown, chances_of_something_else(attempt))]
        grids, unknown = _to_scale(grids, unknown)
    return grids, unknown


def _to_scale(
    grids: Sequence[Sequence[float]], unknown: Sequence[float]
) -> tuple[list[list[float]], list[float]]:
    """The same with 1 for the greatest of all, so that none becomes too small to tell."""
    most = max(max(map(max, grids)), max(unknown))
    return [[chance / most for chance in grid] for grid in grids], [
        chance / most for chance in unknown
    ]


def _by_way(attempt: Attempt, expected: Sequence[Prediction], rates: Rates) -> list[Grid]:
    """The chance of an answer for each of the ways, which expect so much of it."""
    if attempt.right or not attempt.replies:  # it only counts whether something else is expected
        without = chances(attempt, (), rates)
        other = next((chances(attempt, one, rates) for one in expected if one), without)
        return [other if one else without for one in expected]
    found: dict[Prediction, Grid] = {}
    for one in expected:
        if one not in found:
            found[one] = chances(attempt, one, rates)
    return [found[one] for one in expected]


def _faded(
    weight: Fraction,
    grids: Sequence[Sequence[float]],
    of_else: Sequence[float],
    shares: Sequence[float],
) -> Iterator[list[float]]:
    """The likelihoods of old answers: of who works as then, or of who worked then as anyone might.

    With the chance ``weight`` the pupil still works in the same way; otherwise all those answers
    came from a way of working that the priors alone say something of, the same under every way now.
    So old answers, however many, make nothing surer than the weight allows.
    """
    careful, *by_procedure = grids[: 1 + len(shares)]
    rest = max(1.0 - SOMETHING_ELSE - added(shares), 0.0)
    anyone = (
        SOMETHING_ELSE * _prior_mean(of_else, ELSE_WRONG)
        + rest * _prior_mean(careful, STEADY)
        + added(
            share * _prior_mean(grid, STEADY)
            for share, grid in zip(shares, by_procedure, strict=True)
        )
    )
    kept = weight.numerator / weight.denominator
    by_anyone = (1.0 - kept) * anyone
    for grid in (*grids, of_else):
        yield [kept * one + by_anyone for one in grid]


def _prior_mean(grid: Sequence[float], rates: Rates) -> float:
    by_slips = over_grid(grid, rates)
    return added(chance * share for chance, (_, share) in zip(by_slips, SLIPS, strict=True))


# Weighing


@lru_cache(maxsize=1 << 10)
def _others_share(share: float) -> float:
    """A share of all pupils as a share of those who do not work carefully throughout."""
    return share / (1.0 - ALL_CAREFUL)


@dataclass(frozen=True, slots=True)
class Weights:
    """The prior of each way in a field, for who has no procedure in all fields."""

    careful: float
    alike: tuple[float, ...]
    pairs: tuple[float, ...]
    passing: tuple[float, ...]
    something_else: float


def weights_of(evidence: FieldEvidence, priors: Priors) -> Weights:
    """The priors of the ways in a field."""
    alone = {}
    for mistake in procedures_of(evidence.field, evidence.ways):
        fields = len(FIELDS_OF[mistake])
        share = _others_share(priors.share(mistake))
        alone[mistake] = share if fields == 1 else share * (1.0 - IN_EVERY_FIELD) / fields
    whole = added(alone.values())
    scale = 1.0 if whole <= MOST_OF_A_FIELD else MOST_OF_A_FIELD / whole
    alike = tuple(scale * added(alone[m] for m in one) for one in evidence.alike)
    pairs = tuple(PAIRS_OFTENER * alike[one] * alike[other] for one, other in evidence.pairs)
    passing = tuple(PASSING_SHARE * share for share in alike)
    careful = 1.0 - SOMETHING_ELSE - added(alike) - added(passing)
    return Weights(careful, alike, pairs, passing, SOMETHING_ELSE)


def posterior(evidence: Evidence, priors: Priors = PUBLISHED) -> Posterior:
    """The chance of each way of working, for what a pupil's answers say."""
    weights = [weights_of(field, priors) for field in evidence]
    shares = carried(evidence, priors)
    free = 1.0 - added(share for _, share in shares)
    tallies = [_Tally.of(field) for field in evidence]
    all_careful = no_habit = whole = 0.0
    for at, (_, slips) in enumerate(SLIPS):
        of_field = [
            _free(field, weight, at) for field, weight in zip(evidence, weights, strict=True)
        ]
        careful = slips * ALL_CAREFUL * _product([field.careful[at] for field in evidence])
        whole += careful
        all_careful += careful
        no_habit += careful
        for tally in tallies:
            tally.careful += careful
        branches: list[tuple[Mistake | None, float]] = [(None, free), *shares]
        for mistake, share in branches:
            places = [field.place_of(mistake) if mistake else None for field in evidence]
            follows = [
                mistake is not None and field.field in FIELDS_OF[mistake] for field in evidence
            ]
            of_each = []
            for i, field in enumerate(evidence):
                if not follows[i]:
                    of_each.append(added(of_field[i].all))
                elif (place := places[i]) is None:
                    of_each.append(field.careful[at])
                else:
                    of_each.append(field.by_procedure[place][at])
            mass = slips * (1.0 - ALL_CAREFUL) * share * _product(of_each)
            whole += mass
            if not mass:
                continue
            unseen = in_passing = mass
            for i, tally in enumerate(tallies):
                if not follows[i]:
                    tally.add(of_field[i], mass / of_each[i])
                    unseen = unseen * (of_field[i].careful / of_each[i])
                    followed_none = of_field[i].careful + of_field[i].passing
                    in_passing = in_passing * (followed_none / of_each[i])
                elif (place := places[i]) is None:
                    tally.careful += mass
                else:
                    tally.alike[place] += mass
                    unseen = in_passing = 0.0
            all_careful += unseen
            no_habit += in_passing
    return Posterior(
        tuple(
            tally.over(whole, field, priors) for field, tally in zip(evidence, tallies, strict=True)
        ),
        all_careful / whole if evidence else 1.0,
        no_habit / whole if evidence else 1.0,
    )


def carried(evidence: Evidence, priors: Priors) -> list[tuple[Mistake, float]]:
    """The procedures of several fields, and the chance that one is followed in all of them."""
    fields = {field.field for field in evidence}
    return [
        (mistake, IN_EVERY_FIELD * _others_share(priors.share(mistake)))
        for mistake in EVERY_MISTAKE
        if len(FIELDS_OF[mistake]) > 1 and FIELDS_OF[mistake] & fields
    ]


def _product(factors: Sequence[float]) -> float:
    whole = 1.0
    for factor in factors:
        whole *= factor
    return whole


@dataclass(frozen=True, slots=True)
class _Free:
    """Prior times likelihood of each way in a field, at one slip rate."""

    careful: float
    alike: tuple[float, ...]
    pairs: tuple[float, ...]
    passing: float
    something_else: float

    @property
    def all(self) -> Iterator[float]:
        yield self.careful
        yield from self.alike
        yield from self.pairs
        yield self.passing
        yield self.something_else


def _free(field: FieldEvidence, weights: Weights, at: int) -> _Free:
    return _Free(
        weights.careful * field.careful[at],
        tuple(w * by[at] for w, by in zip(weights.alike, field.by_procedure, strict=True)),
        tuple(w * by[at] for w, by in zip(weights.pairs, field.by_pair, strict=True)),
        added(w * by[at] for w, by in zip(weights.passing, field.passing, strict=True)),
        weights.something_else * field.something_else[at],
    )


@dataclass(slots=True)
class _Tally:
    """The mass of each way in a field, added up over slip rates."""

    careful: float
    alike: list[float]
    something_else: float
    pairs: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, field: FieldEvidence) -> "_Tally":
        return cls(0.0, [0.0] * len(field.alike), 0.0, field.pairs)

    def add(self, free: _Free, share: float) -> None:
        self.careful += (free.careful + free.passing) * share
        self.something_else += free.something_else * share
        for at, mass in enumerate(free.alike):
            self.alike[at] += mass * share
        for (first, second), mass in zip(self.pairs, free.pairs, strict=True):
            self.alike[first] += mass * share
            self.alike[second] += mass * share

    def over(self, whole: float, field: FieldEvidence, priors: Priors) -> FieldPosterior:
        possible = [
            Possible(names_of(alike, priors), mass / whole, explained, shows)
            for alike, mass, explained, shows in zip(
                field.alike, self.alike, field.explained, field.shows, strict=True
            )
        ]
        possible.sort(key=lambda one: -one.chance)  # stable: the table's order where alike
        return FieldPosterior(
            field.field, self.careful / whole, self.something_else / whole, tuple(possible)
        )


def names_of(alike: Alike, priors: Priors) -> Alike:
    """What is said of procedures that nothing tells apart: the likelier first, and of those made
    of two others none where there is another.
    """
    single = [mistake for mistake in alike if not mistake.together] or [*alike]
    return tuple(sorted(single, key=lambda mistake: -priors.share(mistake)))


# A class


def class_priors(of_pupils: Sequence[Posterior]) -> tuple[Priors, ...]:
    """For each pupil of a class, how common each procedure is, the others of the class counted in.

    Published priors count for ``LIKE_PUPILS`` pupils; each other pupil on whose questions a
    procedure is set off counts with the chance that the pupil follows it. In a class of fewer
    than ``CLASS_FROM`` the published priors stand.
    """
    if len(of_pupils) < CLASS_FROM:
        return (PUBLISHED,) * len(of_pupils)
    whole = dict.fromkeys(EVERY_MISTAKE, 0.0)
    asked = dict.fromkeys(EVERY_MISTAKE, 0.0)
    for pupil in of_pupils:
        for mistake, chance in pupil.chances.items():
            whole[mistake] += chance
            asked[mistake] += 1.0
    return tuple(_without(pupil, whole, asked) for pupil in of_pupils)


def _without(
    pupil: Posterior, whole: Mapping[Mistake, float], asked: Mapping[Mistake, float]
) -> Priors:
    own = pupil.chances
    return Priors(
        {
            mistake: (
                LIKE_PUPILS * PUBLISHED.share(mistake) + whole[mistake] - own.get(mistake, 0.0)
            )
            / (LIKE_PUPILS + asked[mistake] - (1.0 if mistake in own else 0.0))
            for mistake in EVERY_MISTAKE
        }
    )
