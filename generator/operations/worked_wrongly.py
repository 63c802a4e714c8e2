"""A question worked the wrong way, on squares: what a page shows to be found and put right.

The working has the marks that whoever follows the procedure makes, for the layouts to draw
as they draw every working. Only procedures that can be followed mark by mark are here.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.columns import carrying, exchanging, setting_out
from generator.operations.columns.subtraction import EXCHANGE_ROW, MINUEND_ROW
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.mistake import Mistake
from generator.operations.products import multiplying
from generator.operations.products.multiplication import multiplication
from generator.operations.products.whole_product import Manner
from generator.operations.quotients import dividing
from generator.operations.quotients.division import short_division
from generator.operations.working import (
    SMALL_MARKS,
    Ink,
    Mark,
    Point,
    Step,
    Strike,
    read_number,
    read_row,
)

_Worker = Callable[[Question, Conventions], Working | None]


def wrong_working(
    question: Question, mistake: Mistake, conventions: Conventions | None = None
) -> Working | None:
    """The question worked by a mistake's procedure; None where that cannot be shown.

    It cannot where the procedure gives no wrong answer, where its answer does not fit the
    squares of the right working, or where nobody has said here how its marks are made. The
    answer that stands on the squares is always the mistake's own.
    """
    wrong = mistake.wrong_answer(question)
    worker = _WORKERS.get(mistake.name)
    if wrong is None or worker is None:
        return None
    agreed = replace(conventions or Conventions(), subtraction="exchange")
    working = worker(question, agreed)
    if working is None or working.answer.value != wrong.value:
        return None
    left = working.remainder.value if working.remainder else Fraction(0)
    return working if left == wrong.left else None


def _kept(working: Working) -> list[Step]:
    """The numbers set out, and the answer's point."""
    point = [step for step in working.steps[1:] if step.points]
    return [working.setting_out, *point[:1]]


def _finished(working: Working, steps: list[Step]) -> Working | None:
    """The working with those steps in place of its own; None where a mark falls off the squares."""
    marks = [mark for step in steps for mark in step.marks]
    if any(not 0 <= mark.column < working.columns for mark in marks):
        return None
    answer_row = working.rules[0].row
    return replace(working, steps=tuple(steps), answer=read_row(steps, answer_row, working.places))


