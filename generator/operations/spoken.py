"""Column names for worked sentences, further out than questions themselves ever reach.

A product has as many places as its factors together and a quotient may run on, so a
working meets columns that no question's own numbers have.
"""

from typing import Final

from generator.arithmetic import place_value
from specs.languages.saying import Saying, counted, say, several

_FURTHER: Final = {
    12: (say("million millions"), counted("{count} million million", "{count} million million")),
    11: (
        say("hundred thousand millions"),
        counted("{count} hundred thousand million", "{count} hundred thousand million"),
    ),
    10: (
        say("ten thousand millions"),
        counted("{count} ten thousand million", "{count} ten thousand million"),
    ),
    -7: (say("ten-millionths"), counted("{count} ten-millionth", "{count} ten-millionths")),
    -8: (
        say("hundred-millionths"),
        counted("{count} hundred-millionth", "{count} hundred-millionths"),
    ),
    -9: (
        say("thousand-millionths"),
        counted("{count} thousand-millionth", "{count} thousand-millionths"),
    ),
    -10: (
        say("ten-thousand-millionths"),
        counted("{count} ten-thousand-millionth", "{count} ten-thousand-millionths"),
    ),
    -11: (
        say("hundred-thousand-millionths"),
        counted("{count} hundred-thousand-millionth", "{count} hundred-thousand-millionths"),
    ),
    -12: (
        say("million-millionths"),
        counted("{count} million-millionth", "{count} million-millionths"),
    ),
}
"""Name and counted unit of the columns beyond those of questions."""


def column_name(place: int) -> Saying:
    """The column's plural name. Raises ValueError where a column is too far out to be named."""
    if place in _FURTHER:
        return _FURTHER[place][0]
    _refuse_nameless(place)
    return place_value.column_name(place)


def amount(count: int, place: int) -> Saying:
    """So many of a column's unit in words: ``1 tenth``, ``42 thousandths``, ``2 million``."""
    if place in _FURTHER:
        return several(*_FURTHER[place][1], count)
    _refuse_nameless(place)
    return place_value.amount(count, place)


def _refuse_nameless(place: int) -> None:
    if place not in place_value.COLUMN_NAMES:
        raise ValueError(f"the working needs a column without a name (10 to the power {place})")
