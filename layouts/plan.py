"""A page plan as values: what stands where, before any ink.

Lengths are millimetres from the page's top left corner, y downwards; type is in points.
Items are drawn in order, later ones over earlier ones.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from layouts import typeface
from layouts.type_scale import BLACK, LEADING, MM_PER_POINT

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
        return self.x - {"left": 0.0, "centre": 0.5, "right": 1.0}[self.anchor] * self.width

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

    @property
    def width(self) -> float:
        """From the first line to the last, across."""
        return self.square * self.columns

    @property
    def height(self) -> float:
        """From the first line to the last, down."""
        return self.square * self.rows


Item: TypeAlias = Text | Line | Box | Grid


@dataclass(frozen=True, slots=True)
class PagePlan:
    """One page: its size and what stands on it."""

    width: float
    height: float
    items: tuple[Item, ...]

    @property
    def texts(self) -> tuple[Text, ...]:
        """The page's texts, in the order of drawing."""
        return tuple(item for item in self.items if isinstance(item, Text))


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
