"""Written working as a value: marks on squared paper, and the steps that make them.

Rows count from 0 at the top and columns from 0 at the left, one square each. Nothing
here knows how large a square is or how a mark is drawn: one description serves the
slide, the pupil's sheet and the key.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import NamedTuple

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from specs.lands import ENGLAND, Land


class Ink(StrEnum):
    """What a mark is for. A layout decides how each kind looks."""

    GIVEN = "given"  # a digit of the question
    SIGN = "sign"  # the operation's sign
    PLACEHOLDER = "placeholder"  # a nought written in an empty place
    CARRY = "carry"  # a small carried digit
    LEFT = "left"  # a small digit: what is left after lending to the next column
    TEN = "ten"  # a small 1 at the upper left of a digit: ten more of the column's unit
    ADDED = "added"  # a small +1 at the left of a digit: one more of the column's unit
    CORNER = "corner"  # a small carried digit at the upper left of a partial product's digit
    CARRIED_ON = "carried on"  # a small remainder at the upper left of the next digit divided
    NOTE = "note"  # in small, which product or multiple a row holds: "7×40"
    HEADING = "heading"  # a column's name in short, above a place-value grid
    PARTIAL = "partial"  # a digit on the way to the answer
    ANSWER = "answer"
    LEFT_OVER = "left over"  # "r" and the remainder after the quotient
    NUMERATOR = "numerator"  # in the upper half of its square, over the denominator
    DENOMINATOR = "denominator"


SMALL_MARKS = frozenset({Ink.TEN, Ink.ADDED, Ink.CORNER, Ink.CARRIED_ON, Ink.DENOMINATOR})
"""Marks that may share the square of another."""


Square = tuple[int, int]
"""A row and a column, each from 0."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A character in a square."""

    row: int
    column: int
    text: str
    ink: Ink


@dataclass(frozen=True, slots=True)
class Point:
    """A decimal point on the grid line at the right of its column.

    With ``in_square`` it stands in the middle of its column: a square that holds nothing else.
    """

    row: int
    column: int
    ink: Ink
    in_square: bool = False


@dataclass(frozen=True, slots=True)
class Strike:
    """A stroke through the marks of one square, crossing them out."""

    row: int
    column: int


@dataclass(frozen=True, slots=True)
class Rule:
    """A line along the top of ``row`` from the left of ``start`` to the right of ``end``."""

    row: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Upright:
    """A line along the left of ``column`` from the top of ``start`` to the foot of ``end``."""

    column: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class NumberLine:
    """A number line to scale across so many rows of squares, from ``row`` on.

    Sizes of jumps stand above the line, the numbers where they begin and end below. Without
    ``ends_named`` its two ends are left to be written.
    """

    row: int
    rows: int
    start: Number
    end: Number
    ends_named: bool = True


@dataclass(frozen=True, slots=True)
class Jump:
    """An arc over a number line from one number up to another; ``size`` is written above it.

    Without ``named`` it is there to be filled in: neither its size nor where it ends is written.
    """

    start: Number
    end: Number
    size: Number
    named: bool = True


@dataclass(frozen=True, slots=True)
class Step:
    """One thing that the teacher does and says.

    ``column`` is the column in play, or None when the step is about the whole layout.
    ``rows`` are the first and the last row of that column's work, or None for every row.
    ``rules`` and ``uprights`` are lines that this step draws. ``lit`` are the squares that the
    step speaks of, where these are not all of its column, and ``room`` those in which it could
    need a small digit, whether or not it does. ``jumps`` are drawn on the working's number line.
    """

    sentence: str
    column: int | None
    marks: tuple[Mark, ...] = ()
    points: tuple[Point, ...] = ()
    strikes: tuple[Strike, ...] = ()
    rules: tuple[Rule, ...] = ()
    uprights: tuple[Upright, ...] = ()
    rows: tuple[int, int] | None = None
    lit: tuple[Square, ...] = ()
    room: tuple[Square, ...] = ()
    jumps: tuple[Jump, ...] = ()


