"""``places``, ``whole`` and ``longer``: how long the numbers are on either side of the point."""

from dataclasses import dataclass, replace

from generator.operations.columns.facts import Column, Fact
from generator.operations.columns.outline import Outline
from generator.operations.spans import Lengths, each_in_turn, ragged
from specs.languages.saying import say
from specs.shapes import Chosen, Either, ListOf, OneField, OneOf, Range, WholeNumber
from specs.words import Word

MOST_PLACES = 6
MOST_WHOLE_DIGITS = 9

_PLACES_RANGE = Range(0, MOST_PLACES)

PLACES = Word(
    "places",
    frozenset({"add", "subtract"}),
    Either(
        WholeNumber(0, MOST_PLACES),
        ListOf(WholeNumber(0, MOST_PLACES), 2, 6),
        OneField(
            {"ragged": _PLACES_RANGE, "same": _PLACES_RANGE, "between": _PLACES_RANGE},
            short="between",
        ),
    ),
    say(
        "Decimal places: a number for all alike, a list for each number in turn, {{ragged: [1, "
        "3]}} for lengths that are not all equal, {{same: [1, 2]}} for equal lengths in a range, "
        "{{between: [1, 3]}} for any mixture ({{same: [1, 2]}} when not given)."
    ),
)

PLACES_DEFAULT = Chosen("same", (1, 2))

WHOLE = Word(
    "whole",
    frozenset({"add", "subtract"}),
    Either(
        WholeNumber(0, MOST_WHOLE_DIGITS),
        ListOf(WholeNumber(0, MOST_WHOLE_DIGITS), 2, 6),
        OneField({"between": Range(0, MOST_WHOLE_DIGITS)}, short="between"),
    ),
    say(
        "Digits before the point: a number for all alike (0 writes 0.…), a list for each number in "
        "turn, or {{between: [0, 2]}} ({{between: [0, 1]}} when not given)."
    ),
)

WHOLE_DEFAULT = Chosen("between", (0, 1))

LONGER = Word(
    "longer",
    frozenset({"subtract"}),
    OneOf("first", "second", "neither"),
    say("Which number of a subtraction has more decimal places: first, second or neither."),
)


@dataclass(frozen=True, slots=True)
class _LastDigits:
    """Watches in how many columns numbers have their last digit: one, or (ragged) several."""

    ragged: bool
    needs: frozenset[Fact] = frozenset({Fact.STARTS})
    start: int = 0

    def step(self, state: int, column: Column) -> int | None:
        if not column.starts:
            return state
        if state and not self.ragged:
            return None
        return min(state + 1, 2)

    def accepts(self, state: int) -> bool:
        return state == (2 if self.ragged else 1)


@dataclass(frozen=True, slots=True)
class _Longer:
    """Watches whose last digit comes first: 1 the first number's, 2 the second's, 3 both."""

    first_to_start: int
    needs: frozenset[Fact] = frozenset({Fact.STARTS})
    start: bool = False

    def step(self, state: bool, column: Column) -> bool | None:
        if state or not column.starts:
            return bool(state)
        return True if column.starts == self.first_to_start else None

    def accepts(self, state: bool) -> bool:
        return bool(state)


def narrow_places(asked: Lengths, outline: Outline) -> Outline:
    """Lengths to the right of the point."""
    each = each_in_turn(asked, len(outline.kinds))
    outline = outline.with_kinds(
        *(replace(kind, places=places) for kind, places in zip(outline.kinds, each, strict=True))
    )
    unequal = ragged(asked)
    return outline if unequal is None else outline.watched_by(_LastDigits(unequal))


def narrow_whole(asked: Lengths, outline: Outline) -> Outline:
    """Lengths to the left of the point."""
    each = each_in_turn(asked, len(outline.kinds))
    return outline.with_kinds(
        *(replace(kind, whole=whole) for kind, whole in zip(outline.kinds, each, strict=True))
    )


def narrow_longer(asked: str, outline: Outline) -> Outline:
    """Which number of a subtraction reaches further to the right."""
    return outline.watched_by(_Longer({"first": 1, "second": 2, "neither": 3}[asked]))
