"""A choice of shapes."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, TypeVar, overload

from specs.canonical import Plain
from specs.languages.saying import Saying, say
from specs.problems import Reading
from specs.shapes.shape import UNREAD, Notation, Shape, Unread, is_nothing, notation_of
from specs.yaml_text import Node

T = TypeVar("T")
A = TypeVar("A")
B = TypeVar("B")
C = TypeVar("C")


@dataclass(frozen=True, init=False)
class Either(Shape[T]):
    """One of several shapes, chosen by how the value looks: number, word, list or braces."""

    shapes: tuple[Shape[Any], ...]

    @overload
    def __init__(self: "Either[A | B]", one: Shape[A], two: Shape[B], /) -> None: ...

    @overload
    def __init__(
        self: "Either[A | B | C]", one: Shape[A], two: Shape[B], three: Shape[C], /
    ) -> None: ...

    def __init__(self, *shapes: Shape[Any]) -> None:
        object.__setattr__(self, "shapes", shapes)

    @property
    def notations(self) -> frozenset[Notation]:  # type: ignore[override]
        """How values of all the shapes look."""
        return frozenset().union(*(shape.notations for shape in self.shapes))

    @property
    def says(self) -> Saying:
        """The shapes, joined by "or"."""
        first, *others = (shape.says for shape in self.shapes)
        for other in others:
            first = say("{this}, or {other}", this=first, other=other)
        return first

    @property
    def words(self) -> tuple[str, ...]:
        """The words of all the shapes."""
        return tuple(word for shape in self.shapes for word in shape.words)

    def read(self, node: Node, reading: Reading) -> T | Unread:
        """The value of the shape that takes the node."""
        fitting = [shape for shape in self.shapes if shape.takes(node)]
        for shape in fitting:
            value: T | Unread = shape.read(node, reading.trial())
            if value is not UNREAD:
                return value
        if fitting and not is_nothing(node) and notation_of(node) is not Notation.WORD:
            refused: T | Unread = fitting[0].read(node, reading)
            return refused
        return self.refuse(node, reading)

    def _of(self, value: object) -> Shape[Any]:
        """The first shape that holds a value."""
        for shape in self.shapes:
            if shape.holds(value):
                return shape
        raise ValueError(f"no shape here holds {value!r}")

    def plain(self, value: T) -> Plain:
        """As the first shape that holds the value has it."""
        return self._of(value).plain(value)

    def write(self, value: T) -> str:
        """As the first shape that holds the value writes it."""
        return self._of(value).write(value)

    def parts(self, value: T) -> tuple[T, ...]:
        """As the first shape that holds the value takes it apart."""
        return self._of(value).parts(value)

    def joined(self, parts: tuple[T, ...]) -> T:
        """As the shape that took the value apart puts it together."""
        whole: T = self._of(parts[0]).joined(parts)
        return whole

    def near(self, value: T, distance: int) -> Iterator[T]:
        """As the first shape that holds the value moves its numbers."""
        return self._of(value).near(value, distance)

    def holds(self, value: object) -> bool:
        """What any of the shapes holds."""
        return any(shape.holds(value) for shape in self.shapes)

    def schema(self) -> dict[str, Any]:
        """Any of the shapes."""
        return {"anyOf": [shape.schema() for shape in self.shapes]}
