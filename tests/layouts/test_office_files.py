"""Slides and sheets that can be changed, held against the schemas of Office Open XML.

The XML schemas of ECMA-376 are in no registry. The package openxml-audit has the same rules as
data (from the Open XML SDK 3.5.1: elements, their order and number, attributes and their types,
and what refers to what), of which each part of each file is tried. Held against the schemas
themselves, by hand and not here: the transitional ones of ECMA-376 as github.com/python-openxml/
python-docx carries them (commit e454546, ref/xsd), by lxml, in November 2026. One thing alone was
found, which the package passes over: it has a test of its own below.
"""

import io
import re
import zipfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from lxml import etree
from openxml_audit import FileFormat, OpenXmlValidator

from generator.packs.building import build_pack
from generator.packs.working_out import WorkedPack, work
from generator.vocabulary import VOCABULARY
from layouts.editable.sheets import sheets
from layouts.editable.slides import slides
from layouts.files.table import files_of
from specs import load_spec, read_spec, shipped, shipped_names
from specs.lands.land import names as lands
from tests.layouts.lessons import pack
from tests.layouts.test_sheets_to_change import PAGES, SPEC


@cache
def checker() -> Any:
    """What reads the rules once, and takes no more than Office 2010 knows."""
    return OpenXmlValidator(file_format=FileFormat.OFFICE_2010, max_errors=50)


def against_the_rules(data: bytes, folder: Path, kind: str) -> list[str]:
    """What an Office file has against the rules of its schemas."""
    path = folder / f"held.{kind}"
    path.write_bytes(data)
    found = [f"{error.part_uri}: {error.description}" for error in checker().validate(path).errors]
    return found + passed_over(data)


# What the package passes over, and the schemas do not.

TEXT = ("t", "posOffset", "tableStyleId")
SAID = ("descr", "name", "title")
_VALUE = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}val"
_FRACTION = re.compile(r"-?\d+\.\d+")


def passed_over(data: bytes) -> list[str]:
    """Lengths that are no whole numbers, words outside a text, rows with cells too few."""
    found = []
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            if re.match(r"(word|ppt)/(document|footer|slides/|notesSlides/).*\.xml", name):
                root = etree.fromstring(archive.read(name))
                found += [f"{name}: {told}" for told in _of_part(root)]
    return found


def _of_part(root: Any) -> Iterator[str]:
    for element in root.iter(etree.Element):
        here = etree.QName(element)
        for name, value in element.attrib.items():
            if name not in SAID and _FRACTION.fullmatch(value):
                yield f"{here.localname} has {value}"
        words = [element.text, *(child.tail for child in element)]
        if here.localname not in TEXT and any(word and word.strip() for word in words):
            yield f"words stand in {here.localname}"
        if here.localname == "tbl":
            columns = len(element.findall("*/{*}gridCol"))
            for row in element.findall("{*}tr"):
                cells = sum(
                    int(next((span.get(_VALUE) for span in cell.findall("{*}tcPr/{*}gridSpan")), 1))
                    for cell in row.findall("{*}tc")
                )
                if cells != columns:
                    yield f"a row has {cells} cells for {columns} columns"


def test_the_zoom_has_its_percentage() -> None:
    """ECMA-376, part 1, 17.15.1.94: it must have one, and the library's own file has none."""
    (zoom,) = etree.fromstring(part_of(a_sheet(), "word/settings.xml")).findall("{*}zoom")
    assert zoom.get(f"{{{etree.QName(zoom).namespace}}}percent") == "100"


# One file of each kind, and what can go wrong in it.


@cache
def a_sheet() -> bytes:
    lesson = work(pack("0.6+0.7", "12-3.75"))
    file = next(file for file in files_of(lesson) if file.kind.sides)
    return sheets(list(file.sides), "sheet")


@cache
def some_slides() -> bytes:
    file = next(file for file in files_of(work(pack("0.6+0.7"))) if file.name == "examples.pdf")
    return slides(list(file.pages)[:3], "slides")


OF_KIND = {"docx": a_sheet, "pptx": some_slides}


def part_of(data: bytes, name: str) -> bytes:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return archive.read(name)


@pytest.mark.parametrize("kind", ["docx", pytest.param("pptx", marks=pytest.mark.slow)])
def test_a_file_of_each_kind_keeps_the_rules(kind: str, tmp_path: Path) -> None:
    assert not against_the_rules(OF_KIND[kind](), tmp_path, kind)


def test_no_file_names_who_made_the_library_or_has_a_picture_of_theirs() -> None:
    for data in (a_sheet(), some_slides()):
        core = part_of(data, "docProps/core.xml").decode()
        assert set(re.findall(r"(?:creator|lastModifiedBy)>(.*?)<", core)) <= {"Rungsheet", ""}
        assert "python" not in core
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            assert not [n for n in archive.namelist() if "thumbnail" in n or "printer" in n]


PAGE, SLIDE, SHOW = "word/document.xml", "ppt/slides/slide1.xml", "ppt/presentation.xml"

