"""The column automaton: exact counts of additions and subtractions, and fetching by number.

A question is gone through column by column from the right. The state after a column is
what the rest still depends on: which numbers are still alike (see ``fills``), what is
carried to the next column, and what each watch remembers. Counting the ways from a state
to the end gives the exact number of questions; walking those counts fetches question
number i (unrank) and finds a question's number (rank). Nothing is tried and thrown away,
so a rare rung costs no more than a common one.
"""

from bisect import bisect_right
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from itertools import accumulate
from typing import NamedTuple, Protocol, TypeVar

from generator.counting.facts import (
    Column,
    Fact,
    count_of,
    total_of,
)
from generator.counting.fills import (
    Bunch,
    Choice,
    ColumnFills,
    Filling,
    Role,
    Status,
    Symbol,
    bunches_of,
    symbols,
)
from generator.numbers import Number


class Watch(Protocol):
    """A condition that follows the columns from the right, remembering a little.

    ``step`` gives the state after a column, or None when the condition is broken there;
    ``accepts`` says at the end whether it is met. States are hashable and never None.
    """

    @property
    def needs(self) -> frozenset[Fact]:
        """The facts that ``step`` looks at, beyond place, carries and digit."""

    @property
    def start(self) -> Hashable:
        """The state before the first column."""

    def step(self, state: Hashable, column: Column) -> Hashable | None:
        """The state after a column, or None."""

    def accepts(self, state: Hashable) -> bool:
        """Whether the condition is met once all columns are done."""


class ColumnWork(NamedTuple):
    """What the written method does in a column: the answer's digit, what goes to the next
    column, and whether an exchange passes through a nought here.
    """

    digit: int
    carry_out: int
    passes_zero: bool


def add_column(total: int, carry_in: int) -> ColumnWork:
    """Addition of a column whose digits have a total."""
    carry_out, digit = divmod(total + carry_in, 10)
    return ColumnWork(digit, carry_out, False)


SUBTRAHEND_WEIGHT = 16  # a subtraction's column total is upper + 16 × lower


def subtract_column(total: int, carry_in: int) -> ColumnWork:
    """Subtraction of a column, which lends one to the right when ``carry_in`` is 1."""
    lower, upper = divmod(total, SUBTRAHEND_WEIGHT)
    left = upper - carry_in - lower
    return ColumnWork(left % 10, int(left < 0), upper == 0 and carry_in == 1)


@dataclass(frozen=True, slots=True)
class Form:
    """What is counted: numbers in their roles, the column work, and the watches over it.

    ``extra_columns`` are columns to the left of all numbers that the answer may reach.
    ``distinct`` allows no digit twice in a column.
    """

    roles: tuple[Role, ...]
    work: Callable[[int, int], ColumnWork]
    extra_columns: int
    watches: tuple[Watch, ...]
    distinct: bool = False

    @property
    def columns(self) -> range:
        """The places from the right-most to the left-most."""
        last = min(role.kind.last_place for role in self.roles)
        top = max(role.kind.top_place for role in self.roles)
        return range(last, top + 1 + self.extra_columns)


Options = tuple[tuple[Symbol, ...], ...]
"""For each bunch what its numbers can do in a column."""


class _State(NamedTuple):
    bunches: tuple[Bunch, ...]
    carry: int
    remembered: tuple[Hashable, ...]


class _Outcome(NamedTuple):
    carry: int
    remembered: tuple[Hashable, ...]


class _Branch(NamedTuple):
    """The fillings of a column that lead to one state, and the ways from there to the end."""

    state: _State
    fillings: int
    onwards: int


class _Branches(NamedTuple):
    branches: list[_Branch]
    upto: list[int]  # running totals of questions


class _Tallies(NamedTuple):
    """The tallies of each branch with running totals of their ways, and each tally's branch."""

    of_branch: list[tuple[list[int], list[int]]]
    branch_of: dict[int, int]


