"""Numbers that several additions and subtractions can have in one place: counted, not tried.

A number is read digit by digit from the right, while all else that may stand in its columns is
left open: after each digit a rung is in one of several states of its column automaton, and the
*set* of them is the state here (the subset construction of automata theory: Rabin and Scott,
*Finite automata and their decision problems*, 1959; from memory). Numbers that serve several
rungs at once are read by all of them together. Counts of ways to the end from each such state
give how many numbers serve, and a walk through them gives number i.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, NamedTuple

from generator.allowance import TooWideError
from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation
from generator.operations.columns.automaton import ColumnCount, Standing
from generator.operations.columns.fills import Role, Status
from generator.operations.columns.outline import Outline

MOST_WORK: Final = 600_000
"""How many states may be left in reading digits before the rungs are refused as too wide (some
five seconds)."""


class _Letter(NamedTuple):
    """What a number has in a column: a digit, the first of it where it ends; None for nothing."""

    digit: int | None
    ends: bool = False


_NOTHING: Final = _Letter(None)
_DIGITS: Final = tuple(_Letter(digit, ends) for digit in range(10) for ends in (True, False))


class _Reader:
    """A rung as it reads the number that stands in one place of its questions."""

    def __init__(self, counted: ColumnCount, role: int) -> None:
        self.counted = counted
        self._role = role
        self._led: dict[tuple[Standing, _Letter], tuple[Standing, ...]] = {}

    @staticmethod
    def of(outline: Outline, at: int) -> "_Reader":
        """The reader of number ``at``, counted from 0 in the order of printing."""
        if outline.operation is Operation.SUBTRACT:
            return _Reader(ColumnCount(outline.form), at)
        kind = outline.kinds[at]
        others = outline.with_kinds(*outline.kinds[:at], *outline.kinds[at + 1 :])
        roles = (Role(kind, 1), *others.form.roles)
        return _Reader(ColumnCount(replace(outline.form, roles=roles)), 0)

    @property
    def start(self) -> frozenset[Standing]:
        """Before the first digit."""
        start = self.counted.standing
        return frozenset([start] if start is not None else [])

    def after(
        self, standings: frozenset[Standing], place: int, letter: _Letter
    ) -> frozenset[Standing]:
        """The states after a column in which the number has that."""
        columns = self.counted.columns
        if place not in columns:
            return standings if letter.digit is None else frozenset()
        return frozenset().union(*(self._led_to(standing, letter) for standing in standings))

    def _led_to(self, standing: Standing, letter: _Letter) -> tuple[Standing, ...]:
        known = self._led.get((standing, letter))
        if known is None:
            found = self.counted.led_to(standing, self._role, letter.digit, letter.ends)
            known = self._led[standing, letter] = tuple(found)
        return known


class SharedNumbers:
    """The numbers that can stand in a place of some question of each of several outlines."""

    def __init__(self, outlines: Sequence[Outline], at: int) -> None:
        self._readers = [_Reader.of(outline, at) for outline in outlines]
        columns = [reader.counted.columns for reader in self._readers]
        self._places = range(min(c.start for c in columns), max(c.stop for c in columns))
        self._ways: dict[_State, int] = {}
        self._work = 0

    @property
    def count(self) -> int:
        """Exactly how many there are. Raises TooWideError when that takes too long to count."""
        return self._count(self._start)

    @property
    def _start(self) -> "_State":
        return _State(0, Status.WAITING, tuple(reader.start for reader in self._readers))

    def unrank(self, number: int, /) -> Number:
        """Number ``number``, 0 ≤ number < count; raises IndexError outside that range."""
        if not 0 <= number < self.count:
            raise IndexError(f"number {number} of {self.count}")
        state, units, digits, last = self._start, 0, 0, 0
        while state.at < len(self._places):
            place = self._places[state.at]
            letter, state, number = self._next(state, number)
            if letter.digit is not None:
                last = last if digits else place
                units, digits = units + letter.digit * 10**digits, digits + 1
        return Number(units * 10 ** max(last, 0), max(-last, 0))

    def _next(self, state: "_State", number: int) -> "tuple[_Letter, _State, int]":
        """The letter that way ``number`` to the end begins with, the state and number after it."""
        for letter, after in self._each(state):
            ways = self._count(after)
            if number < ways:
                return letter, after, number
            number -= ways
        raise IndexError(number)

    def __contains__(self, number: Number) -> bool:
        states = tuple(reader.start for reader in self._readers)
        for place in range(min(self._places.start, number.last_place), self._places.stop):
            letter = _NOTHING
            if number.written_at(place):
                letter = _Letter(number.digit(place), place == number.top_place)
            states = self._after(states, place, letter)
        return number.top_place < self._places.stop and all(states)

    def _after(
        self, states: "tuple[frozenset[Standing], ...]", place: int, letter: _Letter
    ) -> "tuple[frozenset[Standing], ...]":
        self._work += sum(map(len, states))
        if self._work > MOST_WORK:
            raise TooWideError
        return tuple(
            reader.after(state, place, letter)
            for reader, state in zip(self._readers, states, strict=True)
        )

    def _each(self, state: "_State") -> "Iterator[tuple[_Letter, _State]]":
        """What the number can have next, and the state after it, where all rungs go on."""
        place = self._places[state.at]
        letters: tuple[_Letter, ...] = (_NOTHING,)
        if state.status is Status.WAITING:
            letters = (_NOTHING, *_DIGITS)
        elif state.status is Status.RUNNING:
            letters = _DIGITS
        for letter in letters:
            after = self._after(state.standings, place, letter)
            if all(after):
                status = state.status
                if letter.digit is not None:
                    status = Status.DONE if letter.ends else Status.RUNNING
                yield letter, _State(state.at + 1, status, after)

    def _count(self, state: "_State") -> int:
        if state.at == len(self._places):
            return int(state.status is Status.DONE)
        if state not in self._ways:
            self._ways[state] = sum(self._count(after) for _, after in self._each(state))
        return self._ways[state]


class _State(NamedTuple):
    """Before a column: how far the number is written, and where each rung may be."""

    at: int
    status: Status
    standings: tuple[frozenset[Standing], ...]
