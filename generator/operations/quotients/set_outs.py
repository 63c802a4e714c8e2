"""Where dividend, divisor and quotient of a long division stand: one row for each way of a land.

Which land has which way is in its file in ``specs/lands``. The way of England, "quotient above",
is that of the appendix (DFE-00180-2013), 432 ÷ 15; the others are common practice, no source.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import count
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Question
from generator.operations.quotients.division import MOST_PLACES
from generator.operations.working import (
    Columns,
    Conventions,
    Ink,
    Mark,
    Point,
    Rule,
    Square,
    Step,
    Upright,
    write_line,
)
from specs.languages.saying import Saying, say

REMAINDERS_ONLY: Final = "remainders only"
"""What lands have below the dividend that write no multiples there."""

MULTIPLES_TOO: Final = "multiples and remainders"
"""What lands have there that write the multiples before they take them away."""

BELOW_THE_DIVIDEND: Final = (MULTIPLES_TOO, REMAINDERS_ONLY)
"""What a land may have there."""

HALF_BOX: Final = "half-box"
"""What a short division is in lands that write its remainders small, before the next digit."""

SHORT_DIVISIONS: Final = (HALF_BOX, *BELOW_THE_DIVIDEND)
"""What it may be: that, or the set-out of the long one with so much below the dividend."""

_USUAL_NOUGHTS: Final = 3
"""Noughts for which there is room where a division goes on into decimals."""


@dataclass(frozen=True, slots=True)
class SetOut:
    """One way to set a long division out.

    ``line`` is what stands beside the dividend, from the left: ``n`` the dividend, ``d`` the
    divisor, ``|`` an upright line between them, ``q`` the quotient if it stands there too; a
    square for each other character. ``quotient`` says where that stands: "above" the dividend
    with a line between them, "under" the divisor with a line between them, or "on the line".
    ``says`` sets the two numbers out in words.
    """

    line: str
    quotient: str
    says: Callable[[Number, int], Saying]

    @property
    def is_above(self) -> bool:
        """Whether each digit of the quotient stands above the dividend's."""
        return self.quotient == "above"

    @property
    def lengthens(self) -> bool:
        """Whether noughts are written after the dividend: no more comes on its line."""
        return self.quotient != "on the line"


SET_OUTS: Final[Mapping[str, SetOut]] = {
    "quotient above": SetOut(
        "d|n",
        "above",
        lambda dividend, divisor: say(
            "Set the division out: {dividend} inside, {divisor} outside.",
            dividend=dividend,
            divisor=divisor,
        ),
    ),
    "quotient above, divisor after": SetOut(
        "n÷d",
        "above",
        lambda dividend, divisor: say(
            "Set the division out: {dividend} under a line, {divisor} after it.",
            dividend=dividend,
            divisor=divisor,
        ),
    ),
    "one line": SetOut(
        "n÷d=q",
        "on the line",
        lambda dividend, divisor: say(
            "Set the division out on one line. The answer goes after the equals sign."
        ),
    ),
    "divisor at the right": SetOut(
        "n|d",
        "under",
        lambda dividend, divisor: say(
            "Set the division out: {dividend} at the left of the line, {divisor} at its right. "
            "The answer goes under the {divisor}.",
            dividend=dividend,
            divisor=divisor,
        ),
    ),
    "between strokes": SetOut(
        "d/n\\q",
        "on the line",
        lambda dividend, divisor: say(
            "Set the division out: {divisor}, then {dividend} between two strokes. "
            "The answer goes after them.",
            dividend=dividend,
            divisor=divisor,
        ),
    ),
    "between brackets": SetOut(
        "d)n(q",
        "on the line",
        lambda dividend, divisor: say(
            "Set the division out: {divisor}, then {dividend} between two brackets. "
            "The answer goes after them.",
            dividend=dividend,
            divisor=divisor,
        ),
    ),
}
"""Every way, by the word that a land's file has for it."""


@dataclass(frozen=True, slots=True)
class Placing:
    """Where everything of one division stands.

    ``row`` is the dividend's, ``quotient_row`` the quotient's, which begins in the column
    ``begins`` where it is not above. ``dividend`` and ``quotient`` have the column of each of their
    places, ``divisor`` its squares.
    ``room`` are the rows and the columns that a pupil is given: they hang on what is asked alone.
    """

    set_out: SetOut
    row: int
    quotient_row: int
    dividend: Columns
    divisor: tuple[Square, ...]
    quotient: Columns
    begins: int
    setting_out: Step
    room: tuple[int, int]