class ColumnCount:
    """The set of questions of a form, as a numbered sequence."""

    def __init__(self, form: Form) -> None:
        self._form = form
        self._columns = form.columns
        needed = frozenset[Fact]().union(*(watch.needs for watch in form.watches))
        self._filling = Filling(form.roles, needed, form.distinct)
        self._fills: dict[tuple[tuple[Bunch, ...], int], ColumnFills] = {}
        self._shared: dict[tuple[tuple[Bunch, ...], Options], ColumnFills] = {}
        self._branches: dict[tuple[int, _State], _Branches] = {}
        self._outcomes: dict[tuple[int, int, tuple[Hashable, ...], int], _Outcome | None] = {}
        self._tallies: dict[tuple[int, _State], _Tallies] = {}
        self._start = _State(
            tuple(Bunch(i, Status.WAITING, role.count) for i, role in enumerate(form.roles)),
            0,
            tuple(watch.start for watch in form.watches),
        )

    @property
    def count(self) -> int:
        """How many questions there are."""
        return self._to_the_end(0, self._start)

    def unrank(self, number: int) -> tuple[Number, ...]:
        """Question ``number``, 0 ≤ number < count: its numbers in role order.

        Raises IndexError outside that range.
        """
        if not 0 <= number < self.count:
            raise IndexError(f"question {number} of {self.count}")
        state = self._start
        bunches = [(bunch, [_Begun(0, 0)] * bunch.size) for bunch in state.bunches]
        finished: list[list[Number]] = [[] for _ in self._form.roles]
        for at, place in enumerate(self._columns):
            branches, upto = self._branches[at, state]
            which = bisect_right(upto, number)
            branch = branches[which]
            number -= upto[which - 1] if which else 0
            fill_number, number = divmod(number, branch.onwards)
            tallies, ways_upto = self._tallied(at, state).of_branch[which]
            tally_at = bisect_right(ways_upto, fill_number)
            fill_number -= ways_upto[tally_at - 1] if tally_at else 0
            fills = self._column_fills(state.bunches, place)
            choice = fills.unrank(tallies[tally_at], fill_number)
            bunches = _written(bunches, choice, fills.symbols, place, finished)
            state = branch.state
        return tuple(number for role in finished for number in role)

    def rank(self, numbers: tuple[Number, ...]) -> int | None:
        """The number of the question with these numbers in role order, or None when it is not here.

        Within a role the order of the numbers does not matter.
        """
        state = self._start
        bunches = self._enlist(numbers)
        if bunches is None or not self.count:
            return None
        position = 0
        for at, place in enumerate(self._columns):
            fills = self._column_fills(state.bunches, place)
            ranked = _read(bunches, fills, place)
            if ranked is None:
                return None
            (tally, fill_number), bunches = ranked
            tallied = self._tallied(at, state)
            which = tallied.branch_of.get(tally)
            if which is None:
                return None
            branches, upto = self._branches[at, state]
            tallies, ways_upto = tallied.of_branch[which]
            tally_at = tallies.index(tally)
            fill_number += ways_upto[tally_at - 1] if tally_at else 0
            position += upto[which - 1] if which else 0
            position += fill_number * branches[which].onwards
            state = branches[which].state
        return position

    def _enlist(self, numbers: tuple[Number, ...]) -> list[tuple[Bunch, list[Number]]] | None:
        """The numbers gathered by role, or None when they do not fit the roles."""
        if len(numbers) != sum(role.count for role in self._form.roles):
            return None
        if self._ordered:
            by_role = [[number] for number in numbers]
        else:
            by_role = [
                [n for n in numbers if role.kind.matches(n.places, n.whole_digits)]
                for role in self._form.roles
            ]
        if any(
            len(found) != role.count for found, role in zip(by_role, self._form.roles, strict=True)
        ):
            return None
        return list(zip(self._start.bunches, by_role, strict=True))

    @property
    def _ordered(self) -> bool:
        """Whether each number has a role of its own by its position (as in a subtraction)."""
        return len({role.digit_weight for role in self._form.roles}) > 1

    def _column_fills(self, bunches: tuple[Bunch, ...], place: int) -> ColumnFills:
        key = (bunches, place)
        if key not in self._fills:
            options = tuple(
                symbols(self._form.roles[bunch.role].kind, bunch.status, place) for bunch in bunches
            )
            # Columns in which the numbers have the same options are filled alike.
            if (bunches, options) not in self._shared:
                self._shared[bunches, options] = ColumnFills(self._filling, bunches, options)
            self._fills[key] = self._shared[bunches, options]
        return self._fills[key]

    def _to_the_end(self, at: int, state: _State) -> int:
        """How many ways there are from a state to the end."""
        if at == len(self._columns):
            done = not state.bunches and state.carry == 0
            met = done and all(
                watch.accepts(memory)
                for watch, memory in zip(self._form.watches, state.remembered, strict=True)
            )
            return int(met)
        key = (at, state)
        if key not in self._branches:
            self._branches[key] = self._branch_out(at, state)
        upto = self._branches[key].upto
        return upto[-1] if upto else 0

    def _branch_out(self, at: int, state: _State) -> _Branches:
        """The states that the next column can lead to, with the ways that go there."""
        place = self._columns[at]
        gathered: dict[_Outcome, dict[int, int]] = {}
        for facts, leaves in self._column_fills(state.bunches, place).by_facts:
            outcome = self._outcome(state, place, facts)
            if outcome is not None:
                fillings = gathered.setdefault(outcome, {})
                for _, bunches, ways in leaves:
                    fillings[bunches] = fillings.get(bunches, 0) + ways
        branches, totals = [], []
        for outcome, fillings in gathered.items():
            for bunches, ways in fillings.items():
                after = _State(bunches_of(bunches), outcome.carry, outcome.remembered)
                onwards = self._to_the_end(at + 1, after)
                if onwards:
                    branches.append(_Branch(after, ways, onwards))
                    totals.append(ways * onwards)
        return _Branches(branches, list(accumulate(totals)))

    def _tallied(self, at: int, state: _State) -> _Tallies:
        """The tallies of each branch of a state; worked out when a question first passes there."""
        key = (at, state)
        if key not in self._tallies:
            place = self._columns[at]
            which = {branch.state: i for i, branch in enumerate(self._branches[key].branches)}
            tallies: list[list[int]] = [[] for _ in which]
            counts: list[list[int]] = [[] for _ in which]
            branch_of = {}
            for facts, leaves in self._column_fills(state.bunches, place).by_facts:
                outcome = self._outcome(state, place, facts)
                if outcome is None:
                    continue
                for tally, bunches, ways in leaves:
                    after = _State(bunches_of(bunches), outcome.carry, outcome.remembered)
                    branch = which.get(after)
                    if branch is not None:
                        tallies[branch].append(tally)
                        counts[branch].append(ways)
                        branch_of[tally] = branch
            upto = [list(accumulate(ways)) for ways in counts]
            self._tallies[key] = _Tallies(list(zip(tallies, upto, strict=True)), branch_of)
        return self._tallies[key]

    def _outcome(self, state: _State, place: int, facts: int) -> _Outcome | None:
        """What a column with such facts leaves, or None when a watch is broken there."""
        key = (place, state.carry, state.remembered, facts)
        if key not in self._outcomes:
            self._outcomes[key] = self._worked(state, place, facts)
        return self._outcomes[key]

    def _worked(self, state: _State, place: int, facts: int) -> _Outcome | None:
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


