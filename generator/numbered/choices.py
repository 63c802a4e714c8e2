"""Choosing some of many things, each choice with a number: the combinatorial number system.

D. E. Knuth, *The Art of Computer Programming*, volume 4A, section 7.2.1.3 (from memory):
every number below C(n, k) is C(c_k, k) + … + C(c_1, 1) for just one c_k > … > c_1 ≥ 0.
"""

from collections.abc import Iterable
from math import comb


def chosen(number: int, size: int, among: int) -> tuple[int, ...]:
    """Choice ``number`` of ``size`` of the things 0 … among − 1, in falling order."""
    if not 0 <= number < comb(among, size):
        raise IndexError(number)
    found = []
    for left in range(size, 0, -1):
        low, high = left - 1, among - 1
        while low < high:  # the greatest thing with C(thing, left) ≤ number
            middle = (low + high + 1) // 2
            low, high = (middle, high) if comb(middle, left) <= number else (low, middle - 1)
        found.append(low)
        number -= comb(low, left)
    return tuple(found)


def choice_number(things: Iterable[int]) -> int:
    """The number of a choice of different things."""
    return sum(comb(thing, at) for at, thing in enumerate(sorted(things), 1))
