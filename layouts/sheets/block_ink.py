"""A placed block drawn on its page's squares."""

from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from typing import Final

from generator.operations.working import Ink, Mark, Working
from layouts.planning import typeface
from layouts.planning.plan import (
    Box,
    Colour,
    Grid,
    Item,
    Line,
    Role,
    Text,
    Unit,
    line_height,
    paragraph,
)
from layouts.planning.sheet_type import SheetType
from layouts.planning.type_scale import DARK, FINE_LINE, GAP_LINE, GRID_LINE, MM_PER_POINT, WHITE
from layouts.planning.working_ink import HANDS, Squares, working_ink
from layouts.sheets.blocks import AFTER_LABEL, ESTIMATE_COLUMNS, Placed

SMALL_BOX: Final = 0.5
"""The side of an empty box for a small digit, in squares."""
CORNER_BOX: Final = (-0.62, -0.46, -0.25, -0.06)
"""Left, top, right and bottom of a box for a small digit before a full-size one, from the middle
of its square, in squares: clear of that digit and of the one before it."""
LARGE_BOX: Final = 1.0
"""The side of an empty box for a missing digit, in squares: 5 mm at least, which a digit by hand
needs (common practice, no source)."""

POINT_ROOM: Final = 0.06
"""Around a decimal sign where the side of a box stops for it, in squares."""


def label_size(labels: Sequence[str], grid: Grid, sizes: SheetType) -> float:
    """The points of all a sheet's letters: the widest fits in a square."""
    widest = max(typeface.width(f"{label})", 1.0, bold=True) for label in labels)
    in_a_square = sizes.label * grid.square / MM_PER_POINT
    return min(in_a_square, sizes.words, 0.94 * grid.square / widest)


def drawn(placed: Placed, grid: Grid, sizes: SheetType, labels: float) -> Unit:
    """A placed question on its page's squares; ``labels`` are the points of its letter,
    where it has one.
    """
    ink = tuple(_ink(placed, grid, sizes, labels))
    return Unit(Role.QUESTION, ink, says=placed.block.says)


def _ink(placed: Placed, grid: Grid, sizes: SheetType, labels: float) -> Iterator[Item]:
    """Its letter, its words and what is set out of it."""
    block, side = placed.block, grid.square
    if block.lines and not block.on_a_line:
        yield from _words_ink(placed, grid, sizes, labels)
    elif block.label:
        yield from _label_ink(placed, grid, labels)
    if block.on_a_line:
        column, row = placed.label_column + 1, placed.row
        corner = Squares(grid.x + column * side, grid.y + row * side, side)
        for first, squares in block.gaps:
            x = corner.x + first * side
            yield Box(x, corner.y, squares * side, side, stroke=DARK, weight=GAP_LINE)
        sides = {(0, x) for first, squares in block.gaps for x in (first - 1, first + squares - 1)}
        yield from _opened_at_points(block.on_a_line, corner, sides, sizes.tint or WHITE)
        yield from working_ink(block.on_a_line, corner)
    if block.estimate:
        yield from _estimate_ink(placed, grid)
    corner = Squares(grid.x + placed.column * side, grid.y + placed.scaffold_row * side, side)
    yield from _empty_boxes(block.boxes, corner, SMALL_BOX, FINE_LINE)
    yield from _corner_boxes(block.corners, corner)
    yield from _empty_boxes(block.hidden, corner, LARGE_BOX, GAP_LINE)
    sides = {(row, x) for row, column in block.hidden for x in (column - 1, column)}
    yield from _opened_at_points(block.scaffold, corner, sides, sizes.tint or WHITE)
    yield from working_ink(block.scaffold, corner)


