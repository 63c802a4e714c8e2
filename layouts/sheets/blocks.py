"""A question as a block of squares: the room that it needs on a pupil's sheet.

A block is its label, the numbers as given, an empty answer row between rules and the row for
small carried or exchanged digits; above it may stand words.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from generator.arithmetic.boxes import DIGIT_BOX, NUMBER_BOX
from generator.operations.working import Ink, Mark, Point, Step, Working
from generator.packs.working_out import WorkedItem
from layouts.planning import typeface
from layouts.planning.plan import Grid, line_height
from layouts.planning.sheet_type import SheetType
from layouts.planning.typeface import EMPTY_BOXES
from layouts.planning.wording import question_lines

AFTER_LABEL: Final = 0.2
"""Between a label's square and the words after it, in squares."""
NARROWEST_WORDS: Final = 70.0
"""Questions in words have at least so many millimetres, or the whole width of the page."""
_TERM: Final = f"[0-9.,{DIGIT_BOX}]+|{NUMBER_BOX}"
_CALCULATION: Final = re.compile(
    rf"(?:{_TERM})(?: [+−×÷·:] (?:{_TERM}))+(?: =| = [0-9.,{DIGIT_BOX}]+)?"
)
NUMBER_SQUARES: Final = 4
"""The width of a box for a number, in squares: the same for all, so that it tells no length."""
ESTIMATE_COLUMNS: Final = 7
"""Squares of an estimate's row: the letter's, the sign's and five to write in."""
_HAIR: Final = 0.02
"""Lines that are so little higher than their squares, in squares, need no further row."""


@dataclass(frozen=True, slots=True)
class Shape:
    """The room that a block takes, in squares: how far it reaches from the ones, and its size.

    A block that is set out has a point that must be in line with others: it does not stand on
    empty squares, nor in a half-box. ``rows`` are all, those of words among them; the letter
    stands in ``letter_row``.
    """

    left: int
    right: int
    columns: int
    rows: int
    is_set_out: bool
    letter_row: int = 0
    words_rows: int = 0
    in_squares: bool = False
    """Its words are a calculation, and stand in squares."""

    @property
    def scaffold_columns(self) -> int:
        """Columns of what is worked on squares."""
        return self.left + self.right


@dataclass(frozen=True, slots=True)
class Block:
    """A question's label and its scaffold: the working with only what a pupil is given.

    ``boxes`` are squares (row, column) with an empty box for a small digit, ``corners`` those
    with one in their upper left corner. ``lines`` are
    words above the scaffold, wrapped; with their label they take ``words_columns`` and
    ``words_rows`` of squares. Where they are a calculation and no more, ``on_a_line`` has it a
    character a square. ``says`` is the question as it is read aloud. With ``estimate`` a row
    over the scaffold is kept for one.
    """

    label: str
    scaffold: Working
    boxes: tuple[tuple[int, int], ...] = ()
    lines: tuple[str, ...] = ()
    words_columns: int = 0
    words_rows: int = 0
    hidden: tuple[tuple[int, int], ...] = ()
    says: str = ""
    corners: tuple[tuple[int, int], ...] = ()
    on_a_line: Working | None = None
    gaps: tuple[tuple[int, int], ...] = ()
    """Boxes in its line: the column of each, and how many squares it is wide."""
    estimate: bool = False

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
        return bool(given) and self.scaffold.dividend_row is None and not self.scaffold.uprights

    @property
    def shape(self) -> Shape:
        """The room that it takes."""
        return Shape(
            self.left,
            self.right,
            self.columns,
            self.rows,
            self.is_set_out,
            self.letter_row,
            self.words_rows,
            self.on_a_line is not None,
        )

    @property
    def letter_row(self) -> int:
        """The row of a letter in its own square: beside the first number, where that is free.

        It is the row of an estimate, where there is one.
        """
        if self.lines or self.estimate:
            return 0
        marks = self.scaffold.setting_out.marks
        row = min((mark.row for mark in marks if mark.ink is Ink.GIVEN), default=0)
        row = min((line.start for line in self.scaffold.uprights), default=row)
        taken = {(mark.row, mark.column) for mark in marks} | {*self.boxes, *self.hidden}
        return 0 if (row, 0) in taken else row

    @property
    def columns(self) -> int:
        """The whole width in squares."""
        estimate = ESTIMATE_COLUMNS if self.estimate else 0
        return max(self.scaffold.columns, self.words_columns, estimate)

    @property
    def rows(self) -> int:
        """The whole height in squares."""
        return self.words_rows + self.estimate + self.scaffold.rows


