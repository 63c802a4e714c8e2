"""Which number of a question is meant, in words."""

from typing import Final

from specs.languages.saying import Saying, say

_NUMBERS: Final = (
    (say("the first number"), say("of the first number")),
    (say("the second number"), say("of the second number")),
    (say("the third number"), say("of the third number")),
    (say("the fourth number"), say("of the fourth number")),
    (say("the fifth number"), say("of the fifth number")),
    (say("the sixth number"), say("of the sixth number")),
)
MISSING: Final = say("the missing number")


def the_number(at: int) -> Saying:
    """The number that stands there, counted from 0: ``the second number``."""
    return _NUMBERS[at][0]


def of_the_number(at: int | None) -> Saying:
    """The same of which something is: ``of the second number``; of the answer for None."""
    return say("of the answer") if at is None else _NUMBERS[at][1]
