"""Rungs of earlier packs in tomorrow's starter: which packs are due, and which of their rungs."""

import pytest

from generator.results.older_rungs import EarlierPack, due, older_rungs
from generator.vocabulary import VOCABULARY
from specs import Spec, read_spec


def spec_of(*rungs: str, tail: str = "") -> Spec:
    ladder = "\n".join(f"  {rung}" for rung in rungs)
    first = rungs[0].split(":")[0]
    text = f"title: Beans\nladder:\n{ladder}\nstarter: {{{first}: 1}}\n{tail}"
    return read_spec(text.encode(), "beans.yaml", VOCABULARY)


def pack(number: int) -> EarlierPack:
    """A pack with two rungs that no other has."""
    spec = spec_of(
        f"first-{number}: {{operation: add, addends: 2, places: 1, whole: {number}}}",
        f"second-{number}: {{operation: subtract, places: 1, whole: {number}}}",
    )
    return EarlierPack(spec, frozenset(rung.name for rung in spec.ladder))


TODAY = spec_of("products: {operation: multiply, digits: [2, 1]}")
EIGHT = tuple(pack(number) for number in range(1, 9))


@pytest.mark.parametrize(
    ("packs", "are_due"), [(0, []), (1, [1]), (3, [1, 2]), (4, [1, 2, 4]), (9, [1, 2, 4, 8])]
)
def test_packs_are_due_at_gaps_that_double(packs: int, are_due: list[int]) -> None:
    assert list(due(packs)) == are_due


def test_each_pack_that_is_due_gives_a_question_in_turn() -> None:
    found = older_rungs(TODAY, frozenset({"products"}), EIGHT, 5, turn=0)
    assert [(one.rung.name, one.choice.count) for one in found] == [
        ("first-1", 1),
        ("second-1", 1),
        ("first-2", 1),
        ("first-4", 1),
        ("first-8", 1),
    ]
    assert [one.choice.why for one in found[1:3]] == [
        "to keep it up: from the pack before",
        "to keep it up: from 2 packs before",
    ]


def test_the_turn_decides_where_a_pack_without_marks_begins() -> None:
    def first(turn: int) -> str:
        (one,) = older_rungs(TODAY, frozenset({"products"}), EIGHT[:1], 1, turn)
        return one.rung.name

    assert [first(turn) for turn in range(4)] == ["first-1", "second-1", "first-1", "second-1"]


def test_a_rung_that_was_asked_today_is_not_older_by_whatever_name() -> None:
    today = spec_of("tenths: {operation: add, addends: 2, places: 1, whole: 1}")
    found = older_rungs(today, frozenset({"tenths"}), EIGHT[:1], 3, turn=0)
    assert [(one.rung.name, one.choice.count) for one in found] == [("second-1", 3)]
    not_asked = older_rungs(today, frozenset(), EIGHT[:1], 1, turn=0)
    assert [one.rung.name for one in not_asked] == ["tenths"]  # it is on the ladder by that name


def test_a_name_that_is_taken_gets_a_number() -> None:
    today = spec_of("first-1: {operation: multiply, digits: [2, 1]}")
    found = older_rungs(today, frozenset({"first-1"}), EIGHT[:1], 1, turn=0)
    assert [one.rung.name for one in found] == ["first-1-2"]


def test_without_an_earlier_pack_there_is_no_older_rung() -> None:
    assert older_rungs(TODAY, frozenset({"products"}), (), 3, turn=0) == ()
