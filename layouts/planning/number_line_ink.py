"""A number line on squares, drawn to scale, with its jumps.

Where numbers along it would lie over one another they are moved aside, in their order, and a
fine line leads to each from its place. Lengths below are in squares.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from generator.arithmetic.numbers import Number
from generator.operations.working import Jump, NumberLine, Working
from layouts.planning import typeface
from layouts.planning.plan import Arc, Item, Line, Text
from layouts.planning.type_scale import MM_PER_POINT

EM: Final = 0.62
"""The em of the numbers along the line."""
_BASE: Final = 3.2
"""From the top of the line's rows down to the line itself."""
_HIGHEST: Final = 1.3
"""How high the longest jump's arc rises."""
_LOWEST: Final = 0.45
_SIZES: Final = 0.55
"""From the top of the rows to the middle of the sizes of jumps."""
_STOPS: Final = 4.5
"""From the top of the rows to the middle of the numbers below the line."""
_TICK: Final = 0.22
_APART: Final = 0.35
"""The least room between two numbers side by side."""
_EDGE: Final = 0.15
_CLEAR: Final = 0.12
"""Between a number and the fine line that leads to it."""


@dataclass(frozen=True, slots=True)
class LineSquares:
    """Where a number line's squares begin, how large they are, and how many it goes across."""

    x: float
    y: float
    side: float
    columns: int


def number_line_ink(
    working: Working, squares: LineSquares, steps: int, *, newest: bool = False
) -> Iterator[Item]:
    """The line and its jumps after so many steps; with ``newest`` those of the last are bold."""
    line = working.line
    if line is None:
        return
    jumps = working.jumps(steps)
    fresh = frozenset(working.steps[steps - 1].jumps) if newest else frozenset[Jump]()
    drawn = _Drawn(working, line, squares)
    yield from drawn.line_alone()
    for jump in jumps:
        yield drawn.arc(jump, bold=jump in fresh)
    yield from drawn.sizes(jumps, fresh)
    yield from drawn.stops(jumps, fresh)


class _Drawn:
    """A line's ends in millimetres, and where the numbers along it stand.

    The numbers of all jumps are placed at once, so that none moves when the next is drawn.
    """

    def __init__(self, working: Working, line: NumberLine, squares: LineSquares) -> None:
        self.line, self.squares, self.jumps = line, squares, working.jumps()
        self.writes, jumps = working.land.writes, self.jumps
        ends = [self._width(self.writes(str(number))) / 2 for number in (line.start, line.end)]
        self.left, self.right = _EDGE + ends[0], squares.columns - _EDGE - ends[1]
        stops = [line.start, *(jump.end for jump in jumps)] if jumps else [line.start, line.end]
        self.numbers = self._aside([(self.writes(str(n)), self.at(n)) for n in stops])
        named = [(self.writes(f"+{jump.size}"), self._middle(jump)) for jump in jumps]
        self.named = self._aside(named)

    def at(self, number: Number) -> float:
        """Where a number stands along the line, to scale."""
        start, end = self.line.start.value, self.line.end.value
        share = float((number.value - start) / (end - start)) if end > start else 0.0
        return self.left + share * (self.right - self.left)

    def _middle(self, jump: Jump) -> float:
        return (self.at(jump.start) + self.at(jump.end)) / 2

    def _width(self, text: str) -> float:
        """How wide a number along the line is."""
        return typeface.width(text, EM / MM_PER_POINT, bold=True)

    def _aside(self, wanted: Sequence[tuple[str, float]]) -> list[float]:
        """The middles of numbers side by side, each as near to its place as the others let it."""
        halves = [self._width(text) / 2 for text, _ in wanted]
        middles: list[float] = []
        for (_, place), half in zip(wanted, halves, strict=True):
            least = _EDGE + half
            if middles:
                least = middles[-1] + halves[len(middles) - 1] + _APART + half
            middles.append(max(place, least))
        most = float(self.squares.columns) - _EDGE
        for index in range(len(middles) - 1, -1, -1):
            middles[index] = min(middles[index], most - halves[index])
            most = middles[index] - halves[index] - _APART
        return middles

    def _x(self, along: float) -> float:
        return self.squares.x + along * self.squares.side

    def _y(self, down: float) -> float:
        return self.squares.y + (self.line.row + down) * self.squares.side

    def line_alone(self) -> Iterator[Item]:
        """The line with a stroke at each end."""
        side = self.squares.side
        weight = max(0.3, 0.05 * side)
        over = min(0.25, self.left - 0.05)
        yield Line(
            self._x(self.left - over),
            self._y(_BASE),
            self._x(self.right + over),
            self._y(_BASE),
            weight,
        )

    def arc(self, jump: Jump, *, bold: bool) -> Arc:
        """A jump over the line, the higher the longer."""
        start, end = self.at(jump.start), self.at(jump.end)
        height = min(_HIGHEST, max(_LOWEST, (end - start) / 2))
        side = self.squares.side
        weight = (0.09 if bold else 0.05) * side
        return Arc(self._x(start), self._x(end), self._y(_BASE), height * side, weight)

    def sizes(self, jumps: Sequence[Jump], fresh: frozenset[Jump]) -> Iterator[Item]:
        """The sizes of jumps above their arcs."""
        for jump, middle in zip(self.jumps, self.named, strict=True):
            if jump not in jumps or not jump.named:
                continue
            text = self.writes(f"+{jump.size}")
            yield self._text(text, middle, _SIZES, bold=jump in fresh)
            start, end = self.at(jump.start), self.at(jump.end)
            peak = _BASE - min(_HIGHEST, max(_LOWEST, (end - start) / 2))
            yield self._leader(self._middle(jump), peak - _CLEAR, middle, _SIZES + EM / 2)

    def stops(self, jumps: Sequence[Jump], fresh: frozenset[Jump]) -> Iterator[Item]:
        """The numbers below the line: its ends, and where jumps have come to."""
        stops = [self.line.start, *(jump.end for jump in self.jumps)]
        if not self.jumps:
            stops.append(self.line.end)
        reached = {jump.end: jump for jump in jumps}
        for number, middle in zip(stops, self.numbers, strict=True):
            is_end = number in (self.line.start, self.line.end)
            jump = reached.get(number)
            if not is_end and jump is None:
                continue
            at = self.at(number)
            yield self._tick(at)
            named = self.line.ends_named if is_end else jump is not None and jump.named
            if named:
                bold = jump is not None and jump in fresh
                yield self._text(self.writes(str(number)), middle, _STOPS, bold=bold)
                yield self._leader(at, _BASE + _TICK + _CLEAR, middle, _STOPS - EM / 2)

    def _tick(self, at: float) -> Line:
        weight = max(0.3, 0.05 * self.squares.side)
        return Line(
            self._x(at), self._y(_BASE - _TICK), self._x(at), self._y(_BASE + _TICK), weight
        )

    def _leader(self, at: float, down: float, to: float, to_down: float) -> Line:
        weight = 0.02 * self.squares.side
        return Line(self._x(at), self._y(down), self._x(to), self._y(to_down), weight)

    def _text(self, text: str, along: float, down: float, *, bold: bool) -> Text:
        em = EM * self.squares.side
        baseline = self._y(down) + typeface.DIGIT_HEIGHT / 2 * em
        return Text(text, self._x(along), baseline, em / MM_PER_POINT, bold, anchor="centre")
