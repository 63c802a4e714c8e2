"""What of a slide goes into a table's squares: digits that stand in the middle of one.

A table keeps its columns when somebody changes a digit, which loose boxes do not.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import floor
from typing import Final

from layouts.planning.plan import Box, Grid, Item, Text

_OFF: Final = 0.04
"""How far a digit may stand from its square's middle, in squares."""
_FULL: Final = 0.5
"""Smaller type, in squares, is a small digit: it has a place of its own in a corner."""
_MM_PER_POINT: Final = 25.4 / 72


@dataclass(frozen=True, slots=True)
class Table:
    """A slide's squares with what stands in them, by row and column."""

    grid: Grid
    cells: dict[tuple[int, int], Text]


def in_tables(items: Sequence[Item]) -> list[Item | Table]:
    """The items in an order in which all is seen: filled boxes, tables, and what lies over them.

    Every digit in the middle of a square is in its table, once; nothing else is left out.
    """
    tables = [Table(item, {}) for item in items if isinstance(item, Grid)]
    under: list[Item | Table] = []
    over: list[Item | Table] = []
    for item in items:
        if isinstance(item, Grid):
            continue
        if isinstance(item, Text) and _taken(item, tables):
            continue
        (under if isinstance(item, Box) and item.fill is not None else over).append(item)
    return [*under, *tables, *over]


def _taken(text: Text, tables: Iterable[Table]) -> bool:
    """Put a text in the square that it stands in the middle of, where there is one."""
    for table in tables:
        grid = table.grid
        if text.anchor != "centre" or text.size * _MM_PER_POINT < _FULL * grid.square:
            continue
        across, down = (text.x - grid.x) / grid.square, (text.middle - grid.y) / grid.square
        column, row = floor(across), floor(down)
        on_it = 0 <= row < grid.rows and 0 <= column < grid.columns
        in_the_middle = max(abs(across - column - 0.5), abs(down - row - 0.5)) < _OFF
        if on_it and in_the_middle and (row, column) not in table.cells:
            table.cells[row, column] = text
            return True
    return False