@dataclass(frozen=True, slots=True)
class Working:
    """A question worked on squared paper.

    The first step sets the numbers out; each further step adds to what is there.
    ``units_column`` is the column of the ones; the point stands at its right, on the grid
    line or, with ``point_column``, in a column of its own.
    ``rules`` and ``uprights`` stand from the start, before any step. ``answer`` is read off
    the marks that the method made, not computed beside them; so is ``remainder``, which a
    division has where it ends with a remainder or a fraction. ``outline`` is what of a method a
    pupil may be given where the question itself stands on the first row: a grid with its parts.
    ``line`` is a number line, on which steps make jumps. ``land`` is whose points and numbers are
    drawn. ``dividend_row`` is that of a division on its squares; ``room`` are the rows and the
    columns that a pupil is given for it, where these are not those of the half-box.
    """

    rows: int
    columns: int
    units_column: int
    rules: tuple[Rule, ...]
    steps: tuple[Step, ...]
    answer: Number
    uprights: tuple[Upright, ...] = ()
    remainder: Number | None = None
    point_column: bool = False
    outline: Step | None = None
    line: NumberLine | None = None
    dividend_row: int | None = None
    room: tuple[int, int] | None = None
    land: Land = ENGLAND

    @property
    def places(self) -> "Columns":
        """Where each place stands, as far as the squares go."""
        after = self.columns - 1 - self.units_column
        last = min(1 - after, 0) if self.point_column else -after
        return Columns(self.units_column - 1, last, self.point_column)

    @property
    def setting_out(self) -> Step:
        """The numbers set out, before any calculation."""
        return self.steps[0]

    def marks(self, steps: int | None = None) -> Iterator[Mark]:
        """All marks on the paper after so many steps (all of them when not given)."""
        return (mark for step in self.steps[:steps] for mark in step.marks)

    def points(self, steps: int | None = None) -> Iterator[Point]:
        """All points on the paper after so many steps."""
        return (point for step in self.steps[:steps] for point in step.points)

    def strikes(self, steps: int | None = None) -> Iterator[Strike]:
        """All crossings-out after so many steps."""
        return (strike for step in self.steps[:steps] for strike in step.strikes)

    def rules_drawn(self, steps: int | None = None) -> tuple[Rule, ...]:
        """All rules on the paper after so many steps."""
        return (*self.rules, *(rule for step in self.steps[:steps] for rule in step.rules))

    def uprights_drawn(self, steps: int | None = None) -> tuple[Upright, ...]:
        """All uprights on the paper after so many steps."""
        return (
            *self.uprights,
            *(upright for step in self.steps[:steps] for upright in step.uprights),
        )

    def jumps(self, steps: int | None = None) -> tuple[Jump, ...]:
        """All jumps on the number line after so many steps."""
        return tuple(jump for step in self.steps[:steps] for jump in step.jumps)

    @property
    def fits_its_squares(self) -> bool:
        """Whether no mark is off the squares, and no two full-sized ones share one."""
        full = [(m.row, m.column) for m in self.marks() if m.ink not in SMALL_MARKS]
        columns = [mark.column for mark in self.marks()]
        inside = min(columns) >= 0 and max(columns) < self.columns
        return inside and len(set(full)) == len(full)

    def agrees_with(self, question: Question) -> bool:
        """Whether the marks give the question's exact answer and what it leaves over."""
        return self.answer == question.answer and self.remainder == question.remainder


class SumRows(NamedTuple):
    """The rows of a sum: the first number's, the carried digits', the answer's, the one after."""

    first: int
    carried: int
    answer: int
    end: int


@dataclass(frozen=True, slots=True)
class Conventions:
    """How a school sets its written methods out.

    ``carries``: where small carried digits stand, ``"below"`` the answer, ``"above"`` the numbers
    or ``"between"``, under the numbers and over the answer's line (the method is the same: common
    practice, no source).
    ``placeholders``: whether empty decimal places are filled with noughts.
    ``subtraction``: ``"exchange"`` (decomposition), ``"equal addition"`` or ``"counting up"``.
    ``point``: on the grid ``"line"`` after the ones, or in a ``"column"`` of its own (common
    practice both, no source).
    ``multiplication``: in ``"columns"`` (short or long), by the ``"grid"`` or ``"expanded"``;
    ``division``: ``"short"``, ``"long"`` or by ``"chunking"``.
    ``noughts_added``: as ``placeholders``, for additions alone; None leaves it to that.
    ``set_out``: where divisor and quotient of a long division stand, and ``below_the_dividend``
    what is written there, in the words of ``generator/operations/quotients/set_outs.py``.
    ``short_division``: what a short division is, in the words of
    ``generator/operations/quotients/set_outs.py``.
    ``factors``: where those of a product stand, ``first_row`` which digit of the second makes the
    first row, and ``product_carries`` whether what is carried in a row is written, in the words of
    ``generator/operations/products/set_outs.py``.
    """

    carries: str = "below"
    placeholders: bool = True
    subtraction: str = "exchange"
    point: str = "line"
    multiplication: str = "columns"
    division: str = "short"
    noughts_added: bool | None = None
    set_out: str = ENGLAND.set_out
    below_the_dividend: str = ENGLAND.below_the_dividend
    short_division: str = ENGLAND.short_division
    factors: str = ENGLAND.factors
    first_row: str = ENGLAND.first_row
    product_carries: str = ENGLAND.product_carries

    @property
    def of_addition(self) -> "Conventions":
        """The same, for an addition."""
        if self.noughts_added is None:
            return self
        return replace(self, placeholders=self.noughts_added, noughts_added=None)

    def sum_rows(self, numbers: int, start: int = 0) -> SumRows:
        """The rows that so many numbers are added in, from a row on."""
        end = start + numbers + 2
        match self.carries:
            case "above":
                return SumRows(start + 1, start, end - 1, end)
            case "between":
                return SumRows(start, end - 2, end - 1, end)
        return SumRows(start, end - 1, end - 2, end)

    @property
    def ways(self) -> frozenset[str]:
        """The method of each operation that has several."""
        return frozenset({self.subtraction, self.multiplication, self.division})

    @property
    def in_columns(self) -> "Conventions":
        """The same with the methods that mistakes are shown in: by columns, digit after digit.

        A division is a short one, but a long one where that is set out in the same way.
        """
        own_line = self.short_division != ENGLAND.short_division
        division = "long" if self.division == "long" and own_line else "short"
        return replace(self, subtraction="exchange", multiplication="columns", division=division)

    @property
    def point_column(self) -> bool:
        """Whether the point has a column of its own."""
        return self.point == "column"


