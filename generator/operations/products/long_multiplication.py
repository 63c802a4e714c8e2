"""Long multiplication: a row of products for each digit of the multiplier, then their sum.

The method is that of the England appendix (DFE-00180-2013), 124 × 26. The row of the tens
begins with a nought, the row of the hundreds with two. A product's carried digit stands small
in the square that the next product's digit will take.
"""

from generator.arithmetic.numbers import Number
from generator.operations.products.partial_products import added
from generator.operations.products.whole_product import (
    RIGHTLY,
    Manner,
    WholeProduct,
    across,
    multiply_by_digit,
    one_after_another,
    set_factors,
)
from generator.operations.spoken import amount
from generator.operations.working import Columns, Conventions, Ink, Mark, Step, read_number
from specs.languages.saying import Saying, say


def long_multiplication(
    upper: int,
    lower: int,
    columns: Columns,
    row: int,
    conventions: Conventions,
    ink: Ink,
    manner: Manner = RIGHTLY,
) -> WholeProduct:
    """Multiply by a number of two or more digits that does not end in nought.

    Rows: the two numbers, a row for each digit of the lower that is not nought, the sum, its
    carried digits; with carries above these come before the rows of products, with carries
    between after them.
    """
    digits = {place: digit for place, digit in enumerate(manner.digits(lower)) if digit}
    rows = conventions.sum_rows(len(digits), row + 2)
    spoken = [amount(digit, place) for place, digit in digits.items()]
    steps = [
        Step(
            say(
                "Set out {upper} × {lower}. Multiply by the {these}.",
                upper=upper,
                lower=lower,
                these=one_after_another(spoken),
            ),
            None,
            set_factors(upper, lower, columns, row),
            rules=(across(upper, lower, columns, row + 2),),
        )
    ]
    partials = []
    for at, (place, digit) in enumerate(digits.items(), start=rows.first):
        moved = place if manner.moves_rows else 0
        products = _row(upper, digit, moved, columns, at, row, manner)
        steps.extend(products)
        partials.append(_read(products, at))
    steps.append(
        Step(
            say("Add the {count} rows.", count=len(partials)),
            None,
            rules=(
                across(upper, lower, columns, rows.answer),
                across(upper, lower, columns, rows.answer + 1),
            ),
        )
    )
    steps.extend(added([partial.units for partial in partials], columns, rows, ink))
    return WholeProduct(tuple(steps), rows.end - row, rows.answer, ink)


def _row(
    upper: int,
    digit: int,
    place: int,
    columns: Columns,
    row: int,
    factors_row: int,
    manner: Manner,
) -> list[Step]:
    inks = (Ink.PARTIAL, Ink.CORNER)
    products = multiply_by_digit(upper, digit, place, columns, row, row, inks, factors_row, manner)
    if not place:
        return list(products)
    noughts = tuple(Mark(row, columns[at], "0", Ink.PLACEHOLDER) for at in range(place - 1, -1, -1))
    lit = ((factors_row + 1, columns[place]), *((mark.row, mark.column) for mark in noughts))
    return [Step(_begun(amount(digit, place), place), None, noughts, lit=lit), *products]


def _begun(by: str, place: int) -> Saying:
    """A row begun with a nought for each column that it has nothing in."""
    if place == 1:
        return say("Now the {digit}. Begin the row with a nought: no ones.", digit=by)
    if place == 2:
        return say("Now the {digit}. Begin the row with 2 noughts: no ones and no tens.", digit=by)
    return say(
        "Now the {digit}. Begin the row with {count} noughts: no ones, and so on.",
        digit=by,
        count=place,
    )


def _read(products: list[Step], row: int) -> Number:
    """A row of products as it stands, with its noughts."""
    noughts = sum(mark.ink is Ink.PLACEHOLDER for step in products for mark in step.marks)
    return Number(read_number(products, row, Ink.PARTIAL).units * 10**noughts)
