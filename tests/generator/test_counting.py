"""Counting: exact, complete, reversible; and carries as often as theory says."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations_with_replacement, product
from math import comb, factorial

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.numbered.seeds import Dice, key
from generator.operations.columns.column_work import add_column
from generator.operations.columns.facts import total_of
from generator.operations.columns.fills import (
    Bunch,
    ColumnFills,
    Filling,
    Kind,
    Role,
    Status,
    symbols,
)
from tests.generator import oracle
from tests.generator.ladders import questions

# Small rungs, each counted again by going through every pair or triple of numbers.


def written(places: range, whole: range, *, end_zero: bool = False) -> list[str]:
    """Every number of such lengths, in text; noughts at the end of decimals only if asked."""
    found = []
    for length, before in product(places, whole):
        for units in range(10 ** (length + before)):
            text = str(units).rjust(length + before, "0")
            head = text[: len(text) - length]
            tail = text[len(text) - length :]
            if (head.startswith("0") and head) or not units:
                continue
            if length and tail.endswith("0") and not end_zero:
                continue
            found.append((head or "0") + ("." + tail if length else ""))
    return found


def both_have_a_digit(numbers: list[str], place: int) -> bool:
    """Whether two numbers have a digit in a column, noughts before the point left aside."""
    wholes = [0 if n.startswith("0.") else len(n.partition(".")[0]) for n in numbers]
    parts = [len(n.partition(".")[2]) for n in numbers]
    return sum(-part <= place < whole for part, whole in zip(parts, wholes, strict=True)) > 1


ADDITIONS = [
    (
        "places: 1, whole: {between: [0, 1]}, carries: none",
        2,
        range(1, 2),
        range(2),
        lambda n: not oracle.add(n).transfers,
    ),
    (
        "places: 1, whole: 1, carries: every",
        2,
        range(1, 2),
        range(1, 2),
        lambda n: set(oracle.add(n).transfers) == {-1, 0},
    ),
    (
        "places: {ragged: [1, 2]}, whole: 0",
        2,
        range(1, 3),
        range(1),
        lambda n: len({len(x) for x in n}) > 1,
    ),
    (
        "places: {ragged: [0, 2]}, whole: {between: [0, 1]}, "
        "carries: {count: [1, 2], across_point: false}",
        2,
        range(3),
        range(2),
        lambda n: (
            len({len(x.partition(".")[2]) for x in n}) > 1
            and 1 <= len(oracle.add(n).transfers) <= 2
            and not oracle.carries_across_point(n)
        ),
    ),
    (
        "places: 2, whole: 0, carries: {only: [hundredths]}",
        2,
        range(2, 3),
        range(1),
        lambda n: set(oracle.add(n).transfers) == {-2},
    ),
    (
        "places: 2, whole: 0, carries: {only: [tenths, hundredths]}",
        2,
        range(2, 3),
        range(1),
        lambda n: bool(oracle.add(n).transfers),
    ),
    (
        "places: {between: [1, 2]}, whole: 0, carries: {only: [ones, hundredths]}",
        2,
        range(1, 3),
        range(1),
        lambda n: oracle.add(n).transfers and -1 not in oracle.add(n).transfers,
    ),
    (
        "places: 1, whole: 0, carries: every",
        2,
        range(1, 2),
        range(1),
        lambda n: set(oracle.add(n).transfers) == {-1},
    ),
    (
        "places: {between: [0, 1]}, whole: {between: [0, 1]}, carries: every",
        2,
        range(2),
        range(2),
        lambda n: (
            set(oracle.add(n).transfers)
            >= {place for place, _ in oracle.columns(n) if both_have_a_digit(n, place)}
        ),
    ),
    (
        "places: {between: [0, 1]}, whole: {between: [0, 1]}, repeats: forbid",
        2,
        range(2),
        range(2),
        lambda n: (
            not any(
                len(set(digits)) == 1
                for place, digits in oracle.columns(n)
                if both_have_a_digit(n, place)
            )
        ),
    ),
    (
        "places: 2, whole: 0, carries: {in: [hundredths]}",
        2,
        range(2, 3),
        range(1),
        lambda n: -2 in oracle.add(n).transfers,
    ),
    (
        "places: 2, whole: 0, carries: {not_in: [tenths, ones], count: 1}",
        2,
        range(2, 3),
        range(1),
        lambda n: set(oracle.add(n).transfers) == {-2},
    ),
    (
        "places: 1, whole: 1, repeats: forbid",
        2,
        range(1, 2),
        range(1, 2),
        lambda n: all(len(set(digits)) == 2 for _, digits in oracle.columns(n)),
    ),
    (
        "places: 2, whole: {between: [0, 1]}, zeros: {inside: require}, carries: none",
        2,
        range(2, 3),
        range(2),
        lambda n: not oracle.add(n).transfers and any(map(oracle.inside_zero, n)),
    ),
    (
        "places: 2, whole: {between: [0, 1]}, zeros: {inside: forbid}, carries: none",
        2,
        range(2, 3),
        range(2),
        lambda n: not oracle.add(n).transfers and not any(map(oracle.inside_zero, n)),
    ),
    ("places: 1, whole: 0, addends: 4", 4, range(1, 2), range(1), lambda n: True),
    (
        "places: 1, whole: 0, addends: 4, answer: {whole_number: true}",
        4,
        range(1, 2),
        range(1),
        lambda n: oracle.answer("add", n) % 1 == 0,
    ),
    (
        "places: 1, whole: {between: [0, 1]}, answer: {between: [9.5, 10]}",
        2,
        range(1, 2),
        range(2),
        lambda n: 95 <= 10 * oracle.answer("add", n) <= 100,
    ),
    (
        "places: 2, whole: 0, answer: {above: 0.125, below: 0.5}",
        2,
        range(2, 3),
        range(1),
        lambda n: 125 < 1000 * oracle.answer("add", n) < 500,
    ),
    (
        "places: 2, whole: 0, answer: {ends_in_zero: true, whole: 1}",
        2,
        range(2, 3),
        range(1),
        lambda n: 100 * oracle.answer("add", n) % 10 == 0 and oracle.answer("add", n) >= 1,
    ),
    (
        "places: 2, whole: 0, answer: {places: 1}",
        2,
        range(2, 3),
        range(1),
        lambda n: 10 * oracle.answer("add", n) % 1 == 0 and oracle.answer("add", n) % 1 != 0,
    ),
    (
        "places: [1, 2], whole: [0, 1]",
        2,
        range(1, 3),
        range(2),
        lambda n: (
            sorted((len(x.partition(".")[2]), x[0] != "0") for x in n) == [(1, False), (2, True)]
        ),
    ),
    (
        "places: {same: [1, 2]}, whole: 0",
        2,
        range(1, 3),
        range(1),
        lambda n: len(n[0]) == len(n[1]),
    ),
]


@pytest.mark.parametrize(("text", "addends", "places", "whole", "meets"), ADDITIONS)
@pytest.mark.slow
def test_additions_are_exactly_those_that_meet_the_conditions(text, addends, places, whole, meets):
    rung = questions(f"operation: add, {text}")
    numbers = written(places, whole)
    expected = {
        tuple(sorted(chosen))
        for chosen in combinations_with_replacement(numbers, addends)
        if meets(list(chosen))
    }
    found = [rung.unrank(number) for number in range(rung.count)]
    assert rung.count == len(expected) > 0
    assert {tuple(sorted(map(str, q.operands))) for q in found} == expected
    assert [rung.rank(q) for q in found[:: 1 + len(found) // 300]] == list(
        range(0, len(found), 1 + len(found) // 300)
    )


SUBTRACTIONS = [
    ("places: 0, whole: 2, exchanges: none", range(1), range(2, 3),
     lambda n: not oracle.subtract(n).transfers),
    ("places: 0, whole: 2, exchanges: {count: 1}", range(1), range(2, 3),
     lambda n: len(oracle.subtract(n).transfers) == 1),
    ("places: 0, whole: 3, exchanges: {through_zeros: 1}", range(1), range(3, 4),
     lambda n: oracle.subtract(n).zeros_passed == (1,)),
    ("places: {between: [0, 2]}, whole: {between: [0, 1]}, longer: second, exchanges: every",
     range(3), range(2),
     lambda n: len(n[0].partition(".")[2]) < len(n[1].partition(".")[2])
     and set(oracle.subtract(n).transfers)
     == set(range(-len(n[1].partition(".")[2]), -1 if n[0].startswith("0") else 0))),
    ("places: 2, whole: 0, exchanges: every", range(2, 3), range(1),
     lambda n: set(oracle.subtract(n).transfers) == {-2}),
    ("places: 2, whole: 0, exchanges: {only: [tenths, hundredths]}", range(2, 3),
     range(1), lambda n: bool(oracle.subtract(n).transfers)),
    ("places: {between: [0, 2]}, whole: {between: [0, 1]}, longer: first, exchanges: some",
     range(3), range(2),
     lambda n: len(n[0].partition(".")[2]) > len(n[1].partition(".")[2])
     and bool(oracle.subtract(n).transfers)),
    ("places: 1, whole: {between: [0, 1]}, exchanges: {across_point: true}", range(1, 2), range(2),
     lambda n: -1 in oracle.subtract(n).transfers),
    ("places: 2, whole: {between: [0, 1]}, longer: neither, "
     "exchanges: {through_zeros: 1, count: 2}, answer: {below: 0.5}", range(2, 3), range(2),
     lambda n: len(oracle.subtract(n).zeros_passed) == 1 and len(oracle.subtract(n).transfers) == 2
     and 2 * oracle.answer("subtract", n) < 1),
    ("places: 2, whole: {between: [0, 1]}, zeros: {end: require}, exchanges: none", range(2, 3),
     range(2), lambda n: not oracle.subtract(n).transfers and any(map(oracle.end_zero, n))),
]  # fmt: skip


@pytest.mark.parametrize(("text", "places", "whole", "meets"), SUBTRACTIONS)
@pytest.mark.slow
def test_subtractions_are_exactly_those_that_meet_the_conditions(text, places, whole, meets):
    rung = questions(f"operation: subtract, {text}")
    numbers = written(places, whole, end_zero="end: require" in text)
    expected = {
        pair
        for pair in product(numbers, repeat=2)
        if oracle.answer("subtract", list(pair)) > 0 and meets(list(pair))
    }
    found = [rung.unrank(number) for number in range(rung.count)]
    assert rung.count == len(expected) > 0
    assert {tuple(map(str, q.operands)) for q in found} == expected
    assert all(rung.rank(q) == number for number, q in enumerate(found))


def test_two_digit_pairs_with_and_without_an_exchange() -> None:
    pairs = [(a, b) for a in range(10, 100) for b in range(10, 100) if a > b]
    none = sum(a % 10 >= b % 10 for a, b in pairs)
    assert questions("operation: subtract, places: 0, whole: 2, exchanges: none").count == none
    one = questions("operation: subtract, places: 0, whole: 2, exchanges: {count: 1}").count
    assert (none, one) == (2385, 1620)
    assert none + one == len(pairs) == 4005


# J. M. Holte, "Carries, Combinatorics, and an Amazing Matrix", American Mathematical Monthly
# 104 (1997) 138-149; P. Diaconis and J. Fulman, arXiv:0806.3583.


def holte(n: int, i: int, j: int, base: int = 10) -> Fraction:
    ways = sum(
        (-1) ** r * comb(n + 1, r) * comb(upper, n)
        for r in range(j - i // base + 1)
        if (upper := n - 1 - i + (j + 1 - r) * base) >= 0
    )
    return Fraction(ways, base**n)


def carry_chain(n: int) -> list[list[Fraction]]:
    """The chance of each carry after each, from the automaton's own column of free digits."""
    kind = Kind(places=(6,), whole=(9,))
    roles = tuple(Role(kind, 1) for _ in range(n))
    bunches = tuple(Bunch(role, Status.RUNNING, 1) for role in range(n))
    options = tuple(symbols(kind, Status.RUNNING, -2) for _ in range(n))
    fills = ColumnFills(Filling(roles, frozenset(), False), bunches, options)
    chain = [[Fraction(0)] * n for _ in range(n)]
    for tally, ways in fills.ways.items():
        for carry in range(n):
            after = add_column(total_of(tally), carry).carry_out
            chain[carry][after] += Fraction(ways, 10**n)
    return chain


