"""An answer that somebody gives: a number, a quotient and what is left over, a sign, an order."""

import re
import unicodedata
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from itertools import product
from typing import Final

from specs.contexts import templates

LONGEST: Final = 48
"""The most characters of an answer, with its units: more than any question needs."""

LONGEST_ORDER: Final = 160
MOST_IN_ORDER: Final = 12

NUMBER: Final = "number"
SIGN: Final = "sign"
ORDER: Final = "order"
"""What an answer is: a number, a sign between two numbers, or numbers in order."""


@dataclass(frozen=True, slots=True)
class Reply:
    """An answer as given.

    ``value`` is its size, ``left`` a remainder written beside it (86 r 2 has 86 and 2).
    Equality is of size: 3.670 is 3.67. ``text`` is how it was written. Where the answer is
    no number, ``sign`` is "<", ">" or "=", or ``order`` has the sizes of numbers, smallest first
    as whoever answers has them.
    """

    value: Fraction = Fraction(0)
    left: Fraction = Fraction(0)
    text: str = field(default="", compare=False)
    sign: str = ""
    order: tuple[Fraction, ...] = ()


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
_AND_A_PART: Final = re.compile(r"(?<=[0-9]) ?(?:and|\+) ?(?=[0-9]+ ?/ ?[0-9]+$)", re.IGNORECASE)
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


_SIGNS: Final = {
    "<": ("<", "less", "less than", "is less than", "smaller", "smaller than", "is smaller than"),
    ">": (
        *(">", "more", "more than", "is more than", "larger", "larger than", "is larger than"),
        *("greater", "greater than", "is greater than", "bigger", "bigger than"),
    ),
    "=": ("=", "equal", "equals", "equal to", "is equal to", "same", "the same"),
}
_SIGN_OF: Final = {word: sign for sign, words in _SIGNS.items() for word in words}
_BETWEEN: Final = re.compile(r" ?[;<>] ?")
_WHOLE_LIST: Final = re.compile(r"[0-9]+(?:,[0-9]+){2,}")


def read_sign(text: str) -> tuple[Reply, ...]:
    """The sign between two numbers: ``<``, or ``smaller``, which a spreadsheet leaves alone."""
    word = _SPACES.sub(" ", unicodedata.normalize("NFKC", text)).strip().strip("\"'").casefold()
    sign = _SIGN_OF.get(word)
    return (Reply(text=text, sign=sign),) if sign else ()


def read_order(text: str) -> tuple[Reply, ...]:
    """The ways to read numbers in order, smallest first.

    Between them stand semicolons, spaces, commas with a space, ``<``, or ``>`` from the largest
    down.
    """
    if len(text) > LONGEST_ORDER:
        return ()
    plain = _tidied(text)
    if "<" in plain and ">" in plain:
        return ()
    parts = _parts(plain)
    if not 2 <= len(parts) <= MOST_IN_ORDER:
        return ()
    if ">" in plain:
        parts.reverse()
    sizes = [_numbers(part) for part in parts]
    return tuple(Reply(text=text, order=order) for order in product(*sizes))[:MOST_IN_ORDER]


def _parts(plain: str) -> list[str]:
    """The numbers of an order, taken apart at what stands between them."""
    if _BETWEEN.search(plain):
        return _BETWEEN.split(plain)
    if ", " in plain:
        return plain.split(", ")
    if " " in plain:
        return plain.split(" ")
    if "." in plain or _WHOLE_LIST.fullmatch(plain):
        return plain.split(",")
    return []


def read_answer(text: str, kind: str = NUMBER) -> tuple[Reply, ...]:
    """The ways to read an answer of a kind: none when it is no such answer."""
    return {NUMBER: read_replies, SIGN: read_sign, ORDER: read_order}[kind](text)


def read_replies(text: str) -> tuple[Reply, ...]:
    """The ways to read an answer that is a number: none when it is no answer, two for ``1,234``.

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
    spread = "".join(map(_plain_sign, text))
    plain = _SPACES.sub(" ", spread.replace("⁄", "/").replace("−", "-").replace("–", "-")).strip()
    plain = plain.removeprefix("=").strip().strip("\"'").strip()
    if plain.endswith(".") and plain.count(".") > 1:  # the end of a sentence
        plain = plain[:-1]
    return _LEFT_OVER.sub("", _AND_A_PART.sub(" ", plain))


def _plain_sign(sign: str) -> str:
    """A sign as keyboards have it: ½ is 1⁄2 with a space before, a raised point a point."""
    plain = unicodedata.normalize("NFKC", sign)
    if "⁄" in plain:
        return f" {plain}"
    if sign in "·‧∙":
        return "."
    return plain if plain.isascii() and plain.isprintable() else sign


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
