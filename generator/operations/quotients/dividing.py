"""Mistakes in dividing: remainders, noughts in the quotient, and which number is shared out."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from generator.arithmetic.numbers import Number, total
from generator.arithmetic.questions import Ending, Operation, Question, rounded
from generator.operations.mistake import (
    NO_SOURCE,
    AnswerAlone,
    Mistake,
    reply,
    reply_with_remainder,
)
from generator.operations.quotients.chunking import chunks_of
from generator.operations.quotients.digit_by_digit import digit_by_digit
from generator.operations.quotients.division import Divided, divided
from generator.operations.working import Conventions, Ink, Mark, Step, Working, read_number
from specs.replies import Reply


def _with_whole_divisor(question: Question) -> tuple[Number, int]:
    """Dividend and divisor scaled by the same power of ten until the divisor is whole."""
    dividend, divisor = question.operands
    divisor = divisor.trimmed()
    units, places = dividend.units, dividend.places - divisor.places
    if places < 0:
        units, places = units * 10**-places, 0
    return Number(units, places), divisor.units


@dataclass(frozen=True, slots=True)
class EachAlone:
    """98 ÷ 7: 9 ÷ 7 = 1; 8 ÷ 7 = 1: 11 r 1. What each column leaves over is lost."""

    def reply(self, question: Question) -> Reply | None:
        """The columns' digits; None where no column that hands on leaves anything over."""
        if question.power_of_ten:
            return None  # nothing is shared out: the digits are moved
        dividend, divisor = _with_whole_divisor(question)
        columns = self.columns(dividend, divisor)
        if all(column.left == column.handed_on for column in columns[:-1]):
            return None
        quotient = 0
        for column in columns:
            quotient = quotient * 10 + column.digit
        answer = Number(quotient, dividend.places)
        if question.ending is Ending.ROUNDED and dividend.places > question.places:
            return reply(rounded(answer, question.places))
        if dividend.places or question.ending in (Ending.DECIMAL, Ending.ROUNDED):
            return reply(answer)
        return _ended(question, answer, Number(columns[-1].left))

    def columns(self, dividend: Number, divisor: int) -> list[Divided]:
        """The columns of a dividend, from the left."""
        return list(divided(map(int, str(dividend.units)), divisor, hands_on=False))

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """The same by the method's own squares."""
        if question.power_of_ten or question.ending is Ending.FRACTION:
            return None
        dividend, divisor = question.operands
        if question.ending is Ending.REMAINDER and (dividend.places or divisor.places):
            return None  # the right division stops at the ones, this one would not
        working = digit_by_digit(question, conventions, hands_on=False)
        return working if working.fits_its_squares else None


@dataclass(frozen=True, slots=True)
class ZeroLeftOut:
    """816 ÷ 8 = 102, written as 12; 840 ÷ 4 = 210, written as 21."""

    def kept(self, digits: Iterable[str]) -> list[bool]:
        """Which digits of a quotient are written, from the left: no nought once it has begun."""
        found, begun = [], False
        for digit in digits:
            begun = begun or digit != "0"
            found.append(not begun or digit != "0")
        return found

    def reply(self, question: Question) -> Reply | None:
        """The digits that are kept; None where all are."""
        if question.power_of_ten:
            return None  # no column is shared out: the digits are moved
        to_be_rounded = question.ending is Ending.ROUNDED
        quotient = question.answer.trimmed()
        if to_be_rounded:  # the noughts that rounding makes were never left out
            quotient = _worked_to(question, question.places + 1)
        whole, _, part = str(quotient).partition(".")
        kept = self.kept(whole + part)
        if all(kept):
            return None
        written = "".join(d for d, stays in zip(whole + part, kept, strict=True) if stays)
        answer = Number(int(written), sum(kept[len(whole) :]))
        if to_be_rounded:
            return reply(rounded(answer, question.places))
        return _ended(question, answer, question.remainder)

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """A division with nothing written where a column's share is nought.

        Above the dividend a place stays empty, elsewhere the digits stand side by side.
        """
        if question.power_of_ten or question.ending in (Ending.FRACTION, Ending.ROUNDED):
            return None
        right = digit_by_digit(question, conventions)
        answer = [mark for mark in right.marks() if mark.ink is Ink.ANSWER]
        kept = self.kept(mark.text for mark in answer)
        gone = {mark for mark, stays in zip(answer, kept, strict=True) if not stays}
        steps = [
            replace(step, marks=tuple(mark for mark in step.marks if mark not in gone))
            for step in right.steps
        ]
        if right.dividend_row is not None and answer[0].row >= right.dividend_row:
            steps = [_closed_up(step, gone) for step in steps]
        found = read_number(steps, answer[0].row, Ink.ANSWER)
        return replace(right, steps=tuple(steps), answer=found)


def _closed_up(step: Step, gone: Collection[Mark]) -> Step:
    """A step with what it writes after the quotient's first digit moved up to what is before it."""

    def moved(column: int, row: int) -> int:
        return column - sum(mark.row == row and mark.column <= column for mark in gone)

    own = (Ink.ANSWER, Ink.LEFT_OVER)
    return replace(
        step,
        marks=tuple(
            replace(m, column=moved(m.column, m.row)) if m.ink in own else m for m in step.marks
        ),
        points=tuple(
            replace(p, column=moved(p.column, p.row)) if p.ink in own else p for p in step.points
        ),
    )


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


def last_chunk_not_counted(question: Question) -> Reply | None:
    """432 ÷ 15: 20 + 5 + 2, and the last chunk of 1 forgotten: 27 r 12."""
    if question.power_of_ten or question.ending in (Ending.ROUNDED, Ending.FRACTION):
        return None
    dividend, divisor = _with_whole_divisor(question)
    last_place = 0 if question.ending is Ending.REMAINDER else None
    many = tuple(chunk.many for chunk in chunks_of(dividend, divisor, last_place))
    return _ended(question, total(many[:-1]), question.remainder) if len(many) > 1 else None


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
    "remainder not carried", _DIVIDE, NO_SOURCE, EachAlone(), ways=frozenset({"short"})
)
ZERO_LEFT_OUT: Final = Mistake(
    "zero left out of a quotient",
    _DIVIDE,
    NO_SOURCE,
    ZeroLeftOut(),
    ways=frozenset({"short", "long"}),
)
REMAINDER_AS_DECIMAL: Final = Mistake(
    "remainder written as a decimal digit", _DIVIDE, NO_SOURCE, AnswerAlone(remainder_as_decimal)
)
LARGER_BY_SMALLER: Final = Mistake(
    "divides larger by smaller", _DIVIDE, NO_SOURCE, AnswerAlone(larger_by_smaller)
)
NOT_SCALED: Final = Mistake(
    "divisor made whole and dividend left as it was",
    _DIVIDE,
    NO_SOURCE,
    AnswerAlone(dividend_not_scaled),
)
LAST_CHUNK_LEFT_OUT: Final = Mistake(
    "last chunk not counted",
    _DIVIDE,
    NO_SOURCE,
    AnswerAlone(last_chunk_not_counted),
    ways=frozenset({"chunking"}),
)
