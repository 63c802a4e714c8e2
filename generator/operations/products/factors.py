"""The factors of a product: how many, their digits, their decimal places, their noughts.

A factor's *digits* are its significant digits: from the first that is not nought to the
last, so 0.04 and 40 have one and 2.05 has three. In the working they stand as a whole
number; noughts at the end of a whole number are left aside and put back.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import permutations, product
from typing import Any, ClassVar, Final, NamedTuple, Protocol, runtime_checkable

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation
from generator.operations.columns.lengths import MOST_PLACES
from generator.operations.columns.zeros import Noughts
from generator.operations.products.counting import ProductColumn, ProductWatch, Rows
from generator.operations.spans import Lengths, each_in_turn, ragged
from specs.languages.saying import say
from specs.shapes import Chosen, Either, Fields, ListOf, OneField, OneOf, Range, WholeNumber
from specs.words import Word

_MULTIPLY: Final = frozenset({"multiply"})
MOST_DIGITS: Final = 6
USUAL_FACTORS: Final = 2
_NOUGHTS: Final = (0, 1, 2)


class Length(NamedTuple):
    """How long a factor is: its significant digits and its decimal places.

    Places below 0 are noughts at the end of a whole number: 400 is ``Length(1, -2)``.
    """

    digits: int
    places: int


Layout = tuple[Length, ...]
"""The lengths of a product's factors, in the order of printing."""

Order = tuple[int, ...]
"""An order of printing: which factor of a layout stands first, which next."""


def _nought_after_point(layout: Layout) -> bool:
    """Whether some factor has a nought between its point and its first digit: 0.05."""
    return any(length.places > length.digits for length in layout)


class Multiplier(NamedTuple):
    """A multiplier, the digits that its multiplicands have, and the scale of the product.

    The answer is the product of the digits divided by 10**``places``; ``noughts`` says
    whether some factor is a whole number that ends in nought.
    """

    units: int
    length: int
    places: int
    noughts: bool


class WorkedProduct(NamedTuple):
    """The factors' digits in the order of printing, with the carries of their working.

    ``carries`` has an entry for each multiplication (one less than there are factors), as
    ``products.counting.carries`` gives it. ``places`` and ``noughts`` are those of
    a ``Multiplier``.
    """

    digits: tuple[int, ...]
    product: int
    places: int
    noughts: bool
    carries: tuple[tuple[tuple[bool, ...], ...], ...]


class ProductCondition(Protocol):
    """A condition on a product.

    It is judged on a finished product, or followed along the multiplicands of one
    multiplier; both ways agree. ``uses_places``: whether decimal places make a difference.
    """

    @property
    def uses_places(self) -> bool:
        """Whether the answer's places make a difference."""

    def holds(self, worked: WorkedProduct) -> bool:
        """Whether a finished product meets the condition."""

    def watches(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...] | None:
        """What to watch in the multiplicands of a multiplier; None when none will do."""


@runtime_checkable
class OrderedCondition(ProductCondition, Protocol):
    """A condition that hangs on the order in which factors of equally many digits are printed."""

    def turned(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...] | None:
        """What to watch where the digits gone through multiply the other number instead.

        The carries of a column are then those of that digit's own row.
        """


@dataclass(frozen=True, slots=True)
class FactorKind:
    """What a factor may look like: allowed counts of significant digits and decimal places.

    ``only`` is the one factor that it may be, where it is fixed.
    """

    digits: tuple[int, ...]
    places: tuple[int, ...]
    only: Number | None = None

    def lengths(self, noughts: tuple[int, ...]) -> list[Length]:
        """The lengths of this kind, more digits first; whole numbers with so many noughts."""
        whole = {-many for many in noughts} if 0 in self.places else set()
        found = [
            Length(digits, places)
            for digits in sorted(self.digits, reverse=True)
            for places in sorted(whole.union(self.places))
        ]
        if self.only is None:
            return found
        return [length for length in found if length == taken_apart(self.only)[0]]

    def allows(self, digits: int) -> bool:
        """Whether a factor of this kind may have those digits, as far as it is fixed."""
        return self.only is None or taken_apart(self.only)[1] == digits


def taken_apart(number: Number) -> tuple[Length, int]:
    """A factor's length and digits; noughts at the end of a whole number are counted as places."""
    units, places = number.units, number.places
    while places <= 0 and units and units % 10 == 0:
        units, places = units // 10, places - 1
    return Length(len(str(units)), places), units


