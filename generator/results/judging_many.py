"""Many pupils judged at once: the posterior of ``posterior``, over arrays.

The chances of each answer are those of the model itself, put into tables once for each answer
that occurs. ``tests/generator/test_foresight.py`` compares with the posterior of one pupil at a
time. Arrays are added and multiplied one slice after another: numpy promises no order for sums of
its own, and takes one that hangs on the processor, so that last digits would differ, and with
them what is just sure enough to be said.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, reduce
from itertools import combinations

import numpy as np

from generator.operations.mistakes import Mistake
from generator.results.diagnosis import HARDLY, NAMED_FROM
from generator.results.posterior import (
    FieldEvidence,
    carried,
    evidence_of,
    names_of,
    weights_of,
)
from generator.results.pupil_model import (
    ALL_CAREFUL,
    ELSE_WRONG,
    FIELDS_OF,
    PAIRS_OFTENER,
    PASSING,
    PUBLISHED,
    SLIPS,
    STEADY,
    Prediction,
    Priors,
    Rate,
    added,
    field_of,
    predicted,
)
from generator.results.simulated_pupils import Flags, Floats, Whole, Written


def summed(chances: Floats, axis: int) -> Floats:
    """The sum along an axis, in its order; 0 along one of no length."""
    slices = np.moveaxis(chances, axis, 0)
    return reduce(np.add, slices, np.zeros(slices.shape[1:]))


def multiplied(factors: Iterable[Floats]) -> Floats:
    """The product of arrays, in their order; 1 of none."""
    return reduce(np.multiply, factors, np.ones(()))


def mean(chances: Floats) -> Fraction:
    """The mean of some chances, exactly, and so in any order: each is a whole number of parts,
    halved so many times.
    """
    parts = [chance.as_integer_ratio() for chance in chances.tolist()]
    finest = max(of for _, of in parts)
    return Fraction(sum(number * (finest // of) for number, of in parts), finest * len(parts))


@dataclass(frozen=True)
class _Field:
    """The likelihoods of each way of working a field, for many pupils at once.

    ``evidence`` is that of some pupil: what is alike and unseen hangs on the questions alone.
    Ways are: careful work, each of the alike, followed or in passing, something else; ``pairs``
    and ``by_pair`` have, for
    each two of the alike, pupils × slip rates, all 0 where a pupil's answers do not speak for
    both.
    """

    evidence: FieldEvidence
    careful: Floats
    alike: Floats  # pupils × alike × slip rates
    passing: Floats  # the same
    something_else: Floats
    pairs: tuple[tuple[int, int], ...]
    by_pair: Floats  # pupils × pairs × slip rates
    explains: Flags  # pupils × alike: whether it gives one of the pupil's wrong answers
    inverse: Whole


def _field(asked: Sequence[Written], answers: Whole) -> _Field:
    """Pupils × questions of one field; those who answer alike are judged once."""
    rows, inverse = np.unique(answers, axis=0, return_inverse=True)
    (evidence,) = evidence_of([written.attempts[written.meant[0]] for written in asked])
    expected: list[list[Prediction]] = [
        [predicted(w.question, alike[:1], w.ways) for w in asked] for alike in evidence.alike
    ]
    explained = np.array(
        [
            [
                written.gives(of)[rows[:, at]]
                for at, (written, of) in enumerate(zip(asked, way, strict=True))
            ]
            for way in expected
        ]
    ).reshape(len(expected), len(asked), len(rows))
    ways: list[list[Prediction]] = [[()] * len(asked), *expected]
    by_slips, passing = (
        _likelihoods(asked, rows, *of) for of in ((ways, STEADY), (expected, PASSING))
    )
    unknown = np.ones((len(rows), len(SLIPS) * len(ELSE_WRONG)))
    for at, written in enumerate(asked):
        unknown *= written.of_something_else[rows[:, at]]
    apart = [at for at, one in enumerate(evidence.alike) if not all(m.together for m in one)]
    pairs = tuple(combinations(apart, 2))
    by_pair = np.zeros((len(rows), len(pairs), len(SLIPS)))
    for number, (first, second) in enumerate(pairs):
        one, other = explained[first], explained[second]
        both = np.flatnonzero((one & ~other).any(axis=0) & (other & ~one).any(axis=0))
        if both.size:
            grid = np.ones((both.size, len(SLIPS) * len(STEADY)))
            for at, written in enumerate(asked):
                way = tuple(dict.fromkeys(expected[first][at] + expected[second][at]))
                grid *= written.table(way)[rows[both, at]]
            by_pair[both, number] = _over_grid(grid, STEADY)
    return _Field(
        evidence,
        by_slips[:, 0],
        by_slips[:, 1:],
        passing,
        _over_grid(unknown, ELSE_WRONG),
        pairs,
        by_pair,
        np.asarray(explained.any(axis=1)).T,
        inverse.reshape(-1),
    )


def _likelihoods(
    asked: Sequence[Written],
    rows: Whole,
    ways: Sequence[Sequence[Prediction]],
    rates: tuple[Rate, ...],
) -> Floats:
    """Of each way of working, followed at some of the rates: pupils × ways × slip rates."""
    grids = np.ones((len(rows), len(ways), len(SLIPS) * len(rates)))
    for at, written in enumerate(asked if ways else ()):
        tables = np.stack([written.table(way[at], rates) for way in ways], axis=1)
        grids *= tables[rows[:, at]]
    return _over_grid(grids, rates)


def _over_grid(grid: Floats, rates: tuple[Rate, ...]) -> Floats:
    """A grid summed over its second rate, in the order of the model."""
    by_rate = grid.reshape(*grid.shape[:-1], len(SLIPS), len(rates))
    return summed(by_rate * np.array([share for _, share in rates]), -1)


@dataclass(frozen=True)
class Judged:
    """What is thought of many pupils: for each of ``alike``, procedures that nothing asked tells
    apart in a field, the chance that a pupil follows one of them and whether that is said; and
    the chance of careful work. ``names`` are those of the alike that are said.
    """

    fields: tuple[str, ...]  # that of each of the alike
    alike: tuple[tuple[Mistake, ...], ...]
    names: tuple[tuple[Mistake, ...], ...]
    chances: Floats  # pupils × alike
    explains: Flags  # pupils × alike
    careful: Floats

    @cached_property
    def named(self) -> Flags:
        """Whether a pupil is said to have a habit, as ``diagnosis`` does from enough answers:
        one that is likely enough, or some in one field that the same follow-up mends and that
        are together.
        """
        certain = self.explains & (self.chances >= NAMED_FROM)
        likely = self.explains & ~certain & (self.chances >= HARDLY)
        named = certain
        by_follow_up: dict[tuple[str, str], list[int]] = {}
        for at, (field, names) in enumerate(zip(self.fields, self.names, strict=True)):
            by_follow_up.setdefault((field, names[0].follow_up), []).append(at)
        for places in by_follow_up.values():
            some = np.where(likely[:, places], self.chances[:, places], 0.0)
            together = summed(some, 1) >= NAMED_FROM
            named[:, places] |= likely[:, places] & together[:, None]
        return named


def judged(asked: Sequence[Written], answers: Whole, priors: Priors = PUBLISHED) -> Judged:
    """The posterior of every pupil, for pupils × questions."""
    places: dict[str, list[int]] = {}
    for at, written in enumerate(asked):
        places.setdefault(field_of(written.question), []).append(at)
    fields = [_field([asked[i] for i in at], answers[:, at]) for at in places.values()]
    return _weighed(fields, len(answers), priors)


def _weighed(fields: Sequence[_Field], pupils: int, priors: Priors) -> Judged:
    slips = np.array([share for _, share in SLIPS])
    of_field, free = [], []
    for field in fields:
        weights = weights_of(field.evidence, priors)
        alike = np.array(weights.alike)
        of_pair = np.array([PAIRS_OFTENER * alike[i] * alike[j] for i, j in field.pairs])
        by_way = alike[:, None] * field.alike
        of_careful = weights.careful * field.careful
        by_pair = of_pair[:, None] * field.by_pair
        whole = of_careful + summed(by_way, 1) + summed(by_pair, 1)
        whole = whole + weights.something_else * field.something_else
        whole = whole + summed(np.array(weights.passing)[:, None] * field.passing, 1)
        for number, pair in enumerate(field.pairs):
            for one in pair:
                by_way[:, one] += by_pair[:, number]
        of_field.append((of_careful / whole, by_way / whole[:, None]))
        free.append(whole[field.inverse])
    carefully = [field.careful[field.inverse] for field in fields]
    careful = slips * ALL_CAREFUL * multiplied(carefully) if fields else np.ones((pupils, 1))
    whole, all_careful = careful.copy(), careful.copy()
    tallies = [np.zeros((pupils, len(field.evidence.alike))) for field in fields]
    shares = carried(tuple(field.evidence for field in fields), priors)
    of_none = 1.0 - added(share for _, share in shares)
    for mistake, share in ((None, of_none), *shares):
        where = [
            None
            if mistake is None or f.evidence.field not in FIELDS_OF[mistake]
            else _place(f.evidence, mistake)
            for f in fields
        ]
        of_each = [
            free[i] if at is None else carefully[i] if at < 0 else f.alike[f.inverse, at]
            for i, (f, at) in enumerate(zip(fields, where, strict=True))
        ]
        mass = slips * (1.0 - ALL_CAREFUL) * share * multiplied(of_each)
        whole += mass
        unseen = mass
        for i, (f, at) in enumerate(zip(fields, where, strict=True)):
            if at is None:
                of_careful, by_way = of_field[i]
                tallies[i] += summed(mass[:, None] * by_way[f.inverse], 2)
                unseen = unseen * of_careful[f.inverse]
            elif at >= 0:
                tallies[i][:, at] += summed(mass, 1)
                unseen = np.zeros_like(mass)
        all_careful += unseen
    in_all = summed(whole, 1)
    return Judged(
        tuple(field.evidence.field for field in fields for _ in field.evidence.alike),
        tuple(alike for field in fields for alike in field.evidence.alike),
        tuple(names_of(alike, priors) for field in fields for alike in field.evidence.alike),
        np.concatenate([t / in_all[:, None] for t in tallies], axis=1)
        if fields
        else np.zeros((pupils, 0)),
        np.concatenate([field.explains[field.inverse] for field in fields], axis=1)
        if fields
        else np.zeros((pupils, 0), dtype=bool),
        summed(all_careful, 1) / in_all,
    )


def _place(evidence: FieldEvidence, mistake: Mistake) -> int:
    """Among which of the alike a procedure is; −1 where nothing sets it off."""
    place = evidence.place_of(mistake)
    return -1 if place is None else place
