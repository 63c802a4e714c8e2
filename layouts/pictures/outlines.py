"""The outlines of the typeface's characters, as the paths of a vector picture."""

from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, Final

from layouts.planning.typeface import font_path

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

_OUTLINES: Final = 4_000
"""How many outlines are kept: more than both weights of the typeface have."""


@lru_cache(maxsize=_OUTLINES)
def outline(character: str, *, bold: bool) -> str:
    """The path data (SVG 2, 9.3) of a character, "" for one without ink.

    In units of the font, ``units_per_em`` to the em, from the left end of the baseline and
    upwards. Raises KeyError for a character that the typeface lacks.
    """
    from fontTools.pens.svgPathPen import SVGPathPen  # here, as only pictures need it

    pen = SVGPathPen(_glyphs(bold), ntos="{:g}".format)
    _glyphs(bold)[_names(bold)[ord(character)]].draw(pen)
    path: str = pen.getCommands()
    return path


@lru_cache(maxsize=_OUTLINES)
def advance(character: str, *, bold: bool) -> int:
    """How far the next character is from this one, in units of the font."""
    width: int = _glyphs(bold)[_names(bold)[ord(character)]].width
    return width


@cache
def units_per_em(*, bold: bool) -> int:
    """How fine the font's own squares are."""
    units: int = _file(bold)["head"].unitsPerEm
    return units


@cache
def _names(bold: bool) -> dict[int, str]:
    """The name of each character's glyph, by its code point."""
    names: dict[int, str] = _file(bold).getBestCmap()
    return names


@cache
def _glyphs(bold: bool) -> Any:
    """The glyphs by their names."""
    return _file(bold).getGlyphSet()


@cache
def _file(bold: bool) -> "TTFont":
    from fontTools.ttLib import TTFont

    return TTFont(str(font_path(bold=bold)), lazy=True)
