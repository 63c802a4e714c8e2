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

from generator.operations.table import topic_of
from generator.packs.pack import Item

_STEP: Final = 5


def usual_minutes(items: Iterable[Item]) -> int:
    """The minutes that the questions usually take together, to five minutes; a half goes up."""
    total = sum((_minutes(item) for item in items), Fraction(0))
    steps = (total / _STEP + Fraction(1, 2)).__floor__()
    return max(steps, 1) * _STEP


def _minutes(item: Item) -> Fraction:
    bare = topic_of(item.question).minutes(item.question)
    return item.form.minutes(bare)
