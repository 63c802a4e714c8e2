"""Sheets that can be changed: digits in the cells of a table, as LibreOffice shows them."""

import io
import math
import re
import shutil
import subprocess
import zipfile
from collections import Counter
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from docx import Document
from docx.oxml.ns import qn

from generator.packs.building import build_pack
from generator.packs.working_out import WorkedPack, work
from generator.vocabulary import VOCABULARY
from layouts.editable.cells import in_cells
from layouts.editable.sheets import sheets
from layouts.files.editable import draw_sheets
from layouts.files.table import PackFile, files_of
from layouts.planning.plan import Text
from layouts.planning.squared_page import Side, SquaredPage
from layouts.planning.type_scale import MM_PER_POINT
from layouts.planning.typeface import EMPTY_BOXES
from specs import load_spec, shipped
from tests.front_door.test_commands import run

OFFICE = shutil.which("lowriter")
TOLERANCE = 0.4
"""Millimetres that a digit may be off: less than a twelfth of the smallest square. Type comes in
half points, the program's own lengths in twentieths of a point, and its face has other digits."""
TWIP = 20 / MM_PER_POINT  # to the millimetre

SPEC = """title: Change at the produce stall
ladder:
  line-up: {operation: add, addends: 2, places: 2, whole: 1, carries: none}
  through-noughts: {operation: subtract, places: 3, exchanges: {through_zeros: 2}}
  trays: {operation: multiply, digits: [3, 1], places: [2, 0]}
  shares: {operation: divide, divisor: 7, places: 1}
  wrong: {operation: subtract, places: 2, form: spot the mistake, exchanges: some}
  gaps: {operation: add, places: 2, whole: 1, form: missing digit, carries: some}
  order: {operation: compare, places: {between: [1, 3]}}
pages: PAGES
starter: {minutes: 10, instructions: Work in pairs., questions: {line-up: 3, order: 2}}
tiers:
  support: {line-up: 3, through-noughts: 2, trays: 1, shares: 1}
  core: {through-noughts: 3, wrong: 2, gaps: 2, trays: 2}
"""

PAGES = {
    "5 mm": "{squares: 5}",
    "7 mm": "{squares: 7}",
    "10 mm": "{squares: 10}",
    "A5": "{paper: A5, squares: 5}",
    "Letter on its side": "{paper: Letter, orientation: landscape}",
    "two to a sheet": "{to_a_sheet: 2, squares: 5, duplex: true}",
    "four to a sheet": "{to_a_sheet: 4, squares: 5}",
    "large on a tint": "{large: 18, tint: mint}",
    "a point of its own": "{point: column, grid: faint}",
    "no squares": "{grid: none}",
    "estimates, in German": "{estimate: true, land: Germany, language: German}",
    "key words": "{key_words: Polish}",
}


def lesson(name: str = "produce-stall") -> WorkedPack:
    return work(build_pack(load_spec(shipped(name), VOCABULARY), 1))


def asked(folder: Path, pages: str = "{squares: 7}", versions: int = 1) -> WorkedPack:
    path = folder / "change.yaml"
    path.write_text(SPEC.replace("PAGES", pages), "utf-8")
    return work(build_pack(load_spec(path, VOCABULARY), 1, versions))


def sheet_files(pack: WorkedPack) -> list[PackFile]:
    return [file for file in files_of(pack) if file.kind.sides]


def opened(sides: list[Side]) -> Any:
    return Document(io.BytesIO(sheets(sides, "title")))


@pytest.fixture(scope="module")
def starter() -> tuple[SquaredPage, Any]:
    file = sheet_files(lesson())[0]
    sides = list(file.sides)
    (page,) = sides[0].parts
    assert page is not None
    return page, opened(sides)


def rows_of(table: Any) -> list[list[str]]:
    """The texts of its cells; of cells put together the first has it."""
    return [
        ["".join(node.text or "" for node in cell.iter(qn("w:t"))) for cell in row.tc_lst]
        for row in table._tbl.tr_lst
    ]