@dataclass(frozen=True, slots=True)
class Columns:
    """Where each place stands on the squares: a sign's column, then the places downwards.

    With ``point_column`` a column between the ones and the tenths is the point's own.
    """

    top: int
    last: int
    point_column: bool = False

    @classmethod
    def holding(cls, numbers: tuple[Number, ...], *, point_column: bool = False) -> "Columns":
        """The columns that hold every one of these numbers."""
        top, last = max(n.top_place for n in numbers), min(n.last_place for n in numbers)
        return cls(top, last, point_column)

    def __getitem__(self, place: int) -> int:
        return 1 + self.top - place + (self.point_column and place < 0)

    def point(self, row: int, ink: Ink) -> Point:
        """The point of a number in a row."""
        return Point(row, self[0] + self.point_column, ink, self.point_column)

    @property
    def count(self) -> int:
        """How many squares wide, with the sign's column."""
        return 1 + self[self.last]

    @property
    def from_the_right(self) -> range:
        """The places in the order in which they are worked."""
        return range(self.last, self.top + 1)

    def set_number(self, number: Number, row: int, ink: Ink, to_place: int) -> Step:
        """The marks of a number in a row, with placeholder noughts down to ``to_place``."""
        places = range(number.top_place, number.last_place - 1, -1)
        written = str(number).replace(".", "")
        digits = [
            Mark(row, self[place], digit, ink) for place, digit in zip(places, written, strict=True)
        ]
        placeholders = [
            Mark(row, self[place], "0", Ink.PLACEHOLDER)
            for place in range(number.last_place - 1, to_place - 1, -1)
        ]
        has_point = number.places > 0 or to_place < 0
        return Step(
            "",
            None,
            (*digits, *placeholders),
            (self.point(row, ink if number.places else Ink.PLACEHOLDER),) if has_point else (),
        )


def set_out(
    numbers: tuple[Number, ...],
    columns: Columns,
    rows: range,
    sign: str,
    sentence: str,
    *,
    placeholders: bool,
) -> Step:
    """The first step of a column method: numbers under one another, the sign beside the last."""
    parts = [
        columns.set_number(
            number, row, Ink.GIVEN, columns.last if placeholders else number.last_place
        )
        for number, row in zip(numbers, rows, strict=True)
    ]
    marks = [mark for part in parts for mark in part.marks]
    marks.append(Mark(rows[-1], 0, sign, Ink.SIGN))
    points = tuple(point for part in parts for point in part.points)
    return Step(sentence, None, tuple(marks), points)


def write_line(text: str, row: int, start: int, ink: Ink, *, point_column: bool = False) -> Step:
    """A line such as ``0.6=6÷10`` on the squares from ``start`` on, one character a square.

    Points stand on grid lines or, with ``point_column``, in squares of their own; signs are
    in the ink of signs.
    """
    marks: list[Mark] = []
    points: list[Point] = []
    for at, character in enumerate(text):
        column = start + line_width(text[:at], point_column=point_column)
        if character != ".":
            marks.append(Mark(row, column, character, ink if character.isdigit() else Ink.SIGN))
        elif point_column:
            points.append(Point(row, column, ink, in_square=True))
        else:
            points.append(Point(row, column - 1, ink))
    return Step("", None, tuple(marks), tuple(points))


def line_width(text: str, *, point_column: bool = False) -> int:
    """How many squares ``write_line`` takes."""
    return len(text) if point_column else len(text) - text.count(".")


def read_row(steps: list[Step], row: int, columns: Columns) -> Number:
    """The number whose answer digits stand in a row of columns: what a marker would read there."""
    digits = {
        mark.column: mark.text
        for step in steps
        for mark in step.marks
        if mark.row == row and mark.ink is Ink.ANSWER
    }
    return Number(int("".join(digits[column] for column in sorted(digits))), -min(columns.last, 0))


def read_number(steps: list[Step], row: int, ink: Ink, start: int = 0) -> Number:
    """The number whose digits and point stand in a row in one ink; nought where there is none.

    Only what stands from the column ``start`` on is read.
    """
    digits = {
        mark.column: mark.text
        for step in steps
        for mark in step.marks
        if mark.row == row and mark.ink is ink and mark.text.isdigit() and mark.column >= start
    }
    points = [
        point.column
        for step in steps
        for point in step.points
        if point.row == row and point.ink is ink and point.column >= start
    ]
    places = sum(column > points[0] for column in digits) if points else 0
    return Number(int("".join(digits[column] for column in sorted(digits)) or "0"), places)
