"""The typeface that ships: its digits, alphabets and signs, its licence, and how it is made."""

import shutil
import zipfile
from io import BytesIO
from pathlib import Path

import pypdf
import pytest
from PIL import Image, ImageDraw, ImageFont
from reportlab.pdfbase.ttfonts import TTFontFile

from generator.packs.working_out import work
from layouts import render
from layouts.planning import typeface
from layouts.planning.errors import UnprintableError
from layouts.type import subset
from rungsheet.page.gather import engine_files, licences
from tests.copied_digits import misread
from tests.layouts.lessons import pack

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "layouts" / "type"
WEIGHTS = pytest.mark.parametrize("bold", [False, True], ids=["regular", "bold"])

SIGNS = "+−×÷=≠<>≤≥≈±√£€%°½⅓⅔¼¾⅕⅘⅛²³₂□✓✗→←–—‘’“”…·•′″"
"""What pages, titles and sentences of a maths lesson hold."""
GREEK = "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩΆΈΉΊΌΎΏΪΫάέήίόύώϊϋΐΰς"
RUSSIAN = "АБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯ"
OTHER_CYRILLIC = "ҐЄІЇЎЂЋЉЊЏЈЅЃЌӘҒҚҢӨҰҮҺӢӮҶ"
"""Letters of Ukrainian, Belarusian, Serbian, Macedonian, Kazakh and Tajik."""
LATIN = (
    "ÀÂÇÈÉÊËÎÏÔŒÙÛÜŸ"  # French
    "ÄÖẞÅÆØÐÞ"  # German and the Nordic languages
    "ĄĆĘŁŃÓŚŹŻČĎĚŇŘŠŤŮŽĽĹŔ"  # Polish, Czech, Slovak
    "ĂȘȚŐŰĞİŞĀĒĢĪĶĻŅŪĖĮŲ"  # Romanian, Hungarian, Turkish, Latvian, Lithuanian
    "ĐẠẢẤẬẮẶẸẼẾỆỊỌỐỘƠỢỤƯỰỲỴỸ"  # Vietnamese
    "ṢƏǍǏǑǓǕĊĠĦŴŶẀẂẄ"  # Yoruba, Azerbaijani, pinyin, Maltese, Welsh
)
"""Capitals of languages that pupils speak at home: common practice, no source."""
SPACES = "\N{NO-BREAK SPACE}\N{THIN SPACE}\N{NARROW NO-BREAK SPACE}\N{NON-BREAKING HYPHEN}"


def face(*, bold: bool) -> TTFontFile:
    return TTFontFile(str(typeface.font_path(bold=bold)))


def drawn(character: str, *, bold: bool, height: float) -> Image.Image:
    """A character in black on white, its digits so many dots high, each dot black or white."""
    fine = 16  # so many times finer at first, as a page is before it is copied
    font = ImageFont.truetype(
        str(typeface.font_path(bold=bold)), height * fine / typeface.DIGIT_HEIGHT
    )
    side = round(2 * height)
    image = Image.new("L", (side * fine, side * fine), 255)
    place = 4 * fine, (side - 4) * fine
    ImageDraw.Draw(image).text(place, character, font=font, fill=0, anchor="ls")
    return image.resize((side, side), Image.Resampling.BOX).point(lambda dot: 255 * (dot > 128))


def holes(image: Image.Image) -> int:
    """How many patches of white the ink closes in."""
    left = image.copy()
    ImageDraw.floodfill(left, (0, 0), 0)
    found = 0
    while box := left.getbbox():
        row = left.crop((box[0], box[1], box[2], box[1] + 1))
        at = next(x for x in range(row.width) if row.getpixel((x, 0)))
        ImageDraw.floodfill(left, (box[0] + at, box[1]), 0)
        found += 1
    return found


@WEIGHTS
def test_digits_are_equally_wide(bold: bool) -> None:
    widths = face(bold=bold).charWidths
    assert len({widths[ord(digit)] for digit in "0123456789"}) == 1
    assert typeface.width("0", 1, bold=bold) <= typeface.DIGIT_WIDTH * 25.4 / 72 + 1e-6


@WEIGHTS
def test_4_is_open_and_6_and_9_and_0_have_one_hole_and_8_two(bold: bool) -> None:
    found = {d: holes(drawn(d, bold=bold, height=80)) for d in "0123456789"}
    assert found == dict.fromkeys("123457", 0) | dict.fromkeys("690", 1) | {"8": 2}


@WEIGHTS
def test_1_is_plain_it_stands_on_its_stroke_alone_and_in_the_middle(bold: bool) -> None:
    image = drawn("1", bold=bold, height=200).point(lambda dot: 255 - dot)
    left, top, right, bottom = image.getbbox()

    def wide(y: float) -> int:
        x0, _, x1, _ = image.crop((0, round(y), image.width, round(y) + 1)).getbbox()
        return x1 - x0

    assert wide(bottom - 1) == wide((top + bottom) / 2) < (right - left) * 0.7
    middle = 4 + typeface.width("1", 1, bold=bold) / 25.4 * 72 * 200 / typeface.DIGIT_HEIGHT / 2
    assert (left + right) / 2 == pytest.approx(middle, abs=1.5)


@pytest.mark.parametrize(("height", "most"), [(6, 130), (7, 40), (9, 10)])
@pytest.mark.slow
def test_a_bad_copy_is_read(height: int, most: int) -> None:
    """In a thousand digits on squares of 5 to 7 mm, at 60 dots to the inch."""
    share, pairs = misread(typeface.font_path(bold=False), height)
    assert share <= most
    assert sum(pairs.get(pair, 0) for pair in ("1/7", "0/6", "0/9", "4/9")) <= 0.1 * sum(
        pairs.values()
    )


