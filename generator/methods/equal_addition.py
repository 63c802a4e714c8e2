"""Column subtraction by equal addition.

Where a column's upper digit is too small, ten is added to it and one to the lower digit of
the next column, so that both numbers grow by the same amount and their difference stays. The
method is the other one of the England appendix (DFE-00180-2013), 932 − 457.
"""

from generator.methods.subtraction import answer_top_place, setting_out_sentence
from generator.methods.working import (
    Columns,
    Conventions,
    Ink,
    Mark,
    Rule,
    Step,
    Working,
    read_row,
    set_out,
)
from generator.numbers import Number
from generator.place_value import amount, becomes, is_or_are
from generator.questions import Question

MINUEND_ROW = 0
SUBTRAHEND_ROW = 1
ANSWER_ROW = 2


def equal_addition(question: Question, conventions: Conventions) -> Working:
    """Subtract the second number from the first in columns, by equal addition.

    Rows: the minuend, the subtrahend, the answer. Raises ValueError when the second number
    is larger. Empty places of the minuend always get their noughts.
    """
    minuend, subtrahend = operands = question.operands
    if minuend.value < subtrahend.value:
        raise ValueError(f"{minuend} − {subtrahend} has no answer from nought upwards")
    columns = Columns.holding(operands, point_column=conventions.point_column)
    answer_top = answer_top_place(minuend, subtrahend, columns)
    steps = [
        set_out(
            operands,
            columns,
            range(MINUEND_ROW, ANSWER_ROW),
            "−",
            setting_out_sentence(minuend, subtrahend),
            placeholders=conventions.placeholders or minuend.places < subtrahend.places,
        )
    ]
    if columns.last < 0:
        point = columns.point(ANSWER_ROW, Ink.ANSWER)
        steps.append(
            Step("The point in the answer stands under the other points.", None, (), (point,))
        )
    added = 0
    for place in columns.from_the_right:
        upper, lower = minuend.digit(place), subtrahend.digit(place) + added
        added = 1 if upper < lower else 0
        if added:
            steps.append(_addition(columns, place, upper, lower, subtrahend.digit(place + 1)))
            upper += 10
        steps.append(_column(columns, place, upper, lower, subtrahend, answer_top))
    return Working(
        rows=ANSWER_ROW + 1,
        columns=columns.count,
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(Rule(ANSWER_ROW, 0, columns.count - 1), Rule(ANSWER_ROW + 1, 0, columns.count - 1)),
        steps=tuple(steps),
        answer=read_row(steps, ANSWER_ROW, columns),
    )


def _addition(columns: Columns, place: int, upper: int, lower: int, next_lower: int) -> Step:
    """Ten more above, one more of the next column below."""
    grown = amount(next_lower + 1, place + 1)
    sentence = (
        f"{amount(upper, place)} {is_or_are(upper)} less than {amount(lower, place)}. "
        f"Add {amount(10, place)} above and {amount(1, place + 1)} below: "
        f"{amount(upper, place)} {becomes(upper)} {amount(upper + 10, place)}, and "
        f"{amount(next_lower, place + 1)} {becomes(next_lower)} {grown}."
    )
    marks = (
        Mark(MINUEND_ROW, columns[place], "1", Ink.TEN),
        Mark(SUBTRAHEND_ROW, columns[place + 1], "1", Ink.ADDED),
    )
    return Step(sentence, columns[place], marks)


def _column(
    columns: Columns, place: int, upper: int, lower: int, subtrahend: Number, answer_top: int
) -> Step:
    left, column = upper - lower, columns[place]
    sentence = f"{amount(upper, place)} − {amount(lower, place)} = {amount(left, place)}"
    if place > answer_top:
        return Step(f"{sentence}: no digit is needed in front.", column)
    if place > subtrahend.top_place and not lower:
        sentence = f"Nothing to take from {amount(upper, place)}"
    return Step(
        f"{sentence}: write {left}.", column, (Mark(ANSWER_ROW, column, str(left), Ink.ANSWER),)
    )
