"""Where each mark of a written working stands, on squares of any size.

One plan serves the pupil's sheet, the slide and the teacher's key; only the size of a
square differs. Offsets and sizes below are in squares.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from generator.operations.working import (
    SMALL_MARKS,
    Ink,
    Mark,
    Point,
    Rule,
    Step,
    Strike,
    Upright,
    Working,
)
from layouts.planning import typeface
from layouts.planning.number_line_ink import LineSquares, number_line_ink
from layouts.planning.plan import Box, Colour, Grid, Item, Line, Text
from layouts.planning.type_scale import BLACK, MM_PER_POINT, SOFT, TINT

FULL: Final = 0.76
"""The em of a full-size digit: it stands 0.55 of a square high."""
SMALL: Final = 0.42
"""The em of a small one: 0.55 of a full-size digit's."""
HEADING: Final = 0.43
"""The em of a column's heading, however many letters it has: 6 points in squares of 5 mm."""
NOTE: Final = 0.6
"""The em of what names a row: plainly no digit of the working, and larger than a carried one."""
BESIDE: Final = 0.4
"""The em of a small one that shares its square with a full-size digit: bold, it stays clear."""
CLEAR_OF_DIGIT: Final = -0.26
"""How far right of its square's middle a small number before a full-size digit may reach."""


@dataclass(frozen=True, slots=True)
class Hand:
    """How one kind of ink is written: em, weight, colour, and the middle's offset (right, down)."""

    em: float
    bold: bool = False
    colour: Colour = BLACK
    right: float = 0.0
    down: float = 0.0


HANDS: Final = {
    Ink.GIVEN: Hand(FULL),
    Ink.SIGN: Hand(FULL),
    Ink.PLACEHOLDER: Hand(FULL, colour=SOFT),
    Ink.CARRY: Hand(SMALL),
    # Low in its square, next to the crossed-out digit below.
    Ink.LEFT: Hand(SMALL, down=0.24),
    # Clear of the digit in the middle and of the square's edge.
    Ink.TEN: Hand(BESIDE, right=-0.38, down=-0.28),
    # Above half-way: clear of a point at its left, and lower than a ten.
    Ink.ADDED: Hand(BESIDE, right=-0.38, down=-0.08),
    Ink.CORNER: Hand(BESIDE, right=-0.38, down=-0.28),
    Ink.CARRIED_ON: Hand(BESIDE, right=-0.38, down=-0.28),
    Ink.NOTE: Hand(NOTE),
    Ink.HEADING: Hand(HEADING),
    Ink.PARTIAL: Hand(FULL),
    Ink.ANSWER: Hand(FULL, bold=True),
    Ink.LEFT_OVER: Hand(FULL, bold=True),
    Ink.NUMERATOR: Hand(SMALL, bold=True, down=-0.25),
    Ink.DENOMINATOR: Hand(SMALL, bold=True, down=0.25),
}

_WITH_ITS_DIGIT: Final = frozenset({Ink.TEN, Ink.ADDED, Ink.CARRIED_ON})

TEN_BESIDE_LEFT: Final = Hand(SMALL, right=-0.275, down=0.24)
"""A ten received by what an earlier exchange left: beside that small digit, so that 1 and 3
read as 13."""


def hand_of(mark: Mark) -> Hand:
    """How a mark is written: a small number of several digits is smaller, to stay in its place."""
    hand, length = HANDS[mark.ink], len(mark.text)
    if length == 1 or mark.ink is Ink.HEADING:
        return hand
    em = min(0.32, 0.64 / length)
    if mark.ink not in (Ink.CARRIED_ON, Ink.ADDED):
        return replace(hand, em=em)
    # Up to the digit it stands before, and so a little over the line at its left.
    reach = _ink_width(mark.text) / 2 * em
    return replace(hand, em=em, right=CLEAR_OF_DIGIT - reach, down=-0.3)


def _ink_width(number: str) -> float:
    """From the first digit's ink to the last one's, in ems."""
    return typeface.DIGIT_WIDTH * (len(number) - 1) + typeface.DIGIT_INK


