"""A template puts a calculation in words: a sentence, and the quantities that may stand in it.

Each quantity says its unit, its least and greatest sensible size and how many decimal
places it may be written with, so that no pumpkin weighs 0.002 kg and no price has three
places. A template fits a question when every number is such a quantity and the answer too.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any, Final

import yaml

KINDS: Final = ("money", "mass", "length", "capacity")
"""What a context may be about."""

POSITIONS: Final = ("first", "second", "third", "fourth", "fifth", "sixth")
"""How a template's words call its numbers; {all} is a list of them."""

_FREE_PLACES: Final = (0, 1, 2, 3, 4, 5, 6)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A sort of quantity: its unit, its sizes from ``least`` to ``greatest``, its places.

    A unit of "" is a bare count; £ stands in front of the number, other units behind it.
    """

    unit: str
    least: Fraction = Fraction(0)
    greatest: Fraction = Fraction(10**9)
    places: tuple[int, ...] = _FREE_PLACES

    def holds(self, size: Fraction, places: int) -> bool:
        """Whether a number of that size, written with so many places, is sensible."""
        return self.least <= size <= self.greatest and places in self.places


@dataclass(frozen=True, slots=True)
class Template:
    """A sentence with gaps for the numbers of one operation.

    ``quantities`` has an entry for each number, or one alone for a list of any length.
    ``left_over`` is what a division leaves over; None where it must leave nothing.
    """

    name: str
    kind: str
    operation: str
    says: str
    quantities: tuple[Quantity, ...]
    answer: Quantity
    left_over: Quantity | None = None

    @property
    def any_number(self) -> bool:
        """Whether it takes a list of any length."""
        return "{all}" in self.says


@cache
def templates() -> tuple[Template, ...]:
    """The templates that ship, in the order of their file."""
    return read_templates((files("specs") / "contexts" / "allotment.yaml").read_text("utf-8"))


def read_templates(text: str) -> tuple[Template, ...]:
    """The templates in a file's text. Raises ValueError naming one that does not hold together."""
    return tuple(_templates(yaml.load(text, yaml.BaseLoader)))


def _templates(tree: Any) -> Iterator[Template]:
    for name, entry in tree.items():
        any_number = "each" in entry
        numbers = [entry["each"]] if any_number else entry["numbers"]
        found = Template(
            name,
            entry["kind"],
            entry["operation"],
            entry["says"],
            tuple(map(_quantity, numbers)),
            _quantity(entry["answer"]),
            _quantity(entry["left over"]) if "left over" in entry else None,
        )
        gaps = ["{all}"] if any_number else [f"{{{word}}}" for word in POSITIONS[: len(numbers)]]
        if found.kind not in KINDS or any(found.says.count(gap) != 1 for gap in gaps):
            raise ValueError(f"the template {name!r} does not hold together")
        yield found


def _quantity(entry: dict[str, Any]) -> Quantity:
    usual = Quantity("")
    return Quantity(
        entry.get("unit", ""),
        Fraction(entry.get("from", usual.least)),
        Fraction(entry.get("to", usual.greatest)),
        tuple(map(int, entry["places"])) if "places" in entry else usual.places,
    )
