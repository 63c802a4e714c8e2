"""Rungs that no question can be on: why, and what would help."""

import pytest

from generator.packs.conflicts import conflicts
from tests.generator.ladders import questions, spec


def conflict(text: str) -> tuple[str, str]:
    ((found),) = conflicts(spec(f"rung: {{{text}}}"))
    return found.what, found.instead


def test_a_possible_ladder_has_no_conflicts() -> None:
    assert not list(conflicts(spec("rung: {operation: add, places: 2, carries: none}")))


def test_a_carry_cannot_leave_an_answer_below_a_half() -> None:
    what, instead = conflict(
        "operation: add, places: 3, whole: 0, carries: {in: [tenths]}, answer: {below: 0.5}"
    )
    assert what == (
        "no question of rung meets `carries: {in: [tenths]}` and `answer: {below: 0.5}` together"
    )
    without = questions("operation: add, places: 3, whole: 0, carries: {in: [tenths]}").count
    assert f"without `answer: {{below: 0.5}}` there are {without:,}" in instead


def test_a_condition_that_fails_alone_is_named_alone() -> None:
    what, instead = conflict("operation: add, places: 0, whole: 1, carries: {in: [tenths]}")
    assert "`places: 0`" in what
    assert "`carries: {in: [tenths]}`" in what
    assert "`whole" not in what
    assert "there are" in instead


def test_only_the_clashing_part_of_a_condition_is_named() -> None:
    what, _ = conflict(
        "operation: subtract, places: 1, whole: 1, "
        "exchanges: {count: [0, 3], through_zeros: 2, across_point: true}"
    )
    assert "through_zeros: 2" in what
    assert "across_point" not in what


@pytest.mark.parametrize(
    ("text", "helps"),
    [
        (
            "operation: subtract, places: 2, whole: 1, exchanges: {through_zeros: 2}",
            "with `exchanges: {through_zeros: 1}` there are",
        ),
        (
            "operation: add, addends: 2, places: 1, whole: 0, carries: {count: 2}",
            "with `carries: {count: 1}` there are",
        ),
    ],
)
def test_the_nearest_change_is_a_number_moved_a_little(text: str, helps: str) -> None:
    assert helps in conflict(text)[1]


def test_the_count_that_is_promised_is_exact() -> None:
    _, instead = conflict("operation: subtract, places: 2, whole: 1, exchanges: {through_zeros: 2}")
    promised = questions(
        "operation: subtract, places: 2, whole: 1, exchanges: {through_zeros: 1}"
    ).count
    assert f"with `exchanges: {{through_zeros: 1}}` there are {promised:,}" in instead


def test_a_smallest_set_has_no_conflict_inside_it() -> None:
    asked = spec(
        "rung: {operation: add, addends: 3, places: 2, whole: 0, zeros: {inside: forbid}, "
        "carries: {count: [1, 2], across_point: false}, answer: {above: 2}}"
    )
    ((found),) = conflicts(asked)
    assert len(found.clashing) < 6
    for left_out in found.clashing:
        rest = [c.text for c in found.clashing if c is not left_out]
        assert questions(", ".join(["operation: add", *rest])).count > 0


def test_a_rung_too_wide_to_count_is_refused_in_words() -> None:
    what, instead = conflict(
        "operation: add, addends: 6, places: {ragged: [0, 4]}, whole: {between: [0, 5]}, "
        "carries: {count: [2, 5], across_point: true}, zeros: {inside: require}, "
        "answer: {between: [10, 100000]}"
    )
    assert what == "rung mixes too many lengths and conditions to be counted exactly"
    assert "fewer addends" in instead


def test_the_help_is_the_nearest_number_and_then_what_leaves_fewest_when_dropped() -> None:
    """The narrowest changes, and two of the three that would do; each count is exact."""
    what, instead = conflict("operation: add, addends: 2, places: 1, whole: 0, carries: {count: 2}")
    assert what.count("`") == 6
    left = {
        "with `carries: {count: 1}`": "places: 1, whole: 0, carries: {count: 1}",
        "without `carries: {count: 2}`": "places: 1, whole: 0",
        "without `places: 1`": "whole: 0, carries: {count: 2}",
        "without `whole: 0`": "places: 1, carries: {count: 2}",
    }
    counts = {
        said: questions(f"operation: add, addends: 2, {rest}").count for said, rest in left.items()
    }
    moved, *dropped = (f"{said} there are {count:,}" for said, count in counts.items())
    assert list(counts.values()) == sorted(counts.values())
    assert instead == "; ".join([moved, *dropped[:2]])
