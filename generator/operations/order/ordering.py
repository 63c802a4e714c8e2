"""Numbers put in order, or compared, column by column from the left.

The numbers stand under one another with the points in line. The left-most column in which
they differ tells them apart; the numbers that are still alike there are looked at one
column further to the right (common practice, no source).
"""

from functools import reduce
from itertools import pairwise

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import amount, column_name_first, is_less
from generator.arithmetic.questions import Question
from generator.operations.working import (
    Columns,
    Conventions,
    Ink,
    Rule,
    Step,
    Working,
    line_width,
    read_number,
    write_line,
)
from specs.languages.saying import Saying, all_of, joined, say

_Alike = list[Number]
"""Numbers that the columns looked at so far have not told apart, in the order of the question."""


def ordering(question: Question, conventions: Conventions) -> Working:
    """Put the numbers in order, smallest first, in rows below them."""
    columns, steps, alike = _told_apart(question, conventions)
    numbers = [number for group in alike for number in group]
    first = len(numbers)
    rows = [
        columns.set_number(number, first + at, Ink.ANSWER, number.last_place)
        for at, number in enumerate(numbers)
    ]
    steps.append(
        Step(
            say("In order, smallest first: {numbers}.", numbers=", ".join(map(str, numbers))),
            None,
            tuple(mark for row in rows for mark in row.marks),
            tuple(point for row in rows for point in row.points),
        )
    )
    return Working(
        rows=2 * len(numbers),
        columns=columns.count,
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(Rule(first, 0, columns.count - 1),),
        steps=tuple(steps),
        answer=read_number(steps, 2 * len(numbers) - 1, Ink.ANSWER),
    )


def comparison(question: Question, conventions: Conventions) -> Working:
    """Compare two numbers and write the sign between them."""
    columns, steps, alike = _told_apart(question, conventions)
    first, second = question.operands
    sign = "=" if len(alike) == 1 else "<" if alike[0] == [first] else ">"
    line, own_column = f"{first}{sign}{second}", conventions.point_column
    written = write_line(line, 2, 1, Ink.ANSWER, point_column=own_column)
    steps.append(Step(_compared(first, sign, second), None, written.marks, written.points))
    width = max(columns.count, 1 + line_width(line, point_column=own_column))
    return Working(
        rows=3,
        columns=width,
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(Rule(2, 0, width - 1),),
        steps=tuple(steps),
        answer=alike[-1][0],
    )


def _compared(first: Number, sign: str, second: Number) -> Saying:
    """``0.4 is less than 0.42.``"""
    numbers = {"first": str(first), "second": str(second)}
    match sign:
        case "<":
            return say("{first} is less than {second}.", **numbers)
        case ">":
            return say("{first} is greater than {second}.", **numbers)
    return say("{first} is equal to {second}.", **numbers)


def _told_apart(
    question: Question, conventions: Conventions
) -> tuple[Columns, list[Step], list[_Alike]]:
    """The numbers set out and looked at column by column: groups of alike ones, smallest first."""
    numbers = question.operands
    columns = Columns.holding(numbers, point_column=conventions.point_column)
    steps = [_set_out(numbers, columns, conventions)]
    alike = [list(numbers)]
    for place in reversed(columns.from_the_right):
        if all(len(group) == 1 for group in alike):
            break
        split = [part for group in alike for part in _split(group, place)]
        steps.append(Step(_column_sentence(alike, split, place), columns[place]))
        alike = split
    return columns, steps, alike


def _set_out(numbers: tuple[Number, ...], columns: Columns, conventions: Conventions) -> Step:
    filled = conventions.placeholders and len({number.places for number in numbers}) > 1
    rows = [
        columns.set_number(number, row, Ink.GIVEN, columns.last if filled else number.last_place)
        for row, number in enumerate(numbers)
    ]
    if filled:
        said = say("Set the numbers out with the points in line. Noughts fill the empty places.")
    elif columns.last < 0:
        said = say("Set the numbers out with the points in line.")
    else:
        said = say("Set the numbers out with ones under ones.")
    return Step(
        said,
        None,
        tuple(mark for row in rows for mark in row.marks),
        tuple(point for row in rows for point in row.points),
    )


def _split(group: _Alike, place: int) -> list[_Alike]:
    """The group taken apart by the digits of a column, smallest digit first."""
    digits = sorted({number.digit(place) for number in group})
    return [[number for number in group if number.digit(place) == digit] for digit in digits]


def _column_sentence(alike: list[_Alike], split: list[_Alike], place: int) -> str:
    looked_at = [number for group in alike if len(group) > 1 for number in group]
    if len(alike) == 1:
        digits = all_of([str(number.digit(place)) for number in looked_at])
    else:
        digits = all_of([_digit_of(number, place) for number in looked_at])
    seen = say("{column}: {digits}.", column=column_name_first(place), digits=digits)
    if len(split) == len(alike):
        return joined((seen, _no_difference(place, alike, looked_at)))
    whys = [_why(group, place) for group in alike if len(_split(group, place)) > 1]
    still = _still_alike(split)
    left = say("{numbers} are still alike.", numbers=still) if still else ""
    return joined((seen, *whys, left))


def _digit_of(number: Number, place: int) -> Saying:
    return say("{digit} for {number}", digit=number.digit(place), number=str(number))


def _why(group: _Alike, place: int) -> str:
    """``1 tenth is less than 6 tenths.``: the digits of a column, each less than the next."""
    digits = sorted({number.digit(place) for number in group})
    lesser = [
        is_less(less, amount(less, place), amount(more, place)) for less, more in pairwise(digits)
    ]
    return say("{less}.", less=all_of(lesser))


def _no_difference(place: int, alike: list[_Alike], looked_at: list[Number]) -> str:
    if place == min(number.last_place for number in looked_at):
        return say("No column is left to tell them apart.")
    if len({number.digit(place) for number in looked_at}) == 1:
        return say("All the same: look one column further to the right.")
    return say(
        "{numbers} are still alike: look one column further to the right.",
        numbers=_still_alike(alike),
    )


def _still_alike(groups: list[_Alike]) -> str:
    """``0.4 and 0.42, and 0.57 and 0.58``."""
    found = [all_of(list(map(str, group))) for group in groups if len(group) > 1]
    return reduce(_and_those, found) if found else ""


def _and_those(these: str, those: str) -> str:
    return say("{these}, and {those}", these=these, those=those)
