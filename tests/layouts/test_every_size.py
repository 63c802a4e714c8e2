"""Every paper, square and size of print, measured in the files."""

import io
from itertools import pairwise

import pdfplumber
import pytest

from generator.packs.pack import Pack
from layouts.pdf.ink import pdf
from layouts.planning.errors import DoesNotFitError
from layouts.planning.paper import MARGIN, PAPERS
from layouts.planning.plan import PagePlan
from layouts.planning.sheet_type import square_for
from layouts.sheets.imposition import on_sheets
from layouts.sheets.sheet import sheet_pages
from specs.pages import PAGES
from specs.spec import BySheet
from tests.layouts.inked import MM, inks, is_grey, overlapping
from tests.layouts.lessons import pack
from tests.layouts.reading import Sheet
from tests.layouts.sheets import with_presentation
from tests.worked import worked

# Width and height in millimetres. A sizes: ISO 216:2007, table 1. Letter: ANSI/ASME Y14.1
# size A, 8.5 by 11 inches.
SIZES = {"A3": (297, 420), "A4": (210, 297), "A5": (148, 210), "Letter": (215.9, 279.4)}
SQUARES = (5, 7, 10)
LARGE = (None, 18, 24)
TOLERANCE = 0.1  # millimetres

LESSON = pack("12.5+7.25", "3.4+0.27", "6.002-2.415", "1.25+0.75", "9.5+0.7", title="Produce stall")

EVERY = [
    (paper, orientation, square, large)
    for paper in SIZES
    for orientation in ("portrait", "landscape")
    for square in SQUARES
    for large in LARGE
]


def sheets(lesson: Pack) -> tuple[PagePlan, ...]:
    versions = [sheet_pages(worked(lesson, section)) for section in lesson.of_kind("practice")]
    return tuple(on_sheets(versions, lesson.presentation))


def printed(lesson: Pack) -> list:
    return pdfplumber.open(io.BytesIO(pdf(sheets(lesson), "Test", "seed 1"))).pages


def test_all_that_a_spec_can_ask_for_is_measured_here():
    assert set(SIZES) == set(PAPERS) == set(PAGES.shapes["paper"].choices)
    assert PAGES.shapes["squares"].choices == SQUARES


@pytest.mark.parametrize("asked", EVERY, ids=lambda s: "-".join(map(str, s)))
@pytest.mark.slow
def test_squares_digits_margins_and_inks(asked):
    paper, orientation, square, large = asked
    lesson = with_presentation(
        LESSON, paper=paper, orientation=orientation, square=square, large=large
    )
    side = max(square, square_for(large or 0))
    digits = 0
    for page in printed(lesson):
        expected = SIZES[paper] if orientation == "portrait" else SIZES[paper][::-1]
        assert (float(page.width) * MM, float(page.height) * MM) == pytest.approx(
            expected, abs=0.01
        )

        sheet = Sheet(page)
        for lines in (sheet.verticals, sheet.horizontals):
            for first, second in pairwise(lines):
                assert (second - first) * MM == pytest.approx(side, abs=0.01)
        for digit in sheet.digits:
            row, column = sheet.place(digit)
            x, y = sheet.middle(digit)
            middle = sum(sheet.verticals[column : column + 2]) / 2
            assert abs(x - middle) * MM < TOLERANCE
            middle = sum(sheet.horizontals[row : row + 2]) / 2
            assert abs(y - middle) * MM < TOLERANCE
            assert digit["size"] >= (large or 0) - 0.01
        for point in sheet.points:
            x, _ = sheet.middle(point)
            assert min(abs(x - line) for line in sheet.verticals) * MM < TOLERANCE
        digits += len(sheet.digits)

        found = inks(page)
        for ink in found:
            assert min(ink.left, ink.top) >= MARGIN - 0.05, ink
            assert ink.right <= expected[0] - MARGIN + 0.05, ink
            assert ink.bottom <= expected[1] - MARGIN + 0.05, ink
        assert overlapping(found) == []
    assert digits == sum(
        character.isdigit()
        for item in LESSON.of_kind("practice")[0].items
        for character in item.question.text
    )


def test_large_print_is_planned_anew_not_scaled():
    """Digits of 18 points on the same paper: the squares grow, and there are fewer of them."""
    (usual,) = printed(with_presentation(LESSON, square=5))
    (large,) = printed(with_presentation(LESSON, square=5, large=18))
    sizes = [{round(digit["size"], 1) for digit in Sheet(page).digits} for page in (usual, large)]
    assert sizes == [{round(0.76 * 5 / MM, 1)}, {18.0}]
    assert len(Sheet(large).verticals) < len(Sheet(usual).verticals)
    assert float(large.width) == float(usual.width)


