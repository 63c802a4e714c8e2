"""What of a pupil's page goes into a table's squares: digits, letters, points, rules and words.

A table keeps its columns when somebody changes a digit. A decimal sign stands on the line between
two squares, so it goes with the digit at its left; rules and boxes along the squares are edges of
cells; words on a band without squares are in cells put together. What is left stands where it
stood, and knows the square that it belongs to.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import floor
from typing import Final, TypeAlias

from layouts.planning.plan import (
    Arc,
    Box,
    Colour,
    Grid,
    Item,
    Line,
    Role,
    Symbol,
    Text,
    Unit,
    as_units,
)
from layouts.planning.squared_page import SquaredPage

_OFF: Final = 0.04
"""How far a digit may stand from its square's middle, and a point from a line, in squares."""
_NEAR: Final = 0.15
"""How far a rule may be from the line of squares that it becomes: that of an estimate is above."""
_WIDEST: Final = 0.98
"""The widest text that stays in its square, in squares."""

Place: TypeAlias = tuple[int, int]
"""A square: its row and its column."""

TOP: Final = "top"
LEFT: Final = "left"
BOTTOM: Final = "bottom"
RIGHT: Final = "right"
_OPPOSITE: Final = {TOP: (BOTTOM, -1, 0), LEFT: (RIGHT, 0, -1), BOTTOM: (TOP, 1, 0)}
_OPPOSITE[RIGHT] = (LEFT, 0, 1)


@dataclass(frozen=True, slots=True)
class Stroke:
    """How an edge is drawn: millimetres thick, in a colour."""

    weight: float
    colour: Colour


@dataclass(slots=True)
class Cell:
    """What one square has: a digit or a letter, a point on the line at its right, dark edges.

    ``loose`` are items that stand where they stood, over the square or near it.
    """

    text: Text | None = None
    point: Text | None = None
    edges: dict[str, Stroke] = field(default_factory=dict)
    loose: list[Item] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Words:
    """Squares put together, without lines between them, with lines of words or none.

    ``first`` and ``last`` say whether the squares before and after it are no such ones.
    """

    row: int
    column: int
    rows: int
    columns: int
    lines: tuple[Text, ...]
    first: bool
    last: bool

    def holds(self, place: Place) -> bool:
        """Whether a square is one of them."""
        row, column = place
        return (
            self.row <= row < self.row + self.rows
            and self.column <= column < self.column + self.columns
        )


@dataclass(frozen=True, slots=True)
class SquaredTable:
    """A page's squares as a table: what stands in them, and what is said of them.

    ``is_ruled`` is false where the squares have no lines.
    """

    grid: Grid
    is_ruled: bool
    cells: dict[Place, Cell]
    words: tuple[Words, ...]
    says: str

    def rule_over(self, row: int) -> float:
        """How thick the heaviest rule over a row is: all that stands in the row begins below it."""
        edges = (self.cells[place].edges for place in self.cells if place[0] == row)
        return max((edge[TOP].weight for edge in edges if TOP in edge), default=0.0)


@dataclass(frozen=True, slots=True)
class Around:
    """What stands above the squares and below them, each with its unit, and the tint behind all."""

    above: tuple[tuple[Item, Unit], ...]
    below: tuple[tuple[Item, Unit], ...]
    behind: tuple[Box, ...]


def in_cells(page: SquaredPage) -> tuple[SquaredTable, Around]:
    """A page's squares with what is in them, and what is around them. Nothing is left out."""
    grid, filling = page.grid, _Filling(page.grid)
    above: list[tuple[Item, Unit]] = []
    below: list[tuple[Item, Unit]] = []
    behind: list[Box] = []
    within: list[Item] = []
    says: list[str] = []
    for unit in as_units(page.plan.content):
        if unit.role is Role.QUESTION:
            says.append(unit.says)
            within.extend(unit.items)
            continue
        for item in unit.items:
            if isinstance(item, Grid):
                continue
            if isinstance(item, Box) and item.fill is not None and item.height > grid.height:
                behind.append(item)
            else:
                (above if _top(item) < grid.y else below).append((item, unit))
    filling.fill(within)
    is_ruled = any(isinstance(item, Grid) for item in page.plan.items)
    table = SquaredTable(grid, is_ruled, filling.cells, tuple(filling.words), "; ".join(says))
    return table, Around(tuple(above), tuple(below), tuple(behind))


