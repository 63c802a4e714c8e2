"""Lists of values and sets of words."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, TypeVar

from specs.canonical import Plain
from specs.languages.saying import Saying, say
from specs.problems import Reading, quoted, write
from specs.shapes.shape import UNREAD, Notation, Shape, Unread
from specs.shapes.words import OneOf
from specs.spellings import NOTHING_ELSE, Also, meant
from specs.yaml_text import Node, Scalar, Sequence

T = TypeVar("T")


@dataclass(frozen=True)
class ListOf(Shape[tuple[T, ...]]):
    """A list of ``fewest`` to ``most`` values of one shape, order kept."""

    item: Shape[T]
    fewest: int
    most: int
    notations = frozenset({Notation.LIST})

    @property
    def says(self) -> Saying:
        """``a list of 2 to 6, each a whole number from 0 to 6``."""
        return say("a list [ ] of {size}, each {item}", size=self._size, item=self.item.says)

    @property
    def _size(self) -> str:
        if self.fewest == self.most:
            return str(self.most)
        return say("{low} to {high}", low=self.fewest, high=self.most)

    def read(self, node: Node, reading: Reading) -> tuple[T, ...] | Unread:
        """The values in the order written."""
        if not isinstance(node, Sequence):
            return self.refuse(node, reading)
        good = self._right_length(node, reading)
        values = []
        for item in node.items:
            value = self.item.read(item, reading)
            if not isinstance(value, Unread):
                values.append(value)
        return tuple(values) if good and len(values) == len(node.items) else UNREAD

    def _right_length(self, node: Sequence, reading: Reading) -> bool:
        if self.fewest <= len(node.items) <= self.most:
            return True
        what = say("{subject} is a list of {count}", subject=reading.subject, count=len(node.items))
        reading.problem(node.line, what, write(self.says))
        return False

    def plain(self, value: tuple[T, ...]) -> Plain:
        """``[1, 3, 2]``."""
        return tuple(map(self.item.plain, value))

    def near(self, value: tuple[T, ...], distance: int) -> Iterator[tuple[T, ...]]:
        """One of the items moved."""
        for at, item in enumerate(value):
            for moved in self.item.near(item, distance):
                yield (*value[:at], moved, *value[at + 1 :])

    def holds(self, value: object) -> bool:
        """A tuple of as many items."""
        return (
            isinstance(value, tuple)
            and self.fewest <= len(value) <= self.most
            and all(map(self.item.holds, value))
        )

    def schema(self) -> dict[str, Any]:
        """An array."""
        return {
            "type": "array",
            "items": self.item.schema(),
            "minItems": self.fewest,
            "maxItems": self.most,
        }


@dataclass(frozen=True, init=False)
class SetOf(Shape[tuple[str, ...]]):
    """Some of a few words, each at most once: a list in any order, or one word alone.

    The value is in the order of ``choices``, whatever order was written.
    """

    word: OneOf

    @property
    def notations(self) -> frozenset[Notation]:  # type: ignore[override]
        """A list or a word; a number where one means a choice."""
        number = any(spelling.isdigit() for spelling in self.word.also)
        return frozenset({Notation.LIST, Notation.WORD, *([Notation.NUMBER] if number else [])})

    def __init__(self, *choices: str, also: Also = NOTHING_ELSE) -> None:
        object.__setattr__(self, "word", OneOf(*choices, also=also))

    @property
    def says(self) -> Saying:
        """``one or more of [tenths, ones]``."""
        return say("one or more of [{words}]", words=", ".join(self.word.choices))

    @property
    def words(self) -> tuple[str, ...]:
        """The choices."""
        return self.word.choices

    def read(self, node: Node, reading: Reading) -> tuple[str, ...] | Unread:
        """The words in the order of the choices."""
        if isinstance(node, Scalar) and (alone := meant(node.text, self.words, self.word.also)):
            return (alone,)
        if not isinstance(node, Sequence) or not node.items:
            return self.refuse(node, reading)
        found: set[str] = set()
        good = True
        for item in node.items:
            word = self.word.read(item, reading)
            if isinstance(word, Unread):
                good = False
            elif word in found:
                what = say(
                    "{subject} names {word} twice", subject=reading.subject, word=quoted(word)
                )
                reading.problem(item.line, what, say("name it once"))
                good = False
            else:
                found.add(word)
        return tuple(word for word in self.words if word in found) if good else UNREAD

    def plain(self, value: tuple[str, ...]) -> Plain:
        """``[ones, tenths]``."""
        return value

    def holds(self, value: object) -> bool:
        """Some of the choices, in their order."""
        return (
            isinstance(value, tuple)
            and bool(value)
            and value == tuple(word for word in self.words if word in value)
        )

    def schema(self) -> dict[str, Any]:
        """A word or an array of different words."""
        word = self.word.schema()
        return {
            "anyOf": [word, {"type": "array", "items": word, "minItems": 1, "uniqueItems": True}]
        }
