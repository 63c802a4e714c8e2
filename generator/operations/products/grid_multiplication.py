"""Multiplication by the grid (area) method: each part of one number by each part of the other.

A column for each part of the upper number, a row for each part of the lower; their products fill
the cells and are added in columns. Common practice, no source: the England appendix
(DFE-00180-2013) has short and long multiplication alone.
"""

from dataclasses import replace

from generator.operations.products.partial_products import Part, added, in_parts, parts_of, said_of
from generator.operations.products.set_outs import Factors
from generator.operations.products.whole_product import WholeProduct, across, set_whole
from generator.operations.working import Conventions, Ink, Mark, Rule, Step, Upright
from specs.languages.saying import say


def grid_multiplication(factors: Factors, conventions: Conventions, ink: Ink) -> WholeProduct:
    """Multiply two whole numbers that do not end in nought and are not known by heart.

    Rows: the parts of the upper number, a row for each part of the lower, a free one (that of the
    carried digits, with carries above); then the products under one another, their sum, and its
    carried digits, which come before it with carries between.
    """
    upper, lower, columns, row = factors.upper, factors.lower, factors.columns, factors.row
    grid = _Grid(parts_of(upper), parts_of(lower), row)
    in_grid = (row, row + len(grid.lower))
    steps = [
        Step(
            say("Partition the numbers along the grid: {parted}.", parted=_parted(upper, lower)),
            None,
            grid.heads,
            rules=grid.rules,
            uprights=grid.uprights,
            rows=in_grid,
        )
    ]
    for down, by in enumerate(grid.lower):
        for along, own in enumerate(grid.upper):
            marks = grid.written(by.times(own), down + 1, along + 1, Ink.PARTIAL)
            heads = {(m.row, m.column) for m in (*grid.head(along), *grid.side(down))}
            lit = (*sorted(heads), *((mark.row, mark.column) for mark in marks))
            steps.append(Step(said_of(by, own), None, marks, rows=in_grid, lit=lit))
    above = conventions.carries == "above"
    first = row + 2 + len(grid.lower)
    products = [by.times(own) for by in grid.lower for own in grid.upper]
    sum_rows = conventions.sum_rows(len(products), first - above)
    in_sum = (first - above, sum_rows.end - 1)
    steps.append(
        Step(
            say("Set the {count} products under one another, to be added.", count=len(products)),
            None,
            (
                *(
                    mark
                    for at, product in enumerate(products, first)
                    for mark in set_whole(product, columns, at, Ink.PARTIAL)
                ),
                Mark(
                    first + len(products) - 1, across(upper, lower, columns, 0).start, "+", Ink.SIGN
                ),
            ),
            rules=(
                across(upper, lower, columns, sum_rows.answer),
                across(upper, lower, columns, sum_rows.answer + 1),
            ),
            rows=in_sum,
        )
    )
    sums = added(products, columns, sum_rows, ink)
    steps.extend(replace(step, rows=in_sum) for step in sums)
    return WholeProduct(tuple(steps), sum_rows.end - row, sum_rows.answer, ink)


def _parted(upper: int, lower: int) -> str:
    """``34 = 30 + 4, and 27 = 20 + 7``; a number of one digit is not parted."""
    first, *others = [in_parts(n) for n in (upper, lower) if len(parts_of(n)) > 1]
    return say("{first}, and {second}", first=first, second=others[0]) if others else first


class _Grid:
    """The squares of a grid: how wide its columns are and where they begin."""

    def __init__(self, upper: tuple[Part, ...], lower: tuple[Part, ...], row: int) -> None:
        self.upper, self.lower, self.row = upper, lower, row
        highest = lower[0].place
        widths = [highest + 1, *(own.place + highest + 2 for own in upper)]
        self.ends = [sum(widths[: at + 1]) - 1 for at in range(len(widths))]
        """The last square of each column, that of the lower number's parts first.

        A column has room for the longest product of such digits: it does not tell how long its are.
        """

    def written(self, number: int, down: int, along: int, ink: Ink) -> tuple[Mark, ...]:
        """A number at the right of its cell; the heads are the row and the column 0."""
        digits = str(number)
        first = self.ends[along] + 1 - len(digits)
        return tuple(
            Mark(self.row + down, first + at, digit, ink) for at, digit in enumerate(digits)
        )

    def head(self, along: int) -> tuple[Mark, ...]:
        """The part of the upper number above a column."""
        return self.written(self.upper[along].size, 0, along + 1, Ink.GIVEN)

    def side(self, down: int) -> tuple[Mark, ...]:
        """The part of the lower number beside a row."""
        return self.written(self.lower[down].size, down + 1, 0, Ink.GIVEN)

    @property
    def heads(self) -> tuple[Mark, ...]:
        """The sign and the parts of both numbers."""
        return (
            Mark(self.row, self.ends[0], "×", Ink.SIGN),
            *(mark for along in range(len(self.upper)) for mark in self.head(along)),
            *(mark for down in range(len(self.lower)) for mark in self.side(down)),
        )

    @property
    def rules(self) -> tuple[Rule, ...]:
        """The lines across."""
        rows = range(self.row, self.row + len(self.lower) + 2)
        return tuple(Rule(row, 0, self.ends[-1]) for row in rows)

    @property
    def uprights(self) -> tuple[Upright, ...]:
        """The lines downwards."""
        last = self.row + len(self.lower)
        return tuple(Upright(column, self.row, last) for column in (0, *(e + 1 for e in self.ends)))
