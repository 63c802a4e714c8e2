"""How far items reach on their page."""

from collections.abc import Iterable

from layouts.planning import typeface
from layouts.planning.empty_boxes import has_boxes, parts
from layouts.planning.plan import Arc, Item, Line, Symbol, Text
from layouts.planning.type_scale import MM_PER_POINT

Extent = tuple[float, float, float, float]
"""Left, top, right and bottom, in millimetres from the page's top left corner."""


def extent(items: Iterable[Item]) -> Extent | None:
    """The smallest rectangle about the items; None where there are none."""
    found = [_of(part) for item in items for part in _parts(item)]
    if not found:
        return None
    lefts, tops, rights, bottoms = zip(*found, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def _parts(item: Item) -> Iterable[Item]:
    """Boxes in a text reach further up than its digits."""
    return parts(item) if isinstance(item, Text) and has_boxes(item) else (item,)


def _of(item: Item) -> Extent:
    match item:
        case Text():
            em = item.size * MM_PER_POINT
            left, top = item.left, item.baseline - typeface.DIGIT_HEIGHT * em
            return left, top, left + item.width, item.baseline + typeface.DESCENT * em
        case Line(x1, y1, x2, y2, weight):
            half = weight / 2
            return (
                min(x1, x2) - half,
                min(y1, y2) - half,
                max(x1, x2) + half,
                max(y1, y2) + half,
            )
        case Arc(x1, x2, y, height, weight):
            half = weight / 2
            return min(x1, x2) - half, y - height - half, max(x1, x2) + half, y + half
        case Symbol(x, y, side):
            return x, y, x + side, y + side
        case _:
            return item.x, item.y, item.x + item.width, item.y + item.height