def _addition(
    habit: carrying.ColumnHabit,
    small: Callable[[int], int | None],
    question: Question,
    conventions: Conventions,
) -> Working | None:
    """A column addition by a habit; ``small`` is the small digit noted for a column's total."""
    right = written_working(question, conventions)
    columns, answer_row = right.places, right.rules[0].row
    carry_row = 0 if conventions.carries == "above" else answer_row + 1
    places = range(
        min(number.last_place for number in question.operands),
        max(number.top_place for number in question.operands) + 1,
    )
    steps, carry = _kept(right), 0
    for place in places:
        last = place == places[-1]
        column_total = carry + sum(number.digit(place) for number in question.operands)
        written, carry = habit(column_total, last)
        marks = [Mark(answer_row, columns[place], str(written % 10), Ink.ANSWER)]
        if written >= 10:
            marks.append(Mark(answer_row, columns[place + 1], str(written // 10), Ink.ANSWER))
        noted = small(column_total)
        if column_total >= 10 and not last and noted is not None:
            marks.append(Mark(carry_row, columns[place + 1], str(noted), Ink.CARRY))
        sentence = f"This column makes {column_total}: {written} is written."
        steps.append(Step(sentence, columns[place], tuple(marks)))
    return _finished(right, steps)


def _subtraction(
    habit: exchanging.ColumnHabit, question: Question, conventions: Conventions
) -> Working | None:
    """A column subtraction by a habit, with the exchanges that it makes."""
    right = written_working(question, conventions)
    columns, answer_row = right.places, right.rules[0].row
    paper = exchanging.Paper(question)
    rows = dict.fromkeys(paper.places, MINUEND_ROW)
    digits: dict[int, int] = {}
    steps = _kept(right)
    for place in paper.places:
        before = dict(paper.upper)
        done = habit(paper, place)
        if done is None:
            return None
        digits[place] = done[0]
        marks: list[Mark] = []
        strikes: list[Strike] = []
        for changed in reversed(paper.places):
            if paper.upper[changed] == before[changed]:
                continue
            if changed == place:
                marks.append(Mark(rows[place], columns[place], "1", Ink.TEN))
                continue
            if rows[changed] == EXCHANGE_ROW:
                return None  # a second small digit finds no room above the first
            left = str(paper.upper[changed])
            strikes.append(Strike(rows[changed], columns[changed]))
            marks.append(Mark(EXCHANGE_ROW, columns[changed], left, Ink.LEFT))
            rows[changed] = EXCHANGE_ROW
        sentence = f"In this column {digits[place]} is written."
        steps.append(Step(sentence, columns[place], tuple(marks), (), tuple(strikes)))
    top = max([place for place, digit in digits.items() if digit and place > 0], default=0)
    written = tuple(
        Mark(answer_row, columns[place], str(digit), Ink.ANSWER)
        for place, digit in digits.items()
        if place <= top
    )
    return _finished(right, [*steps, Step("So the answer stands.", None, written)])


def _lined_up(question: Question, conventions: Conventions) -> Working | None:
    """An addition with the numbers' last digits under one another, whatever their places.

    Its points stand on grid lines by every convention: a column for the point would put them
    in line.
    """
    if question.operation is not Operation.ADD:
        return None
    whole = Question(Operation.ADD, tuple(Number(n.units) for n in question.operands))
    right = written_working(whole, conventions)
    last, answer_row = right.columns - 1, right.rules[0].row
    places = max(number.places for number in question.operands)
    first = answer_row - len(question.operands)
    marks, points = list(right.setting_out.marks), []
    for row, number in enumerate(question.operands, first):
        if number.places:
            points.append(Point(row, last - number.places, Ink.GIVEN))
        for column in _noughts_in_front(number, last):
            marks.append(Mark(row, column, "0", Ink.GIVEN))
    steps = [replace(right.setting_out, marks=tuple(marks), points=tuple(points)), *right.steps[1:]]
    answer = Number(right.answer.units, places)
    noughts = tuple(
        Mark(answer_row, column, "0", Ink.ANSWER) for column in _noughts_in_front(answer, last)
    )
    point = (Point(answer_row, last - places, Ink.ANSWER),)
    steps.append(Step("The point stands as in the longest number.", None, noughts, point))
    placed = replace(right, units_column=last - places, point_column=False)
    # A nought in front would stand on the sign or off the squares: nobody would write it so.
    signs = {(m.row, m.column) for m in marks if m.ink is Ink.SIGN}
    zeros = {(m.row, m.column) for m in (*marks, *noughts) if m.text == "0"}
    return None if signs & zeros else _finished(placed, steps)


def _noughts_in_front(number: Number, last: int) -> Iterator[int]:
    """The columns of the noughts in front of a number below one whose last digit is there."""
    written = len(str(number.units))
    for at in range(written, number.places + 1):
        yield last - at


def _multiplication(manner: Manner, question: Question, conventions: Conventions) -> Working | None:
    """A multiplication in somebody's manner, by the method's own squares."""
    if question.power_of_ten or len(question.operands) > 2:
        return None
    return _on_squares(multiplication(question, conventions, manner))


def _not_handed_on(question: Question, conventions: Conventions) -> Working | None:
    """A short division in which each digit is divided alone."""
    if question.power_of_ten or question.ending is Ending.FRACTION:
        return None
    dividend, divisor = question.operands
    if question.ending is Ending.REMAINDER and (dividend.places or divisor.places):
        return None  # the right division stops at the ones, this one would not
    return _on_squares(short_division(question, conventions, hands_on=False))


def _zero_left_out(question: Question, conventions: Conventions) -> Working | None:
    """A short division with nothing written above where a column's share is nought."""
    if question.power_of_ten or question.ending in (Ending.FRACTION, Ending.ROUNDED):
        return None
    right = short_division(question, conventions)
    steps, begun = [], False
    for step in right.steps:
        kept = []
        for mark in step.marks:
            if mark.ink is Ink.ANSWER:
                begun = begun or mark.text != "0"
                if begun and mark.text == "0":
                    continue
            kept.append(mark)
        steps.append(replace(step, marks=tuple(kept)))
    row = next(mark.row for mark in right.marks() if mark.ink is Ink.ANSWER)
    return replace(right, steps=tuple(steps), answer=read_number(steps, row, Ink.ANSWER))


def _on_squares(working: Working) -> Working | None:
    """The working; None where two of its figures share a square, or one is off the squares."""
    full = [(m.row, m.column) for m in working.marks() if m.ink not in SMALL_MARKS]
    columns = [mark.column for mark in working.marks()]
    inside = min(columns) >= 0 and max(columns) < working.columns
    return working if inside and len(set(full)) == len(full) else None


_WORKERS: Final[dict[str, _Worker]] = {
    setting_out.LINED_UP.name: _lined_up,
    carrying.NOT_ADDED.name: partial(_addition, carrying.nothing_added, lambda made: made // 10),
    carrying.DROPPED.name: partial(_addition, carrying.last_digits_only, lambda made: None),
    carrying.TWICE.name: partial(_addition, carrying.added_twice, lambda made: made // 10),
    carrying.SWAPPED.name: partial(_addition, carrying.swapped, lambda made: made % 10),
    exchanging.SMALLER_FROM_LARGER.name: partial(
        _subtraction, exchanging.smaller_from_larger_habit
    ),
    exchanging.NOT_LOWERED.name: partial(_subtraction, exchanging.next_not_lowered_habit),
    exchanging.STOPS.name: partial(_subtraction, exchanging.stops_at_zero_habit),
    exchanging.PASSES_OVER.name: partial(_subtraction, exchanging.passes_over_zero_habit),
    exchanging.ZERO_GIVES_N.name: partial(
        _subtraction, exchanging.zero_gives_habit(lambda lower: lower)
    ),
    exchanging.ZERO_GIVES_ZERO.name: partial(
        _subtraction, exchanging.zero_gives_habit(lambda lower: 0)
    ),
    multiplying.CARRY_NOT_ADDED.name: partial(
        _multiplication, Manner(multiplying.last_digits_only)
    ),
    multiplying.CARRY_ADDED_FIRST.name: partial(_multiplication, Manner(multiplying.added_first)),
    multiplying.CARRY_SWAPPED.name: partial(_multiplication, Manner(multiplying.swapped)),
    multiplying.NOUGHT_LEFT_OUT.name: partial(_multiplication, Manner(moves_rows=False)),
    multiplying.ZEROS_SKIPPED.name: partial(_multiplication, Manner(passes_over_zeros=True)),
    multiplying.POINT_AS_IN_ADDITION.name: partial(_multiplication, Manner(places=max)),
    dividing.NOT_CARRIED.name: _not_handed_on,
    dividing.ZERO_LEFT_OUT.name: _zero_left_out,
}
"""How the marks of each procedure are made; one more is one more row."""
