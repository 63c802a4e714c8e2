"""The benchmarks compare like with like, and one command runs them all."""

import io
import re
from pathlib import Path

import pdfplumber
import pypdfium2
import pytest

import tests.bench
from generator.packs.working_out import work
from layouts import plan, render
from tests.bench.__main__ import HEADINGS
from tests.bench.pages import KINDS, bare_pages, class_set, drawn_bare

README = Path(__file__).parents[2] / "README.md"


def characters(data: bytes) -> list[tuple[str, str, float, float, float]]:
    """All characters of a file in the order of drawing: each with its weight, size and place."""
    with pdfplumber.open(io.BytesIO(data)) as file:
        return [
            (char["text"], char["fontname"][-4:], char["size"], char["x0"], char["top"])
            for page in file.pages
            for char in page.chars
        ]


def darkness(data: bytes) -> list[float]:
    """How dark each page is on the whole, from 0 to 255."""
    pages = pypdfium2.PdfDocument(data)
    shown = (page.render(scale=2, grayscale=True).to_numpy() for page in pages)
    return [float(255 - page.mean()) for page in shown]


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_the_bare_loop_draws_the_same_ink(kind: str) -> None:
    pack = class_set(1)
    for planned, ours in zip(plan(work(pack)), render(work(pack)), strict=True):
        bare = drawn_bare(bare_pages(planned.pages, kind))
        for expected, found in zip(characters(ours.data), characters(bare), strict=True):
            assert found[:2] == expected[:2]
            assert found[2:] == pytest.approx(expected[2:], abs=0.01)
        assert darkness(bare) == pytest.approx(darkness(ours.data), rel=0.01, abs=0.05)


def test_one_command_runs_all_benchmarks_in_the_order_of_the_readme() -> None:
    folder = Path(tests.bench.__file__).parent
    modules = (path for path in folder.glob("[!_]*.py") if "__main__" in path.read_text("utf-8"))
    assert {path.stem for path in modules} == set(HEADINGS)
    named = re.findall(r"python -m tests\.bench\.(\w+)", README.read_text(encoding="utf-8"))
    assert named == [name for name in HEADINGS if name in named]
