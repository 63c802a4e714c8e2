"""Bands of the teacher's key: what runs across the page and is never split, page after page."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from layouts.planning.plan import Item, Role, Unit, line_height, moved, paragraph
from layouts.planning.type_scale import KEY_WRONG, SHEET_HEADING

EDGE: Final = 12.0
"""Where print begins, from each side of the paper."""
BETWEEN_SECTIONS: Final = 6.0


@dataclass(frozen=True, slots=True)
class Band:
    """What runs across the page, planned as if at its top.

    ``before`` is the space over it, which falls away at the head of a page. One that ``leads``
    stays with the next. ``again`` is said once more over it where a page begins with it.
    """

    content: tuple[Unit, ...]
    height: float
    before: float = 0.0
    leads: bool = False
    again: "Band | None" = None

    def drawn(self, top: float) -> Iterator[Unit]:
        """The band with its upper edge there."""
        for unit in moved(self.content, 0.0, top):
            assert isinstance(unit, Unit)
            yield unit


def heading(text: str, notes: tuple[str, ...] = ()) -> Band:
    """A section's heading with lines of words under it."""
    lines = paragraph((text,), EDGE, 0.0, SHEET_HEADING, bold=True)
    units = [Unit(Role.HEADING, lines)]
    below = line_height(SHEET_HEADING) + 0.5
    if notes:
        units.append(Unit(Role.PARAGRAPH, paragraph(notes, EDGE, below, KEY_WRONG)))
        below += len(notes) * line_height(KEY_WRONG) + 1.0
    return Band(tuple(units), below + 0.5, BETWEEN_SECTIONS, leads=True)


def pages(bands: Iterable[Band], top: float, first: float, bottom: float) -> Iterator[list[Unit]]:
    """The bands on pages, each filled before the next begins.

    They begin at ``first`` on the first page, at ``top`` on others, and end over ``bottom``.
    """
    page: list[Unit] = []
    at, fresh = first, True
    together: list[Band] = []
    for band in bands:
        together.append(band)
        if band.leads:
            continue
        height = sum(one.before + one.height for one in together)
        if not fresh and at + height > bottom + 1e-6:
            yield page
            page, at, fresh = [], top, True
            if together[0].again is not None:
                together.insert(0, together[0].again)
        for one in together:
            at += 0.0 if fresh else one.before
            page.extend(one.drawn(at))
            at, fresh = at + one.height, False
        together = []
    if page:
        yield page


def row(items: Iterable[Item]) -> Unit:
    """Items of a band that are read as one."""
    return Unit(Role.PARAGRAPH, tuple(items))
