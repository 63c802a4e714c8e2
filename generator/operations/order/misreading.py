"""Mistakes in putting decimals in order of size."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import Mistake, in_order, right_reply
from generator.operations.working import Conventions, Working
from specs.replies import Reply

_RESNICK: Final = (
    "Resnick et al., Conceptual bases of arithmetic errors: the case of decimal fractions, "
    "J. Research in Mathematics Education 20 (1989), from memory"
)


def _parts(number: Number) -> tuple[int, int]:
    power: int = 10**number.places
    return divmod(number.units, power)


def more_digits_larger(number: Number) -> tuple[int, ...]:
    """4.63 above 4.8, as 63 is above 8."""
    whole, part = _parts(number)
    return whole, part


def fewer_digits_larger(number: Number) -> tuple[int, ...]:
    """4.4 above 4.83, as tenths are larger than hundredths; of one length, by the digits."""
    whole, part = _parts(number)
    return whole, -number.places, part


def zero_apart(number: Number) -> tuple[int, ...]:
    """As with more digits taken as larger, but a nought straight after the point makes small."""
    whole, part = _parts(number)
    return whole, int(not (number.places and number.digit(-1) == 0)), part


def _sizes(numbers: tuple[Number, ...]) -> list[int]:
    finest = max(number.places for number in numbers)
    return [number.units_of(finest) for number in numbers]


@dataclass(frozen=True, slots=True)
class JudgedBy:
    """Numbers put in order, or compared, by a size that is not theirs."""

    size: Callable[[Number], tuple[int, ...]]

    def order(self, numbers: tuple[Number, ...]) -> tuple[Number, ...]:
        """The numbers from smallest to largest as the procedure has them."""
        return tuple(sorted(numbers, key=self.size))

    def reply(self, question: Question) -> Reply | None:
        """What it gives where it misleads: an order, or the sign between two numbers.

        Numbers of one length, for example, are put in order rightly by every such size. Nothing
        where two numbers to be put in order have the same size: which comes first is not known.
        """
        if question.operation is Operation.ORDER:
            if len(set(map(self.size, question.operands))) < len(question.operands):
                return None
            given = self.order(question.operands)
            return None if _sizes(given) == _sizes(question.in_order) else in_order(given)
        first, second = map(self.size, question.operands)
        sign = "<" if first < second else ">" if first > second else "="
        signed = Reply(text=sign, sign=sign)
        return None if signed == right_reply(question) else signed

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """None: it happens in the head."""
        return None


_ORDERING: Final = frozenset({Operation.ORDER, Operation.COMPARE})

MORE_DIGITS: Final = Mistake(
    "more digits taken as larger",
    _ORDERING,
    f"{_RESNICK}: whole-number thinking",
    JudgedBy(more_digits_larger),
)
FEWER_DIGITS: Final = Mistake(
    "fewer digits taken as larger",
    _ORDERING,
    f"{_RESNICK}: fraction thinking",
    JudgedBy(fewer_digits_larger),
)
ZERO_APART: Final = Mistake(
    "nought after the point handled apart",
    _ORDERING,
    f"{_RESNICK}: a zero straight after the point",
    JudgedBy(zero_apart),
)
