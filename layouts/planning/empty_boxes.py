"""Empty boxes to write a missing number or digit in: characters that no typeface need have."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from layouts.planning import typeface
from layouts.planning.plan import Box, Text
from layouts.planning.type_scale import MM_PER_POINT

_BOXES: Final = frozenset(typeface.EMPTY_BOXES)

_BEARING: Final = 0.09
"""Room at either side of a box, in ems."""
_BELOW: Final = 0.24
_ABOVE: Final = 0.97
"""How far a box reaches from the baseline, in ems: at 12 points it is 5 mm high, enough for a
digit by hand, and clear of a box on the next line."""
_STROKE: Final = 0.05


def has_boxes(text: Text) -> bool:
    """Whether a text has a box in it."""
    return not _BOXES.isdisjoint(text.text)


def parts(text: Text) -> Iterator[Text | Box]:
    """The runs of a text and the boxes between them, each in its place."""
    x, run = text.left, ""
    em = text.size * MM_PER_POINT

    def written() -> Text:
        return replace(text, text=run, x=x, anchor="left")

    for character in text.text:
        advance = typeface.EMPTY_BOXES.get(character)
        if advance is None:
            run += character
            continue
        if run:
            yield written()
            x += written().width
            run = ""
        yield Box(
            x + _BEARING * em,
            text.baseline - _ABOVE * em,
            (advance - 2 * _BEARING) * em,
            (_ABOVE + _BELOW) * em,
            stroke=text.colour,
            weight=_STROKE * em,
        )
        x += advance * em
    if run:
        yield written()
