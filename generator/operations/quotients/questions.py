"""Divisions: exact sets of questions that are worked by short division.

Two divisions match when a pupil meets the same things: divisor, dividend and quotient are
as long, the same columns pass a remainder on, the quotient has noughts in the same
columns, and the division ends in the same way: with a fraction that cancels, or one that does not.
"""

from dataclasses import dataclass, replace
from functools import cache, cached_property, partial
from math import gcd
from typing import ClassVar, NamedTuple

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.numbered.question_sets import PartedQuestions
from generator.operations.quotients.conditions import (
    DividendLength,
    Divisor,
    QuotientLength,
    QuotientOutline,
    SameColumns,
)
from generator.operations.quotients.counting import (
    Dividends,
    Divisions,
    QuotientColumn,
    short_division,
)
from specs.canonical import Plain
from specs.languages.saying import say, several

_FULL, _NOUGHTS_DIFFER, _COLUMNS_DIFFER, _RUNG_ONLY = range(4)


class _Block(NamedTuple):
    """The dividends of a length for a divisor."""

    divisor: Divisor
    length: DividendLength
    dividends: Dividends
    questions: int


@dataclass(frozen=True)
class QuotientQuestions(PartedQuestions["QuotientSignature"]):
    """The questions that an outline leaves, counted and numbered."""

    outline: QuotientOutline
    widenings: ClassVar[tuple[str, ...]] = (
        "",
        say("matched but for noughts in the quotient"),
        say("matched in lengths and ending only"),
        say("same rung only"),
    )

    @property
    def operation(self) -> Operation:
        """Division."""
        return Operation.DIVIDE

    @cached_property
    def _blocks(self) -> list[_Block]:
        # Those that hang on the same things are counted once.
        self._meter.spent = 0
        divisions, dividends = cache(partial(Divisions, meter=self._meter)), cache(Dividends)
        outline, blocks = self.outline, []
        for divisor in outline.each_divisor:
            for places in outline.dividend_places:
                finish = outline.finish(divisor, places)
                if finish is None:
                    continue
                for digits in outline.dividend_digits:
                    length = DividendLength(digits, places)
                    written = outline.digits_written(length)
                    if written is None:
                        continue
                    found = dividends(
                        divisions(divisor.units, finish, outline.watches, written),
                        *outline.bounds(divisor, places),
                    )
                    count = found.count(digits)
                    if count:
                        blocks.append(_Block(divisor, length, found, count))
        return blocks

    @property
    def _sizes(self) -> list[int]:
        return [block.questions for block in self._blocks]

    @cached_property
    def _block_at(self) -> dict[tuple[Divisor, DividendLength], int]:
        return {(block.divisor, block.length): at for at, block in enumerate(self._blocks)}

    @property
    def _places(self) -> int:
        """The places to which a quotient is rounded."""
        return self.outline.more[1] if self.outline.ending is Ending.ROUNDED else 0

    def _fetched(self, part: int, number: int) -> Question:
        block = self._blocks[part]
        dividend = Number(block.dividends.unrank(block.length.digits, number), block.length.places)
        divisor = Number(*block.divisor)
        return Question(Operation.DIVIDE, (dividend, divisor), self.outline.ending, self._places)

    def _found(self, question: Question) -> tuple[int, int] | None:
        if (question.ending, question.places) != (self.outline.ending, self._places):
            return None
        dividend, divisor = question.operands
        at = self._block_at.get((Divisor(divisor.units, divisor.places), _length(dividend)))
        if at is None:
            return None
        number = self._blocks[at].dividends.rank(dividend.units)
        return None if number is None else (at, number)

    def signature(self, question: Question) -> "QuotientSignature":
        """The signature of a question."""
        return signature_of(question)

    def matching(self, signature: "QuotientSignature", step: int) -> "QuotientQuestions":
        """The questions of this set that match a signature, at a step of widening."""
        if step == _RUNG_ONLY:
            return self
        outline = replace(
            self.outline,
            divisors=tuple(
                units for units in self.outline.divisors if len(str(units)) == signature.divisor[0]
            ),
            divisor_places=(signature.divisor[1],),
            dividend_digits=(signature.dividend.digits,),
            dividend_places=(signature.dividend.places,),
        )
        if outline.ending is Ending.FRACTION:
            outline = replace(outline, cancels=signature.cancels)
        if outline.ending is Ending.DECIMAL:
            outline = replace(outline, more=(signature.more, signature.more))
        if step == _COLUMNS_DIFFER:
            digits = len(signature.columns)
            return QuotientQuestions(outline.watched_by(QuotientLength(digits, digits)))
        watch = SameColumns(signature.columns, noughts=step == _FULL)
        return QuotientQuestions(outline.watched_by(watch))


