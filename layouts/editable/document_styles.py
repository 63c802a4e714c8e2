"""Measures and styles of a file for a word processor (Office Open XML, ECMA-376).

Lengths come in millimetres and go out in twentieths of a point or in English metric units, type in
half points: what such files are written in.
"""

from collections.abc import Mapping
from typing import Final

from layouts.planning.plan import Colour, Role
from layouts.planning.type_scale import MM_PER_POINT
from layouts.planning.working_ink import FULL

FACE: Final = "Arial"
"""A face that word processors have, or one of the same widths. Its measures below are in ems
(Liberation Sans, which has the same)."""
LINE: Final = 1.149
"""From one line of it to the next."""
ASCENT: Final = 0.905
DIGIT: Final = 0.556
"""The width of each of its digits."""
POINT: Final = 0.278
"""The width of its decimal signs, bold or not."""

NAMESPACES: Final = " ".join(
    f'xmlns:{name}="{address}"'
    for name, address in {
        "w": "http://schemas.openxmlformats.org/wordprocessingml/2006/main",
        "r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
        "wp": "http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing",
        "a": "http://schemas.openxmlformats.org/drawingml/2006/main",
        "pic": "http://schemas.openxmlformats.org/drawingml/2006/picture",
        "mc": "http://schemas.openxmlformats.org/markup-compatibility/2006",
        "wps": "http://schemas.microsoft.com/office/word/2010/wordprocessingShape",
    }.items()
)

HEADINGS: Final = {Role.TITLE: "Heading1", Role.HEADING: "Heading2"}
"""The styles of what is read as a heading: their own looks are taken from them."""
SQUARE: Final = "Square"
"""The style of what stands in a square: in its middle, in the size of digits."""
BEFORE_POINT: Final = "Squarewithpoint"
"""The style of a square whose digit has a point after it, on the line at its right."""
DIGIT_BEFORE: Final = "Digitbeforepoint"
"""The style of such a digit's character: it keeps the point away from it."""
THIN: Final = "Thinline"
"""The style of a paragraph of next to no height, where a file must have one."""
THIN_HEIGHT: Final = 0.36
"""In millimetres, rounded up."""
THIN_TWIPS: Final = 20
"""A point: lower lines are refused."""


def twips(millimetres: float) -> int:
    """Twentieths of a point."""
    return round(millimetres * 20 / MM_PER_POINT)


def emu(millimetres: float) -> int:
    """English metric units."""
    return round(millimetres * 36_000)


def half_points(points: float) -> int:
    """Sizes of type are whole numbers of these."""
    return max(2, round(points * 2))


def rgb(colour: Colour) -> str:
    """``C7C7C7``."""
    return "".join(f"{round(255 * part):02X}" for part in colour)


def digits_in(square: float) -> float:
    """The points of a digit in a square, as they can be written."""
    return half_points(FULL * square / MM_PER_POINT) / 2


def style_of_squares(square: float) -> Mapping[str, str]:
    """The XML of the styles for squares of one size, by their names."""
    size = digits_in(square)
    em = size * MM_PER_POINT
    apart = (square - (DIGIT + POINT) * em) / 2
    fonts = f"<w:rPr>{_font(size)}</w:rPr>"
    plain = '<w:spacing w:before="0" w:after="0" w:line="240" w:lineRule="auto"/>'
    left = twips((square - DIGIT * em) / 2)
    return {
        SQUARE: _style("paragraph", SQUARE, "Square", f'{plain}<w:jc w:val="center"/>', fonts),
        BEFORE_POINT: _style(
            "paragraph",
            BEFORE_POINT,
            "Square with point",
            f'{plain}<w:ind w:left="{left}" w:right="{-twips(POINT * em)}"/><w:jc w:val="left"/>',
            fonts,
        ),
        DIGIT_BEFORE: _style(
            "character",
            DIGIT_BEFORE,
            "Digit before point",
            "",
            f'<w:rPr><w:spacing w:val="{twips(apart)}"/></w:rPr>',
        ),
    }


def style_of_thin_lines() -> str:
    """The XML of the style of a paragraph of next to no height."""
    exact = f'<w:spacing w:before="0" w:after="0" w:line="{THIN_TWIPS}" w:lineRule="exact"/>'
    return _style("paragraph", THIN, "Thin line", exact, '<w:rPr><w:sz w:val="2"/></w:rPr>')


def style_of_headings(key: str, points: float, level: int) -> str:
    """The XML of the style of a heading of that level, 0 for the first."""
    properties = f'<w:outlineLvl w:val="{level}"/>'
    size = f'<w:rPr><w:b/><w:sz w:val="{half_points(points)}"/></w:rPr>'
    return (
        f'<w:style {NAMESPACES} w:type="paragraph" w:styleId="{key}">'
        f'<w:name w:val="heading {level + 1}"/><w:basedOn w:val="Normal"/><w:qFormat/>'
        f"<w:pPr>{properties}</w:pPr>{size}</w:style>"
    )


def _style(kind: str, key: str, name: str, properties: str, fonts: str) -> str:
    paragraph = f"<w:pPr>{properties}</w:pPr>" if properties else ""
    return (
        f'<w:style {NAMESPACES} w:type="{kind}" w:customStyle="1" w:styleId="{key}">'
        f'<w:name w:val="{name}"/><w:qFormat/>{paragraph}{fonts}</w:style>'
    )


def _font(points: float) -> str:
    size = half_points(points)
    return (
        f'<w:rFonts w:ascii="{FACE}" w:hAnsi="{FACE}" w:cs="{FACE}" w:eastAsia="{FACE}"/>'
        f'<w:sz w:val="{size}"/><w:szCs w:val="{size}"/>'
    )