def test_a_bad_copy_of_a_sheet_leaves_4_open() -> None:
    """On the usual squares of 7 mm a digit is 9 dots high at 60 dots to the inch."""
    assert holes(drawn("4", bold=False, height=9)) == 0


@WEIGHTS
@pytest.mark.parametrize(
    "letters",
    [SIGNS, GREEK, RUSSIAN, OTHER_CYRILLIC, LATIN, SPACES],
    ids=["signs", "greek", "russian", "cyrillic", "latin", "spaces"],
)
def test_letters_and_signs_are_there(letters: str, bold: bool) -> None:
    there = face(bold=bold).charToGlyph
    small = "".join(c.lower() for c in letters if len(c.lower()) == 1)
    assert [c for c in letters + small if not there.get(ord(c))] == []


def test_both_weights_print_the_same_characters() -> None:
    assert face(bold=False).charToGlyph.keys() == face(bold=True).charToGlyph.keys()


def test_what_it_lacks_is_named_once_each_in_order() -> None:
    assert typeface.lacking("3 kg 豆 and שש, 豆") == "豆ש"
    assert typeface.lacking("□ ▭ Σωκράτης, Юлія, Łucja: 3.5 × 4") == ""
    with pytest.raises(UnprintableError, match="the typeface has no 豆 ש, only Latin, Greek and"):
        typeface.refuse_unprintable("3 kg 豆 and שש, 豆")
    with pytest.raises(UnprintableError, match=r"the typeface has no U\+0301,"):
        typeface.refuse_unprintable("q\N{COMBINING ACUTE ACCENT}")  # it has no composed form


def test_the_weights_have_names_of_their_own_and_not_that_of_the_original() -> None:
    """ReportLab takes two files of one name for one font; and Inter's name is a trademark."""
    names = [face(bold=bold).name.decode() for bold in (False, True)]
    assert names == ["RungsheetSans-Regular", "RungsheetSans-Bold"]


def test_files_are_small_and_no_others_are_there() -> None:
    fonts = {path.name: path.stat().st_size for path in FOLDER.glob("*.ttf")}
    assert fonts.keys() == set(typeface.FILES.values())
    assert max(fonts.values()) < 120_000
    assert "SIL OPEN FONT LICENSE Version 1.1" in (FOLDER / "OFL.txt").read_text(encoding="utf-8")


@pytest.mark.slow
def test_the_licence_and_the_files_are_in_the_wheel(tmp_path: Path) -> None:
    pytest.importorskip("hatchling", reason="the wheel is built by hatchling")
    from hatchling.builders.wheel import WheelBuilder

    source = tmp_path / "source"
    shutil.copytree(
        ROOT, source, ignore=shutil.ignore_patterns(".*", "out", "tests", "__pycache__")
    )
    [wheel] = WheelBuilder(str(source)).build(directory=str(tmp_path), versions=["standard"])
    names = zipfile.ZipFile(wheel).namelist()
    for file in (*typeface.FILES.values(), "OFL.txt"):
        assert f"layouts/type/{file}" in names
    assert any(name.endswith("dist-info/licenses/layouts/type/OFL.txt") for name in names)


def test_the_files_and_the_licence_are_in_the_page() -> None:
    found = {path for path in engine_files() if not path.endswith((".py", ".yaml", ".mo"))}
    assert found == {f"layouts/type/{file}" for file in (*typeface.FILES.values(), "OFL.txt")}
    assert "SIL OPEN FONT LICENSE" in dict(licences())[subset.FAMILY]


@pytest.mark.slow
def test_the_files_are_made_by_the_command_byte_for_byte(tmp_path: Path) -> None:
    try:
        subset.main(tmp_path)
    except SystemExit as needs:
        pytest.skip(str(needs))
    for path in tmp_path.iterdir():
        assert path.read_bytes() == (FOLDER / path.name).read_bytes(), path.name
    assert {path.name for path in tmp_path.iterdir()} == {*typeface.FILES.values(), "OFL.txt"}


def test_it_is_made_from_the_one_source_that_is_known() -> None:
    with pytest.raises(ValueError, match="not the file of Inter"):
        list(subset.files(b"another font"))


def test_pages_are_set_in_no_other_face() -> None:
    faces: set[str] = set()
    for document in render(work(pack("1.5+2.5", title="Σωκράτης, Юлія и Łucja"))):
        for page in pypdf.PdfReader(BytesIO(document.data)).pages:
            for font in page["/Resources"]["/Font"].values():
                faces.add(font.get_object()["/BaseFont"].split("+")[-1])
    assert faces == {"RungsheetSans-Regular", "RungsheetSans-Bold"}


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("Set them out with points in line.", ("Set them out with points", "in line.")),
        ("Set out with the points in line.", ("Set out with the points", "in line.")),
        ("Round to the next whole one", ("Round to the next", "whole one")),
        (
            "In the hundreds now: put 1\xa0ten",
            ("In the hundreds now:", "put 1 ten"),
        ),
        ("Round these to the whole thousands", ("Round these to the whole", "thousands")),
        ("8.5 + 1.31 + 8.09 + 5.6 + 7", ("8.5 + 1.31 + 8.09 + 5.6 +", "7")),
        ("Regrouped ten-thousandth as", ("Regrouped ten-thousandth", "as")),
    ],
)
def test_a_short_word_is_not_alone_on_the_last_line(text: str, lines: tuple[str, ...]) -> None:
    room = typeface.width("Regrouped ten-thousandth.", 12.0)
    assert typeface.wrap(text, 12.0, room) == lines
