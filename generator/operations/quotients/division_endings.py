"""How a division ends: with a remainder, with a fraction, or rounded.

What is written stands in the quotient's row, after the column of the last digit.
"""

from fractions import Fraction
from math import gcd

from generator.arithmetic.numbers import Number
from generator.operations.spoken import amount, column_name
from generator.operations.working import Ink, Mark, Step, write_line


def as_remainder(left: Number, power: int, row: int, column: int, *, point_column: bool) -> Step:
    """``r 2``. ``power`` is how many times larger both numbers were made before dividing."""
    shown = left.trimmed()
    places = left.places + len(str(power)) - 1
    remainder = Number(left.units, places).trimmed()
    sentence = f"{_left_over(shown)} left over"
    if power > 1:
        sentence += f" from a number made {power} times larger: {shown} ÷ {power} = {remainder}"
    written = write_line(f"r{remainder}", row, column, Ink.LEFT_OVER, point_column=point_column)
    letter = Mark(row, column, "r", Ink.LEFT_OVER)
    return Step(
        f"{sentence}. Write remainder {remainder}.",
        None,
        (letter, *written.marks[1:]),
        written.points,
    )


def as_fraction(left: Number, divisor: int, row: int, column: int) -> Step:
    """``4/5``, in its lowest terms."""
    over, under = left.trimmed().units, divisor * 10 ** left.trimmed().places
    common = gcd(over, under)
    lowest = f"{over // common}/{under // common}"
    sentence = (
        f"{_left_over(left.trimmed())} left over: {left.trimmed()} ÷ {divisor} = {over}/{under}"
    )
    if common > 1:
        sentence += f" = {lowest}"
    return Step(
        f"{sentence}. Write {lowest}.",
        None,
        (
            Mark(row, column, str(over // common), Ink.NUMERATOR),
            Mark(row, column, str(under // common), Ink.DENOMINATOR),
        ),
    )


def read_fraction(steps: list[Step]) -> Fraction:
    """The fraction that stands after the quotient; nought where there is none."""
    marks = {
        mark.ink: int(mark.text) for step in steps for mark in step.marks if mark.ink in _PARTS
    }
    return Fraction(marks.get(Ink.NUMERATOR, 0), marks.get(Ink.DENOMINATOR, 1))


def rounded(quotient: Number, row: int, column: int, *, point_column: bool) -> Step:
    """``≈ 4.37``: the quotient, worked one place too far, with that place rounded away.

    Half a unit and more is rounded up (common practice, no source).
    """
    last, places = quotient.units % 10, quotient.places - 1
    up = last >= 5
    answer = Number(quotient.units // 10 + (1 if up else 0), places)
    to = (
        "the nearest whole number" if not places else f"{places} decimal place" + "s" * (places > 1)
    )
    rule = "5 or more, so round up" if up else "less than 5, so round down"
    decides = f"The {column_name(-quotient.places)} digit is {last}"
    written = write_line(f"≈{answer}", row, column, Ink.ANSWER, point_column=point_column)
    return Step(
        f"{decides}: {rule}. To {to}, the answer is {answer}.",
        None,
        written.marks,
        written.points,
    )


_PARTS = (Ink.NUMERATOR, Ink.DENOMINATOR)


def _left_over(left: Number) -> str:
    """``2 ones are``, ``1.5 is``: what is left over, with its verb."""
    if left.places:
        return f"{left} is"
    return f"{amount(left.units, 0)} {'is' if left.units == 1 else 'are'}"
