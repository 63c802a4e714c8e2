"""Expanded multiplication: a row for each product of two digits, said in full, then their sum.

Between the grid and the short or long method: the numbers stand under one another, and nothing
is carried before the sum. Beside each row stands which product it holds. Common practice, no
source.
"""

from generator.operations.products.partial_products import added, parts_of, said_of
from generator.operations.products.set_outs import Factors
from generator.operations.products.whole_product import (
    WholeProduct,
    one_after_another,
    set_whole,
)
from generator.operations.spoken import amount
from generator.operations.working import Conventions, Ink, Mark, Step
from specs.languages.saying import say


def expanded_multiplication(factors: Factors, conventions: Conventions, ink: Ink) -> WholeProduct:
    """Multiply two whole numbers, the ones first.

    Rows: the factors, a row for each product, the sum, its carried digits; with carries
    above these come before the products, with carries between after them. The products are named
    at the right of their rows.
    """
    upper, lower, columns = factors.upper, factors.lower, factors.columns
    by_parts, own_parts = parts_of(lower)[::-1], parts_of(upper)[::-1]
    turns = [(by, own) for by in by_parts for own in own_parts]
    rows = conventions.sum_rows(len(turns), factors.end)
    steps = [
        Step(
            say(
                "Set out {upper} × {lower}. A row for each product: by the {these}.",
                upper=upper,
                lower=lower,
                these=one_after_another([amount(by.digit, by.place) for by in by_parts]),
            ),
            None,
            factors.marks,
            rules=(factors.across(factors.end),),
        )
    ]
    width = max(len(f"{by.size}×{own.size}") for by, own in turns)
    for at, (by, own) in enumerate(turns, rows.first):
        marks = set_whole(by.times(own), columns, at, Ink.PARTIAL)
        note = tuple(
            Mark(at, columns[0] + 2 + column, character, Ink.NOTE)
            for column, character in enumerate(f"{by.size}×{own.size}".rjust(width))
            if character != " "
        )
        lit = (
            factors.own(own.place),
            factors.by(by.place),
            *((mark.row, mark.column) for mark in marks),
        )
        steps.append(Step(said_of(by, own), None, (*marks, *note), lit=lit))
    steps.append(
        Step(
            say("Add the {count} rows.", count=len(turns)),
            None,
            rules=(
                factors.across(rows.answer),
                factors.across(rows.answer + 1),
            ),
        )
    )
    products = [by.times(own) for by, own in turns]
    steps.extend(added(products, columns, rows, ink))
    return WholeProduct(tuple(steps), rows.end - factors.row, rows.answer, ink)
