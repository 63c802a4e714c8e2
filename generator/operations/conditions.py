"""The conditions of a rung: each word, the shape of its value, and what it narrows.

``TABLE`` is the one list of them. A row's ``narrow`` takes the value that the word's
shape read and an outline, and gives the narrowed outline. Rows apply in table order; a
row with a default applies even where a rung does not mention its word.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final, TypeVar

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
from specs.spec import SPOT, Condition
from specs.words import Vocabulary, Word

__all__ = ["TABLE", "VOCABULARY", "Outline", "Row", "outline_of"]


V = TypeVar("V")
Narrowed = TypeVar("Narrowed")


@dataclass(frozen=True, slots=True)
class Row:
    """A condition: its word, its meaning, and the value it has when not mentioned (None: none).

    ``narrow`` takes an outline of the family that the word's operations belong to.
    """

    word: Word[Any]
    narrow: Callable[[Any, Any], Any]
    default: object = None


def _row(word: Word[V], narrow: Callable[[V, Narrowed], object], default: V | None = None) -> Row:
    """A row in which ``narrow`` takes what the word's shape makes."""
    return Row(word, narrow, default)


TABLE: Final = (
    _row(addends.WORD, addends.narrow, addends.DEFAULT),
    _row(lengths.PLACES, lengths.narrow_places, lengths.PLACES_DEFAULT),
    _row(lengths.WHOLE, lengths.narrow_whole, lengths.WHOLE_DEFAULT),
    _row(lengths.LONGER, lengths.narrow_longer),
    _row(zeros.WORD, zeros.narrow, zeros.DEFAULT),
    _row(repeats.WORD, repeats.narrow),
    _row(transfers.CARRIES, transfers.narrow_carries),
    _row(transfers.EXCHANGES, transfers.narrow_exchanges),
    _row(answer.WORD, answer.narrow),
    _row(factors.FACTORS, factors.narrow_factors),
    _row(factors.DIGITS, factors.narrow_digits),
    _row(factors.PLACES, factors.narrow_places, factors.PLACES_DEFAULT),
    _row(factors.ZEROS, factors.narrow_zeros),
    _row(factors.ONES, factors.narrow_ones),
    _row(products.CARRIES, products.narrow_carries),
    _row(products.ANSWER, products.narrow_answer),
    _row(division.DIVISOR, division.narrow_divisor),
    _row(division.DIVISOR_PLACES, division.narrow_divisor_places),
    _row(division.DIVIDEND, division.narrow_dividend),
    _row(division.PLACES, division.narrow_places),
    _row(division.ZEROS, division.narrow_zeros),
    _row(division.ENDING, division.narrow_ending),
    _row(division.QUOTIENT, division.narrow_quotient),
    _row(division.REMAINDERS, division.narrow_remainders),
    _row(division.ZERO_IN_QUOTIENT, division.narrow_zero_in_quotient),
    _row(division.ANSWER, division.narrow_answer),
    _row(numbers_shown.NUMBERS, numbers_shown.narrow_numbers, numbers_shown.NUMBERS_DEFAULT),
    _row(numbers_shown.PLACES, numbers_shown.narrow_places, numbers_shown.PLACES_DEFAULT),
    _row(
        numbers_shown.ROUND_PLACES,
        numbers_shown.narrow_round_places,
        numbers_shown.ROUND_PLACES_DEFAULT,
    ),
    _row(numbers_shown.WHOLE, numbers_shown.narrow_whole, numbers_shown.WHOLE_DEFAULT),
    _row(numbers_shown.SAME_TO, numbers_shown.narrow_same_to),
    _row(numbers_shown.END_ZEROS, numbers_shown.narrow_end_zeros),
    _row(numbers_shown.TO, numbers_shown.narrow_to, numbers_shown.TO_DEFAULT),
    _row(numbers_shown.GOES, numbers_shown.narrow_goes),
    _row(numbers_shown.OVER_NINE, numbers_shown.narrow_over_nine),
    _row(numbers_shown.POWER_OF_TEN, numbers_shown.narrow_power_of_ten),
    *(_row(word, tells_apart.narrow) for word in tells_apart.WORDS),
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

_CALCULATIONS: Final = frozenset(str(o) for o in Operation if o.is_calculation)

VOCABULARY: Final = Vocabulary(
    operations=tuple(OUTLINES),
    words=tuple(row.word for row in TABLE if row.word.operations <= set(OUTLINES)),
    checks=(*CHECKS, tells_apart.asks_for_answers),
    forms={
        "missing number": _CALCULATIONS,
        "missing digit": _CALCULATIONS,
        "known fact": frozenset({"multiply", "divide"}),
        SPOT: _CALCULATIONS,
    },
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
