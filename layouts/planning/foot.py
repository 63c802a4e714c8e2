"""The foot of a page on paper: what it is, its code in letters and as a QR code, its number."""

from collections.abc import Sequence
from typing import Final

from layouts.planning import typeface
from layouts.planning.paper_page import Imprint, PaperPage
from layouts.planning.plan import Item, Role, Text, Unit, line_height
from layouts.planning.qr import QUIET, SIDE, qr
from layouts.planning.sheet_type import SheetType
from layouts.planning.type_scale import BLACK, DARK, MM_PER_POINT

FOOT_ALONE: Final = SheetType(square=0.0)
"""The sizes of a foot that belongs to no pupil's sheet."""

_APART: Final = 4.0
_MOST_PAGES: Final = 88
"""The widest page number that room is kept for."""


def foot_height(page: PaperPage) -> float:
    """The foot's height, with the clear space over it."""
    words = _words(page.imprint, _MOST_PAGES, _MOST_PAGES)
    lines = _lines(words, _room(page), page.sizes.foot)
    return max(SIDE, len(lines) * line_height(page.sizes.foot)) + QUIET


def foot(page: PaperPage, number: int, pages: int | None) -> Unit:
    """The foot of the page of that number.

    ``pages`` is how many there are in all, None where that is not known beforehand.

    It is read by eye and by camera; to a screen reader it repeats what the file says already.
    """
    imprint, size = page.imprint, page.sizes.foot
    lines = _lines(_words(imprint, number, pages), _room(page), size)
    step = line_height(size)
    first = page.bottom - typeface.DESCENT * size * MM_PER_POINT - step * (len(lines) - 1)
    items: list[Item] = [qr(imprint.code_of(number), page.left, page.bottom - SIDE)]
    for line, pair in enumerate(lines):
        baseline = first + step * line
        colour = BLACK if imprint.code_of(number) in pair[0] else DARK  # it is there to be copied
        items.append(Text(pair[0], page.left + SIDE + QUIET + 0.5, baseline, size, colour=colour))
        for text in pair[1:]:
            items.append(Text(text, page.right, baseline, size, colour=DARK, anchor="right"))
    return Unit(Role.ARTEFACT, tuple(items))


def _room(page: PaperPage) -> float:
    return page.width - SIDE - QUIET - 0.5


def _words(imprint: Imprint, number: int, pages: int | None) -> Sequence[Sequence[str]]:
    """The foot's lines, each with a left end and a right one."""
    say = imprint.say
    at = say("page {number}", number=number)
    if pages is not None:
        at = say("page {number} of {pages}", number=number, pages=pages)
    code = say("code {code}", code=imprint.code_of(number))
    return ((imprint.what, at), (code, say("seed {seed}", seed=imprint.seed)))


def _lines(words: Sequence[Sequence[str]], room: float, size: float) -> list[tuple[str, ...]]:
    """The lines as they fit: a right end that has no room goes below its left one."""
    lines: list[tuple[str, ...]] = []
    for pair in words:
        together = sum(typeface.width(text, size) for text in pair) + _APART
        if together <= room:
            lines.append(tuple(pair))
        else:
            lines.extend((line,) for text in pair for line in typeface.wrap(text, size, room))
    return lines
