"""Rungs that no question can be on: why, and what would help."""

import pytest

from generator.arithmetic.questions import Operation
from generator.operations.rungs import fresh_set
from generator.packs.conflicts import _LENGTHS, _joined, conflicts
from generator.vocabulary import VOCABULARY
from specs.spec import Condition
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


def test_lengths_that_a_rung_states_are_part_of_what_clashes() -> None:
    """Without a carry two four-digit numbers have no answer of five digits; any one of the three
    may give way.
    """
    what, instead = conflict(
        "operation: add, places: 0, whole: 4, carries: none, answer: {whole: 5}"
    )
    assert what == (
        "no question of rung meets `whole: 4`, `carries: none` and `answer: {whole: 5}` together"
    )
    assert "with `answer: {whole: 4}` there are" in instead


def test_every_smallest_set_is_named_the_most_telling_first() -> None:
    what, _ = conflict(
        "operation: add, places: 2, whole: 0, carries: {count: 0, across_point: true}, "
        "answer: {below: 0.1}"
    )
    assert what == (
        "no question of rung meets `carries: {count: 0}` and `carries: {across_point: true}` "
        "together, nor `carries: {across_point: true}` and `answer: {below: 0.1}`"
    )


REFUSED = [
    "operation: add, addends: 3, places: 2, whole: 0, zeros: {inside: forbid}, "
    "carries: {count: [1, 2], across_point: false}, answer: {above: 2}",
    "operation: add, places: 1, whole: 0, carries: {in: [hundredths]}, addends: 3",
    "operation: add, places: 2, whole: 1, carries: none, answer: {above: 20}",
    "operation: subtract, places: 1, whole: 2, exchanges: {through_zeros: 3}, longer: neither",
    "operation: subtract, places: 2, whole: 0, answer: {whole: 1}, zeros: {inside: forbid}",
    "operation: multiply, digits: 1, places: 1, answer: {whole: 3}, carries: some",
    "operation: multiply, digits: [1, 2], places: 0, carries: none, answer: {above: 400}",
    "operation: divide, dividend: {digits: 2}, quotient: {digits: 3}, remainders: some",
    "operation: divide, divisor: 7, dividend: {digits: 3}, answer: {above: 200}",
]


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_blamed_clashes_as_the_rung_has_it_and_no_part_of_it_does(text: str) -> None:
    """Of each set named: with the rung's own lengths it has no question; without any one of its
    conditions it has some, with the lengths as the rung has them, as usual, or nearly so.
    """
    asked = spec(f"rung: {{{text}}}")
    ((found),) = conflicts(asked)
    lengths = [c for c in asked.ladder[0].conditions if c.word in _LENGTHS]

    def count(conditions: list[Condition]) -> int:
        joined = _joined(asked.ladder[0], tuple(conditions))
        return fresh_set(Operation(asked.ladder[0].operation), joined).count

    for clash in found.sets:
        named = {condition.word for condition in clash}
        assert count([*clash, *(c for c in lengths if c.word not in named)]) == 0
        for left_out in clash:
            rest = [c for c in clash if c is not left_out]
            free = [c for c in lengths if c.word not in {r.word for r in rest}]
            ways = [rest, [*rest, *free]]
            for one in free:
                word = VOCABULARY.word(asked.ladder[0].operation, one.word)
                others = [c for c in free if c is not one]
                ways += [
                    [*rest, *others, word.condition(value)]
                    for value in word.shape.near(one.value, 1)
                ]
            assert any(count(way) for way in ways), (text, clash, left_out)


@pytest.mark.slow
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
