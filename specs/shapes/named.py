"""Values under names that the teacher gave, such as one for each tier."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from specs import yaml_text
from specs.canonical import Plain
from specs.languages.saying import Saying, say
from specs.problems import Reading
from specs.shapes.shape import UNREAD, Notation, Shape, Unread
from specs.yaml_text import Node

T = TypeVar("T")


@dataclass(frozen=True)
class Named(Shape[tuple[tuple[str, T], ...]]):
    """``{support: 24, core: 18}``: names that match ``pattern``, a value of one shape for each.

    ``tidied`` spells the names of a mapping as they are kept. The value has them in
    alphabetical order. Whether there is a thing of that name is for the reader of the whole
    to say.
    """

    item: Shape[T]
    names: Saying  # what bears the names, in a word or two
    pattern: str
    tidied: Callable[[yaml_text.Mapping, Reading], yaml_text.Mapping]
    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> Saying:
        """``one for each, {name of a tier: 18 or 24}``."""
        return say("one for each, {{{names}: {value}}}", names=self.names, value=self.item.says)

    def read(self, node: Node, reading: Reading) -> tuple[tuple[str, T], ...] | Unread:
        """The values by name."""
        if not isinstance(node, yaml_text.Mapping) or not node.entries:
            return self.refuse(node, reading)
        values = {}
        for key, value_node in self.tidied(node, reading).entries:
            value = self.item.read(value_node, reading.about(key.text))
            if not isinstance(value, Unread):
                values[key.text] = value
        whole = len(values) == len(node.entries)
        return tuple((name, values[name]) for name in sorted(values)) if whole else UNREAD

    def plain(self, value: tuple[tuple[str, T], ...]) -> Plain:
        """``{core: 18, support: 24}``."""
        return {name: self.item.plain(of) for name, of in value}

    def holds(self, value: object) -> bool:
        """Names with such values."""
        return (
            isinstance(value, tuple)
            and bool(value)
            and all(isinstance(pair, tuple) and self.item.holds(pair[1]) for pair in value)
        )

    def schema(self) -> dict[str, Any]:
        """An object whose properties are named by the teacher."""
        return {
            "type": "object",
            "minProperties": 1,
            "propertyNames": {"pattern": self.pattern},
            "additionalProperties": self.item.schema(),
        }
