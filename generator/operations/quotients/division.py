"""Short division: the divisor outside, the dividend under the line, the quotient above it.

Work from the left. What a column leaves over stands as a small number before the next digit
of the dividend, and the two are divided together. The method is that of the England
appendix (DFE-00180-2013), 432 ÷ 5; a two-digit divisor is divided by in the same way. A
decimal divisor is made a whole number first: both numbers are made so many times larger
that the quotient stays the same (common practice, no source).
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import count
from typing import Final, NamedTuple, Self

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import becomes, is_less
from generator.arithmetic.questions import Ending, Question
from generator.operations.quotients.division_endings import (
    as_fraction,
    as_remainder,
    read_fraction,
    rounded,
)
from generator.operations.spoken import amount, column_name
from generator.operations.working import (
    Columns,
    Conventions,
    Ink,
    Mark,
    Point,
    Rule,
    Step,
    Upright,
    Working,
    line_width,
    read_number,
    write_line,
)
from specs.languages.saying import Saying, joined, say

MOST_PLACES: Final = 12
"""A quotient that still goes on here is taken to go on for ever."""
KNOWN_TABLES: Final = 12
"""Beyond this divisor a step says the multiple that it uses."""
_WHOLE: Final = (Ending.EXACT, Ending.REMAINDER)
"""Endings after which a quotient without decimal places may have a remainder beside it."""


def short_division(
    question: Question, conventions: Conventions, *, hands_on: bool = True
) -> Working:
    """Divide the first number by the second.

    Without ``hands_on`` what a column leaves over is lost once the quotient has begun, and the
    division stops at the last digit, or rounds where that goes beyond the places asked for: a
    mistake, worked as those who make it do.

    Rows: with a decimal divisor the question and its equal with a whole one, and a free row;
    then the quotient and the dividend. After the quotient stands how the division ends.
    Raises ValueError for a divisor of nought and for a quotient that would never end.
    """
    return worked_on(Desk.for_question(question, conventions, hands_on=hands_on), question)


def worked_on(desk: "Desk", question: Question) -> Working:
    """A division worked on its half-box, by the way of dividing that the desk has."""
    steps = _scaling(question, desk)
    steps.append(desk.set_out())
    desk.divide(steps)
    steps.extend(_ending(question, desk, steps))
    answer = read_number(steps, desk.quotient_row, Ink.ANSWER)
    set_out, rules, uprights = steps[0], steps[0].rules, steps[0].uprights
    steps[0] = Step(set_out.sentence, None, set_out.marks, set_out.points)
    return Working(
        rows=desk.last_row + 1,
        columns=1
        + max(
            *(mark.column for step in steps for mark in step.marks),
            *(rule.end for step in (set_out, *steps) for rule in step.rules),
        ),
        units_column=desk.columns[0],
        point_column=desk.point_column,
        rules=rules,
        steps=tuple(steps),
        answer=answer,
        uprights=uprights,
        remainder=_remainder(question, desk, steps),
        dividend_row=desk.dividend_row,
        room=desk.room,
    )


class Divided(NamedTuple):
    """A column divided: what is held there with the remainder that came to it, the quotient's
    digit, what that leaves over, and how much of it goes to the next column.
    """

    held: int
    digit: int
    left: int
    handed_on: int


def divided(digits: Iterable[int], divisor: int, *, hands_on: bool = True) -> Iterator[Divided]:
    """The columns of a dividend's digits, from the left.

    Without ``hands_on`` what a column leaves over is lost once the quotient has begun.
    """
    brought, begun = 0, False
    for digit in digits:
        held = 10 * brought + digit
        share, left = divmod(held, divisor)
        begun = begun or share > 0
        brought = 0 if begun and not hands_on else left
        yield Divided(held, share, left, brought)


def _brought_down(dividend: Number) -> Iterator[int]:
    """The digits of a dividend from the left, then noughts without end."""
    return map(dividend.digit, count(dividend.top_place, -1))


@dataclass
class Desk:
    """The half-box on paper while digit after digit is divided.

    ``carried`` is what the columns so far have left over, in units of the last of them.
    """

    dividend: Number
    divisor: int
    ending: Ending
    last_place: int | None  # where the division stops; None: when nothing is left over
    quotient_row: int
    columns: Columns
    shares: "Iterator[Divided]"  # the columns from the left
    hands_on: bool  # whether what a column leaves over goes to the next
    rounds: bool  # whether the quotient is rounded at its end
    end: int  # the last place of the dividend, with the noughts written after it
    carried: int = 0
    started: bool = False  # whether the quotient has a digit yet

    @classmethod
    def for_question(
        cls, question: Question, conventions: Conventions, *, hands_on: bool = True
    ) -> Self:
        """The half-box of a question. Raises ValueError for a divisor of nought."""
        dividend, divisor = question.operands
        if not divisor.units:
            raise ValueError(f"{question.text}: no number can be divided by nought")
        scaled = Number(
            dividend.units * 10 ** max(divisor.places - dividend.places, 0),
            max(dividend.places - divisor.places, 0),
        )
        stops = {Ending.REMAINDER: 0, Ending.FRACTION: 0, Ending.ROUNDED: -question.places - 1}
        width = len(str(divisor.units))
        rounds = question.ending is Ending.ROUNDED and (hands_on or scaled.places > question.places)
        return cls(
            scaled,
            divisor.units,
            question.ending,
            stops.get(question.ending) if hands_on or rounds else scaled.last_place,
            quotient_row=2 if divisor.places else 0,
            columns=Columns(
                width - 1 + scaled.top_place, scaled.last_place, conventions.point_column
            ),
            shares=divided(_brought_down(scaled), divisor.units, hands_on=hands_on),
            hands_on=hands_on,
            rounds=rounds,
            end=scaled.last_place,
        )

    @property
    def dividend_row(self) -> int:
        """The row of the divisor and the dividend."""
        return self.quotient_row + 1

    @property
    def last_row(self) -> int:
        """The last row that is written in."""
        return self.dividend_row

    @property
    def room(self) -> tuple[int, int] | None:
        """The rows and the columns for a pupil; None for those of the half-box."""
        return None

    @property
    def point_column(self) -> bool:
        """Whether points have a column of their own."""
        return self.columns.point_column

    @property
    def quotient_start(self) -> int:
        """A column from which on the quotient's row has the quotient alone."""
        return 0

    @property
    def after_quotient(self) -> int:
        """The column after the quotient, where it is said how the division ends."""
        return self.columns[min(self.end, 0)] + 1

    @property
    def _rows(self) -> tuple[int, int]:
        return self.quotient_row, self.dividend_row

    @property
    def digit_ink(self) -> Ink:
        """A quotient that will be rounded is not yet the answer."""
        return Ink.PARTIAL if self.rounds else Ink.ANSWER

    def set_out(self) -> Step:
        """The half-box with its two numbers."""
        left = self.columns[self.dividend.top_place]
        right = self.columns[self.dividend.last_place]
        outside = write_line(str(self.divisor), self.dividend_row, 0, Ink.GIVEN)
        inside = write_line(
            str(self.dividend),
            self.dividend_row,
            left,
            Ink.GIVEN,
            point_column=self.columns.point_column,
        )
        return Step(
            say(
                "Set the division out: {dividend} inside, {divisor} outside.",
                dividend=self.dividend,
                divisor=self.divisor,
            ),
            None,
            (*outside.marks, *inside.marks),
            inside.points,
            rules=(Rule(self.dividend_row, left, right),),
            uprights=(Upright(left, self.dividend_row, self.dividend_row),),
        )

    def divide(self, steps: list[Step]) -> None:
        """Divide column after column, from the left."""
        place = self.dividend.top_place
        while True:
            if place == -1:
                steps.append(self.point())
            if place < self.end:
                steps.extend(replace(step, rows=self._rows) for step in self.another_nought(place))
            steps.extend(self.column(place))
            if self.is_last(place):
                return
            if place == -MOST_PLACES:
                raise ValueError(f"{self.dividend} ÷ {self.divisor} never ends")
            place -= 1

    def is_last(self, place: int) -> bool:
        """Whether the division ends with a column."""
        if self.last_place is not None:
            return self._stops_at(place)
        return place <= self.dividend.last_place and not self.carried

    def _stops_at(self, place: int) -> bool:
        return place == self.last_place

    def point(self) -> Step:
        """The point of the quotient and, where the dividend had none, its point too."""
        above = self.columns.point(self.quotient_row, self.digit_ink)
        if self.dividend.places:
            return Step(
                say("The point in the answer stands above the point in the dividend."),
                None,
                (),
                (above,),
            )
        below = self.columns.point(self.dividend_row, Ink.PLACEHOLDER)
        sentence = say("Write a point after the ones, below and above.")
        if self.carried:
            sentence = joined((say("{left} left over.", left=amount(self.carried, 0)), sentence))
        over = (Rule(self.dividend_row, below.column, below.column),) if below.in_square else ()
        return Step(sentence, None, (), (below, above), rules=over)

    def another_nought(self, place: int) -> Iterator[Step]:
        """One more nought after the dividend's last digit, with what is left over before it."""
        self.end = place
        column = self.columns[place]
        marks = [Mark(self.dividend_row, column, "0", Ink.PLACEHOLDER)]
        sentence = say("Write a nought in the {column}.", column=column_name(place))
        if self.carried:
            marks.append(Mark(self.dividend_row, column, str(self.carried), Ink.CARRIED_ON))
            ten_times = amount(10 * self.carried, place)
            sentence = say(
                "Write a nought in the {column}: {becomes}.",
                column=column_name(place),
                becomes=becomes(self.carried, amount(self.carried, place + 1), ten_times),
            )
        rule = Rule(self.dividend_row, column, column)
        yield Step(sentence, column, tuple(marks), rules=(rule,))

    def share(self, place: int) -> tuple[int, int, bool]:
        """What is held in a column, its share, and whether that needs no digit in the answer."""
        held, digit, left, handed_on = next(self.shares)
        self.carried = left if self._stops_at(place) else handed_on
        unwritten = not self.started and not digit and (place > 0 or self.is_fraction_alone)
        self.started = self.started or not unwritten
        return held, digit, unwritten

    def column(self, place: int) -> Iterator[Step]:
        """One column divided; what it leaves over goes before the next digit if there is one."""
        yield replace(self._column(place), rows=self._rows)

    def _column(self, place: int) -> Step:
        held, digit, unwritten = self.share(place)
        column = self.columns[place]
        marks = [] if unwritten else [Mark(self.quotient_row, column, str(digit), self.digit_ink)]
        if not digit and held:
            why = is_less(held, amount(held, place), amount(self.divisor, place))
        else:
            why = joined((amount(held, place), f"÷ {self.divisor} =", amount(digit, place)))
            if self.carried:
                if self.divisor > KNOWN_TABLES:
                    why = joined((why, f"({digit} × {self.divisor} = {digit * self.divisor})"))
                why = say(
                    "{worked}, {left} left over", worked=why, left=amount(self.carried, place)
                )
        if not unwritten:
            said = digit_written(why, digit)
        elif held:
            said = no_digit(why, column_name(place))
        else:
            said = say("{worked}: write nothing.", worked=why)
        if self.carried and not self.is_last(place) and place > self.end:
            said = self._carry_on(why, digit, place, marks) if self.started else said
            said = joined(
                (said, with_the_next(self.carried, self.dividend.digit(place - 1), place))
            )
        inside = place > self.dividend.last_place and not self._stops_at(place)
        room = ((self.dividend_row, self.columns[place - 1]),) if inside else ()
        return Step(said, column, tuple(marks), room=room)

    def _carry_on(self, why: str, digit: int, place: int, marks: list[Mark]) -> Saying:
        """A digit of the quotient written, and what is left over taken to the next with a mark."""
        column = self.columns[place - 1]
        marks.append(Mark(self.dividend_row, column, str(self.carried), Ink.CARRIED_ON))
        return say(
            "{worked}: write {digit}, carry {left} to the {column}.",
            worked=why,
            digit=digit,
            left=self.carried,
            column=column_name(place - 1),
        )

    @property
    def is_fraction_alone(self) -> bool:
        """Whether a nought in the ones would stand before a fraction: then none is written."""
        return self.ending is Ending.FRACTION and bool(self.left_over.units)

    @property
    def left_over(self) -> Number:
        """What is left over below the ones' column: undivided digits and all."""
        below = self.dividend.units % 10**self.dividend.places
        return Number(self.carried * 10**self.dividend.places + below, self.dividend.places)


