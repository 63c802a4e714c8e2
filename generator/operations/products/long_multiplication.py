"""Long multiplication: a row of products for each digit of the multiplier, then their sum.

The method is that of the England appendix (DFE-00180-2013), 124 × 26. The row of the tens
begins with a nought, the row of the hundreds with two. A product's carried digit stands small
in the square that the next product's digit will take. Other lands begin with the highest digit,
on one line, and leave the noughts out; the products are the same.
"""

from collections.abc import Iterator

from generator.operations.products.partial_products import added
from generator.operations.products.set_outs import HIGHEST_FIRST, IN_MIND, Factors
from generator.operations.products.whole_product import (
    RIGHTLY,
    Manner,
    WholeProduct,
    multiply_by_digit,
    one_after_another,
)
from generator.operations.spoken import amount
from generator.operations.working import Conventions, Ink, Mark, Step, read_number
from specs.languages.saying import Saying, say


def long_multiplication(
    factors: Factors, conventions: Conventions, ink: Ink, manner: Manner = RIGHTLY
) -> WholeProduct:
    """Multiply by a number of two or more digits that does not end in nought.

    Rows: the factors, a row for each digit of the lower that is not nought, the sum, its
    carried digits; with carries above these come before the rows of products, with carries
    between after them.
    """
    digits = [(place, digit) for place, digit in enumerate(manner.digits(factors.lower)) if digit]
    if conventions.first_row == HIGHEST_FIRST:
        digits.reverse()
    rows = conventions.sum_rows(len(digits), factors.end)
    spoken = one_after_another([amount(digit, place) for place, digit in digits])
    steps = [
        Step(
            factors.in_words(spoken),
            None,
            factors.marks,
            factors.points,
            rules=(factors.across(factors.end),),
        )
    ]
    partials, ends = [], []
    in_mind = conventions.product_carries == IN_MIND
    for at, (place, digit) in enumerate(digits, start=rows.first):
        moved = place if manner.moves_rows else 0
        steps.extend(_begun(factors, digit, moved, at, is_first=at == rows.first))
        inks = (Ink.PARTIAL, Ink.CORNER)
        products = multiply_by_digit(
            factors, digit, moved, at, None if in_mind else at, inks, manner
        )
        steps.extend(products)
        partials.append(read_number(list(products), at, Ink.PARTIAL).units * 10**moved)
        ends.append(0 if factors.set_out.has_noughts else moved)
    steps.append(
        Step(
            say("Add the {count} rows.", count=len(partials)),
            None,
            rules=(factors.across(rows.answer), factors.across(rows.answer + 1)),
        )
    )
    steps.extend(added(partials, factors.columns, rows, ink, ends))
    return WholeProduct(tuple(steps), rows.end - factors.row, rows.answer, ink)


def _begun(factors: Factors, digit: int, place: int, row: int, *, is_first: bool) -> Iterator[Step]:
    """A row begun: with a nought for each column that it has nothing in, or where it ends."""
    by, columns = amount(digit, place), factors.columns
    if not factors.set_out.has_noughts:
        if not is_first:
            said = say("Now the {amount}: the row ends under the {digit}.", amount=by, digit=digit)
            yield Step(said, None, lit=(factors.by(place), (row, columns[place])))
    elif place:
        noughts = tuple(
            Mark(row, columns[at], "0", Ink.PLACEHOLDER) for at in range(place - 1, -1, -1)
        )
        lit = (factors.by(place), *((mark.row, mark.column) for mark in noughts))
        yield Step(_with_noughts(by, place), None, noughts, lit=lit)


def _with_noughts(by: str, place: int) -> Saying:
    if place == 1:
        return say("Now the {digit}. Begin the row with a nought: no ones.", digit=by)
    if place == 2:
        return say("Now the {digit}. Begin the row with 2 noughts: no ones and no tens.", digit=by)
    return say(
        "Now the {digit}. Begin the row with {count} noughts: no ones, and so on.",
        digit=by,
        count=place,
    )
