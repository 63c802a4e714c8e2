"""The QR code (ISO/IEC 18004) of a page's code."""

from typing import Final

from layouts.planning.plan import Symbol

SIDE: Final = 9.45
"""Millimetres: modules of 0.45 for the smallest symbol, more than two dots of a 150 dpi scan."""
QUIET: Final = 4 * SIDE / 21
"""What must stay free on every side: four modules (ISO/IEC 18004, 6.3.8)."""

_HOLDS_AT_M: Final = 20
"""Alphanumeric characters in the smallest symbol at level M (ISO/IEC 18004, table 7)."""

_MASK: Final = 3
"""One mask for all (readers take any): choosing the best of eight each time would take longer
than all else on the page."""


def qr(text: str, x: float, y: float) -> Symbol:
    """The symbol of a text, its top left corner there, always of the same size."""
    import segno  # here, so that only drawing pages loads it

    level = "M" if len(text) <= _HOLDS_AT_M else "L"
    made = segno.make(text, error=level, mask=_MASK, micro=False, boost_error=False)
    return Symbol(x, y, SIDE, tuple(tuple(map(bool, row)) for row in made.matrix))