@dataclass(frozen=True, slots=True)
class Placed:
    """A block on a page, in squares: where its label stands and where its scaffold begins.

    ``row`` is that of its words, where it has some, otherwise of its first squares. Words are in
    a band without squares: from a column up to another, and so many rows high; where none is
    given it is as large as the words.
    """

    block: Block
    row: int
    label_column: int
    column: int
    band: tuple[int, int] | None = None
    band_rows: int = 0

    @property
    def scaffold_row(self) -> int:
        """The first row of what is worked on squares."""
        return self.row + (self.band_rows or self.block.words_rows) + self.block.estimate

    @property
    def clear(self) -> tuple[int, int, int]:
        """The band without squares: from a column up to another, and its rows."""
        first, end = self.band or (self.label_column, self.label_column + self.block.words_columns)
        return first, end, self.band_rows or self.block.words_rows

    def at_the_left(self) -> "Placed":
        """The block as far left as it goes."""
        free = min(self.label_column, self.column)
        return replace(self, label_column=self.label_column - free, column=self.column - free)


def blocks_of(
    item: WorkedItem, grid: Grid, sizes: SheetType, *, spelt: bool = True
) -> tuple[Block, ...]:
    """A question in lines of several lengths: for as many page columns as its words allow.

    Those for more page columns come first. Wide lines of working may use what is free at the
    right of their page column too; two of these they are given in any case.
    """
    found: list[Block] = []
    for across in range(1, grid.columns):
        columns = (grid.columns - 1 + sizes.gap) // across - sizes.gap
        block = block_of(item, grid, sizes, columns, spelt=spelt)
        narrow = columns * grid.square < NARROWEST_WORDS and len(block.lines) > 1
        cramped = across > 2 and item.frame.squares.columns > columns + sizes.gap
        if across > 1 and (narrow or cramped or block.columns > columns):
            break
        if not found or block != found[-1]:
            found.append(block)
    return tuple(reversed(found))


def block_of(
    item: WorkedItem,
    grid: Grid,
    sizes: SheetType,
    columns: int | None = None,
    *,
    spelt: bool = True,
) -> Block:
    """A question as the frame of its place on the sheet sets it out.

    Its words and its wide lines of working stay within so many columns, which are all where none
    are said. ``spelt`` puts a calculation on a line into squares too.
    """
    if item.estimate is None:
        return _without_estimate(item, grid, sizes, columns, spelt=spelt)
    shorter = replace(grid, rows=grid.rows - 1)
    block = _without_estimate(item, shorter, sizes, columns, spelt=spelt)
    says = item.say("{question}; estimate first", question=block.says)
    return replace(block, estimate=True, says=says)


