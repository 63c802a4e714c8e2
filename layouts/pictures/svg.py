"""A page plan as a vector picture (SVG 2), which looks the same wherever it is shown.

Letters and digits are drawn by their outlines, each once in the picture and then by reference,
so that no reader needs the typeface. What a page says is there as labels: units that are read
carry their words, and the others are hidden from whoever listens. No text of a spec is ever
markup: words stand in attributes alone, and they are escaped.

Lengths are millimetres: the picture's own size says so, and one unit inside it is one.
"""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Final
from xml.sax.saxutils import quoteattr

from layouts.pictures.outlines import advance, outline, units_per_em
from layouts.planning.empty_boxes import has_boxes, parts
from layouts.planning.plan import (
    Arc,
    Box,
    Colour,
    Grid,
    Item,
    Line,
    PagePlan,
    Role,
    Symbol,
    Text,
    Unit,
    as_units,
    dark_runs,
)
from layouts.planning.type_scale import BLACK, MM_PER_POINT, WHITE
from specs.languages.language import Language
from specs.languages.usage import PLAIN

_LEVELS: Final = {Role.TITLE: 1, Role.HEADING: 2}

_NOT_IN_XML: Final = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What no XML file may hold (XML 1.0, 2.2)."""

_NUMBERS: Final = 20_000


def svg(page: PagePlan, name: str = "", language: Language = PLAIN.language) -> str:
    """The page as a whole SVG file; ``name`` is what a screen reader calls it.

    ``language`` is what it says, and its name.
    """
    drawn = "\n".join(map(_unit, as_units(page.content)))
    width, height = _number(page.width), _number(page.height)
    named = f" aria-label={_said(name)}" if name else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" lang="{language.code}" role="document"{named}>\n'
        f"{_glyphs(page.texts)}\n"
        f'<rect width="{width}" height="{height}" fill="{_colour(WHITE)}" aria-hidden="true"/>\n'
        f"{drawn}\n</svg>\n"
    )


def _unit(unit: Unit) -> str:
    """A part of the page with what is said for it, or hidden where nothing is to be read."""
    ink = "".join(map(_item, unit.items))
    if unit.role is Role.ARTEFACT:
        return f'<g aria-hidden="true">{ink}</g>'
    said = unit.says or " ".join(item.text for item in unit.items if isinstance(item, Text))
    level = _LEVELS.get(unit.role)
    role = f'role="heading" aria-level="{level}"' if level else 'role="img"'
    question = 'class="question" ' if unit.role is Role.QUESTION else ""
    language = f" lang={quoteattr(unit.language)}" if unit.language else ""
    return f"<g {question}{role}{language} aria-label={_said(said)}>{ink}</g>"


def _said(words: str) -> str:
    """Words as the value of an attribute, in its quotes."""
    return quoteattr(_NOT_IN_XML.sub("\N{REPLACEMENT CHARACTER}", words))


def _item(item: Item) -> str:
    match item:
        case Text():
            return _text(item)
        case Line():
            return _line(item)
        case Arc():
            return _arc(item)
        case Box():
            return _box(item)
        case Grid():
            return _grid(item)
        case Symbol():
            return _symbol(item)


def _glyphs(texts: Iterable[Text]) -> str:
    """The outlines of all that is written on a page, each once, to be drawn by its name."""
    written = {
        (text.bold, character)
        for whole in texts
        for text in _runs(whole)
        for character in text.text
        if outline(character, bold=text.bold)
    }
    paths = (
        f'<path id="{_glyph(character, bold)}" d="{outline(character, bold=bold)}"/>'
        for bold, character in sorted(written)
    )
    return f"<defs>{''.join(paths)}</defs>"


def _runs(text: Text) -> Iterator[Text]:
    """A text without the boxes in it, which are drawn."""
    if has_boxes(text):
        yield from (part for part in parts(text) if isinstance(part, Text))
    else:
        yield text


def _glyph(character: str, bold: bool) -> str:
    """The name of a character's outline: its weight and its code point."""
    return f"{'b' if bold else 'r'}{ord(character):x}"


def _text(text: Text) -> str:
    if has_boxes(text):
        return "".join(map(_item, parts(text)))
    scale = text.size * MM_PER_POINT / units_per_em(bold=text.bold)
    fill = "" if text.colour == BLACK else f' fill="{_colour(text.colour)}"'
    return (
        f'<g transform="translate({_number(text.left)} {_number(text.baseline)})'
        f'scale({scale:.6f} {-scale:.6f})"{fill}>{_line_of_glyphs(text.text, text.bold)}</g>'
    )


@lru_cache(maxsize=_NUMBERS)
def _line_of_glyphs(text: str, bold: bool) -> str:
    """The characters side by side, in units of the font."""
    x, drawn = 0, []
    for character in text:
        if outline(character, bold=bold):
            at = f' x="{x}"' if x else ""
            drawn.append(f'<use href="#{_glyph(character, bold)}"{at}/>')
        x += advance(character, bold=bold)
    return "".join(drawn)


def _line(line: Line) -> str:
    ends = f"M{_at(line.x1, line.y1)}L{_at(line.x2, line.y2)}"
    return f'<path d="{ends}" {_stroked(line.colour, line.weight)}/>'


def _arc(arc: Arc) -> str:
    bent = f"C{_at(arc.x1, arc.over)} {_at(arc.x2, arc.over)} {_at(arc.x2, arc.y)}"
    return f'<path d="M{_at(arc.x1, arc.y)}{bent}" {_stroked(arc.colour, arc.weight)}/>'


def _box(box: Box) -> str:
    fill = "none" if box.fill is None else _colour(box.fill)
    stroke = "" if box.stroke is None else f" {_stroke(box.stroke, box.weight)}"
    radius = f' rx="{_number(box.radius)}"' if box.radius else ""
    return (
        f'<rect x="{_number(box.x)}" y="{_number(box.y)}" width="{_number(box.width)}" '
        f'height="{_number(box.height)}"{radius} fill="{fill}"{stroke}/>'
    )


def _grid(grid: Grid) -> str:
    across = "".join(
        f"M{_at(grid.x + column * grid.square, grid.y)}v{_number(grid.height)}"
        for column in range(grid.columns + 1)
    )
    down = "".join(
        f"M{_at(grid.x, grid.y + row * grid.square)}h{_number(grid.width)}"
        for row in range(grid.rows + 1)
    )
    return f'<path d="{across}{down}" {_stroked(grid.colour, grid.weight)}/>'


def _symbol(symbol: Symbol) -> str:
    """All dark modules as one path, so that no seam of light is left between two."""
    module = symbol.side / len(symbol.rows)
    dark = "".join(
        f"M{start} {down}h{end - start}v1h{start - end}z"
        for down, row in enumerate(symbol.rows)
        for start, end in dark_runs(row)
    )
    place = f"translate({_at(symbol.x, symbol.y)})scale({module:.5f})"
    return f'<path transform="{place}" d="{dark}"/>'


def _stroked(colour: Colour, weight: float) -> str:
    return f'fill="none" {_stroke(colour, weight)}'


def _stroke(colour: Colour, weight: float) -> str:
    return f'stroke="{_colour(colour)}" stroke-width="{_number(weight)}"'


def _at(x: float, y: float) -> str:
    return f"{_number(x)} {_number(y)}"


@lru_cache(maxsize=_NUMBERS)
def _number(value: float) -> str:
    """A length, to a thousandth of a millimetre."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


@lru_cache(maxsize=100)
def _colour(colour: Colour) -> str:
    """A colour as the screen has it, in steps of 1/255."""
    return "#" + "".join(f"{round(255 * part):02x}" for part in colour)
