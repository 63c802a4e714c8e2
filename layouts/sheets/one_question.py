"""One question alone on squares, as a pupil's sheet sets it out: a picture of what a rung asks."""

from dataclasses import replace
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem
from layouts.planning.plan import Grid, PagePlan, Role, Unit
from layouts.planning.sheet_type import sheet_type
from layouts.planning.wording import spoken_working
from layouts.planning.working_ink import Squares, working_ink
from layouts.sheets.block_ink import drawn
from layouts.sheets.blocks import Placed, block_of
from specs.spec import Presentation

_AROUND: Final = 1
"""Free squares on every side."""

_WIDEST: Final = 24
"""Squares across, for wide lines of working and for questions in words."""


_FREE: Final = 3
"""Free squares down are enough to show that there is room to work."""

_EDGE: Final = 0.5
"""Millimetres around the squares, so that their outermost lines are whole."""


def one_question(item: WorkedItem, presentation: Presentation) -> PagePlan:
    """A question without a letter on a piece of squared paper that is just large enough."""
    sizes = sheet_type(presentation, "")
    block = block_of(item, Grid(0.0, 0.0, sizes.square, _WIDEST, _WIDEST), sizes)
    in_its_lines = block.scaffold.uprights or block.scaffold.dividend_row is not None
    if not block.is_set_out and not in_its_lines:
        block = replace(block, scaffold=_trimmed(block.scaffold))
    columns, rows = block.columns + 2 * _AROUND, block.rows + 2 * _AROUND
    grid = Grid(_EDGE, _EDGE, sizes.square, columns, rows)
    placed = Placed(block, _AROUND, _AROUND, _AROUND)
    ink = drawn(placed, grid, sizes, sizes.words)
    squares = (replace(grid, colour=sizes.grid),) if sizes.grid else ()
    return PagePlan(grid.width + 2 * _EDGE, grid.height + 2 * _EDGE, (*squares, ink))


def one_working(item: WorkedItem, presentation: Presentation) -> PagePlan:
    """A question's finished working, on a piece of squared paper that is just large enough."""
    sizes = sheet_type(presentation, "")
    working = item.working
    columns, rows = working.columns + 2 * _AROUND, working.rows + 2 * _AROUND
    grid = Grid(_EDGE, _EDGE, sizes.square, columns, rows)
    corner = Squares(_EDGE + _AROUND * grid.square, _EDGE + _AROUND * grid.square, grid.square)
    says = spoken_working(working, len(working.steps), item.say)
    ink = Unit(Role.WORKING, working_ink(working, corner), says=says)
    squares = (replace(grid, colour=sizes.grid),) if sizes.grid else ()
    return PagePlan(grid.width + 2 * _EDGE, grid.height + 2 * _EDGE, (*squares, ink))


def _trimmed(squares: Working) -> Working:
    """A working with few free rows below what is written in it."""
    written = max((mark.row for mark in squares.marks()), default=-1) + 1
    return replace(squares, rows=min(squares.rows, max(written, _FREE)))