@dataclass(frozen=True, slots=True)
class ProductOutline:
    """What the factors may look like and what their product must meet.

    ``ragged`` is True where the decimal places must not all be equal, False where they
    must. ``noughts`` are the allowed counts of noughts at the end of the factors that are
    whole numbers, ``some_noughts`` asks for one in some factor. ``ones`` lets a factor be
    1, 10, 0.1 and so on. ``conditions`` settle in which order factors are printed, ``shared`` is
    what else a product must meet, printed so: what it has in common with another. ``printed`` are
    the lengths of factors in the order in which they must then stand; None: in any.
    """

    kinds: tuple[FactorKind, ...]
    ragged: bool | None = None
    inside_zero: bool = True
    noughts: tuple[int, ...] = (0,)
    some_noughts: bool = False
    ones: bool = False
    conditions: tuple[ProductCondition, ...] = ()
    shared: tuple[ProductCondition, ...] = ()
    printed: Layout | None = None
    operation: ClassVar[Operation] = Operation.MULTIPLY

    def meeting(self, *conditions: ProductCondition) -> "ProductOutline":
        """The outline with further conditions."""
        return replace(self, conditions=(*self.conditions, *conditions))

    def fixing(self, at: int, number: Number) -> "ProductOutline":
        """The outline in which one factor, from 0 in the order of printing, is settled.

        One that questions lack settles nothing: a check of the rung's words says so.
        """
        if at >= len(self.kinds):
            return self
        kinds = list(self.kinds)
        kinds[at] = replace(kinds[at], only=number)
        return replace(self, kinds=tuple(kinds))

    @property
    def fixed(self) -> tuple[str, ...]:
        """Each factor that is fixed as it is written; "" for the others."""
        return tuple(str(kind.only or "") for kind in self.kinds)

    def alike(self, layout: Layout) -> tuple[int, ...]:
        """For each factor of a layout the first like it: as long, and as free."""
        like = list(zip(layout, (kind.only for kind in self.kinds), strict=True))
        return tuple(map(like.index, like))

    def sharing(self, *conditions: ProductCondition) -> "ProductOutline":
        """The outline of the products that also have this in common, in the order printed."""
        return replace(self, shared=(*self.shared, *conditions))

    def orders(self, layout: Layout) -> "tuple[Order, ...]":
        """The orders in which factors so long may be printed, the usual one first.

        It is the only one where no other could make a difference: where no condition hangs on
        the order, and where the longer of two factors stands on top either way.
        """
        usual = tuple(range(len(layout)))
        if any(self.fixed):  # where one is fixed, the others stand as they are asked
            return (usual,)
        alike = len({length.digits for length in layout}) == 1
        if not any(isinstance(condition, OrderedCondition) for condition in self.conditions):
            return (usual,)
        if len(layout) == USUAL_FACTORS and not alike:
            return (usual,)
        allowed = [kind.lengths(self.noughts) for kind in self.kinds]
        return tuple(
            order
            for order in permutations(usual)
            if all(layout[at] in lengths for at, lengths in zip(order, allowed, strict=True))
        )

    def may_stand(self, layout: Layout, order: Order) -> bool:
        """Whether factors so long, in such an order, stand as they must."""
        return self.printed is None or tuple(layout[at] for at in order) == self.printed

    @property
    def layouts(self) -> Iterator[Layout]:
        """Every way in which the factors can be long, but for their order, each once.

        Where kinds are alike the factor with more digits is printed first, and a fixed one
        always where it is fixed.
        """
        seen = set()
        for layout in product(*(kind.lengths(self.noughts) for kind in self.kinds)):
            alike = len({max(length.places, 0) for length in layout}) == 1
            if self.ragged is not None and self.ragged is alike:
                continue
            if self.some_noughts and all(length.places >= 0 for length in layout):
                continue
            if not self.inside_zero and _nought_after_point(layout):
                continue
            unordered = tuple(sorted(layout))
            if self.printed is not None and unordered != tuple(sorted(self.printed)):
                continue
            if unordered not in seen:
                seen.add(unordered)
                yield layout

    def of(self, layout: Layout) -> "ProductOutline":
        """The outline for factors so long: what their lengths settle is asked no more."""
        if _nought_after_point(layout):
            kept = tuple(found for found in self.conditions if found != _InsideNought())
            return replace(self, conditions=kept)
        return self

    @property
    def written(self) -> "Written":
        """How the digits of a factor may be written."""
        return Written(self.inside_zero, self.ones)


@dataclass(frozen=True, slots=True)
class Written:
    """Watches that a factor's digits may be written: no nought last, no lone 1 unless allowed.

    The state is whether a digit has been seen.
    """

    inside_zero: bool
    ones: bool
    rows: Rows = Rows.IGNORED
    start: bool = False

    def step(self, state: bool, column: ProductColumn) -> bool | None:
        """Whether a digit has been seen, after one more."""
        if column.digit == 0:
            return True if state and self.inside_zero else None
        lone = column.top and column.digit == 1 and not state
        return None if lone and not self.ones else True

    def accepts(self, state: bool) -> bool:
        """Always: a broken condition shows at its digit."""
        return True

    def allows(self, digits: int) -> bool:
        """Whether digits may be written so."""
        return (
            digits % 10 > 0
            and (self.inside_zero or "0" not in str(digits))
            and (self.ones or digits > 1)
        )


