"""The column automaton: exact counts of additions and subtractions, and fetching by number.

A question is gone through column by column from the right. The state after a column is
what the rest still depends on: which numbers are still alike (see ``fills``), what is
carried to the next column, and what each watch remembers. Counting the ways from a state
to the end gives the exact number of questions; walking those counts fetches question
number i (unrank) and finds a question's number (rank). No question is tried that does not
meet the conditions, so a rare rung costs no more than a common one.
"""

from collections.abc import Hashable, Iterator
from functools import cached_property
from operator import mul
from typing import Final, NamedTuple

from generator.allowance import Meter
from generator.arithmetic.numbers import Number
from generator.numbered.sequences import Fork, Parts, walk
from generator.operations.columns.column_work import Form
from generator.operations.columns.facts import Column, Fact, counts_of, total_of, without_total
from generator.operations.columns.fills import (
    Bunch,
    ColumnFills,
    Filling,
    Status,
    Symbol,
    bunches_key,
    bunches_of,
    symbols,
)

_MOST_COLUMNS: Final = 32
_POWERS: Final = tuple(10**at for at in range(_MOST_COLUMNS))


MOST_WORK: Final = 1_600_000
"""How much work may go into counting before a rung is refused as too wide (under a second)."""

_STEP: Final = 8  # the work of showing one column to the watches, beside that of one sum


class _Column(NamedTuple):
    """Where a column can lead.

    Each branch of ``fork`` is a next node, its labels the fillings of the column that lead
    there: those with one tally after those with another. ``tallies`` has a branch's tallies in
    order, ``parts`` how many fillings each has, and ``branch_of`` the branch of each tally.
    """

    fork: "Fork[_Node]"
    tallies: list[list[int]]
    parts: list[Parts]
    branch_of: dict[int, int]


class _Before:
    """What there is before a column beside its numbers: what is carried in, what is remembered.

    ``ways`` counts to the end for any bunches that enter the column.
    """

    def __init__(
        self, counted: "ColumnCount", at: int, carry: int, remembered: tuple[Hashable, ...]
    ) -> None:
        self.counted = counted
        self.at = at
        self.carry = carry
        self.remembered = remembered
        self.ways = _Ways(self)
        self._after: dict[int, _Before | None] = {}
        self._leading: dict[tuple[int, ...], list[tuple[_Before, tuple[range, ...]]]] = {}

    def after(self, facts: int) -> "_Before | None":
        """The same after a column with such facts, or None when a watch is broken there."""
        if facts not in self._after:
            self._after[facts] = self.counted.after(self, facts)
        return self._after[facts]

    def leading(self, facts: tuple[int, ...]) -> "list[tuple[_Before, tuple[range, ...]]]":
        """What a column may lead to, each with the runs of facts that lead there."""
        known = self._leading.get(facts)
        if known is None:
            found: dict[_Before, list[range]] = {}
            for each in facts:
                after = self.after(each)
                if after is not None:
                    runs = found.setdefault(after, [])
                    if runs and runs[-1].stop == each:
                        runs[-1] = range(runs[-1].start, each + 1)
                    else:
                        runs.append(range(each, each + 1))
            known = self._leading[facts] = [(after, tuple(runs)) for after, runs in found.items()]
        return known

    def node(self, bunches: int) -> "_Node":
        """The node for the bunches that enter the column."""
        return self.ways.nodes[bunches]


class _Ways(dict[int, int]):
    """How many ways there are to the end, by the bunches that enter a column."""

    def __init__(self, before: _Before) -> None:
        super().__init__()
        self._before = before
        self.nodes: dict[int, _Node] = {}

    def __missing__(self, bunches: int) -> int:
        node = self.nodes[bunches] = _Node(self._before, bunches)
        self[bunches] = node.ways
        return node.ways


class _Node:
    """A state before a column, with the ways from there to the end."""

    def __init__(self, before: _Before, bunches: int) -> None:
        counted = before.counted
        self.before = before
        self.at_end = before.at == len(counted.columns)
        if self.at_end:
            self.ways = int(counted.accepts(before, bunches))
            return
        self.fills = counted.fills(bunches_of(bunches), before.at)
        self.ways = 0
        for after, runs in before.leading(self.fills.facts):
            left = self.fills.left(runs)
            counted.spend(len(left.bunches))
            self.ways += sum(map(mul, left.ways, map(after.ways.__getitem__, left.bunches)))

    @cached_property
    def fork(self) -> "Fork[_Node] | None":
        """Where the column's fillings lead; None after the last column."""
        return None if self.at_end else self.column.fork

    @cached_property
    def column(self) -> _Column:
        """Where the column leads; listed when a question first passes here."""
        found: dict[_Before, dict[int, tuple[list[int], list[int]]]] = {}
        for facts, leaves in self.fills.by_facts:
            after = self.before.after(facts)
            if after is None:
                continue
            leading = found.setdefault(after, {})
            for tally, bunches, ways in leaves:
                tallies, counts = leading.setdefault(bunches, ([], []))
                tallies.append(tally)
                counts.append(ways)
        each = [
            (after.node(bunches), tallies, Parts(counts))
            for after, leading in found.items()
            for bunches, (tallies, counts) in leading.items()
            if after.ways[bunches]
        ]
        nodes = [node for node, _, _ in each]
        return _Column(
            Fork(nodes, [node.ways for node in nodes], [parts.count for _, _, parts in each]),
            [tallies for _, tallies, _ in each],
            [parts for _, _, parts in each],
            {tally: at for at, (_, tallies, _) in enumerate(each) for tally in tallies},
        )


