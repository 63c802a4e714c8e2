"""Numbered sets put together: every thing once, and its number found again."""

from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.numbered.sequences import (
    Below,
    Chosen,
    Fork,
    Listed,
    Parts,
    Product,
    Shares,
    walk,
)
from generator.operations.columns import facts, totals
from generator.operations.columns.column_work import SUBTRAHEND_WEIGHT
from generator.operations.columns.fills import MOST_SYMBOLS, Filling, Kind, Role, Status, symbols

sizes = st.lists(st.integers(0, 5), min_size=1, max_size=6)


@given(sizes)
def test_parts_follow_one_another(held: list[int]) -> None:
    parts = Parts(held)
    expected = [(part, number) for part, size in enumerate(held) for number in range(size)]
    assert [parts.find(number) for number in range(parts.count)] == expected
    assert [parts.before(part) + number for part, number in expected] == list(range(parts.count))


@given(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=5))
def test_shares_are_gone_through_label_by_label(parts: list[tuple[int, int]]) -> None:
    shares = Shares([labels for labels, _ in parts], [ways for _, ways in parts])
    expected = [
        (part, label, way)
        for part, (labels, ways) in enumerate(parts)
        for label in range(labels)
        for way in range(ways)
    ]
    assert [shares.take(number) for number in range(len(expected))] == expected
    assert [shares.before(part, label) + way for part, label, way in expected] == list(
        range(len(expected))
    )


def test_a_product_has_every_tuple_the_last_set_first() -> None:
    numbered = Product((Below(2), Listed("abc"), Chosen(2, 4)))
    found = [numbered.unrank(number) for number in range(numbered.count)]
    pairs = sorted(tuple(sorted(p, reverse=True)) for p in combinations(range(4), 2))
    expected = list(product(range(2), "abc", pairs))
    assert found == expected
    assert [numbered.rank(things) for things in found] == list(range(numbered.count))
    assert numbered.rank((2, "a", (1, 0))) is None
    assert numbered.rank((1, "d", (1, 0))) is None
    assert numbered.rank((1, "a", (1, 1))) is None


@dataclass(frozen=True)
class Stairs:
    """One or two steps at a time: known to have a Fibonacci number of ways (1202, Fibonacci)."""

    left: int

    @property
    def ways(self) -> int:
        return 1 if self.left < 2 else Stairs(self.left - 1).ways + Stairs(self.left - 2).ways

    @cached_property
    def fork(self) -> "Fork[Stairs] | None":
        following = [Stairs(self.left - taken) for taken in (1, 2) if taken <= self.left]
        return Fork(following, [stairs.ways for stairs in following]) if following else None


def test_a_walk_comes_by_every_way_once() -> None:
    top = Stairs(7)
    ways = [tuple(branch for _, branch, _ in walk(top, number)) for number in range(top.ways)]
    assert top.ways == 21
    assert len(set(ways)) == 21
    assert all(sum(branch + 1 for branch in way) == 7 for way in ways)
    assert ways == sorted(ways)


# What a tally and a count have room for.


@pytest.mark.parametrize("places", [(0,), (1,), (0, 1, 2)])
@pytest.mark.parametrize("whole", [(0,), (1,), (0, 1, 2)])
def test_no_number_can_do_more_in_a_column_than_is_counted_on(
    places: tuple[int, ...], whole: tuple[int, ...]
) -> None:
    kind = Kind(places, whole, end_zero=True)
    most = max(len(symbols(kind, status, place)) for status in Status for place in range(-3, 3))
    assert most <= MOST_SYMBOLS


def test_six_addends_and_a_subtraction_have_room_and_more_have_not() -> None:
    kind = Kind((1,), (1,))
    Filling((Role(kind, 6),), frozenset(), distinct=False)
    subtrahend = Role(kind, 1, SUBTRAHEND_WEIGHT, 2)
    Filling((Role(kind, 1), subtrahend), frozenset(), distinct=False)
    with pytest.raises(ValueError, match="no room"):
        Filling((Role(kind, 7),), frozenset(), distinct=False)
    with pytest.raises(ValueError, match="no room"):
        facts.check_room(2, 256, 3)
    with pytest.raises(ValueError, match="no room"):
        facts.check_room(2, 200, 8)
    totals.check_room(MOST_SYMBOLS**6)
    with pytest.raises(ValueError, match="has room for"):
        totals.check_room(1 << 32)
