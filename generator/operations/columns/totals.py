"""Counts for each total of a column's digits, written as the digits of one long number.

The ways to reach the totals 0, 1, 2 … stand from the right in a base that no count
reaches. Multiplying two such numbers is then a long multiplication without carries: the
ways for every two totals are multiplied, and added up under the total of both. (This is
Kronecker's substitution for polynomials; common practice, from memory.)
"""

from itertools import accumulate
from struct import unpack
from typing import Final

_BITS: Final = 32
_BYTES: Final = _BITS // 8
_MOST: Final = (1 << _BITS) - 1


def check_room(ways: int) -> None:
    """Raise ValueError where so many ways to reach one total would run over into the next."""
    if ways > _MOST:
        raise ValueError(f"{ways} ways to fill a column are more than a count has room for")


def raised(counts: int, by: int) -> int:
    """The counts with every total raised by a number."""
    return counts << _BITS * by


def ways_to(counts: int, total: int) -> int:
    """How many ways there are to reach a total."""
    return counts >> _BITS * total & _MOST


def unpacked(counts: int) -> tuple[int, ...]:
    """The ways to reach 0, 1, 2 … up to the greatest total that there is."""
    length = -(-counts.bit_length() // _BITS)
    return unpack(f"<{length}I", counts.to_bytes(_BYTES * length, "little"))


def running(counts: int, length: int) -> tuple[int, ...]:
    """How many ways there are to stay below each of 0 … length."""
    ways = unpacked(counts)
    return tuple(accumulate(ways + (0,) * (length - len(ways)), initial=0))
