"""Shapes and pictures of a word processor: what stands in no line of words and no cell.

Written in ECMA-376, Office Open XML, as DrawingML; each hangs on a paragraph.
"""

from collections.abc import Sequence
from html import escape
from typing import Final

from layouts.editable.document_styles import ASCENT, LINE, SQUARE, emu, rgb
from layouts.editable.document_text import run
from layouts.planning.plan import Arc, Box, Colour, Grid, Item, Line, Symbol, Text
from layouts.planning.type_scale import MM_PER_POINT

_SEGMENTS: Final = 24
"""Straight pieces that an arc is drawn of."""


class Shapes:
    """Shapes and pictures that hang on a paragraph, each with a number of its own."""

    def __init__(self) -> None:
        self._number = 0

    def drawn(self, item: Item, corner: tuple[float, float], *, behind: bool = False) -> str:
        """An item where it stands, from the corner of what it hangs on: a run of a paragraph."""
        match item:
            case Text():
                return self._text(item, corner)
            case Line():
                x, y = min(item.x1, item.x2), min(item.y1, item.y2)
                size = abs(item.x2 - item.x1), abs(item.y2 - item.y1)
                rises = (item.x2 - item.x1) * (item.y2 - item.y1) < 0
                shape = f'<a:prstGeom prst="line"><a:avLst/></a:prstGeom>{_stroke(item)}'
                return self._shape((x, y), size, corner, shape, flipped=rises)
            case Arc():
                box = min(item.x1, item.x2), item.y - item.height
                size = abs(item.x2 - item.x1), item.height
                points = [(x - box[0], y - box[1]) for x, y in item.points(_SEGMENTS)]
                shape = f"{_path(points, size)}<a:noFill/>{_stroke(item)}"
                return self._shape(box, size, corner, shape)
            case Box():
                fill = "<a:noFill/>" if item.fill is None else _filled(item.fill)
                line = "<a:ln><a:noFill/></a:ln>"
                if item.stroke is not None:
                    line = _stroke(Line(0, 0, 0, 0, item.weight, item.stroke))
                shape = f'<a:prstGeom prst="rect"><a:avLst/></a:prstGeom>{fill}{line}'
                size = item.width, item.height
                return self._shape((item.x, item.y), size, corner, shape, behind=behind)
            case Grid() | Symbol():
                return ""

    def picture(self, symbol: Symbol, corner: tuple[float, float], relation: str, says: str) -> str:
        """A symbol as a picture that the file has under such a relation."""
        side = emu(symbol.side)
        graphic = (
            '<a:graphicData uri="http://schemas.openxmlformats.org/drawingml/2006/picture">'
            f'<pic:pic><pic:nvPicPr><pic:cNvPr id="0" name="0"/><pic:cNvPicPr/></pic:nvPicPr>'
            f'<pic:blipFill><a:blip r:embed="{relation}"/><a:stretch><a:fillRect/></a:stretch>'
            f'</pic:blipFill><pic:spPr><a:xfrm><a:off x="0" y="0"/><a:ext cx="{side}" cy="{side}"/>'
            '</a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></pic:spPr></pic:pic>'
            "</a:graphicData>"
        )
        at = symbol.x - corner[0], symbol.y - corner[1]
        size = symbol.side, symbol.side
        return f"<w:r>{self._anchor(at, size, graphic, says=says)}</w:r>"

    def _text(self, text: Text, corner: tuple[float, float]) -> str:
        """A text in a place of its own, in the middle of it."""
        em = text.size * MM_PER_POINT
        middle = text.left + text.width / 2
        wide, high = 1.3 * text.width + 0.5, LINE * em
        box = middle - wide / 2, text.baseline - ASCENT * em
        words = f'<w:p><w:pPr><w:pStyle w:val="{SQUARE}"/></w:pPr>{run(text)}</w:p>'
        shape = '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom><a:noFill/><a:ln><a:noFill/></a:ln>'
        return self._shape(box, (wide, high), corner, shape, words)

    def _shape(
        self,
        at: tuple[float, float],
        size: tuple[float, float],
        corner: tuple[float, float],
        shape: str,
        words: str = "",
        *,
        flipped: bool = False,
        behind: bool = False,
    ) -> str:
        flip = ' flipV="1"' if flipped else ""
        text = f"<wps:txbx><w:txbxContent>{words}</w:txbxContent></wps:txbx>" if words else ""
        box = '<wps:cNvSpPr txBox="1"/>' if words else "<wps:cNvSpPr/>"
        graphic = (
            '<a:graphicData uri="http://schemas.microsoft.com/office/word/2010/'
            f'wordprocessingShape"><wps:wsp>{box}<wps:spPr><a:xfrm{flip}><a:off x="0" y="0"/>'
            f'<a:ext cx="{emu(size[0])}" cy="{emu(size[1])}"/></a:xfrm>{shape}</wps:spPr>{text}'
            '<wps:bodyPr lIns="0" tIns="0" rIns="0" bIns="0" wrap="none" anchor="ctr">'
            "<a:noAutofit/></wps:bodyPr></wps:wsp></a:graphicData>"
        )
        place = at[0] - corner[0], at[1] - corner[1]
        anchor = self._anchor(place, size, graphic, behind=behind)
        return (
            '<w:r><mc:AlternateContent><mc:Choice Requires="wps">'
            f"{anchor}</mc:Choice></mc:AlternateContent></w:r>"
        )

    def _anchor(
        self,
        at: tuple[float, float],
        size: tuple[float, float],
        graphic: str,
        *,
        says: str = "",
        behind: bool = False,
    ) -> str:
        self._number += 1
        number = self._number
        described = f' descr="{escape(says)}"' if says else ""
        return (
            '<w:drawing><wp:anchor distT="0" distB="0" distL="0" distR="0" simplePos="0" '
            f'relativeHeight="{number}" behindDoc="{int(behind)}" locked="0" layoutInCell="1" '
            'allowOverlap="1"><wp:simplePos x="0" y="0"/>'
            f'<wp:positionH relativeFrom="column"><wp:posOffset>{emu(at[0])}</wp:posOffset>'
            '</wp:positionH><wp:positionV relativeFrom="paragraph">'
            f"<wp:posOffset>{emu(at[1])}</wp:posOffset></wp:positionV>"
            f'<wp:extent cx="{emu(size[0])}" cy="{emu(size[1])}"/>'
            '<wp:effectExtent l="0" t="0" r="0" b="0"/><wp:wrapNone/>'
            f'<wp:docPr id="{number}" name="{number}"{described}/>'
            f"<wp:cNvGraphicFramePr/><a:graphic>{graphic}</a:graphic></wp:anchor></w:drawing>"
        )


def _filled(colour: Colour) -> str:
    return f'<a:solidFill><a:srgbClr val="{rgb(colour)}"/></a:solidFill>'


def _stroke(item: Line | Arc) -> str:
    return f'<a:ln w="{emu(item.weight)}">{_filled(item.colour)}</a:ln>'


def _path(points: Sequence[tuple[float, float]], size: tuple[float, float]) -> str:
    start, *others = (f'<a:pt x="{emu(x)}" y="{emu(y)}"/>' for x, y in points)
    lines = "".join(f"<a:lnTo>{point}</a:lnTo>" for point in others)
    return (
        "<a:custGeom><a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/>"
        '<a:rect l="0" t="0" r="r" b="b"/><a:pathLst>'
        f'<a:path w="{emu(size[0])}" h="{emu(size[1])}" fill="none"><a:moveTo>{start}</a:moveTo>'
        f"{lines}</a:path></a:pathLst></a:custGeom>"
    )
