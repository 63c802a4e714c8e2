"""Pages onto sheets of paper: several side by side to be cut apart, fronts and backs in order."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from typing import TypeAlias, TypeVar

from layouts.planning.paper import MARGIN
from layouts.planning.plan import Item, Line, PagePlan, Unit, moved
from layouts.planning.squared_page import Side, SquaredPage
from layouts.planning.type_scale import CUT_LINE, GRID_LINE
from specs.spec import Presentation

_Some = TypeVar("_Some")
_Face: TypeAlias = Sequence[_Some | None]
"""One side of a sheet: what stands in each place, in reading order."""


def on_sheets(
    versions: Iterable[Sequence[PagePlan]], presentation: Presentation
) -> Iterator[PagePlan]:
    """The sides of sheets that hold the pages of all versions, in the order of printing.

    Versions are asked for one after another, as their pages are needed. With duplex every
    version begins on a front, and a page stands right behind the one before it once the
    sheet is turned over its left or right edge, cut apart or not. Without it, pages that fill
    a half or a quarter of a sheet stand on it as often as it holds them.

    A sheet holds pages of several versions only where each of them has a single leaf, so that
    cutting gives each pupil one piece. A version of more begins on a sheet of its own.
    """
    count = presentation.to_a_sheet
    found = _first_and_all(versions)
    if found is None:
        return
    first, all_versions = found
    blank = PagePlan(first.width, first.height, ())
    across = _across(blank, count)
    for face in _faces(all_versions, presentation, across):
        if count == 1:
            yield face[0] or blank
        else:
            yield _side(face, blank, across, count // across)


def sides(versions: Iterable[Sequence[SquaredPage]], presentation: Presentation) -> Iterator[Side]:
    """The same sides with their pages and squares apart: not yet drawn on one page."""
    found = _first_and_all(versions)
    if found is None:
        return
    first, all_versions = found
    count = presentation.to_a_sheet
    across = _across(first.plan, count)
    for face in _faces(all_versions, presentation, across):
        parts = (*face, *[None] * (count - len(face)))
        yield Side(first.plan.width, first.plan.height, across, parts)


def _first_and_all(
    versions: Iterable[Sequence[_Some]],
) -> tuple[_Some, Iterator[Sequence[_Some]]] | None:
    """The very first page, and all versions that have pages; None where none has."""
    coming = filter(None, versions)
    first = next(coming, None)
    return None if first is None else (first[0], chain((first,), coming))


def _faces(
    versions: Iterable[Sequence[_Some]], presentation: Presentation, across: int
) -> Iterator[_Face[_Some]]:
    faces = _duplex_faces if presentation.duplex else _single_faces
    return faces(versions, presentation.to_a_sheet, across)


def _sheets(versions: Iterable[Sequence[_Some]], size: int) -> Iterator[tuple[list[_Some], bool]]:
    """The leaves that share a sheet, so many at most, and whether more sheets follow."""
    coming = _shared(versions, size)
    sheet = next(coming, None)
    while sheet is not None:
        after = next(coming, None)
        yield sheet, after is not None
        sheet = after


def _shared(versions: Iterable[Sequence[_Some]], size: int) -> Iterator[list[_Some]]:
    sheet: list[_Some] = []
    for leaves in versions:
        if sheet and (len(leaves) > 1 or len(sheet) == size):
            yield sheet
            sheet = []
        if len(leaves) > 1:
            yield from (list(leaves[at : at + size]) for at in range(0, len(leaves), size))
        else:
            sheet += leaves
    if sheet:
        yield sheet


def _across(page: PagePlan, count: int) -> int:
    """How many pages stand side by side: two halves of upright paper do, of paper on its side not.

    Either way the sheet has the shape of paper.
    """
    if count == 2:
        return 2 if page.height > page.width else 1
    return 2 if count == 4 else 1


def _single_faces(
    versions: Iterable[Sequence[_Some]], count: int, across: int
) -> Iterator[_Face[_Some]]:
    """Sides for one-sided printing. So few pages that a sheet holds them several times fill it."""
    first = True
    for face, more in _sheets(versions, count):
        alone = first and not more and count % len(face) == 0
        yield face * (count // len(face)) if alone else face
        first = False


def _duplex_faces(
    versions: Iterable[Sequence[_Some]], count: int, across: int
) -> Iterator[_Face[_Some]]:
    leaves = (
        [
            (version[at], version[at + 1] if at + 1 < len(version) else None)
            for at in range(0, len(version), 2)
        ]
        for version in versions
    )
    for on_sheet, more in _sheets(leaves, count):
        yield [front for front, _ in on_sheet]
        backs = [back for _, back in on_sheet]
        backs += [None] * (count - len(backs))
        if any(backs) or more:  # nothing is printed behind the last
            yield [
                back
                for row in range(0, count, across)
                for back in reversed(backs[row : row + across])
            ]


def _side(face: _Face[PagePlan], page: PagePlan, across: int, down: int) -> PagePlan:
    content: list[Item | Unit] = []
    for place, placed in enumerate(face):
        row, column = divmod(place, across)
        if placed is not None:
            content.extend(moved(placed.content, column * page.width, row * page.height))
    width, height = across * page.width, down * page.height
    cuts = [
        *(
            Line(x, MARGIN, x, height - MARGIN, GRID_LINE, CUT_LINE)
            for x in (page.width * column for column in range(1, across))
        ),
        *(
            Line(MARGIN, y, width - MARGIN, y, GRID_LINE, CUT_LINE)
            for y in (page.height * row for row in range(1, down))
        ),
    ]
    return PagePlan(width, height, (*cuts, *content))
