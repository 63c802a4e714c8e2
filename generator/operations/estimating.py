"""An estimate of an answer: each number rounded to one significant figure, and why that is near.

That numbers are rounded so, a 5 upwards, is common practice, no source; so is the factor from
which on an estimate shows that an answer is wrong.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from operator import add, mul, sub, truediv
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from specs.languages.saying import Saying, say

FAR: Final = 3
"""An answer so many times as large as the estimate, or as small, cannot be right.

Of two numbers rounded to one figure none changes to more than one and a half times itself, so
that a right product is never as far; a difference may be, and then nothing is said.
"""

_AS_THEY_ARE: Final = (Operation.COMPARE, Operation.ORDER, Operation.ROUND)
_DOES: Final = {
    Operation.ADD: add,
    Operation.SUBTRACT: sub,
    Operation.MULTIPLY: mul,
    Operation.DIVIDE: truediv,
}


@dataclass(frozen=True, slots=True)
class Estimate:
    """An estimate as it is written, and what rounding did to it.

    ``rounded`` are the numbers, ``size`` what they give, itself rounded where it would be long.
    """

    question: Question
    rounded: tuple[Number, ...]
    size: Number

    @property
    def text(self) -> str:
        """``30 × 30 = 900``, ``100 ÷ 7 ≈ 10``."""
        written = f" {self.question.operation.sign} ".join(map(str, self.rounded))
        return f"{written} {'=' if self.size.value == self._exactly else '≈'} {self.size}"

    @property
    def first(self) -> str:
        """What is said before the question is worked."""
        near = [
            say("{number} rounds to {figure}", number=number, figure=figure)
            for number, figure in zip(self.question.operands, self.rounded, strict=True)
            if number.value != figure.value
        ]
        return say(
            "Estimate first: {near}, so about {estimate}.",
            near=reduce(_and, near),
            estimate=self.text,
        )

    @property
    def afterwards(self) -> str:
        """What is said of it when the answer is known, and why it is near."""
        return say(
            "The estimate was {size}, the answer is {answer}. {why}",
            size=self.size,
            answer=self.question.answer_text,
            why=self._why,
        )

    @property
    def _exactly(self) -> Fraction:
        values = (number.value for number in self.rounded)
        return reduce(_DOES[self.question.operation], values)

    @property
    def _why(self) -> str:
        effects = set(self._effects())
        if len(effects) > 1:
            return say("One rounding made the estimate larger, another made it smaller.")
        (larger,) = effects
        if larger:
            return say("Rounding has made the estimate too large.")
        return say("Rounding has made the estimate too small.")

    def _effects(self) -> Iterator[bool]:
        """Of each rounding, whether it made the estimate larger."""
        turned = self.question.operation in (Operation.SUBTRACT, Operation.DIVIDE)
        for at, (number, figure) in enumerate(
            zip(self.question.operands, self.rounded, strict=True)
        ):
            if number.value != figure.value:
                yield (figure.value > number.value) != (turned and at > 0)
        if self.size.value != self._exactly:
            yield self.size.value > self._exactly

    def shows_wrong(self, answer: Fraction) -> bool:
        """Whether an answer is too far from the estimate to be right, as the right one is not."""
        return self._is_far(answer) and not self._is_far(self._right)

    @property
    def _right(self) -> Fraction:
        question = self.question
        values = (number.value for number in question.operands)
        return reduce(_DOES[question.operation], values)

    def _is_far(self, answer: Fraction) -> bool:
        size = self.size.value
        return answer >= FAR * size or FAR * answer <= size


def _and(these: str, last: str) -> Saying:
    return say("{these} and {last}", these=these, last=last)


def estimate(question: Question) -> Estimate | None:
    """The estimate of a calculation; None where rounding changes none of its numbers.

    None too where digits are only moved, or where numbers are compared, ordered or rounded.
    """
    if question.operation in _AS_THEY_ARE or question.power_of_ten:
        return None
    rounded = tuple(map(to_one_figure, question.operands))
    if all(f.value == n.value for f, n in zip(rounded, question.operands, strict=True)):
        return None
    if question.operation is Operation.DIVIDE:
        return Estimate(question, rounded, _share(*rounded))
    exactly = Question(question.operation, rounded)
    if question.operation is Operation.SUBTRACT and rounded[0].value < rounded[1].value:
        return None
    return Estimate(question, rounded, exactly.answer.trimmed())


def to_one_figure(number: Number) -> Number:
    """A number rounded to one significant figure, a 5 upwards: 0.347 to 0.3, 95 to 100."""
    behind = 10 ** (len(str(number.units)) - 1)
    return Number((2 * number.units + behind) // (2 * behind) * behind, number.places).trimmed()


def _share(dividend: Number, divisor: Number) -> Number:
    """A quotient where it has one figure or is whole; else to one significant figure."""
    exact = dividend.value / divisor.value
    places = 0
    while exact and exact * 10**places < 1:
        places += 1
    figure = exact * 10**places
    if figure.denominator == 1:
        return Number(figure.numerator, places)
    return to_one_figure(Number(figure.numerator * 100 // figure.denominator, places + 2))
