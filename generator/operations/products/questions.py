"""Multiplications: exact sets of products, worked through whole numbers.

Two products match when a pupil meets the same things: the factors have the same
significant digits and decimal places in the same order, the same products of two digits
carry in the same rows, and the product of the whole numbers ends in nought in both or in
neither.
"""

from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, partial
from itertools import product
from math import factorial, prod
from typing import Any, ClassVar, NamedTuple

from generator.allowance import Meter
from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.numbered.question_sets import PartedQuestions
from generator.numbered.seeds import Dice
from generator.numbered.sequences import Listed, Numbered
from generator.operations.products.conditions import CarryCount, EndsInZero, SameCarries, within
from generator.operations.products.counting import Counted, Pairs, ProductWatch, Watched, carries
from generator.operations.products.either_order import either_order
from generator.operations.products.factors import (
    FactorKind,
    Layout,
    Length,
    Multiplier,
    Order,
    OrderedCondition,
    ProductCondition,
    ProductOutline,
    WorkedProduct,
    Written,
    taken_apart,
)
from generator.operations.products.whole_product import turns
from specs.canonical import Plain
from specs.languages.saying import joined, say, several

_LISTED = 14  # the steps of working three factors in one order
_FULL, _ENDS_DIFFER, _COLUMNS_DIFFER, _CARRIES_DIFFER, _RUNG_ONLY = range(5)


_Digits = Numbered[tuple[int, ...]]
"""The digits of the factors of a layout, in the order of printing."""


class _Part(NamedTuple):
    """A layout with its digits, the outline for it, and the orders in which it may be printed."""

    layout: Layout
    digits: _Digits
    outline: ProductOutline
    orders: tuple[Order, ...]


