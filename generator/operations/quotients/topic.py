"""Division: short, long or by chunks."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.fixed_numbers import rows_for
from generator.operations.quotients import conditions, dividing, seen
from generator.operations.quotients.checks import CHECKS
from generator.operations.quotients.chunking import chunking
from generator.operations.quotients.conditions import QuotientOutline
from generator.operations.quotients.digit_by_digit import digit_by_digit
from generator.operations.quotients.questions import QuotientQuestions
from generator.operations.topic import Method, Topic, row
from generator.operations.working import Conventions, Working
from specs.languages.saying import say

_METHODS: Final[dict[str, Method]] = {
    "short": digit_by_digit,
    "long": digit_by_digit,
    "chunking": chunking,
}


def _divided(question: Question, conventions: Conventions) -> Working:
    """A division by the method that the school teaches."""
    return _METHODS[conventions.division](question, conventions)


def _minutes(question: Question) -> Fraction:
    return Fraction(2)


QUOTIENTS: Final = Topic(
    "quotients",
    outlines={Operation.DIVIDE: QuotientOutline(tuple(range(2, 10)))},
    questions=QuotientQuestions,
    conditions=(
        row(conditions.DIVISOR, conditions.narrow_divisor, seen=seen.divisor),
        row(conditions.DIVISOR_PLACES, conditions.narrow_divisor_places, seen=seen.divisor),
        row(conditions.DIVIDEND, conditions.narrow_dividend, seen=seen.dividend),
        row(conditions.PLACES, conditions.narrow_places, seen=seen.places),
        row(conditions.ZEROS, conditions.narrow_zeros, seen=seen.zeros),
        row(conditions.ENDING, conditions.narrow_ending, seen=seen.ending),
        row(conditions.QUOTIENT, conditions.narrow_quotient, seen=seen.quotient),
        row(conditions.REMAINDERS, conditions.narrow_remainders, seen=seen.remainders),
        row(
            conditions.ZERO_IN_QUOTIENT,
            conditions.narrow_zero_in_quotient,
            seen=seen.zero_in_quotient,
        ),
        row(conditions.ANSWER, conditions.narrow_answer, seen=seen.answer),
        *rows_for(2, "divide"),
    ),
    checks=CHECKS,
    admitting=seen.admitting,
    leaves_out={
        Operation.DIVIDE: say(
            "a quotient of nought, as in 4 ÷ 7 = 0 r 4; a division by 1 or 10 that no list names"
        )
    },
    method=_divided,
    mistakes=(
        dividing.NOT_CARRIED,
        dividing.ZERO_LEFT_OUT,
        dividing.REMAINDER_AS_DECIMAL,
        dividing.NOT_SCALED,
        dividing.LARGER_BY_SMALLER,
    ),
    mistakes_of_methods=(dividing.LAST_CHUNK_LEFT_OUT,),
    minutes=_minutes,
    numbers={Operation.DIVIDE: (2, 2)},
)
