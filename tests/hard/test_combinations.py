"""Conditions put together at random: a rung holds what meets them all, counted by trying all.

Each condition is put beside others that it may clash with, so most rungs here are such as no
teacher writes; where nothing meets the conditions the count must be nought.
"""

import os
import random
from collections.abc import Callable
from decimal import Decimal
from itertools import combinations_with_replacement
from typing import Final, NamedTuple

import pytest

from tests.generator import oracle
from tests.generator.ladders import questions
from tests.generator.test_counting import both_have_a_digit, written

pytestmark = pytest.mark.slow

RUNGS: Final = 400 if os.environ.get("RUNGSHEET_NIGHTLY") else 8


class Pair(NamedTuple):
    """Two numbers in the order of printing, and what happens when they are worked."""

    numbers: list[str]
    worked: oracle.Worked
    answer: Decimal

    @property
    def places(self) -> list[int]:
        return [len(number.partition(".")[2]) for number in self.numbers]

    @property
    def at(self) -> set[int]:
        """The columns that carry, or receive ten."""
        return set(self.worked.transfers)


Holds = Callable[[Pair], bool]
Row = tuple[str, Holds]

# How long the numbers are, the numbers themselves, and which of their pairs are as long.
LENGTHS: Final[list[tuple[str, list[str], Holds]]] = [
    ("places: 1, whole: 1", written(range(1, 2), range(1, 2)), lambda p: True),
    ("places: 0, whole: 1", written(range(1), range(1, 2)), lambda p: True),
    ("places: 0, whole: {between: [1, 2]}", written(range(1), range(1, 3)), lambda p: True),
    ("places: {between: [0, 1]}, whole: {between: [1, 2]}", written(range(2), range(1, 3)),
     lambda p: True),
    ("places: {ragged: [1, 2]}, whole: 0", written(range(1, 3), range(1)),
     lambda p: p.places[0] != p.places[1]),
    ("places: {ragged: [0, 2]}, whole: 1", written(range(3), range(1, 2)),
     lambda p: p.places[0] != p.places[1]),
    ("places: {same: [1, 2]}, whole: 0", written(range(1, 3), range(1)),
     lambda p: p.places[0] == p.places[1]),
    ("places: [2, 1], whole: 1", written(range(1, 3), range(1, 2)), lambda p: p.places == [2, 1]),
    ("places: [0, 1], whole: 1", written(range(2), range(1, 2)), lambda p: p.places == [0, 1]),
]  # fmt: skip

OF_ANY: Final[list[Row]] = [
    ("zeros: {inside: forbid}", lambda p: not any(map(oracle.inside_zero, p.numbers))),
    ("zeros: {inside: require}", lambda p: any(map(oracle.inside_zero, p.numbers))),
    ("zeros: {end: forbid}", lambda p: not any(map(oracle.end_zero, p.numbers))),
    ("answer: {whole_number: true}", lambda p: p.answer % 1 == 0),
    ("answer: {places: 1}", lambda p: p.answer % 1 != 0 and p.answer * 10 % 1 == 0),
    ("answer: {whole: 1}", lambda p: 1 <= p.answer < 10),
    ("answer: {above: 2.5}", lambda p: p.answer > Decimal("2.5")),
    ("answer: {between: [0.5, 9]}", lambda p: Decimal("0.5") <= p.answer <= 9),
    ("answer: {ends_in_zero: true}", lambda p: p.answer * 10 ** max(p.places) % 10 == 0),
    *(
        (f"{word}: {number}", lambda p, at=at, number=number: p.numbers[at] == number)
        for at, word in enumerate(("first", "second"))
        for number in ("7", "5.1", "0.6", "3.46", "12")
    ),
]

OF: Final[dict[str, list[Row]]] = {
    "add": [
        ("carries: none", lambda p: not p.at),
        ("carries: some", lambda p: bool(p.at)),
        ("carries: {count: 1}", lambda p: len(p.at) == 1),
        ("carries: {across_point: true}", lambda p: -1 in p.at),
        ("carries: {only: [ones, tenths]}", lambda p: bool(p.at) and p.at <= {0, -1}),
        ("carries: {in: ones, not_in: tenths}", lambda p: 0 in p.at and -1 not in p.at),
        ("carries: every", lambda p: all(
            place in p.at for place in range(-2, 2) if both_have_a_digit(p.numbers, place))),
    ],
    "subtract": [
        ("exchanges: none", lambda p: not p.at),
        ("exchanges: some", lambda p: bool(p.at)),
        ("exchanges: {count: [1, 2]}", lambda p: 1 <= len(p.at) <= 2),
        ("exchanges: {across_point: false}", lambda p: -1 not in p.at),
        ("exchanges: {only: tenths}", lambda p: p.at == {-1}),
        ("exchanges: {through_zeros: 0}", lambda p: not p.worked.zeros_passed),
        ("exchanges: {through_zeros: 1}", lambda p: len(p.worked.zeros_passed) == 1),
        ("longer: first", lambda p: p.places[0] > p.places[1]),
        ("longer: second", lambda p: p.places[0] < p.places[1]),
    ],
}  # fmt: skip


def pair(operation: str, numbers: list[str]) -> Pair:
    """Two numbers worked in the plainest way."""
    work = oracle.add if operation == "add" else oracle.subtract
    return Pair(numbers, work(numbers), oracle.answer(operation, numbers))


def drawn(operation: str, dice: random.Random) -> tuple[str, list[str], list[Holds]]:
    """A rung in a line, the numbers that it may hold, and what a pair of them must meet."""
    lengths, numbers, as_long = dice.choice(LENGTHS)
    rows = dice.sample([*OF_ANY, *OF[operation]], dice.randint(1, 3))
    words = {text.partition(":")[0]: (text, holds) for text, holds in rows}  # one of a word
    text = ", ".join([f"operation: {operation}", lengths, *(said for said, _ in words.values())])
    return text, numbers, [as_long, *(holds for _, holds in words.values())]


@pytest.mark.parametrize("seed", range(RUNGS))
@pytest.mark.parametrize("operation", OF)
def test_a_rung_holds_exactly_what_meets_all_its_conditions(operation: str, seed: int) -> None:
    text, numbers, asked = drawn(operation, random.Random(f"{operation} {seed}"))
    expected = set()
    for chosen in combinations_with_replacement(numbers, 2):
        for order in {chosen, chosen[::-1]}:
            if operation == "subtract" and Decimal(order[0]) <= Decimal(order[1]):
                continue
            one = pair(operation, list(order))
            if all(holds(one) for holds in asked):
                expected.add(tuple(sorted(order)) if operation == "add" else order)
    found = questions(text)
    assert found.count == len(expected), text
    for number in range(0, found.count, 1 + found.count // 500):
        order = tuple(map(str, found.unrank(number).operands))
        assert (tuple(sorted(order)) if operation == "add" else order) in expected, text
