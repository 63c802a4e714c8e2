"""Slides that can be changed: columns in tables, words as text, as LibreOffice shows them."""

import io
import shutil
import subprocess
import zipfile
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest
from pptx import Presentation
from pypdf import PdfReader

from generator.packs.building import build_pack
from generator.packs.working_out import WorkedPack, work
from generator.vocabulary import VOCABULARY
from layouts.editable.slides import slides
from layouts.files.editable import draw_slides
from layouts.files.table import files_of
from layouts.pdf.ink import pdf
from layouts.planning.plan import Grid, PagePlan
from specs import load_spec, shipped
from tests.front_door.test_commands import run
from tests.layouts.browser import shown_by_pdfium

OFFICE = shutil.which("soffice")


def lesson(name: str = "produce-stall") -> WorkedPack:
    return work(build_pack(load_spec(shipped(name), VOCABULARY), 1))


def planned(pack: WorkedPack, name: str) -> list[PagePlan]:
    (file,) = [file for file in files_of(pack) if file.name == name]
    return list(file.pages)


def opened(pages: list[PagePlan]) -> list[Any]:
    return list(Presentation(io.BytesIO(slides(pages, "title"))).slides)


@pytest.fixture(scope="module")
def examples() -> tuple[list[PagePlan], list[Any]]:
    pages = planned(lesson(), "examples.pdf")[:14]
    return pages, opened(pages)


def test_each_page_is_a_slide_with_its_title_and_what_is_said(examples) -> None:
    pages, shown = examples
    assert len(shown) == len(pages)
    for page, slide in zip(pages, shown, strict=True):
        title = slide.shapes.title.text_frame.text
        assert title.split("\v")[0] == page.texts[0].text
        assert slide.has_notes_slide
    steps = [slide.notes_slide.notes_text_frame.text for slide in shown]
    assert any("write 7, carry 1 to the tenths" in said for said in steps)


def test_digits_stand_in_the_cells_of_a_table_with_square_cells(examples) -> None:
    pages, shown = examples
    looked_at = 0
    for page, slide in zip(pages, shown, strict=True):
        grids = [item for item in page.items if isinstance(item, Grid)]
        tables = [shape for shape in slide.shapes if shape.has_table]
        assert len(tables) == len(grids)
        for grid, shape in zip(grids, tables, strict=True):
            table = shape.table
            assert (len(table.rows), len(table.columns)) == (grid.rows, grid.columns)
            assert {row.height for row in table.rows} == {column.width for column in table.columns}
            written = [cell.text for row in table.rows for cell in row.cells]
            digits = [t.text for t in page.texts if t.text.isdigit() and t.anchor == "centre"]
            assert sum(map(bool, written)) <= len(page.texts)
            assert any(map(str.isdigit, written)) or not digits
            assert shape._element.nvGraphicFramePr.cNvPr.get("descr")
            looked_at += 1
    assert looked_at > 10


def test_the_same_pages_give_the_same_bytes_and_name_no_time() -> None:
    pages = planned(lesson(), "answers.pdf")
    data = slides(pages, "answers")
    assert data == slides(pages, "answers")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert {entry.date_time[0] for entry in archive.infolist()} == {1980}
        core = archive.read("docProps/core.xml").decode()
    assert core.count("1980-01-01T00:00:00Z") == 2 or "created" not in core


def test_build_writes_the_files_of_slides_alone(tmp_path: Path) -> None:
    result = run("build", "ordering", "--slides", "pptx", "--out", str(tmp_path / "pack"))
    assert result.exit_code == 0, result.output
    written = {path.name for path in (tmp_path / "pack").glob("*.pptx")}
    assert written == {"examples.pptx", "answers.pptx", "lesson.pptx"}
    assert "examples.pptx" in (tmp_path / "pack" / "pack.json").read_text("utf-8")


def test_without_the_library_the_command_says_what_to_install(monkeypatch, tmp_path) -> None:
    monkeypatch.setitem(__import__("sys").modules, "pptx", None)
    result = run("build", "ordering", "--slides", "pptx", "--out", str(tmp_path / "pack"))
    assert result.exit_code == 2
    assert "pip install 'rungsheet[slides]'" in result.stderr
    assert not (tmp_path / "pack").exists()


@pytest.mark.slow
@pytest.mark.skipif(OFFICE is None, reason="LibreOffice is not installed (libreoffice-impress)")
@pytest.mark.parametrize("name", ["produce-stall", "sharing"])
def test_libreoffice_shows_each_digit_in_the_square_that_it_has_in_the_pdf(
    name: str, tmp_path: Path
) -> None:
    pack = lesson(name)
    draw_slides(pack, tmp_path)
    home = f"-env:UserInstallation=file://{tmp_path}/office"
    for file in ("examples.pptx", "answers.pptx"):
        pages = planned(pack, file.replace("pptx", "pdf"))
        command = [str(OFFICE), home, "--headless", "--convert-to", "pdf", "--outdir", tmp_path]
        subprocess.run([*command, tmp_path / file], check=True, capture_output=True, timeout=240)
        made = (tmp_path / file).with_suffix(".pdf").read_bytes()
        ours = pdf(pages, "", "")
        shown = PdfReader(io.BytesIO(made)).pages
        assert len(shown) == len(pages)
        for at, page in enumerate(pages):
            words = "".join(shown[at].extract_text().split())
            for text in page.texts:
                if len(text.text) > 1:
                    assert "".join(text.text.split()) in words, (file, at, text.text)
            if at % 3 == 0:
                inked = [squares_with_ink(page, shown_by_pdfium(data, at)) for data in (ours, made)]
                assert inked[0] == inked[1], (file, at)


def squares_with_ink(page: PagePlan, picture: np.ndarray) -> set[tuple[int, int]]:
    """The squares in whose middle something dark is written."""
    grey = picture if picture.ndim == 2 else cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY)
    scale = grey.shape[1] / page.width
    found = set()
    for grid in (item for item in page.items if isinstance(item, Grid)):
        for row in range(grid.rows):
            for column in range(grid.columns):
                x, y = grid.x + column * grid.square, grid.y + row * grid.square
                edges = (y + 0.27 * grid.square, y + 0.73 * grid.square)
                sides = (x + 0.27 * grid.square, x + 0.73 * grid.square)
                (top, bottom), (left, right) = (
                    [round(at * scale) for at in pair] for pair in (edges, sides)
                )
                if (grey[top:bottom, left:right] < 128).mean() > 0.02:
                    found.add((row, column))
    return found
