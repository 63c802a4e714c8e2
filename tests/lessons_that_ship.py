"""The lessons that ship, for tests that try each: some of them daily, the others when slow."""

from typing import Final

import pytest

from specs import shipped_names

DAILY: Final = ("autumn-fair", "multiplying-by-the-grid", "produce-stall", "sharing-with-homework")
"""Between them they have every operation, form and kind of part."""

EACH: Final = tuple(
    name if name in DAILY else pytest.param(name, marks=pytest.mark.slow)
    for name in shipped_names()
)
"""Their names, for parametrize."""
