"""Ordering and comparing: exact sets of numbers to be put in order.

The numbers are different ways of writing, counted by their lengths: for each way of
sharing the lengths out, so many choices of each. Two questions match when their numbers
have the same lengths and they are settled in the same column. Those of the same lengths
are counted; which of them are settled there is seen of each.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property, reduce
from typing import ClassVar

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import column_name
from generator.arithmetic.questions import Operation, Question
from generator.numbered.question_sets import PartedQuestions
from generator.numbered.seeds import Dice
from generator.numbered.sequences import Below, Chosen, Product
from generator.numbered.writings import Writing
from generator.operations.order.conditions import OrderOutline
from specs.canonical import Plain
from specs.languages.saying import say, several

_FULL, _LENGTHS_ONLY, _RUNG_ONLY = range(3)


@dataclass(frozen=True, slots=True)
class _Member:
    """The numbers of one length in a family, for a given beginning."""

    writing: Writing
    size: int


@dataclass(frozen=True, slots=True)
class _Family:
    """Numbers that begin alike: so many beginnings, and the numbers that each of them has.

    ``shared`` is the place down to which the beginning reaches, None for no beginning.
    ``ends_in_zero`` tells beginnings with a nought at their end from the others.
    """

    beginnings: int
    members: tuple[_Member, ...]
    shared: int | None = None
    whole: int = 0
    ends_in_zero: bool = False

    def beginning(self, index: int) -> int:
        """The digits of beginning ``index``, as a whole number of the shared column's unit."""
        assert self.shared is not None
        scale = int(10**-self.shared)
        first = int(10 ** (self.whole - 1)) if self.whole else 0
        if scale == 1:
            return first + index
        if self.ends_in_zero:
            return first * scale + index * 10
        return first * scale + index // 9 * 10 + index % 9 + 1

    def beginning_index(self, digits: int) -> int | None:
        """The index of a beginning, or None when it is another family's."""
        assert self.shared is not None
        scale = int(10**-self.shared)
        first = int(10 ** (self.whole - 1)) if self.whole else 0
        if len(str(digits // scale)) != max(self.whole, 1) or (not self.whole and digits >= scale):
            return None
        if scale == 1:
            return digits - first
        rest = digits - first * scale
        if (rest % 10 == 0) is not self.ends_in_zero:
            return None
        return rest // 10 if self.ends_in_zero else rest // 10 * 9 + rest % 10 - 1

    def number(self, beginning: int, member: _Member, index: int) -> Number:
        """Number ``index`` of a member, for a beginning."""
        if self.shared is None:
            return member.writing.unrank(index)
        free = member.writing.places + self.shared
        part = self.part(index) if free else 0
        return Number(self.beginning(beginning) * 10**free + part, member.writing.places)

    def part(self, index: int) -> int:
        """Digits ``index`` of those that may follow a beginning."""
        return index // 9 * 10 + index % 9 + 1

    def part_index(self, part: int) -> int | None:
        """The index of digits that follow a beginning, or None when they may not."""
        return part // 10 * 9 + part % 10 - 1 if part % 10 else None

    def place_of(self, number: Number) -> tuple[int, _Member, int] | None:
        """The beginning, member and index of a number, or None when it is not in the family."""
        for member in self.members:
            writing = member.writing
            if (number.whole_digits, number.places) != (writing.whole, writing.places):
                continue
            if self.shared is None:
                index = writing.rank(number)
                return None if index is None else (0, member, index)
            free = writing.places + self.shared
            digits, part = divmod(number.units, int(10**free))
            beginning = self.beginning_index(digits)
            index = self.part_index(part) if free else 0
            return None if beginning is None or index is None else (beginning, member, index)
        return None


@dataclass(frozen=True, slots=True)
class _FreeFamily(_Family):
    """Numbers that begin alike and may end in nought.

    ``nought`` is True for the one beginning that is all noughts: there the number goes on, as
    nought itself is none.
    """

    nought: bool = False

    @property
    def _least(self) -> int:
        assert self.shared is not None
        if self.nought:
            return 0
        return int(10 ** (self.whole - 1 - self.shared)) if self.whole else 1

    def beginning(self, index: int) -> int:
        """The digits of beginning ``index``, as a whole number of the shared column's unit."""
        return self._least + index

    def beginning_index(self, digits: int) -> int | None:
        """The index of a beginning, or None when it is another family's."""
        index = digits - self._least
        return index if 0 <= index < self.beginnings else None

    def part(self, index: int) -> int:
        """Digits ``index`` of those that may follow a beginning."""
        return index + self.nought

    def part_index(self, part: int) -> int | None:
        """The index of digits that follow a beginning, or None when they may not."""
        index = part - self.nought
        return index if index >= 0 else None


@dataclass(frozen=True)
class _Shares:
    """How many numbers come from each member of a family, and the questions that this makes."""

    family: _Family
    sizes: tuple[int, ...]

    @cached_property
    def choices(self) -> Product:
        """A beginning, and of each member, the last of them first, so many numbers."""
        each = zip(self.family.members, self.sizes, strict=True)
        chosen = tuple(Chosen(size, member.size) for member, size in each)
        return Product((Below(self.family.beginnings), *reversed(chosen)))

    @property
    def count(self) -> int:
        """Questions for all beginnings."""
        return self.choices.count


@dataclass(frozen=True)
class OrderQuestions(PartedQuestions["OrderSignature"]):
    """The questions that an outline leaves, counted and numbered."""

    outline: OrderOutline
    widenings: ClassVar[tuple[str, ...]] = (
        "",
        say("matched in lengths only"),
        say("same rung only"),
    )

    @property
    def operation(self) -> Operation:
        """Ordering or comparing."""
        return self.outline.operation

    @cached_property
    def _families(self) -> tuple[_Family, ...]:
        outline = self.outline
        if outline.shared is None:
            writings = [
                Writing(whole, places, outline.end_zero)
                for whole in outline.whole
                for places in outline.places
            ]
            members = tuple(_Member(writing, writing.count) for writing in writings)
            return (_Family(1, tuple(member for member in members if member.size)),)
        alike = _beginning_freely if outline.end_zero else _beginning_alike
        return tuple(
            family
            for whole in outline.whole
            for family in alike(whole, outline.places, outline.shared)
            if family.members
        )

    @cached_property
    def _shares(self) -> list[_Shares]:
        return [
            found
            for family in self._families
            for sizes in _shared_out(self.outline.numbers, [m.size for m in family.members])
            if self._allowed(family, sizes) and (found := _Shares(family, sizes)).count
        ]

    def _allowed(self, family: _Family, sizes: tuple[int, ...]) -> bool:
        lengths = _lengths(family, sizes)
        alike = len({places for _, places in lengths}) == 1
        if self.outline.ragged is not None and self.outline.ragged is alike:
            return False
        return self.outline.lengths is None or self.outline.lengths == lengths

    @property
    def _sizes(self) -> list[int]:
        return [shares.count for shares in self._shares]

    def _fetched(self, part: int, number: int) -> Question:
        """The question, its numbers in the order of their lengths."""
        shares = self._shares[part]
        beginning, *chosen = shares.choices.unrank(number)
        numbers = [
            shares.family.number(beginning, member, index)
            for member, indices in zip(shares.family.members, reversed(chosen), strict=True)
            for index in indices
        ]
        return Question(self.outline.operation, tuple(numbers))

    def _found(self, question: Question) -> tuple[int, int] | None:
        for at, shares in enumerate(self._shares):
            places = [shares.family.place_of(number) for number in question.operands]
            known = [place for place in places if place is not None]
            if len(known) < len(places) or len({beginning for beginning, _, _ in known}) > 1:
                continue
            of_each = Counter(member for _, member, _ in known)
            if tuple(of_each[member] for member in shares.family.members) != shares.sizes:
                continue
            chosen = [[i for _, m, i in known if m == member] for member in shares.family.members]
            number = shares.choices.rank((known[0][0], *reversed(chosen)))
            return None if number is None else (at, number)  # None: a number stands twice
        return None

    def arranged(self, question: Question, dice: Dice) -> Question:
        """The numbers shuffled; numbers to be ordered never stand in order already."""
        numbers = tuple(dice.shuffled(question.operands))
        mixed = replace(question, operands=numbers)
        if question.operation is Operation.ORDER and numbers == mixed.in_order:
            return replace(question, operands=numbers[::-1])
        return mixed

    def as_written(self, question: Question) -> Question:
        """As it was written; numbers to be ordered never stand in order already."""
        self.rank(question)
        if question.operation is Operation.ORDER and question.operands == question.in_order:
            return replace(question, operands=question.operands[::-1])
        return question

    def signature(self, question: Question) -> "OrderSignature":
        """The signature of a question."""
        lengths = tuple(sorted((n.whole_digits, n.places) for n in question.operands))
        return OrderSignature(question.operation, lengths, settled_in(question.operands))

    def matches(self, question: Question, signature: "OrderSignature", step: int) -> bool:
        """Whether a question of ``matching`` is settled in the signature's column, at step 0."""
        return step != _FULL or self.signature(question) == signature

    def matching(self, signature: "OrderSignature", step: int) -> "OrderQuestions":
        """The questions of this set that have a signature's lengths, at a step of widening."""
        if step == _RUNG_ONLY:
            return self
        return OrderQuestions(replace(self.outline, lengths=signature.lengths))


@dataclass(frozen=True, slots=True)
class OrderSignature:
    """What matched questions share: the numbers' lengths, (whole digits, places) in rising order.

    ``settled`` is the column furthest to the right that must be looked at; None when two
    numbers are equal.
    """

    operation: Operation
    lengths: tuple[tuple[int, int], ...]
    settled: int | None

    def __str__(self) -> str:
        return f"{self.operation} lengths {' '.join(f'{w}.{p}' for w, p in self.lengths)}"

    @property
    def plain(self) -> Plain:
        """The signature as plain data."""
        return {
            "operation": str(self.operation),
            "lengths": self.lengths,
            "settled": "none" if self.settled is None else self.settled,
        }

    @property
    def features(self) -> tuple[str, ...]:
        """The signature in words for the teacher's key."""
        places = [str(length) for length in sorted({places for _, places in self.lengths})]
        shown = reduce(lambda these, last: say("{these} or {last}", these=these, last=last), places)
        long = several(
            "{places} decimal place",
            "{places} decimal places",
            1 if places == ["1"] else 2,
            places=shown,
        )
        if self.settled is None:
            return long, say("equal")
        return long, say("settled in the {column}", column=column_name(self.settled))

    @property
    def difficulty(self) -> tuple[int, ...]:
        """Harder: settled further to the right, more different lengths, more numbers."""
        places = {places for _, places in self.lengths}
        return (-(self.settled or 0), len(places), len(self.lengths))


def settled_in(numbers: tuple[Number, ...]) -> int | None:
    """The right-most column that must be looked at to order the numbers; None where two are equal.

    Numbers are told apart at the first column from the left where their digits differ.
    """
    found: int | None = None
    top, last = max(n.top_place for n in numbers), min(n.last_place for n in numbers)
    for at, first in enumerate(numbers):
        for second in numbers[at + 1 :]:
            differ = [p for p in range(top, last - 1, -1) if first.digit(p) != second.digit(p)]
            if not differ:
                return None
            found = differ[0] if found is None else min(found, differ[0])
    return found


def _beginning_alike(whole: int, places: tuple[int, ...], shared: int) -> Iterator[_Family]:
    """The families of numbers with so many digits before the point that share a beginning."""
    wholes = int(9 * 10 ** (whole - 1)) if whole else 1

    def member(length: int, nought: bool) -> _Member:
        free = length + shared
        if free > 0:
            return _Member(Writing(whole, length), 9 * 10 ** (free - 1))
        is_number = free == 0 and not nought and (whole > 0 or shared < 0)
        return _Member(Writing(whole, length), int(is_number))

    def members(nought: bool) -> tuple[_Member, ...]:
        return tuple(m for length in places if (m := member(length, nought)).size)

    if shared == 0:
        yield _Family(wholes, members(nought=False), shared, whole)
        return
    tens = 10 ** (-shared - 1)
    yield _Family(wholes * 9 * tens, members(nought=False), shared, whole)
    yield _Family(wholes * tens, members(nought=True), shared, whole, ends_in_zero=True)


def _beginning_freely(whole: int, places: tuple[int, ...], shared: int) -> Iterator[_Family]:
    """The same where numbers may end in nought, so that 0.5 and 0.50 can meet."""

    def members(nought: bool) -> tuple[_Member, ...]:
        return tuple(
            _Member(Writing(whole, length, end_zero=True), size)
            for length in places
            if length + shared >= 0 and (size := int(10 ** (length + shared)) - nought)
        )

    beginnings = int((9 if whole else 1) * 10 ** (max(whole - 1, 0) - shared)) - (not whole)
    if beginnings:
        yield _FreeFamily(beginnings, members(nought=False), shared, whole)
    if not whole:
        yield _FreeFamily(1, members(nought=True), shared, nought=True)


def _shared_out(numbers: int, sizes: list[int]) -> Iterator[tuple[int, ...]]:
    """Every way to take so many numbers from members of these sizes."""
    if not sizes:
        if not numbers:
            yield ()
        return
    for first in range(min(numbers, sizes[0]) + 1):
        for rest in _shared_out(numbers - first, sizes[1:]):
            yield (first, *rest)


def _lengths(family: _Family, sizes: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    return tuple(
        sorted(
            (member.writing.whole, member.writing.places)
            for member, size in zip(family.members, sizes, strict=True)
            for _ in range(size)
        )
    )
