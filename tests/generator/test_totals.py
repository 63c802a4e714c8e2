"""Counts for each total as one long number: multiplying adds up every pair of totals."""

from collections import Counter
from itertools import accumulate

from hypothesis import given
from hypothesis import strategies as st

from generator.operations.columns.totals import raised, running, unpacked, ways_to

# Sixty pairs of 8000 × 8000 are fewer than a digit of the long number can hold.
COUNTS = st.lists(st.integers(0, 8_000), max_size=60)


def number(ways: list[int]) -> int:
    return sum(raised(count, total) for total, count in enumerate(ways))


def test_one_digit_and_another_make_each_total_as_often_as_in_the_addition_square() -> None:
    any_digit = number([1] * 10)
    assert unpacked(any_digit * any_digit) == (*range(1, 11), *range(9, 0, -1))


@given(COUNTS, COUNTS)
def test_multiplying_adds_up_every_pair_of_totals(first: list[int], second: list[int]) -> None:
    both: Counter[int] = Counter()
    for total, ways in enumerate(first):
        for other, more in enumerate(second):
            both[total + other] += ways * more
    product = number(first) * number(second)
    assert all(ways_to(product, total) == ways for total, ways in both.items())


@given(COUNTS, st.integers(0, 5))
def test_running_counts_are_the_ways_to_stay_below_each_total(ways: list[int], beyond: int) -> None:
    length = len(ways) + beyond
    assert list(running(number(ways), length)) == list(accumulate(ways + [0] * beyond, initial=0))