DAMAGE = {
    "an element that there is none": (PAGE, "<w:tblGrid>", "<w:digits/><w:tblGrid>"),
    "an attribute that there is none": (PAGE, "<w:trHeight ", '<w:trHeight w:square="7" '),
    "a row before the columns": (
        PAGE,
        "(<w:tblGrid>.*?</w:tblGrid>)(<w:tr[ >].*?</w:tr>)",
        r"\2\1",
    ),
    "properties in another order": (PAGE, "(<w:tblW [^>]*/>)(<w:tblInd [^>]*/>)", r"\2\1"),
    "a word of its own for exact": (PAGE, 'w:hRule="exact"', 'w:hRule="square"'),
    "a width in words": (PAGE, r'<w:gridCol w:w="\d+"', '<w:gridCol w:w="wide"'),
    "a width with a fraction": (PAGE, r'<w:gridCol w:w="\d+"', '<w:gridCol w:w="283.5"'),
    "a cell with nothing": (PAGE, "<w:tc>(?:(?!</w:tc>).)*</w:tc>", "<w:tc></w:tc>"),
    "no columns": (PAGE, "<w:tblGrid>.*?</w:tblGrid>", ""),
    "a cell too few": (PAGE, "<w:tc>(?:(?!</w:tc>|gridSpan).)*</w:tc>", ""),
    "words between cells": (PAGE, "<w:tblGrid>", "7<w:tblGrid>"),
    "a style that there is none": (PAGE, 'w:pStyle w:val="[^"]*"', 'w:pStyle w:val="Nowhere"'),
    "a foot that there is none": (
        PAGE,
        '(<w:footerReference [^>]*r:id=")[^"]*"',
        r'\g<1>rId99"',
    ),
    "a part that there is none": (
        "word/_rels/document.xml.rels",
        'Target="styles.xml"',
        'Target="nowhere.xml"',
    ),
    "a part of no kind": (
        "[Content_Types].xml",
        '<Override PartName="/word/document.xml"[^>]*/>',
        "",
    ),
    "an element in a slide": (SLIDE, "<a:tblGrid>", "<a:digits/><a:tblGrid>"),
    "columns before properties": (SLIDE, "(<a:tblPr.*?)(<a:tblGrid>.*?</a:tblGrid>)", r"\2\1"),
    "no width": (SLIDE, r'<a:gridCol w="\d+"', "<a:gridCol"),
    "two shapes of one number": (SLIDE, '<p:cNvPr id="3"', '<p:cNvPr id="2"'),
    "a colour by name": (SLIDE, 'srgbClr val="[0-9A-F]{6}"', 'srgbClr val="grey"'),
    "a text without its properties": (SLIDE, "<a:bodyPr[^>]*?/>", ""),
    "a slide's cell too few": (SLIDE, "<a:tc>.*?</a:tc>", ""),
    "a slide that there is none": (SHOW, '(<p:sldId [^>]*r:id=")[^"]*"', r'\g<1>rId999"'),
    "two slides of one number": (SHOW, '<p:sldId id="257"', '<p:sldId id="256"'),
}
"""What goes wrong: in which part, what stands there, and what stands there instead."""


@pytest.mark.slow
@pytest.mark.parametrize("what", DAMAGE)
def test_the_checker_notices(what: str, tmp_path: Path) -> None:
    name, old, new = DAMAGE[what]
    kind = "pptx" if name in (SLIDE, SHOW) else "docx"
    buffer = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(OF_KIND[kind]())) as archive,
        zipfile.ZipFile(buffer, "w") as again,
    ):
        for part in archive.namelist():
            text = archive.read(part)
            if part == name:
                changed, count = re.subn(old, new, text.decode(), count=1, flags=re.DOTALL)
                assert count == 1
                text = changed.encode()
            again.writestr(part, text)
    assert against_the_rules(buffer.getvalue(), tmp_path, kind)


# Every file that is made.


def all_keep_the_rules(worked: WorkedPack, folder: Path, *kinds: str) -> None:
    """Its sheets, and the slides of the lesson, which are those of the examples and answers."""
    seen = set()
    for file in files_of(worked):
        if file.kind.sides and "docx" in kinds:
            data, kind = sheets(list(file.sides), file.title, file.usage.language.code), "docx"
        elif file.name == "lesson.pdf" and "pptx" in kinds:
            data, kind = slides(file.pages, file.title, file.usage), "pptx"
        else:
            continue
        assert not against_the_rules(data, folder, kind), file.name
        seen.add(kind)
    assert seen == set(kinds)


def what_ships(name: str) -> WorkedPack:
    return work(build_pack(load_spec(shipped(name), VOCABULARY), 1))


@pytest.mark.slow
@pytest.mark.parametrize("name", shipped_names())
def test_sheets_of_all_that_ships_keep_the_rules(name: str, tmp_path: Path) -> None:
    all_keep_the_rules(what_ships(name), tmp_path, "docx")


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", ["produce-stall", "multiplying-by-the-grid", "ordering", "puzzles", "sharing"]
)
def test_slides_of_each_method_keep_the_rules(name: str, tmp_path: Path) -> None:
    all_keep_the_rules(what_ships(name), tmp_path, "pptx")


LOOKS = {
    **PAGES,
    **{name: f"{{land: {name}}}" for name in lands()},
    "words in other letters": "{key_words: Ukrainian}",
}


def looking(pages: str) -> WorkedPack:
    text = SPEC.replace("tiers:", "examples: [line-up, trays, shares]\ntiers:")
    spec = read_spec(text.replace("PAGES", pages).encode(), "a", VOCABULARY)
    return work(build_pack(spec, 1, 2))


@pytest.mark.slow
@pytest.mark.parametrize("pages", LOOKS.values(), ids=LOOKS)
def test_sheets_of_every_look_and_land_keep_the_rules(pages: str, tmp_path: Path) -> None:
    all_keep_the_rules(looking(pages), tmp_path, "docx")


@pytest.mark.slow
@pytest.mark.parametrize("land", ["Finland", "France", "Germany", "United States"])
def test_slides_of_other_divisions_keep_the_rules(land: str, tmp_path: Path) -> None:
    all_keep_the_rules(looking(f"{{land: {land}}}"), tmp_path, "pptx")
