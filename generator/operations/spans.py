"""Lengths as a spec has them: for all alike, for each number in turn, or in a range."""

from specs.shapes import Chosen

Length = int | Chosen[tuple[int, int]]
"""So many, or a range from the fewest to the most that is ``ragged``, ``same`` or ``between``."""

Lengths = Length | tuple[int, ...]
"""The same, or a list with an entry for each number in turn."""


def spread(low_high: tuple[int, int]) -> tuple[int, ...]:
    """Every whole number of a range, both ends too."""
    low, high = low_high
    return tuple(range(low, high + 1))


def each_of(asked: Length) -> tuple[int, ...]:
    """Every length that a number may have."""
    return spread(asked.value) if isinstance(asked, Chosen) else (asked,)


def each_in_turn(asked: Lengths, numbers: int) -> list[tuple[int, ...]]:
    """The lengths that each of so many numbers may have."""
    if isinstance(asked, tuple):
        return [(length,) for length in asked]
    return [each_of(asked)] * numbers


def ragged(asked: Lengths) -> bool | None:
    """Whether the lengths must not all be equal (True), or must (False); None: either."""
    word = asked.word if isinstance(asked, Chosen) else "between"
    return None if word == "between" else word == "ragged"


def longest(asked: Lengths) -> int:
    """The greatest length of any number."""
    return max(map(max, each_in_turn(asked, 1)))


def shortest(asked: Lengths) -> int:
    """The least length of any number."""
    return min(map(min, each_in_turn(asked, 1)))