@dataclass(frozen=True, slots=True)
class Squares:
    """The squares a working stands on: the top left corner and the side, in millimetres."""

    x: float
    y: float
    side: float

    def middle(self, row: int, column: int) -> tuple[float, float]:
        """The middle of one square."""
        return self.x + (column + 0.5) * self.side, self.y + (row + 0.5) * self.side

    def grid(self, working: Working) -> Grid:
        """The squares that the working needs, ruled."""
        return Grid(self.x, self.y, self.side, working.columns, working.rows)

    def written(self, mark: Mark, hand: Hand) -> Text:
        """A mark in its square."""
        x, y = self.middle(mark.row, mark.column)
        em = hand.em * self.side
        return Text(
            mark.text,
            x + hand.right * self.side,
            y + hand.down * self.side + typeface.DIGIT_HEIGHT / 2 * em,
            em / MM_PER_POINT,
            hand.bold,
            hand.colour,
            "centre",
        )

    def pointed(self, point: Point, decimal: str) -> Text:
        """A decimal sign on the grid line or in its square, on the row's baseline."""
        x, y = self.middle(point.row, point.column)
        em = FULL * self.side
        return Text(
            decimal,
            x if point.in_square else x + self.side / 2,
            y + typeface.DIGIT_HEIGHT / 2 * em,
            em / MM_PER_POINT,
            bold=True,  # the regular point is too slight to be seen on a line
            colour=HANDS[point.ink].colour,
            anchor="centre",
        )

    def ruled(self, rule: Rule) -> Line:
        """A rule on a grid line."""
        y = self.y + rule.row * self.side
        return Line(
            self.x + rule.start * self.side,
            y,
            self.x + (rule.end + 1) * self.side,
            y,
            weight=max(0.3, 0.05 * self.side),
        )

    def upright(self, upright: Upright) -> Line:
        """A line on a grid line, downwards."""
        x = self.x + upright.column * self.side
        top, bottom = self.y + upright.start * self.side, self.y + (upright.end + 1) * self.side
        return Line(x, top, x, bottom, weight=max(0.3, 0.05 * self.side))

    def fraction_bar(self, mark: Mark) -> Line:
        """The bar of a fraction, across the square of its numerator."""
        x, y = self.middle(mark.row, mark.column)
        return Line(x - 0.3 * self.side, y, x + 0.3 * self.side, y, weight=0.045 * self.side)

    def struck(self, strike: Strike, hand: Hand) -> Line:
        """A stroke through a mark, rising to the right and so clear of a small 1 at its left."""
        x, y = self.middle(strike.row, strike.column)
        x, y = x + hand.right * self.side, y + hand.down * self.side
        across, up = 0.42 * hand.em * self.side, 0.46 * hand.em * self.side
        return Line(x - across, y + up, x + across, y - up, weight=0.045 * self.side)


def working_ink(working: Working, squares: Squares) -> tuple[Item, ...]:
    """The whole working, with its rules and without its grid."""
    return (
        *_lines(working, squares, len(working.steps)),
        *number_line_ink(working, _line_squares(working, squares), len(working.steps)),
        *_marks(working, squares, len(working.steps)),
        *_points(working, squares, len(working.steps)),
        *_strikes(working, squares, len(working.steps)),
    )


def step_ink(working: Working, squares: Squares, steps: int) -> tuple[Item, ...]:
    """The working on its grid after so many steps, the last of them made plain.

    The column in play is tinted between two bars; the marks just made are bold and boxed,
    earlier ones are not bold.
    """
    newest = working.steps[steps - 1]
    first = steps == 1
    fresh = frozenset() if first else frozenset(newest.marks)
    return (
        *_column_tint(working, squares, newest),
        squares.grid(working),
        *_lines(working, squares, steps),
        *number_line_ink(working, _line_squares(working, squares), steps, newest=True),
        *_column_bars(working, squares, newest),
        *(() if first else _boxes(working, squares, steps)),
        *_marks(working, squares, steps, fresh=fresh),
        *_points(working, squares, steps),
        *_strikes(working, squares, steps),
    )


def _line_squares(working: Working, squares: Squares) -> LineSquares:
    return LineSquares(squares.x, squares.y, squares.side, working.columns)


def _lines(working: Working, squares: Squares, steps: int) -> Iterator[Line]:
    """Rules, uprights and the bars of fractions."""
    yield from map(squares.ruled, working.rules_drawn(steps))
    yield from map(squares.upright, working.uprights_drawn(steps))
    for mark in working.marks(steps):
        if mark.ink is Ink.NUMERATOR:
            yield squares.fraction_bar(mark)


def _marks(
    working: Working, squares: Squares, steps: int, fresh: frozenset[Mark] | None = None
) -> Iterator[Text]:
    """The marks; where ``fresh`` is given, these are bold and no others."""
    left = {(mark.row, mark.column) for mark in working.marks(steps) if mark.ink is Ink.LEFT}
    for mark in working.marks(steps):
        beside = mark.ink is Ink.TEN and (mark.row, mark.column) in left
        hand = TEN_BESIDE_LEFT if beside else hand_of(mark)
        if fresh is not None:
            hand = replace(hand, bold=mark in fresh)
        yield squares.written(mark, hand)


def _points(working: Working, squares: Squares, steps: int) -> Iterator[Text]:
    return (squares.pointed(point, working.land.decimal) for point in working.points(steps))


