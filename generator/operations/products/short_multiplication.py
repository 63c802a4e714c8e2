"""Short multiplication: a whole number by one digit, with small carried digits.

The method is that of the England appendix (DFE-00180-2013), 342 × 7: work from the right; a
product's tens are carried to the next column. Other lands set the factors out on one line, or keep
what is carried in mind; the products are the same.
"""

from generator.operations.products.set_outs import IN_MIND, Factors
from generator.operations.products.whole_product import (
    RIGHTLY,
    Manner,
    WholeProduct,
    multiply_by_digit,
)
from generator.operations.working import Conventions, Ink, Step


def short_multiplication(
    factors: Factors, conventions: Conventions, ink: Ink, manner: Manner = RIGHTLY
) -> WholeProduct:
    """Multiply by one digit, the factors set out from ``factors.row`` downwards.

    Rows: the factors, the product, the carried digits; with carries above, the carried digits
    come first: otherwise they stand below, as there is no row between. They have no row where
    they are kept in mind.
    """
    row, in_mind = factors.row, conventions.product_carries == IN_MIND
    above = conventions.carries == "above" and not in_mind
    factors = factors.from_row(row + above)
    product_row = factors.end
    carry_row = None if in_mind else row if above else product_row + 1
    set_out = Step(
        factors.in_words(""),
        None,
        factors.marks,
        factors.points,
        rules=(factors.across(product_row), factors.across(product_row + 1)),
    )
    inks = (ink, Ink.CARRY)
    worked = multiply_by_digit(factors, factors.lower, 0, product_row, carry_row, inks, manner)
    rows = factors.set_out.rows + 1 + (not in_mind)
    return WholeProduct((set_out, *worked), rows, product_row, ink)