def test_every_square_of_the_page_is_a_cell_of_exactly_its_size(starter) -> None:
    page, document = starter
    (table,) = document.tables
    grid = page.grid
    widths = [column.w.twips for column in table._tbl.tblGrid.gridCol_lst]
    heights = [row.trPr.find(qn("w:trHeight")) for row in table._tbl.tr_lst]
    assert (len(heights), len(widths)) == (grid.rows, grid.columns)
    assert all(height.get(qn("w:hRule")) == "exact" for height in heights)
    for lengths in (widths, [int(height.get(qn("w:val"))) for height in heights]):
        at = 0
        for count, length in enumerate(lengths, start=1):
            at += length
            assert at == pytest.approx(count * grid.square * TWIP, abs=0.51)  # no error adds up


def test_each_digit_is_the_text_of_the_cell_of_its_square_and_points_follow_theirs(
    starter,
) -> None:
    page, document = starter
    rows = rows_of(document.tables[0])
    grid = page.grid
    looked_at = 0
    for text in page.plan.texts:
        row = math.floor((text.middle - grid.y) / grid.square)
        if text.anchor != "centre" or not 0 <= row < grid.rows or len(text.text) > 2:
            continue
        across = (text.x - grid.x) / grid.square
        if text.text in ".,":
            assert rows[row][round(across) - 1].endswith(text.text)
        else:
            assert rows[row][math.floor(across)].rstrip(".,") == text.text
        looked_at += 1
    assert looked_at > 40
    assert sum(map(len, map("".join, rows))) >= looked_at


def test_questions_can_be_read_off_the_rows_as_the_pdf_asks_them() -> None:
    for file in sheet_files(lesson()):
        for section in file.pack:
            written = "\n".join("".join(row) for row in rows_of(opened(list(file.sides)).tables[0]))
            for item in section.items:
                for number in re.findall(r"\d+(?:\.\d+)?", item.asked):
                    assert number in written, (file.name, item.label)


def test_heads_are_headings_and_feet_have_code_and_seed(starter) -> None:
    page, document = starter
    paragraphs = document.paragraphs
    styles = {paragraph.text: paragraph.style.name for paragraph in paragraphs}
    assert styles[page.plan.texts[0].text] == "Heading 1"
    assert [name for name in styles.values() if name == "Heading 2"]
    assert any(text.startswith("Name") and "Date" in text for text in styles)
    (section,) = document.sections
    foot = "\n".join(paragraph.text for paragraph in section.footer.paragraphs)
    assert re.search(r"code [A-Z0-9-]+\tseed 1", foot)
    assert (round(section.page_width.mm), round(section.page_height.mm)) == (210, 297)
    description = document.tables[0]._tbl.tblPr.find(qn("w:tblDescription"))
    assert "plus" in description.get(qn("w:val"))


@pytest.mark.slow
def test_each_page_of_each_version_has_a_section_with_its_own_code(tmp_path: Path) -> None:
    file = sheet_files(asked(tmp_path, versions=3))[1]
    document = opened(list(file.sides))
    feet = [section.footer.paragraphs[-1].text for section in document.sections]
    assert len(feet) == len(set(feet)) == len(list(file.pages)) >= 3


def test_pages_that_share_a_sheet_are_tables_in_cells_of_one(tmp_path: Path) -> None:
    pack = asked(tmp_path, PAGES["four to a sheet"])
    (around,) = opened(list(sheet_files(pack)[0].sides)).tables
    cells = [cell for row in around.rows for cell in row.cells]
    assert [len(cell.tables) for cell in cells] == [1, 1, 1, 1]
    assert all("seed 1" in cell.paragraphs[-1].text for cell in cells)


@pytest.mark.parametrize(
    "name",
    [
        "puzzles",
        *(
            pytest.param(name, marks=pytest.mark.slow)
            for name in ("autumn-fair", "multiplying-by-the-grid")
        ),
    ],
)
def test_every_text_of_a_page_has_one_place_and_none_is_left_out(name: str) -> None:
    for file in sheet_files(lesson(name)):
        for page in (part for side in file.sides for part in side.parts if part is not None):
            table, around = in_cells(page)
            placed = [item for item, _ in (*around.above, *around.below)]
            placed += [line for words in table.words for line in words.lines]
            for cell in table.cells.values():
                placed += [cell.text, cell.point, *cell.loose]
            texts = Counter(item for item in placed if isinstance(item, Text))
            assert texts == Counter(page.plan.texts), file.name


