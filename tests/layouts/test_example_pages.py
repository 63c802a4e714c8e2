"""Worked examples on paper: a pair a page, the working, every step, and room for the match."""

import io
import itertools
from dataclasses import replace
from typing import Any

import pdfplumber
import pytest

from generator.arithmetic.questions import Ending
from generator.forms.question_words import answer_text
from generator.operations.methods import written_working
from generator.packs.pack import Pack
from generator.packs.working_out import conventions, work
from layouts.pdf.ink import pdf
from layouts.planning.errors import DoesNotFitError
from layouts.planning.extent import extent
from layouts.planning.paper import MARGIN, PAPERS
from layouts.planning.plan import Grid, Line, PagePlan, Role, Unit
from layouts.planning.sheet_type import square_for
from layouts.planning.type_scale import STEP_TEXTS
from layouts.sheets.example_pages import pairs_on_sheets, printed_pairs
from layouts.sheets.pairs import SMALLEST_SQUARE, SQUARES
from tests.layouts.inked import MM, inks, overlapping
from tests.layouts.lessons import question
from tests.layouts.sheets import with_presentation
from tests.layouts.test_products_and_quotients import divided, lesson, times
from tests.worked import frame_of, worked

PAIRS = {
    "five addends": (
        question("1.234+2.345+3.456+4.567+5.678"),
        question("2.234+2.345+3.456+4.567+5.679"),
    ),
    "through noughts": (question("10.004-3.756"), question("20.003-4.567")),
    "long multiplication": (times("12.4 × 2.6"), times("23.5 × 1.7")),
    "three factors": (times("0.3 × 0.4 × 2.5"), times("0.2 × 0.6 × 1.5")),
    "whole numbers": (times("342 × 7"), times("453 × 6")),
    "carried on": (divided("20 ÷ 3", Ending.ROUNDED, 2), divided("50 ÷ 7", Ending.ROUNDED, 2)),
    "two-digit divisor": (divided("432 ÷ 15", Ending.DECIMAL), divided("741 ÷ 15", Ending.DECIMAL)),
    "remainder": (divided("432 ÷ 5", Ending.REMAINDER), divided("374 ÷ 5", Ending.REMAINDER)),
}
LESSON = lesson(*itertools.chain(*PAIRS.values()))
TALL = times("1.23 × 4.56 × 7.89"), times("1.24 × 4.56 × 7.89")
"""Twenty rows and fifty-one steps: too much for a page."""

named = pytest.mark.parametrize("pair", PAIRS.values(), ids=PAIRS)


def pages(pack: Pack) -> tuple[PagePlan, ...]:
    return printed_pairs(worked(pack, pack.of_kind("example")[0]))


def printed(planned: tuple[PagePlan, ...]) -> list[Any]:
    return list(pdfplumber.open(io.BytesIO(pdf(planned, "Test", "seed 1"))).pages)


def units(page: PagePlan, *roles: Role) -> list[Unit]:
    return [part for part in page.content if isinstance(part, Unit) and part.role in roles]


def said(planned: tuple[PagePlan, ...]) -> str:
    """All words in their order, lines joined by spaces."""
    return " ".join(text.text for page in planned for text in page.texts)


def grids(page: PagePlan) -> list[Grid]:
    return [item for item in page.items if isinstance(item, Grid)]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("square", [5, 7, 10])
def test_each_pair_is_one_upright_page(paper, square):
    pack = with_presentation(LESSON, paper=paper, square=square, orientation="landscape")
    planned = pages(pack)
    assert len(planned) == len(PAIRS)
    for page in planned:
        assert (page.width, page.height) == (PAPERS[paper].width, PAPERS[paper].height)


@pytest.mark.parametrize(
    ("words", "parts", "size"),
    [
        ({}, 2, (297, 210)),
        ({"large": 24}, 1, (210, 297)),
        ({"to_a_sheet": 2}, 2, (297, 210)),
        ({"to_a_sheet": 4}, 2, (297, 210)),
        ({"orientation": "landscape"}, 2, (297, 210)),
        ({"paper": "Letter", "to_a_sheet": 2}, 2, (279.4, 215.9)),
        ({"paper": "A3", "to_a_sheet": 4}, 4, (297, 420)),
        ({"paper": "A5"}, 1, (148, 210)),
        ({"paper": "A5", "to_a_sheet": 2}, 1, (148, 210)),
        ({"paper": "A5", "orientation": "landscape"}, 1, (148, 210)),
        ({"to_a_sheet": 2, "large": 24}, 2, (297, 210)),
    ],
    ids=str,
)
def test_pairs_go_as_many_to_a_sheet_as_a_book_has_room_for(words, parts, size):
    pack = with_presentation(lesson(*PAIRS["five addends"], *PAIRS["remainder"]), **words)
    planned = list(pairs_on_sheets(work(pack).of_kinds("example")))
    assert {(page.width, page.height) for page in planned} == {size}
    most = max(sum(t.text.startswith("code ") for t in page.texts) for page in planned)
    assert most == parts
    for page in planned:
        for unit in page.content:
            if isinstance(unit, Unit):
                left, _, right, _ = extent(unit.items)
                across = 2 if parts > 1 else 1
                width = page.width / across
                assert left // width == (right - 0.01) // width, "no piece is cut through"


