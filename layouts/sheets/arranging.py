"""Blocks of squares placed on pages, in whole squares and in the order of reading.

A section has one grid of page columns, all equally wide and the same on each of its pages, so
that every letter stands on one of a few edges. A line of questions fills page columns from the
left; a question that is wider takes several of them. Points of those set out stand equally far
from their letters. What is free of a page stands below its lines, shared evenly.

Which arrangement is best is a small optimisation. Everything is counted in whole squares, and
an arrangement costs the sum of these, in the order of their weight:

===============  =======================================================================
``PAGE``         each page: paper comes first
``ALONE``        each page with one question of several: it looks forgotten
``NO_EDGE``      letters on the outermost squares: room on the left lets a page breathe, and
                 is the same on every sheet of a pack
``THIN``         one question below the other, three or more: half the page stays bare
``LONELY``       each line with one question and free page columns beside it
``INNER``        each line with free page columns that is not the section's last
``HOLE``         the free share of each line's page columns
``UNEVEN``       the square of how many questions each page has: least where all have as many
``TIGHT``        each square that the least gap of a page lacks of ``AMPLE``
``SKEW``         each square between a page's gaps across and down: room on all sides alike
===============  =======================================================================

Each weight is more than those below it will make up for on a usual sheet; that of a page is more
than all of them together. For every number of page columns the best division into lines and
pages is found by dynamic programming, since the order is given: the lines of a page by how many
questions, lines and squares they hold, then the pages one after another. No arrangement of that
kind costs less than the one found (``tests/layouts/test_arrange.py`` tries them all).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, TypeAlias

from layouts.planning import flow
from layouts.planning.errors import DoesNotFitError
from layouts.sheets.blocks import Block, Placed, Shape
from specs.languages.saying import Saying, say

PAGE: Final = 10**9
ALONE: Final = 10**7
NO_EDGE: Final = 10**5
THIN: Final = 3000
LONELY: Final = 1200
INNER: Final = 300
HOLE: Final = 600
UNEVEN: Final = 100
TIGHT: Final = 300
SKEW: Final = 40
AMPLE: Final = 3
"""A gap of so many squares is ample."""

Choices: TypeAlias = tuple[Shape, ...]
"""The shapes that a question may take: its words in short lines, or in longer ones."""

SMALLER_SQUARES: Final = say("choose smaller squares or larger paper")
"""What to do where a frame is too large."""


@dataclass(frozen=True, slots=True)
class Room:
    """The squares of a page, and the fewest columns and rows that stay free between blocks."""

    columns: int
    rows: int
    gap: int = 1


@dataclass(frozen=True, slots=True)
class Tracks:
    """The page columns of a section, and what its questions take of them.

    ``edge`` squares are free on the left, a page column begins each ``pitch`` squares after the
    one before it. Points stand ``left`` squares after the letter. Of each question ``taken`` says
    which of its shapes it has and ``spans`` how many page columns that takes.
    """

    across: int
    edge: int
    pitch: int
    left: int
    taken: tuple[int, ...]
    shapes: tuple[Shape, ...]
    spans: tuple[int, ...]
    gap: int
    """The least of what stays free at the right of a question."""

    def start(self, at: int, room: Room) -> int:
        """Where a question's squares begin, counted from its letter."""
        return _start(self.shapes[at], self.left, room.columns - self.edge)

    def height(self, line: flow.Run) -> int:
        """Rows of a line of questions: their letters stand in one row, and so do their words."""
        return _up(self.shapes[slice(*line)]) + _down(self.shapes[slice(*line)])

    def free(self, line: flow.Run) -> int:
        """Page columns that a line leaves free; less than 0 where it is too long."""
        return self.across - sum(self.spans[slice(*line)])

    def line_cost(self, line: flow.Run) -> int:
        """What a line of questions costs."""
        free = self.free(line)
        lonely = line[1] - line[0] == 1 and free and len(self.shapes) > 1
        inner = free and line[1] < len(self.shapes)
        return HOLE * free // self.across + (LONELY if lonely else 0) + (INNER if inner else 0)

    def page_cost(self, questions: int, lines: int, rows: int, room: Room) -> int:
        """What a page costs beyond its lines, which are so many and so many rows high."""
        down = _between(lines, room.rows - rows, room.gap)
        alone = questions == 1 < len(self.shapes)
        return (
            PAGE
            + (ALONE if alone else 0)
            + UNEVEN * questions**2
            + TIGHT * max(0, AMPLE - min(self.gap, down))
            + SKEW * abs(self.gap - down)
        )

    @property
    def cost(self) -> int:
        """What the page columns cost, whatever is in them."""
        thin = self.across == 1 and len(self.shapes) > 2
        return (0 if self.edge else NO_EDGE) + (THIN if thin else 0)


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Page columns, and the lines of each page as runs of questions."""

    tracks: Tracks
    pages: tuple[tuple[flow.Run, ...], ...]

    def cost(self, room: Room) -> int:
        """The sum of what the module's docstring names."""
        total = self.tracks.cost
        for lines in self.pages:
            rows = sum(map(self.tracks.height, lines))
            questions = lines[-1][1] - lines[0][0]
            total += sum(map(self.tracks.line_cost, lines))
            total += self.tracks.page_cost(questions, len(lines), rows, room)
        return total