def placed(
    question: Question,
    dividend: Number,
    divisor: int,
    first_row: int,
    agreed: Conventions,
    *,
    points_below: bool,
) -> Placing:
    """Where the squares are of a division by a whole number, from a row on.

    ``points_below`` says that numbers with points are written below a whole number too.
    """
    set_out, own = SET_OUTS[agreed.set_out], agreed.point_column
    row = first_row + set_out.is_above
    marks, uprights, rules, points = (
        list[Mark](),
        list[Upright](),
        list[Rule](),
        tuple[Point, ...](),
    )
    # A number that comes first leaves a square for the sign of what is taken away.
    column = 1 if set_out.line.startswith("n") else 0
    columns, squares = Columns(0, 0), tuple[Square, ...]()
    noughts = _noughts_given(question, dividend, divisor)
    for what in set_out.line:
        match what:
            case "n":
                # Noughts below a whole number on its line need no column for a point.
                pointed = own and bool(set_out.lengthens or dividend.places or points_below)
                columns = Columns(column - 1 + dividend.top_place, dividend.last_place, pointed)
                written = write_line(str(dividend), row, column, Ink.GIVEN, point_column=own)
                marks.extend(written.marks)
                points = written.points
                column = columns[dividend.last_place] + 1
                if set_out.lengthens and not set_out.line.endswith("n"):
                    column = columns[dividend.last_place - noughts] + 1
                if set_out.is_above:
                    rules.append(Rule(row, columns[dividend.top_place], column - 1))
            case "d":
                given = write_line(str(divisor), row, column, Ink.GIVEN)
                marks.extend(given.marks)
                squares = tuple((mark.row, mark.column) for mark in given.marks)
                column += len(squares)
            case "|":
                foot = row + (set_out.quotient == "under")
                uprights.append(Upright(column, row, foot))
            case "q":
                pass
            case sign:
                marks.append(Mark(row, column, sign, Ink.SIGN))
                column += 1
    begins = squares[0][1] if set_out.quotient == "under" else column
    digits, ending = _quotient_given(question, dividend, divisor, own=own)
    if set_out.is_above:
        across = max(column, columns[dividend.last_place] + 1 + noughts + ending)
    else:
        across = max(column, begins + digits + ending)
    if set_out.quotient == "under":
        rules.append(Rule(row + 1, begins, max(column, begins + digits) - 1))
    top = len(str(dividend.units // 10**dividend.places // divisor)) - 1
    each = 1 if agreed.below_the_dividend == REMAINDERS_ONLY else 2
    below = each * (len(str(dividend.units)) + noughts)
    return Placing(
        set_out,
        row,
        row + 1 if set_out.quotient == "under" else first_row,
        columns,
        squares,
        columns if set_out.is_above else Columns(begins - 1 + top, -MOST_PLACES, own),
        begins,
        Step(
            set_out.says(dividend, divisor),
            None,
            tuple(marks),
            points,
            rules=tuple(rules),
            uprights=tuple(uprights),
        ),
        (row + 1 + below, across),
    )


def _noughts_given(question: Question, dividend: Number, divisor: int) -> int:
    """For how many noughts after the dividend there is room, or more where it needs more."""
    if question.ending is Ending.ROUNDED:
        return max(question.places + 1 - dividend.places, 0)
    if question.ending in (Ending.REMAINDER, Ending.FRACTION):
        return 0
    usual = _USUAL_NOUGHTS if question.ending is Ending.DECIMAL else 0
    return max(usual, _noughts_needed(dividend, divisor))


def _noughts_needed(dividend: Number, divisor: int) -> int:
    """How many noughts it takes until nothing is left over."""
    left = dividend.units % divisor
    for needed in count():
        if not left or needed > MOST_PLACES:
            return needed
        left = 10 * left % divisor
    raise AssertionError


def _quotient_given(
    question: Question, dividend: Number, divisor: int, *, own: bool
) -> tuple[int, int]:
    """Squares for the quotient's digits, and for how the division ends: enough for any quotient."""
    whole = len(str(dividend.units // 10**dividend.places))
    digits = max(1, whole - len(str(divisor)) + 1)
    ends_whole = question.ending in (Ending.REMAINDER, Ending.FRACTION)
    places = {Ending.ROUNDED: question.places + 1, Ending.DECIMAL: dividend.places + _USUAL_NOUGHTS}
    after = 0 if ends_whole else places.get(question.ending, dividend.places)
    ending = 1 + len(str(divisor)) if ends_whole else 0
    return digits + after + (own and after > 0), ending
