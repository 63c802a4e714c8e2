"""Column subtraction by exchange (decomposition).

Where a column's upper digit is too small, one of the next column's units is exchanged
for ten of this one's. A nought has nothing to exchange, so the exchange starts further
to the left and passes through it. The method is that of the England appendix
(DFE-00180-2013), 932 − 457 by exchange.
"""

from collections.abc import Iterator
from dataclasses import replace

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import amount, becomes, column_name, is_less
from generator.arithmetic.questions import Question
from generator.operations.columns.subtraction_columns import Subtraction, in_columns
from generator.operations.working import (
    Columns,
    Conventions,
    Ink,
    Mark,
    Square,
    Step,
    Strike,
    Working,
)
from specs.languages.saying import joined, say

EXCHANGE_ROW = 0
MINUEND_ROW = 1
SUBTRAHEND_ROW = 2


class _Desk:
    """The minuend's columns while exchanges are made on paper."""

    def __init__(self, minuend: Number, columns: Columns) -> None:
        self.columns = columns
        self.held = {place: minuend.digit(place) for place in columns.from_the_right}
        self.row = dict.fromkeys(columns.from_the_right, MINUEND_ROW)

    def square(self, place: int) -> Square:
        """Where a column's upper digit stands now."""
        return self.row[place], self.columns[place]

    def exchange(self, place: int, *, both: bool = False) -> Step:
        """Exchange one unit of the column to the left of ``place`` for ten of this column's.

        With ``both`` the squares of the two are lit, and not the whole column.
        """
        lit = tuple(self.square(at) for at in (place + 1, place)) if both else ()
        source = place + 1
        lent_from, received_at = self.held[source], self.held[place]
        left, grown = lent_from - 1, received_at + 10
        column, row = self.columns[source], self.row[source]
        marks = (
            Mark(EXCHANGE_ROW, column, str(left), Ink.LEFT),
            Mark(self.row[place], self.columns[place], "1", Ink.TEN),
        )
        self.held[source], self.held[place], self.row[source] = left, grown, EXCHANGE_ROW
        sentence = say(
            "Exchange {one} for {ten}: {lent}, and {received}.",
            one=amount(1, source),
            ten=amount(10, place),
            lent=becomes(lent_from, amount(lent_from, source), amount(left, source)),
            received=becomes(received_at, amount(received_at, place), amount(grown, place)),
        )
        lit = (*lit, (EXCHANGE_ROW, column)) if both else ()
        return Step(sentence, self.columns[place], marks, (), (Strike(row, column),), lit=lit)


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
    held = desk.held[place]
    why = say("{less}.", less=is_less(held, amount(held, place), amount(taken, place)))
    if source == place + 1:
        step = desk.exchange(place)
        return [replace(step, sentence=joined((why, step.sentence)))]
    return [
        Step(why, None, lit=(desk.square(place), (SUBTRAHEND_ROW, desk.columns[place]))),
        *(
            Step(
                say(
                    "There are no {these} to exchange: look at the {next}.",
                    these=column_name(at),
                    next=column_name(at + 1),
                ),
                None,
                lit=(desk.square(at),),
            )
            for at in range(place + 1, source)
        ),
        *(desk.exchange(at, both=True) for at in range(source - 1, place - 1, -1)),
    ]
