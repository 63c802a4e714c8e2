"""Column names for worked sentences, further out than questions themselves ever reach.

A product has as many places as its factors together and a quotient may run on, so a
working meets columns that no question's own numbers have.
"""

from typing import Final

from generator.arithmetic.place_value import COLUMN_NAMES, counted

_NAMES: Final = {
    12: "million millions",
    11: "hundred thousand millions",
    10: "ten thousand millions",
    **COLUMN_NAMES,
    -7: "ten-millionths",
    -8: "hundred-millionths",
    -9: "thousand-millionths",
    -10: "ten-thousand-millionths",
    -11: "hundred-thousand-millionths",
    -12: "million-millionths",
}


def column_name(place: int) -> str:
    """The column's plural name. Raises ValueError where a column is too far out to be named."""
    if place not in _NAMES:
        raise ValueError(f"the working needs a column without a name (10 to the power {place})")
    return _NAMES[place]


def amount(count: int, place: int) -> str:
    """So many of a column's unit in words: ``1 tenth``, ``42 thousandths``, ``2 million``."""
    return counted(count, column_name(place))
