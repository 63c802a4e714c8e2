"""What is used of ReportLab's inside: named one by one when a new release moves it."""

import ast
import codecs
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from reportlab import Version
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import PDFFile
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

import layouts
from layouts.pdf.ink import pdf
from layouts.pdf.reportlab_inside import INSIDE, PDF_DOC_ENCODING, Inside
from layouts.planning.plan import PagePlan, Text
from layouts.planning.typeface import font_path

INSIDE_ALONE = "reportlab_inside.py"


def holders() -> dict[str, Any]:
    """What holds the names, as it is while a file of one page is drawn."""
    canvas = Canvas(BytesIO(), invariant=1)
    canvas.drawString(10, 10, "1.5")
    canvas.showPage()
    pdfmetrics.registerFont(TTFont("inside", str(font_path(bold=False)), asciiReadable=False))
    page = Inside(canvas).page_shown
    page.check_format(canvas._doc)
    return {
        "canvas": canvas,
        "page": page,
        "font": pdfmetrics.getFont("inside"),
        "output": PDFFile(canvas._doc._pdfVersion),
    }


def missing(path: str, held: dict[str, Any]) -> str:
    """What to do where a name is no longer there; "" where it is."""
    first, *names = path.split(".")
    holder = held[first]
    for name in names:
        if not hasattr(holder, name):
            return (
                f"ReportLab {Version} has no {path}, which is {INSIDE.get(path, '')}: find what "
                f"does so now, and change layouts/pdf/{INSIDE_ALONE} to it"
            )
        holder = getattr(holder, name)
    return ""


@pytest.mark.parametrize("path", INSIDE)
def test_reportlab_still_has_it(path):
    told = missing(path, holders())
    assert not told, told


def test_what_is_moved_is_named_with_what_it_is_for():
    told = missing("canvas._doc.Catalog", {"canvas": object()})
    assert "has no canvas._doc.Catalog, which is the file's root" in told


def test_reportlab_still_registers_its_encoding():
    assert codecs.lookup(PDF_DOC_ENCODING)
    assert "£".encode(PDF_DOC_ENCODING) == b"\xa3"  # ISO 32000-1, table D.2: sterling is 243 octal


def modules() -> list[Path]:
    return sorted(Path(layouts.__file__).parent.rglob("*.py"))


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.name)
def test_no_other_module_uses_a_private_name_of_another_s_value(path):
    """Of anything but self and cls: what begins with an underscore, or is made of PDF objects."""
    if path.name == INSIDE_ALONE:
        return
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Attribute) and node.attr.startswith("_"):
            own = isinstance(node.value, ast.Name) and node.value.id in ("self", "cls", "os", "sys")
            assert own or node.attr.endswith("__"), f"{path.name}:{node.lineno}: {node.attr}"
            assert node.attr != "__NoDefault__"
        if isinstance(node, ast.ImportFrom):
            assert node.module != "reportlab.pdfbase.pdfdoc", f"{path.name}:{node.lineno}"


def test_every_name_that_the_module_uses_is_listed():
    """Private attributes of ReportLab's values in the module, against the table."""
    path = Path(layouts.__file__).parent / "pdf" / INSIDE_ALONE
    listed = {name for names in INSIDE for name in names.split(".")}
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Attribute) and node.attr.startswith("_"):
            if not (isinstance(node.value, ast.Name) and node.value.id == "self"):
                assert node.attr in listed, f"line {node.lineno}: {node.attr}"
        elif isinstance(node, ast.Attribute):
            held = ast.unparse(node.value)
            if held in ("file", "self._file", "self._output"):
                assert node.attr in listed | {"info", "write", "Pages"}, node.attr


def test_documents_under_way_at_once_have_each_the_face_to_themselves():
    """Pages of three drawn in turns, and one of them begun while another is half written."""

    def page(text: str) -> PagePlan:
        return PagePlan(210, 297, (Text(text, 20, 20, 12),))

    texts = [[f"{letter}{number}" for number in range(12)] for letter in ("a", "é", "Ω")]

    def alone(of: list[str]) -> bytes:
        return pdf(map(page, of), of[0], "Beans")

    def with_others_between(of: list[str]) -> Iterator[PagePlan]:
        for text in of:
            yield page(text)
            assert all(alone(other) == expected[other[0]] for other in texts if other is not of)

    expected = {of[0]: alone(of) for of in texts}
    for of in texts:
        assert pdf(with_others_between(of), of[0], "Beans") == expected[of[0]]
