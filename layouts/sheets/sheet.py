"""Pupils' sheets: questions set out on squared paper, ready to be worked.

A question is a block of squares: its label, the numbers as given, an empty answer row
between rules and the row for small carried or exchanged digits. Blocks are placed in whole
squares (``arrange``), then drawn on the page's one grid (``sheet_pages``).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import flow, typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.foot import Imprint, foot, foot_height
from layouts.planning.header import header
from layouts.planning.paper import Paper, page_of, squares_between
from layouts.planning.plan import (
    Box,
    Grid,
    Item,
    PagePlan,
    Role,
    Text,
    Unit,
    line_height,
    paragraph,
)
from layouts.planning.sheet_type import SheetType, sheet_type
from layouts.planning.type_scale import DARK, FINE_LINE, GRID_LINE, MM_PER_POINT, WHITE
from layouts.planning.wording import breakable
from layouts.planning.working_ink import Squares, working_ink

AMPLE: Final = 3
"""A gap of so many squares is ample: a wider one is no reason for fewer blocks across."""
LABEL_REACH: Final = 2
"""A label stands no more squares than this to the left of its own question."""
WIDEST_ROW_GAP: Final = 6
"""Rows of blocks stand no further apart; room beyond that stays free at the foot."""

SMALL_BOX: Final = 0.5
"""The side of an empty box for a small digit, in squares."""
LARGE_BOX: Final = 0.7
"""The side of an empty box for a missing digit, in squares."""
AFTER_LABEL: Final = 0.2
"""Between a label's square and the words after it, in squares."""
_HAIR: Final = 0.02
"""Lines that are so little higher than their squares, in squares, need no further row."""
NARROWEST_WORDS: Final = 70.0
"""Questions in words have at least so many millimetres, or the whole width of the page."""


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


# Placing blocks, in whole squares.


@dataclass(frozen=True, slots=True)
class _Arrangement:
    """So many blocks across: the page columns' extents, and which lines of blocks share a page.

    ``lines`` are runs of blocks, ``heights`` how high each is, ``pages`` runs of lines.
    """

    across: int
    lefts: tuple[int, ...]
    rights: tuple[int, ...]
    lines: tuple[flow.Run, ...]
    heights: tuple[int, ...]
    pages: tuple[flow.Run, ...]
    column_gap: int
    row_gap: int

    @property
    def sizes(self) -> tuple[int, ...]:
        """How many blocks each page holds."""
        return tuple(self.lines[end - 1][1] - self.lines[start][0] for start, end in self.pages)

    @property
    def preference(self) -> tuple[int, bool, bool, int, int, int, int]:
        """Less is better: pages, a lonely question, unevenness, thinness, holes, gaps, across."""
        sizes = self.sizes
        lonely = sum(sizes) > 1 and min(sizes) == 1
        uneven = max(sizes) - min(sizes) > self.across
        thin = int(self.across == 1 and sum(sizes) > 2)
        holes = sum(self.across - (end - start) for start, end in self.lines)
        tightest = min(self.column_gap, self.row_gap, AMPLE)
        return len(self.pages), lonely, uneven, thin, holes, -tightest, -self.across


def arrange(
    blocks: Sequence[Block], columns: int, rows: int, gap: int = 1
) -> tuple[tuple[Placed, ...], ...]:
    """Place blocks on pages of so many squares, in reading order; one tuple a page.

    Points of blocks in the same page column are in line, at least ``gap`` free columns and
    rows stand between blocks, and no block is split. Raises DoesNotFitError where a block
    is too large for the page.
    """
    for block in blocks:
        _must_fit(block, columns, rows, "choose smaller squares or larger paper")
    shapes = tuple(block.shape for block in blocks)
    return tuple(
        tuple(_placed_page(blocks[first:], arrangement, run, columns, rows))
        for first, arrangement in _arranged_best(shapes, columns, rows, gap)
        for run in arrangement.pages
    )


def _must_fit(block: Block, columns: int, rows: int, instead: str) -> None:
    if block.columns > columns or block.rows > rows:
        raise DoesNotFitError(
            f"its frame needs {block.columns} squares across and {block.rows} down, "
            f"and the page has {columns} by {rows}; {instead}"
        )