@pytest.mark.parametrize("large", [18, 24])
def test_no_word_or_letter_of_a_large_print_sheet_is_small(large):
    """UKAAF: large print is 16 points and more (from memory). The foot alone, which is for
    the teacher, is smaller: clear print, 12 points and more.
    """
    for page in printed(with_presentation(LESSON, large=large)):
        foot = float(page.height) - 25 / MM
        for char in page.chars:
            assert char["size"] >= (large - 0.01 if char["bottom"] < foot else 12)


def test_large_print_and_tint_go_by_tier():
    lesson = with_presentation(pack("1.5+2.5"), square=5)
    from dataclasses import replace

    shown = replace(
        lesson.presentation,
        large=BySheet(None, (("core", 24),)),
        tint=BySheet(None, (("core", "sky"),)),
    )
    lesson = replace(lesson, presentation=shown)
    starter, core = (
        sheet_pages(worked(lesson, section))[0]
        for section in lesson.sections
        if section.kind != "example"
    )
    assert max(text.size for text in starter.texts if text.text.isdigit()) < 12
    assert {round(text.size, 6) for text in core.texts if text.text.isdigit()} == {24}
    assert [hasattr(page.items[0], "fill") for page in (starter, core)] == [False, True]


@pytest.mark.parametrize("spacing", ["usual", "wide"])
def test_wider_spacing_leaves_two_squares_between_questions(spacing):
    lesson = with_presentation(pack(*["12.5+7.25"] * 24), square=5, spacing=spacing)
    gap = {"usual": 1, "wide": 2}[spacing]
    for page in printed(lesson):
        rules = sorted(Sheet(page).rules())
        for row, _, end in rules:
            beside = [start for other, start, _ in rules if other == row and start >= end]
            assert all(start - end >= gap for start in beside)


def test_the_strength_of_the_squares_is_the_teachers_choice():
    greys = {}
    for grid in ("plain", "faint", "none"):
        (page,) = printed(with_presentation(LESSON, grid=grid))
        greys[grid] = {line["stroking_color"] for line in page.lines if is_grey(line)}
    assert len(greys["plain"]) == len(greys["faint"]) == 1
    assert greys["plain"].pop()[0] < greys["faint"].pop()[0] < 1
    assert not greys["none"]
    (plain,), (none,) = (printed(with_presentation(LESSON, grid=g)) for g in ("plain", "none"))
    assert [c["x0"] for c in plain.chars] == [c["x0"] for c in none.chars], "digits keep places"


CUTS = [
    *((paper, 2, "portrait", (2, 1)) for paper in SIZES),
    *((paper, 2, "landscape", (1, 2)) for paper in SIZES),
    *((paper, 4, turned, (2, 2)) for paper in ("A3", "A4") for turned in ("portrait", "landscape")),
]