@dataclass(frozen=True)
class ProductQuestions(PartedQuestions["ProductSignature"]):
    """The questions that an outline leaves, counted and numbered."""

    outline: ProductOutline
    widenings: ClassVar[tuple[str, ...]] = (
        "",
        say("matched but for a nought at the answer's end"),
        say("matched in lengths and number of carries"),
        say("matched in lengths only"),
        say("same rung only"),
    )

    @property
    def operation(self) -> Operation:
        """Multiplication."""
        return Operation.MULTIPLY

    @cached_property
    def _layouts(self) -> list[_Part]:
        """Every layout with its digits; those that hang on the same things are counted once."""
        # What the digits of a layout hang on: how many each factor has; which factors are alike
        # (of those the greater stands first); the answer's places, where a condition asks for
        # them; and whether a whole number ends in noughts. Layouts that agree in all four, and may
        # be printed in the same orders, are counted once, as the first two here:
        #
        #   for example      digits   first like it   places   noughts
        #   2.4 × 0.16       2, 2     0, 1            3        no
        #   24 × 0.016       2, 2     0, 1            3        no
        #   2.4 × 1.6        2, 2     0, 0            2        no
        #   40 × 1.6         1, 2     0, 1            0        yes
        asked = (*self.outline.conditions, *self.outline.shared)
        by_places = any(condition.uses_places for condition in asked)
        known: dict[Hashable, _Digits] = {}
        self._meter.spent = 0
        multiplicands = Counted(self._meter)
        found = []
        for layout in self.outline.layouts:
            alike = self.outline.alike(layout)
            places = sum(length.places for length in layout) if by_places else 0
            noughts = any(length.places < 0 for length in layout)
            outline = self.outline.of(layout)
            lengths = tuple(length.digits for length in layout)
            orders = outline.orders(layout)
            key = (lengths, alike, places, noughts, outline.conditions, outline.fixed, orders)
            if key not in known:
                if len(layout) == 2:
                    known[key] = _TwoFactors(outline, layout, multiplicands)
                else:
                    known[key] = _table(outline, layout, self._meter)
            if known[key].count:
                found.append(_Part(layout, known[key], outline, orders))
        return found

    @property
    def _sizes(self) -> list[int]:
        return [part.digits.count for part in self._layouts]

    @cached_property
    def _layout_at(self) -> dict[Layout, int]:
        return {tuple(sorted(part.layout)): at for at, part in enumerate(self._layouts)}

    @cached_property
    def _fixed_first(self) -> list[int]:
        """The factors' places, those of fixed factors first."""
        fixed = self.outline.fixed
        return sorted(range(len(fixed)), key=lambda place: not fixed[place])

    def _fetched(self, part: int, number: int) -> Question:
        layout, found, outline, orders = self._layouts[part]
        digits = found.unrank(number)
        factors = tuple(map(_factor, digits, layout))
        order = orders[0]
        if len(orders) > 1:
            printed = _printed(outline, layout, orders, _row(digits, orders))
            assert printed is not None, f"{digits} are counted but do not meet the conditions"
            order = printed
        return Question(Operation.MULTIPLY, tuple(factors[at] for at in order))

    def _found(self, question: Question) -> tuple[int, int] | None:
        if not all(number.units for number in question.operands):
            return None
        written = sorted(map(taken_apart, question.operands), reverse=True)
        at = self._layout_at.get(tuple(sorted(length for length, _ in written)))
        if at is None:
            return None
        layout, digits, _, _ = self._layouts[at]
        in_order = [0] * len(layout)
        for place in self._fixed_first:  # of others of one length the greater stands first
            allows = self.outline.kinds[place].allows
            entry = next((e for e in written if e[0] == layout[place] and allows(e[1])), None)
            if entry is None:
                return None
            written.remove(entry)
            in_order[place] = entry[1]
        number = digits.rank(tuple(in_order))
        return None if number is None else (at, number)

    def arranged(self, question: Question, dice: Dice) -> Question:
        """The question with two factors of one kind in an order drawn for it.

        Factors with equally many digits keep their order, and so do three: which of them
        is the multiplier hangs on it.
        """
        lengths = [taken_apart(number)[0].digits for number in question.operands]
        if len(lengths) > 2 or len(set(lengths)) == 1 or len(set(self.outline.kinds)) > 1:
            return question
        return replace(question, operands=tuple(dice.shuffled(question.operands)))

    def as_written(self, question: Question) -> Question:
        """As it was written, where ``arranged`` might have written it so."""
        printed = self.unrank(self.rank(question))
        lengths = [taken_apart(number)[0].digits for number in question.operands]
        if len(lengths) > 2 or len(set(lengths)) == 1 or len(set(self.outline.kinds)) > 1:
            return printed
        return question

    def signature(self, question: Question) -> "ProductSignature":
        """The signature of a question."""
        return signature_of(question)

    def matching(self, signature: "ProductSignature", step: int) -> "ProductQuestions":
        """The questions of this set that match a signature, at a step of widening."""
        if step == _RUNG_ONLY:
            return self
        at = self._layout_at.get(tuple(sorted(signature.lengths)))
        if at is not None and len(self._layouts[at].orders) > 1:
            outline = replace(self.outline, printed=signature.lengths)
        else:
            kinds = tuple(
                FactorKind((length.digits,), (length.places,), kind.only)
                for kind, length in zip(self.outline.kinds, signature.lengths, strict=True)
            )
            outline = replace(self.outline, kinds=kinds, noughts=(0,))
        if step <= _ENDS_DIFFER:
            outline = outline.sharing(SameCarries(signature.carries))
        if step == _FULL:
            outline = outline.sharing(EndsInZero(signature.ends_in_zero))
        if step == _COLUMNS_DIFFER:
            outline = outline.sharing(CarryCount(signature.carry_count, signature.carry_count))
        return ProductQuestions(outline)


