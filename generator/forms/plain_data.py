"""Plain data that was read from a file: a part of it is what it should be, or it is refused.

Anything may stand in a file, and costs by its length: each part has a bound that no record
goes beyond.
"""

from typing import Any, Final

from specs.languages.saying import say

LONGEST_TEXT: Final = 1_000
LONGEST_LINES: Final = 256 * 1024
GREATEST_WHOLE: Final = 999_999_999


def text_of(value: Any) -> str:
    """The line of text. Raises TypeError where there is none, and ValueError where it is too
    long or has signs that cannot be printed.
    """
    if not isinstance(value, str):
        raise TypeError("text is missing")
    if len(value) > LONGEST_TEXT or not value.isprintable():
        raise ValueError(say("a text is too long, or has signs that cannot be printed"))
    return value


def lines_of(value: Any) -> str:
    """The text of several lines: that of a spec, which is read like any other.

    Raises as ``text_of`` does; only half a surrogate pair is no text at all.
    """
    if not isinstance(value, str):
        raise TypeError("text is missing")
    if len(value) > LONGEST_LINES or any("\ud800" <= sign <= "\udfff" for sign in value):
        raise ValueError(say("a text is too long, or has signs that cannot be printed"))
    return value


def whole_of(value: Any) -> int:
    """The whole number, from 0 on. Raises TypeError where there is none, and ValueError for one
    that is too great.
    """
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise TypeError("a whole number is missing")
    if value > GREATEST_WHOLE:
        raise ValueError(say("a whole number is too great"))
    return value
