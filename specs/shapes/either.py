"""A choice of shapes."""

from dataclasses import dataclass
from typing import Any

from specs.problems import Reading
from specs.shapes.shape import UNREAD, Notation, Shape, Unread, is_nothing, notation_of
from specs.yaml_text import Node


@dataclass(frozen=True, init=False)
class Either(Shape[Any]):
    """One of several shapes, chosen by how the value looks: number, word, list or braces."""

    shapes: tuple[Shape[Any], ...]

    def __init__(self, *shapes: Shape[Any]) -> None:
        object.__setattr__(self, "shapes", shapes)

    @property
    def notations(self) -> frozenset[Notation]:  # type: ignore[override]
        """How values of all the shapes look."""
        return frozenset().union(*(shape.notations for shape in self.shapes))

    @property
    def says(self) -> str:
        """The shapes, joined by "or"."""
        return ", or ".join(shape.says for shape in self.shapes)

    @property
    def words(self) -> tuple[str, ...]:
        """The words of all the shapes."""
        return tuple(word for shape in self.shapes for word in shape.words)

    def read(self, node: Node, reading: Reading) -> Any | Unread:
        """The value of the shape that takes the node."""
        fitting = [shape for shape in self.shapes if shape.takes(node)]
        if len(fitting) == 1 and not is_nothing(node) and notation_of(node) is not Notation.WORD:
            return fitting[0].read(node, reading)
        for shape in fitting:
            value = shape.read(node, reading.trial())
            if value is not UNREAD:
                return value
        return self.refuse(node, reading)

    def write(self, value: Any) -> str:
        """As the first shape that holds the value writes it."""
        for shape in self.shapes:
            if shape.holds(value):
                return shape.write(value)
        raise ValueError(f"no shape here holds {value!r}")

    def holds(self, value: object) -> bool:
        """What any of the shapes holds."""
        return any(shape.holds(value) for shape in self.shapes)

    def schema(self) -> dict[str, Any]:
        """Any of the shapes."""
        return {"anyOf": [shape.schema() for shape in self.shapes]}
