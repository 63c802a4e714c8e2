"""Mistakes in putting decimals in order of size."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import Mistake, in_order, right_reply
from specs.replies import Reply

_RESNICK: Final = (
    "Resnick et al., Conceptual bases of arithmetic errors: the case of decimal fractions, "
    "J. Research in Mathematics Education 20 (1989), from memory"
)


@dataclass(frozen=True, slots=True)
class OrderingMistake:
    """A wrong way to put numbers in order.

    ``size`` gives what a number is judged by. ``sentence``, ``follow_up`` and ``source``
    are as for other mistakes.
    """

    name: str
    sentence: str
    follow_up: str
    source: str
    size: Callable[[Number], tuple[int, ...]]

    def order(self, numbers: tuple[Number, ...]) -> tuple[Number, ...]:
        """The numbers from smallest to largest as the procedure has them; alike ones keep
        their places.
        """
        return tuple(sorted(numbers, key=self.size))


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


def _given(rule: OrderingMistake, question: Question) -> Reply | None:
    """What a wrong way gives where it misleads: an order, or the sign between two numbers.

    Numbers of one length, for example, are put in order rightly by every way.
    """
    if question.operation is Operation.ORDER:
        given = in_order(rule.order(question.operands))
    else:
        first, second = map(rule.size, question.operands)
        sign = "<" if first < second else ">" if first > second else "="
        given = Reply(text=sign, sign=sign)
    return None if given == right_reply(question) else given


ORDERING: Final = (
    OrderingMistake(
        "more digits taken as larger",
        "Reads the digits behind the point as a whole number.",
        "Fill both numbers to the same length, 4.80 and 4.63, and mark them on a number line.",
        f"{_RESNICK}: whole-number thinking",
        more_digits_larger,
    ),
    OrderingMistake(
        "fewer digits taken as larger",
        "Takes the number with fewer places as the larger, because tenths are larger parts.",
        "Shade 0.4 and 0.83 on one hundred-square: how many parts counts as well as their size.",
        f"{_RESNICK}: fraction thinking",
        fewer_digits_larger,
    ),
    OrderingMistake(
        "nought after the point handled apart",
        "Reads decimals as whole numbers, but knows that a nought after the point makes small.",
        "Compare 4.08, 4.7 and 4.63 digit by digit from the left on a place-value grid.",
        f"{_RESNICK}: a zero straight after the point",
        zero_apart,
    ),
)

_ORDERING: Final = frozenset({Operation.ORDER, Operation.COMPARE})

MORE_DIGITS, FEWER_DIGITS, ZERO_APART = (
    Mistake(rule.name, _ORDERING, rule.sentence, rule.follow_up, rule.source, partial(_given, rule))
    for rule in ORDERING
)
