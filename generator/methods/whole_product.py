"""What every way of multiplying two whole numbers on squares has in common.

A way (a fact known by heart, short multiplication, long multiplication) fills rows of the
working from a given one downwards and leaves the product in one of them, its ones in the
column of the ones.
"""

from dataclasses import dataclass

from generator.methods.spoken import amount, column_name
from generator.methods.working import Columns, Ink, Mark, Rule, Step, read_number


@dataclass(frozen=True, slots=True)
class WholeProduct:
    """Two whole numbers multiplied: the steps, the rows taken, and the product's own row."""

    steps: tuple[Step, ...]
    rows: int
    product_row: int
    ink: Ink

    @property
    def product(self) -> int:
        """The product as the marks give it."""
        return read_number(list(self.steps), self.product_row, self.ink).units


def set_whole(number: int, columns: Columns, row: int, ink: Ink) -> tuple[Mark, ...]:
    """A whole number with its ones in the column of the ones."""
    digits = str(number)
    return tuple(
        Mark(row, columns[len(digits) - 1 - at], digit, ink) for at, digit in enumerate(digits)
    )


def set_factors(upper: int, lower: int, columns: Columns, row: int) -> tuple[Mark, ...]:
    """Two factors under one another, with the sign.

    There is room for as many digits as both have together: no product needs more, and the
    room does not tell how many it has.
    """
    return (
        *set_whole(upper, columns, row, Ink.GIVEN),
        Mark(row + 1, columns[digits_of(upper, lower)], "×", Ink.SIGN),
        *set_whole(lower, columns, row + 1, Ink.GIVEN),
    )


def across(upper: int, lower: int, columns: Columns, row: int) -> Rule:
    """A rule as wide as the room that ``set_factors`` takes."""
    return Rule(row, columns[digits_of(upper, lower)], columns[0])


def digits_of(*factors: int) -> int:
    """How many digits whole numbers have together."""
    return sum(len(str(factor)) for factor in factors)


def multiply_by_digit(
    upper: int,
    digit: int,
    shift: int,
    columns: Columns,
    row: int,
    carry_row: int,
    inks: tuple[Ink, Ink],
) -> tuple[Step, ...]:
    """One row of products: ``upper`` by a digit of the column ``shift``, from the right.

    ``inks`` are the row's and the small carried digits'. The last product is written in full.
    """
    carry, steps = 0, []
    upper_digits = [int(text) for text in reversed(str(upper))]
    for at, own in enumerate(upper_digits):
        place, last = at + shift, at == len(upper_digits) - 1
        column_total = digit * own + carry
        kept, carried_on = column_total % 10, column_total // 10
        by = amount(digit, shift) if shift else str(digit)
        said = f"{by} × {amount(own, at)} = {amount(digit * own, place)}"
        if carry:
            said += f"; with {amount(carry, place)} carried, {amount(column_total, place)}"
        marks = [Mark(row, columns[place], str(kept), inks[0])]
        if carried_on:
            said += f" = {amount(carried_on, place + 1)}"
            said += f" and {amount(kept, place)}" if kept else ""
            if last:
                said += f": write {column_total}."
                marks.append(Mark(row, columns[place + 1], str(carried_on), inks[0]))
            else:
                said += f": write {kept}, carry {carried_on} to the {column_name(place + 1)}."
                marks.append(Mark(carry_row, columns[place + 1], str(carried_on), inks[1]))
        else:
            said += f": write {kept}."
        steps.append(Step(said, columns[place], tuple(marks)))
        carry = carried_on
    return tuple(steps)