FACTORS = Word(
    "factors",
    _MULTIPLY,
    WholeNumber(2, 3),
    say(
        "How many numbers are multiplied: 2 or 3 (2 when not given). Three are multiplied in the "
        "order in which they are printed."
    ),
)

DIGITS = Word(
    "digits",
    _MULTIPLY,
    Either(
        WholeNumber(1, MOST_DIGITS),
        ListOf(WholeNumber(1, MOST_DIGITS), 2, 3),
        OneField({"between": Range(1, MOST_DIGITS)}, short="between"),
    ),
    say(
        "Significant digits of the factors (0.04 and 40 have 1, 2.05 has 3): a number for all "
        "alike, a list for each factor in turn, or {{between: [1, 2]}} (1 or 2 when not given, 1 "
        "for each of three). Of two factors one may be longer than 3 digits; three have 5 digits "
        "together."
    ),
)

_PLACES_RANGE = Range(0, MOST_PLACES)

PLACES = Word(
    "places",
    _MULTIPLY,
    Either(
        WholeNumber(0, MOST_PLACES),
        ListOf(WholeNumber(0, MOST_PLACES), 2, 3),
        OneField(
            {"ragged": _PLACES_RANGE, "same": _PLACES_RANGE, "between": _PLACES_RANGE},
            short="between",
        ),
    ),
    say(
        "Decimal places of the factors: a number for all alike, a list for each factor in turn, "
        "{{ragged: [0, 2]}} for places that are not all equal, {{same: [1, 2]}} for equal places "
        "in a range, {{between: [0, 2]}} for any mixture ({{same: [1, 2]}} when not given)."
    ),
)

PLACES_DEFAULT = Chosen("same", (1, 2))

_CHOICE = OneOf("allow", "require", "forbid")

ZEROS = Word(
    "zeros",
    _MULTIPLY,
    Fields(Noughts, {"inside": _CHOICE, "end": _CHOICE}),
    say(
        "Noughts in the factors: inside (between other digits, as in 2.05 and 0.05) and end (one "
        "or two, of a whole number, as in 40 or 400), each allow, require (in at least one "
        "factor) or forbid. When not given, noughts inside are allowed and factors do not end in "
        "nought; decimals never do."
    ),
)

ONES = Word(
    "ones",
    _MULTIPLY,
    OneOf("allow", "forbid"),
    say("Whether a factor may be a 1 in some column: 1, 0.1, 0.01, 10 (forbid when not given)."),
)


def narrow_factors(factors: int, outline: ProductOutline) -> ProductOutline:
    """So many factors, all of one kind."""
    kind = outline.kinds[0]
    if factors > USUAL_FACTORS:
        kind = replace(kind, digits=(1,))
    return replace(outline, kinds=(kind,) * factors)


def narrow_digits(asked: Lengths, outline: ProductOutline) -> ProductOutline:
    """Significant digits."""
    each = each_in_turn(asked, len(outline.kinds))
    kinds = zip(outline.kinds, each, strict=True)
    return replace(outline, kinds=tuple(replace(kind, digits=digits) for kind, digits in kinds))


def narrow_places(asked: Lengths, outline: ProductOutline) -> ProductOutline:
    """Decimal places."""
    each = each_in_turn(asked, len(outline.kinds))
    kinds = zip(outline.kinds, each, strict=True)
    return replace(
        outline,
        kinds=tuple(replace(kind, places=places) for kind, places in kinds),
        ragged=ragged(asked),
    )


@dataclass(frozen=True, slots=True)
class _InsideNought:
    """Some factor has a nought between other digits.

    As a watch of a multiplicand its state is whether a nought has been seen.
    """

    uses_places: bool = False
    rows: Rows = Rows.IGNORED
    start: bool = False

    def holds(self, worked: WorkedProduct) -> bool:
        return any("0" in str(digits) for digits in worked.digits)

    def watches(self, multiplier: Multiplier) -> tuple[ProductWatch[Any], ...]:
        return () if "0" in str(multiplier.units) else (self,)

    def step(self, state: bool, column: ProductColumn) -> bool:
        return bool(state) or column.digit == 0

    def accepts(self, state: bool) -> bool:
        return bool(state)


def narrow_zeros(asked: Noughts, outline: ProductOutline) -> ProductOutline:
    """Which noughts a factor may have, and which some factor must have."""
    inside, end = asked.inside, asked.end
    outline = replace(
        outline,
        inside_zero=inside != "forbid",
        noughts=_NOUGHTS if end in ("allow", "require") else (0,),
        some_noughts=end == "require",
    )
    return outline.meeting(_InsideNought()) if inside == "require" else outline


def narrow_ones(value: str, outline: ProductOutline) -> ProductOutline:
    """Whether a factor may be a 1."""
    return replace(outline, ones=value == "allow")