def arrange(
    questions: Sequence[Block | Sequence[Block]], room: Room
) -> tuple[tuple[Placed, ...], ...]:
    """Place questions on pages of such room, in reading order; one tuple a page.

    A question is a block, or several that are the same in lines of several lengths, of which
    the one that suits is taken. Points of blocks in the same page column are in line, at least
    the room's gap of columns and rows stays free between blocks, and no block is split. Raises
    DoesNotFitError where a block is too large for the page.
    """
    choices = tuple((one,) if isinstance(one, Block) else tuple(one) for one in questions)
    for blocks in choices:
        refuse_too_large(blocks, room, SMALLER_SQUARES)
    chosen = best_arrangement(tuple(tuple(b.shape for b in blocks) for blocks in choices), room)
    taken = [blocks[at] for blocks, at in zip(choices, chosen.tracks.taken, strict=True)]
    return tuple(tuple(_placed_page(taken, chosen.tracks, page, room)) for page in chosen.pages)


def refuse_too_large(blocks: Sequence[Block], room: Room, instead: Saying) -> None:
    """Raise DoesNotFitError, saying what to do instead, where no block fits on the page."""
    if not any(block.columns <= room.columns and block.rows <= room.rows for block in blocks):
        block = blocks[-1]
        raise DoesNotFitError(
            say(
                "it needs {across} squares across and {down} down, and the page has "
                "{columns} by {rows}; {instead}",
                across=block.columns,
                down=block.rows,
                columns=room.columns,
                rows=room.rows,
                instead=instead,
            )
        )


@lru_cache(maxsize=256)  # versions of a sheet are often alike in shape
def best_arrangement(choices: tuple[Choices, ...], room: Room) -> Arrangement:
    """The arrangement that costs least; of equals, the one with fewer page columns."""
    all_tracks = tuple(every_tracks(choices, room))
    best = min((_filled(tracks, room) for tracks in all_tracks), key=lambda a: a.cost(room))
    for tracks in all_tracks:
        pages = _best_pages(tracks, room, best.cost(room) - tracks.cost)
        if pages:
            best = Arrangement(tracks, pages)
    return best


def _filled(tracks: Tracks, room: Room) -> Arrangement:
    """Each line filled before the next begins: often the best, and a bound on it."""
    lines: list[flow.Run] = []
    first = 0
    for end in range(1, len(tracks.shapes) + 1):
        if end == len(tracks.shapes) or tracks.free((first, end + 1)) < 0:
            lines.append((first, end))
            first = end
    heights = [tracks.height(line) for line in lines]
    runs = flow.greedy(heights, room.rows, room.gap)
    runs = flow.even(heights, len(runs), room.rows, room.gap)
    return Arrangement(tracks, tuple(tuple(lines[slice(*run)]) for run in runs))


def every_tracks(choices: Sequence[Choices], room: Room) -> Iterator[Tracks]:
    """All page columns to choose among: as many as there are questions that fill only one."""
    for edge in (1, 0):
        for across in range(1, len(choices) + 1):
            tracks = _tracks(choices, room, across, edge)
            if tracks and (across == 1 or min(tracks.spans) == 1):
                yield tracks