@named
def test_every_step_is_there_in_its_own_words(pair):
    pack = lesson(*pair)
    steps = written_working(pair[0], conventions(pack.presentation)).steps
    words = said(pages(pack))
    at = -1
    for number, step in enumerate(steps, start=1):
        found = words.index(f"{number} {step.sentence}", at + 1)
        assert found > at
        at = found


@named
def test_the_working_is_the_finished_one_at_the_size_of_a_sheet(pair):
    pack = lesson(*pair)
    (page,) = pages(pack)
    (working,) = units(page, Role.WORKING)
    whole = written_working(pair[0], conventions(pack.presentation))
    (grid,) = (item for item in working.items if isinstance(item, Grid))
    assert (grid.columns, grid.rows) == (whole.columns, whole.rows)
    assert grid.square in SQUARES
    digits = [mark.text for mark in whole.marks()]
    drawn = [item.text for item in working.items if hasattr(item, "text")]
    assert "".join(drawn).count("".join(digits)) == 1
    assert working.says.endswith(whole.steps[-1].sentence)


@named
def test_the_match_is_set_out_as_on_a_practice_sheet_with_room_to_work(pair):
    pack = lesson(*pair)
    (page,) = pages(pack)
    (asked,) = units(page, Role.QUESTION)
    item = pack.of_kind("example")[0].items[1]
    frame = frame_of(pack, item, None)
    assert asked.says.startswith("question b: ")
    letters = [text.text for text in page.texts if text in asked.items]
    assert letters[0] == "b)"
    given = [mark.text for mark in frame.squares.marks()]
    assert "".join(given) in "".join(letters)
    squares = grids(page)[-1]
    left, top, right, bottom = extent(asked.items)
    thickest = max((line.weight for line in asked.items if isinstance(line, Line)), default=0)
    assert squares.x - thickest / 2 <= left  # a rule may begin on the edge
    assert right <= squares.x + squares.width
    assert squares.y <= top
    assert bottom <= squares.y + squares.height
    assert squares.rows > frame.squares.rows


@named
def test_the_answer_of_the_match_is_nowhere_on_its_page(pair):
    (page,) = printed(pages(lesson(*pair)))
    words = page.extract_text().split()
    answers = answer_text(pair[1]).replace("=", " ").split()
    for answer in answers:
        if len(answer) > 2:
            assert answer not in words
    given = answer_text(pair[0]).split()[-1]
    assert given in " ".join(words), "the example's is"


def test_a_page_says_the_rung_and_carries_its_code():
    pack = LESSON
    for number, page in enumerate(pages(pack), start=1):
        headings = [unit.items[0].text for unit in units(page, Role.HEADING)]
        assert headings == ["Rung", "Your turn"]
        words = [text.text for text in page.texts]
        assert words[0] == "Produce stall"
        assert f"page {number} of {len(PAIRS)}" in words
        assert "seed 2024" in words
        assert any(word.startswith("code 7F3A-") for word in words)
        titles = units(page, Role.TITLE)
        assert len(titles) == (number == 1)


def test_steps_of_a_column_method_are_numbered_over_their_columns():
    pack = lesson(*PAIRS["through noughts"])
    (page,) = pages(pack)
    (working,) = units(page, Role.WORKING)
    grid = next(item for item in working.items if isinstance(item, Grid))
    over = {
        int(item.text): (item.x - grid.x) / grid.square - 0.5
        for item in working.items
        if hasattr(item, "text") and item.baseline < grid.y
    }
    steps = written_working(PAIRS["through noughts"][0], conventions(pack.presentation)).steps
    columns = {at: step.column for at, step in enumerate(steps, 1) if step.column is not None}
    assert over == pytest.approx(columns)


def test_a_long_multiplication_has_its_numbers_in_the_list_alone():
    (page,) = pages(lesson(*PAIRS["long multiplication"]))
    (working,) = units(page, Role.WORKING)
    grid = next(item for item in working.items if isinstance(item, Grid))
    assert all(item.baseline > grid.y for item in working.items if hasattr(item, "text"))


