"""Rungs inside other rungs: a pack can be made with every seed, or is refused for all of them.

The reference is SciPy's matching of places with questions (``maximum_bipartite_matching``, by
Hopcroft and Karp's algorithm).
"""

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.sparse import csr_array
from scipy.sparse.csgraph import maximum_bipartite_matching

from generator.operations.rungs import rung_set
from generator.packs.building import TooFewQuestionsError, build_pack, passed_over
from generator.packs.sharing import Shares
from generator.packs.telling_apart import CannotTellApartError
from generator.vocabulary import VOCABULARY
from specs import Spec, read_spec
from specs.avoided import Avoided
from tests.generator.ladders import questions

RUNGS = (
    "operation: multiply, digits: [1, 1], places: [1, 1]",
    "operation: multiply, digits: [1, 1], places: [1, 1], carries: none",
    "operation: multiply, digits: [1, 1], places: [1, 1], answer: {places: 1}",
    "operation: multiply, digits: [1, 1], places: [0, 1]",
    "operation: add, places: 1, whole: 0",
    "operation: add, places: 1, whole: 0, carries: none",
    "operation: add, places: 1, whole: 0, carries: every",
    "operation: add, places: 1, whole: 0, repeats: forbid",
    "operation: add, places: 1, whole: 0, form: missing digit",
    "operation: add, places: 1, whole: 0, tells_apart: carry dropped",
    "operation: divide, divisor: [2, 3], dividend: {digits: 1}, ending: exact",
    "operation: divide, divisor: {between: [2, 5]}, dividend: {digits: 1}, ending: exact",
)


def of(rung: str) -> str:
    """A rung without what is asked of its form."""
    return rung.partition(", form")[0].partition(", tells")[0]


def size(rung: str) -> int:
    return questions(of(rung)).count


SMALL = tuple(rung for rung in RUNGS if size(rung) <= 50)


def lesson(parts: list[tuple[str, int, int]], title: str = "Beans") -> Spec:
    """A rung each, with so many questions in the starter and so many in a tier."""
    rungs = "".join(f"  r{at}: {{{rung}}}\n" for at, (rung, _, _) in enumerate(parts))
    first = ", ".join(f"r{at}: {n}" for at, (_, n, _) in enumerate(parts) if n)
    tier = ", ".join(f"r{at}: {n}" for at, (_, _, n) in enumerate(parts) if n)
    starter = f"starter:\n  questions: {{{first}}}\n" if first else ""
    tiers = f"tiers:\n  core: {{{tier}}}\n" if tier else ""
    text = f"title: {title}\nladder:\n{rungs}{starter}{tiers}"
    return read_spec(text.encode(), "beans.yaml", VOCABULARY)


def held(rung: str) -> set[object]:
    """The questions of a rung, by what makes them the same; of those asked in a form, all that
    have it.
    """
    exact = questions(of(rung))
    found = [exact.unrank(at) for at in range(exact.count)]
    if "tells_apart" in rung:
        found = [q for q in found if q.answer.value >= 1]
    return {question.identity for question in found}


def can_be_filled(parts: list[tuple[str, int, int]], versions: int) -> bool:
    """Whether each place can have a question of its own, by SciPy."""
    places = [held(rung) for rung, first, tier in parts for _ in range(first + tier * versions)]
    every = {question: at for at, question in enumerate(set().union(*places))}
    fits = np.zeros((len(places), len(every)), dtype=np.int8)
    for at, place in enumerate(places):
        fits[at, [every[question] for question in place]] = 1
    matched = maximum_bipartite_matching(csr_array(fits), perm_type="column")
    return bool((matched >= 0).all())


def built(parts: list[tuple[str, int, int]], versions: int, seed: int) -> bool:
    """Whether a pack is built, with no question twice."""
    try:
        pack = build_pack(lesson(parts), seed, versions)
    except (TooFewQuestionsError, CannotTellApartError):
        return False
    seen = Counter(item.question.identity for s in pack.sections for item in s.items)
    assert max(seen.values()) == 1
    for section in pack.sections:
        for item in section.items:
            rung = parts[int(item.rung[1:])][0]
            assert item.question.identity in held(rung)
    return True


