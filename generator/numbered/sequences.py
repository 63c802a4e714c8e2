"""Numbered sets, and how larger ones are put together of smaller ones.

Each can say how many things it holds (``count``), which is number i (``unrank``) and which
number a thing has (``rank``). A set is put together in one of four ways:

- a *sum* of parts, one after another: ``Parts`` says where each begins;
- a *product* of choices that do not hang on one another: ``Product``;
- a *choice* of several different things: ``Chosen``;
- a *walk* from state to state, each of which says by how many ways it can end: ``walk``.

``Listed`` holds a few things outright, ``Below`` the first so many numbers.
"""

from bisect import bisect_right
from collections.abc import Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, repeat
from math import comb, prod
from operator import mul
from typing import Any, Generic, Protocol, TypeVar

from generator.numbered.choices import choice_number, chosen

T = TypeVar("T")
H = TypeVar("H", bound=Hashable)
S = TypeVar("S", bound="State")


class Numbered(Protocol[T]):
    """A set whose things are numbered from 0."""

    @property
    def count(self) -> int:
        """How many things there are."""

    def unrank(self, number: int, /) -> T:
        """Thing ``number``, 0 ≤ number < count."""

    def rank(self, thing: T, /) -> int | None:
        """The number of a thing, or None when it is not in the set."""


class Parts:
    """Parts of a sum, one after another, by how many things each holds."""

    __slots__ = ("_starts",)

    def __init__(self, sizes: Iterable[int]) -> None:
        self._starts = list(accumulate(sizes, initial=0))

    @property
    def count(self) -> int:
        """How many things they hold together."""
        return self._starts[-1]

    def find(self, number: int) -> tuple[int, int]:
        """The part that thing ``number`` is in, 0 ≤ number < count, and its number there."""
        part = bisect_right(self._starts, number) - 1
        return part, number - self._starts[part]

    def before(self, part: int) -> int:
        """How many things the parts before one hold."""
        return self._starts[part]


@dataclass(frozen=True)
class Listed(Generic[H]):
    """A few different things, in their order."""

    things: Sequence[H]

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.things)

    def unrank(self, number: int, /) -> H:
        """Thing ``number``."""
        return self.things[number]

    def rank(self, thing: H, /) -> int | None:
        """Its place, or None."""
        return self._places.get(thing)

    @cached_property
    def _places(self) -> dict[H, int]:
        return {thing: place for place, thing in enumerate(self.things)}


@dataclass(frozen=True, slots=True)
class Below:
    """The numbers 0 … ``count`` − 1."""

    count: int

    def unrank(self, number: int, /) -> int:
        """The number itself."""
        return number

    def rank(self, thing: int, /) -> int | None:
        """The number itself, or None."""
        return thing if 0 <= thing < self.count else None


@dataclass(frozen=True, slots=True)
class Chosen:
    """So many different ones of the numbers 0 … ``among`` − 1, in falling order."""

    size: int
    among: int

    @property
    def count(self) -> int:
        """How many choices there are."""
        return comb(self.among, self.size)

    def unrank(self, number: int, /) -> tuple[int, ...]:
        """Choice ``number``."""
        return chosen(number, self.size, self.among)

    def rank(self, thing: Iterable[int], /) -> int | None:
        """The number of a choice, in whatever order; None when some number stands twice."""
        numbers = tuple(thing)
        if len(set(numbers)) != self.size or len(numbers) != self.size:
            return None
        return choice_number(numbers)


@dataclass(frozen=True)
class Product:
    """One thing of each set, as a tuple: the last set is gone through first."""

    sets: tuple[Numbered[Any], ...]

    @cached_property
    def count(self) -> int:
        """How many tuples there are."""
        return prod(numbered.count for numbered in self.sets)

    def unrank(self, number: int, /) -> tuple[Any, ...]:
        """Tuple ``number``."""
        found = []
        for numbered in reversed(self.sets):
            number, own = divmod(number, numbered.count)
            found.append(numbered.unrank(own))
        return tuple(reversed(found))

    def rank(self, things: Sequence[Any], /) -> int | None:
        """The number of a tuple; None when a thing is not in its set."""
        number = 0
        for numbered, thing in zip(self.sets, things, strict=True):
            own = numbered.rank(thing)
            if own is None:
                return None
            number = number * numbered.count + own
        return number


class State(Protocol):
    """Where a walk stands; it knows how many ways there are from there to an end."""

    @property
    def fork(self: S) -> "Fork[S] | None":
        """How a walk goes on from here; None at an end."""


class Shares:
    """Parts each of which is a product: so many labels, and so many ways for each of them."""

    __slots__ = ("_starts", "_ways")

    def __init__(self, labels: Iterable[int], ways: Sequence[int]) -> None:
        self._ways = ways
        self._starts: list[int] = list(accumulate(map(mul, labels, ways), initial=0))

    def take(self, number: int) -> tuple[int, int, int]:
        """The part that thing ``number`` is in, its label there, and its number for that label."""
        part = bisect_right(self._starts, number) - 1
        number -= self._starts[part]
        ways = self._ways[part]
        if number < ways:
            return part, 0, number
        return part, number // ways, number % ways

    def before(self, part: int, label: int = 0) -> int:
        """How many things come before those with a label of a part."""
        return self._starts[part] + label * self._ways[part]


class Fork(Shares, Generic[S]):
    """How a walk goes on from a state: by branches, each with labels that lead to one next state.

    Walks are numbered branch by branch; within a branch label by label, and for each label as
    the walks from the next state on.
    """

    __slots__ = ("states",)

    def __init__(
        self, states: Sequence[S], ways: Sequence[int], labels: Iterable[int] | None = None
    ) -> None:
        """``ways`` are those from each next state to the end; without ``labels`` each has one."""
        super().__init__(repeat(1) if labels is None else labels, ways)
        self.states = states


def walk(state: S, number: int) -> Iterator[tuple[S, int, int]]:
    """Walk ``number`` from a state, 0 ≤ number < its ways: state, branch and label at each step."""
    fork = state.fork
    while fork is not None:
        branch, label, number = fork.take(number)
        yield state, branch, label
        state = fork.states[branch]
        fork = state.fork
