"""Products of whole numbers: which products carry when they are worked, counted exactly.

In the written working the multiplicand stands on top. Each digit of the multiplier but
nought makes a row: from the right, the digit times each digit of the multiplicand, plus
what was carried. A product carries when it comes to ten or more, what was carried to it
included; the left-most product too, although its ten is written straight into the row.

For one multiplier the multiplicand is gone through digit by digit from the right. What
the rest depends on is what each row carries and what each watch remembers: counting the
ways from there gives the exact number of multiplicands, and walking the counts fetches
one by number. Few states arise, because what all the rows carry hangs on one number, the
digits gone through so far.
"""

from collections.abc import Hashable, Iterable
from enum import IntEnum
from functools import cached_property, lru_cache
from itertools import count
from operator import lshift
from typing import Any, Final, NamedTuple, Protocol, TypeVar

from generator.allowance import Meter
from generator.numbered.sequences import Fork, Parts, walk

# What counting costs, in steps of the allowance: what the watches make of a digit; the digits
# after a state added up; what rows carry found; a multiplier and its conditions.
_WATCHED: Final = 8
_ADDED_UP: Final = 3
_CARRYING: Final = 100
_MULTIPLIER: Final = 30


class Rows(IntEnum):
    """What a watch sees of the rows of a working."""

    IGNORED = 0
    IN_ANY_ORDER = 1  # multipliers with the same digits are alike
    IN_ORDER = 2


class ProductColumn(NamedTuple):
    """One digit of the multiplicand, and which rows' products carry there.

    ``place`` counts from the right; ``top`` marks the left-most digit.
    """

    place: int
    digit: int
    carries: tuple[bool, ...]
    top: bool


State = TypeVar("State", bound=Hashable)
"""What a watch remembers."""


class ProductWatch(Protocol[State]):
    """A condition that follows the multiplicand from the right, remembering a little.

    ``step`` gives the state after a digit, or None when the condition is broken there;
    ``accepts`` says at the end whether it is met. Watches are hashable values.
    """

    @property
    def rows(self) -> Rows:
        """What ``step`` looks at."""

    @property
    def start(self) -> State:
        """The state before the right-most digit."""

    def step(self, state: State, column: ProductColumn) -> State | None:
        """The state after a digit, or None."""

    def accepts(self, state: State) -> bool:
        """Whether the condition is met once all digits are done."""


class _Carried:
    """What each row carries to a digit of the multiplicand, and what every digit does then."""

    __slots__ = ("amounts", "index", "moves")

    def __init__(self, amounts: tuple[int, ...], index: int) -> None:
        self.amounts = amounts
        self.index = index
        self.moves: list[_Move] = []


class _Move(NamedTuple):
    """A digit of the multiplicand: which rows carry there, and what they carry on.

    ``name`` names the digit and the rows that carry in one number.
    """

    name: int
    digit: int
    carries: tuple[bool, ...]
    after: _Carried


@lru_cache(maxsize=1 << 10)
def _carrying(rows: tuple[int, ...]) -> tuple[_Carried, ...]:
    """All that rows can carry from digit to digit, beginning with nothing."""
    found = [_Carried((0,) * len(rows), 0)]
    known = {found[0].amounts: found[0]}
    for carried in found:  # which grows
        for digit in range(10):
            amounts = tuple(
                [
                    (row * digit + over) // 10
                    for row, over in zip(rows, carried.amounts, strict=True)
                ]
            )
            if amounts not in known:
                known[amounts] = _Carried(amounts, len(found))
                found.append(known[amounts])
            carries = tuple(map(bool, amounts))
            rows_named = (1 << len(rows)) + sum(map(lshift, carries, count()))
            name = rows_named << 4 | digit
            carried.moves.append(_Move(name, digit, carries, known[amounts]))
    return tuple(found)


def carries(multiplicand: int, multiplier: int) -> tuple[tuple[bool, ...], ...]:
    """For each digit of the multiplier, from the right, which products carry, from the right.

    A nought of the multiplier makes no row: its entry is empty.
    """
    return tuple([row_of(int(digit), multiplicand) for digit in reversed(str(multiplier))])


@lru_cache(maxsize=1 << 16)
def row_of(row: int, multiplicand: int) -> tuple[bool, ...]:
    """Which products of a row carry: those that, with all to their right, come to ten or more."""
    if not row:
        return ()
    tens = [10**place for place in range(1, len(str(multiplicand)) + 1)]
    return tuple([row * (multiplicand % ten) >= ten for ten in tens])