class _TwoFactors:
    """Two factors: for each multiplier its multiplicands.

    The factor with more digits is the multiplicand, the first printed where they have
    equally many. Two factors of one length stand with the greater first, unless only the other
    order has what is asked.
    """

    def __init__(self, outline: ProductOutline, layout: Layout, multiplicands: Counted) -> None:
        first, second = layout
        self._first_on_top = first.digits >= second.digits
        self._ordered = outline.alike(layout) == (0, 0)
        kinds = outline.kinds if self._first_on_top else outline.kinds[::-1]
        self._top_kind, self._below_kind = kinds
        self._noughts = min(first.places, second.places) < 0
        self._places = first.places + second.places
        conditions = (*outline.conditions, *outline.shared)
        self._either: Callable[[Multiplier], tuple[ProductWatch[Any], ...] | None] | None = None
        orders = outline.orders(layout)
        if len(orders) > 1:
            self._either = partial(
                either_order,
                asked=_ordered(outline.conditions),
                shared=_ordered(outline.shared),
                usual_will_do=outline.may_stand(layout, orders[0]),
                turned_will_do=outline.may_stand(layout, orders[1]),
            )
            hang = _ordered(conditions)
            conditions = tuple(condition for condition in conditions if condition not in hang)
        self._conditions = conditions
        top, below = (first, second) if self._first_on_top else (second, first)
        self._pairs = Pairs(top.digits, self._watched(outline, top, below), multiplicands)

    def _watched(self, outline: ProductOutline, top: Length, below: Length) -> Iterator[Watched]:
        written = outline.written
        for units in filter(self._below_kind.allows, _numbers(below.digits, written)):
            multiplier = Multiplier(units, top.digits, self._places, self._noughts)
            watches: tuple[ProductWatch[Any], ...] | None = (written,)
            more = [condition.watches(multiplier) for condition in self._conditions]
            if self._either is not None:
                more.append(self._either(multiplier))
            if self._ordered:
                more.append(within(top.digits, units, None))
            if self._top_kind.only is not None:
                fixed = taken_apart(self._top_kind.only)[1]
                more.append(within(top.digits, fixed, fixed))
            for found in more:
                watches = None if watches is None or found is None else (*watches, *found)
            if watches is not None:
                yield Watched(units, watches)

    @property
    def count(self) -> int:
        return self._pairs.count

    def unrank(self, number: int, /) -> tuple[int, ...]:
        top, below = self._pairs.unrank(number)
        return (top, below) if self._first_on_top else (below, top)

    def rank(self, digits: tuple[int, ...], /) -> int | None:
        first, second = digits
        pair = (first, second) if self._first_on_top else (second, first)
        return self._pairs.rank(pair)


def _ordered(conditions: tuple[ProductCondition, ...]) -> list[OrderedCondition]:
    return [condition for condition in conditions if isinstance(condition, OrderedCondition)]


def _printed(
    outline: ProductOutline, layout: Layout, orders: tuple[Order, ...], row: "_Row"
) -> Order | None:
    """The first order in which factors are as the conditions ask; None when none is, or when in
    that order they do not share what they are to.
    """
    places = sum(length.places for length in layout)
    noughts = any(length.places < 0 for length in layout)
    for order, carried in zip(orders, row.carries, strict=True):
        digits = tuple([row.digits[at] for at in order])
        worked = WorkedProduct(digits, row.product, places, noughts, carried)
        if all(condition.holds(worked) for condition in outline.conditions):
            shares = all(more.holds(worked) for more in outline.shared)
            return order if shares and outline.may_stand(layout, order) else None
    return None


