"""Pages as SVG: the same look as the PDF, everything said, and nothing of a spec as markup."""

import os
import re
from dataclasses import replace
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.svgLib.path import parse_path
from fontTools.ttLib import TTFont
from lxml import etree

from generator.packs.building import build_pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts import plan, render
from layouts.pictures.outlines import advance, outline, units_per_em
from layouts.pictures.svg import svg
from layouts.planning import typeface
from layouts.planning.empty_boxes import has_boxes, parts
from layouts.planning.plan import PagePlan, Role, Text, Unit, as_units, moved
from specs import read_spec
from tests.layouts.browser import distance, needs_chromium, shown_by_chromium, shown_by_pdfium

SVG = "{http://www.w3.org/2000/svg}"

HOSTILE = "<script>alert('1')</script> & \"a\" ]]> <use href='#r31'/>"

LESSON = """\
title: {title}
ladder:
  over-the-point: {{operation: add, places: 2, whole: 1, carries: {{across_point: true}}}}
  gaps: {{operation: subtract, places: 2, form: missing digit}}
  boxes: {{operation: add, places: 1, form: missing number}}
  long: {{operation: multiply, digits: [3, 2]}}
  shares: {{operation: divide, divisor: {{digits: 1}}, ending: remainder}}
starter: {{minutes: 10, questions: {{over-the-point: 3, gaps: 2}}}}
examples: [over-the-point, long]
tiers:
  core: {{over-the-point: 3, gaps: 2, boxes: 2, long: 1, shares: 2}}
pages: {{tint: {{core: mint}}}}
"""


def lesson(title: str = "'Produce stall: £ and kg'"):
    spec = read_spec(LESSON.format(title=title).encode(), "a", VOCABULARY)
    return build_pack(spec, seed=3)


@pytest.fixture(scope="module")
def files():
    return plan(work(lesson()))


def written(text: Text) -> str:
    """What of a text is drawn by outlines: boxes are drawn otherwise, and spaces have no ink."""
    runs = parts(text) if has_boxes(text) else [text]
    whole = "".join(run.text for run in runs if isinstance(run, Text))
    return re.sub(r"\s", "", whole)


def read_back(picture: str) -> list[str]:
    """The runs of characters that a picture draws, by the names of their outlines."""
    runs = []
    for group in ElementTree.fromstring(picture).iter(f"{SVG}g"):
        uses = group.findall(f"{SVG}use")
        if uses:
            runs.append("".join(chr(int(use.attrib["href"][2:], 16)) for use in uses))
    return runs


def test_every_text_of_every_page_is_drawn(files):
    for file in files:
        for page in file.pages:
            drawn = "".join(read_back(svg(page)))
            assert drawn == "".join(written(text) for text in page.texts), file.name


def test_every_outline_that_is_used_is_there_once(files):
    for file in files:
        for page in file.pages:
            tree = ElementTree.fromstring(svg(page))
            names = [path.attrib["id"] for path in tree.find(f"{SVG}defs")]
            assert len(names) == len(set(names))
            assert {use.attrib["href"][1:] for use in tree.iter(f"{SVG}use")} == set(names)


def test_what_a_unit_says_is_its_label_and_an_artefact_is_hidden(files):
    for file in files:
        for page in file.pages:
            groups = ElementTree.fromstring(svg(page)).findall(f"{SVG}g")
            units = list(as_units(page.content))
            read = [group for group in groups if group.attrib.get("aria-hidden") != "true"]
            spoken = [unit for unit in units if unit.role is not Role.ARTEFACT]
            assert len(read) == len(spoken)
            for group, unit in zip(read, spoken, strict=True):
                texts = " ".join(item.text for item in unit.items if isinstance(item, Text))
                assert group.attrib["aria-label"] == (unit.says or texts)


def test_headings_are_headings(files):
    sheet = next(file for file in files if file.role == "practice")
    groups = ElementTree.fromstring(svg(sheet.pages[0])).findall(f"{SVG}g")
    levels = [group.attrib.get("aria-level") for group in groups if "aria-level" in group.attrib]
    assert levels == ["1", "2"]


def test_a_page_has_its_size_in_millimetres(files):
    sheet = next(file for file in files if file.role == "practice")
    tree = ElementTree.fromstring(svg(sheet.pages[0], "a name"))
    assert tree.attrib["viewBox"] == "0 0 210 297"
    assert (tree.attrib["width"], tree.attrib["height"]) == ("210mm", "297mm")
    assert tree.attrib["aria-label"] == "a name"


def test_no_text_of_a_spec_is_markup():
    quoted = "'" + HOSTILE.replace("'", "''") + "'"
    allowed = {"svg", "defs", "g", "path", "rect", "use"}
    found = []
    for file in plan(work(lesson(quoted))):
        for page in file.pages:
            tree = ElementTree.fromstring(svg(page, file.title))
            assert {element.tag.removeprefix(SVG) for element in tree.iter()} == allowed
            assert not [e for e in tree.iter() if (e.text or "").strip() or (e.tail or "").strip()]
            for element in tree.iter():
                assert not [name for name in element.attrib if name.startswith("on")]
                assert element.attrib.get("href", "#").startswith("#")
            found += [e.attrib.get("aria-label", "") for e in tree.iter()]
    assert HOSTILE in found


