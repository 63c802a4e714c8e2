"""Whole numbers, exact decimals, and pairs of them."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, TypeVar

from specs.canonical import Plain
from specs.languages.saying import Saying, say, several
from specs.problems import Reading, listed, write
from specs.shapes.shape import UNREAD, Notation, Shape, Unread
from specs.yaml_text import Node, Scalar, Sequence

_WHOLE = re.compile(r"-?(0|[1-9][0-9]{0,17})")
_FROM_TO = re.compile(r"([0-9.]+) ?(?:to|-|–|\.\.\.?) ?([0-9.]+)")
_DECIMAL = re.compile(r"(-?(?:0|[1-9][0-9]{0,17}))(?:\.([0-9]{1,18}))?")


@dataclass(frozen=True)
class WholeNumber(Shape[int]):
    """A whole number from ``low`` to ``high``, both included."""

    low: int
    high: int
    notations = frozenset({Notation.NUMBER})

    @property
    def says(self) -> Saying:
        """``a whole number from 2 to 6``."""
        return say("a whole number from {low} to {high}", low=self.low, high=self.high)

    def read(self, node: Node, reading: Reading) -> int | Unread:
        """The number."""
        if self.takes(node) and isinstance(node, Scalar) and _WHOLE.fullmatch(node.text):
            value = int(node.text)
            if self.low <= value <= self.high:
                return value
        return self.refuse(node, reading)

    def plain(self, value: int) -> Plain:
        """The number."""
        return value

    def near(self, value: int, distance: int) -> Iterator[int]:
        """So many fewer and so many more."""
        return filter(self.holds, (value - distance, value + distance))

    def holds(self, value: object) -> bool:
        """An int in the range."""
        return type(value) is int and self.low <= value <= self.high

    def schema(self) -> dict[str, Any]:
        """An integer with its bounds."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True)
class DecimalNumber(Shape[Fraction]):
    """An exact decimal from ``low`` to ``high`` with at most ``places`` decimal places."""

    low: int | Fraction
    high: int | Fraction
    places: int = 6
    notations = frozenset({Notation.NUMBER})

    @property
    def says(self) -> Saying:
        """``a number from 0 to 10 with at most 3 decimal places``."""
        low, high = self.write(Fraction(self.low)), self.write(Fraction(self.high))
        return several(
            "a number from {low} to {high} with at most {count} decimal place",
            "a number from {low} to {high} with at most {count} decimal places",
            self.places,
            low=low,
            high=high,
        )

    def read(self, node: Node, reading: Reading) -> Fraction | Unread:
        """The number, exact."""
        if self.takes(node) and isinstance(node, Scalar):
            written = _DECIMAL.fullmatch(node.text)
            if written and len((written[2] or "").rstrip("0")) <= self.places:
                value = Fraction(node.text)
                if self.low <= value <= self.high:
                    return value
        return self.refuse(node, reading)

    def plain(self, value: Fraction) -> Plain:
        """The number, exact; written 0.5 and not 0.50."""
        return value

    def holds(self, value: object) -> bool:
        """A Fraction in the range."""
        return isinstance(value, Fraction) and self.low <= value <= self.high

    def schema(self) -> dict[str, Any]:
        """A number with its bounds."""
        return {"type": "number", "minimum": _json(self.low), "maximum": _json(self.high)}


@dataclass(frozen=True)
class WrittenNumber(Shape[str]):
    """A number above nought as it is written, noughts at its end too: 2.5 is not 2.50.

    It has at most so many digits before the point (``whole``) and after it (``places``).
    """

    whole: int
    places: int
    notations = frozenset({Notation.NUMBER})

    @property
    def says(self) -> Saying:
        """``a number as it is printed, such as 3.46``."""
        return say("a number above nought as it is printed, such as 3.46")

    def takes(self, node: Node) -> bool:
        """Whether a node is a number, in quotes or not."""
        return isinstance(node, Scalar) and bool(_DECIMAL.fullmatch(node.text))

    def read(self, node: Node, reading: Reading) -> str | Unread:
        """The number as it is written."""
        if isinstance(node, Scalar) and self.holds(node.text):
            return node.text
        return self.refuse(node, reading)

    def plain(self, value: str) -> Plain:
        """The number as it is written."""
        return value

    def holds(self, value: object) -> bool:
        """Such a text."""
        written = _DECIMAL.fullmatch(value) if isinstance(value, str) else None
        return (
            written is not None
            and len(written[1]) <= self.whole
            and len(written[2] or "") <= self.places
            and Fraction(written[0]) > 0
        )

    def schema(self) -> dict[str, Any]:
        """A number, or one in quotes."""
        pattern = f"^(0|[1-9][0-9]{{0,{self.whole - 1}}})([.][0-9]{{1,{self.places}}})?$"
        number = {"type": "number", "exclusiveMinimum": 0}
        return {"anyOf": [number, {"type": "string", "pattern": pattern}]}


