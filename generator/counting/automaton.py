"""The column automaton: exact counts of additions and subtractions, and fetching by number.

A question is gone through column by column from the right. The state after a column is
what the rest still depends on: which numbers are still alike (see ``fills``), what is
carried to the next column, and what each watch remembers. Counting the ways from a state
to the end gives the exact number of questions; walking those counts fetches question
number i (unrank) and finds a question's number (rank). Nothing is tried and thrown away,
so a rare rung costs no more than a common one.
"""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Hashable, Iterator
from functools import cached_property
from itertools import accumulate
from typing import Final, NamedTuple

from generator.counting.columns import Form
from generator.counting.facts import Column, Fact, count_of, total_of
from generator.counting.fills import (
    Bunch,
    ColumnFills,
    Filled,
    Filling,
    Status,
    Symbol,
    bunches_of,
    symbols,
)
from generator.numbers import Number

_MOST_COLUMNS: Final = 32
_POWERS: Final = tuple(10**at for at in range(_MOST_COLUMNS))


MOST_WORK: Final = 3_000_000
"""How many fillings may be gone through before a rung is refused as too wide (three seconds)."""


class TooWideError(Exception):
    """A rung that mixes so many lengths and conditions that counting it would take too long."""


class _State(NamedTuple):
    bunches: tuple[Bunch, ...]
    carry: int
    remembered: tuple[Hashable, ...]


class _Outcome(NamedTuple):
    carry: int
    remembered: tuple[Hashable, ...]


class _Branch(NamedTuple):
    """The fillings of a column that lead to one node."""

    node: "_Node"
    fillings: int


class _Tallies(NamedTuple):
    """The tallies of each branch with running totals of their ways, and each tally's branch."""

    of_branch: list[tuple[list[int], list[int]]]
    branch_of: dict[int, int]


class _Node:
    """A state before a column, with the ways from there to the end."""

    def __init__(self, counted: "ColumnCount", at: int, state: _State) -> None:
        self._counted = counted
        self._at = at
        self._state = state
        self.at_end = at == len(counted.columns)
        if self.at_end:
            self.ways = int(counted.accepts(state))
            return
        self.fills = counted.fills(state.bunches, at)
        counted.spend(len(self.fills.ways))
        gathered: defaultdict[_Outcome, defaultdict[int, int]]
        gathered = defaultdict(lambda: defaultdict(int))
        for facts, leaves in self.fills.by_facts:
            outcome = counted.outcome(at, state, facts)
            if outcome is not None:
                fillings = gathered[outcome]
                for _, bunches, ways in leaves:
                    fillings[bunches] += ways
        self.branches = []
        for outcome, fillings in gathered.items():
            for bunches, ways in fillings.items():
                node = self._after(outcome, bunches)
                if node.ways:
                    self.branches.append(_Branch(node, ways))
        self.upto = list(accumulate(branch.fillings * branch.node.ways for branch in self.branches))
        self.ways = self.upto[-1] if self.upto else 0

    def _after(self, outcome: _Outcome, bunches: int) -> "_Node":
        return self._counted.node(self._at + 1, bunches, outcome)

    @cached_property
    def tallies(self) -> _Tallies:
        """The tallies of each branch; worked out when a question first passes here."""
        which = {id(branch.node): i for i, branch in enumerate(self.branches)}
        tallies: list[list[int]] = [[] for _ in which]
        counts: list[list[int]] = [[] for _ in which]
        branch_of = {}
        for facts, leaves in self.fills.by_facts:
            outcome = self._counted.outcome(self._at, self._state, facts)
            if outcome is None:
                continue
            for tally, bunches, ways in leaves:
                branch = which.get(id(self._after(outcome, bunches)))
                if branch is not None:
                    tallies[branch].append(tally)
                    counts[branch].append(ways)
                    branch_of[tally] = branch
        upto = [list(accumulate(ways)) for ways in counts]
        return _Tallies(list(zip(tallies, upto, strict=True)), branch_of)


