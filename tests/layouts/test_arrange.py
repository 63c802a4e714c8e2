"""Blocks on pages, in whole squares."""

import re
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.scaffold import scaffold
from generator.operations.methods import written_working
from generator.packs.codes import PageCode
from layouts.planning.errors import DoesNotFitError
from layouts.planning.typeface import width
from layouts.sheets.arranging import Room, arrange
from layouts.sheets.blocks import Block
from layouts.sheets.sheet import sheet_pages
from tests.layouts.lessons import items, pack, question
from tests.worked import worked

A4_7MM = (27, 35)
SMALL = scaffold(question("2.5+7.5"), written_working(question("2.5+7.5")))


def block(text: str, label: str = "a") -> Block:
    asked = question(text)
    return Block(label, scaffold(asked, written_working(asked)))


number = st.tuples(st.integers(0, 9999), st.integers(0, 3)).map(
    lambda pair: (
        f"{pair[0] // 10 ** pair[1]}"
        + (f".{pair[0] % 10 ** pair[1]:0{pair[1]}d}" if pair[1] else "")
    )
)
blocks = st.lists(
    st.lists(number, min_size=2, max_size=6).map("+".join).map(block), min_size=1, max_size=24
)


def squares_of(placed) -> set[tuple[int, int]]:
    """Every square that a block or its label needs."""
    working = placed.block.scaffold
    return {
        (placed.row + row, placed.column + column)
        for row in range(working.rows)
        for column in range(working.columns)
    } | {(placed.row + placed.block.letter_row, placed.label_column)}


@given(blocks)
def test_every_block_is_on_one_page_whole_in_order_and_apart_from_the_others(given_blocks):
    columns, rows = A4_7MM
    pages = arrange(given_blocks, Room(columns, rows))
    assert [placed.block for page in pages for placed in page] == given_blocks
    for page in pages:
        taken: set[tuple[int, int]] = set()
        for placed in page:
            mine = squares_of(placed)
            assert all(0 <= row < rows and 0 <= column < columns for row, column in mine)
            around = {(r + i, c + j) for r, c in mine for i in (-1, 0, 1) for j in (-1, 0, 1)}
            assert not around & taken, "at least one free square between blocks"
            taken |= mine


def lines_of(page) -> list[list]:
    """The questions of a page by the rows that their letters stand in."""
    rows: dict[int, list] = {}
    for placed in page:
        rows.setdefault(placed.row + placed.block.letter_row, []).append(placed)
    return list(rows.values())


@given(blocks)
def test_points_under_one_another_are_in_line_and_letters_at_one_edge(given_blocks):
    """On all pages of the section alike."""
    edges: dict[int, set[int]] = {}
    for page in arrange(given_blocks, Room(*A4_7MM)):
        for placed in page:
            units = placed.column + placed.block.scaffold.units_column
            edges.setdefault(placed.label_column, set()).add(units)
    assert min(edges) == 1
    assert all(len(units) == 1 for units in edges.values())
    lefts = sorted(edges)
    assert len({after - before for before, after in pairwise(lefts)}) <= 1, "evenly apart"


@given(blocks)
def test_a_letter_is_beside_its_first_number_and_never_on_a_digit(given_blocks):
    for page in arrange(given_blocks, Room(*A4_7MM)):
        for placed in page:
            letter = placed.row + placed.block.letter_row, placed.label_column
            digits = {
                (placed.row + mark.row, placed.column + mark.column)
                for mark in placed.block.scaffold.marks()
            }
            assert letter not in digits
            assert letter[0] in {row for row, _ in digits}


@pytest.mark.parametrize("count", range(2, 40))
def test_no_question_is_alone_on_a_last_page(count):
    pages = arrange([block("12.5+7.25")] * count, Room(*A4_7MM))
    assert len(pages[-1]) > 1


