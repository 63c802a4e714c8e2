"""The parts that counting is made of: orders, choices, totals, tallies, columns and writings.

Small cases gone through one by one, the rest against ``itertools``, ``math`` and ``decimal``.
"""

from dataclasses import dataclass
from itertools import combinations, product
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.allowance import TooWideError
from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.numbered.choices import choice_number, chosen
from generator.numbered.permutation import Permutation
from generator.numbered.seeds import Dice, key
from generator.numbered.writings import Writing
from generator.operations.columns import facts, totals
from generator.operations.columns.automaton import ColumnCount
from generator.operations.columns.column_work import (
    SUBTRAHEND_WEIGHT,
    ColumnWork,
    Form,
    add_column,
    subtract_column,
)
from generator.operations.columns.facts import Counts, Fact
from generator.operations.columns.fills import (
    Bunch,
    ColumnFills,
    Filled,
    Filling,
    Kind,
    Role,
    Status,
    Symbol,
    Taken,
    bunches_key,
    bunches_of,
    symbols,
)
from generator.operations.products.counting import (
    Counted,
    Pairs,
    ProductColumn,
    Rows,
    Watched,
    carries,
)
from generator.operations.quotients.counting import (
    ANY_DIGITS,
    Dividends,
    Divisions,
    Finish,
    short_division,
)
from tests.generator import oracle_products
from tests.generator.ladders import questions

# Orders. The kept values say that a key gives the same order for ever.


@pytest.mark.parametrize(
    ("size", "first"),
    [
        (1, [0]),
        (2, [1, 0]),
        (512, [217, 134, 157]),
        (513, [241, 157, 173]),
        (10**6, [862323, 906434, 616340]),
        (
            10**40,
            [
                9559821773070446969719092442053876601882,
                4544463340915862754564065017701780328471,
                2558788998230258747948118819743471998790,
            ],
        ),
        (40_000, [18947, 9696, 35728]),
        (
            10**300,
            [
                380688195977482059875733022936447425793507740125491816738074667931315051904816963662978145564246662798910598126106299354851810729386197945110490806201089109633512053718374227873453271969552677099133729262990782313107380503580427102894030265968578616996395593666328044796977807410896442588073454258377,
                557675315985008795250165865060771409179419234839949204632844944256339890410513679020417563525092738213816722174520728254734337090367786265333364175826432645567218347411196612958144760671905855218898059046530985218078645515401553080986089872976539433973752693473786994138907564634172057126417794354239,
                660931470456048294414267546187542744541921328651916232928746942744512307931915128934026944355075826947751443612165819853452747650272271993113340719793134522311100807211589944787499503496082693682015109738341714117394636460822915202865000653649292002512520098109411462731491821251999001527249427132631,
            ],
        ),
    ],
)
def test_a_key_gives_the_same_order_for_ever(size: int, first: list[int]) -> None:
    order = Permutation(size, key("kept", size))
    assert [order[place] for place in range(len(first))] == first
    assert [order.place_of(value) for value in first] == list(range(len(first)))


def test_up_to_512_things_are_shuffled_and_more_are_not() -> None:
    for size in (1, 2, 511, 512, 513):
        order = Permutation(size, key("shuffled"))
        found = [order[place] for place in range(size)]
        assert (found == Dice(key("shuffled")).shuffled(range(size))) is (size < 513)


@pytest.mark.parametrize("size", [1, 512, 513])
def test_an_order_begins_at_nought_and_ends_before_its_size(size: int) -> None:
    order = Permutation(size, key("edges", size))
    for wrong in (-1, size):
        with pytest.raises(IndexError, match=f"{wrong} is not below {size}"):
            order[wrong]
        with pytest.raises(IndexError, match=f"{wrong} is not below {size}"):
            order.place_of(wrong)
    for place in (0, size - 1):
        assert order.place_of(order[place]) == place


# Choices.


@pytest.mark.parametrize(("size", "among"), [(1, 1), (1, 5), (2, 5), (3, 6), (6, 6), (4, 8)])
def test_choices_are_all_and_stand_in_the_order_of_their_greatest_things(
    size: int, among: int
) -> None:
    found = [chosen(number, size, among) for number in range(comb(among, size))]
    falling = [tuple(reversed(things)) for things in combinations(range(among), size)]
    assert found == sorted(falling)
    assert [choice_number(things) for things in found] == list(range(len(found)))
    for wrong in (-1, comb(among, size)):
        with pytest.raises(IndexError, match=str(wrong)):
            chosen(wrong, size, among)