class _Filling:
    """Squares being filled with what questions have drawn on them."""

    def __init__(self, grid: Grid) -> None:
        self.grid = grid
        self.cells: dict[Place, Cell] = {}
        self.words: list[Words] = []

    def fill(self, items: Sequence[Item]) -> None:
        """Bands first, since what stands on them belongs to no square."""
        rest: list[Item] = []
        bands: list[Item] = []
        for item in items:
            is_band = isinstance(item, Box) and item.fill is not None and item.stroke is None
            (bands if is_band else rest).append(item)
        for band in bands:
            assert isinstance(band, Box)
            rest = self._band(band, rest)
        for item in rest:
            if not self._taken(item):
                self._cell(self._near(item)).loose.append(item)

    def _cell(self, place: Place) -> Cell:
        return self.cells.setdefault(place, Cell())

    def _across(self, x: float) -> float:
        return (x - self.grid.x) / self.grid.square

    def _down(self, y: float) -> float:
        return (y - self.grid.y) / self.grid.square

    def _band(self, band: Box, items: Sequence[Item]) -> list[Item]:
        """A band without squares and the texts on it; gives the items that are not on it."""
        column, row = round(self._across(band.x)), round(self._down(band.y))
        end = round(self._across(band.x + band.width))
        rows = round(self._down(band.y + band.height)) - row
        on_it: list[Text] = []
        rest: list[Item] = []
        for item in items:
            is_on_it = (
                isinstance(item, Text)
                and band.x <= item.left < band.x + band.width
                and band.y < item.middle < band.y + band.height
            )
            if is_on_it and isinstance(item, Text):
                on_it.append(item)
            else:
                rest.append(item)
        parts: dict[int, list[Text]] = {}
        for text in on_it:
            parts.setdefault(floor(self._across(text.left) + _OFF), []).append(text)
        starts = [*parts] + [at + 1 for at, texts in parts.items() if texts[0].anchor == "centre"]
        starts = sorted({column, end, *(at for at in starts if column <= at < end)})
        for start, stop in pairwise(starts):
            lines = tuple(parts.get(start, ()))
            self.words.append(
                Words(row, start, rows, stop - start, lines, start == column, stop == end)
            )
        return rest

    def _taken(self, item: Item) -> bool:
        """Put an item where the table has a place for it, if it has one."""
        match item:
            case Text():
                return self._text(item)
            case Line():
                return self._line(item)
            case Box():
                return self._box(item)
            case Grid() | Symbol() | Arc():
                return False

    def _text(self, text: Text) -> bool:
        """A digit in its square, or a decimal sign on the line at the right of one."""
        across, down = self._across(text.x), self._down(text.middle)
        row, column = floor(down), floor(across)
        if text.anchor != "centre" or abs(down - row - 0.5) > _OFF:
            return False
        on_a_line = abs(across - round(across)) < _OFF
        if text.text in (".", ",") and on_a_line:
            place = row, round(across) - 1
            if not self._is_free(place) or self._cell(place).point is not None:
                return False
            self._cell(place).point = text
            return True
        fits = text.width <= _WIDEST * self.grid.square and abs(across - column - 0.5) < _OFF
        if not fits or not self._is_free((row, column)) or self._cell((row, column)).text:
            return False
        self._cell((row, column)).text = text
        return True

    def _is_free(self, place: Place) -> bool:
        """Whether that is a square of the page, and none of a band."""
        row, column = place
        on_page = 0 <= row < self.grid.rows and 0 <= column < self.grid.columns
        return on_page and not any(words.holds(place) for words in self.words)

    def _line(self, line: Line) -> bool:
        """A rule along squares, as the edges of those over it or at its left."""
        x1, x2 = sorted((self._across(line.x1), self._across(line.x2)))
        y1, y2 = sorted((self._down(line.y1), self._down(line.y2)))
        stroke = Stroke(line.weight, line.colour)
        if y1 == y2 and _whole(_OFF, x1, x2) and _whole(_NEAR, y1):
            for column in range(round(x1), round(x2)):
                self._edge((round(y1) - 1, column), BOTTOM, stroke)
            return True
        if x1 == x2 and _whole(_OFF, y1, y2) and _whole(_NEAR, x1):
            for row in range(round(y1), round(y2)):
                self._edge((row, round(x1) - 1), RIGHT, stroke)
            return True
        return False

    def _box(self, box: Box) -> bool:
        """A box of whole squares, as the edges of those within."""
        left, right = self._across(box.x), self._across(box.x + box.width)
        top, bottom = self._down(box.y), self._down(box.y + box.height)
        if box.stroke is None or box.fill is not None or not _whole(_OFF, left, right, top, bottom):
            return False
        rows = range(round(top), round(bottom))
        columns = range(round(left), round(right))
        stroke = Stroke(box.weight, box.stroke)
        for row in rows:
            self._edge((row, columns[0]), LEFT, stroke)
            self._edge((row, columns[-1]), RIGHT, stroke)
        for column in columns:
            self._edge((rows[0], column), TOP, stroke)
            self._edge((rows[-1], column), BOTTOM, stroke)
        return True

    def _edge(self, place: Place, edge: str, stroke: Stroke) -> None:
        """An edge that two squares share, said of both, as programs differ in whose they draw.

        Of two strokes on one edge, the heavier one stays.
        """
        other, down, right = _OPPOSITE[edge]
        row, column = place
        for at, side in ((place, edge), ((row + down, column + right), other)):
            if 0 <= at[0] < self.grid.rows and 0 <= at[1] < self.grid.columns:
                edges = self._cell(at).edges
                if side not in edges or edges[side].weight < stroke.weight:
                    edges[side] = stroke

    def _near(self, item: Item) -> Place:
        """The square that an item belongs to: the one under its middle, or the next free one."""
        x, y = _middle(item)
        column = min(max(floor(self._across(x)), 0), self.grid.columns - 1)
        row = min(max(floor(self._down(y)), 0), self.grid.rows - 1)
        below = (at for at in range(row, self.grid.rows) if self._is_free((at, column)))
        above = (at for at in range(row, -1, -1) if self._is_free((at, column)))
        return next(below, next(above, 0)), column


