"""Choosing some of many things, each choice with a number: the combinatorial number system.

D. E. Knuth, *The Art of Computer Programming*, volume 4A, section 7.2.1.3 (from memory):
every number below C(n, k) is C(c_k, k) + … + C(c_1, 1) for just one c_k > … > c_1 ≥ 0.
"""

from collections.abc import Iterable
from math import comb, isqrt


def chosen(number: int, size: int, among: int) -> tuple[int, ...]:
    """Choice ``number`` of ``size`` of the things 0 … among − 1, in falling order."""
    if not 0 <= number < comb(among, size):
        raise IndexError(number)
    found = []
    for left in range(size, 0, -1):
        thing = _greatest(number, left, among)
        found.append(thing)
        number -= comb(thing, left)
        among = thing
    return tuple(found)


def _greatest(number: int, size: int, among: int) -> int:
    """The greatest thing below ``among`` with C(thing, size) ≤ number."""
    if size == 1:
        return number
    if size == 2:
        return (1 + isqrt(1 + 8 * number)) // 2  # thing × (thing − 1) ≤ 2 × number
    low, high = size - 1, among - 1
    while low < high:
        middle = (low + high + 1) // 2
        if comb(middle, size) <= number:
            low = middle
        else:
            high = middle - 1
    return low


def choice_number(things: Iterable[int]) -> int:
    """The number of a choice of different things."""
    return sum(comb(thing, at) for at, thing in enumerate(sorted(things), 1))
