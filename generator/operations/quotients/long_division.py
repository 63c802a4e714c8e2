"""Long division: each multiple of the divisor is written down and taken away.

Work from the left, as in short division; what a column leaves over stands below, and the next
digit of the dividend is brought down beside it. The method is that of the England appendix
(DFE-00180-2013), 432 ÷ 15. Other lands set divisor and quotient out elsewhere, or write what is
left over alone; the steps are the same.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Self

from generator.arithmetic.place_value import becomes, is_less
from generator.arithmetic.questions import Question
from generator.operations.quotients.division import (
    digit_written,
    no_digit,
    with_the_next,
    worked_on,
)
from generator.operations.quotients.placed_desk import PlacedDesk
from generator.operations.quotients.set_outs import REMAINDERS_ONLY
from generator.operations.spoken import amount, column_name
from generator.operations.working import Conventions, Ink, Mark, Point, Rule, Square, Step, Working
from specs.languages.saying import joined, say


def long_division(
    question: Question, conventions: Conventions, *, hands_on: bool = True
) -> Working:
    """Divide the first number by the second, with every subtraction written down.

    Without ``hands_on`` what a column leaves over is lost once the quotient has begun, a mistake,
    and nothing is written below.

    Rows: with a decimal divisor the question and its equal with a whole one, and a free row;
    then the quotient, the dividend, and two rows for each digit of the quotient that is not
    nought. Where the land has the quotient beside the dividend it needs no row of its own; where
    it writes remainders only there is one row for each digit. Raises ValueError for a divisor of
    nought and for a quotient that would never end.
    """
    return worked_on(_LongDesk.for_question(question, conventions, hands_on=hands_on), question)


@dataclass
class _LongDesk(PlacedDesk):
    """The division and the rows below it. Of these the last holds what is still to be divided."""

    remainders_only: bool = False  # whether no multiples are written down

    @classmethod
    def for_question(
        cls, question: Question, conventions: Conventions, *, hands_on: bool = True
    ) -> Self:
        """The division of a question as the land sets it out."""
        desk = super().for_question(question, conventions, hands_on=hands_on)
        desk.remainders_only = conventions.below_the_dividend == REMAINDERS_ONLY
        return desk

    @property
    def room(self) -> tuple[int, int] | None:
        """The rows and the columns for a pupil; None for those of the half-box."""
        return self.placing.room if self.remainders_only else super().room

    def point(self) -> Step:
        """The point of the quotient, and that of a dividend which had none but gets noughts."""
        if self._set_out.is_above:
            return super().point()
        point = self.placing.quotient.point(self.quotient_row, self.digit_ink)
        points: tuple[Point, ...] = (point,)
        said = say("The ones are divided: write the point in the answer.")
        if not self.dividend.places and self._set_out.lengthens:
            points = (self.columns.point(self.dividend_row, Ink.PLACEHOLDER), point)
            said = say("Write a point after the ones, in the dividend and in the answer.")
        elif not self.dividend.places:
            said = say("Write the point in the answer.")
        if self.carried and not self.dividend.places:
            said = joined((say("{left} left over.", left=amount(self.carried, 0)), said))
        return Step(said, None, (), points)

    def column(self, place: int) -> Iterator[Step]:
        """One column: its digit brought down, divided, the multiple written and taken away."""
        if self.rows_below and (self._set_out.lengthens or place >= self.dividend.last_place):
            yield self._brought_down(place)
        held, digit, unwritten = self.share(place)
        if not digit:
            yield self._no_share(held, place, unwritten=unwritten)
            return
        share = Mark(*self._answer_square(place), str(digit), self.digit_ink)
        standing = self._squares(held, place, self._lowest)
        fits = f"{digit} × {self.divisor} = {digit * self.divisor}"
        if self.carried:
            more = f"{digit + 1} × {self.divisor} = {(digit + 1) * self.divisor}"
            said = say(
                "{held} ÷ {divisor}: {fits}, and {more} is too many. Write {digit}.",
                held=amount(held, place),
                divisor=self.divisor,
                fits=fits,
                more=more,
                digit=digit,
            )
        else:
            said = say(
                "{held} ÷ {divisor}: {fits}. Write {digit}.",
                held=amount(held, place),
                divisor=self.divisor,
                fits=fits,
                digit=digit,
            )
        yield Step(
            said,
            None,
            (share,),
            lit=(*standing, self._answer_square(place)),
        )
        if self.hands_on:
            yield from self._taken_away(held, digit, place, standing)

    def another_nought(self, place: int) -> Iterator[Step]:
        """One more nought: after the dividend's last digit, to be brought down, or below at once.

        It is written below where something else comes after the dividend.
        """
        self.end = place
        if not self._set_out.lengthens:
            yield from self._nought_below(place)
            return
        column = self.columns[place]
        grows = self._set_out.line.endswith("n")  # the line over it does
        over = (Rule(self.dividend_row, column, column),) if grows else ()
        yield Step(
            say("Write a nought in the {column}.", column=column_name(place)),
            column,
            (Mark(self.dividend_row, column, "0", Ink.PLACEHOLDER),),
            rules=over,
        )

    def _nought_below(self, place: int) -> Iterator[Step]:
        """A nought beside what is left over, which is first written below if it is not yet."""
        left = self.carried
        if not left and not self.rows_below:
            return
        more = becomes(left, amount(left, place + 1), amount(10 * left, place))
        above = self._squares(left, place + 1, self._lowest)
        if self.rows_below:
            marks = self._written(0, place, self._lowest)
            said = say("Write a nought beside it: {more}.", more=more)
            if not left:
                said = say("Write a nought beside it.")
        else:
            self.rows_below += 1
            marks = self._written(10 * left, place, self._lowest)
            said = say("{more}: write {number} below.", more=more, number=10 * left)
        yield Step(said, None, marks, lit=(*above, *((m.row, m.column) for m in marks)))

    def _brought_down(self, place: int) -> Step:
        """The next digit of the dividend beside what is left over."""
        digit, left = self.dividend.digit(place), self.carried
        said = say("Bring down the {digit}.", digit=digit)
        if left:
            said = say(
                "Bring down the {digit}: {these} and {those} are {together}.",
                digit=digit,
                these=amount(left, place + 1),
                those=amount(digit, place),
                together=amount(10 * left + digit, place),
            )
        square = self._lowest, self.columns[place]
        return Step(
            said,
            None,
            (Mark(*square, str(digit), Ink.PARTIAL),),
            lit=((self.dividend_row, self.columns[place]), square),
        )

    def _no_share(self, held: int, place: int, *, unwritten: bool) -> Step:
        """A column too small to be divided: a nought in the answer, or no digit yet."""
        if held:
            why = is_less(held, amount(held, place), amount(self.divisor, place))
        else:
            why = joined((amount(held, place), f"÷ {self.divisor} =", amount(0, place)))
        said = no_digit(why, column_name(place)) if unwritten else digit_written(why, 0)
        if held and not self.rows_below and not self.is_last(place) and place > self.end:
            following = self.dividend.digit(place - 1)
            said = joined((said, with_the_next(held, following, place)))
        square = self._answer_square(place)
        marks = () if unwritten else (Mark(*square, "0", self.digit_ink),)
        lit = self._squares(held, place, self._lowest)
        return Step(said, None, marks, lit=(*lit, *(() if unwritten else (square,))))

    def _taken_away(
        self, held: int, digit: int, place: int, standing: tuple[Square, ...]
    ) -> Iterator[Step]:
        """The multiple under what is held, and what it leaves; or what it leaves alone."""
        multiple, left = digit * self.divisor, held - digit * self.divisor
        row = self._lowest + 1
        if self.remainders_only:
            yield self._left_alone(held, digit, place, standing)
            return
        self.rows_below += 2
        sign = self.columns[place + len(str(held)) - 1] - 1
        below = self._written(multiple, place, row)
        yield Step(
            say(
                "{divisor} × {share} = {multiple}: write {number} under the {held}.",
                divisor=self.divisor,
                share=amount(digit, place),
                multiple=amount(multiple, place),
                number=multiple,
                held=held,
            ),
            None,
            (Mark(row, sign, "−", Ink.SIGN), *below),
            lit=(
                self._answer_square(place),
                *self.placing.divisor,
                *((mark.row, mark.column) for mark in below),
            ),
        )
        rest = self._written(left, place, row + 1)
        yield Step(
            say(
                "{held} − {multiple} = {left}: write {number}.",
                held=amount(held, place),
                multiple=amount(multiple, place),
                left=amount(left, place),
                number=left,
            ),
            None,
            rest,
            rules=(Rule(row + 1, sign, self.columns[place]),),
            lit=(
                *standing,
                *((mark.row, mark.column) for mark in (*below, *rest)),
            ),
        )

    def _left_alone(self, held: int, digit: int, place: int, standing: tuple[Square, ...]) -> Step:
        """What is left over under what is held; the multiple is taken away in the head."""
        multiple, left = digit * self.divisor, held - digit * self.divisor
        self.rows_below += 1
        rest = self._written(left, place, self._lowest)
        said = say(
            "{divisor} × {share} = {multiple}, and {held} − {multiple} = {left}: write {number} "
            "under the {whole}.",
            divisor=self.divisor,
            share=amount(digit, place),
            multiple=amount(multiple, place),
            held=amount(held, place),
            left=amount(left, place),
            number=left,
            whole=held,
        )
        return Step(said, None, rest, lit=(*standing, *((m.row, m.column) for m in rest)))

    def _answer_square(self, place: int) -> Square:
        """Where the quotient's digit of a place stands."""
        return self.quotient_row, self.placing.quotient[place]

    def _squares(self, number: int, place: int, row: int) -> tuple[Square, ...]:
        """Where the digits of so many of a place's units stand."""
        digits = len(str(number))
        return tuple((row, self.columns[place + digits - 1 - at]) for at in range(digits))

    def _written(self, number: int, place: int, row: int) -> tuple[Mark, ...]:
        squares = self._squares(number, place, row)
        return tuple(
            Mark(*square, digit, Ink.PARTIAL)
            for square, digit in zip(squares, str(number), strict=True)
        )