class _Memory:
    """What the watches remember, with what they remember after a digit: found once."""

    __slots__ = ("accepted", "after", "remembered")

    def __init__(self, length: int, remembered: tuple[Hashable, ...], accepted: bool) -> None:
        self.remembered = remembered
        self.accepted = int(accepted)
        # For each place, by the name of the move.
        self.after: list[dict[int, _Memory | None]] = [{} for _ in range(length)]


class _Watching:
    """Watches going through multiplicands of one length, whatever the rows."""

    def __init__(self, length: int, watches: tuple[ProductWatch[Any], ...], meter: Meter) -> None:
        self.length = length
        self.meter = meter
        self._watches = watches
        self._memories: dict[tuple[Hashable, ...], _Memory] = {}
        self.start = self._memory(tuple(watch.start for watch in watches))

    def _memory(self, remembered: tuple[Hashable, ...]) -> _Memory:
        known = self._memories.get(remembered)
        if known is None:
            accepted = all(
                watch.accepts(memory)
                for watch, memory in zip(self._watches, remembered, strict=True)
            )
            known = self._memories[remembered] = _Memory(self.length, remembered, accepted)
        return known

    def after(self, before: _Memory, place: int, move: _Move) -> _Memory | None:
        """What is remembered after a digit, or None when a watch is broken there."""
        known = before.after[place]
        if move.name not in known:
            self.meter.spend(_WATCHED)
            known[move.name] = self._after(before.remembered, place, move)
        return known[move.name]

    def _after(self, before: tuple[Hashable, ...], place: int, move: _Move) -> _Memory | None:
        column = ProductColumn(place, move.digit, move.carries, place == self.length - 1)
        remembered = []
        for watch, memory in zip(self._watches, before, strict=True):
            after = watch.step(memory, column)
            if after is None:
                return None
            remembered.append(after)
        return self._memory(tuple(remembered))


class _State(NamedTuple):
    """Before a digit: its place, what the rows carry to it, what the watches remember."""

    place: int
    carried: _Carried
    memory: _Memory


class _Step(NamedTuple):
    """The digits that can come next, and where they lead: none after the last digit."""

    digits: list[int]
    fork: "Fork[_Digit] | None"


class _Digit:
    """A state before a digit. What follows is found when a question first passes there."""

    def __init__(self, counted: "Multiplicands", state: _State) -> None:
        self.place = state.place
        self._counted = counted
        self._state = state

    @cached_property
    def step(self) -> _Step:
        """What follows."""
        return self._counted.step(self._state)

    @cached_property
    def fork(self) -> "Fork[_Digit] | None":
        """Where the next digit leads."""
        return self.step.fork


class Multiplicands:
    """The multiplicands of a length that every watch lets pass, as a numbered sequence.

    ``rows`` are the digits of the multiplier that make rows, in the order in which the
    watches see them.
    """

    def __init__(self, rows: tuple[int, ...], watching: _Watching) -> None:
        self._length = watching.length
        self._watching = watching
        all_carried = _carrying(rows)
        # How many ways there are to the end: for each place and what is carried to it, by
        # what is remembered.
        self._known: list[list[dict[_Memory, int]]] = [
            [{} for _ in all_carried] for _ in range(self._length)
        ]
        self._digits: dict[_State, _Digit] = {}
        self._start = _State(0, all_carried[0], watching.start)
        self.count = self._ways(self._start)

    def unrank(self, number: int, /) -> int:
        """Multiplicand ``number``, 0 ≤ number < count."""
        found = 0
        for at, branch, _ in walk(self._digit(self._start), number):
            found += at.step.digits[branch] * 10**at.place
        return found

    def rank(self, multiplicand: int, /) -> int | None:
        """The number of a multiplicand, or None when it is not one of these."""
        if len(str(multiplicand)) != self._length or not self.count:
            return None
        number, at = 0, self._digit(self._start)
        while at.fork is not None:
            digit = multiplicand // 10**at.place % 10
            if digit not in at.step.digits:
                return None
            branch = at.step.digits.index(digit)
            number += at.fork.before(branch)
            at = at.fork.states[branch]
        return number

    def _ways(self, state: _State) -> int:
        """How many ways there are to write the digits from a state on."""
        place, carried, memory = state
        if place == self._length:
            return memory.accepted
        here = self._known[place][carried.index]
        if memory not in here:
            here[memory] = self._added_up(place, carried, memory)
        return here[memory]

    def _added_up(self, place: int, carried: _Carried, memory: _Memory) -> int:
        """The same, by the next digit. Nearly all of the time of counting is spent here."""
        self._watching.meter.spend(_ADDED_UP)
        remembered, top = memory.after[place], place == self._length - 1
        onwards = [] if top else self._known[place + 1]
        found = 0
        for move in carried.moves[1:] if top else carried.moves:
            name, _, _, after = move
            following = (
                remembered[name]
                if name in remembered
                else self._watching.after(memory, place, move)
            )
            if following is None:
                continue
            if top:
                found += following.accepted
            else:
                known = onwards[after.index]
                if following not in known:
                    known[following] = self._added_up(place + 1, after, following)
                found += known[following]
        return found

    def _digit(self, state: _State) -> _Digit:
        known = self._digits.get(state)
        if known is None:
            known = self._digits[state] = _Digit(self, state)
        return known

    def step(self, state: _State) -> _Step:
        """What follows a state."""
        place, carried, memory = state
        if place == self._length:
            return _Step([], None)
        digits, states, ways = [], [], []
        top = place == self._length - 1
        for move in carried.moves[1:] if top else carried.moves:
            following = self._watching.after(memory, place, move)
            if following is not None:
                after = _State(place + 1, move.after, following)
                onwards = self._ways(after)
                if onwards:
                    digits.append(move.digit)
                    states.append(self._digit(after))
                    ways.append(onwards)
        return _Step(digits, Fork(states, ways))


