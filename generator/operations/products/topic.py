"""Multiplication, worked through whole numbers."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.fixed_numbers import rows_for
from generator.operations.products import conditions, factors, multiplying, partly_multiplied, seen
from generator.operations.products.checks import CHECKS
from generator.operations.products.factors import FactorKind, ProductOutline
from generator.operations.products.multiplication import multiplication
from generator.operations.products.questions import ProductQuestions
from generator.operations.topic import Topic, row


def _minutes(question: Question) -> Fraction:
    """A product by one digit takes one and a half, a longer one three."""
    lengths = sorted(len(str(number.units).strip("0")) for number in question.operands)
    return Fraction(3) if lengths[-2] > 1 else Fraction(3, 2)


PRODUCTS: Final = Topic(
    "products",
    outlines={Operation.MULTIPLY: ProductOutline((FactorKind((1, 2), ()),) * 2)},
    questions=ProductQuestions,
    conditions=(
        row(factors.FACTORS, factors.narrow_factors, seen=seen.factors),
        row(factors.DIGITS, factors.narrow_digits, seen=seen.digits),
        row(factors.PLACES, factors.narrow_places, factors.PLACES_DEFAULT, seen.places),
        row(factors.ZEROS, factors.narrow_zeros, seen=seen.zeros),
        row(factors.ONES, factors.narrow_ones, seen=seen.ones),
        row(conditions.CARRIES, conditions.narrow_carries, seen=seen.carries),
        row(conditions.ANSWER, conditions.narrow_answer, seen=seen.answer),
        *rows_for(3, "multiply"),
    ),
    checks=CHECKS,
    admitting=seen.admitting,
    method=multiplication,
    mistakes=(
        multiplying.POINT_AS_IN_ADDITION,
        multiplying.ZEROS_SKIPPED,
        multiplying.CARRY_NOT_ADDED,
        multiplying.NOUGHT_LEFT_OUT,
        multiplying.CARRY_ADDED_FIRST,
        multiplying.CARRY_SWAPPED,
        multiplying.POWERS_ADDED,
    ),
    mistakes_of_methods=(partly_multiplied.MATCHING_ONLY, partly_multiplied.NOUGHT_TOO_FEW),
    minutes=_minutes,
    numbers={Operation.MULTIPLY: (2, 3)},
)
