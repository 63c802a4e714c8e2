"""Units as they are written, and how they convert: ``4370 ml`` is 4.37 litres.

The metric prefixes are those of the SI (BIPM, The International System of Units); a litre is a
cubic decimetre, and a pound a hundred pence.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final

from specs.contexts import templates

COUNTED: Final = "things"
"""The dimension of what is counted: bags, pieces, trays. One such word is as good as another."""

PERCENT: Final = "%"


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: what it measures, and its size beside the other units of that."""

    name: str
    dimension: str
    size: Fraction


_MEASURES: Final = {
    "mass": {
        "mg": (Fraction(1, 1000), "milligram milligramme"),
        "g": (Fraction(1), "gm gr gram gramme"),
        "kg": (Fraction(1000), "kilo kilogram kilogramme"),
        "t": (Fraction(10**6), "tonne"),
    },
    "length": {
        "mm": (Fraction(1), "millimetre millimeter"),
        "cm": (Fraction(10), "centimetre centimeter"),
        "m": (Fraction(1000), "metre meter"),
        "km": (Fraction(10**6), "kilometre kilometer"),
    },
    "capacity": {
        "ml": (Fraction(1), "millilitre milliliter cc cm³ cm3 cm^3"),
        "cl": (Fraction(10), "centilitre centiliter"),
        "dl": (Fraction(100), "decilitre deciliter"),
        "litres": (Fraction(1000), "l ltr litre liter dm³ dm3 dm^3"),
        "m³": (Fraction(10**6), "m3 m^3"),
    },
    "area": {
        "cm²": (Fraction(1), "cm2 cm^2"),
        "m²": (Fraction(10**4), "m2 m^2"),
    },
    "money": {
        "p": (Fraction(1), "penny pence"),
        "£": (Fraction(100), "pound gbp"),
    },
    "euros": {"€": (Fraction(1), "euro eur")},
    "dollars": {"$": (Fraction(1), "dollar usd")},
    "time": {
        "seconds": (Fraction(1), "s sec second"),
        "minutes": (Fraction(60), "min minute"),
        "hours": (Fraction(3600), "h hr hour"),
    },
    "parts of a hundred": {PERCENT: (Fraction(1, 100), "percent per cent")},
}

BEFORE: Final = "£€$"
"""Signs of money, which stand before their number."""


@cache
def units() -> dict[str, Unit]:
    """Every unit by each way to write it, in small letters."""
    return dict(_units())


def _units() -> Iterator[tuple[str, Unit]]:
    for word in sorted(_counted()):
        yield word, Unit(word, COUNTED, Fraction(1))
    for dimension, of_it in _MEASURES.items():
        for name, (size, others) in of_it.items():
            unit = Unit(name, dimension, size)
            words = ("per cent", "percent") if name == PERCENT else others.split()
            for word in (name, *words):
                yield word, unit
                if word.isascii() and word.isalpha() and not word.endswith("s"):
                    yield f"{word}s", unit


def _counted() -> Iterator[str]:
    """What the shipped templates count, in the singular and the plural."""
    measures = {name for of_it in _MEASURES.values() for name in of_it}
    for template in templates():
        for quantity in (template.answer, template.left_over):
            if quantity is not None and quantity.unit and quantity.unit not in measures:
                yield quantity.unit
                yield quantity.one or quantity.unit


def unit_named(word: str) -> Unit | None:
    """The unit that is written so; None where there is none."""
    return units().get(word.casefold())
