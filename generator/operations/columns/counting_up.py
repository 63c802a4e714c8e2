"""Subtraction by counting up on a number line: from the second number to the first.

Jumps go to the next tenth, the next whole number, the next ten and so on, as far as there is one
on the way, and then to the first number; together they are the difference. They are added in
columns. Common practice, no source: the England appendix (DFE-00180-2013) has exchange and equal
addition.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from generator.arithmetic.numbers import Number, difference
from generator.arithmetic.questions import Operation, Question
from generator.operations.columns.addition import column_addition
from generator.operations.working import (
    Conventions,
    Ink,
    Jump,
    Mark,
    NumberLine,
    Point,
    Rule,
    Step,
    Working,
    write_line,
)
from specs.languages.saying import joined, say

LINE_ROWS: Final = 5
"""Rows of the number line: sizes, arcs, the line itself, numbers below."""
NARROWEST: Final = 12
"""Squares that a number line has at least."""
_PER_CHARACTER: Final = 2
"""Numbers along the line are smaller than digits: so many of their characters to a square."""


def counting_up(question: Question, conventions: Conventions) -> Working:
    """Subtract the second number from the first by counting up.

    Rows: the number line, then the jumps under one another, their sum and its carried digits.
    A single jump is the answer itself. Raises ValueError when the second number is larger.
    """
    minuend, subtrahend = question.operands
    if minuend.value < subtrahend.value:
        raise ValueError(f"{minuend} − {subtrahend} has no answer from nought upwards")
    jumps = _as_long_as_the_answer(tuple(jumps_between(subtrahend, minuend)), question)
    line = NumberLine(0, LINE_ROWS, subtrahend, minuend)
    about = (0, LINE_ROWS - 1)
    steps = [
        Step(
            say(
                "Draw a number line from {start} to {end}. Count up along it.",
                start=str(subtrahend),
                end=str(minuend),
            ),
            None,
            rows=about,
        )
    ]
    if not jumps:
        said = say(
            "{start} and {end} are equal: nothing is between them.",
            start=str(subtrahend),
            end=str(minuend),
        )
        steps.append(Step(said, None, rows=about))
    for jump in jumps:
        said = say(
            "From {start} to {end} is {size}.",
            start=str(jump.start),
            end=str(jump.end),
            size=str(jump.size),
        )
        steps.append(Step(said, None, rows=about, jumps=(jump,)))
    sizes = tuple(jump.size for jump in jumps) or (question.answer,)
    if len(sizes) > 1:
        below = column_addition(Question(Operation.ADD, sizes), conventions.of_addition)
        steps.extend(_added(below, sizes))
        answer, rows, width = below.answer, below.rows, below.columns
        units_column = below.units_column
    else:
        written = _answer_alone(sizes[0], conventions)
        steps.append(written)
        answer, rows, width, units_column = sizes[0], 1, written_width(written), 0
    return Working(
        rows=LINE_ROWS + rows,
        columns=max(NARROWEST, width, _long_enough(jumps)),
        units_column=units_column,
        point_column=conventions.point_column,
        rules=(),
        steps=tuple(steps),
        answer=answer,
        line=line,
    )


def jumps_between(start: Number, end: Number) -> Iterator[Jump]:
    """The jumps from a number up to a larger one.

    To the next multiple of each power of ten, as long as that is not beyond the end; then by as
    many of the last as there are, and by what is left.
    """
    places = max(start.places, end.places)
    at, last = start.to_places(places).units, end.to_places(places).units
    shown, step = start, 1
    while at < last and 10 * step <= last:
        onward = -(-at // (10 * step)) * 10 * step
        if onward > last:
            break
        if onward > at:
            yield _jump(shown, onward, last, places, end)
            shown, at = _number(onward, last, places, end), onward
        step *= 10
    whole = last // step * step
    for onward in (whole, last):
        if onward > at:
            yield _jump(shown, onward, last, places, end)
            shown, at = _number(onward, last, places, end), onward


def _number(units: int, last: int, places: int, end: Number) -> Number:
    """A stop on the way; the last is written as in the question."""
    return end if units == last else Number(units, places).trimmed()


def _jump(start: Number, onward: int, last: int, places: int, end: Number) -> Jump:
    stop = _number(onward, last, places, end)
    size = difference(stop, start)
    return Jump(start, stop, size if stop is end else size.trimmed())


def _as_long_as_the_answer(jumps: tuple[Jump, ...], question: Question) -> tuple[Jump, ...]:
    """The jumps, the first written with the answer's noughts where none is as long as that."""
    places = question.answer.places
    if not jumps or max(jump.size.places for jump in jumps) >= places:
        return jumps
    first, *others = jumps
    return (replace(first, size=first.size.to_places(places)), *others)


def _added(below: Working, sizes: tuple[Number, ...]) -> Iterator[Step]:
    """The steps of the addition, under the line."""
    set_out, *worked = below.steps
    said = joined((say("Add the {count} jumps.", count=len(sizes)), set_out.sentence))
    addends = max(mark.row for mark in set_out.marks) + LINE_ROWS
    set_out = _lower(replace(set_out, sentence=said, rules=below.rules))
    yield replace(set_out, rows=(0, addends))  # the jumps are read off the line
    first, last = LINE_ROWS, LINE_ROWS + below.rows - 1
    for step in worked:
        yield replace(_lower(step), rows=(first, last))


def _lower(step: Step) -> Step:
    """A step so many rows further down."""
    return replace(
        step,
        marks=tuple(Mark(m.row + LINE_ROWS, m.column, m.text, m.ink) for m in step.marks),
        points=tuple(Point(p.row + LINE_ROWS, p.column, p.ink, p.in_square) for p in step.points),
        rules=tuple(Rule(r.row + LINE_ROWS, r.start, r.end) for r in step.rules),
        lit=tuple((row + LINE_ROWS, column) for row, column in step.lit),
        room=tuple((row + LINE_ROWS, column) for row, column in step.room),
    )


def _answer_alone(size: Number, conventions: Conventions) -> Step:
    """The one jump, which is the answer."""
    line = write_line(str(size), LINE_ROWS, 0, Ink.ANSWER, point_column=conventions.point_column)
    if size.units:
        said = say("One jump: the answer is {answer}.", answer=str(size))
    else:
        said = say("The answer is {answer}.", answer=str(size))
    return Step(said, None, line.marks, line.points)


def written_width(step: Step) -> int:
    """How many squares a step's line of writing takes."""
    return 1 + max(mark.column for mark in step.marks)


def _long_enough(jumps: tuple[Jump, ...]) -> int:
    """Squares that the numbers below the line and the sizes above it need side by side."""
    stops = [*(str(jump.end) for jump in jumps), *(str(jump.start) for jump in jumps[:1])]
    sizes = [f"+{jump.size}" for jump in jumps]
    longest = max(sum(len(text) + 1 for text in texts) for texts in (stops, sizes))
    return 1 + -(-longest // _PER_CHARACTER)
