"""How a division ends: with a remainder, with a fraction, or rounded.

What is written stands in the quotient's row, after the column of the last digit.
"""

from fractions import Fraction
from math import gcd

from generator.arithmetic.numbers import Number
from generator.operations.spoken import amount, column_name
from generator.operations.working import Ink, Mark, Step, write_line
from specs.languages.saying import Saying, joined, say, several


def as_remainder(left: Number, power: int, row: int, column: int, *, point_column: bool) -> Step:
    """``r 2``. ``power`` is how many times larger both numbers were made before dividing."""
    shown = left.trimmed()
    places = left.places + len(str(power)) - 1
    remainder = Number(left.units, places).trimmed()
    sentence = _left_over(shown)
    if power > 1:
        worked = f"{shown} ÷ {power} = {remainder}"
        sentence = say(
            "{left} from a number multiplied by {power}: {worked}",
            left=sentence,
            power=power,
            worked=worked,
        )
    written = write_line(f"r{remainder}", row, column, Ink.LEFT_OVER, point_column=point_column)
    letter = Mark(row, column, say("r"), Ink.LEFT_OVER)
    return Step(
        say("{left}. Write remainder {remainder}.", left=sentence, remainder=remainder),
        None,
        (letter, *written.marks[1:]),
        written.points,
    )


def as_fraction(left: Number, divisor: int, row: int, column: int) -> Step:
    """``4/5``, in its lowest terms."""
    over, under = left.trimmed().units, divisor * 10 ** left.trimmed().places
    common = gcd(over, under)
    lowest = f"{over // common}/{under // common}"
    worked = f"{left.trimmed()} ÷ {divisor} = {over}/{under}"
    if common > 1:
        worked += f" = {lowest}"
    return Step(
        say(
            "{left}: {worked}. Write {fraction}.",
            left=_left_over(left.trimmed()),
            worked=worked,
            fraction=lowest,
        ),
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
    if up:
        decides = say(
            "The {column} digit is {digit}: 5 or more, so round up.",
            column=column_name(-quotient.places),
            digit=last,
        )
    else:
        decides = say(
            "The {column} digit is {digit}: less than 5, so the last digit kept stays as it is.",
            column=column_name(-quotient.places),
            digit=last,
        )
    if places:
        rounded_to = several(
            "To {count} decimal place, the answer is {answer}.",
            "To {count} decimal places, the answer is {answer}.",
            places,
            answer=answer,
        )
    else:
        rounded_to = say("To the nearest whole number, the answer is {answer}.", answer=answer)
    written = write_line(f"≈{answer}", row, column, Ink.ANSWER, point_column=point_column)
    return Step(
        joined((decides, rounded_to)),
        None,
        written.marks,
        written.points,
    )


_PARTS = (Ink.NUMERATOR, Ink.DENOMINATOR)


def _left_over(left: Number) -> Saying:
    """``2 ones are left over``, ``1.5 is left over``."""
    is_one = bool(left.places) or left.units == 1
    return several(
        "{left} is left over",
        "{left} are left over",
        1 if is_one else 2,
        left=str(left) if left.places else amount(left.units, 0),
    )