# Totals: each count is a digit of 32 bits.


def test_totals_are_listed_up_to_the_greatest() -> None:
    counts = totals.raised(7, 0) + totals.raised(2**32 - 1, 2) + totals.raised(1, 3)
    assert totals.unpacked(counts) == (7, 0, 2**32 - 1, 1)
    assert [totals.ways_to(counts, total) for total in range(6)] == [7, 0, 2**32 - 1, 1, 0, 0]
    assert totals.unpacked(0) == ()
    assert totals.unpacked(totals.raised(2**31, 1)) == (0, 2**31)
    assert totals.running(counts, 5) == (0, 7, 7, 7 + 2**32 - 1, 7 + 2**32, 7 + 2**32)


# Facts.


def test_a_tally_holds_a_total_and_counts_side_by_side() -> None:
    shifts = {fact.name: fact.shift for fact in Fact}
    assert shifts == {
        "PRESENT": 8,
        "STARTS": 11,
        "ENDS": 14,
        "INSIDE_ZEROS": 17,
        "END_ZEROS": 20,
    }
    tally = 200
    for count, fact in enumerate(Fact, 2):
        tally += count << fact.shift
    tally += facts.digit_field(0) + facts.digit_field(9)
    assert facts.total_of(tally) == 200
    assert facts.without_total(tally) == tally - 200
    assert [facts.count_of(tally, fact) for fact in Fact] == [2, 3, 4, 5, 6]
    assert facts.counts_of(facts.without_total(tally)) == Counts(2, 3, 4, 5, 6)
    beyond = facts.FACTS_MASK + 1
    assert tally & facts.FACTS_MASK == tally % beyond
    assert tally // beyond == 1 + (1 << 27)
    assert facts.digit_field(9) < 1 << facts.BUNCHES_SHIFT
    assert 8 * facts.digit_field(9) == 1 << facts.BUNCHES_SHIFT


def tally_of(total: int, *counts: int) -> int:
    return total + sum(count << fact.shift for count, fact in zip(counts, Fact, strict=True))


@pytest.mark.parametrize(
    ("counts", "ordered", "seen"),
    [
        ((0, 0, 0, 0, 0), False, (0, 0, 0, 0, 0)),
        ((1, 1, 1, 1, 1), False, (1, 1, 1, 1, 1)),
        ((2, 2, 2, 2, 2), False, (2, 1, 1, 1, 1)),
        ((6, 6, 6, 6, 6), False, (2, 1, 1, 1, 1)),
        ((3, 2, 3, 2, 2), True, (3, 2, 3, 1, 1)),
        ((1, 0, 2, 0, 1), True, (1, 0, 2, 0, 1)),
    ],
)
def test_more_than_enough_counts_as_enough(
    counts: tuple[int, ...], ordered: bool, seen: tuple[int, ...]
) -> None:
    """Of a subtraction's numbers it is said which they are."""
    for total in (0, 37, 255):
        assert facts.capped(tally_of(total, *counts), ordered=ordered) == tally_of(total, *seen)


@pytest.mark.parametrize("times", range(8))
def test_a_digit_that_stands_twice_is_seen(times: int) -> None:
    for digit in range(10):
        others = sum(facts.digit_field(other) for other in range(10) if other != digit)
        for more in (0, others, 1 << facts.BUNCHES_SHIFT, facts.FACTS_MASK):
            tally = times * facts.digit_field(digit) + more
            assert facts.repeats_a_digit(tally) == (times > 1)


# The work of a column.


@pytest.mark.parametrize(("total", "carry"), list(product(range(55), range(6))))
def test_a_column_of_an_addition(total: int, carry: int) -> None:
    assert add_column(total, carry) == ColumnWork(
        (total + carry) % 10, (total + carry) // 10, False
    )


def test_a_column_of_a_subtraction() -> None:
    for upper, lower, lends in product(range(10), range(10), range(2)):
        left = upper - lends - lower
        worked = subtract_column(upper + SUBTRAHEND_WEIGHT * lower, lends)
        receives = left < 0
        assert worked == ColumnWork(left + 10 * receives, receives, upper == 0 and lends == 1)
    assert SUBTRAHEND_WEIGHT == 16


