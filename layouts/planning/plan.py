"""A page plan as values: what stands where, before any ink.

Lengths are millimetres from the page's top left corner, y downwards; type is in points.
Items are drawn in order, later ones over earlier ones.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import groupby
from typing import Literal, TypeAlias

from layouts.planning import typeface
from layouts.planning.type_scale import BLACK, GRID, GRID_LINE, LEADING, MM_PER_POINT

Colour: TypeAlias = tuple[float, float, float]
"""Red, green and blue, each from 0 to 1."""


@dataclass(frozen=True, slots=True)
class Text:
    """A run of characters on a baseline.

    ``x`` is the run's left end, middle or right end, as ``anchor`` says.
    """

    text: str
    x: float
    baseline: float
    size: float
    bold: bool = False
    colour: Colour = BLACK
    anchor: Literal["left", "centre", "right"] = "left"

    @property
    def width(self) -> float:
        """Advance width in millimetres."""
        return typeface.width(self.text, self.size, bold=self.bold)

    @property
    def left(self) -> float:
        """Where the run begins."""
        if self.anchor == "left":
            return self.x
        return self.x - (0.5 if self.anchor == "centre" else 1.0) * self.width

    @property
    def middle(self) -> float:
        """The y half-way up its digits."""
        return self.baseline - typeface.DIGIT_HEIGHT / 2 * self.size * MM_PER_POINT


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke, ``weight`` millimetres thick."""

    x1: float
    y1: float
    x2: float
    y2: float
    weight: float
    colour: Colour = BLACK


@dataclass(frozen=True, slots=True)
class Arc:
    """A smooth stroke over two points of one height, which rises ``height`` millimetres above it.

    It is a cubic Bézier curve that begins and ends upright.
    """

    x1: float
    x2: float
    y: float
    height: float
    weight: float
    colour: Colour = BLACK

    @property
    def over(self) -> float:
        """The y of both control points: the curve rises to three quarters of them."""
        return self.y - self.height * 4 / 3

    def points(self, count: int) -> Iterator[tuple[float, float]]:
        """So many points along it and its end, where no curve can be drawn."""
        for at in range(count + 1):
            t = at / count
            across = t * t * (3 - 2 * t)
            yield self.x1 + across * (self.x2 - self.x1), self.y - 4 * self.height * t * (1 - t)


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle, filled, outlined or both; ``radius`` rounds its corners."""

    x: float
    y: float
    width: float
    height: float
    fill: Colour | None = None
    stroke: Colour | None = None
    weight: float = 0.0
    radius: float = 0.0


@dataclass(frozen=True, slots=True)
class Grid:
    """Squared paper: so many columns and rows of squares of one size."""

    x: float
    y: float
    square: float
    columns: int
    rows: int
    colour: Colour = GRID
    weight: float = GRID_LINE

    @property
    def width(self) -> float:
        """From the first line to the last, across."""
        return self.square * self.columns

    @property
    def height(self) -> float:
        """From the first line to the last, down."""
        return self.square * self.rows


@dataclass(frozen=True, slots=True)
class Symbol:
    """A QR code's square symbol: its rows of modules from the top, True where they are dark.

    ``side`` is the symbol's, without the quiet zone that must stay free around it.
    """

    x: float
    y: float
    side: float
    rows: tuple[tuple[bool, ...], ...]


Item: TypeAlias = Text | Line | Arc | Box | Grid | Symbol


class Role(StrEnum):
    """What a part of a page is to someone who hears it: the structure types of ISO 32000-1, 14.8.

    An artefact is not read at all: it is how the page looks, or repeats what stands elsewhere.
    """

    TITLE = "H1"
    HEADING = "H2"
    PARAGRAPH = "P"
    QUESTION = "Formula"
    WORKING = "Figure"
    ARTEFACT = "Artifact"


@dataclass(frozen=True, slots=True)
class Unit:
    """Items that are read as one; ``says`` is what a screen reader says for them.

    Questions and workings need ``says``; for other roles "" leaves their text to speak.
    ``language`` is that of its words (BCP 47) where it is not the page's.
    """

    role: Role
    items: tuple[Item, ...]
    says: str = ""
    language: str = ""


@dataclass(frozen=True, slots=True)
class PagePlan:
    """One page: its size and what stands on it, in the order of reading.

    A text outside any unit is read as a paragraph, any other item there is an artefact.
    """

    width: float
    height: float
    content: tuple[Item | Unit, ...]

    @property
    def items(self) -> tuple[Item, ...]:
        """Everything on the page, in the order of drawing."""
        return tuple(flattened(self.content))

    @property
    def texts(self) -> tuple[Text, ...]:
        """The page's texts, in the order of drawing."""
        return tuple(item for item in self.items if isinstance(item, Text))


def flattened(content: Iterable[Item | Unit]) -> Iterator[Item]:
    """The items with those of units among them."""
    for entry in content:
        if isinstance(entry, Unit):
            yield from entry.items
        else:
            yield entry


def as_units(content: Sequence[Item | Unit]) -> Iterator[Unit]:
    """The content with a role for everything: loose texts are read, other items are not."""

    def kind(entry: Item | Unit) -> Role | None:
        if isinstance(entry, Unit):
            return None
        return Role.PARAGRAPH if isinstance(entry, Text) else Role.ARTEFACT

    for role, entries in groupby(content, kind):
        if role is None:
            yield from (entry for entry in entries if isinstance(entry, Unit))
        else:
            yield Unit(role, tuple(entry for entry in entries if not isinstance(entry, Unit)))


def dark_runs(row: Sequence[bool]) -> Iterator[tuple[int, int]]:
    """From where up to where a row of modules is dark."""
    at = 0
    for dark, modules in groupby(row):
        length = len(list(modules))
        if dark:
            yield at, at + length
        at += length


def moved(content: Iterable[Item | Unit], right: float, down: float) -> Iterator[Item | Unit]:
    """The content so many millimetres further right and down."""
    for entry in content:
        match entry:
            case Unit():
                items = (
                    item for item in moved(entry.items, right, down) if not isinstance(item, Unit)
                )
                yield replace(entry, items=tuple(items))
            case Text():
                yield replace(entry, x=entry.x + right, baseline=entry.baseline + down)
            case Line(x1, y1, x2, y2):
                yield replace(entry, x1=x1 + right, y1=y1 + down, x2=x2 + right, y2=y2 + down)
            case Arc(x1, x2, y):
                yield replace(entry, x1=x1 + right, x2=x2 + right, y=y + down)
            case Box() | Grid() | Symbol():
                yield replace(entry, x=entry.x + right, y=entry.y + down)


def line_height(size: float) -> float:
    """The distance in millimetres between the baselines of a text of so many points."""
    return size * MM_PER_POINT * LEADING


def paragraph(
    lines: Iterable[str],
    x: float,
    top: float,
    size: float,
    *,
    bold: bool = False,
    colour: Colour = BLACK,
) -> tuple[Text, ...]:
    """Lines of text under one another, the first in a line's height from ``top``."""
    step = line_height(size)
    first = top + step / 2 + typeface.DIGIT_HEIGHT / 2 * size * MM_PER_POINT
    return tuple(
        Text(line, x, first + step * count, size, bold, colour) for count, line in enumerate(lines)
    )
