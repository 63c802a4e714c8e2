"""How long a section takes, where its teacher does not say: a rule of thumb.

Common practice, no source: nine column questions take fifteen to twenty minutes, as do a
dozen short products, and six short questions that open a lesson take ten. So a column
question or a short division counts two minutes, a product of one digit by another one and
a half, a product by two or more digits three, a question about numbers as they stand (order,
rounding, digits moved) one; a question in words takes one minute more, to read. The sum is
rounded to five minutes, and is five at least.
"""

from collections.abc import Iterable
from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.packs.pack import Item

_STEP: Final = 5


def usual_minutes(items: Iterable[Item]) -> int:
    """The minutes that the questions usually take together, to five minutes; a half goes up."""
    total = sum((_minutes(item) for item in items), Fraction(0))
    steps = (total / _STEP + Fraction(1, 2)).__floor__()
    return max(steps, 1) * _STEP


def _minutes(item: Item) -> Fraction:
    return item.form.minutes(_bare(item.question))


def _bare(question: Question) -> Fraction:
    if question.power_of_ten or not question.operation.is_calculation:
        return Fraction(1)
    if question.operation is not Operation.MULTIPLY:
        return Fraction(2)
    lengths = sorted(len(str(number.units).strip("0")) for number in question.operands)
    if lengths[-2] > 1:
        return Fraction(3)
    return Fraction(3, 2)
