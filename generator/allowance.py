"""What one command may cost: work is counted, not timed, so that all machines refuse alike.

A *step* is about half a microsecond on the machine of tests/bench: one number put beside another
in counting. A command has WHOLE of them, some five seconds. Each phase that may be led to work in
vain has its part, and shares it fairly: what one rung leaves, the rungs after it may have, and no
rung can use up what is another's. What a pack costs because it is large is not in this.
"""

from typing import Final

WHOLE: Final = 10_000_000
"""The steps of one command: no phases that can come one after another have more together."""

COUNTING: Final = 5_000_000
"""Counting the rungs of a ladder: five of the widest that lessons have asked for."""

SEARCHING: Final = 4_000_000
"""Which conditions of the rungs without a question clash, and what would help: then nothing is
drawn."""

_ASKING: Final = 2_000_000
_SUITING: Final = 2_000_000
_EXPLAINING: Final = 1_000_000

_ASKED: Final = 250  # steps of trying the slowest form on one question
_TOLD_APART: Final = 100  # steps of finding what mistakes make of one

LOOKED_AT_OF_A_LADDER: Final = _ASKING // _ASKED
"""Questions that are tried before it is said that rungs cannot be asked as they wish."""

LOOKED_AT_OF_A_PACK: Final = _SUITING // _TOLD_APART
"""Questions that are looked at in search of those that suit, where hardly any do."""

LOOKED_AT_TO_EXPLAIN: Final = _EXPLAINING // _TOLD_APART
"""Questions that are looked at to say why none will do."""

DRAWING: Final = 60_000
"""Questions that the places of a pack try together, where some will not do."""


class TooWideError(Exception):
    """A rung that mixes so many lengths and conditions that counting it would take too long."""


class Meter:
    """Counts work, and breaks it off when it is too much."""

    __slots__ = ("most", "spent")

    def __init__(self, most: int = COUNTING) -> None:
        self.most = most
        self.spent = 0

    def spend(self, work: int) -> None:
        """Keep account of some work; raises TooWideError when it is too much in all."""
        self.spent += work
        if self.spent > self.most:
            raise TooWideError


class Portions:
    """A part of the allowance, for so many to share: each has what is left, shared equally."""

    def __init__(self, whole: int, among: int) -> None:
        self.left = whole
        self._among = among

    @property
    def next(self) -> int:
        """What the next may have."""
        return max(self.left, 0) // max(self._among, 1)

    def took(self, work: int) -> None:
        """Note what the next has had."""
        self.left -= work
        self._among -= 1