def _whole(off: float, *numbers: float) -> bool:
    return all(abs(number - round(number)) <= off for number in numbers)


def _top(item: Item) -> float:
    match item:
        case Text():
            return item.middle
        case Line():
            return min(item.y1, item.y2)
        case _:
            return item.y


def _middle(item: Item) -> tuple[float, float]:
    match item:
        case Text():
            return item.left + item.width / 2, item.middle
        case Line():
            return (item.x1 + item.x2) / 2, (item.y1 + item.y2) / 2
        case Arc():
            return (item.x1 + item.x2) / 2, item.y - item.height / 2
        case Symbol():
            return item.x + item.side / 2, item.y + item.side / 2
        case Box() | Grid():
            return item.x + item.width / 2, item.y + item.height / 2


@dataclass(frozen=True, slots=True)
class Row:
    """Texts and lines to write on that share a baseline, from left to right.

    With each is the language of its words, "" where it is the page's.
    """

    baseline: float
    entries: tuple[tuple[Text | Line, str], ...]
    role: Role

    @property
    def size(self) -> float:
        """The points of its largest type."""
        return max((item.size for item, _ in self.entries if isinstance(item, Text)), default=0.0)


def in_rows(items: Sequence[tuple[Item, Unit]]) -> Iterator[Row]:
    """What stands around the squares, row by row from the top."""
    rows: dict[float, list[tuple[Text | Line, Unit]]] = {}
    for item, unit in items:
        if isinstance(item, Text | Line):
            at = item.baseline if isinstance(item, Text) else item.y1
            rows.setdefault(round(at, 3), []).append((item, unit))
    for baseline, entries in sorted(rows.items()):
        entries.sort(key=_begins)
        said = tuple((item, unit.language) for item, unit in entries)
        yield Row(baseline, said, entries[0][1].role)


def _begins(entry: tuple[Text | Line, Unit]) -> float:
    item, _ = entry
    return item.left if isinstance(item, Text) else min(item.x1, item.x2)
