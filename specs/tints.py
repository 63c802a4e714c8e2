"""Tinted paper: pastels by plain names, each light enough for every ink that is printed on it."""

from typing import Final

TINTS: Final = {
    "cream": "#FFF6DC",
    "peach": "#FFEADB",
    "mint": "#E3F5E4",
    "sky": "#E0F1FB",
    "lilac": "#F2ECFB",
    "rose": "#FDEAEE",
}
"""Name and sRGB colour. New names go at the end: page codes count them from the top."""


def rgb(name: str) -> tuple[float, float, float]:
    """Red, green and blue from 0 to 1. Raises KeyError for a name that is not a tint's."""
    colour = TINTS[name]
    red, green, blue = (round(int(colour[at : at + 2], 16) / 255, 4) for at in (1, 3, 5))
    return red, green, blue