class ColumnCount:
    """The set of questions of a form, as a numbered sequence."""

    def __init__(self, form: Form) -> None:
        self._form = form
        self.work = 0
        self._most_work = MOST_WORK
        self.columns = form.columns
        needed = frozenset[Fact]().union(*(watch.needs for watch in form.watches))
        self._filling = Filling(form.roles, needed, form.distinct)
        self._fills: dict[tuple[tuple[Bunch, ...], int], ColumnFills] = {}
        self._shared: dict[
            tuple[tuple[Bunch, ...], tuple[tuple[Symbol, ...], ...]], ColumnFills
        ] = {}
        self._nodes: dict[tuple[int, int, _Outcome], _Node] = {}
        self._outcomes: dict[tuple[int, int, tuple[Hashable, ...], int], _Outcome | None] = {}

    @cached_property
    def _start(self) -> _Node:
        waiting = tuple(
            Bunch(role, Status.WAITING, numbers.count)
            for role, numbers in enumerate(self._form.roles)
        )
        remembered = tuple(watch.start for watch in self._form.watches)
        return _Node(self, 0, _State(waiting, 0, remembered))

    @property
    def count(self) -> int:
        """How many questions there are. Raises TooWideError when that takes too long to count."""
        return self._start.ways

    def count_within(self, work: int) -> int:
        """As ``count``, with so much work at most."""
        self._most_work = min(work, MOST_WORK)
        return self.count

    def unrank(self, number: int) -> tuple[Number, ...]:
        """Question ``number``, 0 ≤ number < count: its numbers in role order.

        Raises IndexError outside that range.
        """
        if not 0 <= number < self.count:
            raise IndexError(f"question {number} of {self.count}")
        last_place = self.columns[0]
        # A number under way: its units in steps of the right-most place, its last place.
        under_way = [(0, 0)] * sum(role.count for role in self._form.roles)
        finished: list[tuple[int, Number]] = []
        for at, filled in enumerate(self._columns_of(number)):
            power = _POWERS[at]
            for position, role, symbol in filled.done:
                units, start = under_way[position]
                if symbol.starts:
                    start = at
                units = (units + (symbol.digit or 0) * power) // _POWERS[start]
                finished.append((role, Number(units, max(-(last_place + start), 0))))
            under_way = [
                (
                    under_way[position][0] + (symbol.digit or 0) * power,
                    at if symbol.starts else under_way[position][1],
                )
                for position, _, symbol in filled.going_on
            ]
        finished.sort(key=lambda entry: entry[0])
        return tuple(number for _, number in finished)

    def _columns_of(self, number: int) -> Iterator[Filled]:
        """The filled columns of a question, from the right."""
        node = self._start
        while not node.at_end:
            which = bisect_right(node.upto, number)
            if which:
                number -= node.upto[which - 1]
            after = node.branches[which].node
            fill_number, number = divmod(number, after.ways)
            tallies, ways_upto = node.tallies.of_branch[which]
            tally_at = bisect_right(ways_upto, fill_number)
            if tally_at:
                fill_number -= ways_upto[tally_at - 1]
            yield node.fills.unrank(tallies[tally_at], fill_number)
            node = after

    def rank(self, numbers: tuple[Number, ...]) -> int | None:
        """The number of the question with these numbers in role order, or None if it is not here.

        Within a role the order of the numbers does not matter.
        """
        standing = self._enlist(numbers)
        if standing is None:
            return None
        node, position = self._start, 0
        for place in self.columns:
            if not node.ways:
                return None
            chosen = _chosen(standing, node.fills, place)
            ranked = node.fills.rank(chosen[0]) if chosen else None
            if chosen is None or ranked is None:
                return None
            tally, fill_number = ranked
            which = node.tallies.branch_of.get(tally)
            if which is None:
                return None
            tallies, ways_upto = node.tallies.of_branch[which]
            tally_at = tallies.index(tally)
            fill_number += ways_upto[tally_at - 1] if tally_at else 0
            position += node.upto[which - 1] if which else 0
            choice, standing = chosen
            going_on = node.fills.filled(choice).going_on
            standing = [standing[taken.position] for taken in going_on]
            node = node.branches[which].node
            position += fill_number * node.ways
        return position

    def _enlist(self, numbers: tuple[Number, ...]) -> list[Number] | None:
        """The numbers in role order, or None when they do not fit the roles."""
        roles = self._form.roles
        if len(numbers) != sum(role.count for role in roles):
            return None
        if self._filling.ordered:
            return list(numbers)
        by_role = [
            [n for n in numbers if role.kind.matches(n.places, n.whole_digits)] for role in roles
        ]
        if any(len(found) != role.count for found, role in zip(by_role, roles, strict=True)):
            return None
        return [number for found in by_role for number in found]

    def spend(self, work: int) -> None:
        """Keep account of the work done; raises TooWideError when it is too much."""
        self.work += work
        if self.work > self._most_work:
            raise TooWideError

    def node(self, at: int, bunches: int, outcome: _Outcome) -> _Node:
        """The node before column ``at``, given the bunches that enter it and what came before."""
        key = (at, bunches, outcome)
        known = self._nodes.get(key)
        if known is None:
            state = _State(bunches_of(bunches), outcome.carry, outcome.remembered)
            known = self._nodes[key] = _Node(self, at, state)
        return known

    def accepts(self, state: _State) -> bool:
        """Whether a state after the last column is a finished question that meets all watches."""
        if state.bunches or state.carry:
            return False
        return all(
            watch.accepts(memory)
            for watch, memory in zip(self._form.watches, state.remembered, strict=True)
        )

    def fills(self, bunches: tuple[Bunch, ...], at: int) -> ColumnFills:
        """The ways to fill column ``at`` for the bunches that enter it."""
        key = (bunches, at)
        if key not in self._fills:
            kinds = [self._form.roles[bunch.role].kind for bunch in bunches]
            options = tuple(
                symbols(kind, bunch.status, self.columns[at])
                for kind, bunch in zip(kinds, bunches, strict=True)
            )
            # Columns in which the numbers have the same options are filled alike.
            if (bunches, options) not in self._shared:
                self._shared[bunches, options] = ColumnFills(self._filling, bunches, options)
            self._fills[key] = self._shared[bunches, options]
        return self._fills[key]

    def outcome(self, at: int, state: _State, facts: int) -> _Outcome | None:
        """What a column with such facts leaves, or None when a watch is broken there."""
        key = (at, state.carry, state.remembered, facts)
        if key not in self._outcomes:
            self._outcomes[key] = self._worked(self.columns[at], state, facts)
        return self._outcomes[key]

    def _worked(self, place: int, state: _State, facts: int) -> _Outcome | None:
        work = self._form.work(total_of(facts), state.carry)
        column = Column(
            place,
            count_of(facts, Fact.PRESENT),
            count_of(facts, Fact.STARTS),
            count_of(facts, Fact.ENDS),
            count_of(facts, Fact.INSIDE_ZEROS),
            count_of(facts, Fact.END_ZEROS),
            state.carry,
            work.carry_out,
            work.digit,
            work.passes_zero,
        )
        remembered = []
        for watch, memory in zip(self._form.watches, state.remembered, strict=True):
            after = watch.step(memory, column)
            if after is None:
                return None
            remembered.append(after)
        return _Outcome(work.carry_out, tuple(remembered))


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
