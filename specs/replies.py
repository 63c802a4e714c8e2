"""An answer that somebody gives: a number, or a quotient and what is left over."""

import re
import unicodedata
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

LONGEST: Final = 24
"""The most characters of an answer: twice what the widest question needs."""


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
_UNIT: Final = re.compile(
    r"\s*(?:kg|mg|g|km|cm|mm|m|ml|cl|l|litres?|metres?|£|€)\s*$", re.IGNORECASE
)
_GROUPED: Final = re.compile(r"(?<=[0-9]) (?=[0-9]{3}(?![0-9]))(?![0-9]+/)")
_REMAINDER: Final = re.compile(
    r"(?P<quotient>.+?)\s*(?:remainder|rem\.?|r\.?)\s*(?P<left>.+)", re.IGNORECASE
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
    a sign of money before and a unit of mass, length or capacity behind.
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
    return _UNIT.sub("", _MONEY.sub("", plain)).strip()


def _numbers(text: str) -> tuple[Fraction, ...]:
    """The sizes that a number as written may have."""
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
