"""An answer that somebody gives: a number, or a quotient and what is left over."""

import re
import unicodedata
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from typing import Final

from specs.contexts import templates

LONGEST: Final = 48
"""The most characters of an answer, with its units: more than any question needs."""


@dataclass(frozen=True, slots=True)
class Reply:
    """An answer as given.

    ``value`` is its size, ``left`` a remainder written beside it (86 r 2 has 86 and 2).
    Equality is of size: 3.670 is 3.67. ``text`` is how it was written.
    """

    value: Fraction
    left: Fraction = Fraction(0)
    text: str = field(default="", compare=False)


_SPACES: Final = re.compile(r"\s+")
_MONEY: Final = re.compile(r"^[£€$]\s*")
_UNITS: Final = (
    "kg",
    "mg",
    "g",
    "km",
    "cm",
    "mm",
    "m",
    "ml",
    "cl",
    "l",
    "litre",
    "metre",
    "£",
    "€",
)
_LEFT_OVER: Final = re.compile(r"\s*(?:left over|left|over)$", re.IGNORECASE)
_GROUPED: Final = re.compile(r"(?<=[0-9]) (?=[0-9]{3}(?![0-9]))(?![0-9]+/)")
_REMAINDER: Final = re.compile(
    r"(?P<quotient>.+?)\s*(?<=[0-9\s])(?:remainder|rem\.?|r\.?|and)(?![a-z])\s*(?P<left>.+)",
    re.IGNORECASE,
)
_MIXED: Final = re.compile(
    r"(?P<sign>-?)(?:(?P<whole>[0-9]+) )?(?P<over>[0-9]+) ?/ ?(?P<under>[0-9]+)"
)
_POINTED: Final = re.compile(r"-?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)")
_THOUSANDS: Final = re.compile(r"-?[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]*)?")
_DECIMAL_COMMA: Final = re.compile(r"-?[0-9]*,[0-9]+")


def read_replies(text: str) -> tuple[Reply, ...]:
    """The ways to read an answer: none when it is no answer, two for ``1,234``.

    Takes a point or a comma, spaces or commas between thousands, ``86 r 2``, ``28 4/5``,
    a sign of money before and a unit behind, as the questions in words have them.
    """
    if len(text) > LONGEST:
        return ()
    plain = _tidied(text)
    divided = _REMAINDER.fullmatch(plain)
    if divided is None:
        return tuple(Reply(value, Fraction(0), text) for value in _numbers(plain))
    return tuple(
        Reply(quotient, left, text)
        for quotient in _numbers(divided["quotient"])
        for left in _numbers(divided["left"])
    )


def _tidied(text: str) -> str:
    """The text with one kind of space, minus sign and fraction bar, and no money or unit."""
    spread = "".join(
        f" {unicodedata.normalize('NFKC', c)}" if "⁄" in unicodedata.normalize("NFKC", c) else c
        for c in text
    )
    plain = _SPACES.sub(" ", spread.replace("⁄", "/").replace("−", "-").replace("–", "-")).strip()
    plain = plain.removeprefix("=").strip().strip("\"'").strip()
    return _LEFT_OVER.sub("", plain)


@cache
def _unit() -> re.Pattern[str]:
    """A unit at the end of a number: the metric ones, and what the templates count."""
    named = {
        quantity.unit
        for template in templates()
        for quantity in (*template.quantities, template.answer, template.left_over)
        if quantity is not None and quantity.unit
    }
    words = {form for unit in (*_UNITS, *named) for form in (unit, _singular(unit))}
    longest_first = sorted(words, key=lambda word: (-len(word), word))
    return re.compile(rf"\s*(?:{'|'.join(map(re.escape, longest_first))})$", re.IGNORECASE)


def _singular(unit: str) -> str:
    if unit.endswith("xes"):
        return unit[:-2]
    return unit[:-1] if unit.endswith("s") and len(unit) > 1 else unit


def _numbers(written: str) -> tuple[Fraction, ...]:
    """The sizes that a number as written may have."""
    text = _unit().sub("", _MONEY.sub("", written.strip())).strip()
    mixed = _MIXED.fullmatch(text)
    if mixed is not None:
        if not int(mixed["under"]):
            return ()
        size = int(mixed["whole"] or 0) + Fraction(int(mixed["over"]), int(mixed["under"]))
        return (-size if mixed["sign"] else size,)
    together = _GROUPED.sub("", text)
    if _POINTED.fullmatch(together):
        return (_decimal(together),)
    found = []
    if _DECIMAL_COMMA.fullmatch(together):
        found.append(_decimal(together.replace(",", ".")))
    if _THOUSANDS.fullmatch(together):
        found.append(_decimal(together.replace(",", "")))
    return tuple(dict.fromkeys(found))


def _decimal(text: str) -> Fraction:
    sign, digits = (-1, text[1:]) if text.startswith("-") else (1, text)
    whole, _, part = digits.partition(".")
    return sign * Fraction(int((whole or "0") + part), 10 ** len(part))
