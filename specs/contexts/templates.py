"""A template puts a calculation in words: a sentence, and the quantities that may stand in it.

Each quantity says its unit, its least and greatest sensible size and how many decimal
places it may be written with, so that no pumpkin weighs 0.002 kg and no price has three
places. A template fits a question when every number is such a quantity and the answer too.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any, Final

import yaml

from specs.languages.saying import Saying, all_of, joined, say_of

KINDS: Final = ("money", "mass", "length", "capacity")
"""What a context may be about."""

POSITIONS: Final = ("first", "second", "third", "fourth", "fifth", "sixth")
"""How a template's words call its numbers; {all} is a list of them."""

UNITS: Final = "units"
"""Where a file says what a single one of a unit is called."""

NO_BREAK: Final = "\N{NO-BREAK SPACE}"

CURRENCIES: Final = ("£", "€", "$")

SENTENCE: Final = "sentence"
"""What the sentences that ship are about, as sayings."""

_ALL: Final = "{all}"
_GAP: Final = re.compile(r"\{[^{}]*\}?|\}")
"""A gap in a sentence, or a brace that belongs to none."""

_FREE_PLACES: Final = (0, 1, 2, 3, 4, 5, 6)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A sort of quantity: its unit, its sizes from ``least`` to ``greatest``, its places.

    A unit of "" is a bare count; £ stands in front of the number, other units behind it. ``one``
    is the unit of a single one, where that is another word: ``box`` of ``boxes``. Where there
    are any, ``among`` has the only sizes it may have: those of bank notes. ``ships`` says that it
    is one of those that ship, whose words and currency are those of the pages; a teacher's own stay
    as they are written.
    """

    unit: str
    least: Fraction = Fraction(0)
    greatest: Fraction = Fraction(10**9)
    places: tuple[int, ...] = _FREE_PLACES
    one: str = ""
    among: tuple[Fraction, ...] = ()
    ships: bool = field(default=False, compare=False, repr=False)

    @property
    def is_money(self) -> bool:
        """Whether it is a sum of money, which has two places wherever it has any."""
        return self.unit in CURRENCIES

    @property
    def counted(self) -> tuple[str, str] | None:
        """The patterns of an amount, for one and for any other, where its unit is a word."""
        if not self.one:
            return None
        return f"{{amount}}{NO_BREAK}{self.one}", f"{{amount}}{NO_BREAK}{self.unit}"

    def holds(self, size: Fraction, places: int) -> bool:
        """Whether a number of that size, written with so many places, is sensible."""
        if self.among and size not in self.among:
            return False
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
        return _ALL in self.says

    @property
    def gaps(self) -> tuple[str, ...]:
        """The gaps that its sentence must have, each once."""
        if self.any_number:
            return (_ALL,)
        return tuple(f"{{{word}}}" for word in POSITIONS[: len(self.quantities)])

    @property
    def holds_together(self) -> bool:
        """Whether its sentence has its gaps, each once, and no others."""
        return sorted(_GAP.findall(self.says)) == sorted(self.gaps)

    def filled(self, shown: Sequence[str]) -> Saying:
        """The sentence with the numbers in its gaps.

        One that ships is said in the language of the pages. Of the teacher's own only the "and" of
        a list is, beside the numbers.
        """
        given = [all_of(shown)] if self.any_number else shown
        if self.answer.ships:
            words = {gap.strip("{}"): text for gap, text in zip(self.gaps, given, strict=True)}
            return say_of(SENTENCE, self.says, **words)
        fill = dict(zip(self.gaps, given, strict=True))
        return joined([fill.get(part, part) for part in _parts(self.says)], between="")


def _parts(says: str) -> Iterator[str]:
    """A sentence taken apart: its words, and its gaps."""
    at = 0
    for gap in _GAP.finditer(says):
        yield from (says[at : gap.start()], gap[0])
        at = gap.end()
    yield says[at:]


@cache
def templates() -> tuple[Template, ...]:
    """The templates that ship, in the order of their file."""
    return read_templates((files("specs") / "contexts" / "allotment.yaml").read_text("utf-8"))


def read_templates(text: str) -> tuple[Template, ...]:
    """The templates in a file's text. Raises ValueError naming one that does not hold together."""
    return tuple(_templates(yaml.load(text, yaml.BaseLoader)))


def _templates(tree: Any) -> Iterator[Template]:
    single = tree.pop(UNITS, {})
    for name, entry in tree.items():
        numbers = [entry["each"]] if "each" in entry else entry["numbers"]
        found = Template(
            name,
            entry["kind"],
            entry["operation"],
            entry["says"],
            tuple(_quantity(number, single) for number in numbers),
            _quantity(entry["answer"], single),
            _quantity(entry["left over"], single) if "left over" in entry else None,
        )
        if found.kind not in KINDS or not found.holds_together:
            raise ValueError(f"the template {name!r} does not hold together")
        yield found


def _quantity(entry: dict[str, Any], single: dict[str, str]) -> Quantity:
    usual, unit = Quantity(""), entry.get("unit", "")
    return Quantity(
        unit,
        Fraction(entry.get("from", usual.least)),
        Fraction(entry.get("to", usual.greatest)),
        tuple(map(int, entry["places"])) if "places" in entry else usual.places,
        entry.get("one", single.get(unit, "")),
        tuple(map(Fraction, entry.get("among", ()))),
        ships=True,
    )