parts = st.lists(
    st.tuples(st.sampled_from(SMALL), st.integers(0, 12), st.integers(0, 12)),
    min_size=1,
    max_size=4,
).filter(lambda some: any(first + tier for _, first, tier in some))


@given(parts=parts, versions=st.integers(1, 3), seeds=st.sets(st.integers(0, 10**6), min_size=3))
@settings(max_examples=40, deadline=None)
@example([(RUNGS[0], 3, 0), (RUNGS[1], 0, 4)], 1, set(range(15)))
@pytest.mark.slow
def test_every_seed_builds_exactly_when_a_matching_exists(
    parts: list[tuple[str, int, int]], versions: int, seeds: set[int]
) -> None:
    possible = can_be_filled(parts, versions)
    for seed in sorted(seeds)[:15]:
        assert built(parts, versions, seed) is possible


def test_the_rungs_that_share_too_few_are_named_with_their_numbers() -> None:
    tight = questions(RUNGS[1]).count
    asked = [(RUNGS[1], 1, 0), (RUNGS[1], 0, tight)]
    for seed in range(3):
        with pytest.raises(TooFewQuestionsError) as caught:
            build_pack(lesson(asked), seed)
        assert caught.value.what == (
            f"r0 and r1 have {tight} questions between them, and {tight + 1} are wanted "
            f"(starter 1, core {tight})"
        )
        assert caught.value.line == 4


@given(parts=parts, seed=st.integers(0, 10**6), before=st.integers(0, 10**6))
@settings(max_examples=15, deadline=None)
def test_what_is_avoided_keeps_no_rung_from_its_own(
    parts: list[tuple[str, int, int]], seed: int, before: int
) -> None:
    """A pack that avoids those that stood in the way is the pack that avoids them all."""
    spec = lesson(parts)
    try:
        asked = [i.question for s in build_pack(spec, before).sections for i in s.items]
        asked = asked[: len(asked) // 3]
        some = passed_over(spec, seed, asked)
    except (TooFewQuestionsError, CannotTellApartError):
        return
    every = tuple(Avoided(str(q.operation), tuple(map(str, q.operands)), 0) for q in asked)
    around, around_all = (build_pack(replace(spec, avoid=names), seed) for names in (some, every))
    assert around.sections == around_all.sections


@given(st.lists(st.tuples(st.sets(st.integers(0, 9)), st.integers(0, 5)), max_size=5), st.data())
@settings(max_examples=200, deadline=None)
def test_taking_what_can_be_spared_fills_every_place(
    rungs: list[tuple[set[int], int]], data: st.DataObject
) -> None:
    """Whatever is taken in whatever order, where it is granted the rest can still be had."""
    wanted = {at: count for at, (_, count) in enumerate(rungs)}
    shares = Shares(wanted, {at: questions for at, (questions, _) in enumerate(rungs)})
    places = [at for at, count in wanted.items() for _ in range(count)]
    if shares.shortage is not None:
        of = shares.shortage.rungs
        assert len(set().union(*(rungs[at][0] for at in of))) == shares.shortage.exist
        assert sum(wanted[at] for at in of) == shares.shortage.wanted > shares.shortage.exist
        return
    taken: set[int] = set()
    for at in data.draw(st.permutations(places)):
        free = sorted(rungs[at][0] - taken)
        found = next(q for q in data.draw(st.permutations(free)) if shares.spare(at, q))
        taken.add(found)
    assert len(taken) == len(places)


def test_a_large_rung_goes_uncounted() -> None:
    """It holds as many questions as all places want, and can never go short."""
    large = lesson([("operation: add, places: 3, whole: 3", 3, 4), (RUNGS[4], 2, 0)])
    assert rung_set(large.ladder[0]).count > 10**9
    assert build_pack(large, 1)
