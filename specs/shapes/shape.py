"""What every shape of a value can do, and how values look before they are read."""

import re
from abc import ABC, abstractmethod
from collections.abc import Iterator
from enum import Enum
from typing import Any, ClassVar, Final, Generic, TypeVar

from specs.canonical import Plain, flow
from specs.languages.saying import Saying, say
from specs.problems import LONGEST_QUOTE, Reading, did_you_mean, near_word, quoted, write
from specs.yaml_text import Mapping, Node, Scalar, Sequence

T = TypeVar("T", covariant=True)


class Unread(Enum):
    """What a shape gives back when it could not read; the problem has been reported."""

    UNREAD = "unread"


UNREAD: Final = Unread.UNREAD


class Notation(Enum):
    """How a value looks on the page, before anyone asks what it means."""

    NUMBER = "number"
    WORD = "word"
    LIST = "list"
    FIELDS = "fields"


_NUMBERS_APART = re.compile(r"[-+−]?[0-9.]{1,9}(?: +[-+−]?[0-9.]{1,9}){1,5}")
_NUMBER_LIKE = re.compile(r"[-+−]?\.?[0-9]")
_NOTHING: Final = ("", "~", "null", "Null", "NULL")


def notation_of(node: Node) -> Notation:
    """The form of a node; a number in quotes is a word."""
    match node:
        case Scalar(text, quoted=in_quotes):
            number = not in_quotes and _NUMBER_LIKE.match(text)
            return Notation.NUMBER if number else Notation.WORD
        case Sequence():
            return Notation.LIST
        case Mapping():
            return Notation.FIELDS


class Shape(ABC, Generic[T]):
    """What may stand after a word.

    Methods that take a value take one that ``holds`` holds, of the type that the shape reads; it
    is not in their signatures, so that a shape of whole numbers is one of numbers or words.
    """

    notations: ClassVar[frozenset[Notation]]

    @property
    @abstractmethod
    def says(self) -> Saying:
        """The shape in plain words, fit to follow "write": ``a whole number from 2 to 6``."""

    @property
    def words(self) -> tuple[str, ...]:
        """The words that a lone word may be, for suggestions."""
        return ()

    @abstractmethod
    def read(self, node: Node, reading: Reading) -> T | Unread:
        """The frozen value of a node, or UNREAD with every problem reported to ``reading``."""

    @abstractmethod
    def plain(self, value: Any) -> Plain:
        """What the value says, in the words of a spec and apart from the classes that hold it."""

    def write(self, value: Any) -> str:
        """The value in flow YAML, always the same text for the same value."""
        return flow(self.plain(value))

    @abstractmethod
    def holds(self, value: object) -> bool:
        """Whether ``value`` is one that this shape could have read."""

    @abstractmethod
    def schema(self) -> dict[str, Any]:
        """The shape as a fragment of JSON Schema."""

    def parts(self, value: Any) -> tuple[T, ...]:
        """The value taken apart into values that say one thing each; ``joined`` undoes it."""
        return (value,)

    def joined(self, parts: tuple[Any, ...]) -> T:
        """A value that says all that some parts of one value say."""
        last: T = parts[-1]
        return last

    def near(self, value: Any, distance: int) -> Iterator[T]:
        """Values of this shape with one number of ``value`` moved so far."""
        return iter(())

    def takes(self, node: Node) -> bool:
        """Whether a node has a form that this shape reads."""
        return notation_of(node) in self.notations

    def refuse(self, node: Node, reading: Reading) -> Unread:
        """Report that this shape cannot take the node."""
        if is_nothing(node):
            what = say("{subject} has no value", subject=reading.subject)
            reading.empty(node.line, what, write(self.says))
            return UNREAD
        near = None
        if isinstance(node, Scalar):
            near = near_word(node.text, self.words)
        what = say("{subject} cannot be {value}", subject=reading.subject, value=_shown(node))
        reading.problem(node.line, what, did_you_mean(near) if near else write(self.says))
        return UNREAD


def is_nothing(node: Node) -> bool:
    """Whether nothing is written where a value should stand."""
    return isinstance(node, Scalar) and not node.quoted and node.text in _NOTHING


def _shown(node: Node) -> str:
    match node:
        case Scalar(text, quoted=in_quotes):
            if not in_quotes:
                is_number = notation_of(node) is Notation.NUMBER and len(text) <= LONGEST_QUOTE
                return text if is_number and text.isprintable() else quoted(text)
            unlike_text = _NUMBER_LIKE.match(text) or text in ("true", "false")
            return say("{text} in quotes", text=quoted(text)) if unlike_text else quoted(text)
        case Sequence((Scalar(text, quoted=False),)) if _NUMBERS_APART.fullmatch(text):
            return say("[{text}] without a comma", text=text)
        case Sequence(items):
            return say("a list") if items else say("an empty list")
        case Mapping(entries):
            return f"{{{entries[0][0].text[:20]}: …}}" if entries else say("an empty {{}}")