@pytest.mark.parametrize(
    ("places", "whole", "extra", "columns"),
    [((0,), (1,), 0, [0]), ((1, 2), (0,), 1, [-2, -1, 0, 1]), ((0, 1), (0, 3), 0, [-1, 0, 1, 2])],
)
def test_columns_reach_from_the_last_place_to_the_top_and_beyond(places, whole, extra, columns):
    short = Role(Kind((0,), (1,)), 1)
    form = Form((Role(Kind(places, whole), 1), short), add_column, extra, ())
    assert list(form.columns) == columns
    assert not form.distinct


# Writings.


def written(whole: int, places: int, end_zero: bool) -> list[Number]:
    """Every number so written but nought, by going through all."""
    found = []
    for units in range(1, 10 ** (whole + places)):
        text = str(Number(units, places))
        before, _, after = text.partition(".")
        if len(before.lstrip("0")) == whole and (end_zero or not after.endswith("0")):
            found.append(Number(units, places))
    return found


@pytest.mark.parametrize("end_zero", [False, True])
@pytest.mark.parametrize(
    ("whole", "places"), [(0, 0), (0, 1), (0, 3), (1, 0), (2, 0), (1, 1), (1, 2), (2, 2)]
)
def test_writings_are_all_numbers_so_written_smallest_first(
    whole: int, places: int, end_zero: bool
) -> None:
    writing = Writing(whole, places, end_zero)
    numbers = written(whole, places, end_zero)
    assert writing.count == len(numbers)
    assert [writing.unrank(index) for index in range(writing.count)] == numbers
    assert [writing.rank(number) for number in numbers] == list(range(len(numbers)))
    for wrong in (-1, writing.count):
        with pytest.raises(IndexError, match=str(wrong)):
            writing.unrank(wrong)


@pytest.mark.parametrize(
    ("writing", "number"),
    [
        (Writing(1, 1), Number(340, 2)),
        (Writing(1, 1), Number(345, 1)),
        (Writing(1, 1), Number(3)),
        (Writing(1, 1), Number(4, 1)),
        (Writing(1, 1), Number(30, 1)),
        (Writing(0, 1), Number(0, 1)),
        (Writing(0, 1, True), Number(0, 1)),
        (Writing(0, 2, True), Number(100, 2)),
    ],
)
def test_a_number_written_otherwise_has_no_index(writing: Writing, number: Number) -> None:
    assert writing.rank(number) is None


def test_writings_say_how_many_parts_they_have() -> None:
    assert [Writing(whole, 0).wholes for whole in range(4)] == [1, 9, 90, 900]
    assert [Writing(1, places).decimals for places in range(4)] == [1, 9, 90, 900]
    assert [Writing(1, places, True).decimals for places in range(4)] == [1, 10, 100, 1000]
    assert not Writing(1, 1).end_zero


# What a number can do in a column.

ANY = Kind(places=(0, 1, 2), whole=(0, 1, 2))


def told(kind: Kind, status: Status, place: int) -> set[tuple[str, str]]:
    """Each symbol as its digit (``-``: none) with marks for what it is, and the status after."""
    found = []
    for symbol in symbols(kind, status, place):
        marks = "".join(
            sign
            for sign, is_so in zip(
                "<>eo",
                (symbol.ends, symbol.starts, symbol.end_zero, symbol.inside_zero),
                strict=True,
            )
            if is_so
        )
        digit = "-" if symbol.digit is None else str(symbol.digit)
        if symbol.digit in (None, 0, 1, 9):
            found.append((digit + marks, symbol.status.name))
    assert len(set(found)) == len(found)
    return set(found)


def test_a_number_that_is_done_writes_nothing() -> None:
    assert symbols(ANY, Status.DONE, 0) == (Symbol(None, Status.DONE),)


