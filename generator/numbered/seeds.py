"""From a seed and an address to the same choice on every machine, for ever.

Only BLAKE2b (RFC 7693) feeds a choice, through its raw bytes: no library generator, whose
methods may change between releases, and no platform's word size.
"""

from collections.abc import Sequence
from hashlib import blake2b
from typing import TypeVar

Item = TypeVar("Item")


def key(*address: str | int) -> bytes:
    """A 32-byte key for an address. Different addresses never run together: ("a", "bc")
    and ("ab", "c") have different keys, and so have 1 and "1".
    """
    digest = blake2b(digest_size=32, person=b"rungsheet")
    for part in address:
        text = f"{'n' if isinstance(part, int) else 't'}{part}".encode()
        digest.update(len(text).to_bytes(8, "big") + text)
    return digest.digest()


class Dice:
    """Fair dice that fall the same for the same key: an endless stream of 64-bit words."""

    def __init__(self, key: bytes) -> None:
        self._key = key
        self._blocks = 0
        self._waiting: list[int] = []

    def next(self) -> int:
        """The next word, 0 ≤ word < 2**64."""
        if not self._waiting:
            block = blake2b(self._blocks.to_bytes(8, "big"), key=self._key, digest_size=64).digest()
            self._blocks += 1
            self._waiting = [int.from_bytes(block[at : at + 8], "big") for at in range(56, -1, -8)]
        return self._waiting.pop()

    def below(self, bound: int) -> int:
        """A whole number from 0 to bound − 1, each exactly as likely as the others."""
        if bound < 1:
            raise ValueError(f"no number is from 0 to {bound} − 1")
        words = -(-bound.bit_length() // 64)
        span = 1 << 64 * words
        fair = span - span % bound
        while True:
            number = 0
            for _ in range(words):
                number = number << 64 | self.next()
            if number < fair:
                return number % bound

    def shuffled(self, items: Sequence[Item]) -> list[Item]:
        """The items in an order, each order exactly as likely as the others."""
        order = list(items)
        for last in range(len(order) - 1, 0, -1):
            other = self.below(last + 1)
            order[last], order[other] = order[other], order[last]
        return order
