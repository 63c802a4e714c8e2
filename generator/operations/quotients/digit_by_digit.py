"""Short or long division, whichever is agreed, as the land has it.

In England a short division stands in its half-box with small remainders. Lands that have none set
both out in one way: a short one has its subtractions in the head, or is the long one itself.
"""

from dataclasses import replace

from generator.arithmetic.questions import Question
from generator.operations.quotients.division import short_division
from generator.operations.quotients.long_division import long_division
from generator.operations.quotients.set_outs import HALF_BOX
from generator.operations.working import Conventions, Working


def digit_by_digit(
    question: Question, conventions: Conventions, *, hands_on: bool = True
) -> Working:
    """Divide the first number by the second, digit after digit.

    Without ``hands_on`` what a column leaves over is lost once the quotient has begun: a mistake.
    Raises ValueError for a divisor of nought and for a quotient that would never end.
    """
    if conventions.division == "long":
        return long_division(question, conventions, hands_on=hands_on)
    if conventions.short_division == HALF_BOX:
        return short_division(question, conventions, hands_on=hands_on)
    below = replace(conventions, below_the_dividend=conventions.short_division)
    return long_division(question, below, hands_on=hands_on)
