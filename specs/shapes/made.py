"""A value made of what another shape reads."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from specs.canonical import Plain
from specs.languages.saying import Saying
from specs.problems import Reading
from specs.shapes.shape import Notation, Shape, Unread
from specs.yaml_text import Node

S = TypeVar("S")
T = TypeVar("T")


def _as_it_is(value: Any) -> Any:
    return value


@dataclass(frozen=True)
class Made(Shape[T], Generic[S, T]):
    """What ``make`` makes of a value of ``shape``; ``unmake`` gives that value again."""

    shape: Shape[S]
    make: Callable[[S], T]
    unmake: Callable[[T], S]

    @property
    def notations(self) -> frozenset[Notation]:  # type: ignore[override]
        """As the shape's values look."""
        return self.shape.notations

    @property
    def says(self) -> Saying:
        """As the shape says."""
        return self.shape.says

    @property
    def words(self) -> tuple[str, ...]:
        """The words of the shape."""
        return self.shape.words

    def read(self, node: Node, reading: Reading) -> T | Unread:
        """The value made."""
        value = self.shape.read(node, reading)
        return value if isinstance(value, Unread) else self.make(value)

    def plain(self, value: T) -> Plain:
        """As the shape has it."""
        return self.shape.plain(self.unmake(value))

    def write(self, value: T) -> str:
        """As the shape writes it."""
        return self.shape.write(self.unmake(value))

    def near(self, value: T, distance: int) -> Iterator[T]:
        """As the shape moves its numbers."""
        return map(self.make, self.shape.near(self.unmake(value), distance))

    def holds(self, value: object) -> bool:
        """What may be made."""
        try:
            return self.shape.holds(self.unmake(value))  # type: ignore[arg-type]
        except (AttributeError, TypeError, ValueError):
            return False

    def schema(self) -> dict[str, Any]:
        """As the shape's."""
        return self.shape.schema()


@dataclass(frozen=True)
class Defined(Made[T, T]):
    """A shape that schemas define once, under ``name``, and refer to elsewhere."""

    name: str = ""

    @staticmethod
    def of(name: str, shape: Shape[T]) -> "Defined[T]":
        """The shape under that name."""
        return Defined(shape, _as_it_is, _as_it_is, name)

    def schema(self) -> dict[str, Any]:
        """A reference to the definition, which is ``shape.schema()``."""
        return {"$ref": f"#/$defs/{self.name}"}
