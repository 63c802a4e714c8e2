"""The type, squares and spacing of one section's sheets: as usual, in large print, on a tint.

Large print is not a sheet made bigger: the sizes below change, and the page is planned anew
with them.
"""

from dataclasses import dataclass, replace
from typing import Final

from layouts.planning.paper import MARGIN
from layouts.planning.plan import Box, Colour
from layouts.planning.type_scale import (
    GRID,
    GRID_FAINT,
    LARGE_FOOT,
    MM_PER_POINT,
    SHEET_FOOT,
    SHEET_HEADING,
    SHEET_LABEL,
    SHEET_TEXT,
    SHEET_TITLES,
)
from layouts.planning.working_ink import FULL
from specs.spec import Presentation
from specs.tints import rgb

_WRITE_ON: Final = 9.0
_TINT_EDGE: Final = 3.0
"""Between the tint's edge and the ink on it: the tint itself keeps clear of the margins."""
_GRIDS: Final[dict[str, Colour | None]] = {"plain": GRID, "faint": GRID_FAINT, "none": None}


@dataclass(frozen=True, slots=True)
class SheetType:
    """Sizes for a pupil's sheet: type in points, lengths in millimetres.

    ``words`` are questions that are not set out on squares,
    ``label`` is a question's letter to its square, ``gap`` the fewest free squares between
    questions, ``edge`` how far ink stays from the edge of the page; ``grid`` and ``tint`` are
    None where there is nothing to draw.
    """

    square: float
    titles: tuple[float, ...] = SHEET_TITLES
    heading: float = SHEET_HEADING
    text: float = SHEET_TEXT
    words: float = SHEET_HEADING
    foot: float = SHEET_FOOT
    label: float = SHEET_LABEL
    write_on: float = _WRITE_ON
    gap: int = 1
    edge: float = MARGIN
    grid: Colour | None = GRID
    tint: Colour | None = None

    @property
    def tightened(self) -> "SheetType":
        """The same with a smaller title and less room to write the name on, to win a row."""
        return replace(self, titles=self.titles[-1:], write_on=0.78 * self.write_on)

    def background(self, width: float, height: float) -> tuple[Box, ...]:
        """The tint of a page of that size, where the section has one."""
        if self.tint is None:
            return ()
        inner = width - 2 * MARGIN, height - 2 * MARGIN
        return (Box(MARGIN, MARGIN, *inner, fill=self.tint),)


def sheet_type(presentation: Presentation, section: str) -> SheetType:
    """The sizes for the sheets of a section."""
    large, tint = presentation.large.of(section), presentation.tint.of(section)
    edge = MARGIN if tint is None else MARGIN + _TINT_EDGE
    colour = None if tint is None else rgb(str(tint))
    gap = 2 if presentation.spacing == "wide" else 1
    grid = _GRIDS[presentation.grid]
    square = float(presentation.square)
    if large is None:
        return SheetType(square, gap=gap, edge=edge, grid=grid, tint=colour)
    points = float(large)
    return SheetType(
        square=max(square, square_for(points)),
        titles=(points * 1.2, points),
        heading=points,
        text=points,
        words=points,
        foot=points * LARGE_FOOT,
        label=FULL,
        write_on=points * MM_PER_POINT * 2,
        gap=gap,
        edge=edge,
        grid=grid,
        tint=colour,
    )


def square_for(points: float) -> float:
    """The square whose digits have so many points."""
    return points * MM_PER_POINT / FULL