@lru_cache(maxsize=256)  # versions of a sheet are often alike in shape
def _arranged_best(
    shapes: tuple[Shape, ...], columns: int, rows: int, gap: int
) -> tuple[tuple[int, _Arrangement], ...]:
    """Arrangements, each with the block that it begins with: one for all pages, where that
    leaves no question alone on its page.
    """
    alike = min(_every_try(shapes, columns, rows, gap), key=lambda tried: tried.preference)
    if len(shapes) > 1 and min(alike.sizes) == 1:
        return _page_by_page(shapes, columns, rows, gap, len(alike.pages)) or ((0, alike),)
    return ((0, alike),)


def _every_try(
    shapes: Sequence[Shape], columns: int, rows: int, gap: int
) -> Iterator[_Arrangement]:
    for across in range(1, len(shapes) + 1):
        yield from _tries(shapes, across, columns, rows, gap)


def _page_by_page(
    shapes: Sequence[Shape], columns: int, rows: int, gap: int, most: int
) -> tuple[tuple[int, _Arrangement], ...] | None:
    """Each page with as many blocks across as suit it, and no question alone.

    On the fewest pages that will do, of ``most``, and as even in number as can be; None where
    some question must stand alone.
    """
    known: dict[flow.Run, _Arrangement | None] = {}

    def page_of(run: flow.Run) -> _Arrangement | None:
        if run not in known:
            tries = _every_try(shapes[slice(*run)], columns, rows, gap)
            one_page = (tried for tried in tries if len(tried.pages) == 1)
            known[run] = min(one_page, key=lambda tried: tried.preference, default=None)
        return known[run]

    # shares[end]: how to share the blocks before `end` among the pages so far.
    shares: dict[int, tuple[flow.Run, ...]] = {0: ()}
    for _ in range(most):
        longer: dict[int, tuple[flow.Run, ...]] = {}
        for first, before in shares.items():
            for end in range(first + 2, len(shapes) + 1):
                runs = (*before, (first, end))
                if page_of((first, end)) is None:
                    break
                if end not in longer or _squares(runs) < _squares(longer[end]):
                    longer[end] = runs
        shares = longer
        if len(shapes) in shares:
            found = ((run[0], page_of(run)) for run in shares[len(shapes)])
            return tuple((first, page) for first, page in found if page is not None)
    return None


def _squares(runs: Sequence[flow.Run]) -> int:
    return sum((end - first) ** 2 for first, end in runs)


def _tries(
    shapes: Sequence[Shape], across: int, columns: int, rows: int, gap: int
) -> Iterator[_Arrangement]:
    """The blocks so many across: in lines filled one after another, then shared out by pages."""
    filled = tuple(_lines(0, len(shapes), across))
    heights = _heights(shapes, filled)
    pages = flow.even(heights, len(flow.greedy(heights, rows, gap)), rows, gap)
    yield from _tried(shapes, across, filled, pages, columns, rows, gap)
    if len(pages) > 1:
        shared: list[flow.Run] = []
        runs: list[flow.Run] = []
        least, more = divmod(len(shapes), len(pages))
        for page in range(len(pages)):
            first = page * least + min(page, more)
            lines = tuple(_lines(first, first + least + (page < more), across))
            runs.append((len(shared), len(shared) + len(lines)))
            shared += lines
        yield from _tried(shapes, across, tuple(shared), tuple(runs), columns, rows, gap)


def _lines(first: int, end: int, across: int) -> Iterator[flow.Run]:
    """Blocks from one up to another in lines of so many."""
    return ((start, min(start + across, end)) for start in range(first, end, across))


def _heights(shapes: Sequence[Shape], lines: Sequence[flow.Run]) -> tuple[int, ...]:
    return tuple(max(shape.rows for shape in shapes[start:end]) for start, end in lines)