def _table(outline: ProductOutline, layout: Layout, meter: Meter) -> Listed[tuple[int, ...]]:
    """Three factors of few digits: all of them, listed."""
    lengths = tuple(length.digits for length in layout)
    alike = outline.alike(layout)
    orders = outline.orders(layout)
    listed = (lengths, alike, outline.written, orders)
    meter.spend(_LISTED * len(orders) * 10 ** sum(lengths) // factorial(len(orders)))
    rows = _every_product(*listed)
    for condition in outline.shared:
        if isinstance(condition, SameCarries):  # straight to the few that it leaves
            rows = _by_carries(*listed).get(condition.pattern, [])
    return Listed(
        [
            row.digits
            for row in rows
            if all(map(FactorKind.allows, outline.kinds, row.digits))
            and _printed(outline, layout, orders, row)
        ]
    )


class _Row(NamedTuple):
    """The digits of factors, their product, and the carries of its working in each order."""

    digits: tuple[int, ...]
    product: int
    carries: tuple[tuple[tuple[tuple[bool, ...], ...], ...], ...]


def _row(digits: tuple[int, ...], orders: tuple[Order, ...]) -> _Row:
    carried = tuple([_carries(tuple([digits[at] for at in order])) for order in orders])
    return _Row(digits, prod(digits), carried)


@lru_cache(maxsize=8)
def _every_product(
    lengths: tuple[int, ...], alike: tuple[int, ...], written: Written, orders: tuple[Order, ...]
) -> list[_Row]:
    """Factors of so many digits with their workings; those alike in falling order."""
    return [
        _row(digits, orders)
        for digits in product(*(_numbers(length, written) for length in lengths))
        if all(
            digits[at] >= digits[later]
            for later in range(len(digits))
            for at in range(later)
            if alike[at] == alike[later]
        )
    ]


@lru_cache(maxsize=8)
def _by_carries(
    lengths: tuple[int, ...], alike: tuple[int, ...], written: Written, orders: tuple[Order, ...]
) -> dict[Hashable, list[_Row]]:
    """The same factors, gathered by the carries of their working in any of the orders."""
    found: dict[Hashable, list[_Row]] = {}
    for row in _every_product(lengths, alike, written, orders):
        for pattern in set(row.carries):
            found.setdefault(pattern, []).append(row)
    return found


def _numbers(length: int, written: Written) -> list[int]:
    """The digits that a factor can have."""
    return [units for units in range(10 ** (length - 1), 10**length) if written.allows(units)]


def _carries(digits: tuple[int, ...]) -> tuple[tuple[tuple[bool, ...], ...], ...]:
    """The carries of each multiplication in turn, as the written method goes about it."""
    return tuple([carries(turn.upper, turn.lower) for turn in turns(digits)])


def _factor(digits: int, length: Length) -> Number:
    """Digits at their places, as they are printed."""
    if length.places < 0:
        return Number(digits * 10**-length.places)
    return Number(digits, length.places)


@dataclass(frozen=True, slots=True)
class ProductSignature:
    """What matched products share.

    ``lengths`` are those of the factors in the order of printing, ``carries`` the carries of
    each multiplication, row by row, from the right.
    """

    lengths: Layout
    carries: tuple[tuple[tuple[bool, ...], ...], ...]
    ends_in_zero: bool

    def __str__(self) -> str:
        digits = " ".join(str(length.digits) for length in self.lengths)
        places = " ".join(str(length.places) for length in self.lengths)
        works = " then ".join(
            " ".join("".join(str(int(carry)) for carry in row) or "-" for row in work)
            for work in self.carries
        )
        ends = "; ends in nought" if self.ends_in_zero else ""
        return f"multiply digits {digits}; places {places}; carries {works}{ends}"

    @property
    def carry_count(self) -> int:
        """How many products of two digits carry."""
        return sum(carry for work in self.carries for row in work for carry in row)

    @property
    def plain(self) -> Plain:
        """The signature as plain data."""
        return {
            "operation": "multiply",
            "lengths": self.lengths,
            "carries": self.carries,
            "ends_in_zero": self.ends_in_zero,
        }

    @property
    def features(self) -> tuple[str, ...]:
        """The signature in words for the teacher's key."""
        digits = [several("{count} digit", "{count} digits", one.digits) for one in self.lengths]
        many = self.carry_count
        found = [
            joined(digits, between=" × "),
            several("{count} carry", "{count} carries", many) if many else say("no carries"),
        ]
        places = sum(max(length.places, 0) for length in self.lengths)
        if places:
            found.append(
                several("{count} decimal place in all", "{count} decimal places in all", places)
            )
        if self.ends_in_zero:
            found.append(say("product ends in nought"))
        return tuple(found)

    @property
    def difficulty(self) -> tuple[int, ...]:
        """How hard a question is beside others of its rung, harder ones greater.

        Compared in this order: rows of working; carries; digits in all; decimal places;
        whether noughts are dropped. The order is common practice, no source.
        """
        return (
            sum(bool(row) for work in self.carries for row in work),
            self.carry_count,
            sum(length.digits for length in self.lengths),
            sum(max(length.places, 0) for length in self.lengths),
            int(self.ends_in_zero),
        )


def signature_of(question: Question) -> ProductSignature:
    """The signature of a question, worked in the order of printing."""
    apart = [taken_apart(number) for number in question.operands]
    digits = tuple(units for _, units in apart)
    lengths = tuple(length for length, _ in apart)
    noughts = any(length.places < 0 for length in lengths)
    return ProductSignature(lengths, _carries(digits), noughts or prod(digits) % 10 == 0)