@pytest.mark.parametrize("count", [24, 30, 36])
def test_pages_are_filled_evenly(count):
    sizes = [len(page) for page in arrange([block("12.345+7.25+0.5+6")] * count, Room(*A4_7MM))]
    assert max(sizes) - min(sizes) <= 4, sizes  # one row of blocks


@given(
    st.lists(st.sampled_from([3, 4, 9, 12]), min_size=4, max_size=9),
    st.sampled_from([(27, 20), (13, 35)]),
)
def test_no_question_is_alone_where_a_neighbour_could_share_its_page(rows, size):
    """Each page has as many blocks across as suit it, when that is what it takes."""
    tall = [replace(block("2.5+7.5"), scaffold=replace(SMALL, rows=height)) for height in rows]
    pages = arrange(tall, Room(*size))
    if all(len(page) > 1 for page in pages):
        return
    for cuts in combinations(range(2, len(tall) - 1), len(pages) - 1):
        shares = [tall[first:end] for first, end in pairwise((0, *cuts, len(tall)))]
        if all(len(share) > 1 for share in shares):
            assert any(len(arrange(share, Room(*size))) > 1 for share in shares)


def test_a_division_by_two_digits_has_room_to_try_multiples():
    def rows(divisor):
        asked = Question(Operation.DIVIDE, (Number(8312), Number(divisor)), Ending.REMAINDER)
        return scaffold(asked, written_working(asked)).rows

    assert rows(95) == rows(9) + 4


def test_the_free_column_does_not_tell_the_length_of_the_answer():
    overflows, stays = block("9.5+0.7").scaffold, block("9.1+0.7").scaffold
    assert (overflows.columns, overflows.units_column) == (stays.columns, stays.units_column)
    assert overflows.rules == stays.rules
    signs = [[m.column for m in s.marks() if m.text == "+"] for s in (overflows, stays)]
    assert signs[0] == signs[1]


def test_a_question_wider_than_the_paper_is_refused_with_what_to_do():
    with pytest.raises(DoesNotFitError, match="smaller squares or larger paper"):
        arrange([block("123456789.123+1.5")], Room(13, 17))


def test_each_version_numbers_its_own_pages():
    lesson = pack(*["12.345+9.8+0.007+101.25+3.5"] * 16, versions=3)
    for section in lesson.of_kind("practice"):
        feet = [[text.text for text in page.texts] for page in sheet_pages(worked(lesson, section))]
        assert len(feet) > 1
        for number, foot in enumerate(feet, start=1):
            assert f"page {number} of {len(feet)}" in foot
            assert f"Core practice, version {section.version}" in foot
            code = PageCode("7F3A", 2024, 3, section.version, 2, number)
            assert f"code {code}" in foot
            assert "seed 2024" in foot


def test_a_starter_says_how_long_it_takes():
    lesson = pack("1.5+2.5")
    (page,) = sheet_pages(worked(lesson, lesson.sections[0]))
    assert {"Produce stall", "Starter", "about 10 minutes", "Name", "Date", "a)"} <= {
        text.text for text in page.texts
    }


def test_labels_after_z_still_fit_their_square():
    assert items(*["1+1"] * 28)[-1].label == "ab"
    for side in (5, 7, 10):
        lesson = pack(*["1+1"] * 28, square=side)
        for page in sheet_pages(worked(lesson, lesson.sections[0])):
            for text in page.texts:
                if text.text.endswith(")"):
                    assert width(text.text, text.size, bold=True) < side


@pytest.mark.parametrize("side", [5, 7, 10])
def test_all_letters_of_a_sheet_are_of_one_size(side):
    texts = [f"{n}.5+7.25" for n in range(1, 30)]
    lesson = pack(*texts, square=side)
    (section,) = [replace(lesson.sections[0], frames=("full", "none"))]
    sizes = {
        text.size
        for page in sheet_pages(worked(lesson, section))
        for text in page.texts
        if re.fullmatch(r"[a-z]{1,2}\)", text.text)
    }
    assert len(sizes) == 1