def _tracks(choices: Sequence[Choices], room: Room, across: int, edge: int) -> Tracks | None:
    """So many page columns; None where one of the questions is too wide or too high for them."""
    whole = room.columns - edge
    pitch = (whole + room.gap) // across
    left = max((s.left for shapes in choices for s in shapes if s.is_set_out), default=0)
    taken, spans, gaps = [], [], []
    for shapes in choices:
        fits = []
        for at, shape in enumerate(shapes):
            need = _start(shape, left, whole) + shape.scaffold_columns
            need = max(need, shape.columns)
            span = max(1, -(-(need + room.gap) // pitch)) if pitch else across + 1
            if span > across and need <= whole:
                span = across
            if span <= across and shape.rows <= room.rows:
                fits.append((span, shape.rows, at, span * pitch - need))
        if not fits:
            return None
        span, _, at, gap = min(fits)
        taken.append(at)
        spans.append(span)
        gaps.append(gap)
    chosen = tuple(shapes[at] for shapes, at in zip(choices, taken, strict=True))
    gap = max(room.gap, min(gaps))
    return Tracks(across, edge, pitch, left, tuple(taken), chosen, tuple(spans), gap)


def _start(shape: Shape, left: int, whole: int) -> int:
    """Where a shape's squares begin after its letter: in line with others, where there is room."""
    if not shape.is_set_out:
        return 0
    return max(0, min(left - shape.left, whole - shape.scaffold_columns))


def _up(line: Sequence[Shape]) -> int:
    """Rows over the letters of a line."""
    return max(shape.letter_row for shape in line)


def _down(line: Sequence[Shape]) -> int:
    """Rows of a line from its letters on."""
    words = max(shape.words_rows for shape in line)
    return max(
        shape.rows - shape.words_rows + words if shape.words_rows else shape.rows - shape.letter_row
        for shape in line
    )


def _between(lines: int, free: int, gap: int) -> int:
    """Rows between lines that share so many free ones: as many stay below the last."""
    return max(gap, (free - 1) // lines)


# The lines of a page so far: how many, and how many rows they take.
_Filled: TypeAlias = tuple[int, int]


@dataclass(slots=True)
class _Way:
    """The cheapest way to something: what it costs, and its lines."""

    cost: int
    lines: tuple[flow.Run, ...]


def _best_pages(tracks: Tracks, room: Room, limit: int) -> tuple[tuple[flow.Run, ...], ...] | None:
    """The cheapest lines and pages in these page columns; None where none cost less than that."""
    count = len(tracks.shapes)
    lines = [_lines_from(tracks, first) for first in range(count)]
    left = _fewest_after(lines, room)
    fewest = left[0]
    # What lines may cost at most: pages cost no less than this.
    slack = limit - PAGE * fewest - UNEVEN * (count**2 // fewest)
    slack -= fewest * TIGHT * max(0, AMPLE - tracks.gap)
    if slack <= 0:
        return None
    # ways[i]: the cheapest way to the questions before i, on the pages so far.
    ways: dict[int, tuple[int, tuple[tuple[flow.Run, ...], ...]]] = {0: (0, ())}
    known: dict[int, dict[int, _Way]] = {}
    for page in range(1, fewest + 1):
        longer: dict[int, tuple[int, tuple[tuple[flow.Run, ...], ...]]] = {}
        for first, (cost, before) in sorted(ways.items()):
            if first not in known:
                known[first] = _one_page(tracks, room, lines, first, slack)
            for end, way in known[first].items():
                if left[end] > fewest - page or (end == count) != (page == fewest):
                    continue
                total = cost + way.cost
                if end not in longer or total < longer[end][0]:
                    longer[end] = total, (*before, way.lines)
        ways = longer
    found = ways.get(count)
    return found[1] if found and found[0] < limit else None


def _lines_from(tracks: Tracks, first: int) -> list[tuple[int, int, int]]:
    """The lines that may begin with a question, longest first: up to where, rows and cost."""
    found, end = [], first + 1
    while end <= len(tracks.shapes) and tracks.free((first, end)) >= 0:
        found.append((end, tracks.height((first, end)), tracks.line_cost((first, end))))
        end += 1
    return found[::-1]


def _fewest_after(lines: Sequence[Sequence[tuple[int, int, int]]], room: Room) -> list[int]:
    """On how many pages the questions from each on go, at the fewest.

    Filled from the end: of equally many pages, the least rows on the first of them are best.
    """
    best = [(0, room.rows + room.gap)] * (len(lines) + 1)
    for first in reversed(range(len(lines))):
        found = []
        for end, height, _ in lines[first]:
            pages, used = best[end]
            if used + room.gap + height <= room.rows:
                found.append((pages, used + room.gap + height))
            else:
                found.append((pages + 1, height))
        best[first] = min(found)
    return [pages for pages, _ in best]


def _one_page(
    tracks: Tracks,
    room: Room,
    lines: Sequence[Sequence[tuple[int, int, int]]],
    first: int,
    slack: int,
) -> dict[int, _Way]:
    """The cheapest page from a question on, up to each that it can end before.

    Lines that cost so much together are passed over.
    """
    reached: dict[int, dict[_Filled, _Way]] = {first: {(0, 0): _Way(0, ())}}
    found: dict[int, _Way] = {}
    for at in range(first, len(lines)):
        for (many, rows), way in reached.pop(at, {}).items():
            for end, height, cost in lines[at]:
                filled = many + 1, rows + height
                total = way.cost + cost
                if total >= slack or filled[1] + room.gap * many > room.rows:
                    continue
                there = reached.setdefault(end, {})
                if filled not in there or total <= there[filled].cost:
                    there[filled] = _Way(total, (*way.lines, (at, end)))
        for (many, rows), way in reached.get(at + 1, {}).items():
            total = way.cost + tracks.page_cost(at + 1 - first, many, rows, room)
            if at + 1 not in found or total < found[at + 1].cost:
                found[at + 1] = _Way(total, way.lines)
    return found


def _placed_page(
    blocks: Sequence[Block], tracks: Tracks, lines: Sequence[flow.Run], room: Room
) -> Iterator[Placed]:
    heights = [tracks.height(line) for line in lines]
    first = tracks.shapes[slice(*lines[0])]
    words_first = all(shape.words_rows and not shape.in_squares for shape in first)
    row, gaps = _spread(len(lines), room.rows - sum(heights), room.gap, int(not words_first))
    for line, height, gap in zip(lines, heights, gaps, strict=True):
        yield from _placed_line(blocks, tracks, line, row, room)
        row += height + gap


def _spread(lines: int, free: int, gap: int, top: int) -> tuple[int, list[int]]:
    """The row of the first line, and the free rows after each: even, the earlier ones larger.

    The last line has as many below it, where there are enough.
    """
    if free - top < lines * gap:
        top = 0
    shares = lines if free - top >= lines * gap else lines - 1
    if not shares:
        return top, [0]
    each, more = divmod(free - top, shares)
    gaps = [each + (at < more) for at in range(shares)]
    return top, gaps + [0] * (lines - shares)


def _placed_line(
    blocks: Sequence[Block], tracks: Tracks, line: flow.Run, row: int, room: Room
) -> Iterator[Placed]:
    """A line of questions from a row on. Words side by side share one band without squares."""
    shapes = tracks.shapes[slice(*line)]
    letters = row + _up(shapes)
    words = max(shape.words_rows for shape in shapes)
    bands = _bands(tracks, line, room)
    taken = 0
    for at in range(*line):
        block, label = blocks[at], tracks.edge + taken * tracks.pitch
        taken += tracks.spans[at]
        start = label + tracks.start(at, room)
        if block.lines:
            band = bands.get(at, (label, label))  # that of the words before it
            yield Placed(block, letters, label, start, band, words)
        else:
            yield Placed(block, letters - block.letter_row, label, start)


def _bands(tracks: Tracks, line: flow.Run, room: Room) -> dict[int, tuple[int, int]]:
    """From where up to where squares are left out, by the first of the questions in words there.

    A band reaches as far as the next question that is set out, or the edge of the page.
    """
    bands: dict[int, tuple[int, int]] = {}
    in_words = [shape.words_rows > 0 and not shape.in_squares for shape in tracks.shapes]
    all_words = all(in_words[slice(*line)])
    taken, first = 0, -1
    for at in range(*line):
        label = tracks.edge + taken * tracks.pitch
        taken += tracks.spans[at]
        if not in_words[at]:
            first = -1
            continue
        at_edge = at == line[1] - 1 and (all_words or taken == tracks.across)
        end = room.columns if at_edge else tracks.edge + taken * tracks.pitch
        if first < 0:
            first = at
            bands[first] = (0 if at == line[0] else label, end)
        else:
            bands[first] = (bands[first][0], end)
    return bands
