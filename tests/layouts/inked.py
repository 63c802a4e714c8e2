"""What ink is on a printed page, measured in the file: boxes in millimetres from the top left."""

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from PIL import ImageFont

from layouts.planning import typeface

MM = 25.4 / 72
_EM = 2048


@dataclass(frozen=True)
class Ink:
    what: str
    left: float
    top: float
    right: float
    bottom: float
    start: tuple[float, float] = (0.0, 0.0)  # a character's origin and where the next begins
    end: tuple[float, float] = (-1.0, -1.0)

    def follows(self, other: "Ink") -> bool:
        """Whether it is the next character of the same run: the face's own business."""
        return max(abs(a - b) for a, b in zip(self.start, other.end, strict=True)) < 0.02


@cache
def _glyph(character: str, bold: bool) -> tuple[float, float, float, float]:
    """The glyph's ink about its origin, in ems, y downwards: from the typeface's own file."""
    font = ImageFont.truetype(str(typeface.font_path(bold=bold)), _EM)
    return tuple(side / _EM for side in font.getbbox(character, anchor="ls"))  # type: ignore[return-value]


def is_grey(line: dict[str, Any]) -> bool:
    return min(line["stroking_color"]) > 0.5


def inks(page: Any) -> list[Ink]:
    """Characters, rules and symbols; not the squares, nor the tint behind everything."""
    height = float(page.height)
    found = []
    for char in page.chars:
        if char["text"] == " ":
            continue
        left, top, right, bottom = _glyph(char["text"], "Bold" in char["fontname"])
        x, y, size = char["matrix"][4], height - char["matrix"][5], char["size"]
        box = x + left * size, y + top * size, x + right * size, y + bottom * size
        start, end = (x * MM, y * MM), (char["x1"] * MM, y * MM)
        found.append(Ink(char["text"], *(side * MM for side in box), start, end))
    for line in page.lines:
        if not is_grey(line):
            half = line["linewidth"] / 2
            box = line["x0"], line["top"] - half, line["x1"], line["bottom"] + half
            found.append(Ink("line", *(side * MM for side in box)))
    symbol = [rect for rect in page.rects if rect["width"] < 30 and rect["fill"]]
    if symbol:
        box = (
            min(r["x0"] for r in symbol),
            min(r["top"] for r in symbol),
            max(r["x1"] for r in symbol),
            max(r["bottom"] for r in symbol),
        )
        found.append(Ink("QR code", *(side * MM for side in box)))
    return found


def overlapping(found: list[Ink], slack: float = 0.05) -> list[tuple[str, str]]:
    """Pairs of inks that lie over one another by more than ``slack`` millimetres."""
    boxes = np.array([(ink.left, ink.top, ink.right, ink.bottom) for ink in found])
    left, top, right, bottom = boxes.T
    across = np.minimum.outer(right, right) - np.maximum.outer(left, left)
    down = np.minimum.outer(bottom, bottom) - np.maximum.outer(top, top)
    pairs = np.argwhere(np.triu((across > slack) & (down > slack), k=1))
    return [
        (found[a].what, found[b].what)
        for a, b in pairs
        if not found[a].follows(found[b]) and not found[b].follows(found[a])
    ]