class Watched(NamedTuple):
    """A multiplier, and the watches over its multiplicands."""

    multiplier: int
    watches: tuple[ProductWatch[Any], ...]


class Counted:
    """Multiplicands counted already: those that hang on the same things are counted once."""

    def __init__(self, meter: Meter | None = None) -> None:
        self.meter = meter or Meter()
        self._watching: dict[tuple[int, tuple[ProductWatch[Any], ...]], _Watching] = {}
        self._multiplicands: dict[tuple[tuple[int, ...], _Watching], Multiplicands] = {}

    def multiplicands(self, length: int, watched: Watched) -> Multiplicands:
        """The multiplicands of a length for a multiplier."""
        watches = (length, watched.watches)
        watching = self._watching.get(watches)
        if watching is None:
            watching = self._watching[watches] = _Watching(*watches, self.meter)
        key = (_rows_seen(*watched), watching)
        if key not in self._multiplicands:
            self.meter.spend(_CARRYING)
            self._multiplicands[key] = Multiplicands(*key)
        return self._multiplicands[key]


class Pairs:
    """Pairs of a multiplicand of a length and a multiplier, as a numbered sequence."""

    def __init__(self, length: int, multipliers: Iterable[Watched], counted: Counted) -> None:
        self._multipliers: list[int] = []
        self._multiplicands: list[Multiplicands] = []
        for watched in multipliers:
            counted.meter.spend(_MULTIPLIER)
            found = counted.multiplicands(length, watched)
            if found.count:
                self._multipliers.append(watched.multiplier)
                self._multiplicands.append(found)
        self._parts = Parts(found.count for found in self._multiplicands)
        self._place_of = {multiplier: at for at, multiplier in enumerate(self._multipliers)}

    @property
    def count(self) -> int:
        """How many pairs there are."""
        return self._parts.count

    def unrank(self, number: int, /) -> tuple[int, int]:
        """The multiplicand and multiplier of pair ``number``, 0 ≤ number < count."""
        at, within = self._parts.find(number)
        return self._multiplicands[at].unrank(within), self._multipliers[at]

    def rank(self, pair: tuple[int, int], /) -> int | None:
        """The number of a pair, or None when it is not one of these."""
        multiplicand, multiplier = pair
        at = self._place_of.get(multiplier)
        found = None if at is None else self._multiplicands[at].rank(multiplicand)
        if at is None or found is None:
            return None
        return self._parts.before(at) + found


def _rows_seen(multiplier: int, watches: tuple[ProductWatch[Any], ...]) -> tuple[int, ...]:
    """The rows of a multiplier so far as the watches see them."""
    seen = max((watch.rows for watch in watches), default=Rows.IGNORED)
    if seen is Rows.IGNORED:
        return ()
    rows = [int(digit) for digit in reversed(str(multiplier)) if digit != "0"]
    return tuple(rows if seen is Rows.IN_ORDER else sorted(rows))