def test_a_waiting_number_may_begin_where_a_length_begins() -> None:
    assert told(ANY, Status.WAITING, -2) == {
        ("-", "WAITING"),
        ("1>", "RUNNING"),
        ("9>", "RUNNING"),
    }
    two = Kind(places=(2,), whole=(1,))
    assert told(two, Status.WAITING, -3) == {("-", "WAITING")}
    assert told(two, Status.WAITING, -2) == {("1>", "RUNNING"), ("9>", "RUNNING")}
    assert told(two, Status.WAITING, -1) == set()
    assert told(Kind((0,), (1,)), Status.WAITING, 0) == {("1<>", "DONE"), ("9<>", "DONE")}
    assert told(Kind((0,), (2,)), Status.WAITING, 0) == {
        ("0>e", "NOUGHTS"),
        ("1>", "RUNNING"),
        ("9>", "RUNNING"),
    }
    assert told(Kind((0,), (2,), whole_end_zero=False), Status.WAITING, 0) == {
        ("1>", "RUNNING"),
        ("9>", "RUNNING"),
    }
    assert ("0>e", "NOUGHTS") in told(Kind((2,), (1,), end_zero=True), Status.WAITING, -2)


def test_noughts_so_far_may_go_on() -> None:
    ending = Kind(places=(2,), whole=(0, 1), end_zero=True)
    assert told(ending, Status.NOUGHTS, -1) == {
        ("0e", "NOUGHTS"),
        ("1", "RUNNING"),
        ("9", "RUNNING"),
    }
    assert told(ending, Status.NOUGHTS, 0) == {("1<", "DONE"), ("9<", "DONE")}


def test_a_number_under_way_ends_where_a_length_ends() -> None:
    assert told(ANY, Status.RUNNING, -1) == {
        ("0o", "RUNNING"),
        ("1", "RUNNING"),
        ("9", "RUNNING"),
    }
    assert told(ANY, Status.RUNNING, 0) == {
        ("0<", "DONE"),
        ("0o", "RUNNING"),
        ("1<", "DONE"),
        ("1", "RUNNING"),
        ("9<", "DONE"),
        ("9", "RUNNING"),
    }
    assert told(ANY, Status.RUNNING, 1) == {("1<", "DONE"), ("9<", "DONE")}
    assert told(Kind((1,), (0,)), Status.RUNNING, 0) == {("0<", "DONE")}
    assert told(Kind((1,), (3,), inside_zero=False), Status.RUNNING, 0) == {
        ("1", "RUNNING"),
        ("9", "RUNNING"),
    }


def test_a_kind_says_its_lengths() -> None:
    kind = Kind(places=(0, 2), whole=(0, 3))
    assert (kind.last_place, kind.top_place) == (-2, 2)
    assert (Kind((1,), (0,)).last_place, Kind((1,), (0,)).top_place) == (-1, 0)
    assert kind.matches(0, 3)
    assert not kind.matches(1, 3)
    assert not kind.matches(2, 1)
    assert (kind.end_zero, kind.whole_end_zero, kind.inside_zero) == (False, True, True)


# Bunches and the ways to fill a column.


@given(
    st.lists(
        st.builds(
            Bunch,
            st.integers(0, 3),
            st.sampled_from([Status.WAITING, Status.NOUGHTS, Status.RUNNING]),
            st.integers(1, 6),
        ),
        max_size=6,
    )
)
def test_bunches_are_named_by_a_number(bunches: list[Bunch]) -> None:
    assert bunches_of(bunches_key(bunches)) == tuple(sorted(bunches))
    assert bunches_key([*bunches, Bunch(0, Status.DONE, 2)]) == bunches_key(bunches)


KINDS = Kind((1,), (1, 2)), Kind((0, 1), (0, 1))


