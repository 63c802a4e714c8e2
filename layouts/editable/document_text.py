"""Words of a page as a word processor keeps them: runs of characters, and lines one below another.

What they are written in is ECMA-376, Office Open XML; each function gives the XML of one part.
"""

from collections.abc import Iterable
from dataclasses import replace
from html import escape
from typing import Final

from layouts.editable.cells import Row
from layouts.editable.document_styles import (
    HEADINGS,
    THIN,
    THIN_HEIGHT,
    THIN_TWIPS,
    half_points,
    rgb,
    twips,
)
from layouts.planning.empty_boxes import has_boxes
from layouts.planning.plan import Line, Text
from layouts.planning.type_scale import BLACK, LEADING, MM_PER_POINT
from layouts.planning.typeface import EMPTY_BOXES

BASELINE: Final = 0.8
"""How far down a line of exact height its baseline is, to that height: so it is seen in
LibreOffice, and so it is elsewhere (from memory)."""
_EM_SPACE: Final = "\N{EM SPACE}"
_QUARTER: Final = "\N{FOUR-PER-EM SPACE}"
_TAB: Final = "<w:r><w:tab/></w:r>"


def run(
    text: Text,
    *,
    style: str = "",
    sized: bool = True,
    in_bold: bool = False,
    raised: int = 0,
    language: str = "",
) -> str:
    """A text's characters in its size, weight and colour; boxes to write in are framed spaces.

    ``sized`` is false where its size is that of its paragraph's style, ``in_bold`` true where that
    style is bold. It is ``raised`` by so many half points; ``language`` is that of its words where
    it is not the file's.
    """
    if has_boxes(text):
        return "".join(_parts_with_boxes(text, raised))
    size = half_points(text.size)
    properties = "".join(
        (
            f'<w:rStyle w:val="{style}"/>' if style else "",
            "<w:b/>" if text.bold else '<w:b w:val="0"/>' if in_bold else "",
            "" if text.colour == BLACK else f'<w:color w:val="{rgb(text.colour)}"/>',
            f'<w:position w:val="{raised}"/>' if raised else "",
            f'<w:sz w:val="{size}"/><w:szCs w:val="{size}"/>' if sized else "",
            f'<w:lang w:val="{language}"/>' if language else "",
        )
    )
    properties = f"<w:rPr>{properties}</w:rPr>" if properties else ""
    return (
        f'<w:r>{properties}<w:t xml:space="preserve">{escape(text.text, quote=False)}</w:t></w:r>'
    )


def _parts_with_boxes(text: Text, raised: int) -> Iterable[str]:
    size = half_points(text.size)
    position = f'<w:position w:val="{raised}"/>' if raised else ""
    words = ""
    for character in f"{text.text}\0":
        if character not in EMPTY_BOXES and character != "\0":
            words += character
            continue
        if words:
            yield run(replace(text, text=words), raised=raised)
            words = ""
        if character in EMPTY_BOXES:
            spaces = _EM_SPACE * int(EMPTY_BOXES[character]) + _QUARTER
            framed = f'<w:bdr w:val="single" w:sz="5" w:space="0" w:color="{rgb(text.colour)}"/>'
            sized = f'<w:sz w:val="{size}"/><w:szCs w:val="{size}"/>'
            yield (
                f"<w:r><w:rPr>{position}{sized}{framed}</w:rPr>"
                f'<w:t xml:space="preserve">{spaces}</w:t></w:r>'
            )


class Flow:
    """Lines of words one below the other, each where the page has it: how far down they are."""

    def __init__(self, left: float, top: float) -> None:
        self.left, self.top = left, top

    def row(self, row: Row, style: str = "Normal") -> str:
        """A line of words with lines to write on, in tab stops where the page has them."""
        pitch = LEADING * row.size * MM_PER_POINT
        begins = row.baseline - BASELINE * pitch
        before = max(0.0, begins - self.top)
        self.top += before + pitch
        stops: list[str] = []
        runs: list[str] = []
        at = None
        bold = style in HEADINGS.values()
        for item, language in row.entries:
            if isinstance(item, Line):
                x1, x2 = sorted((item.x1, item.x2))
                stops += [self._stop(x1), self._stop(x2, "right", "underscore")]
                runs += [_TAB, _TAB]
                at = x2
            elif item.anchor == "right":
                stops.append(self._stop(item.x, "right"))
                runs += [_TAB, run(item, in_bold=bold, language=language)]
                at = item.x
            elif at is None:
                at = item.left
                runs.append(run(item, in_bold=bold, language=language))
            else:
                stops.append(self._stop(item.left))
                runs += [_TAB, run(item, in_bold=bold, language=language)]
        first, _ = row.entries[0]
        indent = first.left - self.left if isinstance(first, Text) else 0.0
        tabs = f"<w:tabs>{''.join(stops)}</w:tabs>" if stops else ""
        return (
            f'<w:p><w:pPr><w:pStyle w:val="{style}"/>{tabs}{exact(before, pitch)}'
            f'<w:ind w:left="{twips(indent)}"/></w:pPr>{"".join(runs)}</w:p>'
        )

    def thin(self, y: float, holds: str = "") -> str:
        """A paragraph of next to no height that ends there, and what hangs on it."""
        before = max(0.0, y - THIN_HEIGHT - self.top)
        self.top += before + THIN_HEIGHT
        spacing = (
            f'<w:spacing w:before="{twips(before)}" w:after="0" '
            f'w:line="{THIN_TWIPS}" w:lineRule="exact"/>'
        )
        return f'<w:p><w:pPr><w:pStyle w:val="{THIN}"/>{spacing}</w:pPr>{holds}</w:p>'

    def _stop(self, x: float, kind: str = "left", leader: str = "") -> str:
        leads = f' w:leader="{leader}"' if leader else ""
        return f'<w:tab w:val="{kind}"{leads} w:pos="{twips(x - self.left)}"/>'


def exact(before: float, pitch: float) -> str:
    """The spacing of lines of one height, and what stays free before the first, in millimetres."""
    return (
        f'<w:spacing w:before="{twips(before)}" w:after="0" '
        f'w:line="{twips(pitch)}" w:lineRule="exact"/>'
    )
