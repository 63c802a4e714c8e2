"""A product or a division set out whole, with its answer, but for one digit: an empty box.

A product stands as it is worked, its factors made whole numbers, below the line that asks it: the
box in the line and the box in the columns are for the same digit. In lands that multiply on that
line itself it stands there alone, with its points. Rows of a long multiplication are left free. A
division stands in its half-box, its quotient above, or where the land has it.
"""

from collections.abc import Sequence
from dataclasses import replace

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.frames import Frame
from generator.forms.scaffold import scaffold
from generator.operations.methods import written_working
from generator.operations.products.set_outs import SET_OUTS
from generator.operations.working import Conventions, Ink, Mark, Step, Working


def product_in_columns(
    question: Question, operand: int | None, place: int, conventions: Conventions, words: str
) -> Frame | None:
    """A product of two factors; None where the digit does not stand in its columns.

    That is so of three factors, and of noughts at the end of a number, which are put aside.
    """
    factors = question.operands
    if len(factors) != 2 or question.power_of_ten or any(n.units % 10 == 0 for n in factors):
        return None
    asked = Question(Operation.MULTIPLY, tuple(Number(n.units) for n in factors))
    product = asked.answer.units
    if _stands_on_its_line(question, conventions):
        asked, words = question, ""
    working = written_working(asked, conventions)
    given = [mark for mark in working.setting_out.marks if mark.ink in (Ink.GIVEN, Ink.SIGN)]
    signs = [mark for mark in given if mark.ink is Ink.SIGN]
    answer = _row_of_answer(working)
    if not working.rules or len(signs) != 1 or int(_digits(answer) or -1) != product:
        return None  # a product known by heart, on a line
    aside = place
    if asked is not question:
        aside += sum(n.places for n in factors) if operand is None else factors[operand].places
    if operand is None:
        hidden = (answer[0].row, working.units_column - aside)
    else:
        last = _last_digit(given, signs[0], on_top=_is_on_top(factors, operand))
        hidden = (last.row, last.column - place - factors[operand].places)
    return _frame(scaffold(asked, working), working, answer, hidden, words)


def _stands_on_its_line(question: Question, conventions: Conventions) -> bool:
    """Whether decimals stand where they are multiplied, and their answer as it is given."""
    on_line = SET_OUTS[conventions.factors].is_a_line and not conventions.point_column
    return on_line and question.answer.places == question.answer.trimmed().places


def _last_digit(given: Sequence[Mark], sign: Mark, *, on_top: bool) -> Mark:
    """The last digit of the factor before the sign, which is on top or at its left, or after it."""
    digits = [mark for mark in given if mark.ink is Ink.GIVEN]
    before = [m for m in digits if (m.row, m.column) < (sign.row, sign.column)]
    after = [m for m in digits if (m.row, m.column) > (sign.row, sign.column)]
    return max(before if on_top else after, key=lambda mark: mark.column)


def _is_on_top(factors: tuple[Number, ...], operand: int) -> bool:
    """Whether a factor stands on top, or first: the longer one, the first of two as long."""
    first, second = (len(str(number.units)) for number in factors)
    return (operand == 0) is (first >= second)


def division_in_columns(
    question: Question, operand: int | None, place: int, working: Working
) -> Frame | None:
    """A division that leaves nothing over; None where the digit does not stand in its set-out."""
    divisor = question.operands[1]
    if question.ending is not Ending.EXACT or divisor.places or working.dividend_row is None:
        return None
    answer = _row_of_answer(working)
    given = [mark for mark in working.setting_out.marks if mark.ink is Ink.GIVEN]
    dividend = question.operands[0]
    places = range(dividend.last_place, dividend.top_place + 1)
    under = {working.places[place] for place in places}
    if operand == 0:
        hidden = (working.dividend_row, working.places[place])
    else:
        beside = [mark for mark in given if mark.column not in under]
        number = answer if operand is None else sorted(beside, key=lambda mark: mark.column)
        last = working.answer.last_place if operand is None else 0
        if not 0 <= place - last < len(number):
            return None
        digit = number[-1 - (place - last)]
        hidden = (digit.row, digit.column)
    return _frame(scaffold(question, working), working, answer, hidden, "")


def _row_of_answer(working: Working) -> list[Mark]:
    """The marks of the answer, from the left."""
    marks = [mark for mark in working.marks() if mark.ink is Ink.ANSWER]
    row = max((mark.row for mark in marks), default=0)
    return sorted((m for m in marks if m.row == row), key=lambda mark: mark.column)


def _digits(marks: Sequence[Mark]) -> str:
    return "".join(mark.text for mark in marks)


def _frame(
    bare: Working, working: Working, answer: Sequence[Mark], hidden: tuple[int, int], words: str
) -> Frame | None:
    """The scaffold with its answer, and the gap; None where no digit stands there."""
    shift = bare.units_column - working.units_column
    (step,) = bare.steps
    points = [
        replace(point, column=point.column + shift, ink=Ink.GIVEN)
        for point in working.points()
        if point.ink is Ink.ANSWER
    ]
    marks = (
        *step.marks,
        *(replace(mark, column=mark.column + shift, ink=Ink.GIVEN) for mark in answer),
    )
    at = (hidden[0], hidden[1] + shift)
    left = tuple(mark for mark in marks if (mark.row, mark.column) != at)
    if len(left) != len(marks) - 1:
        return None
    set_out = Step("", None, left, (*step.points, *points))
    below = answer[0].row
    rules = bare.rules
    if (
        working.dividend_row is None and len(rules) == 1
    ):  # those of a sum of rows are drawn in its steps
        rules = (*rules, replace(rules[0], row=below), replace(rules[0], row=below + 1))
    columns = max(bare.columns, 1 + max(mark.column for mark in marks))
    squares = replace(bare, steps=(set_out,), rules=rules, columns=columns)
    shorter = working.room is not None  # rows to divide in are for whoever wants them
    return Frame(squares, words=words, hidden=(at,), may_be_shortened=shorter)
