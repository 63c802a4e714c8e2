"""Division by chunks: easy multiples of the divisor are taken away until too little is left.

How many there were of the divisor in each chunk stands beside it, and together they make the
quotient. The England appendix (DFE-00180-2013) writes 432 ÷ 15 so, by 20 × 15 and 8 × 15; that
chunks of a long divisor are of 1, 2 or 5 of a place's units is common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar, Final, NamedTuple, Self

from generator.arithmetic.numbers import Number, difference, total
from generator.arithmetic.place_value import is_less
from generator.arithmetic.questions import Ending, Question
from generator.operations.quotients.division import KNOWN_TABLES, MOST_PLACES, worked_on
from generator.operations.quotients.placed_desk import PlacedDesk
from generator.operations.quotients.set_outs import MULTIPLES_TOO
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
    Divisor and quotient stand where the land has them in a long division. Raises ValueError for a
    divisor of nought and for a quotient that would never end.
    """
    below = replace(conventions, below_the_dividend=MULTIPLES_TOO)
    return worked_on(_ChunkDesk.for_question(question, below), question)


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
class _ChunkDesk(PlacedDesk):
    """The division and the chunks below it; the last row written holds what is left."""

    points_below: ClassVar[bool] = True

    longest_ending: int = 1
    """How many squares what is left over, or the rounded quotient, may take after the quotient."""

    @classmethod
    def for_question(
        cls, question: Question, conventions: Conventions, *, hands_on: bool = True
    ) -> Self:
        """The division of a question as the land sets it out."""
        desk = super().for_question(question, conventions, hands_on=hands_on)
        if desk.rounds:
            desk.longest_ending = 2 + desk.placing.room[1] - desk.placing.begins
        elif question.ending in (Ending.REMAINDER, Ending.FRACTION):
            digits = 1 + max(number.places for number in question.operands)
            desk.longest_ending = 2 + max(digits, len(str(desk.divisor)))
        return desk

    def divide(self, steps: list[Step]) -> None:
        """Take the chunks away one after another, and put how many there were together."""
        chunks = list(chunks_of(self.dividend, self.divisor, self.last_place))
        longest = [self.dividend.places, *(chunk.made.places for chunk in chunks)]
        notes = self.columns[-max(longest)] + 2
        if self.quotient_row > self.dividend_row:  # the quotient is in the way of the first
            stop = -max(longest) if self.last_place is None else self.last_place
            last = self.placing.quotient[min(stop, 0)]
            notes = max(notes, self.placing.room[1] + 1, last + self.longest_ending + 1)
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
        row = self._lowest
        if row == self.dividend_row and not self._set_out.lengthens:
            return self._written_below(left, longer)
        written = self.columns.set_number(longer, row, Ink.PLACEHOLDER, longer.last_place)
        new = [
            self.columns[place] for place in range(left.last_place - 1, longer.last_place - 1, -1)
        ]
        marks = tuple(mark for mark in written.marks if mark.column in new)
        points = () if left.places else written.points
        over = [*(point.column for point in points if point.in_square), *new]
        if row != self.dividend_row or not self._set_out.line.endswith("n"):
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

    def _written_below(self, left: Number, longer: Number) -> Step:
        """The dividend with noughts, below it where nothing may come after it on its line."""
        self.rows_below += 1
        below = self._written(longer, self._lowest)
        return Step(
            say("{number} is {longer}: write that below.", number=left, longer=longer),
            None,
            below.marks,
            below.points,
            lit=tuple((mark.row, mark.column) for mark in below.marks),
        )

    def _taken_away(self, left: Number, chunk: Chunk, rest: Number, notes: int) -> Iterator[Step]:
        """A chunk under what is left, and the new rest."""
        row, last = self._lowest + 1, self.columns[left.last_place]
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
        """How many of the divisor there were in all: the quotient, where it stands."""
        if not many:
            too_few = is_less(1, str(self.dividend), str(self.divisor))
            if self.ending is Ending.FRACTION:
                return Step(say("{why}: no whole number in the answer.", why=too_few), None)
            return self._answered(Number(0, places), Number(0), too_few)
        quotient = total((*many, Number(0, places))).to_places(places)
        if len(many) > 1:
            worked = f"{' + '.join(map(str, many))} = {quotient}"
            return self._answered(quotient, quotient, worked)
        return self._answered(quotient, quotient, "")

    def _answered(self, quotient: Number, shown: Number, worked: str) -> Step:
        """The quotient written, and what is said of it: ``worked`` is why, "" for no reason."""
        self.started = True
        written = self.placing.quotient.set_number(
            quotient, self.quotient_row, self.digit_ink, quotient.last_place
        )
        match worked != "", self._set_out.is_above:
            case True, True:
                said = say("{worked}: write {quotient} above.", worked=worked, quotient=shown)
            case True, False:
                said = say(
                    "{worked}: write {quotient} as the answer.", worked=worked, quotient=shown
                )
            case False, True:
                said = say("Write {quotient} above.", quotient=shown)
            case _:
                said = say("Write {quotient} as the answer.", quotient=shown)
        return Step(said, None, written.marks, written.points)