_Member = TypeVar("_Member")


class _Begun(NamedTuple):
    """A number of which the columns so far are written."""

    units: int
    last_place: int


def _written(
    bunches: list[tuple[Bunch, list[_Begun]]],
    choice: Choice,
    symbols: Options,
    place: int,
    finished: list[list[Number]],
) -> list[tuple[Bunch, list[_Begun]]]:
    """Write a column's digits: the bunches after it, in canonical order.

    Numbers that have got their last digit move to ``finished``, by role.
    """
    after: list[tuple[Bunch, list[_Begun]]] = []
    for (bunch, members), taken, options in zip(bunches, choice, symbols, strict=True):
        previous = -1
        for member, index in zip(members, taken, strict=True):
            symbol = options[index]
            if symbol.digit is not None:
                last_place = place if symbol.starts else member.last_place
                units = member.units + symbol.digit * 10 ** (place - last_place)
                if symbol.status is Status.DONE:
                    finished[bunch.role].append(Number(units, -last_place))
                    continue
                member = _Begun(units, last_place)
            if index == previous:
                after[-1][1].append(member)
            else:
                after.append((Bunch(bunch.role, symbol.status, 0), [member]))
            previous = index
    return _in_order(after)


def _in_order(bunches: list[tuple[Bunch, list[_Member]]]) -> list[tuple[Bunch, list[_Member]]]:
    """Bunches with their sizes counted, in the canonical order of a state."""
    sized = [(bunch._replace(size=len(members)), members) for bunch, members in bunches]
    return sorted(sized, key=lambda entry: entry[0])


def _read(
    bunches: list[tuple[Bunch, list[Number]]], fills: ColumnFills, place: int
) -> tuple[tuple[int, int], list[tuple[Bunch, list[Number]]]] | None:
    """The rank of what whole numbers do in a column, and the bunches after it.

    None when some number does what no number of its kind can do there.
    """
    after: list[tuple[Bunch, list[Number]]] = []
    choice = []
    for (bunch, members), options in zip(bunches, fills.symbols, strict=True):
        taken = []
        for number in members:
            index = _symbol_index(number, options, place)
            if index is None:
                return None
            taken.append((index, number))
        taken.sort(key=lambda entry: entry[0])
        choice.append(tuple(index for index, _ in taken))
        previous = -1
        for index, number in taken:
            status = options[index].status
            if status is not Status.DONE:
                if index == previous:
                    after[-1][1].append(number)
                else:
                    after.append((Bunch(bunch.role, status, 0), [number]))
            previous = index
    ranked = fills.rank(tuple(choice))
    return None if ranked is None else (ranked, _in_order(after))


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