@pytest.mark.parametrize("n", [2, 3, 4, 5, 6])
def test_free_columns_carry_as_in_holtes_matrix(n: int) -> None:
    assert carry_chain(n) == [[holte(n, i, j) for j in range(n)] for i in range(n)]


def test_holtes_matrix_has_the_published_entries() -> None:
    assert holte(2, 0, 0) == holte(2, 1, 1) == Fraction(55, 100)
    assert [holte(4, 0, j) * 10_000 for j in range(4)] == [715, 5280, 3795, 210]
    assert [holte(4, 1, j) * 10_000 for j in range(4)] == [495, 4840, 4335, 330]


def eulerian(n: int, k: int) -> int:
    return sum((-1) ** r * comb(n + 1, r) * (k + 1 - r) ** n for r in range(k + 1))


@pytest.mark.parametrize("n", [2, 3, 4, 5, 6])
def test_in_the_long_run_carries_are_shared_out_by_eulerian_numbers(n: int) -> None:
    chain = carry_chain(n)
    shares = [Fraction(eulerian(n, k), factorial(n)) for k in range(n)]
    assert [sum(shares[i] * chain[i][j] for i in range(n)) for j in range(n)] == shares
    assert n != 3 or shares == [Fraction(1, 6), Fraction(2, 3), Fraction(1, 6)]


