"""Pupils' pages with the squares that they stand on, and which of them share a side of paper.

Whoever draws a page needs its plan alone; whoever sets its questions in a table needs its squares
too, which a page without lines does not show.
"""

from dataclasses import dataclass

from layouts.planning.plan import Grid, PagePlan


@dataclass(frozen=True, slots=True)
class SquaredPage:
    """A page, and its squares whether they are drawn or not."""

    plan: PagePlan
    grid: Grid


@dataclass(frozen=True, slots=True)
class Side:
    """A side of a sheet of paper: its parts, all of one size, in lines of so many.

    A part without a page is None. Lengths are millimetres.
    """

    part_width: float
    part_height: float
    across: int
    parts: tuple[SquaredPage | None, ...]

    @property
    def width(self) -> float:
        """The paper's."""
        return self.part_width * self.across

    @property
    def height(self) -> float:
        """The paper's."""
        return self.part_height * (len(self.parts) // self.across)