def test_no_digit_of_full_size_hangs_on_a_shape(tmp_path: Path) -> None:
    """Boxes for small digits, strokes, and small digits beside large ones alone are shapes."""
    small = []
    for file in sheet_files(asked(tmp_path)):
        for side in file.sides:
            for held in opened([side]).tables[0]._tbl.iter(qn("w:txbxContent")):
                small += [int(size.get(qn("w:val"))) / 2 for size in held.iter(qn("w:sz"))]
    assert small
    assert max(small) < 0.5 * 7 / MM_PER_POINT


def test_a_sheet_in_german_says_so_and_says_what_its_pdf_says(tmp_path: Path) -> None:
    pack = asked(tmp_path, PAGES["estimates, in German"])
    draw_sheets(pack, tmp_path)
    document = Document(str(tmp_path / "starter.docx"))
    (language,) = {node.get(qn("w:val")) for node in document.styles.element.iter(qn("w:lang"))}
    assert language.startswith("de")
    assert document.core_properties.language == language
    written = " ".join(paragraph.text for paragraph in document.paragraphs)
    (page,) = sheet_files(pack)[0].pages
    assert all(text.text in written for text in page.texts[:4])
    assert "Datum" in written


def test_the_same_pages_give_the_same_bytes_and_name_no_time(starter) -> None:
    page, _ = starter
    side = Side(page.plan.width, page.plan.height, 1, (page,))
    data = sheets([side], "sheet")
    assert data == sheets([side], "sheet")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert {entry.date_time[0] for entry in archive.infolist()} == {1980}
        core = archive.read("docProps/core.xml").decode()
        assert not [name for name in archive.namelist() if "thumbnail" in name]
    assert core.count("1980-01-01T00:00:00Z") == 2


LITTLE = """title: Change
ladder: {line-up: {operation: add, addends: 2, places: 2, carries: none}}
lesson:
  - examples: [line-up]
  - practice: {line-up: 2}
  - homework: {line-up: 2}
  - exit: {line-up: 1}
"""


def test_build_writes_the_files_of_sheets_alone(tmp_path: Path) -> None:
    (tmp_path / "little.yaml").write_text(LITTLE, "utf-8")
    target = tmp_path / "pack"
    result = run("build", f"{tmp_path}/little.yaml", "--sheets", "docx", "--out", str(target))
    assert result.exit_code == 0, result.output
    written = {path.name for path in target.glob("*.docx")}
    assert written == {"practice.docx", "homework.docx", "exit.docx"}
    assert "homework.docx" in (target / "pack.json").read_text("utf-8")


@pytest.mark.parametrize(
    ("versions", "installed", "said"),
    [("2", False, "pip install 'rungsheet[sheets]'"), ("41", True, "40 versions at most")],
)
def test_what_cannot_be_written_is_refused_before_anything_is(
    versions: str, installed: bool, said: str, monkeypatch, tmp_path: Path
) -> None:
    if not installed:
        monkeypatch.setitem(__import__("sys").modules, "docx", None)
    spec, target = tmp_path / "little.yaml", tmp_path / "pack"
    spec.write_text(LITTLE, "utf-8")
    asked_for = ("--sheets", "docx", "--versions", versions, "--out", str(target))
    result = run("build", str(spec), *asked_for)
    assert result.exit_code == 2
    assert said in result.stderr
    assert not target.exists()


# In LibreOffice


def converted(folder: Path) -> None:
    """Every .docx of a folder as .pdf beside it, in the folder ``shown``."""
    home = f"-env:UserInstallation=file://{folder}/office"
    files = sorted(folder.glob("*.docx"))
    assert files
    command = [str(OFFICE), home, "--headless", "--convert-to", "pdf", "--outdir"]
    subprocess.run(
        [*command, folder / "shown", *files], check=True, capture_output=True, timeout=240
    )