@pytest.mark.parametrize("distinct", [False, True])
@pytest.mark.parametrize("sizes", [(1,), (2,), (3,), (1, 1), (2, 1)])
def test_ways_to_fill_a_column_are_all_and_numbered(sizes: tuple[int, ...], distinct: bool) -> None:
    """Gone through again one by one: what each number of each bunch takes, in rising order."""
    roles = tuple(Role(kind, size) for kind, size in zip(KINDS, sizes, strict=False))
    bunches = tuple(Bunch(role, Status.RUNNING, size) for role, size in enumerate(sizes))
    options = tuple(symbols(role.kind, Status.RUNNING, 0) for role in roles)
    filling = Filling(roles, frozenset(Fact), distinct)
    fills = ColumnFills(filling, bunches, options)
    assert fills.sizes == list(sizes)
    expected: dict[int, int] = {}
    for numbers in product(
        *(range(len(options[at])) for at, size in enumerate(sizes) for _ in range(size))
    ):
        at, choice, digits = 0, [], []
        for bunch, size in enumerate(sizes):
            taken = numbers[at : at + size]
            choice.append(taken)
            symbols_taken = [options[bunch][index] for index in taken]
            # The nought before the point of 0.4, where a number ends, repeats no other.
            digits += [one.digit for one in symbols_taken if one.digit or not one.ends]
            at += size
        if any(list(taken) != sorted(taken) for taken in choice):
            continue
        if distinct and len(set(digits)) < len(digits):
            continue
        tally = sum(
            filling.tally(bunch, options[bunch][index])
            for bunch, taken in enumerate(choice)
            for index in taken
        )
        left = [
            Bunch(bunch, options[bunch][index].status, taken.count(index))
            for bunch, taken in enumerate(choice)
            for index in set(taken)
        ]
        tally += bunches_key(left) << facts.BUNCHES_SHIFT
        expected[tally] = expected.get(tally, 0) + 1
        ranked = fills.rank(tuple(choice))
        assert ranked is not None
        assert ranked[0] == tally
        assert 0 <= ranked[1] < fills.ways[tally]
        assert fills.unrank(*ranked) == fills.filled(tuple(choice))
    assert fills.ways == expected
    ordered = {facts.capped(tally & facts.FACTS_MASK, ordered=False) for tally in expected}
    assert set(fills.facts) == ordered
    for seen in ordered:
        leaving = fills.left((range(seen, seen + 1),))
        ways: dict[int, int] = {}
        for tally, count in expected.items():
            if facts.capped(tally & facts.FACTS_MASK, ordered=False) == seen:
                bunches_left = tally >> facts.BUNCHES_SHIFT
                ways[bunches_left] = ways.get(bunches_left, 0) + count
        assert dict(zip(leaving.bunches, leaving.ways, strict=True)) == ways


def test_numbers_that_chose_alike_stay_together() -> None:
    kind = Kind((0,), (1, 2))
    filling = Filling((Role(kind, 3),), frozenset(), False)
    options = symbols(kind, Status.WAITING, 0)
    fills = ColumnFills(filling, (Bunch(0, Status.WAITING, 3),), (options,))
    five, ends = (
        next(i for i, s in enumerate(options) if s.digit == 5 and s.ends is ending)
        for ending in (False, True)
    )
    assert fills.filled(((five, five, ends),) if five < ends else ((ends, five, five),)) == Filled(
        going_on=tuple(Taken(at, 0, options[five]) for at in ((0, 1) if five < ends else (1, 2))),
        done=(Taken(2 if five < ends else 0, 0, options[ends]),),
    )


def test_a_subtractions_numbers_have_roles_of_their_own() -> None:
    kind = Kind((0,), (1,))
    pair = Role(kind, 1), Role(kind, 1, digit_weight=16, presence_weight=2)
    ordered = Filling(pair, frozenset({Fact.PRESENT, Fact.STARTS, Fact.ENDS}), True)
    assert ordered.ordered
    assert not Filling((Role(kind, 1), Role(kind, 2)), frozenset(), False).ordered
    seven = Symbol(7, Status.DONE, starts=True, ends=True)
    fields = (Fact.PRESENT, Fact.STARTS, Fact.ENDS)
    assert ordered.tally(0, seven) == (
        7 + sum(1 << fact.shift for fact in fields) + facts.digit_field(7)
    )
    assert ordered.tally(1, seven) == (
        7 * 16 + sum(2 << fact.shift for fact in fields) + facts.digit_field(7)
    )
    assert ordered.tally(1, Symbol(None, Status.WAITING)) == 0
    middle = Symbol(0, Status.RUNNING)
    assert ordered.tally(0, middle) == (1 << Fact.PRESENT.shift) + facts.digit_field(0)
    noughts = Filling(pair, frozenset({Fact.INSIDE_ZEROS, Fact.END_ZEROS}), False)
    assert noughts.tally(1, Symbol(0, Status.RUNNING, inside_zero=True)) == (
        1 << Fact.INSIDE_ZEROS.shift
    )
    assert noughts.tally(1, Symbol(0, Status.NOUGHTS, end_zero=True)) == 1 << Fact.END_ZEROS.shift


# How much work counting takes.