def _estimate_ink(placed: Placed, grid: Grid) -> Iterator[Item]:
    """The sign and a line for an estimate, in the row over the scaffold."""
    side, row = grid.square, placed.scaffold_row - 1
    corner = Squares(grid.x + placed.label_column * side, grid.y + row * side, side)
    yield corner.written(Mark(0, 1, "≈", Ink.SIGN), HANDS[Ink.SIGN])
    x, y = corner.x + 2 * side, corner.y + 0.88 * side
    yield Line(x, y, x + (ESTIMATE_COLUMNS - 2) * side, y, FINE_LINE)


def _empty_boxes(
    squares: Sequence[tuple[int, int]], corner: Squares, share: float, weight: float
) -> Iterator[Box]:
    """Boxes to write in, each in the middle of its square."""
    half = share / 2 * corner.side
    for row, column in squares:
        x, y = corner.middle(row, column)
        yield Box(x - half, y - half, 2 * half, 2 * half, stroke=DARK, weight=weight)


def _opened_at_points(
    working: Working, corner: Squares, sides: AbstractSet[tuple[int, int]], paper: Colour
) -> Iterator[Box]:
    """What keeps a decimal sign clear of the side of a box that it would stand on.

    ``sides`` are the squares, row and column, at whose right the box has a side.
    """
    for point in working.points():
        if (point.row, point.column) in sides and not point.in_square:
            sign = corner.pointed(point, working.land.decimal)
            em = sign.size * MM_PER_POINT
            up = 2 * typeface.POINT_MIDDLE * em + POINT_ROOM * corner.side
            down = typeface.BELOW_BASELINE[sign.text] * em + POINT_ROOM * corner.side
            half = typeface.POINT_MIDDLE * em + POINT_ROOM * corner.side
            yield Box(sign.x - half, sign.baseline - up, 2 * half, up + down, fill=paper)


def _corner_boxes(squares: Sequence[tuple[int, int]], corner: Squares) -> Iterator[Box]:
    """Boxes for small digits before full-size ones: over the line at the left of their square."""
    left, top, right, bottom = (share * corner.side for share in CORNER_BOX)
    for row, column in squares:
        x, y = corner.middle(row, column)
        yield Box(x + left, y + top, right - left, bottom - top, stroke=DARK, weight=FINE_LINE)


def _label_ink(placed: Placed, grid: Grid, size: float) -> Iterator[Item]:
    """The label in a square of its own."""
    side = grid.square
    yield Text(
        f"{placed.block.label})",
        grid.x + (placed.label_column + 0.5) * side,
        grid.y
        + (placed.row + placed.block.letter_row + 0.5) * side
        + typeface.DIGIT_HEIGHT / 2 * size * MM_PER_POINT,
        size,
        bold=True,
        anchor="centre",
    )


def _words_ink(placed: Placed, grid: Grid, sizes: SheetType, label: float) -> Iterator[Item]:
    """The label and the words after it, on a band that is kept clear of squares for them.

    Each line of words has a row of the band to itself, where they are as many: in line with
    the letters of questions beside it.
    """
    block, side = placed.block, grid.square
    x, y = grid.x + placed.label_column * side, grid.y + placed.row * side
    first, end, rows = placed.clear
    edge = GRID_LINE / 2  # the squares around the band stay whole
    if first < end:
        yield Box(
            grid.x + first * side + edge,
            y + edge,
            (end - first) * side - 2 * edge,
            rows * side - 2 * edge,
            fill=sizes.tint or WHITE,
        )
    pitch = line_height(sizes.words)
    if block.words_rows == len(block.lines):
        pitch = max(pitch, side)
    top = y + (block.words_rows * side - len(block.lines) * pitch) / 2
    lines = [
        text
        for at, line in enumerate(block.lines)
        for text in paragraph(
            (line,),
            x + (1 + AFTER_LABEL) * side,
            top + at * pitch + (pitch - line_height(sizes.words)) / 2,
            sizes.words,
        )
    ]
    if block.label:
        letter = f"{block.label})"
        yield Text(letter, x + side / 2, lines[0].baseline, label, bold=True, anchor="centre")
    yield from lines