def characters(page: Any) -> list[tuple[str, float, float]]:
    """Each character of a page of a PDF: the middle of it across, and its baseline."""
    return [
        (
            one["text"],
            (one["x0"] + one["x1"]) / 2 * MM_PER_POINT,
            (float(page.height) - one["matrix"][5]) * MM_PER_POINT,
        )
        for one in page.chars
    ]


def off(text: Text, shown: list[tuple[str, float, float]]) -> float:
    """How far the nearest such character is from where the plan has it."""
    return min(
        (
            max(abs(x - text.x), abs(baseline - text.baseline))
            for character, x, baseline in shown
            if character == text.text
        ),
        default=math.inf,
    )


def without_boxes(text: str) -> str:
    return "".join(character for character in text if character not in EMPTY_BOXES)


@pytest.mark.slow
@pytest.mark.skipif(OFFICE is None, reason="LibreOffice is not installed (libreoffice-writer)")
@pytest.mark.parametrize("pages", PAGES.values(), ids=PAGES)
def test_libreoffice_shows_each_digit_where_the_pdf_has_it(pages: str, tmp_path: Path) -> None:
    pack = asked(tmp_path, pages, versions=2)
    drawn = draw_sheets(pack, tmp_path)
    converted(tmp_path)
    for file, made in zip(sheet_files(pack), drawn, strict=True):
        plans = list(file.pages)
        with pdfplumber.open((tmp_path / "shown" / made.name).with_suffix(".pdf")) as found:
            assert len(found.pages) == len(plans), file.name
            for plan, shown in zip(plans, found.pages, strict=True):
                size = float(shown.width) * MM_PER_POINT, float(shown.height) * MM_PER_POINT
                assert size == pytest.approx((plan.width, plan.height), abs=0.1)
                there = characters(shown)
                words = "".join((shown.extract_text() or "").split())
                for text in plan.texts:
                    if len(text.text) == 1 and text.anchor == "centre":
                        assert off(text, there) <= TOLERANCE, (file.name, text)
                    else:
                        for part in without_boxes(text.text).split():
                            assert part in words, (file.name, text)


@pytest.mark.slow
@pytest.mark.skipif(OFFICE is None, reason="LibreOffice is not installed (libreoffice-writer)")
@pytest.mark.parametrize("square", ["5", "7", "10"])
def test_what_a_teacher_changes_stays_in_its_square(square: str, tmp_path: Path) -> None:
    """A digit for another, a point taken away, digits in empty squares: all in the middle."""
    pack = asked(tmp_path, f"{{squares: {square}}}")
    file = sheet_files(pack)[0]
    (side,) = file.sides
    (page,) = side.parts
    assert page is not None
    document = opened([side])
    (table,) = document.tables
    expected = []
    changed = 0
    for down, row in enumerate(table._tbl.tr_lst):
        if len(row.tc_lst) < page.grid.columns:
            continue  # words stand there
        for across, cell in enumerate(row.tc_lst):
            texts = list(cell.iter(qn("w:t")))
            if not texts:
                table.rows[down].cells[across].paragraphs[0].add_run("8")
            elif len(texts) == 2 and changed < 4:  # a digit and its point
                texts[0].text = "8"
                if changed % 2:
                    texts[1].text = ""
                changed += 1
            else:
                continue
            x = page.grid.x + (across + 0.5) * page.grid.square
            expected.append((x, page.grid.y + (down + 0.5) * page.grid.square))
    assert changed == 4
    document.save(str(tmp_path / "changed.docx"))
    converted(tmp_path)
    with pdfplumber.open(tmp_path / "shown" / "changed.pdf") as found:
        (shown,) = found.pages
        eights = [
            (x, baseline - 0.358 * one["size"] * MM_PER_POINT)  # half a digit of that face
            for one, (character, x, baseline) in zip(shown.chars, characters(shown), strict=True)
            if character == "8"
        ]
    for x, y in expected:
        assert min(max(abs(x - a), abs(y - b)) for a, b in eights) <= TOLERANCE
