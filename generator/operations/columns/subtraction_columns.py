"""What exchange and equal addition share: the setting out, and what each column leaves."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import amount
from generator.arithmetic.questions import Question
from generator.operations.working import (
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
from specs.languages.saying import say


@dataclass(frozen=True, slots=True)
class Subtraction:
    """A subtraction set out in columns; its first number stands in ``minuend_row``.

    The second number stands in the row below, and the answer below that; ``answer_top_place``
    is the place of the answer's first written digit.
    """

    minuend: Number
    subtrahend: Number
    columns: Columns
    minuend_row: int
    answer_top_place: int

    @property
    def answer_row(self) -> int:
        """The row in which the answer is written."""
        return self.minuend_row + 2

    def column(self, place: int, upper: int, lower: int) -> Step:
        """One column subtracted, once its upper figure is as large as the lower one."""
        left, column = upper - lower, self.columns[place]
        taken = say(
            "{upper} − {lower} = {left}",
            upper=amount(upper, place),
            lower=amount(lower, place),
            left=amount(left, place),
        )
        if place > self.answer_top_place:
            return Step(say("{taken}: no digit is needed in front.", taken=taken), column)
        if place > self.subtrahend.top_place and not lower:
            taken = say("Nothing is taken from {upper}", upper=amount(upper, place))
        mark = Mark(self.answer_row, column, str(left), Ink.ANSWER)
        return Step(say("{taken}: write {digit}.", taken=taken, digit=left), column, (mark,))


def in_columns(
    question: Question,
    conventions: Conventions,
    minuend_row: int,
    worked: Callable[[Subtraction], Iterator[Step]],
) -> Working:
    """Set a subtraction out, and have its columns ``worked`` from the right.

    Empty places of the minuend always get their noughts, as there is nothing to subtract from
    without them. Raises ValueError when the second number is larger.
    """
    minuend, subtrahend = operands = question.operands
    if minuend.value < subtrahend.value:
        raise ValueError(f"{minuend} − {subtrahend} has no answer from nought upwards")
    columns = Columns.holding(operands, point_column=conventions.point_column)
    answer_top = _answer_top_place(minuend, subtrahend, columns)
    setting = Subtraction(minuend, subtrahend, columns, minuend_row, answer_top)
    answer_row = setting.answer_row
    steps = [
        set_out(
            operands,
            columns,
            range(minuend_row, answer_row),
            "−",
            _set_out_in_words(minuend, subtrahend, placeholders=conventions.placeholders),
            placeholders=conventions.placeholders or minuend.places < subtrahend.places,
        )
    ]
    if columns.last < 0:
        point = columns.point(answer_row, Ink.ANSWER)
        steps.append(
            Step(say("The point in the answer stands under the other points."), None, (), (point,))
        )
    steps.extend(worked(setting))
    return Working(
        rows=answer_row + 1,
        columns=columns.count,
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(Rule(answer_row, 0, columns.count - 1), Rule(answer_row + 1, 0, columns.count - 1)),
        steps=tuple(steps),
        answer=read_row(steps, answer_row, columns),
    )


def _answer_top_place(minuend: Number, subtrahend: Number, columns: Columns) -> int:
    """The place of the answer's first written digit: no noughts stand in front of the ones."""
    borrow, top = 0, 0
    for place in columns.from_the_right:
        left = minuend.digit(place) - borrow - subtrahend.digit(place)
        borrow = 1 if left < 0 else 0
        if left % 10 and place > 0:
            top = place
    return top


def _set_out_in_words(minuend: Number, subtrahend: Number, *, placeholders: bool) -> str:
    if minuend.places == subtrahend.places == 0:
        return say("Set the numbers out: ones under ones, the number to subtract below.")
    if minuend.places < subtrahend.places:
        return say(
            "Set the numbers out with the points in line. "
            "Noughts fill the empty places, so that there is something to subtract from."
        )
    if minuend.places > subtrahend.places and placeholders:
        return say("Set the numbers out with the points in line. Noughts fill the empty places.")
    return say("Set the numbers out with the points in line.")
