"""What every way of multiplying two whole numbers on squares has in common.

A way (a fact known by heart, short multiplication, long multiplication) fills rows of the
working from a given one downwards and leaves the product in one of them, its ones in the
column of the ones.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Final, NamedTuple

from generator.operations.products.set_outs import Factors
from generator.operations.spoken import amount, column_name
from generator.operations.working import Columns, Ink, Mark, Rule, Step, read_number
from specs.languages.saying import Saying, all_of, joined, say

RowHabit = Callable[[int, int, int, bool], tuple[int, int]]
"""From a digit, the digit it is multiplied by, what is carried in, and whether the digit is the
left-most: the figure that is written and what is carried on."""


def right_figures(digit: int, by: int, carry: int, last: bool) -> tuple[int, int]:
    """The last digit of the product with what is carried in; the rest is carried on."""
    made = digit * by + carry
    return (made, 0) if last else (made % 10, made // 10)


@dataclass(frozen=True, slots=True)
class Manner:
    """How somebody multiplies: the right way, but for what a mistake changes in it.

    ``habit`` gives the figures of a row. ``passes_over_zeros`` leaves noughts inside a number
    out, ``moves_rows`` begins the tens row with a nought and so on, ``places`` gives the
    decimal places of the product from those of the factors (None: their sum, by the powers).
    """

    habit: RowHabit = right_figures
    passes_over_zeros: bool = False
    moves_rows: bool = True
    places: Callable[[list[int]], int] | None = None

    def digits(self, number: int) -> list[int]:
        """The digits that are multiplied, from the right."""
        digits = [int(text) for text in reversed(str(number))]
        return [d for d in digits if d] if self.passes_over_zeros else digits

    def row(self, upper: int, by: int) -> "Iterator[Figures]":
        """The products of a number's digits by one digit, from the right."""
        carry, digits = 0, self.digits(upper)
        for at, own in enumerate(digits):
            last = at == len(digits) - 1
            written, noted = self.habit(own, by, carry, last)
            yield Figures(at, own, carry, written, noted, last)
            carry = noted

    def product(self, upper: int, lower: int) -> int:
        """The sum of the rows, as it is read off their figures."""
        return sum(
            figures.written * 10 ** (figures.at + place * self.moves_rows)
            for place, digit in enumerate(self.digits(lower))
            for figures in self.row(upper, digit)
        )


class Figures(NamedTuple):
    """One product in a row: the digit ``own`` of the column ``at`` and what is carried to it;
    the figure that is written, which may have two digits, and what is carried on.
    """

    at: int
    own: int
    carry: int
    written: int
    noted: int
    last: bool


RIGHTLY: Final = Manner()


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


def across(upper: int, lower: int, columns: Columns, row: int) -> Rule:
    """A rule as wide as the longest product of two factors may be, with a square for a sign."""
    return Rule(row, columns[digits_of(upper, lower)], columns[0])


class Turn(NamedTuple):
    """One product of two whole numbers in the working of several.

    ``first`` is a factor or the product so far, without the noughts at its end, of which
    ``aside`` are left aside; ``second`` is the factor that it is multiplied by.
    """

    first: int
    second: int
    aside: int

    @property
    def upper(self) -> int:
        """The number that stands on top: the longer one, the first of two as long."""
        return self.first if digits_of(self.first) >= digits_of(self.second) else self.second

    @property
    def lower(self) -> int:
        """The number that stands below."""
        return self.second if digits_of(self.first) >= digits_of(self.second) else self.first

    @property
    def product(self) -> int:
        """Their product."""
        return self.first * self.second


def next_turn(so_far: int, factor: int) -> Turn:
    """What is multiplied next: noughts at the end of the product so far are left aside."""
    first, aside = without_noughts(so_far)
    return Turn(first, factor, aside)


