"""The products of the parts of two numbers, set out in rows to be added.

What the grid and the expanded method have in common: 34 × 27 as 20 × 30, 20 × 4, 7 × 30, 7 × 4.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from generator.arithmetic.numbers import Number
from generator.operations.columns.addition import add_column, column_totals
from generator.operations.spoken import amount
from generator.operations.working import Columns, Ink, Step, SumRows
from specs.languages.saying import Saying, joined, say


class Part(NamedTuple):
    """A digit of a number and its place: of 34 the 3 of the tens, which is 30."""

    digit: int
    place: int

    @property
    def size(self) -> int:
        """What the digit stands for."""
        return self.digit * int(10**self.place)

    def times(self, other: "Part") -> int:
        """The product of two parts."""
        return self.size * other.size


def parts_of(number: int) -> tuple[Part, ...]:
    """A whole number's digits that are not nought, from the left."""
    digits = str(number)
    return tuple(
        Part(int(digit), len(digits) - 1 - at) for at, digit in enumerate(digits) if digit != "0"
    )


def in_parts(number: int) -> str:
    """``34 = 30 + 4``; a number that is one part alone: ``7``."""
    parts = parts_of(number)
    said = " + ".join(str(part.size) for part in parts)
    return f"{number} = {said}" if len(parts) > 1 else said


def said_of(by: Part, own: Part) -> Saying:
    """``2 tens × 3 tens = 6 hundreds: write 600.``"""
    spoken = amount(by.digit, by.place) if by.place else str(by.digit)
    product = amount(by.digit * own.digit, by.place + own.place)
    worked = joined((spoken, "×", amount(own.digit, own.place), "=", product))
    return say("{worked}: write {digit}.", worked=worked, digit=by.times(own))


def added(
    rows: Sequence[int], columns: Columns, at: SumRows, ink: Ink, ends: Sequence[int] = ()
) -> Iterator[Step]:
    """Rows of whole numbers added in columns.

    ``ends`` are the columns that they end in, where their noughts are not written.
    """
    numbers = tuple(map(Number, rows))
    places = Columns.holding(numbers)
    _, totals = column_totals(numbers, places)
    lasts = ends or (0,) * len(rows)
    for place in places.from_the_right:
        is_last = place == places.top
        step = add_column(
            tuple(n for n, end in zip(numbers, lasts, strict=True) if place >= end),
            columns,
            place,
            totals[place],
            at.answer,
            at.carried,
            is_last=is_last,
            ink=ink,
        )
        lit = [(at.first + row, columns[place]) for row in range(len(rows))]
        if totals[place][0]:
            lit.append((at.carried, columns[place]))
        written = [(mark.row, mark.column) for mark in step.marks if mark.ink is ink]
        yield replace(step, lit=(*lit, *written))
