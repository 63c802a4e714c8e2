"""Files as a screen reader meets them: structure, order, what is said, what is passed over."""

import io
import re

import pdfua
import pikepdf
import pypdf
import pypdfium2
import pytest
from page import validate_pdf_bytes

from generator.packs.working_out import work
from layouts import render
from layouts.pdf.ink import pdf
from layouts.planning.plan import PagePlan, Role, Text, Unit
from tests.layouts.lessons import AWKWARD, pack
from tests.layouts.sheets import with_presentation

LESSON = pack(*AWKWARD, versions=2)
LESSONS = {
    "plain": LESSON,
    "large": with_presentation(LESSON, large=18, tint="cream"),
    "two to a sheet": with_presentation(LESSON, to_a_sheet=2, duplex=True, square=5),
}
SAID = ("/Formula", "/Figure")


@pytest.fixture(scope="module", params=LESSONS)
def documents(request):
    return render(work(LESSONS[request.param]))


def elements(reader: pypdf.PdfReader) -> list[pypdf.generic.DictionaryObject]:
    """The parts of the document, in reading order."""
    root = reader.trailer["/Root"]["/StructTreeRoot"]
    whole = root["/K"].get_object()
    assert whole["/S"] == "/Document"
    return [kid.get_object() for kid in whole["/K"]]


def named(documents, name):
    (found,) = (document for document in documents if document.name == name)
    return pypdf.PdfReader(io.BytesIO(found.data))


def test_files_are_marked_and_claim_pdf_ua(documents):
    """ISO 14289-1: 5 the claim, 7.1 Marked and DisplayDocTitle, 7.2 the language."""
    for document in documents:
        root = pypdf.PdfReader(io.BytesIO(document.data)).trailer["/Root"]
        assert root["/MarkInfo"]["/Marked"]
        assert root["/ViewerPreferences"]["/DisplayDocTitle"]
        assert root["/Lang"] == "en-GB"
        described = root["/Metadata"].get_data().decode()
        assert "<pdfuaid:part>1</pdfuaid:part>" in described
        assert "Produce stall: " in described
        assert document.data.startswith(b"%PDF-1.7")


def test_each_question_is_one_part_that_says_itself(documents):
    parts = elements(named(documents, "practice-core.pdf"))
    said = [part["/Alt"] for part in parts if part["/S"] == "/Formula"]
    items = [item for section in LESSON.of_kind("practice") for item in section.items]
    assert len(said) == len(items)
    assert said[0] == "question a: 0.6 plus 0.7"
    assert "question f: 123456.789 minus 98765.432" in said
    assert "question i: 1.234 plus 2.345 plus 3.456 plus 4.567 plus 5.678 plus 6.789" in said


def test_a_sheet_is_read_title_first_then_its_questions_in_order(documents):
    parts = elements(named(documents, "starter.pdf"))
    kinds = [str(part["/S"]) for part in parts]
    assert kinds[:2] == ["/H1", "/H2"]
    labels = [re.match(r"question (\w+):", part["/Alt"])[1] for part in parts if "/Alt" in part]
    assert labels == [item.label for item in LESSON.sections[0].items]


def test_headings_begin_at_the_first_level_and_skip_none(documents):
    """ISO 14289-1, 7.4.2."""
    for document in documents:
        reader = pypdf.PdfReader(io.BytesIO(document.data))
        levels = [int(part["/S"][2]) for part in elements(reader) if part["/S"] in ("/H1", "/H2")]
        assert levels[0] == 1


def test_all_that_is_drawn_is_said_or_passed_over(documents):
    """ISO 14289-1, 7.1: no ink outside a tagged part or an artefact, and none inside two."""
    paints = {"S", "f", "f*", "B", "Do", "Tj", "TJ", "'", '"', "n"}
    for document in documents:
        with pikepdf.open(io.BytesIO(document.data)) as file:
            for page in file.pages:
                depth = 0
                for operands, operator in pikepdf.parse_content_stream(page):
                    name = str(operator)
                    if name in ("BDC", "BMC"):
                        depth += 1
                    elif name == "EMC":
                        depth -= 1
                    elif name in paints:
                        assert depth == 1, (document.name, name, operands)
                assert depth == 0


def test_every_marked_part_is_in_the_tree_and_on_its_page(documents):
    """ISO 32000-1, 14.7.4: marked content, the parent tree and the elements agree."""
    for document in documents:
        with pikepdf.open(io.BytesIO(document.data)) as file:
            numbers = file.Root.StructTreeRoot.ParentTree.Nums
            assert len(numbers) == 2 * len(file.pages)
            for at, page in enumerate(file.pages):
                assert int(numbers[2 * at]) == page.obj["/StructParents"] == at
                marked = [
                    int(operands[1]["/MCID"])
                    for operands, operator in pikepdf.parse_content_stream(page)
                    if str(operator) == "BDC"
                ]
                parts = list(numbers[2 * at + 1])
                assert marked == [int(part["/K"]) for part in parts] == list(range(len(parts)))
                assert all(part["/Pg"].objgen == page.obj.objgen for part in parts)
                assert page.obj["/Tabs"] == "/S"