# Uniform draws.


@pytest.mark.parametrize(
    "text",
    [
        "operation: add, places: 1, whole: 0, carries: {across_point: true}",
        "operation: subtract, places: 1, whole: {between: [0, 1]}, exchanges: {through_zeros: 0}",
        "operation: add, addends: 3, places: {ragged: [0, 1]}, whole: {between: [0, 1]}, "
        "carries: none, repeats: forbid",
    ],
)
@pytest.mark.slow
def test_every_question_of_a_small_rung_is_drawn_equally_often(text: str) -> None:
    rung = questions(text)
    dice = Dice(key("uniform", text))
    tally = [0] * rung.count
    draws = 30 * rung.count
    for _ in range(draws):
        tally[rung.rank(rung.unrank(dice.below(rung.count)))] += 1
    # The stream is fixed, so the p-value is too: the test is exact, not flaky.
    assert stats.chisquare(tally).pvalue > 0.001


def test_digits_of_a_large_rung_have_their_exact_shares() -> None:
    """First-place digits of 2 free addends: the exact share of each comes from counting."""
    rung = questions("operation: add, places: 3, whole: 3, carries: {across_point: true}")
    exact = [0] * 10
    for tenths in product(range(10), repeat=2):
        # Hundredths and thousandths of two numbers that end in no nought: all equally many
        # for each pair of tenths, so only the carry into the tenths needs counting.
        for carry, ways in enumerate(_carry_from_two_places()):
            if sum(tenths) + carry >= 10:
                exact[tenths[0]] += ways
                exact[tenths[1]] += ways
    dice = Dice(key("shares"))
    seen = [0] * 10
    for _ in range(20_000):
        for number in rung.unrank(dice.below(rung.count)).operands:
            seen[number.digit(-1)] += 1
    expected = [share * sum(seen) / sum(exact) for share in exact]
    assert stats.chisquare(seen, expected).pvalue > 0.001