def test_squares_and_type_give_way_only_where_they_must():
    sizes = {}
    for name, pair in PAIRS.items():
        (page,) = pages(lesson(*pair))
        steps = [unit.items[-1].size for unit in units(page, Role.PARAGRAPH)[1:]]
        assert len(set(steps)) == 1
        sizes[name] = grids(page)[0].square, steps[0]
    assert sizes["five addends"] == sizes["whole numbers"] == (SQUARES[0], STEP_TEXTS[0])
    assert sizes["long multiplication"][1] in STEP_TEXTS
    assert sizes["long multiplication"] < sizes["five addends"]


HALF_A_RULE = 0.3
"""Half a rule's weight, at most: extents reckon it at the ends of a line too."""

EVERY = [
    (paper, large, tint, square)
    for paper in PAPERS
    for large, tint in ((None, None), (18, "cream"), (24, None))
    for square in (5, 7)
]


@pytest.mark.parametrize("looks", EVERY, ids=lambda s: "-".join(map(str, s)))
def test_nothing_is_clipped_or_lies_over_anything_else(looks):
    paper, large, tint, square = looks
    pack = with_presentation(
        lesson(*itertools.chain(*PAIRS.values()), *TALL),
        paper=paper,
        large=large,
        tint=tint,
        square=square,
    )
    for page in pages(pack):
        boxes = [extent(unit.items) for unit in page.content if isinstance(unit, Unit)]
        for left, top, right, bottom in boxes:
            assert min(left, top) >= MARGIN - HALF_A_RULE
            assert right <= page.width - MARGIN + HALF_A_RULE
            assert bottom <= page.height - MARGIN + 0.05
        for one, other in itertools.combinations(boxes, 2):
            across = min(one[2], other[2]) - max(one[0], other[0])
            down = min(one[3], other[3]) - max(one[1], other[1])
            assert min(across, down) < 0.05, (one, other)
        for grid in grids(page):
            assert grid.y + grid.height <= page.height - MARGIN - 9
            assert grid.square >= SMALLEST_SQUARE


@pytest.mark.parametrize("large", [None, 18])
@pytest.mark.parametrize("paper", ["A4", "A5", "Letter"])
def test_inks_keep_apart_in_the_file(paper, large):
    """Measured with pdfplumber; pairs without strokes, which lie over digits on purpose."""
    pairs = [*PAIRS["five addends"], *PAIRS["whole numbers"]]
    for page in printed(pages(with_presentation(lesson(*pairs), paper=paper, large=large))):
        found = inks(page)
        assert overlapping(found) == []
        for ink in found:
            assert min(ink.left, ink.top) >= MARGIN - 0.05
            assert ink.right <= float(page.width) * MM - MARGIN + 0.05
            assert ink.bottom <= float(page.height) * MM - MARGIN + 0.05


def test_what_is_too_long_for_a_page_goes_on_to_the_next_and_nothing_is_left_out():
    pack = lesson(*TALL)
    planned = pages(pack)
    assert len(planned) > 1
    headings = [units(page, Role.HEADING)[0].items[0].text for page in planned]
    assert headings == ["Rung", *["Rung, continued"] * (len(planned) - 1)]
    words = said(planned)
    for step in written_working(TALL[0], conventions(pack.presentation)).steps:
        # A sentence is never parted by the end of a page.
        assert step.sentence in words
    assert [len(units(page, Role.QUESTION)) for page in planned] == [0] * (len(planned) - 1) + [1]


@pytest.mark.parametrize("large", [18, 24])
def test_large_print_stays_large(large):
    pack = with_presentation(lesson(*PAIRS["five addends"]), large=large)
    planned = pages(pack)
    assert len(planned) <= {18: 2, 24: 3}[large]
    for page in planned:
        for grid in grids(page):
            assert grid.square == pytest.approx(square_for(large))
    for unit in units(planned[0], Role.PARAGRAPH):
        assert unit.items[-1].size == large


def test_a_small_page_takes_two_where_one_will_not_do():
    planned = pages(with_presentation(lesson(*PAIRS["long multiplication"]), paper="A5"))
    assert len(planned) == 2


def test_an_example_without_a_match_has_a_page_without_a_turn():
    (page,) = pages(lesson(question("3.4+0.27")))
    assert not units(page, Role.QUESTION)
    assert "Your turn" not in said((page,))


def test_a_pair_without_room_is_refused_with_what_to_do():
    pack = with_presentation(lesson(*PAIRS["through noughts"]), paper="A5", large=24)
    crowded = replace(pack, title="Counting at the produce stall " * 12)
    with pytest.raises(DoesNotFitError, match="on A5; choose larger paper or smaller type"):
        pages(crowded)