def digit_written(why: str, digit: int) -> Saying:
    """The quotient's digit of a column, and how it was found."""
    return say("{worked}: write {digit}.", worked=why, digit=digit)


def no_digit(why: str, column: str) -> Saying:
    """A column in which the quotient has not begun, and why."""
    return say("{worked}: no {column} in the answer.", worked=why, column=column)


def with_the_next(left: int, following: int, place: int) -> Saying:
    """What is left over of a place, together with the next digit."""
    return say(
        "{these} and {those} are {together}.",
        these=amount(left, place),
        those=amount(following, place - 1),
        together=amount(10 * left + following, place - 1),
    )


def _scaling(question: Question, desk: Desk) -> list[Step]:
    """A decimal divisor made a whole number: the question, then the one with the same answer."""
    divisor = question.operands[1]
    if not divisor.places:
        return []
    asked = question.text.replace(" ", "")
    equal = f"={desk.dividend}÷{desk.divisor}"
    own_column = desk.point_column
    given = write_line(asked, 0, 0, Ink.GIVEN, point_column=own_column)
    start = line_width(asked, point_column=own_column)
    made = write_line(equal, 0, start, Ink.PARTIAL, point_column=own_column)
    both = f"{question.text} = {desk.dividend} ÷ {desk.divisor}"
    return [
        Step(say("The divisor is a decimal: make it a whole number first."), None, *_ink(given)),
        Step(
            say(
                "Multiply both numbers by {power}, and the answer stays the same: {equal}.",
                power=10**divisor.places,
                equal=both,
            ),
            None,
            *_ink(made),
        ),
    ]


