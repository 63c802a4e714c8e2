"""A product or a division set out in full: all that the method writes but what is reckoned.

Of a product: the lines that make its decimals whole, the numbers under one another, rows for the
products with their noughts, and the point of the answer; of a division the point above. An empty
box stands wherever the method could need a small digit, whether or not it will.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TypeVar

from generator.arithmetic.questions import Operation, Question
from generator.forms.scaffold import on_a_line
from generator.operations.working import Ink, Mark, Point, Rule, Square, Step, Upright, Working

Placed = TypeVar("Placed", Mark, Point)

WORKED: tuple[Operation, ...] = (Operation.MULTIPLY, Operation.DIVIDE)


@dataclass(frozen=True, slots=True)
class FullFrame:
    """The squares, boxes in the middle of a square, and boxes in its upper left corner."""

    squares: Working
    boxes: tuple[Square, ...]
    corners: tuple[Square, ...]


def full_frame(scaffold: Working, working: Working, question: Question) -> FullFrame:
    """A product or a division in full. ``scaffold`` is what the fewer frames begin from.

    A question that stands on a line is printed in words: its first row is left out.
    """
    noted = any(mark.ink is Ink.NOTE for mark in working.marks())
    if noted and question.operation is Operation.DIVIDE:
        working = _first_chunk_alone(working)
    asked_above = on_a_line(working)
    if asked_above:
        down, right = -1, 0
        base = replace(working, rows=working.rows - 1, steps=(), answer=working.answer)
    else:
        down, right = 0, scaffold.units_column - working.units_column
        base = scaffold
    told = enumerate(_told(working, question))
    steps = [_given(step, number, working) for number, step in told]
    marks = [_moved(mark, down, right) for step in steps for mark in step.marks]
    points = [_moved(point, down, right) for step in steps for point in step.points]
    rules = {*base.rules} if not asked_above else set[Rule]()
    rules |= {
        replace(rule, row=rule.row + down, start=rule.start + right, end=rule.end + right)
        for step in steps
        for rule in step.rules
    }
    uprights = {*base.uprights} if not asked_above else set[Upright]()
    uprights |= {
        Upright(line.column + right, line.start + down, line.end + down)
        for step in steps
        for line in step.uprights
    }
    kept = [mark for mark in marks if mark.row >= 0]
    squares = replace(
        base,
        rules=tuple(sorted(rules, key=lambda rule: (rule.row, rule.start))),
        uprights=tuple(sorted(uprights, key=lambda line: line.column)),
        steps=(Step("", None, tuple(kept), tuple(point for point in points if point.row >= 0)),),
    )
    rooms = dict.fromkeys(
        (row + down, column + right) for step in steps for row, column in step.room
    )
    taken = {(mark.row, mark.column) for mark in kept}
    below = set(_rows_of_their_own(working, down))
    return FullFrame(
        squares,
        tuple(square for square in rooms if square[0] in below and square not in taken),
        tuple(square for square in rooms if square[0] not in below),
    )


def _told(working: Working, question: Question) -> Iterator[Step]:
    """The steps that a full frame takes from: of a product of three, of the first product alone.

    The numbers of the second are found in the first: they would tell it.
    """
    products, asked = 0, working.setting_out if on_a_line(working) else None
    for step in working.steps:
        if (
            step is not asked
            and step.sentence.startswith(("Set out", "Multiply the whole", "Leave the", "Part the"))
            and step.marks
        ):
            products += any(mark.ink is Ink.GIVEN for mark in step.marks)
        if products > 1:
            signs = tuple(m for m in step.marks if m.ink is Ink.SIGN and m.text == "×")
            step = replace(step, marks=signs, room=())
        yield step


def _first_chunk_alone(working: Working) -> Working:
    """A division by chunks with the line of the first, its number left out.

    How many chunks there are is for the pupil to choose.
    """
    assert working.dividend_row is not None
    half_box = working.dividend_row
    signs = [m.column for m in working.marks() if m.ink is Ink.NOTE and m.text == "×"]

    def is_given(mark: Mark) -> bool:
        named = mark.ink is Ink.NOTE and mark.column >= signs[0]
        return mark.row <= half_box or (
            mark.row == half_box + 1 and (named or mark.ink is Ink.SIGN)
        )

    steps = tuple(
        replace(
            step,
            marks=tuple(filter(is_given, step.marks)),
            points=tuple(point for point in step.points if point.row <= half_box),
            rules=tuple(rule for rule in step.rules if rule.row <= half_box + 2),
        )
        for step in working.steps
    )
    return replace(working, steps=steps)


def _given(step: Step, number: int, working: Working) -> Step:
    """What of a step is given: what is asked, what is made whole, noughts, signs and points."""
    if any(mark.text in ("≈", "r") for mark in step.marks):  # how a division ends
        return replace(step, marks=(), points=())
    a_line = any(mark.text == "=" for mark in step.marks)
    asked = any(mark.ink is Ink.GIVEN for mark in step.marks)
    inks = {Ink.GIVEN, Ink.SIGN, Ink.PLACEHOLDER, Ink.NOTE}
    if a_line and not asked and number:
        inks.add(Ink.PARTIAL)
    marks = tuple(
        replace(mark, ink=Ink.GIVEN) if mark.ink is Ink.PARTIAL else mark
        for mark in step.marks
        if mark.ink in inks and not _is_brought_down(step, mark, working)
    )
    points = tuple(
        replace(point, ink=Ink.GIVEN) for point in step.points if not _tells(point, working)
    )
    rules = () if _is_one_square(step) else step.rules
    return replace(step, marks=marks, points=points, rules=rules)


def _is_brought_down(step: Step, mark: Mark, working: Working) -> bool:
    """Whether it is a nought written after a dividend: how many come is for the pupil to see."""
    after_dividend = working.room is not None and mark.row == working.dividend_row
    return (_is_one_square(step) or after_dividend) and mark.ink is Ink.PLACEHOLDER


def _tells(point: Point, working: Working) -> bool:
    """Whether a quotient's point tells how long it is: where it is not above the dividend's."""
    aside = point.column != working.units_column + working.point_column
    return working.room is not None and aside and point.ink in (Ink.ANSWER, Ink.PARTIAL)


def _is_one_square(step: Step) -> bool:
    """Whether a step draws the line on over one further nought."""
    return step.column is not None and bool(step.rules)


def _rows_of_their_own(working: Working, down: int) -> Iterator[int]:
    """The rows in which small digits alone stand."""
    rooms = {row for step in working.steps for row, _ in step.room}
    full = {
        mark.row
        for mark in working.marks()
        if mark.ink not in (Ink.CARRY, Ink.CORNER, Ink.CARRIED_ON)
    }
    yield from (row + down for row in rooms - full)


def _moved(what: Placed, down: int, right: int) -> Placed:
    """A mark or a point elsewhere."""
    return replace(what, row=what.row + down, column=what.column + right)
