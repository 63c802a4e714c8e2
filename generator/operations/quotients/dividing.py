"""Mistakes in dividing: remainders, noughts in the quotient, and which number is shared out."""

from fractions import Fraction
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question, rounded
from generator.operations.mistake import NO_SOURCE, Mistake, reply, reply_with_remainder
from specs.replies import Reply


def _with_whole_divisor(question: Question) -> tuple[Number, int]:
    """Dividend and divisor scaled by the same power of ten until the divisor is whole."""
    dividend, divisor = question.operands
    divisor = divisor.trimmed()
    units, places = dividend.units, dividend.places - divisor.places
    if places < 0:
        units, places = units * 10**-places, 0
    return Number(units, places), divisor.units


def remainder_not_carried(question: Question) -> Reply | None:
    """98 ÷ 7: 9 ÷ 7 = 1; 8 ÷ 7 = 1: 11 r 1. What each column leaves over is lost."""
    if question.power_of_ten:
        return None  # nothing is shared out: the digits are moved
    dividend, divisor = _with_whole_divisor(question)
    digits = [int(digit) for digit in str(dividend.units)]
    quotient, held, shown, started = 0, 0, False, False
    for at, digit in enumerate(digits):
        part = digit if started else held * 10 + digit
        quotient, held = quotient * 10 + part // divisor, part % divisor
        started = started or part >= divisor
        shown = shown or (started and held > 0 and at < len(digits) - 1)
    if not shown:
        return None
    answer = Number(quotient, dividend.places)
    if dividend.places or question.ending in (Ending.DECIMAL, Ending.ROUNDED):
        return reply(answer)
    return _ended(question, answer, Number(held))


def zero_left_out(question: Question) -> Reply | None:
    """816 ÷ 8 = 102, written as 12; 840 ÷ 4 = 210, written as 21."""
    if question.power_of_ten:
        return None  # no column is shared out: the digits are moved
    to_be_rounded = question.ending is Ending.ROUNDED
    quotient = question.answer.trimmed()
    if to_be_rounded:  # the noughts that rounding makes were never left out
        quotient = _worked_to(question, question.places + 1)
    whole, _, part = str(quotient).partition(".")
    kept_whole = whole.replace("0", "") or "0"
    stripped = part.lstrip("0") if kept_whole == "0" else part
    leading = part[: len(part) - len(stripped)]
    kept_part = leading + stripped.replace("0", "")
    if (kept_whole, kept_part) == (whole, part):
        return None
    answer = Number(int(kept_whole + kept_part), len(kept_part))
    if to_be_rounded:
        return reply(rounded(answer, question.places))
    return _ended(question, answer, question.remainder)


def _worked_to(question: Question, places: int) -> Number:
    """The quotient as it is worked, to so many places, before it is rounded."""
    dividend, divisor = question.operands
    return Number(int(dividend.value / divisor.value * 10**places), places)


def _ended(question: Question, quotient: Number, left: Number | None) -> Reply:
    """A quotient and what is left over, as the question wants it written."""
    if left is None or not left.units:
        return reply(quotient)
    if question.ending is not Ending.FRACTION:
        return reply_with_remainder(quotient, left)
    _, divisor = question.operands
    part = left.value / divisor.value
    text = f"{part.numerator}/{part.denominator}"
    written = f"{quotient.trimmed()} {text}" if quotient.units else text
    return Reply(quotient.value + part, Fraction(0), written)


def remainder_as_decimal(question: Question) -> Reply | None:
    """17 ÷ 3 = 5 r 2, written as 5.2."""
    dividend, divisor = question.operands
    if dividend.places or divisor.places:
        return None
    quotient, left = divmod(dividend.units, divisor.units)
    if not left:
        return None
    return reply(Number(int(f"{quotient}{left}"), len(str(left))))


def larger_by_smaller(question: Question) -> Reply | None:
    """4 ÷ 8 as 8 ÷ 4: 2."""
    dividend, divisor = question.operands
    if dividend.value >= divisor.value or not dividend.units or question.power_of_ten:
        return None
    turned = Question(Operation.DIVIDE, (divisor, dividend), question.ending, question.places)
    try:
        left = turned.remainder
        answer = turned.answer
    except ValueError:
        return None  # never ends
    return _ended(turned, answer, left)


def dividend_not_scaled(question: Question) -> Reply | None:
    """8.4 ÷ 0.2 as 8.4 ÷ 2: 4.2."""
    dividend, divisor = question.operands
    if not divisor.places or not divisor.units:
        return None
    scaled = Question(
        Operation.DIVIDE, (dividend, Number(divisor.units)), question.ending, question.places
    )
    try:
        left = scaled.remainder
        answer = scaled.answer
    except ValueError:
        return None
    return _ended(scaled, answer, left)


_DIVIDE: Final = frozenset({Operation.DIVIDE})

NOT_CARRIED: Final = Mistake(
    "remainder not carried",
    _DIVIDE,
    "Divides each digit alone and loses what the column before left over.",
    "Share 98 counters as tens and ones: two tens left over become twenty ones.",
    NO_SOURCE,
    remainder_not_carried,
)
ZERO_LEFT_OUT: Final = Mistake(
    "zero left out of a quotient",
    _DIVIDE,
    "Writes nothing where a column's share is 0, so later digits move up.",
    "Write a digit above every digit of the dividend, 0 where none can be shared; check by "
    "multiplying back.",
    NO_SOURCE,
    zero_left_out,
)
REMAINDER_AS_DECIMAL: Final = Mistake(
    "remainder written as a decimal digit",
    _DIVIDE,
    "Writes the remainder behind a point: 5 r 2 as 5.2.",
    "Share the remainder out as well: 2 left over among 3 is 2/3, not 2 tenths.",
    NO_SOURCE,
    remainder_as_decimal,
)
LARGER_BY_SMALLER: Final = Mistake(
    "divides larger by smaller",
    _DIVIDE,
    "Divides the larger number by the smaller, whichever comes first.",
    "Read 4 ÷ 8 as 4 loaves among 8: is each share more than one loaf or less?",
    NO_SOURCE,
    larger_by_smaller,
)
NOT_SCALED: Final = Mistake(
    "divisor made whole and dividend left as it was",
    _DIVIDE,
    "Moves the point of the divisor and forgets that of the dividend.",
    "Write the division as a fraction and multiply top and bottom by the same power of ten.",
    NO_SOURCE,
    dividend_not_scaled,
)
