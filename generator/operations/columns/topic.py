"""Addition and subtraction in columns."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.columns import (
    addends,
    answer,
    carrying,
    counted_wrongly,
    exchanging,
    lengths,
    repeats,
    seen,
    setting_out,
    transfers,
    zeros,
)
from generator.operations.columns.addition import column_addition
from generator.operations.columns.checks import CHECKS
from generator.operations.columns.counting_up import counting_up
from generator.operations.columns.equal_addition import equal_addition
from generator.operations.columns.fills import Kind
from generator.operations.columns.outline import Outline
from generator.operations.columns.questions import ColumnQuestions
from generator.operations.columns.subtraction import column_subtraction
from generator.operations.fixed_numbers import rows_for
from generator.operations.topic import Method, Topic, row
from generator.operations.working import Conventions, Working
from specs.languages.saying import say

_SUBTRACTIONS: Final[dict[str, Method]] = {
    "exchange": column_subtraction,
    "equal addition": equal_addition,
    "counting up": counting_up,
}


def _in_columns(question: Question, conventions: Conventions) -> Working:
    """A column addition, or the subtraction that the school teaches."""
    if question.operation is Operation.SUBTRACT:
        return _SUBTRACTIONS[conventions.subtraction](question, conventions)
    return column_addition(question, conventions.of_addition)


def _minutes(question: Question) -> Fraction:
    return Fraction(2)


_TWO_NUMBERS: Final = (Kind((), ()),) * 2

COLUMNS: Final = Topic(
    "columns",
    outlines={
        Operation.ADD: Outline(Operation.ADD, _TWO_NUMBERS, (answer.NotNought(),)),
        Operation.SUBTRACT: Outline(Operation.SUBTRACT, _TWO_NUMBERS, (answer.NotNought(),)),
    },
    questions=ColumnQuestions,
    conditions=(
        row(addends.WORD, addends.narrow, addends.DEFAULT, seen.addends),
        row(lengths.PLACES, lengths.narrow_places, lengths.PLACES_DEFAULT, seen.places),
        row(lengths.WHOLE, lengths.narrow_whole, lengths.WHOLE_DEFAULT, seen.whole),
        row(lengths.LONGER, lengths.narrow_longer, seen=seen.longer),
        row(zeros.WORD, zeros.narrow, zeros.DEFAULT, seen.zeros),
        row(repeats.WORD, repeats.narrow, seen=seen.repeats),
        row(transfers.CARRIES, transfers.narrow_carries, seen=seen.transfers),
        row(transfers.EXCHANGES, transfers.narrow_exchanges, seen=seen.transfers),
        row(answer.WORD, answer.narrow, seen=seen.answer),
        *rows_for(3, "add"),
        *rows_for(2, "subtract"),
    ),
    checks=CHECKS,
    admitting=seen.admitting,
    leaves_out={Operation.SUBTRACT: say("a number less itself, 3.4 − 3.4")},
    method=_in_columns,
    mistakes=(
        setting_out.LINED_UP,
        exchanging.SMALLER_FROM_LARGER,
        carrying.NOT_ADDED,
        carrying.DROPPED,
        exchanging.NOT_LOWERED,
        setting_out.COPIED,
        setting_out.DROPPED,
        exchanging.STOPS,
        exchanging.PASSES_OVER,
        exchanging.ZERO_GIVES_N,
        exchanging.ZERO_GIVES_ZERO,
        exchanging.ONE_WHERE_BLANK,
        exchanging.BOTH,
        setting_out.PARTS_APART,
        carrying.SWAPPED,
        carrying.TWICE,
    ),
    mistakes_of_methods=(counted_wrongly.LAST_LEFT_OUT, counted_wrongly.FIRST_LEFT_OUT),
    minutes=_minutes,
    numbers={Operation.ADD: (2, 6), Operation.SUBTRACT: (2, 2)},
)
