"""``missing``: what is left out of the questions of a rung, where a teacher wants one thing."""

from dataclasses import dataclass
from typing import Any, Final

from specs.languages.saying import say
from specs.shapes import Either, Field, Fields, Made, OneOf, SetOf

ANSWER: Final = "answer"
NUMBERS: Final = ("first", "second", "third", "fourth", "fifth", "sixth")
COLUMNS: Final = (
    *("hundred thousands", "ten thousands", "thousands", "hundreds", "tens", "ones"),
    *("tenths", "hundredths", "thousandths", "ten-thousandths"),
    *("hundred-thousandths", "millionths"),
)
"""The columns whose digits may be left out, by name, from the left."""

NUMBER_FORM: Final = "missing number"
DIGIT_FORM: Final = "missing digit"


@dataclass(frozen=True, slots=True)
class Gap:
    """What is left out: the number ``of`` a question (``first`` … or ``answer``; None: any), or,
    where ``digit`` has columns by name, a digit of it in one of these.
    """

    of: str | None = None
    digit: tuple[str, ...] = ()

    @property
    def form(self) -> str:
        """How questions with such a gap are asked."""
        return DIGIT_FORM if self.digit else NUMBER_FORM


_NUMBER: Final = OneOf(*NUMBERS)
_DIGIT: Final = Fields(
    Gap,
    {
        "digit": Field(SetOf(*COLUMNS), say("The columns, one of which lacks its digit.")),
        "of": Field(OneOf(*NUMBERS, ANSWER), say("The number that has the gap.")),
    },
    required=("digit",),
)


def _gap(read: str | Gap) -> Gap:
    return Gap(read) if isinstance(read, str) else read


def _read(gap: Gap) -> Any:
    return gap if gap.digit else gap.of


MISSING: Final = Made(Either(_NUMBER, _DIGIT), _gap, _read)
MISSING_SAYS: Final = say(
    "What is left out of each question: first, second and so on for that number, or a digit, such "
    "as {{digit: [tenths], of: answer}} or {{digit: [ones, tenths]}} of any number. Says with it "
    "that questions are asked as 'missing number' or 'missing digit'."
)
