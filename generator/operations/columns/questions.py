"""Additions and subtractions: exact sets of questions that are worked in columns.

Two questions match when a pupil meets the same things in the same columns: the numbers
have the same lengths in the same order, the same columns carry or exchange by the same
amount, exchanges pass through noughts in the same columns, and the answer has the same
form. A signature is a rung itself, so a matched question is counted and drawn exactly.
"""

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import ClassVar, Final

from generator.allowance import TooWideError
from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import column_name
from generator.arithmetic.questions import Operation, Question
from generator.numbered.question_sets import QuestionSet
from generator.numbered.seeds import Dice
from generator.operations.columns.answer import AnswerLength
from generator.operations.columns.automaton import ColumnCount
from generator.operations.columns.column_work import SUBTRAHEND_WEIGHT, add_column, subtract_column
from generator.operations.columns.facts import Column, Fact
from generator.operations.columns.outline import Outline
from specs.canonical import Plain
from specs.languages.saying import Saying, all_of, counted, say, several

_FULL, _AMOUNTS_DIFFER, _ANSWER_DIFFERS, _LENGTHS_DIFFER, _RUNG_ONLY = range(5)

_CARRIES_IN: Final = counted("carries in the {columns}", "carries in the {columns}")
_EXCHANGES_IN: Final = counted("exchanges in the {columns}", "exchanges in the {columns}")
"""The number counted is that of the columns."""


@dataclass(frozen=True)
class ColumnQuestions(QuestionSet["ColumnSignature"]):
    """The questions that an outline leaves, counted and numbered."""

    outline: Outline
    widenings: ClassVar[tuple[str, ...]] = (
        "",
        say("matched but for the carried digits"),
        say("matched in lengths and columns"),
        say("matched in columns only"),
        say("same rung only"),
    )

    @property
    def operation(self) -> Operation:
        """Addition or subtraction."""
        return self.outline.operation

    @cached_property
    def _columns(self) -> ColumnCount:
        return ColumnCount(self.outline.form)

    @cached_property
    def count(self) -> int:
        """Exactly how many questions there are."""
        return self._columns.count

    @property
    def work(self) -> int:
        """How many fillings of columns were gone through in counting."""
        return self._columns.work

    def count_within(self, work: int) -> int:
        """As ``count``; raises TooWideError when so much work is not enough."""
        try:
            found = self._columns.count_within(work)
            if self.work > work:
                raise TooWideError
        except TooWideError:
            if "count" not in self.__dict__:
                self.__dict__.pop("_columns")  # what was broken off is begun anew
            raise
        return found

    def unrank(self, number: int) -> Question:
        """Question ``number``, 0 ≤ number < count; raises IndexError outside that range.

        Where the rung gives each number a length of its own, they stand in that order.
        """
        return Question(self.outline.operation, self._placed(self._columns.unrank(number)))

    def _number_of(self, question: Question) -> int | None:
        return self._columns.rank(question.operands)

    @cached_property
    def _in_order(self) -> bool:
        """Whether numbers in role order stand in the order of the outline's kinds."""
        return len(set(self.outline.kinds)) == 1 or self.outline.operation is Operation.SUBTRACT

    def _placed(self, numbers: tuple[Number, ...]) -> tuple[Number, ...]:
        """The numbers, fetched in role order, in the order of the outline's kinds."""
        if self._in_order:
            return numbers
        waiting, of_kind = list(numbers), {}
        for role in self.outline.form.roles:
            of_kind[role.kind] = [waiting.pop(0) for _ in range(role.count)]
        return tuple(of_kind[kind].pop(0) for kind in self.outline.kinds)

    def arranged(self, question: Question, dice: Dice) -> Question:
        """The question with addends of one kind in an order drawn for it."""
        kinds = self.outline.kinds
        if question.operation is not Operation.ADD or len(set(kinds)) == len(kinds):
            return question
        waiting = {
            kind: dice.shuffled(
                [n for n, k in zip(question.operands, kinds, strict=True) if k == kind]
            )
            for kind in kinds
        }
        return Question(question.operation, tuple(waiting[kind].pop() for kind in kinds))

    def as_written(self, question: Question) -> Question:
        """As it was written, where each addend is of the kind that its place asks for."""
        printed = self.unrank(self.rank(question))
        kinds = self.outline.kinds

        def of_kinds(numbers: tuple[Number, ...]) -> list[list[Number]]:
            return [
                sorted(
                    (n for n, k in zip(numbers, kinds, strict=True) if k == kind),
                    key=lambda number: (number.places, number.units),
                )
                for kind in dict.fromkeys(kinds)
            ]

        alike = of_kinds(printed.operands) == of_kinds(question.operands)
        return question if alike else printed

    def signature(self, question: Question) -> "ColumnSignature":
        """The signature of a question."""
        return signature_of(question)

    def matching(self, signature: "ColumnSignature", step: int) -> "ColumnQuestions":
        """The questions of this set that match a signature, at a step of widening."""
        if step == _RUNG_ONLY:
            return self
        outline = self.outline.watched_by(
            _SameColumns(signature.transfers, signature.zeros_passed, amounts=step == _FULL)
        )
        if step <= _ANSWER_DIFFERS:
            outline = outline.with_kinds(
                *(
                    replace(kind, whole=(whole,), places=(places,))
                    for kind, (whole, places) in zip(outline.kinds, signature.lengths, strict=True)
                )
            )
        if step <= _AMOUNTS_DIFFER:
            whole, _, kept = signature.answer
            outline = outline.watched_by(AnswerLength((kept, kept), (whole, whole)))
        return ColumnQuestions(outline)


