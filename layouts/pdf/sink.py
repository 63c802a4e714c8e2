"""Where the bytes of a file go while it is written."""

from typing import Protocol


class Sink(Protocol):
    """Takes bytes, as an open file does."""

    def write(self, data: bytes, /) -> object:
        """Take the next bytes."""