def test_drawings_say_what_they_show_and_where_they_are(documents):
    """ISO 14289-1, 7.3 and 7.7: alternate text for figures and formulas."""
    for document in documents:
        reader = pypdf.PdfReader(io.BytesIO(document.data))
        for part in elements(reader):
            if part["/S"] in SAID:
                assert part["/Alt"]
                left, bottom, right, top = map(float, part["/A"]["/BBox"])
                box = part["/Pg"]["/MediaBox"]
                assert 0 < left < right < float(box[2])
                assert 0 < bottom < top < float(box[3])
    key = elements(named(documents, "key.pdf"))
    workings = [part["/Alt"] for part in key if part["/S"] == "/Figure"]
    assert all(said.startswith("written working: ") for said in workings)
    assert any("tenths" in said for said in workings)


def test_a_step_of_an_example_is_told_as_far_as_it_has_come(documents):
    parts = elements(named(documents, "examples.pdf"))
    said = [part["/Alt"] for part in parts if part["/S"] == "/Figure"]
    assert said[1].startswith(said[0])
    assert len(said[1]) > len(said[0])


def test_each_answer_on_a_slide_is_one_part(documents):
    parts = [str(part["/S"]) for part in elements(named(documents, "answers.pdf"))]
    items = [item for section in LESSON.sections for item in section.items]
    asked = len(items) - len(LESSON.of_kind("example")[0].items)
    assert parts.count("/P") == asked


def test_the_pupils_turn_is_said(documents):
    parts = elements(named(documents, "examples.pdf"))
    said = [part["/Alt"] for part in parts if part["/S"] == "/Formula"]
    assert said[0] == "question b: 12.345 plus 9.8 plus 0.007 plus 101.25 plus 3.5"


def test_squares_and_feet_are_not_read_aloud(documents):
    reader = named(documents, "practice-core.pdf")
    for page in reader.pages:
        stream = page.get_contents()
        if stream is None:
            continue
        artefacts = re.findall(rb"/Artifact BMC(.*?)EMC", stream.get_data(), re.DOTALL)
        assert any(b" Do" in artefact for artefact in artefacts), "the squares"
        outside = re.sub(rb"/Artifact BMC.*?EMC", b"", stream.get_data(), flags=re.DOTALL)
        assert b" Do" not in outside


@pytest.mark.slow
def test_an_independent_checker_of_pdf_ua_finds_nothing(documents, tmp_path):
    """The pdfua package: 16 rules of PDF/UA-1, and some of WCAG 2.1 besides."""
    for document in documents:
        path = tmp_path / document.name
        path.write_bytes(document.data)
        report = pdfua.validate(str(path))
        assert not report.findings, (document.name, report.findings)


def test_the_fullest_checker_of_pdf_ua_finds_nothing(documents):
    """The page-validation package: 104 rules. That it notices damage: test_pdf_ua.py."""
    for document in documents:
        report = validate_pdf_bytes(document.data, profile="ua1")
        assert report.rules.total >= 104
        assert not report.failures, (document.name, report.to_dict())


def test_a_second_reader_opens_every_file_and_sees_its_text(documents):
    for document in documents:
        file = pypdfium2.PdfDocument(io.BytesIO(document.data))
        assert len(file) == document.pages
        assert "Produce" in file[0].get_textpage().get_text_range()
        assert pypdfium2.raw.FPDFCatalog_IsTagged(file)


def test_type_can_be_read_back_as_characters(documents):
    """ISO 14289-1, 7.21.7: every font maps its codes to Unicode."""
    for document in documents:
        for page in pypdf.PdfReader(io.BytesIO(document.data)).pages:
            for font in page["/Resources"].get("/Font", {}).values():
                assert "/ToUnicode" in font.get_object()


@pytest.mark.parametrize("said", ["a (b) or c)", "back\\slash", "£2 × 3 − 1 ≈", "ząb ▭ 5", "ⰨⰩ"])
def test_what_is_said_is_read_as_it_was_written(said):
    """ISO 32000-1, 7.9.2.2: text strings in PDFDocEncoding or UTF-16, brackets escaped."""
    unit = Unit(Role.QUESTION, (Text("5", 20, 20, 10),), says=said)
    data = pdf([PagePlan(210, 297, (unit,))], "title", "subject")
    (part,) = elements(pypdf.PdfReader(io.BytesIO(data)))
    assert part["/Alt"] == said
    with pikepdf.open(io.BytesIO(data)) as opened:
        assert str(opened.Root.StructTreeRoot.K.K[0].Alt) == said