def _json(bound: int | Fraction) -> int | float:
    # JSON has no other way to write a bound that is not whole.
    return int(bound) if Fraction(bound).denominator == 1 else float(bound)


@dataclass(frozen=True, init=False)
class OneNumberOf(Shape[int]):
    """One of a few whole numbers: ``OneNumberOf(5, 7, 10)``."""

    choices: tuple[int, ...]
    notations = frozenset({Notation.NUMBER})

    def __init__(self, *choices: int) -> None:
        object.__setattr__(self, "choices", choices)

    @property
    def says(self) -> Saying:
        """``5, 7 or 10``."""
        return listed(map(str, self.choices))

    def read(self, node: Node, reading: Reading) -> int | Unread:
        """The number."""
        if self.takes(node) and isinstance(node, Scalar) and node.text in map(str, self.choices):
            return int(node.text)
        return self.refuse(node, reading)

    def plain(self, value: int) -> Plain:
        """The number."""
        return value

    def holds(self, value: object) -> bool:
        """One of the choices."""
        return type(value) is int and value in self.choices

    def schema(self) -> dict[str, Any]:
        """An enumeration."""
        return {"enum": list(self.choices)}


P = TypeVar("P", int, Fraction)


@dataclass(frozen=True)
class _Pair(Shape[tuple[P, P]]):
    """``[low, high]`` with low ≤ high; a lone number n means [n, n], ``2 to 9`` [2, 9]."""

    end: Shape[P]
    notations = frozenset({Notation.NUMBER, Notation.LIST})

    @property
    def says(self) -> Saying:
        """``a whole number from 0 to 9 or a pair [lowest, highest]``."""
        return say("{number} or a pair of them [lowest, highest]", number=self.end.says)

    def read(self, node: Node, reading: Reading) -> tuple[P, P] | Unread:
        """The pair."""
        if isinstance(node, Scalar) and (written := _FROM_TO.fullmatch(node.text)):
            pair = tuple(replace(node, text=end) for end in written.groups())
            node = Sequence(pair, node.line)
        if isinstance(node, Scalar) and self.takes(node):
            number = self.end.read(node, reading)
            return UNREAD if isinstance(number, Unread) else (number, number)
        if not isinstance(node, Sequence) or len(node.items) != 2:
            return self.refuse(node, reading)
        low, high = (self.end.read(item, reading) for item in node.items)
        if isinstance(low, Unread) or isinstance(high, Unread):
            return UNREAD
        if low > high:
            ends = f"[{self.end.write(low)}, {self.end.write(high)}]"
            turned = f"[{self.end.write(high)}, {self.end.write(low)}]"
            what = say(
                "{subject} cannot be {ends}: the lowest stands first",
                subject=reading.subject,
                ends=ends,
            )
            reading.problem(node.line, what, write(turned))
            return UNREAD
        return low, high

    def plain(self, value: tuple[P, P]) -> Plain:
        """``[1, 3]``, or ``2`` for [2, 2]."""
        low, high = value
        return low if low == high else (low, high)

    def holds(self, value: object) -> bool:
        """A pair in order."""
        return (
            isinstance(value, tuple)
            and len(value) == 2
            and all(map(self.end.holds, value))
            and value[0] <= value[1]
        )

    def schema(self) -> dict[str, Any]:
        """A number or a list of two."""
        number = self.end.schema()
        pair = {"type": "array", "items": number, "minItems": 2, "maxItems": 2}
        return {"anyOf": [number, pair]}


class Range(_Pair[int]):
    """``[low, high]``, whole numbers in order; a lone number n means [n, n]."""

    def __init__(self, low: int, high: int) -> None:
        super().__init__(WholeNumber(low, high))

    def near(self, value: tuple[int, int], distance: int) -> Iterator[tuple[int, int]]:
        """Both ends moved where they are one number, an end moved outwards where they are not."""
        low, high = value
        if low == high:
            moved = ((low - distance,) * 2, (high + distance,) * 2)
        else:
            moved = ((low - distance, high), (low, high + distance))
        return filter(self.holds, moved)


class DecimalRange(_Pair[Fraction]):
    """``[low, high]``, exact decimals in order; a lone number n means [n, n]."""

    def __init__(self, low: int | Fraction, high: int | Fraction, places: int = 6) -> None:
        super().__init__(DecimalNumber(low, high, places))