def _without_estimate(
    item: WorkedItem, grid: Grid, sizes: SheetType, columns: int | None, *, spelt: bool
) -> Block:
    frame = item.frame
    columns = grid.columns - 1 if columns is None else columns
    if frame.narrower is not None and frame.squares.columns >= grid.columns:
        frame = replace(frame, squares=frame.narrower, boxes=(), corners=())
    squares = frame.squares
    if frame.may_be_shortened:
        squares = _narrowed(squares, grid.columns - 1)
    if not squares.setting_out.marks and not squares.rules:
        # On bare squares wide lines of working may be written narrower, but none is left out.
        rows = max(squares.rows, _rows_worked(item))
        squares = replace(squares, columns=min(squares.columns, columns), rows=rows)
    if not frame.words:
        if frame.may_be_shortened:
            squares = _shortened(squares, grid.rows)
        return Block(
            item.label,
            squares,
            frame.boxes,
            hidden=frame.hidden,
            says=item.said,
            corners=frame.corners,
        )
    spelt = spelt or not EMPTY_BOXES.keys().isdisjoint(frame.words)  # a box is a whole square
    line = _on_a_line(frame.words, item.working) if spelt else None
    if line and line.columns < grid.columns:
        if frame.may_be_shortened:
            squares = _shortened(squares, grid.rows - 1)
        return Block(
            item.label,
            squares,
            frame.boxes,
            (frame.words,),
            words_columns=1 + line.columns,
            words_rows=1,
            hidden=frame.hidden,
            says=item.said,
            corners=frame.corners,
            on_a_line=line,
            gaps=tuple(_gaps(frame.words, item.working)),
        )
    room = (columns - 1 - AFTER_LABEL) * grid.square
    lines = question_lines(frame.words, sizes.words, room)
    widest = max(typeface.width(line, sizes.words) for line in lines)
    words_rows = ceil(len(lines) * line_height(sizes.words) / grid.square - _HAIR)
    if frame.may_be_shortened:
        squares = _shortened(squares, grid.rows - words_rows)
    return Block(
        item.label,
        squares,
        frame.boxes,
        lines,
        words_columns=1 + ceil(AFTER_LABEL + widest / grid.square),
        words_rows=words_rows,
        hidden=frame.hidden,
        says=item.said,
        corners=frame.corners,
    )


def _on_a_line(words: str, working: Working) -> Working | None:
    """A calculation and no more, a character a square, points as in its working; None for words."""
    words = _without_gaps(words, working)
    if not _CALCULATION.fullmatch(words):
        return None
    own = working.point_column
    marks, points, column = [], [], 0
    for character in words.replace(" ", ""):
        if character == working.land.decimal:
            points.append(Point(0, column - (not own), Ink.GIVEN, in_square=own))
            column += own
            continue
        if character in EMPTY_BOXES:
            column += _squares_of(character)
            continue
        marks.append(Mark(0, column, character, Ink.GIVEN if character.isdigit() else Ink.SIGN))
        column += 1
    step = Step("", None, tuple(marks), tuple(points))
    return Working(1, column, column, (), (step,), working.answer, land=working.land)


def _gaps(words: str, working: Working) -> Iterator[tuple[int, int]]:
    """The boxes in a calculation on a line: at which square each begins, and its width."""
    column = 0
    for character in _without_gaps(words, working).replace(" ", ""):
        if character in EMPTY_BOXES:
            yield column, _squares_of(character)
        is_point = character == working.land.decimal
        column += working.point_column if is_point else _squares_of(character)


def _without_gaps(words: str, working: Working) -> str:
    """In squares nothing stands between groups of digits."""
    gap = working.land.gap
    return re.sub(rf"(?<=[0-9]){re.escape(gap)}(?=[0-9])", "", words) if gap else words


def _squares_of(character: str) -> int:
    return NUMBER_SQUARES if character == NUMBER_BOX else 1


def _rows_worked(item: WorkedItem) -> int:
    """Rows that the written method takes below a question that stands on a line; else 0."""
    working = item.working
    if working.rules or working.rows == 1:
        return 0
    return max((mark.row for mark in working.marks()), default=0)


def _shortened(squares: Working, rows: int) -> Working:
    """A working with fewer free rows below it, where a page has only so many."""
    written = [mark.row for mark in squares.marks()]
    written += [rule.row - 1 for rule in squares.rules_drawn()]
    written += [line.end for line in squares.uprights_drawn()]
    if squares.line is not None:
        written.append(squares.line.row + squares.line.rows - 1)
    return replace(squares, rows=min(squares.rows, max(rows, 1 + max(written, default=0))))


def _narrowed(squares: Working, columns: int) -> Working:
    """A working with fewer free columns at its right, where a page has only so many."""
    written = [mark.column for mark in squares.marks()]
    written += [rule.end for rule in squares.rules_drawn()]
    needed = squares.columns if squares.line is not None else 1 + max(written, default=0)
    return replace(squares, columns=min(squares.columns, max(columns, needed)))
