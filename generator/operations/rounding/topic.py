"""Rounding to a column."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.rounding import conditions, misrounding
from generator.operations.rounding.conditions import RoundOutline
from generator.operations.rounding.questions import RoundQuestions
from generator.operations.rounding.rounding import rounding
from generator.operations.topic import Topic, row
from specs.languages.saying import say


def _minutes(question: Question) -> Fraction:
    return Fraction(1)


ROUNDING: Final = Topic(
    "rounding",
    outlines={Operation.ROUND: RoundOutline()},
    questions=RoundQuestions,
    leaves_out={
        Operation.ROUND: say(
            "what rounds to nought, what is round already, and a number that has no digit in the "
            "column to which it is rounded, as 7.46 has no tens"
        )
    },
    conditions=(
        row(conditions.PLACES, conditions.narrow_places, conditions.PLACES_DEFAULT),
        row(conditions.WHOLE, conditions.narrow_whole, conditions.WHOLE_DEFAULT),
        row(conditions.TO, conditions.narrow_to, conditions.TO_DEFAULT),
        row(conditions.GOES, conditions.narrow_goes),
        row(conditions.OVER_NINE, conditions.narrow_over_nine),
    ),
    method=rounding,
    mistakes=(misrounding.CUT_OFF, misrounding.ALWAYS_UP, misrounding.TEN_IN_ONE_COLUMN),
    minutes=_minutes,
    numbers={Operation.ROUND: (1, 1)},
)
