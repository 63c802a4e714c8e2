"""Makes the two files of the typeface from Inter's: the letters and signs kept, the digits' forms.

    python -m layouts.type.subset            # writes them beside this module
    python -m layouts.type.subset FOLDER     # or into another folder

Needs the extra ``dev`` for the package that carries Inter's variable font. The source is known
by its digest, the maker by its version, and neither clock nor machine is asked, so the same
bytes come out everywhere.

Inter's digits come in several forms, chosen by OpenType features, which ReportLab does not
apply: what a page shows is therefore made the plain form here. Digits are the tabular ones,
all equally wide; 4 is open (cv02), 6 and 9 have straight, open tails (cv03, cv04), so that
neither is taken for 8 or 0; 1 is the plain stroke with its flag (the tabular one has a foot),
in the middle of a digit's width; l has its tail (cv05), so that ``l)`` is not ``1)``; signs
between numbers are raised to the middle of a digit (case). A bold space is as wide as a
regular one: Inter's own crowds the signs of a bold question.
"""

import hashlib
import sys
from collections.abc import Iterator, Sequence
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path
from typing import Any, Final

SOURCE: Final = "fontpkg_inter", "files/Inter[opsz,wght].ttf"
"""The package that carries Inter 4.001's variable font, and the file in it."""
SOURCE_DIGEST: Final = "29160a80ff49ddcab2c97711247e08b1fab27a484a329ce8b813d820dc559031"
"""SHA-256 of the file."""

MAKER: Final = "4.68.0"
"""The version of fontTools that gives these very bytes: others round a few places otherwise."""

FAMILY: Final = "Rungsheet Sans"
STYLES: Final = {"Regular": 450, "Bold": 700}
"""The weights by style, on Inter's axis of 100 to 900. Its own regular one is 400: strokes a
little stronger come through a photocopier better."""
SPACE: Final = 576
"""The width of a word space in both weights, of 2048 units to the em: Inter's regular one."""
TEXT_SIZE: Final = 14.0
"""The optical size: the drawing for text, wider and more open than that for display."""

FORMS: Final = {
    "0123578": ".tf",
    "469": ".tf.ss01",
    "+−×÷=≠≈<>≤≥±": ".case",
    "lĺļľŀłƚḷḹḻḽ": ".ss02",
}
"""What the source adds to a glyph's name for the form that these characters have here."""
PLAIN_ONE: Final = "one"
"""The glyph whose outline the 1 has, in the width of the other digits."""

ALPHABETS: Final = (
    range(0x0020, 0x007F),  # Basic Latin
    range(0x00A0, 0x0180),  # Latin-1 Supplement, Latin Extended-A
    range(0x0180, 0x0250),  # Latin Extended-B: Romanian, pinyin, West African
    (0x0259, 0x02BB, 0x02BC, 0x02BE, 0x02BF),  # ə and letters that look like apostrophes
    range(0x0370, 0x0400),  # Greek, its accents one by one (monotonic)
    range(0x0400, 0x0530),  # Cyrillic and its supplement
    range(0x1E00, 0x1F00),  # Latin Extended Additional: Vietnamese, Yoruba, Welsh
)
OTHER_SIGNS: Final = (
    range(0x2002, 0x200B),  # spaces of all widths
    range(0x2010, 0x2016),  # hyphens and dashes
    range(0x2018, 0x2023),  # quotation marks, daggers, bullet
    (0x2026, 0x202F, 0x2030, 0x2032, 0x2033, 0x2039, 0x203A, 0x2044),  # … ‰ ′ ″ ‹ › ⁄
    range(0x2070, 0x2090),  # powers and indices
    range(0x20A0, 0x20C0),  # money
    (0x2113, 0x2116, 0x2122),  # ℓ № ™
    range(0x2150, 0x215F),  # fractions
    range(0x2190, 0x2196),  # arrows
    (0x2212, 0x221A, 0x221E, 0x2248, 0x2260, 0x2264, 0x2265),  # − √ ∞ ≈ ≠ ≤ ≥
    (0x25A0, 0x25A1, 0x25B2, 0x25B3, 0x25CB, 0x25CF, 0x2605, 0x2606),  # ■ □ ▲ △ ○ ● ★ ☆
    (0x2713, 0x2717),  # ✓ ✗
)

_LEGAL_NAMES: Final = (0, 7, 13, 14)
"""Copyright, trademark, licence and where it is: kept as they are (OpenType, ``name``)."""


def source() -> Path:
    """Where Inter's variable font is. Raises FileNotFoundError when what it takes is missing."""
    package, name = SOURCE
    found = find_spec(package)
    if found is None or found.origin is None:
        raise FileNotFoundError(f"{package} is not installed: pip install '.[dev]'")
    return Path(found.origin).parent / name


