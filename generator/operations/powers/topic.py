"""Multiplying and dividing by 10, 100 and 1000."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.powers import conditions, moving
from generator.operations.powers.moving_digits import moving_digits
from generator.operations.powers.questions import PowerQuestions
from generator.operations.topic import Topic, row


def _minutes(question: Question) -> Fraction:
    return Fraction(1)


POWERS: Final = Topic(
    "powers",
    outlines={
        Operation.MULTIPLY: conditions.PowerOutline(Operation.MULTIPLY),
        Operation.DIVIDE: conditions.PowerOutline(Operation.DIVIDE),
    },
    opened_by=conditions.POWER_OF_TEN.name,
    ending=Ending.MOVED,
    questions=PowerQuestions,
    conditions=(row(conditions.POWER_OF_TEN, conditions.narrow_power_of_ten),),
    checks=(conditions.digits_only_move,),
    method=moving_digits,
    mistakes=(moving.NOUGHT_ADDED, moving.WRONG_WAY),
    minutes=_minutes,
    numbers={Operation.MULTIPLY: (2, 2), Operation.DIVIDE: (2, 2)},
)
