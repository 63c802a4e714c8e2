"""Multiplying and dividing by 10, 100 and 1000: the digits move, the point stays.

On a place-value grid every digit moves as many columns as the power of ten has noughts: to
the left when multiplying, to the right when dividing (common practice, no source).
"""

from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import becomes, column_name
from generator.arithmetic.questions import Operation, Question
from generator.operations.spoken import amount
from generator.operations.working import (
    Columns,
    Conventions,
    Ink,
    Mark,
    Rule,
    Step,
    Working,
    read_number,
)
from specs.languages.saying import all_of, counted, say, say_of, several

HEADINGS: Final = {
    6: say_of("column", "M"),
    5: say_of("column", "HTh"),
    4: say_of("column", "TTh"),
    3: say_of("column", "Th"),
    2: say_of("column", "H"),
    1: say_of("column", "T"),
    0: say_of("column", "O"),
    -1: say_of("column", "t"),
    -2: say_of("column", "h"),
    -3: say_of("column", "th"),
    -4: say_of("column", "tth"),
    -5: say_of("column", "hth"),
    -6: say_of("column", "m"),
}
"""How the columns are headed (common practice, no source)."""

_TO_THE_LEFT: Final = counted(
    "{sign} {power}: each digit moves {count} column to the left, and the point stays where it is.",
    "{sign} {power}: each digit moves {count} columns to the left, "
    "and the point stays where it is.",
)
_TO_THE_RIGHT: Final = counted(
    "{sign} {power}: each digit moves {count} column to the right, "
    "and the point stays where it is.",
    "{sign} {power}: each digit moves {count} columns to the right, "
    "and the point stays where it is.",
)

_HEADING_ROW, _NUMBER_ROW, _ANSWER_ROW = range(3)


def moving_digits(question: Question, conventions: Conventions) -> Working:
    """Move the digits of a number. The question's power of ten must be 10, 100 or 1000."""
    number = question.operands[0]
    multiplies = question.operation is Operation.MULTIPLY
    moved = question.power_of_ten if multiplies else -question.power_of_ten
    digits = {place + moved: number.digit(place) for place in _written(number)}
    top, last = _ends(digits)
    columns = Columns(
        max(number.top_place, top), min(number.last_place, last), conventions.point_column
    )
    steps = [_set_out(number, columns), _told(question, columns, has_point=last < 0)]
    for place in sorted(digits, reverse=True):
        steps.append(_moved(place, place - moved, digits[place], columns, last))
    noughts = [place for place in range(top, last - 1, -1) if place not in digits]
    if noughts:
        steps.append(_filled(noughts, columns))
    return Working(
        rows=3,
        columns=columns.count,
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(Rule(_NUMBER_ROW, 0, columns.count - 1), Rule(_ANSWER_ROW, 0, columns.count - 1)),
        steps=tuple(steps),
        answer=read_number(steps, _ANSWER_ROW, Ink.ANSWER),
    )


def _written(number: Number) -> range:
    """The places of the digits that move: not of a nought that only stands before the point."""
    top = number.top_place
    while number.digit(top) == 0 and top > number.last_place:
        top -= 1
    return range(top, number.last_place - 1, -1)


def _ends(digits: dict[int, int]) -> tuple[int, int]:
    """The first and last place of the answer: ones at least, and no nought ends its decimals."""
    last = min(digits)
    while last < 0 and not digits.get(last, 0):
        last += 1
    return max(0, *digits), min(last, 0)


def _set_out(number: Number, columns: Columns) -> Step:
    given = columns.set_number(number, _NUMBER_ROW, Ink.GIVEN, number.last_place)
    heads = tuple(
        Mark(_HEADING_ROW, columns[place], HEADINGS[place], Ink.HEADING)
        for place in reversed(columns.from_the_right)
        if place in HEADINGS
    )
    said = say("Set {number} out in its columns.", number=str(number))
    return Step(said, None, (*heads, *given.marks), given.points)


def _told(question: Question, columns: Columns, *, has_point: bool) -> Step:
    moves = _TO_THE_LEFT if question.operation is Operation.MULTIPLY else _TO_THE_RIGHT
    sentence = several(
        *moves,
        question.power_of_ten,
        sign=question.operation.sign,
        power=str(question.operands[1]),
    )
    points = (columns.point(_ANSWER_ROW, Ink.ANSWER),) if has_point else ()
    return Step(sentence, None, (), points)


def _moved(place: int, before: int, digit: int, columns: Columns, last: int) -> Step:
    change = becomes(digit, amount(digit, before), amount(digit, place))
    if place < last:
        return Step(say("{change}: no nought is needed at the end.", change=change), None)
    written = Mark(_ANSWER_ROW, columns[place], str(digit), Ink.ANSWER)
    return Step(say("{change}.", change=change), columns[place], (written,))


def _filled(noughts: list[int], columns: Columns) -> Step:
    sentence = several(
        "Write a nought in the empty {columns} column.",
        "Write noughts in the empty {columns} columns.",
        len(noughts),
        columns=all_of([column_name(place) for place in noughts]),
    )
    marks = tuple(Mark(_ANSWER_ROW, columns[place], "0", Ink.ANSWER) for place in noughts)
    return Step(sentence, None, marks)
