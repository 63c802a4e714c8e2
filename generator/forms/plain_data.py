"""Plain data that was read from a file: a part of it is what it should be, or it is refused."""

from typing import Any


def text_of(value: Any) -> str:
    """The text. Raises TypeError where there is none."""
    if not isinstance(value, str):
        raise TypeError("text is missing")
    return value


def whole_of(value: Any) -> int:
    """The whole number, from 0 on. Raises TypeError where there is none."""
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise TypeError("a whole number is missing")
    return value
