"""A working as a pupil meets it: what is given, and squares for what is to be written."""

from dataclasses import replace
from typing import Final

from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.working import Ink, Mark, Rule, Step, Working

ROWS_TO_TRY: Final = 4
"""Free rows below a division by two digits, to try multiples of the divisor in."""


def scaffold(question: Question, working: Working) -> Working:
    """The working as a pupil meets it: given digits, sign and rules, and room for the rest.

    Additions all have one free column between the sign and the longest number, whether or
    not the answer will need it: the room must not tell the answer's length. A question that
    is first written on a line and then worked below it leaves its squares empty: the line
    is printed in words. A label needs the top left square free.
    """
    given = working.setting_out
    if working.line is not None:
        return replace(working, steps=(Step("", None),))
    if on_a_line(working):
        step = _outlined(working.outline) if working.outline else Step("", None)
        return Working(working.rows - 1, working.columns, 0, (), (step,), working.answer)
    marks = tuple(mark for mark in given.marks if mark.ink in (Ink.GIVEN, Ink.SIGN))
    points = tuple(point for point in given.points if point.ink is Ink.GIVEN)
    bare = replace(working, steps=(Step("", None, marks, points),))
    if question.operation is Operation.ADD:
        sign = max(mark.column for mark in marks if mark.ink is Ink.SIGN)
        first = min(mark.column for mark in marks if mark.ink is Ink.GIVEN)
        return _widened(bare) if first == sign + 1 else bare
    noted = any(mark.ink is Ink.NOTE for mark in working.marks())
    if working.room is not None:
        rows, columns = working.room
        columns = max(columns, working.columns) if noted else columns
        bare = replace(bare, rows=max(rows, bare.rows), columns=columns)
    elif question.operation is Operation.DIVIDE:
        columns = _room_for_quotient(question, bare)
        if noted:
            columns = max(columns, working.columns)
        bare = replace(bare, columns=columns, rows=_rows_of_division(question, bare))
    beside_label = min(marks, key=lambda mark: mark.column)
    is_sign = beside_label.ink is Ink.SIGN
    return bare if is_sign or beside_label.column else _widened(bare, keeping=())


def _rows_of_division(question: Question, bare: Working) -> int:
    """The half-box and rows below it: to try multiples in, or to take them away in.

    Of these there are two for each digit of the dividend at least: fewer would tell the steps.
    """
    dividend, divisor = question.operands
    half_box = 1 + max(mark.row for mark in bare.setting_out.marks)
    if bare.rows > half_box:
        return max(bare.rows, half_box + 2 * len(str(dividend.units)))
    return bare.rows + (ROWS_TO_TRY if len(str(divisor.units)) > 1 else 0)


def _room_for_quotient(question: Question, bare: Working) -> int:
    """Columns of a half-box with room after it for how the division ends.

    The room hangs on what is asked alone: it must not tell the quotient.
    """
    given = 1 + max(mark.column for mark in bare.setting_out.marks)
    point = int(bare.point_column and not bare.setting_out.points)  # still to be written
    match question.ending:
        case Ending.EXACT | Ending.MOVED:
            return given
        case Ending.REMAINDER | Ending.FRACTION:
            return given + 1 + len(str(question.operands[1].units))
        case Ending.DECIMAL:
            return given + 3 + point
        case Ending.ROUNDED:
            return given + question.places + 1 + point


def _outlined(outline: Step) -> Step:
    """What may be given of a method, a row higher: the question's own row is printed in words."""
    return Step(
        "",
        None,
        tuple(replace(mark, row=mark.row - 1) for mark in outline.marks),
        rules=tuple(replace(rule, row=rule.row - 1) for rule in outline.rules),
        uprights=tuple(
            replace(line, start=line.start - 1, end=line.end - 1) for line in outline.uprights
        ),
    )


def on_a_line(working: Working) -> bool:
    """Whether the question stands on the first row alone, with its working below it.

    A division that is set out so that its answer stands on that row too is not one.
    """
    if working.dividend_row is not None:
        return working.dividend_row > 1
    return not working.rules and working.rows > 1


def _widened(bare: Working, keeping: tuple[Ink, ...] = (Ink.SIGN,)) -> Working:
    """The same scaffold with one more column, after the sign's where that keeps its place."""
    (given,) = bare.steps

    def moved(mark: Mark) -> Mark:
        return mark if mark.ink in keeping else replace(mark, column=mark.column + 1)

    first = 0 if keeping else 1

    return replace(
        bare,
        columns=bare.columns + 1,
        units_column=bare.units_column + 1,
        rules=tuple(Rule(rule.row, rule.start + first, rule.end + 1) for rule in bare.rules),
        uprights=tuple(replace(line, column=line.column + 1) for line in bare.uprights),
        steps=(
            replace(
                given,
                marks=tuple(map(moved, given.marks)),
                points=tuple(replace(point, column=point.column + 1) for point in given.points),
            ),
        ),
    )
