"""The pack's files: names and order, sound PDF, the same bytes everywhere."""

import hashlib
import io
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest

from generator.packs.pack import Pack
from generator.packs.working_out import work
from layouts import LayoutError, plan, render
from specs.spec import Presentation
from tests.layouts.lessons import AWKWARD, pack
from tests.layouts.sheets import with_presentation

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def documents():
    return render(work(pack(*AWKWARD, versions=2)))


def test_files_come_in_the_order_of_the_lesson(documents):
    assert [(document.name, document.role) for document in documents] == [
        ("starter.pdf", "starter"),
        ("examples.pdf", "examples"),
        ("examples-on-paper.pdf", "examples"),
        ("practice-core.pdf", "practice"),
        ("lesson.pdf", "lesson"),
        ("answers.pdf", "answers"),
        ("answers-on-paper.pdf", "answers on paper"),
        ("plan.pdf", "plan"),
        ("key.pdf", "key"),
    ]


def test_a_section_that_the_pack_lacks_has_no_file():
    lesson = pack("1.5+2.5", "2.5+3.5")
    only = Pack("T", 1, "X", 1, lesson.of_kind("practice"), Presentation())
    assert [file.name for file in plan(work(only))] == [
        "practice-core.pdf",
        "lesson.pdf",
        "answers.pdf",
        "answers-on-paper.pdf",
        "plan.pdf",
        "key.pdf",
    ]


def test_page_counts_are_those_of_the_files(documents):
    for document in documents:
        assert len(pypdf.PdfReader(io.BytesIO(document.data)).pages) == document.pages


def test_files_say_what_they_are(documents):
    for document in documents:
        reader = pypdf.PdfReader(io.BytesIO(document.data))
        assert reader.metadata is not None
        assert reader.metadata.author == "Rungsheet"
        assert reader.metadata.title.startswith("Produce stall: ")
        assert reader.metadata.subject == "seed 2024, code 7F3A-19"
        assert reader.trailer["/Root"]["/Lang"] == "en-GB"


def test_every_font_is_embedded(documents):
    """ISO 32000-1, 9.9: an embedded TrueType face has a FontFile2 in its descriptor."""
    for document in documents:
        for page in pypdf.PdfReader(io.BytesIO(document.data)).pages:
            fonts = page["/Resources"]["/Font"]
            assert fonts
            for font in fonts.values():
                assert "/FontFile2" in font.get_object()["/FontDescriptor"]


def test_nothing_is_compressed_so_bytes_do_not_hang_on_a_build_of_zlib(documents):
    for document in documents:
        assert b"FlateDecode" not in document.data


def test_the_grid_is_drawn_once_and_used_by_reference(documents):
    (practice,) = (document for document in documents if document.role == "practice")
    assert practice.pages > 1
    assert practice.data.count(b"/Subtype /Form") == 1


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_files_pass_qpdf(documents, tmp_path):
    for document in documents:
        path = tmp_path / document.name
        path.write_bytes(document.data)
        done = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True)
        assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler is not installed")
@pytest.mark.parametrize(
    "words",
    [
        {"large": 24, "tint": "sky"},
        {"to_a_sheet": 4, "square": 5, "paper": "A3", "duplex": True},
        {"grid": "none", "orientation": "landscape", "spacing": "wide"},
    ],
    ids=lambda words: "-".join(words),
)
def test_qpdf_and_poppler_have_nothing_to_say_about_any_look(words, tmp_path):
    for document in render(work(with_presentation(pack(*AWKWARD[:6], versions=3), **words))):
        path = tmp_path / document.name
        path.write_bytes(document.data)
        for command in (["qpdf", "--check", str(path)], ["pdftotext", str(path), "-"]):
            done = subprocess.run(command, capture_output=True, text=True)
            assert (done.returncode, done.stderr) == (0, ""), done.stderr


DIGESTS = """
import hashlib
from tests.layouts.lessons import AWKWARD, pack
from generator.packs.working_out import work
from layouts import render
for document in render(work(pack(*AWKWARD, versions=2))):
    print(document.name, hashlib.sha256(document.data).hexdigest())
"""


@pytest.mark.parametrize(
    "place",
    [
        pytest.param(
            {"TZ": "Pacific/Kiritimati", "LC_ALL": "C", "PYTHONHASHSEED": "1"},
            marks=pytest.mark.slow,
        ),
        {"TZ": "America/Anchorage", "LC_ALL": "de_DE.UTF-8", "PYTHONHASHSEED": "77"},
    ],
)
def test_bytes_hang_on_nothing_but_the_pack(documents, place):
    """Neither on the time zone, the language of the system nor the order of sets."""
    told = subprocess.run(
        [sys.executable, "-c", DIGESTS],
        cwd=ROOT,
        env={**os.environ, **place},
        capture_output=True,
        text=True,
        check=True,
    ).stdout.splitlines()
    assert told == [f"{d.name} {hashlib.sha256(d.data).hexdigest()}" for d in documents]


def test_planning_is_importable_without_the_drawing_library():
    code = (
        "import sys, layouts, layouts.key.key, layouts.sheets.sheet, layouts.sheets.example_pages;"
        "assert 'reportlab' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)


def test_a_title_that_the_typeface_cannot_print_is_refused_by_name():
    with pytest.raises(LayoutError, match="the typeface has no ✨"):
        render(work(pack("1.5+2.5", title="Well done ✨")))


def test_an_unknown_paper_is_refused_with_the_known_ones():
    with pytest.raises(LayoutError, match="use A4, A5, A3, Letter"):
        render(work(pack("1.5+2.5", paper="Foolscap")))
