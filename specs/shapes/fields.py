"""Named values in braces, and the words that may stand in them."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Final

from specs import yaml_text
from specs.problems import Reading, listed, near_word, quoted
from specs.shapes.shape import UNREAD, Notation, Shape, Unread
from specs.yaml_text import Node, Scalar


@dataclass(frozen=True, init=False, repr=False)
class Fieldset(Mapping[str, Any]):
    """Named values, frozen and hashable; equal whatever order they were written in."""

    pairs: tuple[tuple[str, Any], ...]

    def __init__(self, values: Mapping[str, Any]) -> None:
        object.__setattr__(self, "pairs", tuple(sorted(values.items(), key=lambda pair: pair[0])))

    def __getitem__(self, name: str) -> Any:
        for known, value in self.pairs:
            if known == name:
                return value
        raise KeyError(name)

    def __iter__(self) -> Iterator[str]:
        return (name for name, _ in self.pairs)

    def __len__(self) -> int:
        return len(self.pairs)

    def __repr__(self) -> str:
        return f"Fieldset({dict(self.pairs)!r})"


_LONGEST_SAID: Final = 120


@dataclass(frozen=True, init=False)
class Fields(Shape[Fieldset]):
    """Named values in braces: ``Fields({"count": Range(0, 9), "across_point": YesNo()})``.

    Any of the fields may be left out, though not all of them when ``at_least_one``.
    """

    shapes: Mapping[str, Shape[Any]] = field(hash=False)
    at_least_one: bool
    notations = frozenset({Notation.FIELDS})

    def __init__(self, shapes: Mapping[str, Shape[Any]], at_least_one: bool = True) -> None:
        object.__setattr__(self, "shapes", MappingProxyType(dict(shapes)))
        object.__setattr__(self, "at_least_one", at_least_one)

    @property
    def says(self) -> str:
        """``{count: a whole number from 0 to 9}``, or only the names where that is long."""
        whole = ", ".join(f"{name}: {shape.says}" for name, shape in self.shapes.items())
        if len(whole) <= _LONGEST_SAID:
            return f"{{{whole}}}"
        return f"{{{next(iter(self.shapes))}: …}} with any of {listed(self.shapes, 'and')}"

    def read(self, node: Node, reading: Reading) -> Fieldset | Unread:
        """The fields that are there."""
        if not isinstance(node, yaml_text.Mapping) or (self.at_least_one and not node.entries):
            return self.refuse(node, reading)
        values = {}
        for key, value_node in node.entries:
            shape = self.shapes.get(key.text)
            if shape is None:
                refuse_key(key, tuple(self.shapes), reading)
            else:
                value = shape.read(value_node, reading.about(key.text))
                if not isinstance(value, Unread):
                    values[key.text] = value
        return Fieldset(values) if len(values) == len(node.entries) else UNREAD

    def write(self, value: Fieldset) -> str:
        """``{count: [1, 2], across_point: false}``, in the order of the shape."""
        written = (
            f"{name}: {shape.write(value[name])}"
            for name, shape in self.shapes.items()
            if name in value
        )
        return f"{{{', '.join(written)}}}"

    def holds(self, value: object) -> bool:
        """A Fieldset of these fields."""
        return (
            isinstance(value, Fieldset)
            and (bool(value) or not self.at_least_one)
            and all(name in self.shapes and self.shapes[name].holds(value[name]) for name in value)
        )

    def schema(self) -> dict[str, Any]:
        """An object with no other properties."""
        return {
            "type": "object",
            "properties": {name: shape.schema() for name, shape in self.shapes.items()},
            "additionalProperties": False,
            "minProperties": int(self.at_least_one),
        }


def refuse_key(key: Scalar, known: tuple[str, ...], reading: Reading) -> None:
    """Report a word that has no meaning where it stands, with the words that have."""
    place = "here" if reading.subject == "this" else f"in {reading.subject}"
    near = near_word(key.text, known)
    choice = f"{'the word' if len(known) == 1 else 'the words'} {place}: {', '.join(known)}"
    reading.problem(
        key.line,
        f"{quoted(key.text)} is not a word that can stand {place}",
        f"did you mean {quoted(near)}? ({choice})" if near else choice,
    )