def test_a_rung_is_refused_by_its_work_and_not_by_the_clock() -> None:
    """The same rungs are too wide on every machine: the work is a kept number of steps."""
    kind = Kind((1,), (1,))
    form = Form((Role(kind, 2),), add_column, 1, ())
    needed = 444
    assert ColumnCount(form).count_within(needed) == comb(81 + 1, 2)
    with pytest.raises(TooWideError):
        ColumnCount(form).count_within(needed - 1)


# Products: multiplicands whose every digit a watch has seen.


@dataclass(frozen=True)
class Carrying:
    """A watch for tests: which rows' products carry, from the right-most digit on."""

    wanted: tuple[tuple[bool, ...], ...]
    rows: Rows = Rows.IN_ORDER
    start: int = 0

    def step(self, state: object, column: ProductColumn) -> int | None:
        assert column.place == state
        assert column.top == (column.place == len(self.wanted) - 1)
        return column.place + 1 if column.carries == self.wanted[column.place] else None

    def accepts(self, state: object) -> bool:
        return state == len(self.wanted)


def rows_by_hand(multiplicand: int, multiplier: int) -> list[tuple[bool, ...]]:
    """Which products of each row carry, from the right, worked digit by digit."""
    rows = []
    for digit in map(int, reversed(str(multiplier))):
        carried, row = 0, []
        for upper in map(int, reversed(str(multiplicand))):
            carried = (digit * upper + carried) // 10
            row.append(carried > 0)
        rows.append(tuple(row) if digit else ())
    return rows


@pytest.mark.parametrize("multiplier", [6, 23, 32, 99, 102, 120])
def test_multiplicands_are_those_whose_rows_carry_so(multiplier: int) -> None:
    alike: dict[tuple[tuple[bool, ...], ...], list[int]] = {}
    for multiplicand in range(10, 100):
        rows = rows_by_hand(multiplicand, multiplier)
        assert list(carries(multiplicand, multiplier)) == rows
        columns = tuple(zip(*(row for row in rows if row), strict=True))
        alike.setdefault(columns, []).append(multiplicand)
    counted = Counted()
    for columns, multiplicands in alike.items():
        pairs = Pairs(2, [Watched(multiplier, (Carrying(columns),))], counted)
        assert pairs.count == len(multiplicands)
        found = [pairs.unrank(number) for number in range(pairs.count)]
        assert sorted(found) == [(multiplicand, multiplier) for multiplicand in multiplicands]
        assert [pairs.rank(pair) for pair in found] == list(range(pairs.count))


@dataclass(frozen=True)
class LastRowCarries:
    """A watch for tests: every product of the multiplier's left-most digit carries."""

    rows: Rows = Rows.IN_ORDER
    start: bool = True

    def step(self, state: object, column: ProductColumn) -> bool | None:
        return True if column.carries[-1] else None

    def accepts(self, state: object) -> bool:
        return True


def test_rows_of_one_multiplier_are_not_taken_for_those_of_another() -> None:
    multipliers = (6, 26, 62, 126, 602, 9)
    watched = [Watched(multiplier, (LastRowCarries(),)) for multiplier in multipliers]
    pairs = Pairs(2, watched, Counted())
    expected = {
        (multiplicand, multiplier)
        for multiplier in multipliers
        for multiplicand in range(10, 100)
        if all([row for row in rows_by_hand(multiplicand, multiplier) if row][-1])
    }
    assert {pairs.unrank(number) for number in range(pairs.count)} == expected
    assert pairs.count == len(expected)


def test_a_pair_of_another_length_or_multiplier_has_no_number() -> None:
    pairs = Pairs(2, [Watched(6, ()), Watched(7, ())], Counted())
    assert pairs.count == 180
    assert pairs.rank((24, 7)) is not None
    for multiplicand, multiplier in ((124, 6), (4, 6), (24, 8), (0, 6)):
        assert pairs.rank((multiplicand, multiplier)) is None
    assert Pairs(2, [], Counted()).count == 0


# Divisions: dividends within bounds, and the columns of a division.


