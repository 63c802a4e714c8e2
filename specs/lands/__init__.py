"""How the schools of several lands write numbers and written methods, as data."""

from typing import Final

from specs.lands.land import UNSOURCED, Land, land, names

ENGLAND: Final = land("England")
"""The land whose way of writing the generator has itself."""

__all__ = ["ENGLAND", "UNSOURCED", "Land", "land", "names"]