def _carry_from_two_places() -> tuple[int, int]:
    ends = [n for n in range(100) if n % 10]
    carries = [(a + b) // 100 for a in ends for b in ends]
    return carries.count(0), carries.count(1)


# Large rungs.


def test_nine_digit_numbers_and_counts_beyond_10_to_the_39() -> None:
    rung = questions("operation: add, addends: 5, places: 3, whole: 5")
    distinct = 9 * 10**4 * 100 * 9
    assert rung.count == comb(distinct + 4, 5) > 10**36
    wider = questions("operation: add, addends: 5, places: 3, whole: 6")
    assert wider.count == comb(10 * distinct + 4, 5) > 10**39


RUNGS = [
    "operation: add, addends: 5, places: {ragged: [1, 3]}, whole: {between: [0, 2]}",
    "operation: add, addends: 6, places: {ragged: [0, 4]}, carries: {count: [3, 6]}, "
    "repeats: forbid",
    "operation: add, addends: 3, places: {between: [0, 4]}, whole: {between: [0, 5]}, "
    "carries: {across_point: true, not_in: [ones]}, zeros: {inside: require}",
    "operation: subtract, places: 4, whole: 5, exchanges: {through_zeros: [2, 4]}",
    "operation: subtract, places: {ragged: [0, 4]}, whole: {between: [0, 5]}, exchanges: every",
    "operation: add, addends: 4, places: [1, 3, 3, 0], answer: {whole: 2, ends_in_zero: false}",
]


@pytest.mark.parametrize("text", RUNGS)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_rank_undoes_unrank(text: str, data: st.DataObject) -> None:
    rung = questions(text)
    number = data.draw(st.integers(0, rung.count - 1))
    asked = rung.unrank(number)
    assert rung.rank(asked) == number
    if asked.operation is Operation.ADD:
        operands = data.draw(st.permutations(asked.operands))
        assert rung.rank(Question(Operation.ADD, tuple(operands))) == number


def test_numbers_beyond_the_count_are_refused() -> None:
    rung = questions("operation: add, places: 1, whole: 0")
    assert rung.count == 45
    for number in (-1, 45):
        with pytest.raises(IndexError, match="of 45"):
            rung.unrank(number)


def wrong_questions() -> Iterator[tuple[str, Question]]:
    yield "not a decimal place each", Question(Operation.ADD, (Number(34, 1), Number(27, 2)))
    yield "carries", Question(Operation.ADD, (Number(37, 1), Number(25, 1)))
    yield "another operation", Question(Operation.SUBTRACT, (Number(37, 1), Number(25, 1)))
    yield "three addends", Question(Operation.ADD, (Number(11, 1),) * 3)
    yield "ends in nought", Question(Operation.ADD, (Number(30, 1), Number(11, 1)))


@pytest.mark.parametrize(("why", "asked"), list(wrong_questions()))
def test_a_question_off_the_rung_has_no_number(why: str, asked: Question) -> None:
    rung = questions("operation: add, places: 1, whole: 1, carries: none")
    assert asked not in rung, why
    assert Question(Operation.ADD, (Number(34, 1), Number(25, 1))) in rung
    with pytest.raises(ValueError, match="not among"):
        rung.rank(asked)
