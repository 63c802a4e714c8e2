"""``carries`` and ``exchanges``: what passes between columns while the method works.

A carry is a column total of ten or more (the left-most column's too, although its ten is
written straight into the answer). An exchange is named by the column that receives the
ten: an exchange in the tenths is one for ten tenths, and crosses the point.
"""

from dataclasses import dataclass
from typing import Any, Final, NamedTuple

from generator.arithmetic.place_value import COLUMN_NAMES, PLACE_NAMED
from generator.operations.columns.column_work import Watch
from generator.operations.columns.facts import Column, Fact
from generator.operations.columns.outline import Outline
from generator.operations.how_many import HOW_MANY, fewest_and_most
from specs.languages.saying import say
from specs.shapes import Either, Field, Fields, Range, SetOf, YesNo
from specs.words import Word

_COLUMNS = SetOf(*COLUMN_NAMES.values())
_COUNT = Range(0, len(COLUMN_NAMES))


@dataclass(frozen=True, slots=True)
class AskedTransfers:
    """How many carries or exchanges there must be, and where; None where a spec leaves it open.

    ``required``, ``forbidden`` and ``only`` are columns by name, ``through_zeros`` the fewest
    and the most noughts that an exchange passes through.
    """

    count: tuple[int, int] | None = None
    required: tuple[str, ...] | None = None
    forbidden: tuple[str, ...] | None = None
    only: tuple[str, ...] | None = None
    across_point: bool | None = None
    through_zeros: tuple[int, int] | None = None


_WHERE: Final = {
    "count": Field(_COUNT),
    "in": Field(_COLUMNS, attribute="required"),
    "not_in": Field(_COLUMNS, attribute="forbidden"),
    "only": Field(_COLUMNS),
    "across_point": Field(YesNo()),
}

_TENTHS: Final = -1
_ANY: Final = (0, len(COLUMN_NAMES))

CARRIES = Word(
    "carries",
    frozenset({"add"}),
    Either(HOW_MANY, Fields(AskedTransfers, _WHERE, short="count")),
    say(
        "Carries (column totals of ten or more): none, some, every (in each column where two "
        "numbers have digits, noughts before the point left aside), or any of count, in (one in "
        "each of these columns, by name, such as [ones, tenths]), not_in (none in any of these), "
        "only (in some of these and in no other) and across_point."
    ),
)

EXCHANGES = Word(
    "exchanges",
    frozenset({"subtract"}),
    Either(
        HOW_MANY,
        Fields(
            AskedTransfers,
            {**_WHERE, "through_zeros": Field(Range(0, len(COLUMN_NAMES)))},
            short="count",
        ),
    ),
    say(
        "Exchanges: none, some, every (in each column but that of the first number's left-most "
        "digit), or any of count, in (one in each of these columns, by name, such as [ones, "
        "tenths]; the column that receives ten), not_in (none in any of these), only (in some of "
        "these and in no other), across_point, and through_zeros (so many noughts passed through "
        "by one exchange, and by no other)."
    ),
)


class _Seen(NamedTuple):
    transfers: int
    required: int


@dataclass(frozen=True, slots=True)
class _Transfers:
    """Watches carries or exchanges: how many there are, and in which columns.

    ``required`` are columns that have one, ``forbidden`` columns that have none.
    """

    count: tuple[int, int] = _ANY
    required: frozenset[int] = frozenset()
    forbidden: frozenset[int] = frozenset()
    needs: frozenset[Fact] = frozenset()

    @property
    def start(self) -> _Seen:
        return _Seen(0, 0)

    def step(self, state: _Seen, column: Column) -> _Seen | None:
        required = column.place in self.required
        if not column.carry_out:
            return None if required else state
        if column.place in self.forbidden:
            return None
        if self.count == _ANY:
            return _Seen(0, state.required + required)
        count = state.transfers + 1
        return _Seen(count, state.required + required) if count <= self.count[1] else None

    def accepts(self, state: _Seen) -> bool:
        enough = self.count == _ANY or state.transfers >= self.count[0]
        return enough and state.required == len(self.required)


@dataclass(frozen=True, slots=True)
class _EveryCarry:
    """Watches that each column in which two numbers have digits makes a carry."""

    needs: frozenset[Fact] = frozenset({Fact.PRESENT})
    start: bool = True

    def step(self, state: bool, column: Column) -> bool | None:
        return True if column.carry_out or column.present < 2 else None

    def accepts(self, state: bool) -> bool:
        return True


@dataclass(frozen=True, slots=True)
class _EveryExchange:
    """Watches that each column to the right of the first number's left-most digit receives ten.

    A nought before the point is no left-most digit: of 0.45 that is the 4. The state is whether
    a column has received none; what follows can then only be such a nought.
    """

    needs: frozenset[Fact] = frozenset({Fact.PRESENT, Fact.ENDS})
    start: bool = False

    def step(self, state: bool, column: Column) -> bool | None:
        leading = bool(column.ends & 1) and not column.present & 1
        if leading:
            return False
        if state:
            return None
        counts = column.present > 0 and not column.ends & 1
        return counts and not column.carry_out

    def accepts(self, state: bool) -> bool:
        return not state


@dataclass(frozen=True, slots=True)
class _ZerosPassed:
    """Watches noughts that exchanges pass through: a single run of a length in a range.

    The state is the run's length so far, and whether the run is over.
    """

    low: int
    high: int
    needs: frozenset[Fact] = frozenset()
    start: tuple[int, bool] = (0, False)

    def step(self, state: tuple[int, bool], column: Column) -> tuple[int, bool] | None:
        length, over = state
        if column.passes_zero:
            return None if over or length == self.high else (length + 1, False)
        return (length, length > 0)

    def accepts(self, state: tuple[int, bool]) -> bool:
        return bool(self.low <= state[0] <= self.high)


def _watch(asked: str | AskedTransfers, every: Watch[Any]) -> tuple[Watch[Any], ...]:
    """The watches for what is asked; ``every`` is the one for "every"."""
    if isinstance(asked, str):
        count = fewest_and_most(asked, _ANY[1])
        return (every,) if count is None else (_Transfers(count),)
    required, forbidden = _places(asked.required), _places(asked.forbidden)
    if asked.across_point is not None:
        required |= {_TENTHS} if asked.across_point else frozenset()
        forbidden |= frozenset() if asked.across_point else {_TENTHS}
    watches = [_Transfers(asked.count or _ANY, required, forbidden)]
    if asked.only:
        elsewhere = frozenset(COLUMN_NAMES) - _places(asked.only)
        watches.append(_Transfers((1, _ANY[1]), forbidden=elsewhere))
    return tuple(watches)


def _places(names: tuple[str, ...] | None) -> frozenset[int]:
    return frozenset(PLACE_NAMED[name] for name in names or ())


def narrow_carries(asked: str | AskedTransfers, outline: Outline) -> Outline:
    """Carries of an addition."""
    return outline.watched_by(*_watch(asked, _EveryCarry()))


def narrow_exchanges(asked: str | AskedTransfers, outline: Outline) -> Outline:
    """Exchanges of a subtraction, and the noughts that they pass through."""
    outline = outline.watched_by(*_watch(asked, _EveryExchange()))
    if isinstance(asked, AskedTransfers) and asked.through_zeros is not None:
        outline = outline.watched_by(_ZerosPassed(*asked.through_zeros))
    return outline