def turns(factors: Sequence[int]) -> tuple[Turn, ...]:
    """The products of two numbers each by which whole numbers are multiplied, one after another.

    No factor ends in nought.
    """
    found, so_far = [], factors[0]
    for factor in factors[1:]:
        found.append(next_turn(so_far, factor))
        so_far = found[-1].product
    return tuple(found)


def without_noughts(units: int) -> tuple[int, int]:
    """A whole number without the noughts at its end, and how many there were."""
    noughts = 0
    while units and units % 10 == 0:
        units, noughts = units // 10, noughts + 1
    return units, noughts


def digits_of(*factors: int) -> int:
    """How many digits whole numbers have together."""
    return sum(len(str(factor)) for factor in factors)


def multiply_by_digit(
    factors: Factors,
    digit: int,
    shift: int,
    row: int,
    carry_row: int | None,
    inks: tuple[Ink, Ink],
    manner: Manner = RIGHTLY,
) -> tuple[Step, ...]:
    """One row of products: the upper factor by a digit of the column ``shift``, from the right.

    ``inks`` are the row's and the small carried digits'; without a row for these they are kept in
    mind. The last product is written in full. The two digits that are multiplied are lit, and
    where the result goes.
    """
    steps, rightly, columns = [], manner == RIGHTLY, factors.columns
    for at, own, carry, written, noted, last in manner.row(factors.upper, digit):
        place = at + shift
        marks = [
            Mark(row, columns[place + left], text, inks[0])
            for left, text in enumerate(reversed(str(written)))
        ]
        lit = (
            factors.own(at),
            factors.by(shift),
            *((mark.row, mark.column) for mark in marks),
        )
        if noted and carry_row is not None:
            marks.append(Mark(carry_row, columns[place + 1], str(noted), inks[1]))
        in_mind = carry_row is None
        if rightly:
            said = _product_in_words(own, at, digit, shift, carry, last=last, in_mind=in_mind)
        else:
            said = _written_here(written, noted)
        room = () if last or carry_row is None else ((carry_row, columns[place + 1]),)
        steps.append(Step(said, columns[place], tuple(marks), lit=lit, room=room))
    return tuple(steps)


def one_after_another(amounts: Sequence[str]) -> str:
    """``6 ones, then by the 2 tens``: what is multiplied by, in turn."""
    return reduce(_then, amounts)


def _then(these: str, following: str) -> Saying:
    return say("{these}, then by the {next}", these=these, next=following)


def _written_here(written: int, noted: int) -> Saying:
    """What is said where a mistake fills the squares."""
    if noted:
        return say("Here {digit} is written and {carried} carried.", digit=written, carried=noted)
    return say("Here {digit} is written.", digit=written)


def _product_in_words(
    own: int, at: int, digit: int, shift: int, carry: int, *, last: bool, in_mind: bool
) -> Saying:
    """What is said of the digit ``own`` of the column ``at`` times one of the column ``shift``."""
    place = at + shift
    column_total = digit * own + carry
    kept, carried_on = column_total % 10, column_total // 10
    by = amount(digit, shift) if shift else str(digit)
    made = joined((by, "×", amount(own, at), "=", amount(digit * own, place)))
    if carry:
        made = say(
            "{product}; with {carried} carried, {total}",
            product=made,
            carried=amount(carry, place),
            total=amount(column_total, place),
        )
    if not carried_on:
        return say("{worked}: write {digit}.", worked=made, digit=kept)
    apart = all_of((amount(carried_on, place + 1), amount(kept, place)))
    made = joined((made, "=", apart))
    if last:
        return say("{worked}: write {digit}.", worked=made, digit=column_total)
    if in_mind:
        return say(
            "{product}: write {digit}, keep {carried} in mind for the {column}.",
            product=made,
            digit=kept,
            carried=carried_on,
            column=column_name(place + 1),
        )
    return say(
        "{product}: write {digit}, carry {carried} to the {column}.",
        product=made,
        digit=kept,
        carried=carried_on,
        column=column_name(place + 1),
    )
