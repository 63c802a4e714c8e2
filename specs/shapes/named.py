"""Values under names that the teacher gave, such as one for each tier."""

from dataclasses import dataclass
from typing import Any, TypeVar

from specs import yaml_text
from specs.problems import Reading
from specs.shapes.fields import Fieldset
from specs.shapes.shape import UNREAD, Notation, Shape, Unread
from specs.yaml_text import Node

T = TypeVar("T")


@dataclass(frozen=True)
class Named(Shape[Fieldset]):
    """``{support: 24, core: 18}``: names that match ``pattern``, a value of one shape for each.

    Whether there is a thing of that name is for the reader of the whole to say.
    """

    item: Shape[Any]
    names: str  # what bears the names, in a word or two
    pattern: str
    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> str:
        """``one for each, {name of a tier: 18 or 24}``."""
        return f"one for each, {{{self.names}: {self.item.says}}}"

    def read(self, node: Node, reading: Reading) -> Fieldset | Unread:
        """The values by name."""
        if not isinstance(node, yaml_text.Mapping) or not node.entries:
            return self.refuse(node, reading)
        values = {}
        for key, value_node in node.entries:
            value = self.item.read(value_node, reading.about(key.text))
            if not isinstance(value, Unread):
                values[key.text] = value
        return Fieldset(values) if len(values) == len(node.entries) else UNREAD

    def write(self, value: Fieldset) -> str:
        """``{core: 18, support: 24}``, names in alphabetical order."""
        written = (f"{name}: {self.item.write(value[name])}" for name in sorted(value))
        return f"{{{', '.join(written)}}}"

    def holds(self, value: object) -> bool:
        """A Fieldset of such values."""
        return (
            isinstance(value, Fieldset)
            and bool(value)
            and all(self.item.holds(value[name]) for name in value)
        )

    def schema(self) -> dict[str, Any]:
        """An object whose properties are named by the teacher."""
        return {
            "type": "object",
            "minProperties": 1,
            "propertyNames": {"pattern": self.pattern},
            "additionalProperties": self.item.schema(),
        }
