"""Words in braces with a value each, and the frozen values that they make."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any, Final, Generic, TypeVar

from specs import yaml_text
from specs.canonical import Plain
from specs.languages.saying import NOTHING, Saying, joined, say, several
from specs.problems import THIS, Reading, listed, near_word, quoted
from specs.shapes.shape import UNREAD, Notation, Shape, Unread
from specs.spellings import FIELDS, meant, respelt
from specs.yaml_text import Node, Scalar

T = TypeVar("T")
V = TypeVar("V")

_LONGEST_SAID: Final = 120


@dataclass(frozen=True)
class Field:
    """A word in braces: the shape of its value and, where people ask, what it means.

    ``attribute`` is what the made value calls it, where that is not the word itself.
    """

    shape: Shape[Any]
    says: Saying = NOTHING
    attribute: str = ""


@dataclass(frozen=True, init=False)
class Fields(Shape[V]):
    """Words in braces, any of which may be left out, though not all.

    ``Fields(Carries, {"count": Range(0, 9), "in": Field(COLUMNS, attribute="required")})``
    makes a ``Carries`` of the values. ``makes`` has a usual value for each attribute; one
    that has it counts as left out. ``short`` is the word that a value without braces is for.
    """

    makes: Callable[..., V]
    fields: Mapping[str, Field] = field(hash=False)
    required: tuple[str, ...]
    short: str

    def __init__(
        self,
        makes: Callable[..., V],
        fields: Mapping[str, Shape[Any] | Field],
        required: tuple[str, ...] = (),
        short: str = "",
    ) -> None:
        known = {word: of if isinstance(of, Field) else Field(of) for word, of in fields.items()}
        named = {
            word: of if of.attribute else replace(of, attribute=word) for word, of in known.items()
        }
        object.__setattr__(self, "makes", makes)
        object.__setattr__(self, "fields", MappingProxyType(named))
        object.__setattr__(self, "required", required)
        object.__setattr__(self, "short", short)

    @property
    def notations(self) -> frozenset[Notation]:  # type: ignore[override]
        """Braces; or a value as that of the word in short."""
        return _with_short(self.shapes, self.short)

    @property
    def shapes(self) -> dict[str, Shape[Any]]:
        """The shape of each word's value."""
        return {word: of.shape for word, of in self.fields.items()}

    @property
    def says(self) -> Saying:
        """``{count: a whole number from 0 to 9}``, or only the words where that is long."""
        return _said(self.shapes)

    def read(self, node: Node, reading: Reading) -> V | Unread:
        """The value that the words make."""
        node = _in_full(node, self.shapes, self.short)
        if not isinstance(node, yaml_text.Mapping) or not node.entries:
            return self.refuse(node, reading)
        given = self.read_each(node, reading)
        whole = len(given) == len(node.entries) and given.keys() >= set(self.required)
        return self.made(given) if whole else UNREAD

    def read_each(
        self, node: yaml_text.Mapping, reading: Reading, *, required: bool = True
    ) -> dict[str, Any]:
        """The values of the words that could be read; what is wrong is reported.

        With ``required`` so are words that must be there and are not.
        """
        given = {}
        for key, value_node in respelt(node, self.fields, FIELDS, reading).entries:
            known = self.fields.get(key.text)
            if known is None:
                refuse_key(key, tuple(self.fields), reading)
            else:
                value = known.shape.read(value_node, reading.about(key.text, key.line))
                if not isinstance(value, Unread):
                    given[key.text] = value
        written = {meant(key.text, self.fields, FIELDS) for key, _ in node.entries}
        for word in self.required if required else ():
            if word not in written:
                what = say("{subject} has no {word}", subject=reading.subject, word=quoted(word))
                instead = say(
                    "below {word} write {value}",
                    word=quoted(f"{word}:"),
                    value=self.fields[word].shape.says,
                )
                reading.missed(word, reading.line or node.line, what, instead)
        return given

    def given(self, value: V) -> dict[str, Any]:
        """The words that a value does not leave out, in the order of the shape."""
        usual = self.makes()
        return {
            word: getattr(value, of.attribute)
            for word, of in self.fields.items()
            if getattr(value, of.attribute) != getattr(usual, of.attribute)
        }

    def plain(self, value: V) -> Plain:
        """``{count: [1, 2], across_point: false}``, in the order of the shape."""
        return {
            word: self.fields[word].shape.plain(inner) for word, inner in self.given(value).items()
        }

    def write(self, value: V) -> str:
        """The same as text, each value as its shape writes it."""
        written = (
            f"{word}: {self.fields[word].shape.write(inner)}"
            for word, inner in self.given(value).items()
        )
        return f"{{{', '.join(written)}}}"

    def parts(self, value: V) -> tuple[V, ...]:
        """A value for each word alone."""
        return tuple(self.made({word: inner}) for word, inner in self.given(value).items())

    def joined(self, parts: tuple[V, ...]) -> V:
        """The words of all the parts together."""
        return self.made({word: of for part in parts for word, of in self.given(part).items()})

    def near(self, value: V, distance: int) -> Iterator[V]:
        """One of the words moved."""
        given = self.given(value)
        for word, inner in given.items():
            for moved in self.fields[word].shape.near(inner, distance):
                yield self.made(given | {word: moved})

    def made(self, given: Mapping[str, Any]) -> V:
        """The value of some words."""
        return self.makes(**{self.fields[word].attribute: of for word, of in given.items()})

    def holds(self, value: object) -> bool:
        """A value of the class that is made, each word's as its shape has it."""
        if not isinstance(value, type(self.makes())):
            return False
        return all(self.fields[word].shape.holds(of) for word, of in self.given(value).items())

    def schema(self) -> dict[str, Any]:
        """An object with no other properties, each word with what it means."""
        least = {"required": list(self.required)} if self.required else {"minProperties": 1}
        return {
            "type": "object",
            "properties": {
                word: of.shape.schema() | self._said_of(of) for word, of in self.fields.items()
            },
            "additionalProperties": False,
            **least,
        }

    def _said_of(self, known: Field) -> dict[str, Any]:
        """What a word means, and what it is when left out."""
        usual = getattr(self.makes(), known.attribute)
        said = {"description": known.says} if known.says else {}
        default = {"default": usual} if known.shape.holds(usual) and _is_json(usual) else {}
        return said | default


