"""The ways to fill one column with digits.

Numbers whose digits so far are all alike form a *bunch*: inside a bunch only the number
of times that each digit is used matters, not who gets it, so questions that differ only
in the order of their numbers are counted once. As soon as two numbers differ they are in
different bunches and are free of one another.

A column is filled bunch by bunch. Each way has a tally (see ``facts``), whose upper
fields say what bunches it leaves; ways with equal tallies are counted together, numbered,
and fetched by number.
"""

from collections import defaultdict
from dataclasses import dataclass
from enum import IntEnum
from functools import cache, cached_property, lru_cache
from typing import Final, NamedTuple

from generator.counting.facts import (
    BUNCHES_SHIFT,
    FACTS_MASK,
    Fact,
    capped,
    digit_field,
    repeats_a_digit,
)


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
    """

    places: tuple[int, ...]
    whole: tuple[int, ...]
    end_zero: bool = False
    whole_end_zero: bool = True
    inside_zero: bool = True

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
        # Nothing but noughts (0.00) is no number to calculate with: hence not in the branch above.
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


_STATUSES: Final = 4
_SIZES: Final = 7


def _bunch_field(bunch: Bunch) -> int:
    """A tally with one bunch. Bunches that are done no longer matter and are not kept."""
    if bunch.status is Status.DONE:
        return 0
    index = (bunch.role * _STATUSES + bunch.status) * _SIZES + bunch.size
    return 1 << BUNCHES_SHIFT + 3 * index


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
        fields = {
            Fact.PRESENT: role.presence_weight,
            Fact.STARTS: role.presence_weight if symbol.starts else 0,
            Fact.ENDS: role.presence_weight if symbol.ends else 0,
            Fact.INSIDE_ZEROS: int(symbol.inside_zero),
            Fact.END_ZEROS: int(symbol.end_zero),
        }
        for fact in self.facts:
            tally += fields[fact] << fact.shift
        return tally + (digit_field(symbol.digit) if self.distinct else 0)


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


class ColumnFills:
    """All ways to fill one column, numbered within each tally.

    ``symbols`` are the options of each bunch that enters the column.
    """

    _REMEMBERED: Final = 20_000

    def __init__(
        self,
        filling: Filling,
        bunches: tuple[Bunch, ...],
        options: tuple[tuple[Symbol, ...], ...],
    ) -> None:
        self.symbols = options
        self._bunches = bunches
        self._ordered = filling.ordered
        self._tables = [
            _bunch_table(filling, bunch, symbols)
            for bunch, symbols in zip(bunches, options, strict=True)
        ]
        self._suffixes: list[dict[int, int]] = [{0: 1}]
        for table in reversed(self._tables):
            self._suffixes.append(
                _combine(table.ways, self._suffixes[-1], distinct=filling.distinct)
            )
        self._suffixes.reverse()
        self._fetched: dict[tuple[int, int], Filled] = {}

    @property
    def sizes(self) -> list[int]:
        """How many numbers each bunch holds."""
        return [bunch.size for bunch in self._bunches]

    @property
    def ways(self) -> dict[int, int]:
        """How many ways there are for each tally."""
        return self._suffixes[0]

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
            if len(self._fetched) < self._REMEMBERED:
                self._fetched[tally, number] = known
        return known

    def filled(self, choice: Choice) -> Filled:
        """The column with a choice made: numbers that chose alike stay in one bunch."""
        after: dict[tuple[int, int], list[Taken]] = {}
        done: list[Taken] = []
        position = 0
        for at, (bunch, taken) in enumerate(zip(self._bunches, choice, strict=True)):
            for index in taken:
                symbol = self.symbols[at][index]
                number = Taken(position, bunch.role, symbol)
                if symbol.status is Status.DONE:
                    done.append(number)
                else:
                    after.setdefault((at, index), []).append(number)
                position += 1
        # As a state has its bunches: by role, status and size.
        in_order = sorted(
            after.values(), key=lambda alike: (alike[0].role, alike[0].symbol.status, len(alike))
        )
        return Filled(tuple(number for alike in in_order for number in alike), tuple(done))

    def _unrank(self, tally: int, number: int) -> Choice:
        choice = []
        for table, suffix in zip(self._tables, self._suffixes[1:], strict=True):
            for part, ways in table.ways.items():
                rest = suffix.get(tally - part)
                if rest is None:
                    continue
                if number < ways * rest:
                    own, number = divmod(number, rest)
                    choice.append(table.unrank(part, own))
                    tally -= part
                    break
                number -= ways * rest
        return tuple(choice)

    def rank(self, choice: Choice) -> tuple[int, int] | None:
        """The tally of a way and its number there; None when it is not one of the ways."""
        own = [table.rank(taken) for table, taken in zip(self._tables, choice, strict=True)]
        parts = [part for part, _ in own]
        tally = remaining = sum(parts)
        if tally not in self.ways:
            return None
        number = 0
        for table, suffix, (part, own_number) in zip(
            self._tables, self._suffixes[1:], own, strict=True
        ):
            for other, ways in table.ways.items():
                if other == part:
                    break
                number += ways * suffix.get(remaining - other, 0)
            remaining -= part
            number += own_number * suffix[remaining]
        return tally, number


class _BunchTable:
    """The ways for one bunch: how many of its numbers take each symbol.

    ``_levels[i][r]`` counts the ways for r numbers with the symbols from i on.
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
                ways: dict[int, int] = {}
                for many in range(size + 1):
                    part = parts[many]
                    for rest, count in below[size - many].items():
                        tally = part + rest
                        if distinct and repeats_a_digit(tally):
                            continue
                        ways[tally] = ways.get(tally, 0) + count
                level.append(ways)
            levels.append(level)
        levels.reverse()
        self._levels = levels
        self.ways = levels[0][bunch.size]

    def unrank(self, tally: int, number: int) -> tuple[int, ...]:
        """The symbols taken, in rising order."""
        taken: list[int] = []
        size = self._bunch.size
        for index, parts in enumerate(self._parts):
            if not size:
                break
            below = self._levels[index + 1]
            for many in range(size + 1):
                ways = below[size - many].get(tally - parts[many], 0)
                if number < ways:
                    taken += [index] * many
                    size, tally = size - many, tally - parts[many]
                    break
                number -= ways
        return tuple(taken)

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
                below[size - many].get(remaining - parts[many], 0) for many in range(count)
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
    """The tallies of two independent fillings together, with their counts."""
    ways: defaultdict[int, int] = defaultdict(int)
    for tally, count in first.items():
        for other, more in second.items():
            both = tally + other
            if distinct and repeats_a_digit(both):
                continue
            ways[both] += count * more
    return ways
