"""The ways to fill one column with digits.

Numbers whose digits so far are all alike form a *bunch*: inside a bunch only the number
of times that each digit is used matters, not who gets it, so questions that differ only
in the order of their numbers are counted once. As soon as two numbers differ they are in
different bunches and are free of one another.

A column is filled bunch by bunch. Each way has a tally (see ``facts``), whose upper
fields say what bunches it leaves; ways with equal tallies are counted together, numbered,
and fetched by number. Ways whose tallies differ in the total alone have one *pattern* and
are counted at once (see ``totals``).
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import IntEnum
from functools import cache, cached_property, lru_cache
from itertools import product
from typing import Final, NamedTuple

from generator.arithmetic.numbers import Number
from generator.numbered.sequences import Parts, Shares
from generator.operations.columns import facts as tallies
from generator.operations.columns import totals
from generator.operations.columns.facts import (
    BUNCHES_SHIFT,
    FACTS_MASK,
    Fact,
    capped,
    digit_field,
    repeats_a_digit,
    total_of,
    without_total,
)
from generator.operations.columns.totals import raised, running, unpacked, ways_to


class Status(IntEnum):
    """Where a number stands as the columns are gone through from the right."""

    WAITING = 0  # its last digit comes further to the left
    NOUGHTS = 1  # it has begun, with nothing but noughts so far
    RUNNING = 2
    DONE = 3


@dataclass(frozen=True, slots=True)
class Kind:
    """What a number may look like.

    ``places`` and ``whole`` are the allowed counts of decimal places and of digits before
    the point (0: a nought is written there). ``end_zero`` and ``whole_end_zero`` allow a
    nought at the end of a decimal and of a whole number, ``inside_zero`` between digits.
    ``only`` is the one number that it may be, where it is fixed.
    """

    places: tuple[int, ...]
    whole: tuple[int, ...]
    end_zero: bool = False
    whole_end_zero: bool = True
    inside_zero: bool = True
    only: Number | None = None

    def matches(self, places: int, whole_digits: int) -> bool:
        """Whether a number of that length is of this kind (its noughts are judged elsewhere)."""
        return places in self.places and whole_digits in self.whole

    @property
    def last_place(self) -> int:
        """The lowest place that a number of this kind can have a digit in."""
        return -max(self.places)

    @property
    def top_place(self) -> int:
        """The highest place that a number of this kind can have a digit in."""
        return max(*self.whole, 1) - 1


@dataclass(frozen=True, slots=True)
class Role:
    """Numbers of one kind in a question: what their digits and their presence add to a tally."""

    kind: Kind
    count: int
    digit_weight: int = 1
    presence_weight: int = 1


class Bunch(NamedTuple):
    """So many numbers of a role with the same digits so far."""

    role: int
    status: Status
    size: int


class Symbol(NamedTuple):
    """What one number does in a column: the digit it has there (None: none) and its status after.

    A nought with only noughts to its right is an end zero; one between other digits is an
    inside zero; the nought that is written before the point of 0.45 is neither.
    """

    digit: int | None
    status: Status
    starts: bool = False
    ends: bool = False
    end_zero: bool = False
    inside_zero: bool = False


@cache
def symbols(kind: Kind, status: Status, place: int) -> tuple[Symbol, ...]:
    """Everything that a number of a kind can do in a column: what it may have there, and after."""
    if kind.only is not None and status is not Status.DONE:
        free = symbols(replace(kind, only=None), status, place)
        return tuple(symbol for symbol in free if _writes(symbol, kind.only, place))
    if status is Status.DONE:
        return (Symbol(None, Status.DONE),)
    starts = status is Status.WAITING
    found = []
    if starts and any(-places > place for places in kind.places):
        found.append(Symbol(None, Status.WAITING))
    if starts and -place not in kind.places:
        return tuple(found)
    goes_on = place < 0 or any(whole > place + 1 for whole in kind.whole)
    ends = place >= 0 and place + 1 in kind.whole
    only_noughts = status in (Status.WAITING, Status.NOUGHTS)
    if only_noughts:
        end_zero = kind.end_zero if place < 0 else kind.whole_end_zero
        if goes_on and (end_zero or not starts):
            found.append(Symbol(0, Status.NOUGHTS, starts, end_zero=True))
    else:
        # A number may end with the nought before its point (0.45) only here, where it has another
        # digit already: a number of nothing but noughts (0.00) is none to calculate with.
        if place == 0 and 0 in kind.whole:
            found.append(Symbol(0, Status.DONE, starts, ends=True))
        if goes_on and kind.inside_zero:
            found.append(Symbol(0, Status.RUNNING, starts, inside_zero=True))
    for digit in range(1, 10):
        if ends:
            found.append(Symbol(digit, Status.DONE, starts, ends=True))
        if goes_on:
            found.append(Symbol(digit, Status.RUNNING, starts))
    return tuple(found)


def _writes(symbol: Symbol, number: Number, place: int) -> bool:
    """Whether a number does just that in a column: it begins and ends where it is written to."""
    if symbol.digit is None:
        return place < number.last_place
    return (
        number.written_at(place)
        and symbol.digit == number.digit(place)
        and symbol.starts is (place == number.last_place)
        and symbol.ends is (place == number.top_place)
    )


MOST_SYMBOLS: Final = 21
"""What one number can do in a column at most: wait, end or go on with a nought, and end or go on
with each other digit."""

_STATUSES: Final = 4
_SIZES: Final = 7


def _bunch_field(bunch: Bunch) -> int:
    """A tally with one bunch. Bunches that are done no longer matter and are not kept."""
    if bunch.status is Status.DONE:
        return 0
    index = (bunch.role * _STATUSES + bunch.status) * _SIZES + bunch.size
    return 1 << BUNCHES_SHIFT + 3 * index


def bunches_key(bunches: Iterable[Bunch]) -> int:
    """Bunches as the upper fields of a tally name them."""
    return sum(map(_bunch_field, bunches)) >> BUNCHES_SHIFT


@cache
def bunches_of(bunch_bits: int) -> tuple[Bunch, ...]:
    """The bunches that the upper fields of a tally name, in canonical order."""
    found, index = [], 0
    while bunch_bits:
        status_index, size = divmod(index, _SIZES)
        role, status = divmod(status_index, _STATUSES)
        found += [Bunch(role, Status(status), size)] * (bunch_bits & 0b111)
        bunch_bits, index = bunch_bits >> 3, index + 1
    return tuple(found)


@dataclass(frozen=True)
class Filling:
    """Which facts are kept while a column is filled, for the numbers of which roles."""

    roles: tuple[Role, ...]
    facts: frozenset[Fact]
    distinct: bool  # no digit twice in a column

    def __post_init__(self) -> None:
        """Raises ValueError for numbers whose tallies or counts would overflow."""
        numbers = sum(role.count for role in self.roles)
        total = sum(9 * role.digit_weight * role.count for role in self.roles)
        which = sum(role.presence_weight * role.count for role in self.roles)
        tallies.check_room(numbers, total, which)
        totals.check_room(MOST_SYMBOLS**numbers)

    @property
    def ordered(self) -> bool:
        """Whether each number has a role of its own by its position (as in a subtraction)."""
        return len({role.digit_weight for role in self.roles}) > 1

    def tally(self, role_index: int, symbol: Symbol) -> int:
        """What one number adds to the tally by what it does."""
        if symbol.digit is None:
            return 0
        role = self.roles[role_index]
        tally = symbol.digit * role.digit_weight
        written_for_the_point = symbol.digit == 0 and symbol.ends  # the leading nought of 0.4
        fields = {
            Fact.PRESENT: 0 if written_for_the_point else role.presence_weight,
            Fact.STARTS: role.presence_weight if symbol.starts else 0,
            Fact.ENDS: role.presence_weight if symbol.ends else 0,
            Fact.INSIDE_ZEROS: int(symbol.inside_zero),
            Fact.END_ZEROS: int(symbol.end_zero),
        }
        for fact in self.facts:
            tally += fields[fact] << fact.shift
        told_apart = self.distinct and not written_for_the_point
        return tally + (digit_field(symbol.digit) if told_apart else 0)


Choice = tuple[tuple[int, ...], ...]
"""For each bunch the symbols its numbers take, as indices in rising order."""


class Taken(NamedTuple):
    """What one number takes in a column: where it stood among the numbers, and its symbol.

    Numbers stand bunch by bunch; within a bunch those that take a lower symbol come first.
    """

    position: int
    role: int
    symbol: Symbol


class Filled(NamedTuple):
    """A column filled: the numbers that go on, as they stand in the next column, and those done."""

    going_on: tuple[Taken, ...]
    done: tuple[Taken, ...]


_REMEMBERED: Final = 20_000  # so many ways of a column, once fetched
_REMEMBERED_OF_A_BUNCH: Final = 10_000  # tables of bunches outlive the column and the rung


class Left(NamedTuple):
    """The bunches that a column may leave, and how many ways leave each."""

    bunches: tuple[int, ...]
    ways: tuple[int, ...]


class ColumnFills:
    """All ways to fill one column, numbered within each tally.

    ``symbols`` are the options of each bunch that enters the column; ``rest`` are the ways
    for all bunches but the first, where they are known already.

    Counting needs no more than how many ways leave which bunches. Tallies are listed one by
    one only when a question first passes here.
    """

    def __init__(
        self,
        filling: Filling,
        bunches: tuple[Bunch, ...],
        options: tuple[tuple[Symbol, ...], ...],
        rest: "ColumnFills | None" = None,
    ) -> None:
        self.symbols = options
        self._bunches = bunches
        self._ordered = filling.ordered
        self._fetched: dict[tuple[int, int], Filled] = {}
        self._left: dict[tuple[range, ...], Left] = {}
        self._known_shares: dict[int, tuple[list[int], Shares]] = {}
        self._tables: tuple[_BunchTable, ...] = ()
        self._rests: tuple[ColumnFills, ...] = ()
        self._counts = {0: 1}
        self.work = 1  # how many pairs of patterns were put together
        if bunches:
            if rest is None:
                rest = ColumnFills(filling, bunches[1:], options[1:])
            table = _bunch_table(filling, bunches[0], options[0])
            self._tables = (table, *rest._tables)
            self._rests = (rest, *rest._rests)
            self._counts = _combine(table.counts, rest._counts, distinct=filling.distinct)
            self.work = len(table.counts) * len(rest._counts)

    @property
    def sizes(self) -> list[int]:
        """How many numbers each bunch holds."""
        return [bunch.size for bunch in self._bunches]

    @cached_property
    def _by_seen(self) -> dict[int, dict[int, int]]:
        """For facts beside the total, as conditions see them, and bunches left: the counts."""
        found: dict[int, defaultdict[int, int]] = {}
        for pattern, counts in self._counts.items():
            seen = capped(pattern & FACTS_MASK, ordered=self._ordered)
            found.setdefault(seen, defaultdict(int))[pattern >> BUNCHES_SHIFT] += counts
        return {seen: dict(left) for seen, left in found.items()}

    @cached_property
    def facts(self) -> tuple[int, ...]:
        """All facts as conditions see them that some way has, rising for alike but the total."""
        return tuple(
            seen + total
            for seen, left in self._by_seen.items()
            for total, ways in enumerate(unpacked(sum(left.values())))
            if ways
        )

    @cached_property
    def _upto(self) -> dict[int, list[tuple[int, tuple[int, ...]]]]:
        """For the same the bunches left, each with the ways to stay below each total."""
        found = {}
        for seen, left in self._by_seen.items():
            length = len(unpacked(sum(left.values())))
            found[seen] = [(bunches, running(counts, length)) for bunches, counts in left.items()]
        return found

    def left(self, runs: tuple[range, ...]) -> Left:
        """The bunches that ways with facts in runs leave, and how many ways leave each."""
        known = self._left.get(runs)
        if known is None:
            found: defaultdict[int, int] = defaultdict(int)
            for run in runs:
                low = total_of(run.start)
                high = low + len(run)
                for bunches, upto in self._upto[without_total(run.start)]:
                    ways = upto[high] - upto[low]
                    if ways:
                        found[bunches] += ways
            known = self._left[runs] = Left(tuple(found), tuple(found.values()))
        return known

    @cached_property
    def ways(self) -> dict[int, int]:
        """How many ways there are for each tally, in the order of the first way with each."""
        if not self._tables:
            return {0: 1}
        return _in_order(
            (part + other for part, other in product(self._tables[0].ways, self._rests[0].ways)),
            self._counts,
        )

    @cached_property
    def by_facts(self) -> list[tuple[int, list[tuple[int, int, int]]]]:
        """For facts as conditions see them the tallies with them: (tally, bunches left, ways)."""
        found: dict[int, list[tuple[int, int, int]]] = {}
        for tally, ways in self.ways.items():
            facts = capped(tally & FACTS_MASK, ordered=self._ordered)
            leaves = found.setdefault(facts, [])
            leaves.append((tally, tally >> BUNCHES_SHIFT, ways))
        return list(found.items())

    def unrank(self, tally: int, number: int) -> Filled:
        """Way ``number`` of those with a tally, 0 ≤ number < ways[tally]."""
        known = self._fetched.get((tally, number))
        if known is None:
            known = self.filled(self._unrank(tally, number))
            if len(self._fetched) < _REMEMBERED:
                self._fetched[tally, number] = known
        return known

    def filled(self, choice: Choice) -> Filled:
        """The column with a choice made: numbers that chose alike stay in one bunch."""
        after: list[tuple[int, list[Taken]]] = []
        done: list[Taken] = []
        for numbers, standings, taken in zip(self._takings, self._standings, choice, strict=True):
            before = None
            for options, index in zip(numbers, taken, strict=True):
                standing = standings[index]
                if standing is None:
                    done.append(options[index])
                elif index == before:
                    after[-1][1].append(options[index])
                else:
                    after.append((standing, [options[index]]))
                    before = index
        # The next state names its bunches by role, status and size, in this order; the numbers
        # must stand in it too, so that the bunch that a state names is the one they are in.
        after.sort(key=lambda alike: (alike[0], len(alike[1])))
        return Filled(tuple([number for _, alike in after for number in alike]), tuple(done))

    @cached_property
    def _takings(self) -> list[list[list[Taken]]]:
        """What each number of each bunch can take, by symbol."""
        found, first = [], 0
        for bunch, options in zip(self._bunches, self.symbols, strict=True):
            places = range(first, first + bunch.size)
            found.append(
                [[Taken(place, bunch.role, symbol) for symbol in options] for place in places]
            )
            first += bunch.size
        return found

    @cached_property
    def _standings(self) -> list[list[int | None]]:
        """Where the numbers of each bunch stand in the next column, by symbol; None: nowhere."""
        return [
            [
                None if symbol.status is Status.DONE else bunch.role * _STATUSES + symbol.status
                for symbol in options
            ]
            for bunch, options in zip(self._bunches, self.symbols, strict=True)
        ]

    def _unrank(self, tally: int, number: int) -> Choice:
        choice = []
        fills = self
        for table, others in zip(self._tables, self._rests, strict=True):
            parts, shares = fills._shares(tally)
            which, own, number = shares.take(number)
            part = parts[which]
            choice.append(table.unrank(part, own))
            tally -= part
            fills = others
        return tuple(choice)

    def _shares(self, tally: int) -> tuple[list[int], Shares]:
        """What the first bunch can add to a tally, in order, and the ways for the others then."""
        known = self._known_shares.get(tally)
        if known is None:
            first, others = self._tables[0].ways, self._rests[0]
            rests = others.ways
            if len(rests) < len(first):
                place_of = self._tables[0].place_of
                found = [tally - rest for rest in rests if tally - rest in first]
                parts = sorted(found, key=place_of.__getitem__)
            else:
                parts = [part for part in first if tally - part in rests]
            ways = [rests[tally - part] for part in parts]
            shares = Shares([first[part] for part in parts], ways)
            known = self._known_shares[tally] = (parts, shares)
        return known

    def rank(self, choice: Choice) -> tuple[int, int] | None:
        """The tally of a way and its number there; None when it is not one of the ways."""
        own = [table.rank(taken) for table, taken in zip(self._tables, choice, strict=True)]
        parts = [part for part, _ in own]
        tally = remaining = sum(parts)
        if tally not in self.ways:
            return None
        number = 0
        for table, others, (part, own_number) in zip(self._tables, self._rests, own, strict=True):
            rests = others.ways
            for other, ways in table.ways.items():
                if other == part:
                    break
                number += ways * rests.get(remaining - other, 0)
            remaining -= part
            number += own_number * rests[remaining]
        return tally, number


class _BunchTable:
    """The ways for one bunch: how many of its numbers take each symbol.

    Symbols are gone through in their order, and of each it is said how many numbers take it.
    For a bunch of two with the symbols 0, 1 and 2 the table ``_levels[symbol][numbers]`` is

        symbols left      0 numbers   1 number      2 numbers
        0, 1, 2           1 way       0, 1 or 2     00, 01, 02, 11, 12 or 22
        1, 2              1 way       1 or 2        11, 12 or 22
        2                 1 way       2             22
        none              1 way       no way        no way

    and each entry holds not the ways but how many there are: for each pattern (a tally without
    its total) a long number with the counts for each total (``totals``). A row follows from
    the one below: so many numbers take the first symbol, the others one of those left.
    ``_parts[symbol][many]`` is what many numbers that take a symbol add to the tally.
    """

    def __init__(
        self, tallies: tuple[int, ...], statuses: tuple[Status, ...], bunch: Bunch, distinct: bool
    ) -> None:
        self._bunch = bunch
        self._parts = [
            [
                tally * many + (_bunch_field(Bunch(bunch.role, status, many)) if many else 0)
                for many in range(bunch.size + 1)
            ]
            for tally, status in zip(tallies, statuses, strict=True)
        ]
        levels: list[list[dict[int, int]]] = [[{0: 1}] + [{} for _ in range(bunch.size)]]
        for parts in reversed(self._parts):
            below = levels[-1]
            level: list[dict[int, int]] = []
            for size in range(bunch.size + 1):
                found: defaultdict[int, int] = defaultdict(int)
                for many in range(size + 1):
                    total, pattern = total_of(parts[many]), without_total(parts[many])
                    for rest, counts in below[size - many].items():
                        both = pattern + rest
                        if not (distinct and repeats_a_digit(both)):
                            found[both] += raised(counts, total)
                level.append(found)
            levels.append(level)
        levels.reverse()
        self._levels = levels
        self._fetched: dict[tuple[int, int], tuple[int, ...]] = {}
        self._known_steps: dict[tuple[int, int, int], tuple[list[tuple[int, int, int]], Parts]] = {}
        self.counts = levels[0][bunch.size]

    @cached_property
    def ways(self) -> dict[int, int]:
        """How many ways there are for each tally, in the order of the first way with each."""
        below: list[dict[int, int]] = [{0: 1}] + [{} for _ in range(self._bunch.size)]
        for parts, level in zip(reversed(self._parts), reversed(self._levels[:-1]), strict=True):
            below = [
                _in_order(
                    (parts[many] + rest for many in range(size + 1) for rest in below[size - many]),
                    counts,
                )
                for size, counts in enumerate(level)
            ]
        return below[self._bunch.size]

    @cached_property
    def place_of(self) -> dict[int, int]:
        """The place of each tally in their order."""
        return {tally: place for place, tally in enumerate(self.ways)}

    def unrank(self, tally: int, number: int) -> tuple[int, ...]:
        """The symbols taken, in rising order."""
        known = self._fetched.get((tally, number))
        if known is None:
            known = self._unrank(tally, number)
            if len(self._fetched) < _REMEMBERED_OF_A_BUNCH:
                self._fetched[tally, number] = known
        return known

    def _unrank(self, tally: int, number: int) -> tuple[int, ...]:
        taken: list[int] = []
        size, start = self._bunch.size, 0
        while size:
            steps, parts = self._steps(start, size, tally)
            which, number = parts.find(number)
            index, many, tally = steps[which]
            taken += [index] * many
            size, start = size - many, index + 1
        return tuple(taken)

    def _steps(self, start: int, size: int, tally: int) -> tuple[list[tuple[int, int, int]], Parts]:
        """The lowest symbol that is taken, how many take it and the tally of the others.

        Ways that leave a symbol to none come before those that do not.
        """
        key = (start, size, tally)
        known = self._known_steps.get(key)
        if known is None:
            steps, counts = [], []
            for index in range(len(self._parts) - 1, start - 1, -1):
                below = self._levels[index + 1]
                for many in range(1, size + 1):
                    rest = tally - self._parts[index][many]
                    ways = _ways_with(below[size - many], rest)
                    if ways:
                        steps.append((index, many, rest))
                        counts.append(ways)
            known = self._known_steps[key] = (steps, Parts(counts))
        return known

    def rank(self, taken: tuple[int, ...]) -> tuple[int, int]:
        """The tally of the symbols taken, and their number among the ways with it."""
        counts = [taken.count(index) for index in range(len(self._parts))]
        tally = remaining = sum(
            parts[many] for parts, many in zip(self._parts, counts, strict=True)
        )
        number, size = 0, self._bunch.size
        for index, (parts, count) in enumerate(zip(self._parts, counts, strict=True)):
            below = self._levels[index + 1]
            number += sum(
                _ways_with(below[size - many], remaining - parts[many]) for many in range(count)
            )
            size, remaining = size - count, remaining - parts[count]
        return tally, number


@lru_cache(maxsize=4096)
def _shared_table(
    tallies: tuple[int, ...], statuses: tuple[Status, ...], bunch: Bunch, distinct: bool
) -> _BunchTable:
    return _BunchTable(tallies, statuses, bunch, distinct)


def _bunch_table(filling: Filling, bunch: Bunch, options: tuple[Symbol, ...]) -> _BunchTable:
    tallies = tuple(filling.tally(bunch.role, symbol) for symbol in options)
    return _shared_table(tallies, tuple(s.status for s in options), bunch, filling.distinct)


def _combine(first: dict[int, int], second: dict[int, int], *, distinct: bool) -> dict[int, int]:
    """The patterns of two independent fillings together, with their counts for each total."""
    found: defaultdict[int, int] = defaultdict(int)
    for pattern, counts in first.items():
        for other, more in second.items():
            both = pattern + other
            if not (distinct and repeats_a_digit(both)):
                found[both] += counts * more
    return found


def _ways_with(counts: dict[int, int], tally: int) -> int:
    """How many ways have a tally."""
    return ways_to(counts.get(without_total(tally), 0), total_of(tally))


def _in_order(tallies: Iterable[int], counts: dict[int, int]) -> dict[int, int]:
    """Each tally that has ways, once, in the order in which they first come, with its ways."""
    return {tally: ways for tally in dict.fromkeys(tallies) if (ways := _ways_with(counts, tally))}