def _ink(line: Step) -> tuple[tuple[Mark, ...], tuple[Point, ...]]:
    return line.marks, line.points


def _ending(question: Question, desk: Desk, steps: list[Step]) -> list[Step]:
    """The steps after the last column, written after the quotient."""
    column, own_column = desk.after_quotient, desk.point_column
    if desk.rounds:
        quotient = read_number(steps, desk.quotient_row, Ink.PARTIAL, desk.quotient_start)
        return [rounded(quotient, desk.quotient_row, column, point_column=own_column)]
    if not desk.hands_on:
        lost = Number(desk.carried)
        shown = lost.units and not desk.dividend.places and question.ending in _WHOLE
        row = desk.quotient_row
        return [as_remainder(lost, 1, row, column, point_column=own_column)] if shown else []
    left = desk.left_over
    if not left.units:
        return []
    power = 10 ** question.operands[1].places
    if question.ending is Ending.REMAINDER:
        return [as_remainder(left, power, desk.quotient_row, column, point_column=own_column)]
    if question.ending is Ending.FRACTION:
        return [as_fraction(left, desk.divisor, desk.quotient_row, column)]
    return []


def _remainder(question: Question, desk: Desk, steps: list[Step]) -> Number | None:
    """What is left over, as the marks after the quotient give it."""
    dividend, divisor = question.operands
    places = max(dividend.places, divisor.places)
    if not desk.hands_on:
        return read_number(steps, desk.quotient_row, Ink.LEFT_OVER)
    if question.ending is Ending.REMAINDER:
        return read_number(steps, desk.quotient_row, Ink.LEFT_OVER).to_places(places)
    if question.ending is Ending.FRACTION:
        left = read_fraction(steps) * divisor.value * 10**places
        return Number(left.numerator // left.denominator, places)
    return None
