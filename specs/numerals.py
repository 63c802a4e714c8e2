"""A number as somebody writes it, and the sizes that it may have.

``3.67``, ``3,67``, ``1 234``, ``1'234.5``, ``1.234,5``, ``28 4/5`` and ``28⅘`` have one size each.
``1,234`` may be 1234 or 1.234: what else stands there may show which, and otherwise both are kept.
"""

import re
import unicodedata
from collections.abc import Iterable
from enum import StrEnum
from fractions import Fraction
from typing import Final


class Convention(StrEnum):
    """What stands before the tenths."""

    POINT = "point"
    COMMA = "comma"


_SPACES: Final = re.compile(r"\s+")
_KEPT_ALIKE: Final = ("<wide>", "<narrow>", "<font>", "<noBreak>", "<square>", "<vertical>")
"""Signs that are others in another dress. Raised and circled digits are not: 5³ is no 53."""

_RAISED: Final = {ord(sign): str(digit) for digit, sign in enumerate("⁰¹²³⁴⁵⁶⁷⁸⁹")}
_LOWERED: Final = {ord(sign): str(digit) for digit, sign in enumerate("₀₁₂₃₄₅₆₇₈₉")}
_BUILT_FRACTION: Final = re.compile("([⁰¹²³⁴-⁹]+) ?[⁄/] ?([₀-₉]+)")

_WHOLE: Final = r"[0-9]+|[1-9][0-9]{0,2}(?:[ ',][0-9]{3})+"
_MIXED: Final = re.compile(
    rf"(?P<sign>-?)(?:(?P<whole>{_WHOLE}) )?(?P<over>[0-9]+) ?/ ?(?P<under>[0-9]+)"
)
_GROUPED_OVER: Final = re.compile(rf"(?P<sign>-?)(?P<over>{_WHOLE}) ?/ ?(?P<under>[0-9]+)")
_GAPS: Final = re.compile(
    r"(-?)([1-9][0-9]{0,2}(?:([ '])[0-9]{3})(?:\3[0-9]{3})*)((?:[.,][0-9]*)?)"
)
_POINTED: Final = re.compile(r"-?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)")
_DECIMAL_COMMA: Final = re.compile(r"-?[0-9]*,[0-9]+")
_COMMAS_BETWEEN_THOUSANDS: Final = re.compile(r"-?[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]*)?")
_POINTS_BETWEEN_THOUSANDS: Final = re.compile(
    r"-?[1-9][0-9]{0,2}(?:(?:\.[0-9]{3})+,[0-9]+|(?:\.[0-9]{3}){2,})"
)
_MAYBE_THOUSANDS: Final = re.compile(r"-?[1-9][0-9]{0,2}\.[0-9]{3}")

_SHOWS: Final = {
    Convention.COMMA: re.compile(
        r"(?<![0-9.,])(?:0?,[0-9]{3}|[0-9]*,[0-9]{1,2}|[0-9]*,[0-9]{4,}|[0-9]{4,},[0-9]{3}"
        r"|[0-9]{1,3}(?:[.' ][0-9]{3})+,[0-9]+)(?![0-9.,])"
    ),
    Convention.POINT: re.compile(
        r"(?<![0-9.,])(?:0?\.[0-9]{3}|[0-9]*\.[0-9]{1,2}|[0-9]*\.[0-9]{4,}|[0-9]{4,}\.[0-9]{3}"
        r"|[0-9]{1,3}(?:[,' ][0-9]{3})+\.[0-9]+)(?![0-9.,])"
    ),
}
"""Numbers that can be read in one way only, by what must then be their decimal sign."""


def shown_by(texts: Iterable[str]) -> Convention | None:
    """The decimal sign that some of the texts show and none denies; None where they do not say."""
    written = " ; ".join(map(tidied, texts))
    shown = [convention for convention, sign in _SHOWS.items() if sign.search(written)]
    return shown[0] if len(shown) == 1 else None


def tidied(text: str) -> str:
    """The text with one kind of space, minus sign, apostrophe and fraction bar."""
    built = _BUILT_FRACTION.sub(
        lambda found: f" {found[1].translate(_RAISED)}/{found[2].translate(_LOWERED)}", text
    )
    spread = "".join(map(_plain_sign, built))
    plain = spread.replace("⁄", "/").replace("’", "'")
    return _SPACES.sub(" ", re.sub("[−‐‑‒–]", "-", plain)).strip()


def _plain_sign(sign: str) -> str:
    """A sign as keyboards have it: ½ is 1⁄2 with a space before, a raised point a point."""
    if sign in "·‧∙":
        return "."
    if sign.isspace():
        return " "
    dress, _, _ = unicodedata.decomposition(sign).partition(" ")
    if dress == "<fraction>":
        return f" {unicodedata.normalize('NFKC', sign)}"
    return unicodedata.normalize("NFKC", sign) if dress in _KEPT_ALIKE else sign


def sizes(written: str, convention: Convention | None = None) -> tuple[Fraction, ...]:
    """The sizes that a tidied number may have, the likeliest first; none when it is none.

    Of those that ``convention`` leaves open both are given: ``1,234`` without one, and ``1.234``
    where decimals have a comma.
    """
    mixed = _mixed(written)
    if mixed:
        return mixed
    gaps = _GAPS.fullmatch(written)
    if gaps is not None:
        whole = gaps[2].replace(" ", "").replace("'", "")
        return (_decimal(f"{gaps[1]}{whole}{gaps[4].replace(',', '.')}"),)
    if _POINTED.fullmatch(written):
        either = convention is Convention.COMMA and _MAYBE_THOUSANDS.fullmatch(written)
        return (_decimal(written), *([_decimal(written.replace(".", ""))] if either else []))
    if _POINTS_BETWEEN_THOUSANDS.fullmatch(written):
        return (_decimal(written.replace(".", "").replace(",", ".")),)
    found = []
    if _DECIMAL_COMMA.fullmatch(written):
        found.append(_decimal(written.replace(",", ".")))
    if _COMMAS_BETWEEN_THOUSANDS.fullmatch(written):
        found.append(_decimal(written.replace(",", "")))
    if convention is Convention.POINT:
        found.reverse()
    return tuple(dict.fromkeys(found))


def _mixed(text: str) -> tuple[Fraction, ...]:
    """The sizes of a fraction or a mixed number: ``1 234/5`` may be 1234 fifths as well."""
    found = [
        size
        for pattern in (_MIXED, _GROUPED_OVER)
        if (parts := pattern.fullmatch(text)) and (size := _size(**parts.groupdict())) is not None
    ]
    proper = _MIXED.fullmatch(text)
    if proper is not None and proper["whole"] and int(proper["over"]) < int(proper["under"]):
        return tuple(found[:1])
    return tuple(dict.fromkeys(found))


def _size(over: str, under: str, sign: str, whole: str | None = None) -> Fraction | None:
    if not int(under):
        return None
    ones, parts = (int(re.sub("[ ',]", "", digits or "0")) for digits in (whole, over))
    size = ones + Fraction(parts, int(under))
    return -size if sign else size


def _decimal(text: str) -> Fraction:
    sign, digits = (-1, text[1:]) if text.startswith("-") else (1, text)
    whole, _, part = digits.partition(".")
    return sign * Fraction(int((whole or "0") + part), 10 ** len(part))