def _tried(
    shapes: Sequence[Shape],
    across: int,
    lines: tuple[flow.Run, ...],
    pages: tuple[flow.Run, ...],
    columns: int,
    rows: int,
    gap: int,
) -> Iterator[_Arrangement]:
    """The arrangement, where it fits its pages."""
    lefts, rights = _extents(shapes, across, lines, columns, gap)
    spare = columns - sum(lefts) - sum(rights)
    heights = _heights(shapes, lines)
    tallest = max(sum(heights[a:b]) + gap * (b - a - 1) for a, b in pages)
    if spare < (across - 1) * gap or tallest > rows:
        return
    tightest = min((rows - 2 - sum(heights[a:b])) // max(1, b - a - 1) for a, b in pages)
    yield _Arrangement(
        across,
        lefts,
        rights,
        lines,
        heights,
        pages,
        column_gap=max(gap, spare // (across + 1)),
        row_gap=max(gap, min(WIDEST_ROW_GAP, tightest)),
    )


def _extents(
    shapes: Sequence[Shape], across: int, lines: Sequence[flow.Run], columns: int, gap: int
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Columns before and after the point in each page column: all alike where they fit."""
    left, right = _extent(shapes)
    if across * (left + right + gap) - gap <= columns:
        return (left,) * across, (right,) * across
    extents = [
        _extent([shapes[start + at] for start, end in lines if start + at < end])
        for at in range(across)
    ]
    return tuple(left for left, _ in extents), tuple(right for _, right in extents)


def _extent(stack: Sequence[Shape]) -> tuple[int, int]:
    """Columns before and after the point for blocks under one another, words and all."""
    if not stack:
        return 0, 0
    set_out = [shape for shape in stack if shape.is_set_out]
    left = max((shape.left for shape in set_out), default=1)
    right = max((shape.right for shape in set_out), default=0)
    return left, max(right, max(shape.columns for shape in stack) - left)


def _placed_page(
    blocks: Sequence[Block], chosen: _Arrangement, run: flow.Run, columns: int, rows: int
) -> Iterator[Placed]:
    used = sum(chosen.lefts) + sum(chosen.rights) + chosen.column_gap * (chosen.across - 1)
    edge = (columns - used) // 2
    heights = chosen.heights[run[0] : run[1]]
    free = rows - sum(heights) - chosen.row_gap * (len(heights) - 1)
    row = min(1, free)
    for (first, end), height in zip(chosen.lines[run[0] : run[1]], heights, strict=True):
        column = edge
        for at, block in enumerate(blocks[first:end]):
            start = column + (chosen.lefts[at] - block.left if block.is_set_out else 0)
            label = column if block.lines else max(column, start - LABEL_REACH)
            yield Placed(block, row, label, start)
            column += chosen.lefts[at] + chosen.rights[at] + chosen.column_gap
        row += height + chosen.row_gap


# Drawing placed blocks on the page's grid.


def sheet_pages(section: WorkedSection) -> tuple[PagePlan, ...]:
    """The pages of one version of a starter or a tier, numbered on their own."""
    if not section.items:
        return ()
    paper, imprint = page_of(section.presentation), Imprint.of(section)
    sizes = sheet_type(section.presentation, section.name)
    grid, pages = _arranged(section, paper, sizes)
    if len(section.items) > 1 and _alone(pages):
        # A question alone on its page: see whether a tighter head holds it elsewhere.
        tight_grid, tight = _arranged(section, paper, sizes.tightened)
        if (len(tight), _alone(tight)) < (len(pages), _alone(pages)):
            sizes, grid, pages = sizes.tightened, tight_grid, tight
    left, right = grid.x, grid.x + grid.width
    labels = label_size([item.label for item in section.items], grid, sizes)
    return tuple(
        PagePlan(
            paper.width,
            paper.height,
            (
                *sizes.background(paper.width, paper.height),
                *([grid] if sizes.grid else []),
                *header(section, left, right, sizes, number).content,
                *(
                    Unit(
                        Role.QUESTION,
                        tuple(block_ink(placed, grid, sizes, labels)),
                        says=placed.block.says,
                    )
                    for placed in page
                ),
                foot(imprint, left, right, paper, number, len(pages), sizes),
            ),
        )
        for number, page in enumerate(pages, start=1)
    )


def _arranged(
    section: WorkedSection, paper: Paper, sizes: SheetType
) -> tuple[Grid, tuple[tuple[Placed, ...], ...]]:
    """A page's squares, and the section's blocks placed on as many pages as they need."""
    grid = _grid(section, paper, sizes)
    large = section.presentation.large.of(section.name)
    smaller = "squares" if large is None else f"type than 'large: {large}'"
    blocks = []
    for item in section.items:
        with placing(section.name, item.label, item.rung):
            block = block_of(item, grid, sizes)
            _must_fit(block, grid.columns, grid.rows, f"choose smaller {smaller} or larger paper")
        blocks.append(block)
    return grid, arrange(blocks, grid.columns, grid.rows, sizes.gap)


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


def _alone(pages: Sequence[Sequence[Placed]]) -> int:
    """How many pages hold a single question."""
    return sum(len(page) == 1 for page in pages)


def _grid(section: WorkedSection, paper: Paper, sizes: SheetType) -> Grid:
    """The squares of a page: as many as there is room for between head and foot."""
    across = squares_between(paper, 0.0, paper.height, sizes.square, sizes.edge)
    left, right = across.x, across.x + across.width
    top = header(section, left, right, sizes, 1).end
    bottom = paper.height - sizes.edge - foot_height(Imprint.of(section), left, right, sizes)
    grid = squares_between(paper, top, bottom, sizes.square, sizes.edge)
    return replace(grid, colour=sizes.grid) if sizes.grid else grid


def label_size(labels: Sequence[str], grid: Grid, sizes: SheetType) -> float:
    """The points of all a sheet's letters: the widest fits in a square."""
    widest = max(typeface.width(f"{label})", 1.0, bold=True) for label in labels)
    in_a_square = sizes.label * grid.square / MM_PER_POINT
    return min(in_a_square, sizes.words, 0.94 * grid.square / widest)


def block_ink(placed: Placed, grid: Grid, sizes: SheetType, labels: float) -> Iterator[Item]:
    """A placed question on its grid: its letter, its words and what is set out of it.

    ``labels`` are the points of its letter, where it has one.
    """
    block, side = placed.block, grid.square
    if block.lines:
        yield from _words_ink(placed, grid, sizes, labels)
    elif block.label:
        yield from _label_ink(placed, grid, labels)
    corner = Squares(
        grid.x + placed.column * side, grid.y + (placed.row + block.words_rows) * side, side
    )
    yield from _empty_boxes(block.boxes, corner, SMALL_BOX)
    yield from _empty_boxes(block.hidden, corner, LARGE_BOX)
    yield from working_ink(block.scaffold, corner)


def _empty_boxes(
    squares: Sequence[tuple[int, int]], corner: Squares, share: float
) -> Iterator[Box]:
    """Boxes to write in, each in the middle of its square."""
    half = share / 2 * corner.side
    for row, column in squares:
        x, y = corner.middle(row, column)
        yield Box(x - half, y - half, 2 * half, 2 * half, stroke=DARK, weight=FINE_LINE)


def _label_ink(placed: Placed, grid: Grid, size: float) -> Iterator[Item]:
    """The label in a square of its own."""
    side = grid.square
    yield Text(
        f"{placed.block.label})",
        grid.x + (placed.label_column + 0.5) * side,
        grid.y
        + (placed.row + placed.block.label_row + 0.5) * side
        + typeface.DIGIT_HEIGHT / 2 * size * MM_PER_POINT,
        size,
        bold=True,
        anchor="centre",
    )


def _words_ink(placed: Placed, grid: Grid, sizes: SheetType, label: float) -> Iterator[Item]:
    """The label and the words after it, on squares kept clear for them."""
    block, side = placed.block, grid.square
    x, y = grid.x + placed.label_column * side, grid.y + placed.row * side
    width, height = block.words_columns * side, block.words_rows * side
    edge = GRID_LINE / 2  # the squares' outermost lines stay whole
    yield Box(x + edge, y + edge, width - 2 * edge, height - 2 * edge, fill=sizes.tint or WHITE)
    top = y + (height - len(block.lines) * line_height(sizes.words)) / 2
    lines = paragraph(block.lines, x + (1 + AFTER_LABEL) * side, top, sizes.words)
    if block.label:
        letter = f"{block.label})"
        yield Text(letter, x + side / 2, lines[0].baseline, label, bold=True, anchor="centre")
    yield from lines