@dataclass(frozen=True, slots=True)
class QuotientSignature:
    """What matched divisions share.

    ``divisor`` is its digits and decimal places, ``columns`` are those of the quotient from
    its first digit other than nought. ``more`` counts the places by which the division is
    carried on, or to which it is rounded. ``cancels`` says whether it ends with a fraction that
    cancels.
    """

    divisor: tuple[int, int]
    dividend: DividendLength
    columns: tuple[QuotientColumn, ...]
    ending: Ending
    more: int
    cancels: bool = False

    def __str__(self) -> str:
        columns = "".join(
            ("0" if column.nought else "n") + ("r" if column.passes else "")
            for column in self.columns
        )
        more = f" {self.more}" if self.more else ""
        return (
            f"divide digits {self.dividend.digits} {self.divisor[0]}; "
            f"places {self.dividend.places} {self.divisor[1]}; "
            f"quotient {columns}; {self.ending}{more}{' that cancels' if self.cancels else ''}"
        )

    @property
    def passed(self) -> int:
        """How many remainders are passed on."""
        return sum(column.passes for column in self.columns)

    @property
    def noughts(self) -> int:
        """How many noughts the quotient has after its first digit."""
        return sum(column.nought for column in self.columns)

    @property
    def plain(self) -> Plain:
        """The signature as plain data."""
        return {
            "operation": "divide",
            "divisor": self.divisor,
            "dividend": self.dividend,
            "columns": self.columns,
            "ending": str(self.ending),
            "more": self.more,
            **({"cancels": self.cancels} if self.ending is Ending.FRACTION else {}),
        }

    @property
    def features(self) -> tuple[str, ...]:
        """The signature in words for the teacher's key."""
        found = []
        if self.divisor[0] > 1:
            found.append(say("divisor of {count} digits", count=self.divisor[0]))
        if self.divisor[1]:
            found.append(say("decimal divisor"))
        if self.dividend.places:
            found.append(say("decimal dividend"))
        if self.passed:
            found.append(
                several("{count} remainder carried", "{count} remainders carried", self.passed)
            )
        else:
            found.append(say("no remainders carried"))
        if self.noughts:
            found.append(several("nought in the quotient", "noughts in the quotient", self.noughts))
        ends = self._ends
        return (*found, ends) if ends else tuple(found)

    @property
    def _ends(self) -> str:
        """How the division ends, in words; "" where nothing is left over."""
        if self.ending is Ending.DECIMAL:
            return several(
                "carried on to {count} decimal place",
                "carried on to {count} decimal places",
                self.more,
            )
        if self.ending is Ending.ROUNDED:
            if not self.more:
                return say("rounded to a whole number")
            return several(
                "rounded to {count} decimal place", "rounded to {count} decimal places", self.more
            )
        if self.ending is Ending.FRACTION:
            if self.cancels:
                return say("ends with a fraction that cancels")
            return say("ends with a fraction")
        return say("ends with a remainder") if self.ending is Ending.REMAINDER else ""

    @property
    def difficulty(self) -> tuple[int, ...]:
        """How hard a question is beside others of its rung, harder ones greater.

        Compared in this order: digits of the divisor; its decimal places; remainders passed
        on; noughts in the quotient; places carried on; digits of the dividend; a fraction to
        cancel. The order is common practice, no source.
        """
        return (
            *self.divisor,
            self.passed,
            self.noughts,
            self.more,
            self.dividend.digits,
            int(self.cancels),
        )


def signature_of(question: Question) -> QuotientSignature:
    """The signature of a question."""
    dividend, divisor = question.operands
    columns = short_division(dividend, divisor, question.ending, question.places)
    more = question.places
    if question.ending is Ending.DECIMAL:
        more = question.answer.places - max(dividend.places - divisor.places, 0)
    return QuotientSignature(
        (len(str(divisor.units)), divisor.places),
        _length(dividend),
        columns,
        question.ending,
        more,
        question.ending is Ending.FRACTION and gcd(dividend.units, divisor.units) > 1,
    )


def _length(dividend: Number) -> DividendLength:
    return DividendLength(len(str(dividend.units)), dividend.places)
