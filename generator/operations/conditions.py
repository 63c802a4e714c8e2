"""The conditions of a rung: each word, the shape of its value, and what it narrows.

``TABLE`` is the one list of them. A row's ``narrow`` takes the value that the word's
shape read and an outline, and gives the narrowed outline. Rows apply in table order; a
row with a default applies even where a rung does not mention its word.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from generator.arithmetic.questions import Operation
from generator.operations import numbers_shown, tells_apart
from generator.operations.checks import CHECKS
from generator.operations.columns import addends, answer, lengths, repeats, transfers, zeros
from generator.operations.columns.fills import Kind
from generator.operations.columns.outline import Outline
from generator.operations.numbers_shown import OrderOutline, PowerOutline, RoundOutline
from generator.operations.products import conditions as products
from generator.operations.products import factors
from generator.operations.products.factors import FactorKind, ProductOutline
from generator.operations.quotients import conditions as division
from generator.operations.quotients.conditions import QuotientOutline
from specs.spec import Condition
from specs.words import Vocabulary, Word

__all__ = ["TABLE", "VOCABULARY", "Outline", "Row", "outline_of"]


@dataclass(frozen=True, slots=True)
class Row:
    """A condition: its word, its meaning, and the value it has when not mentioned (None: none).

    ``narrow`` takes an outline of the family that the word's operations belong to.
    """

    word: Word
    narrow: Callable[[object, Any], Any]
    default: object = None


TABLE: Final = (
    Row(addends.WORD, addends.narrow, addends.DEFAULT),
    Row(lengths.PLACES, lengths.narrow_places, lengths.PLACES_DEFAULT),
    Row(lengths.WHOLE, lengths.narrow_whole, lengths.WHOLE_DEFAULT),
    Row(lengths.LONGER, lengths.narrow_longer),
    Row(zeros.WORD, zeros.narrow, zeros.DEFAULT),
    Row(repeats.WORD, repeats.narrow),
    Row(transfers.CARRIES, transfers.narrow_carries),
    Row(transfers.EXCHANGES, transfers.narrow_exchanges),
    Row(answer.WORD, answer.narrow),
    Row(factors.FACTORS, factors.narrow_factors),
    Row(factors.DIGITS, factors.narrow_digits),
    Row(factors.PLACES, factors.narrow_places, factors.PLACES_DEFAULT),
    Row(factors.ZEROS, factors.narrow_zeros),
    Row(factors.ONES, factors.narrow_ones),
    Row(products.CARRIES, products.narrow_carries),
    Row(products.ANSWER, products.narrow_answer),
    Row(division.DIVISOR, division.narrow_divisor),
    Row(division.DIVISOR_PLACES, division.narrow_divisor_places),
    Row(division.DIVIDEND, division.narrow_dividend),
    Row(division.PLACES, division.narrow_places),
    Row(division.ZEROS, division.narrow_zeros),
    Row(division.ENDING, division.narrow_ending),
    Row(division.QUOTIENT, division.narrow_quotient),
    Row(division.REMAINDERS, division.narrow_remainders),
    Row(division.ZERO_IN_QUOTIENT, division.narrow_zero_in_quotient),
    Row(division.ANSWER, division.narrow_answer),
    Row(numbers_shown.NUMBERS, numbers_shown.narrow_numbers, numbers_shown.NUMBERS_DEFAULT),
    Row(numbers_shown.PLACES, numbers_shown.narrow_places, numbers_shown.PLACES_DEFAULT),
    Row(
        numbers_shown.ROUND_PLACES,
        numbers_shown.narrow_round_places,
        numbers_shown.ROUND_PLACES_DEFAULT,
    ),
    Row(numbers_shown.WHOLE, numbers_shown.narrow_whole, numbers_shown.WHOLE_DEFAULT),
    Row(numbers_shown.SAME_TO, numbers_shown.narrow_same_to),
    Row(numbers_shown.END_ZEROS, numbers_shown.narrow_end_zeros),
    Row(numbers_shown.TO, numbers_shown.narrow_to, numbers_shown.TO_DEFAULT),
    Row(numbers_shown.GOES, numbers_shown.narrow_goes),
    Row(numbers_shown.OVER_NINE, numbers_shown.narrow_over_nine),
    Row(numbers_shown.POWER_OF_TEN, numbers_shown.narrow_power_of_ten),
    *(Row(word, tells_apart.narrow) for word in tells_apart.WORDS),
)

AnyOutline = Outline | ProductOutline | QuotientOutline | OrderOutline | RoundOutline | PowerOutline

OUTLINES: Final[dict[Operation, AnyOutline]] = {
    Operation.ADD: Outline(Operation.ADD, (Kind((), ()),) * 2, (answer.NotNought(),)),
    Operation.SUBTRACT: Outline(Operation.SUBTRACT, (Kind((), ()),) * 2, (answer.NotNought(),)),
    Operation.MULTIPLY: ProductOutline((FactorKind((1, 2), ()),) * 2),
    Operation.DIVIDE: QuotientOutline(tuple(range(2, 10))),
    Operation.ORDER: OrderOutline(Operation.ORDER, numbers_shown.NUMBERS_DEFAULT),
    Operation.COMPARE: OrderOutline(Operation.COMPARE, 2),
    Operation.ROUND: RoundOutline(),
}
"""For each operation the outline that its conditions start from."""

VOCABULARY: Final = Vocabulary(
    operations=tuple(OUTLINES),
    words=tuple(row.word for row in TABLE if row.word.operations <= set(OUTLINES)),
    checks=(*CHECKS, tells_apart.asks_for_answers),
)


def outline_of(operation: Operation, conditions: tuple[Condition, ...]) -> AnyOutline:
    """The outline that an operation and its conditions leave."""
    values = {condition.word: condition.value for condition in conditions}
    outline = OUTLINES[operation]
    for row in TABLE:
        if operation in row.word.operations:
            value = values.get(row.word.name, row.default)
            if value is not None:
                outline = row.narrow(value, outline)
    return outline
