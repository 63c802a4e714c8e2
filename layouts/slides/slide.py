"""What every 16:9 slide has: its size, a title, a foot."""

from collections.abc import Iterable, Iterator
from typing import Final

from layouts.planning import typeface
from layouts.planning.paper import SLIDE_HEIGHT, SLIDE_MARGIN, SLIDE_WIDTH
from layouts.planning.plan import Item, PagePlan, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import (
    DARK,
    MM_PER_POINT,
    SLIDE_SMALL,
    SLIDE_TITLE,
    SLIDE_TOLD,
)

LEFT: Final = SLIDE_MARGIN
RIGHT: Final = SLIDE_WIDTH - SLIDE_MARGIN
TITLE_TOP: Final = 9.0
_TOLD_TOP: Final = 22.0
BODY_TOP: Final = 34.0
BODY_BOTTOM: Final = SLIDE_HEIGHT - 16.1
SMALL_TITLE_TOP: Final = 6.5
BELOW_SMALL_TITLE: Final = SMALL_TITLE_TOP + 0.68 * line_height(SLIDE_SMALL)
"""Larger words follow, with their own leading above them."""
CLEAR_OF_SMALL_TITLE: Final = SMALL_TITLE_TOP + line_height(SLIDE_SMALL)
"""Empty boxes follow, which fill the leading above their line."""


def slide(
    title: str,
    body: Iterable[Item | Unit],
    left_foot: str,
    right_foot: str,
    *,
    small_title: bool = False,
) -> PagePlan:
    """A slide with its title, whatever stands between, and small print at the foot.

    A small title leaves the room to what a class must read.
    """
    return PagePlan(
        SLIDE_WIDTH,
        SLIDE_HEIGHT,
        (
            Unit(Role.TITLE, tuple(_small_title(title) if small_title else _title(title))),
            *body,
            Unit(Role.ARTEFACT, tuple(_foot(left_foot, right_foot))),
        ),
    )


def _title(title: str) -> Iterator[Text]:
    """The title on one line, smaller where it must be."""
    size = SLIDE_TITLE
    while size > SLIDE_SMALL and typeface.width(title, size, bold=True) > RIGHT - LEFT:
        size -= 1.0
    lines = typeface.wrap(title, size, RIGHT - LEFT, bold=True)
    top = TITLE_TOP + line_height(SLIDE_TITLE) / 2 - line_height(size) * len(lines) / 2
    yield from paragraph(lines, LEFT, top, size, bold=True)


def under_title(words: str) -> tuple[Text, ...]:
    """A line below a slide's title, as large as keeps it one line; nothing for no words."""
    if not words:
        return ()
    size = SLIDE_TOLD
    while size > SLIDE_SMALL and typeface.width(words, size) > RIGHT - LEFT:
        size -= 1.0
    (first, *_) = typeface.wrap(words, size, RIGHT - LEFT)
    return paragraph((first,), LEFT, _TOLD_TOP, size)


def _small_title(title: str) -> tuple[Text, ...]:
    """The title on one line in small print."""
    (first, *_) = typeface.wrap(title, SLIDE_SMALL, RIGHT - LEFT)
    return paragraph((first,), LEFT, SMALL_TITLE_TOP, SLIDE_SMALL)


def _foot(left: str, right: str) -> Iterator[Text]:
    baseline = SLIDE_HEIGHT - 8.1 - typeface.DESCENT * SLIDE_SMALL * MM_PER_POINT
    yield Text(left, LEFT, baseline, SLIDE_SMALL, colour=DARK)
    yield Text(right, RIGHT, baseline, SLIDE_SMALL, colour=DARK, anchor="right")
