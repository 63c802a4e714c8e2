"""Column subtraction by equal addition.

Where a column's upper digit is too small, ten is added to it and one to the lower digit of
the next column, so that both numbers grow by the same amount and their difference stays. The
method is the other one of the England appendix (DFE-00180-2013), 932 − 457.
"""

from collections.abc import Iterator

from generator.arithmetic.place_value import amount, becomes, is_less
from generator.arithmetic.questions import Question
from generator.operations.columns.subtraction_columns import Subtraction, in_columns
from generator.operations.working import Columns, Conventions, Ink, Mark, Step, Working
from specs.languages.saying import say

MINUEND_ROW = 0
SUBTRAHEND_ROW = 1


def equal_addition(question: Question, conventions: Conventions) -> Working:
    """Subtract the second number from the first in columns, by equal addition.

    Rows: the minuend, the subtrahend, the answer. Raises ValueError when the second number
    is larger. Empty places of the minuend always get their noughts.
    """
    return in_columns(question, conventions, MINUEND_ROW, _by_adding)


def _by_adding(setting: Subtraction) -> Iterator[Step]:
    """The columns from the right, each after what is added to both numbers for it."""
    added = 0
    for place in setting.columns.from_the_right:
        upper, lower = setting.minuend.digit(place), setting.subtrahend.digit(place) + added
        added = 1 if upper < lower else 0
        if added:
            next_lower = setting.subtrahend.digit(place + 1)
            yield _addition(setting.columns, place, upper, lower, next_lower)
            upper += 10
        yield setting.column(place, upper, lower)


def _addition(columns: Columns, place: int, upper: int, lower: int, next_lower: int) -> Step:
    """Ten more above, one more of the next column below."""
    grown = amount(next_lower + 1, place + 1)
    sentence = say(
        "{less}. Add {ten} above and {one} below: {upper}, and {lower}.",
        less=is_less(upper, amount(upper, place), amount(lower, place)),
        ten=amount(10, place),
        one=amount(1, place + 1),
        upper=becomes(upper, amount(upper, place), amount(upper + 10, place)),
        lower=becomes(next_lower, amount(next_lower, place + 1), grown),
    )
    marks = (
        Mark(MINUEND_ROW, columns[place], "1", Ink.TEN),
        Mark(SUBTRAHEND_ROW, columns[place + 1], "+1", Ink.ADDED),
    )
    return Step(sentence, columns[place], marks)
