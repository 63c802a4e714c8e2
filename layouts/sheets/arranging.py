"""Blocks of squares placed on pages, in whole squares and in the order of reading."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from layouts.planning import flow
from layouts.planning.errors import DoesNotFitError
from layouts.sheets.blocks import Block, Placed, Shape

AMPLE: Final = 3
"""A gap of so many squares is ample: a wider one is no reason for fewer blocks across."""
LABEL_REACH: Final = 2
"""A label stands no more squares than this to the left of its own question."""
WIDEST_ROW_GAP: Final = 6
"""Rows of blocks stand no further apart; room beyond that stays free at the foot."""


@dataclass(frozen=True, slots=True)
class Room:
    """The squares of a page, and the fewest columns and rows that stay free between blocks."""

    columns: int
    rows: int
    gap: int = 1


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


def arrange(blocks: Sequence[Block], room: Room) -> tuple[tuple[Placed, ...], ...]:
    """Place blocks on pages of such room, in reading order; one tuple a page.

    Points of blocks in the same page column are in line, at least the room's gap of columns
    and rows stays free between blocks, and no block is split. Raises DoesNotFitError where a block
    is too large for the page.
    """
    for block in blocks:
        refuse_too_large(block, room, "choose smaller squares or larger paper")
    shapes = tuple(block.shape for block in blocks)
    return tuple(
        tuple(_placed_page(blocks[first:], arrangement, run, room))
        for first, arrangement in _arranged_best(shapes, room)
        for run in arrangement.pages
    )


def refuse_too_large(block: Block, room: Room, instead: str) -> None:
    """Raise DoesNotFitError, saying what to do instead, for a block larger than its page."""
    if block.columns > room.columns or block.rows > room.rows:
        raise DoesNotFitError(
            f"its frame needs {block.columns} squares across and {block.rows} down, "
            f"and the page has {room.columns} by {room.rows}; {instead}"
        )


@lru_cache(maxsize=256)  # versions of a sheet are often alike in shape
def _arranged_best(shapes: tuple[Shape, ...], room: Room) -> tuple[tuple[int, _Arrangement], ...]:
    """Arrangements, each with the block that it begins with: one for all pages, where that
    leaves no question alone on its page.
    """
    alike = min(_every_try(shapes, room), key=lambda tried: tried.preference)
    if len(shapes) > 1 and min(alike.sizes) == 1:
        return _page_by_page(shapes, room, len(alike.pages)) or ((0, alike),)
    return ((0, alike),)


def _every_try(shapes: Sequence[Shape], room: Room) -> Iterator[_Arrangement]:
    for across in range(1, len(shapes) + 1):
        yield from _tries(shapes, room, across)


def _page_by_page(
    shapes: Sequence[Shape], room: Room, most: int
) -> tuple[tuple[int, _Arrangement], ...] | None:
    """Each page with as many blocks across as suit it, and no question alone.

    On the fewest pages that will do, of ``most``, and as even in number as can be; None where
    some question must stand alone.
    """
    known: dict[flow.Run, _Arrangement | None] = {}

    def page_of(run: flow.Run) -> _Arrangement | None:
        if run not in known:
            tries = _every_try(shapes[slice(*run)], room)
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


def _tries(shapes: Sequence[Shape], room: Room, across: int) -> Iterator[_Arrangement]:
    """The blocks so many across: in lines filled one after another, then shared out by pages."""
    filled = tuple(_lines(0, len(shapes), across))
    heights = _heights(shapes, filled)
    pages = flow.even(heights, len(flow.greedy(heights, room.rows, room.gap)), room.rows, room.gap)
    yield from _tried(shapes, room, across, filled, pages)
    if len(pages) > 1:
        shared: list[flow.Run] = []
        runs: list[flow.Run] = []
        least, more = divmod(len(shapes), len(pages))
        for page in range(len(pages)):
            first = page * least + min(page, more)
            lines = tuple(_lines(first, first + least + (page < more), across))
            runs.append((len(shared), len(shared) + len(lines)))
            shared += lines
        yield from _tried(shapes, room, across, tuple(shared), tuple(runs))


def _lines(first: int, end: int, across: int) -> Iterator[flow.Run]:
    """Blocks from one up to another in lines of so many."""
    return ((start, min(start + across, end)) for start in range(first, end, across))


def _heights(shapes: Sequence[Shape], lines: Sequence[flow.Run]) -> tuple[int, ...]:
    return tuple(max(shape.rows for shape in shapes[start:end]) for start, end in lines)


def _tried(
    shapes: Sequence[Shape],
    room: Room,
    across: int,
    lines: tuple[flow.Run, ...],
    pages: tuple[flow.Run, ...],
) -> Iterator[_Arrangement]:
    """The arrangement, where it fits its pages."""
    lefts, rights = _extents(shapes, room, across, lines)
    spare = room.columns - sum(lefts) - sum(rights)
    heights = _heights(shapes, lines)
    tallest = max(sum(heights[a:b]) + room.gap * (b - a - 1) for a, b in pages)
    if spare < (across - 1) * room.gap or tallest > room.rows:
        return
    tightest = min((room.rows - 2 - sum(heights[a:b])) // max(1, b - a - 1) for a, b in pages)
    yield _Arrangement(
        across,
        lefts,
        rights,
        lines,
        heights,
        pages,
        column_gap=max(room.gap, spare // (across + 1)),
        row_gap=max(room.gap, min(WIDEST_ROW_GAP, tightest)),
    )


def _extents(
    shapes: Sequence[Shape], room: Room, across: int, lines: Sequence[flow.Run]
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Columns before and after the point in each page column: all alike where they fit."""
    left, right = _extent(shapes)
    if across * (left + right + room.gap) - room.gap <= room.columns:
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
    blocks: Sequence[Block], chosen: _Arrangement, run: flow.Run, room: Room
) -> Iterator[Placed]:
    used = sum(chosen.lefts) + sum(chosen.rights) + chosen.column_gap * (chosen.across - 1)
    edge = (room.columns - used) // 2
    heights = chosen.heights[run[0] : run[1]]
    free = room.rows - sum(heights) - chosen.row_gap * (len(heights) - 1)
    row = min(1, free)
    for (first, end), height in zip(chosen.lines[run[0] : run[1]], heights, strict=True):
        column = edge
        for at, block in enumerate(blocks[first:end]):
            start = column + (chosen.lefts[at] - block.left if block.is_set_out else 0)
            label = column if block.lines else max(column, start - LABEL_REACH)
            yield Placed(block, row, label, start)
            column += chosen.lefts[at] + chosen.rights[at] + chosen.column_gap
        row += height + chosen.row_gap
