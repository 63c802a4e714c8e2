"""Words, choices and lines of text."""

import re
import unicodedata
from dataclasses import dataclass, field
from typing import Any, Final

from specs.canonical import Plain
from specs.languages.saying import Saying, say
from specs.problems import Reading, listed, write
from specs.shapes.shape import UNREAD, Notation, Shape, Unread, is_nothing
from specs.spellings import NOTHING_ELSE, Also, meant
from specs.yaml_text import Node, Scalar

_YES: Final = ("true", "yes", "on")
_NO: Final = ("false", "no", "off")


@dataclass(frozen=True)
class YesNo(Shape[bool]):
    """``true`` or ``false``; ``yes``, ``no``, ``on`` and ``off`` are understood."""

    notations = frozenset({Notation.WORD})

    @property
    def says(self) -> Saying:
        """``true or false``."""
        return say("true or false")

    def read(self, node: Node, reading: Reading) -> bool | Unread:
        """The choice."""
        if isinstance(node, Scalar) and not node.quoted:
            if node.text.lower() in _YES:
                return True
            if node.text.lower() in _NO:
                return False
        return self.refuse(node, reading)

    def plain(self, value: bool) -> Plain:
        """The choice."""
        return value

    def holds(self, value: object) -> bool:
        """A bool."""
        return isinstance(value, bool)

    def schema(self) -> dict[str, Any]:
        """A boolean."""
        return {"type": "boolean"}


@dataclass(frozen=True, init=False)
class OneOf(Shape[str]):
    """One of a few words: ``OneOf("none", "some", "every")``.

    ``also`` has further spellings, folded, each with the choice that it means.
    """

    choices: tuple[str, ...]
    also: Also = field(hash=False)
    notations = frozenset({Notation.WORD})

    def __init__(self, *choices: str, also: Also = NOTHING_ELSE) -> None:
        for choice in choices:
            if not _PLAIN_WORD.fullmatch(choice) or choice.lower() in _WORDS_OF_YAML:
                raise ValueError(f"{choice!r} would not stay a word in YAML")
        object.__setattr__(self, "choices", choices)
        object.__setattr__(self, "also", also)

    @property
    def says(self) -> Saying:
        """``none, some or every``."""
        return listed(self.choices)

    @property
    def words(self) -> tuple[str, ...]:
        """The choices."""
        return self.choices

    def read(self, node: Node, reading: Reading) -> str | Unread:
        """The word."""
        word = meant(node.text, self.choices, self.also) if isinstance(node, Scalar) else None
        return word if word is not None else self.refuse(node, reading)

    def plain(self, value: str) -> Plain:
        """The word itself."""
        return value

    def holds(self, value: object) -> bool:
        """One of the choices."""
        return value in self.choices

    def schema(self) -> dict[str, Any]:
        """An enumeration."""
        return {"enum": list(self.choices)}


_PLAIN_WORD = re.compile(r"[A-Za-z][A-Za-z0-9]*([ _-][A-Za-z0-9]+)*")
_WORDS_OF_YAML: Final = {"true", "false", "null", "yes", "no", "on", "off", "y", "n"}


@dataclass(frozen=True)
class Text(Shape[str]):
    """A line of text for people, at most ``longest`` characters, spaces at the ends dropped.

    Accents typed after their letter become one character with it (Unicode's form C), as
    typefaces have them. An unquoted number counts as text. Control, formatting and unassigned
    characters are refused: no font prints them.
    """

    longest: int
    notations = frozenset({Notation.WORD, Notation.NUMBER})

    @property
    def says(self) -> Saying:
        """``a line of at most 80 characters``."""
        return say("a line of at most {count} characters", count=self.longest)

    def read(self, node: Node, reading: Reading) -> str | Unread:
        """The text."""
        if not isinstance(node, Scalar) or is_nothing(node) or not node.text.strip():
            return self.refuse(node, reading)
        text = unicodedata.normalize("NFC", node.text.strip())
        if len(text) > self.longest:
            what = say(
                "{subject} is {count} characters long", subject=reading.subject, count=len(text)
            )
            reading.problem(node.line, what, write(self.says))
            return UNREAD
        for character in text:
            if not _is_printed(character):
                what = say(
                    "{subject} holds a character that cannot be printed", subject=reading.subject
                )
                instead = say("take out {sign}", sign=f"U+{ord(character):04X}")
                reading.problem(node.line, what, instead)
                return UNREAD
        return text

    def plain(self, value: str) -> Plain:
        """The text."""
        return value

    def write(self, value: str) -> str:
        r"""The text in double quotes, with only ``"`` and ``\`` escaped."""
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'

    def holds(self, value: object) -> bool:
        """A line of printable text."""
        return (
            isinstance(value, str)
            and 0 < len(value) <= self.longest
            and value == unicodedata.normalize("NFC", value.strip())
            and all(map(_is_printed, value))
        )

    def schema(self) -> dict[str, Any]:
        """A string, or what an editor takes for a number or a yes or no."""
        return {"type": ["string", "number", "boolean"], "minLength": 1}


def _is_printed(character: str) -> bool:
    category = unicodedata.category(character)
    return not category.startswith("C") and category not in ("Zl", "Zp")