SVG_1_1 = "/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd"
"""The W3C's DTD of SVG 1.1, second edition, as Debian's package w3c-sgml-lib has it."""

needs_the_dtd = pytest.mark.skipif(
    not Path(SVG_1_1).exists() and not os.environ.get("CI"),
    reason="Debian's w3c-sgml-lib is not installed",
)

SINCE = ("role", "lang", "aria-label", "aria-hidden", "aria-level")
"""What SVG 2 has besides (5.13.4 and 5.10.3; from memory): what is said to who listens."""


def as_svg_1_1(picture: str) -> Any:
    """Without what SVG 2 has besides; what is used again is named as of old."""
    tree = etree.fromstring(picture.encode())
    for element in tree.iter():
        for name in set(element.attrib) & set(SINCE):
            del element.attrib[name]
        if element.get("href"):
            element.set("{http://www.w3.org/1999/xlink}href", element.attrib.pop("href"))
    etree.cleanup_namespaces(tree, {"xlink": "http://www.w3.org/1999/xlink"})
    return tree


@needs_the_dtd
def test_every_kind_of_page_is_valid_by_the_published_dtd(files):
    dtd = etree.DTD(SVG_1_1)
    for name, at in chosen(files):
        page = {file.name: file for file in files}[name].pages[at]
        assert dtd.validate(as_svg_1_1(svg(page, "a page"))), (name, dtd.error_log)


@needs_the_dtd
@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("<rect ", '<rect wide="3" '),
        ("</defs>", "<square/></defs>"),
        ("</svg>", "<path/></svg>"),  # it must say what it draws
        (' height="297"', ""),
    ],
)
def test_the_dtd_notices(right, wrong, files):
    sheet = next(file for file in files if file.role == "practice")
    picture = svg(sheet.pages[0])
    assert right in picture
    assert not etree.DTD(SVG_1_1).validate(as_svg_1_1(picture.replace(right, wrong)))


@pytest.mark.parametrize("sign", ["\0", "\x1b", "\ud800", "\uffff"])
def test_what_no_xml_file_may_hold_is_left_out(sign):
    said = Unit(Role.QUESTION, (Text("1", 5.0, 5.0, 10.0),), says=f"one{sign}two")
    picture = svg(PagePlan(20.0, 20.0, (said,)))
    tree = ElementTree.fromstring(picture.encode())
    assert [e.attrib["aria-label"] for e in tree.iter() if "aria-label" in e.attrib] == ["one�two"]


@pytest.mark.parametrize("bold", [False, True])
def test_outlines_are_those_of_the_typeface_s_file(bold):
    """Against fontTools' own drawing of the same glyphs, composites taken apart."""
    font = TTFont(str(typeface.font_path(bold=bold)))
    names, glyphs = font.getBestCmap(), font.getGlyphSet()
    assert units_per_em(bold=bold) == font["head"].unitsPerEm
    for character in "0123456789+−×÷=≈.,()£abgwéÅ":
        if ord(character) not in names:
            continue
        read, drawn = (DecomposingRecordingPen(glyphs) for _ in range(2))
        parse_path(outline(character, bold=bold), read)
        glyphs[names[ord(character)]].draw(drawn)
        assert ends(read) == ends(drawn), character
        measured = advance(character, bold=bold) / units_per_em(bold=bold)
        assert measured == pytest.approx(
            typeface.width(character, 72 / 25.4, bold=bold), abs=1e-3
        ), character


def ends(pen: DecomposingRecordingPen) -> list[tuple[float, float]]:
    """Where each contour begins."""
    return [points[0] for kind, points in pen.value if kind == "moveTo"]


def chosen(files) -> list[tuple[str, int]]:
    """A page of every kind: sheets, slides, examples on paper, the key."""
    return [(file.name, len(file.pages) // 2) for file in files]


@needs_chromium
@pytest.mark.slow
def test_a_browser_shows_what_the_pdf_shows(files, tmp_path: Path):
    documents = {document.name: document.data for document in render(work(lesson()))}
    pages = [(name, at, {f.name: f for f in files}[name].pages[at]) for name, at in chosen(files)]
    drawn = shown_by_chromium([svg(page) for _, _, page in pages], tmp_path)
    for (name, at, _), picture in zip(pages, drawn, strict=True):
        average, furthest = distance(shown_by_pdfium(documents[name], at), picture)
        assert average < 3.0, name
        assert furthest < 90, name


@needs_chromium
@pytest.mark.slow
def test_the_distance_notices_a_digit_and_a_millimetre(files, tmp_path: Path):
    """The comparison above can fail: one digit changed, or all a third of a millimetre aside."""
    file = next(file for file in files if file.role == "practice")
    page = file.pages[0]
    data = next(d.data for d in render(work(lesson())) if d.name == file.name)
    eights = {text: replace(text, text="6") for text in page.texts if text.text == "8"}
    units = (unit for unit in page.content if isinstance(unit, Unit))
    other = replace(
        page,
        content=tuple(
            replace(
                unit,
                items=tuple(
                    eights.get(item, item) if isinstance(item, Text) else item
                    for item in unit.items
                ),
            )
            for unit in units
        ),
    )
    aside = replace(page, content=tuple(moved(page.content, 0.35, 0.0)))
    right = shown_by_pdfium(data, 0)
    for picture in shown_by_chromium([svg(other), svg(aside)], tmp_path):
        assert distance(right, picture)[1] > 120