def files(original: bytes) -> Iterator[tuple[str, bytes]]:
    """The typeface's files by name, made from Inter's variable font.

    Raises ValueError for another file than the one whose digest is known.
    """
    if hashlib.sha256(original).hexdigest() != SOURCE_DIGEST:
        raise ValueError("this is not the file of Inter that the typeface is made from")
    yield from _cut(original)


def _cut(original: bytes) -> Iterator[tuple[str, bytes]]:
    from fontTools.ttLib import TTFont
    from fontTools.varLib import instancer

    font = TTFont(BytesIO(original), recalcTimestamp=False)
    _as_default(font)
    _keep(font, [PLAIN_ONE])
    for style, weight in STYLES.items():
        cut = instancer.instantiateVariableFont(font, {"wght": weight, "opsz": TEXT_SIZE})
        _plain_one(cut)
        for space in " \N{NO-BREAK SPACE}":
            cut["hmtx"][cut.getBestCmap()[ord(space)]] = SPACE, 0
        _name(cut, style)
        _keep(cut)
        written = BytesIO()
        cut.save(written)
        yield f"{FAMILY.replace(' ', '')}-{style}.ttf", written.getvalue()


def _keep(font: Any, also: Sequence[str] = ()) -> None:
    """Drop what no character of ours needs; glyphs of these names stay too."""
    from fontTools import subset

    options = subset.Options(
        layout_features=[], name_IDs=["*"], notdef_outline=True, glyph_names=False, hinting=False
    )
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "STAT", "DSIG", "MVAR"]
    subsetter = subset.Subsetter(options)
    codes = [code for codes in ALPHABETS + OTHER_SIGNS for code in codes]
    subsetter.populate(unicodes=codes, glyphs=also)
    subsetter.subset(font)


def _plain_one(font: Any) -> None:
    """The tabular 1 becomes the plain one, in the middle of a digit's width."""
    from fontTools.pens.transformPen import TransformPen
    from fontTools.pens.ttGlyphPen import TTGlyphPen

    outlines, widths = font["glyf"], font["hmtx"]
    place = font.getBestCmap()[ord("1")]
    plain, tabular = outlines[PLAIN_ONE], widths[place][0]
    right = round(tabular / 2 - (plain.xMin + plain.xMax) / 2)
    glyphs = font.getGlyphSet()
    pen = TTGlyphPen(glyphs)
    glyphs[PLAIN_ONE].draw(TransformPen(pen, (1, 0, 0, 1, right, 0)))
    outlines[place] = pen.glyph()
    widths[place] = tabular, plain.xMin + right


def _as_default(font: Any) -> None:
    """The characters show the forms that pages want."""
    usual = font.getBestCmap()
    forms = {
        ord(character): usual[ord(character)] + form
        for characters, form in FORMS.items()
        for character in characters
    }
    for table in font["cmap"].tables:
        table.cmap |= {code: glyph for code, glyph in forms.items() if code in table.cmap}


def _name(font: Any, style: str) -> None:
    """Its own name: what has other forms should not be taken for the original."""
    names = font["name"]
    names.names = [record for record in names.names if record.nameID in _LEGAL_NAMES]
    version = "Version 4.001; cut for Rungsheet"
    postscript = f"{FAMILY.replace(' ', '')}-{style}"
    for number, text in {
        1: FAMILY,
        2: style,
        3: f"{version}; {postscript}",
        4: f"{FAMILY} {style}",
        5: version,
        6: postscript,
        10: "A cut of Inter with open 4, 6 and 9 and a plain 1, digits equally wide.",
    }.items():
        names.setName(text, number, 3, 1, 0x409)
    bold = style == "Bold"
    font["OS/2"].usWeightClass = 700 if bold else 400  # as programs class the two
    font["OS/2"].fsSelection = 1 << 5 if bold else 1 << 6
    font["head"].macStyle = int(bold)


def main(folder: Path) -> None:
    """Write the files into a folder, and the licence that they are under."""
    from fontTools import version

    try:
        path = source()
    except FileNotFoundError as error:
        sys.exit(str(error))
    if version != MAKER:
        sys.exit(f"this is fontTools {version}: pip install fonttools=={MAKER}")
    for name, data in files(path.read_bytes()):
        (folder / name).write_bytes(data)
        print(f"{folder / name}: {len(data):,} bytes")
    licence = (path.parents[1] / "LICENSE").read_bytes()
    (folder / "OFL.txt").write_bytes(licence)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if sys.argv[1:] else Path(__file__).parent)