Standing = tuple[_Before, int]
"""A place on the way through the columns: what there is before one, the bunches that enter it."""


class ColumnCount:
    """The set of questions of a form, as a numbered sequence."""

    def __init__(self, form: Form) -> None:
        self._form = form
        self._meter = Meter(MOST_WORK)
        self.columns = form.columns
        needed = frozenset[Fact]().union(*(watch.needs for watch in form.watches))
        self._filling = Filling(form.roles, needed, form.distinct)
        self._fills: dict[tuple[tuple[Bunch, ...], int], ColumnFills] = {}
        self._shared: dict[
            tuple[tuple[Bunch, ...], tuple[tuple[Symbol, ...], ...]], ColumnFills
        ] = {}
        self._before: dict[tuple[int, int, tuple[Hashable, ...]], _Before] = {}

    @cached_property
    def start(self) -> _Node:
        """Before the right-most column."""
        remembered = tuple(watch.start for watch in self._form.watches)
        return _Node(_Before(self, 0, 0, remembered), self._waiting)

    @cached_property
    def _waiting(self) -> int:
        """The bunches before the right-most column."""
        return bunches_key(
            Bunch(role, Status.WAITING, numbers.count)
            for role, numbers in enumerate(self._form.roles)
        )

    @property
    def count(self) -> int:
        """How many questions there are. Raises TooWideError when that takes too long to count."""
        return self.start.ways

    @property
    def work(self) -> int:
        """How much work counting has been."""
        return self._meter.spent

    def count_within(self, work: int) -> int:
        """As ``count``, with so much work at most."""
        self._meter.most = min(work, MOST_WORK)
        return self.count

    def unrank(self, number: int) -> tuple[Number, ...]:
        """Question ``number``, 0 ≤ number < count: its numbers in role order.

        Raises IndexError outside that range.
        """
        if not 0 <= number < self.count:
            raise IndexError(f"question {number} of {self.count}")
        last = -self.columns[0]
        # A number under way: its units in steps of the right-most place, its last place.
        under_way = [(0, 0)] * sum(role.count for role in self._form.roles)
        finished: list[tuple[int, Number]] = []
        for at, (node, branch, label) in enumerate(walk(self.start, number)):
            column = node.column
            which, within = column.parts[branch].find(label)
            going_on, done = node.fills.unrank(column.tallies[branch][which], within)
            power = _POWERS[at]
            for position, role, symbol in done:
                units, start = under_way[position]
                if symbol.starts:
                    start = at
                if symbol.digit:
                    units += symbol.digit * power
                finished.append((role, Number(units // _POWERS[start], max(last - start, 0))))
            following = []
            for position, _, symbol in going_on:
                if symbol.starts:
                    following.append(((symbol.digit or 0) * power, at))
                elif symbol.digit:
                    units, start = under_way[position]
                    following.append((units + symbol.digit * power, start))
                else:
                    following.append(under_way[position])
            under_way = following
        finished.sort(key=lambda entry: entry[0])
        return tuple(number for _, number in finished)

    def rank(self, numbers: tuple[Number, ...]) -> int | None:
        """The number of the question with these numbers in role order, or None if it is not here.

        Within a role the order of the numbers does not matter.
        """
        standing = self._enlist(numbers)
        if standing is None:
            return None
        node, position = self.start, 0
        for place in self.columns:
            if not node.ways:
                return None
            chosen = _chosen(standing, node.fills, place)
            ranked = node.fills.rank(chosen[0]) if chosen else None
            if chosen is None or ranked is None:
                return None
            tally, fill_number = ranked
            column = node.column
            branch = column.branch_of.get(tally)
            if branch is None:
                return None
            at = column.tallies[branch].index(tally)
            label = column.parts[branch].before(at) + fill_number
            position += column.fork.before(branch, label)
            choice, standing = chosen
            going_on = node.fills.filled(choice).going_on
            standing = [standing[taken.position] for taken in going_on]
            node = column.fork.states[branch]
        return position

    def _enlist(self, numbers: tuple[Number, ...]) -> list[Number] | None:
        """The numbers in role order, or None when they do not fit the roles."""
        roles = self._form.roles
        if len(numbers) != sum(role.count for role in roles):
            return None
        if self._filling.ordered:
            return list(numbers)
        left = list(numbers)
        for role in roles:  # fixed ones are taken out before others are told by their lengths
            for _ in range(role.count if role.kind.only else 0):
                if role.kind.only not in left:
                    return None
                left.remove(role.kind.only)
        by_role = [
            [role.kind.only] * role.count
            if role.kind.only
            else [n for n in left if role.kind.matches(n.places, n.whole_digits)]
            for role in roles
        ]
        if any(len(found) != role.count for found, role in zip(by_role, roles, strict=True)):
            return None
        return [number for found in by_role for number in found]

    def spend(self, work: int) -> None:
        """Keep account of the work done; raises TooWideError when it is too much."""
        self._meter.spend(work)

    def accepts(self, before: _Before, bunches: int) -> bool:
        """Whether a state after the last column is a finished question that meets all watches."""
        if bunches or before.carry:
            return False
        return all(
            watch.accepts(memory)
            for watch, memory in zip(self._form.watches, before.remembered, strict=True)
        )

    def fills(self, bunches: tuple[Bunch, ...], at: int) -> ColumnFills:
        """The ways to fill column ``at`` for the bunches that enter it."""
        key = (bunches, at)
        if key not in self._fills:
            options = tuple(
                symbols(self._form.roles[bunch.role].kind, bunch.status, self.columns[at])
                for bunch in bunches
            )
            self._fills[key] = self._filled(bunches, options)
        return self._fills[key]

    def _filled(
        self, bunches: tuple[Bunch, ...], options: tuple[tuple[Symbol, ...], ...]
    ) -> ColumnFills:
        """Columns in which the numbers have the same options are filled alike."""
        known = self._shared.get((bunches, options))
        if known is None:
            rest = self._filled(bunches[1:], options[1:]) if bunches else None
            known = ColumnFills(self._filling, bunches, options, rest)
            self.spend(known.work)
            self._shared[bunches, options] = known
        return known

    @property
    def standing(self) -> Standing | None:
        """Before the right-most column; None where there is no question at all."""
        node = self.start
        return (node.before, self._waiting) if node.ways else None

    def led_to(
        self, standing: Standing, role: int, digit: int | None, ends: bool
    ) -> Iterator[Standing]:
        """Where a column leads in which the one number of a role has that digit, or none.

        ``ends`` says whether it is the number's first digit. Only what leads to the end.
        """
        before, entering = standing
        place = self.columns[before.at]
        bunches = bunches_of(entering)
        options = []
        for bunch in bunches:
            free = symbols(self._form.roles[bunch.role].kind, bunch.status, place)
            if bunch.role == role:
                free = tuple(s for s in free if s.digit == digit and s.ends is ends)
                digit = None
            options.append(free)
        if digit is not None:
            return  # the number is written already
        fills = self._filled(bunches, tuple(options))
        for after, runs in before.leading(fills.facts):
            for left in fills.left(runs).bunches:
                if after.ways[left]:
                    yield after, left

    def after(self, before: _Before, facts: int) -> _Before | None:
        """What a column with such facts leaves, or None when a watch is broken there."""
        self.spend(_STEP)
        work = self._form.work(total_of(facts), before.carry)
        column = Column(
            self.columns[before.at],
            *counts_of(without_total(facts)),
            before.carry,
            work.carry_out,
            work.digit,
            work.passes_zero,
        )
        remembered = []
        for watch, memory in zip(self._form.watches, before.remembered, strict=True):
            left = watch.step(memory, column)
            if left is None:
                return None
            remembered.append(left)
        key = (before.at + 1, work.carry_out, tuple(remembered))
        if key not in self._before:
            self._before[key] = _Before(self, *key)
        return self._before[key]


def _chosen(
    standing: list[Number], fills: ColumnFills, place: int
) -> tuple[tuple[tuple[int, ...], ...], list[Number]] | None:
    """What whole numbers choose in a column, and the numbers in the order of their choices.

    None when some number does what no number of its kind can do there.
    """
    choice: list[tuple[int, ...]] = []
    in_order: list[Number] = []
    at = 0
    for options, size in zip(fills.symbols, fills.sizes, strict=True):
        taken = []
        for number in standing[at : at + size]:
            index = _symbol_index(number, options, place)
            if index is None:
                return None
            taken.append((index, number))
        taken.sort(key=lambda entry: entry[0])
        choice.append(tuple(index for index, _ in taken))
        in_order += [number for _, number in taken]
        at += size
    return tuple(choice), in_order


def _symbol_index(number: Number, options: tuple[Symbol, ...], place: int) -> int | None:
    """Which symbol a whole number takes in a column."""
    digit = number.digit(place) if number.written_at(place) else None
    starts, ends = place == number.last_place, place == number.top_place
    for index, symbol in enumerate(options):
        if symbol.digit == digit and (
            digit is None or (symbol.starts == starts and symbol.ends == ends)
        ):
            return index
    return None