@dataclass(frozen=True, slots=True)
class ColumnSignature:
    """What matched questions share.

    ``lengths`` are (digits before the point, decimal places) in the order of printing.
    ``transfers`` are (place, amount) of each carry or exchange, ``zeros_passed`` the places
    of noughts passed through, ``answer`` (digits before the point, places, places once
    noughts at the end are dropped). ``ends_in_nought`` is seen of a question and no part of what
    is shared.
    """

    operation: Operation
    lengths: tuple[tuple[int, int], ...]
    transfers: tuple[tuple[int, int], ...]
    zeros_passed: tuple[int, ...]
    answer: tuple[int, int, int]
    ends_in_nought: bool = field(default=False, compare=False)

    def __str__(self) -> str:
        lengths = " ".join(f"{whole}.{places}" for whole, places in self.lengths)
        transfers = " ".join(f"{column_name(place)}:{amount}" for place, amount in self.transfers)
        passed = " ".join(column_name(place) for place in self.zeros_passed)
        whole, written, kept = self.answer
        return (
            f"{self.operation} lengths {lengths}; {self._word} {transfers or 'none'}"
            f"{f'; through {passed}' if passed else ''}; answer {whole}.{written} kept {kept}"
        )

    @property
    def _word(self) -> str:
        return "carries" if self.operation is Operation.ADD else "exchanges"

    @property
    def plain(self) -> Plain:
        """The signature as plain data."""
        return {
            "operation": str(self.operation),
            "lengths": self.lengths,
            "transfers": self.transfers,
            "zeros_passed": self.zeros_passed,
            "answer": self.answer,
        }

    @property
    def features(self) -> tuple[str, ...]:
        """The signature in words for the teacher's key."""
        places = [places for _, places in self.lengths]
        found: list[str] = []
        if self.operation is Operation.ADD and len(places) > 2:
            found.append(say("{count} addends", count=len(places)))
        if len(set(places)) > 1:
            each = all_of([str(length) for length in places])
            found.append(say("{each} decimal places", each=each))
        found.append(self._transfers_said)
        if self.zeros_passed:
            found.append(
                several(
                    "exchanges through {count} nought",
                    "exchanges through {count} noughts",
                    len(self.zeros_passed),
                )
            )
        if self.ends_in_nought:
            found.append(say("answer ends in nought"))
        return tuple(found)

    @property
    def _transfers_said(self) -> Saying:
        """``carries in the tenths and ones``, ``no exchanges``."""
        adds = self.operation is Operation.ADD
        if not self.transfers:
            return say("no carries") if adds else say("no exchanges")
        columns = all_of([column_name(place) for place, _ in self.transfers])
        among = _CARRIES_IN if adds else _EXCHANGES_IN
        return several(*among, len(self.transfers), columns=columns)

    @property
    def difficulty(self) -> tuple[int, ...]:
        """How hard a question is beside others of its rung, harder ones greater.

        Compared in this order: carries or exchanges; noughts passed through; how far the
        lengths differ; how many numbers; how many digits in all. The order is common
        practice, no source.
        """
        places = [places for _, places in self.lengths]
        return (
            len(self.transfers),
            len(self.zeros_passed),
            max(places) - min(places),
            len(places),
            sum(max(whole, 1) + length for whole, length in self.lengths),
        )


def signature_of(question: Question) -> ColumnSignature:
    """The signature of a question."""
    numbers = question.operands
    adds = question.operation is Operation.ADD
    transfers, zeros_passed, carry = [], [], 0
    for place in range(min(n.last_place for n in numbers), max(n.top_place for n in numbers) + 1):
        digits = [number.digit(place) for number in numbers]
        if adds:
            work = add_column(sum(digits), carry)
        else:
            work = subtract_column(digits[0] + SUBTRAHEND_WEIGHT * digits[1], carry)
        if work.passes_zero:
            zeros_passed.append(place)
        carry = work.carry_out
        if carry:
            transfers.append((place, carry))
    answer = question.answer
    return ColumnSignature(
        question.operation,
        tuple((number.whole_digits, number.places) for number in numbers),
        tuple(transfers),
        tuple(zeros_passed),
        (answer.whole_digits, answer.places, answer.trimmed().places),
        ends_in_nought=answer.units % 10 == 0,
    )


@dataclass(frozen=True, slots=True)
class _SameColumns:
    """Watches that the very columns carry or exchange, and pass noughts, as in a signature."""

    transfers: tuple[tuple[int, int], ...]
    zeros_passed: tuple[int, ...]
    amounts: bool
    needs: frozenset[Fact] = frozenset()
    start: bool = True

    def step(self, state: bool, column: Column) -> bool | None:
        wanted = dict(self.transfers).get(column.place, 0)
        agrees = (
            column.carry_out == wanted if self.amounts else bool(column.carry_out) is bool(wanted)
        )
        passes = column.passes_zero is (column.place in self.zeros_passed)
        return True if agrees and passes else None

    def accepts(self, state: bool) -> bool:
        return True
