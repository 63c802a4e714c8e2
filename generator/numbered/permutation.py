"""A keyed permutation of 0…n−1 for any n: an order in which a set is gone through.

Small sets are shuffled outright. Large ones go through a Feistel network on pairs of
numbers below √n, and a value that falls outside 0…n−1 is sent through again until it is
inside (cycle walking), so every n has a true permutation and nothing is stored.
"""

from hashlib import blake2b
from math import isqrt
from typing import Final

from generator.numbered.seeds import Dice

_SHUFFLED: Final = 512
_ROUNDS: Final = 8


class Permutation:
    """A bijection of 0…size−1 that depends on nothing but the size and a 32-byte key."""

    def __init__(self, size: int, key: bytes) -> None:
        if size < 1:
            raise ValueError(f"nothing to permute: size {size}")
        self.size = size
        self._order: list[int] = []
        self._places: dict[int, int] = {}
        if size <= _SHUFFLED:
            self._order = Dice(key).shuffled(range(size))
            self._places = {value: place for place, value in enumerate(self._order)}
        self._side = isqrt(size - 1) + 1
        self._bytes = (self._side.bit_length() + 7) // 8
        # Eight spare bytes keep the remainder's bias below 2**-64.
        digest_size = min(self._bytes + 8, 64)
        self._rounds = [
            blake2b(bytes([number]), key=key, digest_size=digest_size) for number in range(_ROUNDS)
        ]

    def __getitem__(self, place: int) -> int:
        """The value at a place, 0 ≤ place < size; raises IndexError outside."""
        self._check(place)
        if self._order:
            return self._order[place]
        value = self._forward(place)
        while value >= self.size:
            value = self._forward(value)
        return value

    def place_of(self, value: int) -> int:
        """The place of a value: the inverse of ``self[place]``."""
        self._check(value)
        if self._order:
            return self._places[value]
        place = self._backward(value)
        while place >= self.size:
            place = self._backward(place)
        return place

    def _check(self, number: int) -> None:
        if not 0 <= number < self.size:
            raise IndexError(f"{number} is not below {self.size}")

    def _mixed(self, round_number: int, half: int) -> int:
        hashed = self._rounds[round_number].copy()
        hashed.update(half.to_bytes(self._bytes, "big"))
        return int.from_bytes(hashed.digest(), "big")

    def _forward(self, number: int) -> int:
        left, right = divmod(number, self._side)
        for round_number in range(_ROUNDS):
            left, right = right, (left + self._mixed(round_number, right)) % self._side
        return left * self._side + right

    def _backward(self, number: int) -> int:
        left, right = divmod(number, self._side)
        for round_number in reversed(range(_ROUNDS)):
            left, right = (right - self._mixed(round_number, left)) % self._side, left
        return left * self._side + right
