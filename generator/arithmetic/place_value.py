"""The names of the columns: ones, tenths, hundredths and so on.

A *place* is the power of ten of a column: 0 for ones, -1 for tenths, 2 for hundreds.
"""

from typing import Final

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


def column_name(place: int) -> str:
    """The column's plural name: ``column_name(-2) == "hundredths"``."""
    return COLUMN_NAMES[place]


def amount(count: int, place: int) -> str:
    """So many of a column's unit in words: ``1 tenth``, ``0 tenths``, ``14 thousandths``."""
    return counted(count, COLUMN_NAMES[place])


def counted(count: int, plural: str) -> str:
    """So many of what has that plural name: ``1 tenth``, ``3 tens``, but ``2 million``."""
    return f"{count} {plural[:-1] if count == 1 or plural.endswith('millions') else plural}"


def is_or_are(count: int) -> str:
    """The verb after ``amount(count, …)``."""
    return "is" if count == 1 else "are"


def becomes(count: int) -> str:
    """The verb of a change after ``amount(count, …)``."""
    return "becomes" if count == 1 else "become"
