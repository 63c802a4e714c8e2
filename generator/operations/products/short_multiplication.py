"""Short multiplication: a whole number by one digit, with small carried digits.

The method is that of the England appendix (DFE-00180-2013), 342 × 7: work from the right; a
product's tens are carried to the next column.
"""

from generator.operations.products.whole_product import (
    RIGHTLY,
    Manner,
    WholeProduct,
    across,
    multiply_by_digit,
    set_factors,
)
from generator.operations.working import Columns, Conventions, Ink, Step
from specs.languages.saying import say


def short_multiplication(
    upper: int,
    digit: int,
    columns: Columns,
    row: int,
    conventions: Conventions,
    ink: Ink,
    manner: Manner = RIGHTLY,
) -> WholeProduct:
    """Multiply by one digit, from ``row`` downwards.

    Rows: the number, the digit, the product, the carried digits; with carries above, the
    carried digits come first: otherwise they stand below, as there is no row between.
    """
    above = conventions.carries == "above"
    first = row + 1 if above else row
    product_row = first + 2
    carry_row = row if above else product_row + 1
    set_out = Step(
        say("Set out {upper} × {digit}: the digit under the ones.", upper=upper, digit=digit),
        None,
        set_factors(upper, digit, columns, first),
        rules=(
            across(upper, digit, columns, product_row),
            across(upper, digit, columns, product_row + 1),
        ),
    )
    inks = (ink, Ink.CARRY)
    worked = multiply_by_digit(
        upper, digit, 0, columns, product_row, carry_row, inks, first, manner
    )
    return WholeProduct((set_out, *worked), 4, product_row, ink)
