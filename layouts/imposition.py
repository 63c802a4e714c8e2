"""Pages onto sheets of paper: several side by side to be cut apart, fronts and backs in order."""

from collections.abc import Iterator, Sequence
from itertools import chain
from typing import TypeAlias

from layouts.paper import MARGIN
from layouts.plan import Item, Line, PagePlan, Unit, moved
from layouts.type_scale import CUT_LINE, GRID_LINE
from specs.spec import Presentation

_Face: TypeAlias = Sequence[PagePlan | None]
"""One side of a sheet: what stands in each place, in reading order."""


def on_sheets(
    versions: Sequence[Sequence[PagePlan]], presentation: Presentation
) -> tuple[PagePlan, ...]:
    """The sides of sheets that hold the pages of all versions, in the order of printing.

    With duplex every version begins on a front, and a page stands right behind the one
    before it once the sheet is turned over its left or right edge, cut apart or not.
    """
    count = presentation.to_a_sheet
    pages = list(chain.from_iterable(versions))
    if not pages:
        return ()
    blank = PagePlan(pages[0].width, pages[0].height, ())
    across = _across(blank, count)
    if presentation.duplex:
        faces = list(_duplex_faces(versions, count, across))
    else:
        faces = [pages[at : at + count] for at in range(0, len(pages), count)]
    if count == 1:
        return tuple(face[0] or blank for face in faces)
    return tuple(_side(face, blank, across, count // across) for face in faces)


def _across(page: PagePlan, count: int) -> int:
    """How many pages stand side by side: two halves of upright paper do, of paper on its side not.

    Either way the sheet has the shape of paper.
    """
    if count == 2:
        return 2 if page.height > page.width else 1
    return 2 if count == 4 else 1


def _duplex_faces(
    versions: Sequence[Sequence[PagePlan]], count: int, across: int
) -> Iterator[_Face]:
    leaves = [
        (version[at], version[at + 1] if at + 1 < len(version) else None)
        for version in versions
        for at in range(0, len(version), 2)
    ]
    for start in range(0, len(leaves), count):
        on_sheet = leaves[start : start + count]
        yield [front for front, _ in on_sheet]
        backs = [back for _, back in on_sheet]
        backs += [None] * (count - len(backs))
        if any(backs) or start + count < len(leaves):  # nothing is printed behind the last
            yield [
                back
                for row in range(0, count, across)
                for back in reversed(backs[row : row + across])
            ]


def _side(face: _Face, page: PagePlan, across: int, down: int) -> PagePlan:
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
