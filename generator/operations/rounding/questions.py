"""Rounding: exact sets of numbers to be rounded to a column.

For each length, each column to round to, each digit there and each deciding digit at its
right, the other digits are free: their choices are multiplied. No answer is nought, and
no number is as round already as it is to be. Two questions match when
the numbers have the same length, are rounded to the same column and in the same direction,
and a 1 is carried in both or in neither.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import ClassVar

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import column_name
from generator.arithmetic.questions import Operation, Question
from generator.numbered.question_sets import PartedQuestions
from generator.numbered.sequences import Listed, Product
from generator.operations.rounding.conditions import RoundOutline
from specs.canonical import Plain
from specs.languages.saying import say

_RUNG_ONLY = 1
_DIGITS = tuple(range(10))

_Choices = dict[int, tuple[int, ...]]
"""For each column the digits allowed there."""


@dataclass(frozen=True)
class _Case:
    """Numbers of one length, by the digits allowed in each column from the left."""

    to: int
    places: int
    allowed: tuple[tuple[int, ...], ...]

    @cached_property
    def _digits(self) -> Product:
        return Product(tuple(map(Listed, self.allowed)))

    @property
    def count(self) -> int:
        return self._digits.count

    def number(self, index: int) -> Number:
        units = 0
        for digit in self._digits.unrank(index):
            units = units * 10 + digit
        return Number(units, self.places)

    def index(self, number: Number) -> int | None:
        columns = range(number.top_place, number.last_place - 1, -1)
        if number.places != self.places or len(columns) != len(self.allowed):
            return None
        return self._digits.rank([number.digit(place) for place in columns])


@dataclass(frozen=True)
class RoundQuestions(PartedQuestions["RoundSignature"]):
    """The questions that an outline leaves, counted and numbered."""

    outline: RoundOutline
    widenings: ClassVar[tuple[str, ...]] = ("", say("same rung only"))

    @property
    def operation(self) -> Operation:
        """Rounding."""
        return Operation.ROUND

    @cached_property
    def _cases(self) -> list[_Case]:
        outline = self.outline
        return [
            case
            for whole in outline.whole
            for places in outline.places
            for to in outline.to
            for case in _cases(outline, whole, places, to)
            if case.count
        ]

    @property
    def _sizes(self) -> list[int]:
        return [case.count for case in self._cases]

    def _fetched(self, part: int, number: int) -> Question:
        case = self._cases[part]
        return Question(Operation.ROUND, (case.number(number),), places=-case.to)

    def _found(self, question: Question) -> tuple[int, int] | None:
        for at, case in enumerate(self._cases):
            index = case.index(question.operands[0])
            if case.to == -question.places and index is not None:
                return at, index
        return None

    def signature(self, question: Question) -> "RoundSignature":
        """The signature of a question."""
        (number,) = question.operands
        to = -question.places
        up = number.digit(to - 1) >= 5
        return RoundSignature(
            number.whole_digits, number.places, to, up, up and number.digit(to) == 9
        )

    def matching(self, signature: "RoundSignature", step: int) -> "RoundQuestions":
        """The questions of this set that match a signature, at a step of widening."""
        if step == _RUNG_ONLY:
            return self
        return RoundQuestions(
            RoundOutline(
                (signature.whole,),
                (signature.places,),
                (signature.to,),
                signature.up,
                signature.over_nine,
            )
        )


@dataclass(frozen=True, slots=True)
class RoundSignature:
    """What matched questions share: the number's length, the column, up or down, a 9 carried."""

    whole: int
    places: int
    to: int
    up: bool
    over_nine: bool

    def __str__(self) -> str:
        nine = " over nine" if self.over_nine else ""
        length, column = f"{self.whole}.{self.places}", column_name(self.to)
        return f"round lengths {length}; to {column}; {'up' if self.up else 'down'}{nine}"

    @property
    def plain(self) -> Plain:
        """The signature as plain data."""
        return {
            "operation": "round",
            "whole": self.whole,
            "places": self.places,
            "to": self.to,
            "up": self.up,
            "over_nine": self.over_nine,
        }

    @property
    def features(self) -> tuple[str, ...]:
        """The signature in words for the teacher's key."""
        goes = say("goes up") if self.up else say("goes down")
        return (goes, say("a 1 is carried")) if self.over_nine else (goes,)

    @property
    def difficulty(self) -> tuple[int, ...]:
        """Harder: a 1 carried over a 9, more digits dropped, more digits."""
        return (self.over_nine, self.to + self.places, self.whole + self.places)


def _cases(outline: RoundOutline, whole: int, places: int, to: int) -> Iterator[_Case]:
    """The cases of one length and one column to round to, by the digit there and the next."""
    top = max(whole, 1) - 1
    if not -places < to <= top:
        return
    free = dict.fromkeys(range(top, -places - 1, -1), _DIGITS)
    if whole:
        free[top] = _DIGITS[1:]
    else:
        free[0] = (0,)
    if places:
        free[-places] = tuple(digit for digit in free[-places] if digit)
    for up in (True, False):
        if outline.up is not None and outline.up is not up:
            continue
        deciding = tuple(digit for digit in free[to - 1] if (digit >= 5) is up)
        for over_nine in (True, False) if up else (False,):
            if outline.over_nine is not None and outline.over_nine is not over_nine:
                continue
            if up:
                rounded = tuple(digit for digit in free[to] if (digit == 9) is over_nine)
            else:
                rounded = free[to]
            choices: Iterable[_Choices] = [{**free, to: rounded, to - 1: deciding}]
            if not whole and not up:  # 0.034 to one place would be nought
                choices = _some_digit(choices, range(top, to - 1, -1))
            if not places:  # 600 is a hundred already
                choices = _some_digit(choices, range(to - 1, -1, -1))
            for digits in choices:
                allowed = tuple(digits[place] for place in range(top, -places - 1, -1))
                yield _Case(to, places, allowed)


def _some_digit(choices: Iterable[_Choices], columns: range) -> Iterator[_Choices]:
    """The choices that leave not all of some columns nought, by the first that is not."""
    for digits in choices:
        noughts: _Choices = {}
        for place in columns:
            yield {**digits, **noughts, place: tuple(digit for digit in digits[place] if digit)}
            if 0 not in digits[place]:
                break
            noughts[place] = (0,)
