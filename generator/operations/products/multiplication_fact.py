"""A product known by heart: two one-digit numbers, or anything by 1 or by 0."""

from dataclasses import replace

from generator.operations.products.whole_product import WholeProduct
from generator.operations.working import Columns, Ink, Step, line_width, write_line
from specs.languages.saying import say


def is_fact(first: int, second: int) -> bool:
    """Whether a product needs no written method."""
    return max(first, second) < 10 or min(first, second) < 2


def fact_text(first: int, second: int) -> str:
    """The fact as it is written on the squares."""
    return f"{first}×{second}={first * second}"


def multiplication_fact(
    first: int, second: int, columns: Columns, row: int, ink: Ink
) -> WholeProduct:
    """The fact on one row: what is asked, then the product, its ones in the ones' column."""
    text = fact_text(first, second)
    asked = line_width(text[: text.index("=") + 1])
    written = write_line(text, row, columns[0] + 1 - line_width(text), Ink.GIVEN)
    product = tuple(replace(mark, ink=ink) for mark in written.marks[asked:])
    question = f"{first} × {second}"
    fact = f"{question} = {first * second}"
    return WholeProduct(
        (
            Step(say("What is {asked}?", asked=question), None, written.marks[:asked]),
            Step(say("{fact}: you know this by heart.", fact=fact), None, product),
        ),
        rows=1,
        product_row=row,
        ink=ink,
    )