@pytest.mark.parametrize(("paper", "count", "orientation", "cells"), CUTS)
def test_pages_to_a_sheet_keep_their_margins_once_cut_apart(paper, count, orientation, cells):
    lesson = with_presentation(
        pack("12.5+7.25", versions=3),
        paper=paper,
        square=5,
        orientation=orientation,
        to_a_sheet=count,
        tint="cream",
    )
    pages = printed(lesson)
    assert len(pages) == -(-3 // count)
    for page in pages:
        size = float(page.width) * MM, float(page.height) * MM
        assert sorted(size) == pytest.approx(sorted(SIZES[paper]), abs=0.01)
        width, height = size[0] / cells[0], size[1] / cells[1]
        found = inks(page)
        for ink in found:
            if ink.what != "QR code":  # several, measured as one
                across, down = ink.left % width, ink.top % height
                assert across >= MARGIN - 0.05, ink
                assert across + ink.right - ink.left <= width - MARGIN + 0.05, ink
                assert down >= MARGIN - 0.05, ink
                assert down + ink.bottom - ink.top <= height - MARGIN + 0.05, ink
        assert overlapping([ink for ink in found if ink.what != "QR code"]) == []
    text = " ".join(page.extract_text() for page in pages)
    assert all(f"version {number}" in text for number in (1, 2, 3))


def faces(lesson: Pack) -> list[list[str]]:
    """What each side of the sheets says at its feet, from left to right and top to bottom."""
    sides = []
    for page in sheets(lesson):
        feet = [t for t in page.texts if t.text.startswith("page ")]
        named = [t for t in page.texts if t.text.startswith("Core practice,")]
        pairs = zip(
            sorted(feet, key=lambda t: (round(t.baseline), t.x)),
            sorted(named, key=lambda t: (round(t.baseline), t.x)),
            strict=True,
        )
        sides.append([f"{name.text[-1]}/{foot.text.split()[1]}" for foot, name in pairs])
    return sides


@pytest.mark.parametrize(
    ("versions", "count", "seen"),
    [
        (2, 4, [["1/1", "2/1"] * 2]),
        (2, 2, [["1/1", "2/1"]]),
        (3, 2, [["1/1", "2/1"], ["3/1"]]),
        (3, 4, [["1/1", "2/1", "3/1"]]),
    ],
)
def test_pages_that_a_sheet_holds_several_times_fill_it(versions, count, seen):
    lesson = pack("3.4+0.27", versions=versions)
    assert faces(with_presentation(lesson, to_a_sheet=count)) == seen


@pytest.mark.parametrize("duplex", [False, True])
@pytest.mark.parametrize("count", [2, 4])
@pytest.mark.parametrize("questions", [1, 8, 16, 26, 34, 42, 50])
@pytest.mark.slow
def test_no_sheet_mixes_versions_of_several_leaves(questions, count, duplex):
    """Cut apart, every piece of a sheet is one pupil's or all of it is: nothing is to be sorted."""
    lesson = with_presentation(
        pack(*["12.345+9.8+0.007+101.25+3.5"] * questions, versions=3),
        square=5,
        to_a_sheet=count,
        duplex=duplex,
    )
    pages = len(sheet_pages(worked(lesson, lesson.of_kind("practice")[0])))
    seen = faces(lesson)
    if pages > (2 if duplex else 1):
        assert all(len({page[0] for page in side}) <= 1 for side in seen)
    printed = [page for side in seen for page in side]
    assert sorted(printed) == sorted(f"{v}/{p}" for v in (1, 2, 3) for p in range(1, pages + 1))


@pytest.mark.parametrize("count", [1, 2, 4])
def test_a_page_alone_fills_its_sheet(count):
    (side,) = sheets(with_presentation(pack("3.4+0.27"), to_a_sheet=count))
    assert [text.text for text in side.texts].count("page 1 of 1") == count


def test_duplex_begins_each_version_on_a_front():
    lesson = pack(*["12.345+9.8+0.007+101.25+3.5"] * 26, versions=3)
    count = len(sheet_pages(worked(lesson, lesson.of_kind("practice")[0])))
    assert count == 3
    assert faces(lesson) == [[f"{v}/{p}"] for v in (1, 2, 3) for p in (1, 2, 3)]
    assert faces(with_presentation(lesson, duplex=True)) == [
        *(["1/1"], ["1/2"], ["1/3"], []),
        *(["2/1"], ["2/2"], ["2/3"], []),
        *(["3/1"], ["3/2"], ["3/3"]),
    ]


def test_duplex_puts_a_page_right_behind_the_one_before_it():
    """Turned over its left or right edge, the left half of a back lies behind the right half."""
    lesson = with_presentation(
        pack(*["12.345+9.8+0.007+101.25+3.5"] * 16, versions=4), square=5, to_a_sheet=2, duplex=True
    )
    assert len(sheet_pages(worked(lesson, lesson.of_kind("practice")[0]))) == 2
    assert faces(lesson) == [["1/1", "2/1"], ["2/2", "1/2"], ["3/1", "4/1"], ["4/2", "3/2"]]


@pytest.mark.parametrize("orientation", ["portrait", "landscape"])
@pytest.mark.parametrize("large", LARGE)
@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_no_question_has_a_page_to_itself_where_three_fit(paper, large, orientation):
    """Where a page has room for two, an odd question must stand alone; a third always helps."""
    for count in (*range(2, 16), 19, 25):
        lesson = with_presentation(
            pack(*["12.5+7.25"] * count), paper=paper, large=large, orientation=orientation
        )
        pages = sheet_pages(worked(lesson, lesson.of_kind("practice")[0]))
        sizes = [sum(text.text.endswith(")") for text in page.texts) for page in pages]
        assert sum(sizes) == count
        if max(sizes) > 2:
            assert min(sizes) > 1, sizes
            assert max(sizes) - min(sizes) <= 6, sizes


def test_a_question_alone_is_held_by_a_tighter_head():
    """Ten squares are wanted; the usual head leaves room for one question less."""
    lesson = with_presentation(
        pack(*["12.345+9.8+0.007+101.25+3.5"] * 4), paper="A5", square=10, large=18
    )
    pages = sheet_pages(worked(lesson, lesson.of_kind("practice")[0]))
    assert [sum(text.text.endswith(")") for text in page.texts) for page in pages] == [2, 2]


def test_a_page_too_small_is_refused_with_what_to_do():
    lesson = with_presentation(pack("123456.789-98765.432"), paper="A5", large=24, to_a_sheet=4)
    with pytest.raises(DoesNotFitError, match="smaller type than 'large: 24' or larger paper"):
        sheets(lesson)
