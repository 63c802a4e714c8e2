"""Where the parts of a file begin, as two readers that nobody here wrote list them beside it."""

import io

import pypdf
import pypdfium2
import pytest

from generator.packs.working_out import work
from layouts import render
from layouts.files.documents import plan
from layouts.pdf.ink import pdf
from layouts.planning.plan import PagePlan, Role, Text, Unit
from tests.layouts.lessons import AWKWARD, pack

LESSON = work(pack(*AWKWARD, versions=2))


def titled(*titles: str) -> list[PagePlan]:
    """Pages with these titles, "" for none."""
    pages = []
    for title in titles:
        role = Role.TITLE if title else Role.PARAGRAPH
        unit = Unit(role, (Text(title or "goes on", 10.0, 10.0, 12.0),))
        pages.append(PagePlan(100.0, 50.0, (unit,)))
    return pages


def read(data: bytes) -> list[tuple[str, int]]:
    """The bookmarks, with the numbers of their pages from nought; both readers say the same."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    found = [(str(one.title), reader.get_destination_page_number(one)) for one in reader.outline]
    document = pypdfium2.PdfDocument(data)
    other = [(one.get_title(), one.get_dest().get_index()) for one in document.get_toc()]
    assert other == found
    return found


def test_a_part_is_one_bookmark_however_many_pages_it_has():
    pages = titled("Starter", "Starter", "Your turn", "Your turn", "Your turn: answer", "Your turn")
    assert read(pdf(pages, "A deck", "")) == [
        ("Starter", 0),
        ("Your turn", 2),
        ("Your turn: answer", 4),
        ("Your turn", 5),
    ]


def test_a_page_without_a_title_goes_on_with_the_part():
    assert read(pdf(titled("Marks", "", "By rung", ""), "Marks", "")) == [
        ("Marks", 0),
        ("By rung", 2),
    ]


@pytest.mark.parametrize("titles", [("Core practice",), ("Core practice",) * 3, ("", "")])
def test_a_file_of_one_part_has_none(titles):
    data = pdf(titled(*titles), "A sheet", "")
    assert read(data) == []
    assert "/Outlines" not in pypdf.PdfReader(io.BytesIO(data)).trailer["/Root"]


def test_titles_are_read_as_they_were_written():
    titles = ["Übung (Grundlagen)", "3 × 4 \\ 0,5", "Ułamki – dzielenie", "Остаток"]
    assert [title for title, _ in read(pdf(titled(*titles), "Titles", ""))] == titles


def test_every_file_of_a_pack_has_its_parts():
    """The deck and the examples: what the teacher goes back to when a class asks."""
    found = {document.name: read(document.data) for document in render(LESSON)}
    for file in plan(LESSON):
        parts: list[tuple[str, int]] = []
        for number, page in enumerate(file.pages):
            for unit in page.content:
                if isinstance(unit, Unit) and unit.role is Role.TITLE:
                    title = " ".join(item.text for item in unit.items if isinstance(item, Text))
                    if not parts or parts[-1][0] != title:
                        parts.append((title, number))
        assert found[file.name] == (parts if len(parts) > 1 else []), file.name
    examples = [title for title, _ in found["examples.pdf"]]
    assert examples[:3] == ["Worked example: Through zeros", "Your turn", "Your turn: answer"]
    assert found["lesson.pdf"][0][1] == 0