def _is_json(value: object) -> bool:
    return isinstance(value, bool | int | str)


@dataclass(frozen=True)
class Chosen(Generic[T]):
    """One word of a few, with its value."""

    word: str
    value: T


@dataclass(frozen=True, init=False)
class OneField(Shape[Chosen[T]]):
    """Exactly one of a few words in braces: ``OneField({"same": RANGE, "between": RANGE})``.

    ``short`` is the word that a value without braces is for.
    """

    shapes: Mapping[str, Shape[T]] = field(hash=False)
    short: str

    def __init__(self, shapes: Mapping[str, Shape[T]], short: str = "") -> None:
        object.__setattr__(self, "shapes", MappingProxyType(dict(shapes)))
        object.__setattr__(self, "short", short)

    @property
    def notations(self) -> frozenset[Notation]:  # type: ignore[override]
        """Braces; or a value as that of the word in short."""
        return _with_short(self.shapes, self.short)

    @property
    def says(self) -> Saying:
        """``{digits: a whole number from 1 to 8}``, or only the words where that is long."""
        return _said(self.shapes)

    def read(self, node: Node, reading: Reading) -> Chosen[T] | Unread:
        """The word and its value."""
        node = _in_full(node, self.shapes, self.short)
        if not isinstance(node, yaml_text.Mapping) or not node.entries:
            return self.refuse(node, reading)
        found = []
        for key, value_node in respelt(node, self.shapes, FIELDS, reading).entries:
            shape = self.shapes.get(key.text)
            if shape is None:
                refuse_key(key, tuple(self.shapes), reading)
            else:
                value = shape.read(value_node, reading.about(key.text))
                if not isinstance(value, Unread):
                    found.append(Chosen(key.text, value))
        if len(found) < len(node.entries):
            return UNREAD
        if len(found) > 1:
            words = [chosen.word for chosen in found]
            what = say(
                "{subject} cannot be {words} at once",
                subject=reading.subject,
                words=listed(words, "and"),
            )
            one = self.write(found[0])
            instead = say("keep one of them, for instance {one}", one=one)
            reading.problem(node.line, what, instead)
            return UNREAD
        return found[0]

    def plain(self, value: Chosen[T]) -> Plain:
        """``{same: [1, 2]}``."""
        return {value.word: self.shapes[value.word].plain(value.value)}

    def near(self, value: Chosen[T], distance: int) -> Iterator[Chosen[T]]:
        """The same word, its value moved."""
        for moved in self.shapes[value.word].near(value.value, distance):
            yield Chosen(value.word, moved)

    def holds(self, value: object) -> bool:
        """One of the words, with such a value."""
        return (
            isinstance(value, Chosen)
            and value.word in self.shapes
            and self.shapes[value.word].holds(value.value)
        )

    def schema(self) -> dict[str, Any]:
        """An object with one of the properties."""
        return {
            "type": "object",
            "properties": {word: shape.schema() for word, shape in self.shapes.items()},
            "additionalProperties": False,
            "minProperties": 1,
            "maxProperties": 1,
        }


def _said(shapes: Mapping[str, Shape[Any]]) -> Saying:
    each = [say("{word}: {value}", word=word, value=of.says) for word, of in shapes.items()]
    whole = joined(each, ", ")
    if len(whole) <= _LONGEST_SAID:
        return joined(("{", whole, "}"), "")
    first = next(iter(shapes))
    return say("{{{word}: …}} with any of {words}", word=first, words=listed(shapes, "and"))


def _with_short(shapes: Mapping[str, Shape[Any]], short: str) -> frozenset[Notation]:
    own = frozenset({Notation.FIELDS})
    return own | (shapes[short].notations if short else frozenset())


def _in_full(node: Node, shapes: Mapping[str, Shape[Any]], short: str) -> Node:
    """A value without braces as ``{short: value}``."""
    if isinstance(node, yaml_text.Mapping) or not short or not shapes[short].takes(node):
        return node
    return yaml_text.Mapping(((Scalar(short, node.line), node),), node.line)


def refuse_key(key: Scalar, known: tuple[str, ...], reading: Reading) -> None:
    """Report a word that has no meaning where it stands, with the words that have."""
    place = say("here") if reading.subject == THIS else say("in {subject}", subject=reading.subject)
    choice = several(
        "the word {place}: {words}",
        "the words {place}: {words}",
        len(known),
        place=place,
        words=", ".join(known),
    )
    near = near_word(key.text, known)
    reading.problem(
        key.line,
        say("{word} is not a word that can stand {place}", word=quoted(key.text), place=place),
        say("did you mean {word}? ({choice})", word=quoted(near), choice=choice)
        if near
        else choice,
    )
