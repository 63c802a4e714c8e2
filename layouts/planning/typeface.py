"""The typeface's measures: how wide a text is, where a digit's middle is, what it cannot print.

The face is Rungsheet Sans (``layouts.type``): every digit is equally wide, and signs between
numbers are at the middle of a digit. Figures below are from the files' ``glyf`` and ``hmtx``
tables (2048 units to the em).
"""

import unicodedata
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Final

from generator.arithmetic.boxes import DIGIT_BOX, NUMBER_BOX
from layouts.planning.errors import UnprintableError
from layouts.planning.type_scale import MM_PER_POINT
from specs.languages.saying import say

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFontFile

FOLDER: Final = Path(__file__).parents[1] / "type"
FILES: Final = {False: "RungsheetSans-Regular.ttf", True: "RungsheetSans-Bold.ttf"}
"""The face's file by whether it is bold."""

DIGIT_HEIGHT: Final = 1490 / 2048
"""Height of ``1`` above the baseline, in ems: the height that digits and signs are centred by."""
DIGIT_WIDTH: Final = 1327 / 2048
"""Advance width of a regular digit, in ems: a bold one takes a trifle less."""
DIGIT_INK: Final = 1192 / 2048
"""The widest ink of a digit, in ems: of the bold 4, in the middle of its width."""
POINT_MIDDLE: Final = 152.5 / 2048
"""Height of the middle of the bold ``.`` above the baseline, in ems."""
BELOW_BASELINE: Final = {".": 19 / 2048, ",": 395 / 2048}
"""How far the bold decimal signs reach below the baseline, in ems."""
EMPTY_BOXES: Final = {DIGIT_BOX: 1.38, NUMBER_BOX: 3.4}
"""Boxes to write in are characters of our own, drawn by ``layouts.planning.empty_boxes``: the
advance of each, in ems."""
DESCENT: Final = 0.26
"""How far ink may go below the baseline, in ems."""


def font_path(*, bold: bool) -> Path:
    """Where the face's file is."""
    return FOLDER / FILES[bold]


@cache
def _face(bold: bool) -> "TTFontFile":
    from reportlab.pdfbase.ttfonts import TTFontFile

    return TTFontFile(str(font_path(bold=bold)))


def width(text: str, size: float, *, bold: bool = False) -> float:
    """The advance width in millimetres of a text of so many points.

    Raises UnprintableError when the typeface lacks one of its characters.
    """
    return _ems(text, bold) * size * MM_PER_POINT


@lru_cache(maxsize=20_000)
def _ems(text: str, bold: bool) -> float:
    boxes = sum(text.count(box) * advance for box, advance in EMPTY_BOXES.items())
    if boxes:
        text = "".join(character for character in text if character not in EMPTY_BOXES)
        return boxes + (_ems(text, bold) if text else 0.0)
    widths = _widths(bold)
    try:
        return sum(map(widths.__getitem__, text)) / 1000
    except KeyError:
        raise _unprintable(text) from None


def lacking(text: str) -> str:
    """The characters of a text that the typeface has no glyph for, each once."""
    there = _widths(False)
    return "".join(dict.fromkeys(c for c in text if c not in there and c not in EMPTY_BOXES))


def listed(characters: str) -> str:
    """Characters for a message, those that cannot stand alone by their number."""
    alone = (unicodedata.category(c)[0] not in "MCZ" for c in characters)
    return " ".join(
        c if plain else f"U+{ord(c):04X}" for c, plain in zip(characters, alone, strict=True)
    )


def refuse_unprintable(text: str) -> None:
    """Raise UnprintableError when the typeface lacks one of a text's characters."""
    if lacking(text):
        raise _unprintable(text)


def _unprintable(text: str) -> UnprintableError:
    return UnprintableError(
        say(
            "{text} cannot be printed: the typeface has no {signs}, only Latin, Greek and Cyrillic "
            "letters; write it otherwise",
            text=repr(text),
            signs=listed(lacking(text)),
        )
    )


@cache
def _widths(bold: bool) -> dict[str, float]:
    """The advance of every character of a face, in thousandths of an em."""
    return {chr(code): float(width) for code, width in _face(bold).charWidths.items()}


_SHORT: Final = 0.25
"""A word alone on the last line is short below this share of the line (common practice, no
source)."""


def wrap(text: str, size: float, available: float, *, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than ``available`` millimetres.

    Lines break at ordinary spaces, never at no-break spaces (which come out as ordinary
    ones); a single word wider than a line is cut, after a hyphen where it has one. A short word
    that would be the last line alone takes the one before it along, so that no line more is
    needed.
    """
    if width(text, size, bold=bold) <= available and not text.startswith(" "):
        return (text.replace("\N{NO-BREAK SPACE}", " "),)
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if width(longer, size, bold=bold) <= available:
            line = longer
            continue
        if line:
            lines.append(line)
        while width(word, size, bold=bold) > available and len(word) > 1:
            cut = _fitting(word, size, available, bold=bold)
            cut = word.rfind("-", 0, cut) + 1 or cut
            lines.append(word[:cut])
            word = word[cut:]
        line = word
    lines.append(line)
    if len(lines) > 1:
        lines[-2:] = _kept_company(lines[-2], lines[-1], size, available, bold=bold)
    return tuple(line.replace("\N{NO-BREAK SPACE}", " ") for line in lines)


def _kept_company(
    line: str, last: str, size: float, available: float, *, bold: bool
) -> tuple[str, str]:
    """The last two lines of a text, without a short word alone on the second."""
    stays, _, comes = line.rpartition(" ")
    worded = " " not in last and any(map(str.isalpha, last))
    short = worded and width(last, size, bold=bold) < _SHORT * available
    together = f"{comes} {last}"
    if not short or " " not in stays.strip() or width(together, size, bold=bold) > available:
        return line, last
    return stays.rstrip(" "), together


def _fitting(word: str, size: float, available: float, *, bold: bool) -> int:
    """How many of the word's first characters fit; at least one."""
    cut = 1
    while width(word[: cut + 1], size, bold=bold) <= available:
        cut += 1
    return cut
