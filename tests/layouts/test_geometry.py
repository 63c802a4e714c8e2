"""Ink stands where squared paper wants it: measured in the files, not in the plans."""

import io
from itertools import pairwise

import pdfplumber
import pytest

from generator.packs.working_out import work
from layouts import render
from layouts.planning.paper import MARGIN
from tests.layouts.lessons import AWKWARD, pack
from tests.layouts.reading import POINTS_PER_MM, Sheet

TOLERANCE = 0.1 * POINTS_PER_MM

# Width and height in millimetres. A4 and A5: ISO 216:2007, table 1. Letter: 8.5 by 11 inches
# (ANSI/ASME Y14.1, size A). The slide: 13⅓ by 7.5 inches, common practice, no source.
SIZES = {"A4": (210, 297), "A5": (148, 210), "Letter": (215.9, 279.4)}
SLIDE = (338.667, 190.5)
SLIDES = ("examples.pdf", "answers.pdf", "lesson.pdf")


def size_of(name: str, paper: str) -> tuple[float, float]:
    """Slides are slides, what is for the teacher is never smaller than A4, and two pairs of
    examples lie side by side where half the paper is as large as the page of a book.
    """
    if name in SLIDES:
        return SLIDE
    if name == "examples-on-paper.pdf" and paper != "A5":
        return SIZES[paper][1], SIZES[paper][0]
    for_the_teacher = name in ("key.pdf", "plan.pdf", "answers-on-paper.pdf")
    return SIZES["A4" if for_the_teacher and paper == "A5" else paper]


PAPERS = [
    ("A4", 7),
    pytest.param(("A4", 5), marks=pytest.mark.slow),
    pytest.param(("A5", 7), marks=pytest.mark.slow),
    ("A5", 5),
    pytest.param(("Letter", 10), marks=pytest.mark.slow),
]


@pytest.fixture(scope="module", params=PAPERS, ids=lambda p: f"{p[0]}-{p[1]}mm")
def printed(request):
    """The files to look at: slides beside A4 alone, since they are the same beside all papers."""
    paper, square = request.param
    return (
        paper,
        square,
        {
            document.name: pdfplumber.open(io.BytesIO(document.data))
            for document in render(work(pack(*AWKWARD, paper=paper, square=square, versions=2)))
            if paper == "A4" or document.name not in SLIDES
        },
    )


def test_slides_are_the_same_whatever_the_paper():
    lessons = [
        render(work(pack(*AWKWARD[:4], paper=paper, square=square)))
        for paper, square in (("A4", 7), ("A5", 5), ("Letter", 10))
    ]
    first, *others = ([d.data for d in lesson if d.name in SLIDES] for lesson in lessons)
    assert others == [first, first]
    assert len(first) == len(SLIDES)


def test_pages_have_the_published_sizes(printed):
    paper, _, files = printed
    for name, file in files.items():
        expected = size_of(name, paper)
        for page in file.pages:
            for size, millimetres in zip((page.width, page.height), expected, strict=True):
                assert float(size) == pytest.approx(millimetres * POINTS_PER_MM, abs=0.01)


def test_squares_have_the_size_asked_for_and_lie_inside_the_margins(printed):
    paper, square, files = printed
    for page in files["practice-core.pdf"].pages:
        sheet = Sheet(page)
        for lines in (sheet.verticals, sheet.horizontals):
            for first, second in pairwise(lines):
                assert second - first == pytest.approx(square * POINTS_PER_MM, abs=0.03)
        assert sheet.verticals[0] >= MARGIN * POINTS_PER_MM
        right = SIZES[paper][0] * POINTS_PER_MM - sheet.verticals[-1]
        assert right == pytest.approx(sheet.verticals[0], abs=0.05)


def test_each_digit_stands_in_the_middle_of_its_square(printed):
    _, _, files = printed
    for page in (*files["practice-core.pdf"].pages, *files["starter.pdf"].pages):
        sheet = Sheet(page)
        for digit in sheet.digits:
            row, column = sheet.place(digit)
            x, y = sheet.middle(digit)
            assert x == pytest.approx(
                (sheet.verticals[column] + sheet.verticals[column + 1]) / 2, abs=TOLERANCE
            )
            assert y == pytest.approx(
                (sheet.horizontals[row] + sheet.horizontals[row + 1]) / 2, abs=TOLERANCE
            )
        places = [sheet.place(digit) for digit in sheet.digits]
        assert len(places) == len(set(places)), "two digits in one square"


def test_each_point_stands_on_a_grid_line(printed):
    _, _, files = printed
    for page in files["practice-core.pdf"].pages:
        sheet = Sheet(page)
        for point in sheet.points:
            x, _ = sheet.middle(point)
            assert min(abs(x - line) for line in sheet.verticals) < TOLERANCE


def test_points_of_one_question_and_of_those_below_it_are_in_line():
    (document,) = (d for d in render(work(pack(*["12.5+7.25"] * 12))) if d.name == "starter.pdf")
    (page,) = pdfplumber.open(io.BytesIO(document.data)).pages
    sheet = Sheet(page)
    across = sorted({round(sheet.middle(point)[0], 1) for point in sheet.points})
    assert len(sheet.points) == 24
    assert 1 < len(across) < 5, "one line of points for each column of questions"


def test_nothing_is_printed_in_the_margins(printed):
    paper, _, files = printed
    for name, file in files.items():
        width, height = size_of(name, paper)
        for page in file.pages:
            for thing in (*page.chars, *page.lines, *page.rects, *page.curves):
                assert thing["x0"] >= (MARGIN - 0.1) * POINTS_PER_MM, (name, thing)
                assert thing["x1"] <= (width - MARGIN + 0.1) * POINTS_PER_MM, (name, thing)
                assert thing["top"] >= (MARGIN - 0.1) * POINTS_PER_MM, (name, thing)
                assert thing["bottom"] <= (height - MARGIN + 0.1) * POINTS_PER_MM, (name, thing)


def test_text_on_a_line_never_runs_into_other_text(printed):
    """Characters on one baseline do not overlap, in any file."""
    _, _, files = printed
    for name, file in files.items():
        for page in file.pages:
            lines: dict[float, list[dict]] = {}
            for char in page.chars:
                if char["text"] not in " .":  # a point may stand close between two digits
                    lines.setdefault(round(char["matrix"][5], 1), []).append(char)
            for chars in lines.values():
                chars.sort(key=lambda char: char["x0"])
                for left, right in pairwise(chars):
                    slack = 0.12 * max(left["size"], right["size"])  # side bearings
                    assert left["x1"] <= right["x0"] + slack, (name, left["text"], right["text"])
