"""Long division: each multiple of the divisor is written down and taken away.

Work from the left, as in short division; what a column leaves over stands below, and the next
digit of the dividend is brought down beside it. The method is that of the England appendix
(DFE-00180-2013), 432 ÷ 15.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.arithmetic.place_value import is_less
from generator.arithmetic.questions import Question
from generator.operations.quotients.division import (
    Desk,
    digit_written,
    no_digit,
    with_the_next,
    worked_on,
)
from generator.operations.spoken import amount, column_name
from generator.operations.working import Conventions, Ink, Mark, Rule, Square, Step, Working
from specs.languages.saying import joined, say


def long_division(question: Question, conventions: Conventions) -> Working:
    """Divide the first number by the second, with every subtraction written down.

    Rows: with a decimal divisor the question and its equal with a whole one, and a free row;
    then the quotient, the dividend, and two rows for each digit of the quotient that is not
    nought. Raises ValueError for a divisor of nought and for a quotient that would never end.
    """
    return worked_on(_LongDesk.for_question(question, conventions), question)


@dataclass
class _LongDesk(Desk):
    """The half-box and the rows below it. Of these the last holds what is still to be divided."""

    rows_below: int = 0

    @property
    def last_row(self) -> int:
        """The last row that is written in."""
        return self.dividend_row + self.rows_below

    def column(self, place: int) -> Iterator[Step]:
        """One column: its digit brought down, divided, the multiple written and taken away."""
        if self.rows_below:
            yield self._brought_down(place)
        held, digit, unwritten = self.share(place)
        if not digit:
            yield self._no_share(held, place, unwritten=unwritten)
            return
        above = Mark(self.quotient_row, self.columns[place], str(digit), self.digit_ink)
        standing = self._squares(held, place, self.last_row)
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
            (above,),
            lit=(*standing, (self.quotient_row, self.columns[place])),
        )
        yield from self._taken_away(held, digit, place, standing)

    def another_nought(self, place: int) -> Step:
        """One more nought after the dividend's last digit, to be brought down."""
        self.end = place
        column = self.columns[place]
        return Step(
            say("Write a nought in the {column}.", column=column_name(place)),
            column,
            (Mark(self.dividend_row, column, "0", Ink.PLACEHOLDER),),
            rules=(Rule(self.dividend_row, column, column),),
        )

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
        square = self.last_row, self.columns[place]
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
        above = (self.quotient_row, self.columns[place])
        marks = () if unwritten else (Mark(*above, "0", self.digit_ink),)
        lit = self._squares(held, place, self.last_row)
        return Step(said, None, marks, lit=(*lit, *(() if unwritten else (above,))))

    def _taken_away(
        self, held: int, digit: int, place: int, standing: tuple[Square, ...]
    ) -> Iterator[Step]:
        """The multiple under what is held, and what it leaves."""
        multiple, left = digit * self.divisor, held - digit * self.divisor
        row = self.last_row + 1
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
                (self.quotient_row, self.columns[place]),
                *((self.dividend_row, column) for column in range(len(str(self.divisor)))),
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
