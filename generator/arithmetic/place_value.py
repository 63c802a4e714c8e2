"""The names of the columns: ones, tenths, hundredths and so on.

A *place* is the power of ten of a column: 0 for ones, -1 for tenths, 2 for hundreds.
"""

from typing import Final

from specs.languages.saying import Saying, counted, say, say_of, several

COLUMN_NAMES: Final[dict[int, str]] = {
    9: "thousand millions",
    8: "hundred millions",
    7: "ten millions",
    6: "millions",
    5: "hundred thousands",
    4: "ten thousands",
    3: "thousands",
    2: "hundreds",
    1: "tens",
    0: "ones",
    -1: "tenths",
    -2: "hundredths",
    -3: "thousandths",
    -4: "ten-thousandths",
    -5: "hundred-thousandths",
    -6: "millionths",
}

HIGHEST_PLACE: Final = max(COLUMN_NAMES)
LOWEST_PLACE: Final = min(COLUMN_NAMES)

PLACE_NAMED: Final[dict[str, int]] = {name: place for place, name in COLUMN_NAMES.items()}


_AMOUNTS: Final = {
    9: counted("{count} thousand million", "{count} thousand million"),
    8: counted("{count} hundred million", "{count} hundred million"),
    7: counted("{count} ten million", "{count} ten million"),
    6: counted("{count} million", "{count} million"),
    5: counted("{count} hundred thousand", "{count} hundred thousands"),
    4: counted("{count} ten thousand", "{count} ten thousands"),
    3: counted("{count} thousand", "{count} thousands"),
    2: counted("{count} hundred", "{count} hundreds"),
    1: counted("{count} ten", "{count} tens"),
    0: counted("{count} one", "{count} ones"),
    -1: counted("{count} tenth", "{count} tenths"),
    -2: counted("{count} hundredth", "{count} hundredths"),
    -3: counted("{count} thousandth", "{count} thousandths"),
    -4: counted("{count} ten-thousandth", "{count} ten-thousandths"),
    -5: counted("{count} hundred-thousandth", "{count} hundred-thousandths"),
    -6: counted("{count} millionth", "{count} millionths"),
}
"""A column's unit, counted: once, and any other number of times. Millions keep their form."""

_NAMES: Final = {
    9: say("thousand millions"),
    8: say("hundred millions"),
    7: say("ten millions"),
    6: say("millions"),
    5: say("hundred thousands"),
    4: say("ten thousands"),
    3: say("thousands"),
    2: say("hundreds"),
    1: say("tens"),
    0: say("ones"),
    -1: say("tenths"),
    -2: say("hundredths"),
    -3: say("thousandths"),
    -4: say("ten-thousandths"),
    -5: say("hundred-thousandths"),
    -6: say("millionths"),
}
"""The same names as sentences have them."""

_NAMES_FIRST: Final = {
    9: say_of("first in a sentence", "Thousand millions"),
    8: say_of("first in a sentence", "Hundred millions"),
    7: say_of("first in a sentence", "Ten millions"),
    6: say_of("first in a sentence", "Millions"),
    5: say_of("first in a sentence", "Hundred thousands"),
    4: say_of("first in a sentence", "Ten thousands"),
    3: say_of("first in a sentence", "Thousands"),
    2: say_of("first in a sentence", "Hundreds"),
    1: say_of("first in a sentence", "Tens"),
    0: say_of("first in a sentence", "Ones"),
    -1: say_of("first in a sentence", "Tenths"),
    -2: say_of("first in a sentence", "Hundredths"),
    -3: say_of("first in a sentence", "Thousandths"),
    -4: say_of("first in a sentence", "Ten-thousandths"),
    -5: say_of("first in a sentence", "Hundred-thousandths"),
    -6: say_of("first in a sentence", "Millionths"),
}
"""The same names as the first words of sentences."""


def column_name(place: int) -> Saying:
    """The column's plural name: ``column_name(-2) == "hundredths"``."""
    return _NAMES[place]


def column_name_first(place: int) -> Saying:
    """The same as the first word of a sentence: ``column_name_first(-2) == "Hundredths"``."""
    return _NAMES_FIRST[place]


def amount(count: int, place: int) -> Saying:
    """So many of a column's unit in words: ``1 tenth``, ``0 tenths``, ``14 thousandths``."""
    return several(*_AMOUNTS[place], count)


def is_less(count: int, less: str, more: str) -> Saying:
    """``3 tenths are less than 7 tenths``; ``count`` is that of the first."""
    return several(
        "{less} is less than {more}", "{less} are less than {more}", count, less=less, more=more
    )


def becomes(count: int, before: str, after: str) -> Saying:
    """``1 ten becomes 0 tens``, ``3 ones become 13 ones``; ``count`` is that before."""
    return several(
        "{before} becomes {after}",
        "{before} become {after}",
        count,
        before=before,
        after=after,
    )