@pytest.mark.parametrize("divisor", [3, 10, 11])
@pytest.mark.parametrize("ending", [Ending.EXACT, Ending.REMAINDER])
def test_dividends_lie_within_their_bounds(divisor: int, ending: Ending) -> None:
    divisions = Divisions(divisor, Finish(ending), (), ANY_DIGITS)
    bounds = (None, 1, 9, 10, 11, 20, 36, 98, 99, 100, 101, 110, 130)
    for low, high in product(bounds, repeat=2):
        dividends = Dividends(divisions, low, high)
        for length in (1, 2, 3):
            expected = [
                dividend
                for dividend in range(10 ** (length - 1), 10**length)
                if (low is None or dividend >= low)
                and (high is None or dividend <= high)
                and (dividend % divisor == 0 or ending is Ending.REMAINDER)
                and (dividend % divisor or ending is Ending.EXACT)
                and dividend >= divisor
            ]
            assert dividends.count(length) == len(expected)
            some = range(0, len(expected), 1 + len(expected) // 20)
            assert [dividends.unrank(length, number) for number in some] == expected[:: some.step]
            assert [dividends.rank(expected[number]) for number in some] == list(some)
            for outside in {low, high} - {None}:
                assert outside is not None
                for near in (outside - 1, outside, outside + 1):
                    if len(str(near)) == length and near:
                        assert (dividends.rank(near) is not None) == (near in expected)


@pytest.mark.parametrize(
    ("dividend", "divisor", "ending", "places", "more"),
    [
        ("98", "7", Ending.EXACT, 0, 0),
        ("408", "2", Ending.EXACT, 0, 0),
        ("432", "5", Ending.REMAINDER, 0, 0),
        ("432", "15", Ending.FRACTION, 0, 0),
        ("432", "15", Ending.DECIMAL, 0, 1),
        ("1", "8", Ending.DECIMAL, 0, 3),
        ("17", "16", Ending.DECIMAL, 0, 4),
        ("2", "3", Ending.DECIMAL, 0, 12),
        ("18.27", "7", Ending.EXACT, 0, 0),
        ("4.08", "0.2", Ending.EXACT, 0, 0),
        ("4", "0.2", Ending.EXACT, 0, 0),
        ("0.04", "0.002", Ending.EXACT, 0, 0),
        ("4.5", "0.25", Ending.EXACT, 0, 0),
        ("20", "3", Ending.ROUNDED, 2, 2),
        ("2.05", "0.3", Ending.ROUNDED, 2, 1),
        ("20", "0.7", Ending.ROUNDED, 1, 1),
    ],
)
def test_the_columns_of_a_division(
    dividend: str, divisor: str, ending: Ending, places: int, more: int
) -> None:
    """Worked again on text; ``more`` noughts follow the dividend, as counted by hand."""
    worked = oracle_products.divide(dividend, divisor, more)
    passed = [held > 0 for held in worked.passed]
    passed.append(worked.left > 0 and ending in (Ending.DECIMAL, Ending.ROUNDED))
    columns = short_division(Number.parse(dividend), Number.parse(divisor), ending, places)
    assert "".join("0" if column.nought else "1" for column in columns) == (
        "".join("0" if digit == "0" else "1" for digit in worked.quotient)
    )
    assert [column.passes for column in columns] == passed


@pytest.mark.parametrize(
    "text",
    [
        "operation: multiply, digits: 2, places: 0, carries: {count: [2, 3]}",
        "operation: multiply, digits: [2, 1], places: [1, 0]",
        "operation: divide, divisor: [4, 8], ending: {decimal: 2}",
        "operation: add, places: 1, whole: 1, carries: every",
        "operation: subtract, places: {between: [0, 1]}, whole: {between: [0, 1]}, longer: second",
    ],
)
def test_questions_like_one_are_those_with_its_signature(text: str) -> None:
    rung = questions(text)
    alike: dict[object, set[int]] = {}
    for number in range(rung.count):
        alike.setdefault(rung.signature(rung.unrank(number)), set()).add(number)
    for signature, numbers in list(alike.items())[:: 1 + len(alike) // 12]:
        like = rung.matching(signature, 0)
        found = [like.unrank(number) for number in range(like.count)]
        assert {rung.rank(question) for question in found} == numbers
        assert len(found) == len(numbers)


def test_a_digit_that_stands_twice_is_off_a_rung_that_forbids_it() -> None:
    rung = questions("operation: add, places: 1, whole: 1, repeats: forbid")
    for first, second in ((34, 25), (34, 35), (34, 24), (34, 34)):
        asked = Question(Operation.ADD, (Number(first, 1), Number(second, 1)))
        assert (asked in rung) == (first == 34 and second == 25)
