"""Division by chunks: easy multiples of the divisor are taken away until too little is left.

How many there were of the divisor in each chunk stands beside it, and together they make the
quotient. The England appendix (DFE-00180-2013) writes 432 ÷ 15 so, by 20 × 15 and 8 × 15; that
chunks of a long divisor are of 1, 2 or 5 of a place's units is common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, NamedTuple

from generator.arithmetic.numbers import Number, difference, total
from generator.arithmetic.place_value import is_less
from generator.arithmetic.questions import Ending, Question
from generator.operations.quotients.division import KNOWN_TABLES, MOST_PLACES, Desk, worked_on
from generator.operations.working import (
    Conventions,
    Ink,
    Mark,
    Rule,
    Step,
    Working,
    write_line,
)
from specs.languages.saying import say, several

_EASY: Final = (5, 2, 1)
"""How many of a divisor that is in no table are known at once."""
_NO_BREAK: Final = "\N{NO-BREAK SPACE}"
_KNOWN: Final = tuple(range(9, 0, -1))


def chunking(question: Question, conventions: Conventions) -> Working:
    """Divide the first number by the second by taking chunks away.

    Rows: with a decimal divisor the question and its equal with a whole one, and a free row;
    then the quotient, the dividend, and two rows for each chunk, which is named at their right.
    Raises ValueError for a divisor of nought and for a quotient that would never end.
    """
    return worked_on(_ChunkDesk.for_question(question, conventions), question)


class Chunk(NamedTuple):
    """So many of the divisor, and what they make."""

    many: Number
    made: Number


def chunks_of(dividend: Number, divisor: int, last_place: int | None) -> Iterator[Chunk]:
    """The chunks of a dividend, from the largest.

    Down to those of ``last_place``; without it, until nothing is left. Raises ValueError where
    that would never be.
    """
    left, place = dividend, dividend.top_place
    multiples = _KNOWN if divisor <= KNOWN_TABLES else _EASY
    while left.units and (last_place is None or place >= last_place):
        if place < -MOST_PLACES:
            raise ValueError(f"{dividend} ÷ {divisor} never ends")
        for multiple in multiples:
            many = _of_place(multiple, place)
            made = _of_place(multiple * divisor, place)
            while made.value <= left.value:
                yield Chunk(many, made)
                left = difference(left, made)
        place -= 1


def _of_place(count: int, place: int) -> Number:
    """So many of a place's units, as a number is written."""
    return Number(count * 10 ** max(place, 0), max(-place, 0))


@dataclass
class _ChunkDesk(Desk):
    """The half-box and the chunks below it; the last row written holds what is left."""

    rows_below: int = 0

    @property
    def last_row(self) -> int:
        """The last row that is written in."""
        return self.dividend_row + self.rows_below

    def divide(self, steps: list[Step]) -> None:
        """Take the chunks away one after another, and put how many there were together."""
        chunks = list(chunks_of(self.dividend, self.divisor, self.last_place))
        longest = [self.dividend.places, *(chunk.made.places for chunk in chunks)]
        notes = self.columns[-max(longest)] + 2
        if self.divisor > KNOWN_TABLES and chunks:
            steps.append(self._easy_multiples())
        left = self.dividend
        for chunk in chunks:
            if chunk.made.places > left.places:
                longer = left.to_places(chunk.made.places)
                steps.append(self._lengthened(left, longer))
                left = longer
            rest = difference(left, chunk.made)
            rest = rest if rest.units else Number(0)
            steps.extend(self._taken_away(left, chunk, rest, notes))
            left = rest
        stops = self.last_place if self.last_place is not None else -max(longest)
        self.end = min(self.dividend.last_place, stops)
        self.carried = left.units // 10**left.places
        steps.append(self._put_together([chunk.many for chunk in chunks], max(-stops, 0)))

    def _easy_multiples(self) -> Step:
        """The multiples that chunks are taken from."""
        known = ", ".join(f"{n} × {self.divisor} = {n * self.divisor}" for n in (1, 2, 5, 10))
        known = known.replace(" ×", f"{_NO_BREAK}×")
        return Step(say("Some easy multiples: {known}.", known=known), None)

    def _lengthened(self, left: Number, longer: Number) -> Step:
        """Noughts after what is left, so that there is something to take from."""
        row = self.last_row
        written = self.columns.set_number(longer, row, Ink.PLACEHOLDER, longer.last_place)
        new = [
            self.columns[place] for place in range(left.last_place - 1, longer.last_place - 1, -1)
        ]
        marks = tuple(mark for mark in written.marks if mark.column in new)
        points = () if left.places else written.points
        over = [*(point.column for point in points if point.in_square), *new]
        if row != self.dividend_row:
            over = []
        return Step(
            several(
                "{number} is {longer}: write the nought.",
                "{number} is {longer}: write the noughts.",
                len(marks),
                number=left,
                longer=longer,
            ),
            new[-1],
            marks,
            points,
            rules=tuple(Rule(row, column, column) for column in over),
            lit=tuple((row, column) for column in new),
        )

    def _taken_away(self, left: Number, chunk: Chunk, rest: Number, notes: int) -> Iterator[Step]:
        """A chunk under what is left, and the new rest."""
        row, last = self.last_row + 1, self.columns[left.last_place]
        self.rows_below += 2
        made = self._written(chunk.made, row)
        note = f"{chunk.many}×{self.divisor}"
        named = write_line(note, row, notes, Ink.NOTE, point_column=self.columns.point_column)
        noted = tuple(Mark(m.row, m.column, m.text, Ink.NOTE) for m in named.marks)
        sign = self.columns[left.top_place] - 1
        lit = [(mark.row, mark.column) for mark in (*made.marks, *noted)]
        yield Step(
            say(
                "{many} × {divisor} = {made}: take {made} away.",
                many=chunk.many,
                divisor=self.divisor,
                made=chunk.made,
            ),
            None,
            (Mark(row, sign, "−", Ink.SIGN), *made.marks, *noted),
            (*made.points, *named.points),
            lit=tuple(lit),
        )
        below = self._written(rest, row + 1)
        above = self._written(left, row - 1)
        worked = f"{left} − {chunk.made} = {rest}"
        yield Step(
            say("{worked}: write {digit}.", worked=worked, digit=rest),
            None,
            below.marks,
            below.points,
            rules=(Rule(row + 1, sign, last),),
            lit=tuple((m.row, m.column) for m in (*above.marks, *made.marks, *below.marks)),
        )

    def _written(self, number: Number, row: int) -> Step:
        return self.columns.set_number(number, row, Ink.PARTIAL, number.last_place)

    def _put_together(self, many: list[Number], places: int) -> Step:
        """How many of the divisor there were in all: the quotient, above the dividend."""
        if not many:
            too_few = is_less(1, str(self.dividend), str(self.divisor))
            if self.ending is Ending.FRACTION:
                return Step(say("{why}: no whole number in the answer.", why=too_few), None)
            nought = self.columns.set_number(
                Number(0, places), self.quotient_row, self.digit_ink, -places
            )
            said = say("{worked}: write {quotient} above.", worked=too_few, quotient=0)
            return Step(said, None, nought.marks, nought.points)
        quotient = total((*many, Number(0, places))).to_places(places)
        if len(many) > 1:
            worked = f"{' + '.join(map(str, many))} = {quotient}"
            said = say("{worked}: write {quotient} above.", worked=worked, quotient=quotient)
        else:
            said = say("Write {quotient} above.", quotient=quotient)
        above = self.columns.set_number(quotient, self.quotient_row, self.digit_ink, -places)
        return Step(said, None, above.marks, above.points)