def _strikes(working: Working, squares: Squares, steps: int) -> Iterator[Line]:
    full = {(mark.row, mark.column) for mark in working.marks(steps) if HANDS[mark.ink].em == FULL}
    for strike in working.strikes(steps):
        through = Ink.GIVEN if (strike.row, strike.column) in full else Ink.LEFT
        yield squares.struck(strike, HANDS[through])


def _in_play(working: Working, step: Step) -> Iterator[tuple[int, int, int]]:
    """What is lit: a column, its first row and its last, for each run of squares in it."""
    if not step.lit:
        if step.column is not None:
            first, last = step.rows or (0, working.rows - 1)
            yield step.column, first, last
        return
    lit = set(step.lit)
    for row, column in sorted(lit):
        if (row - 1, column) not in lit:
            last = row
            while (last + 1, column) in lit:
                last += 1
            yield column, row, last


def _column_tint(working: Working, squares: Squares, step: Step) -> tuple[Box, ...]:
    side = squares.side
    return tuple(
        Box(
            squares.x + column * side,
            squares.y + first * side,
            side,
            (last + 1 - first) * side,
            fill=TINT,
        )
        for column, first, last in _in_play(working, step)
    )


def _column_bars(working: Working, squares: Squares, step: Step) -> Iterator[Line]:
    """Thick bars above and below what is lit: sides would hide the points on them."""
    side = squares.side
    weight = 0.08 * side
    for column, first, last in _in_play(working, step):
        x, top, bottom = squares.x + column * side, first * side, (last + 1) * side
        for y in (squares.y + top - weight / 2, squares.y + bottom + weight / 2):
            yield Line(x, y, x + side, y, weight)


def _small_places(working: Working, steps: int) -> frozenset[tuple[int, int]]:
    """The squares that hold a small mark which a full-size digit may join."""
    marks = working.marks(steps)
    return frozenset((mark.row, mark.column) for mark in marks if mark.ink in SMALL_MARKS)


def _boxes(working: Working, squares: Squares, steps: int) -> Iterator[Box]:
    """A box around each mark and point just made, or around a whole line of writing.

    It takes the whole square where a small mark stands there too: its side would cross that.
    """
    step, small = working.steps[steps - 1], _small_places(working, steps)
    if step.column is None and len(step.marks) > 1:
        yield from _boxed_lines(squares, step)
        return
    for mark in step.marks:
        x, y = squares.middle(mark.row, mark.column)
        hand = hand_of(mark)
        if mark.ink in _WITH_ITS_DIGIT:  # the whole square: the two are one number
            over = max(0.0, 0.05 - _left_of_square(hand, mark))
            yield _box_about(
                x - over / 2 * squares.side, y, 1.0 + over, 1.0, squares.side, radius=0.0
            )
        elif hand.em == FULL and (mark.row, mark.column) in small:
            yield _box_about(x, y, 1.0, 1.0, squares.side, radius=0.0)
        elif hand.em == FULL:
            yield _box_about(x, y, 0.86, 0.86, squares.side, radius=0.16)
        else:
            x, y = x + hand.right * squares.side, y + hand.down * squares.side
            width = 0.46 if len(mark.text) == 1 else 0.7
            yield _box_about(x, y, width, 0.46, squares.side, radius=0.1)
    for point in step.points:
        text = squares.pointed(point, working.land.decimal)
        y = text.baseline - typeface.POINT_MIDDLE * FULL * squares.side
        yield _box_about(text.x, y, 0.36, 0.36, squares.side, radius=0.1)


def _boxed_lines(squares: Squares, step: Step) -> Iterator[Box]:
    """A box around each run of squares side by side; the points in a run are inside it."""
    written = {(mark.row, mark.column) for mark in step.marks}
    written |= {(point.row, point.column) for point in step.points if point.in_square}
    places = sorted(written)
    starts = [place for place in places if (place[0], place[1] - 1) not in places]
    for row, start in starts:
        end = start
        while (row, end + 1) in places:
            end += 1
        (left, y), (right, _) = squares.middle(row, start), squares.middle(row, end)
        width = end - start + 0.86
        yield _box_about((left + right) / 2, y, width, 0.86, squares.side, radius=0.16)


def _left_of_square(hand: Hand, mark: Mark) -> float:
    """Where a mark's ink begins, from the left of its square."""
    return 0.5 + hand.right - _ink_width(mark.text) / 2 * hand.em


def _box_about(
    x: float, y: float, width: float, height: float, side: float, *, radius: float
) -> Box:
    """An outline about a middle; its sizes are in squares."""
    return Box(
        x - width / 2 * side,
        y - height / 2 * side,
        width * side,
        height * side,
        stroke=BLACK,
        weight=0.03 * side,
        radius=radius * side,
    )
