"""Column subtraction by exchange (decomposition).

Where a column's upper digit is too small, one of the next column's units is exchanged
for ten of this one's. A nought has nothing to exchange, so the exchange starts further
to the left and passes through it. The method is that of the England appendix
(DFE-00180-2013), 932 − 457 by exchange.
"""

from generator.methods.working import (
    Columns,
    Conventions,
    Ink,
    Mark,
    Rule,
    Step,
    Strike,
    Working,
    read_row,
    set_out,
)
from generator.numbers import Number
from generator.place_value import amount, becomes, column_name, is_or_are
from generator.questions import Question

EXCHANGE_ROW = 0
MINUEND_ROW = 1
SUBTRAHEND_ROW = 2
ANSWER_ROW = 3


class _Desk:
    """The minuend's columns while exchanges are made on paper."""

    def __init__(self, minuend: Number, columns: Columns) -> None:
        self.columns = columns
        self.held = {place: minuend.digit(place) for place in columns.from_the_right}
        self.row = dict.fromkeys(columns.from_the_right, MINUEND_ROW)

    def exchange(self, place: int) -> Step:
        """Exchange one unit of the column to the left of ``place`` for ten of this column's."""
        source = place + 1
        lent_from, received_at = self.held[source], self.held[place]
        left, grown = lent_from - 1, received_at + 10
        column, row = self.columns[source], self.row[source]
        marks = (
            Mark(EXCHANGE_ROW, column, str(left), Ink.LEFT),
            Mark(self.row[place], self.columns[place], "1", Ink.TEN),
        )
        self.held[source], self.held[place], self.row[source] = left, grown, EXCHANGE_ROW
        sentence = (
            f"Exchange {amount(1, source)} for {amount(10, place)}: "
            f"{amount(lent_from, source)} {becomes(lent_from)} {amount(left, source)}, and "
            f"{amount(received_at, place)} {becomes(received_at)} {amount(grown, place)}."
        )
        return Step(sentence, self.columns[place], marks, (), (Strike(row, column),))


def column_subtraction(question: Question, conventions: Conventions) -> Working:
    """Subtract the second number from the first in columns, by exchange.

    Rows: what is left after exchanges, the minuend, the subtrahend, the answer. Raises
    ValueError when the second number is larger. Empty places of the minuend always get
    their noughts, as there is nothing to exchange into without them.
    """
    minuend, subtrahend = operands = question.operands
    if minuend.value < subtrahend.value:
        raise ValueError(f"{minuend} − {subtrahend} has no answer from nought upwards")
    columns = Columns.holding(operands, point_column=conventions.point_column)
    answer_top = answer_top_place(minuend, subtrahend, columns)
    desk = _Desk(minuend, columns)
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
    for place in columns.from_the_right:
        taken = subtrahend.digit(place)
        if desk.held[place] < taken:
            steps.extend(_exchanges(desk, place, taken))
        steps.append(_subtract_column(desk, place, subtrahend, answer_top))
    return Working(
        rows=ANSWER_ROW + 1,
        columns=columns.count,
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(Rule(ANSWER_ROW, 0, columns.count - 1), Rule(ANSWER_ROW + 1, 0, columns.count - 1)),
        steps=tuple(steps),
        answer=read_row(steps, ANSWER_ROW, columns),
    )


def _exchanges(desk: _Desk, place: int, taken: int) -> list[Step]:
    """The exchanges that make a column's upper digit large enough, from the left-most."""
    source = place + 1
    while desk.held[source] == 0:
        source += 1
    steps = [desk.exchange(at) for at in range(source - 1, place - 1, -1)]
    too_few = desk.held[place] - 10
    why = f"{amount(too_few, place)} {is_or_are(too_few)} less than {amount(taken, place)}"
    if source > place + 1:
        empty = [column_name(at) for at in range(place + 1, source)]
        why += f", and there are no {' and no '.join(empty)} to exchange"
    first = steps[0]
    steps[0] = Step(
        f"{why}. {first.sentence}", first.column, first.marks, first.points, first.strikes
    )
    return steps


def _subtract_column(desk: _Desk, place: int, subtrahend: Number, answer_top: int) -> Step:
    held, taken = desk.held[place], subtrahend.digit(place)
    left, column = held - taken, desk.columns[place]
    sentence = f"{amount(held, place)} − {amount(taken, place)} = {amount(left, place)}"
    if place > answer_top:
        return Step(f"{sentence}: no digit is needed in front.", column)
    if place > subtrahend.top_place:
        sentence = f"Nothing to take from {amount(held, place)}"
    return Step(
        f"{sentence}: write {left}.", column, (Mark(ANSWER_ROW, column, str(left), Ink.ANSWER),)
    )


def answer_top_place(minuend: Number, subtrahend: Number, columns: Columns) -> int:
    """The place of the answer's first written digit: no noughts stand in front of the ones."""
    borrow, top = 0, 0
    for place in columns.from_the_right:
        left = minuend.digit(place) - borrow - subtrahend.digit(place)
        borrow = 1 if left < 0 else 0
        if left % 10 and place > 0:
            top = place
    return top


def setting_out_sentence(minuend: Number, subtrahend: Number) -> str:
    """What is said when a subtraction is set out."""
    if minuend.places == subtrahend.places == 0:
        return "Set the numbers out: ones under ones, the number to subtract below."
    if minuend.places < subtrahend.places:
        return (
            "Set the numbers out with the points in line. "
            "Noughts fill the empty places, so that there is something to subtract from."
        )
    if minuend.places > subtrahend.places:
        return "Set the numbers out with the points in line. Noughts fill the empty places."
    return "Set the numbers out with the points in line."
