"""A question as a block of squares: the room that it needs on a pupil's sheet.

A block is its label, the numbers as given, an empty answer row between rules and the row for
small carried or exchanged digits; above it may stand words.
"""

from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem
from layouts.planning import typeface
from layouts.planning.plan import Grid, line_height
from layouts.planning.sheet_type import SheetType
from layouts.planning.wording import breakable

AFTER_LABEL: Final = 0.2
"""Between a label's square and the words after it, in squares."""
NARROWEST_WORDS: Final = 70.0
"""Questions in words have at least so many millimetres, or the whole width of the page."""
_HAIR: Final = 0.02
"""Lines that are so little higher than their squares, in squares, need no further row."""


@dataclass(frozen=True, slots=True)
class Shape:
    """The room that a block takes, in squares: how far it reaches from the ones, and its size.

    A block that is set out has a point that must be in line with others: it does not stand on
    empty squares, nor in a half-box.
    """

    left: int
    right: int
    columns: int
    rows: int
    is_set_out: bool


@dataclass(frozen=True, slots=True)
class Block:
    """A question's label and its scaffold: the working with only what a pupil is given.

    ``boxes`` are squares (row, column) with an empty box for a small digit. ``lines`` are
    words above the scaffold, wrapped; with their label they take ``words_columns`` and
    ``words_rows`` of squares. ``says`` is the question as it is read aloud.
    """

    label: str
    scaffold: Working
    boxes: tuple[tuple[int, int], ...] = ()
    lines: tuple[str, ...] = ()
    words_columns: int = 0
    words_rows: int = 0
    hidden: tuple[tuple[int, int], ...] = ()
    says: str = ""

    @property
    def left(self) -> int:
        """Columns up to the ones, with the sign's, which holds the label too."""
        return self.scaffold.units_column + 1

    @property
    def right(self) -> int:
        """Columns after the ones."""
        return self.scaffold.columns - self.left

    @property
    def is_set_out(self) -> bool:
        """Whether its point must be in line."""
        given = self.scaffold.setting_out.marks or self.scaffold.rules
        return bool(given) and not self.scaffold.uprights

    @property
    def shape(self) -> Shape:
        """The room that it takes."""
        return Shape(self.left, self.right, self.columns, self.rows, self.is_set_out)

    @property
    def label_row(self) -> int:
        """The row of a label in its own square: beside the dividend of a half-box."""
        return min((line.start for line in self.scaffold.uprights), default=0)

    @property
    def columns(self) -> int:
        """The whole width in squares."""
        return max(self.scaffold.columns, self.words_columns)

    @property
    def rows(self) -> int:
        """The whole height in squares."""
        return self.words_rows + self.scaffold.rows


@dataclass(frozen=True, slots=True)
class Placed:
    """A block on a page, in squares: where its label stands and where its scaffold begins."""

    block: Block
    row: int
    label_column: int
    column: int

    def at_the_left(self) -> "Placed":
        """The block as far left as it goes."""
        free = min(self.label_column, self.column)
        return replace(self, label_column=self.label_column - free, column=self.column - free)


def block_of(item: WorkedItem, grid: Grid, sizes: SheetType) -> Block:
    """A question as the frame of its place on the sheet sets it out."""
    frame = item.frame
    if not frame.squares.setting_out.marks:  # wide lines of working may be written narrower
        free = frame.squares
        half = max(1, (grid.columns - sizes.gap) // 2)
        frame = replace(frame, squares=replace(free, columns=min(free.columns, half)))
    if not frame.words:
        return Block(item.label, frame.squares, frame.boxes, hidden=frame.hidden, says=item.said)
    columns = _words_columns(grid) - 1 - AFTER_LABEL
    lines = typeface.wrap(breakable(frame.words), sizes.words, columns * grid.square)
    widest = max(typeface.width(line, sizes.words) for line in lines)
    words_rows = ceil(len(lines) * line_height(sizes.words) / grid.square - _HAIR)
    squares = frame.squares
    if frame.may_be_shortened:
        squares = _shortened(squares, grid.rows - words_rows)
    return Block(
        item.label,
        squares,
        frame.boxes,
        lines,
        words_columns=1 + ceil(AFTER_LABEL + widest / grid.square),
        words_rows=words_rows,
        says=item.said,
    )


def _shortened(squares: Working, rows: int) -> Working:
    """A working with fewer free rows below it, where a page has only so many."""
    written = 1 + max(mark.row for mark in squares.marks())
    return replace(squares, rows=min(squares.rows, max(rows, written)))


def _words_columns(grid: Grid) -> int:
    """Squares across for a question in words: half the page, or all of a narrow one."""
    half = (grid.columns - 1) // 2
    return half if half * grid.square >= NARROWEST_WORDS else grid.columns
