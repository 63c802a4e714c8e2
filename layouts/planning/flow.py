"""Things of known height into columns or pages, in order and never split."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import TypeAlias

Run: TypeAlias = tuple[int, int]
"""Things from the first index up to, not including, the second."""


def greedy(heights: Sequence[float], capacity: float, gap: float) -> tuple[Run, ...]:
    """Each run filled before the next begins: the fewest runs.

    A thing taller than the capacity has a run to itself; callers see to it that none is.
    """
    runs: list[Run] = []
    start, used = 0, 0.0
    for index, height in enumerate(heights):
        if index > start and used + gap + height > capacity + 1e-9:
            runs.append((start, index))
            start, used = index, 0.0
        used += height + (gap if index > start else 0)
    return (*runs, (start, len(heights))) if heights else ()


def even(heights: Sequence[float], runs: int, capacity: float, gap: float) -> tuple[Run, ...]:
    """So many runs, as even in height as order allows.

    Evenness is the least sum of the squares of the runs' heights; of equals, the one with
    more in its earlier runs. Falls back on ``greedy`` when so many runs cannot hold them.
    """
    if runs < 2:
        return greedy(heights, capacity, gap)
    total = [0.0, *accumulate(heights)]
    # shares[end]: how to share the things before `end` among the runs so far.
    shares = {0: _Share(0.0, ())}
    for _ in range(min(runs, len(heights))):
        longer: dict[int, _Share] = {}
        for end in range(1, len(heights) + 1):
            for start, before in shares.items():
                height = total[end] - total[start] + gap * (end - start - 1)
                if start >= end or height > capacity + 1e-9:
                    continue
                share = _Share(before.cost + height**2, (*before.runs, (start, end)))
                if end not in longer or share.better_than(longer[end]):
                    longer[end] = share
        shares = longer
    found = shares.get(len(heights))
    return found.runs if found else greedy(heights, capacity, gap)


@dataclass(frozen=True, slots=True)
class _Share:
    cost: float
    runs: tuple[Run, ...]

    def better_than(self, other: "_Share") -> bool:
        if abs(self.cost - other.cost) > 1e-6:
            return self.cost < other.cost
        return self.runs[-1][0] > other.runs[-1][0]
