"""Column subtraction by exchange (decomposition).

Where a column's upper digit is too small, one of the next column's units is exchanged
for ten of this one's. A nought has nothing to exchange, so the exchange starts further
to the left and passes through it. The method is that of the England appendix
(DFE-00180-2013), 932 − 457 by exchange.
"""

from collections.abc import Iterator
from dataclasses import replace

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import amount, becomes, column_name, is_or_are
from generator.arithmetic.questions import Question
from generator.operations.columns.subtraction_columns import Subtraction, in_columns
from generator.operations.working import Columns, Conventions, Ink, Mark, Step, Strike, Working

EXCHANGE_ROW = 0
MINUEND_ROW = 1


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
    return in_columns(question, conventions, MINUEND_ROW, _by_exchange)


def _by_exchange(setting: Subtraction) -> Iterator[Step]:
    """The columns from the right, each after the exchanges that it needs."""
    desk = _Desk(setting.minuend, setting.columns)
    for place in setting.columns.from_the_right:
        taken = setting.subtrahend.digit(place)
        if desk.held[place] < taken:
            yield from _exchanges(desk, place, taken)
        yield setting.column(place, desk.held[place], taken)


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
    steps[0] = replace(steps[0], sentence=f"{why}. {steps[0].sentence}")
    return steps
