"""Blocks on pages, in whole squares."""

import re
from dataclasses import replace
from itertools import combinations, pairwise
from math import gcd
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.scaffold import scaffold
from generator.operations.methods import written_working
from generator.operations.working import Step, Working
from generator.packs.building import build_pack
from generator.packs.codes import PageCode
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts.planning.errors import DoesNotFitError
from layouts.planning.plan import Box, Grid
from layouts.planning.sheet_type import sheet_type
from layouts.planning.type_scale import WHITE
from layouts.planning.typeface import width
from layouts.sheets.arranging import Arrangement, Room, arrange, best_arrangement, every_tracks
from layouts.sheets.blocks import Block, blocks_of
from layouts.sheets.sheet import sheet_pages
from specs import load_spec, read_spec
from tests.layouts.lessons import items, pack, question
from tests.worked import worked

A4_7MM = (27, 35)
LESSONS = Path(__file__).parents[2] / "specs" / "lessons"
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
    assert min(edges) in (0, 1), "the first square only where that saves a page"
    assert all(len(units) == 1 for units in edges.values())
    gaps = [after - before for before, after in pairwise(sorted(edges))]
    narrowest = min(each.columns for each in given_blocks)
    assert not gaps or gcd(*gaps) > narrowest, "page columns evenly apart; a wide one takes several"


def test_a_wide_question_takes_the_place_of_several_and_the_others_stay_evenly_apart():
    texts = ("0+0.0", "0+0.000", "0+100.0", "0+0", "0+0")
    test_points_under_one_another_are_in_line_and_letters_at_one_edge.hypothesis.inner_test(
        [block(text) for text in texts]
    )


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


def divided(columns: int, rows: int) -> Block:
    """A question that stands on bare squares."""
    bare = Working(rows, columns, 0, (), (Step("", None),), None)
    return Block("a", bare)


def worded(columns: int, lines: int, rows: int) -> Block:
    """A question in words over bare squares."""
    bare = Working(rows, 2, 0, (), (Step("", None),), None)
    return Block("a", bare, lines=("words",) * lines, words_columns=columns, words_rows=lines)


mixtures = st.lists(
    st.one_of(
        st.sampled_from(["1.5+2.5", "12.25+7", "9.2-4.75", "1.5+2.25+3.125+4"]).map(block),
        st.builds(divided, st.integers(3, 11), st.integers(2, 9)),
        st.builds(worded, st.integers(4, 12), st.integers(1, 2), st.integers(2, 6)),
        st.integers(2, 5).map(lambda n: (worded(6, 2, n), worded(11, 1, n))),
    ),
    min_size=1,
    max_size=6,
)
rooms = st.builds(Room, st.integers(12, 30), st.integers(11, 36), st.integers(1, 2))


def divisions(first: int, end: int):
    """Every way to cut the questions from one to another into runs, in order."""
    if first == end:
        yield ()
    for cut in range(first + 1, end + 1):
        for rest in divisions(cut, end):
            yield ((first, cut), *rest)


def every_arrangement(choices, room):
    """All page columns, all lines, all pages that there is room for: nothing is left out."""
    for tracks in every_tracks(choices, room):
        for lines in divisions(0, len(choices)):
            if any(sum(tracks.spans[slice(*line)]) > tracks.across for line in lines):
                continue
            for runs in divisions(0, len(lines)):
                pages = tuple(lines[slice(*run)] for run in runs)
                if all(
                    sum(map(tracks.height, page)) + room.gap * (len(page) - 1) <= room.rows
                    for page in pages
                ):
                    yield Arrangement(tracks, pages)


@settings(max_examples=150, deadline=None)
@given(mixtures, rooms)
@pytest.mark.slow
def test_no_arrangement_costs_less_than_the_one_that_is_found(questions, room):
    """Against a search through all of them."""
    choices = shapes_of(questions)
    assume(all(min(shape.rows for shape in one) <= room.rows for one in choices))
    found = best_arrangement(choices, room)
    assert found in list(every_arrangement(choices, room))
    assert found.cost(room) == min(one.cost(room) for one in every_arrangement(choices, room))


def shapes_of(questions):
    return tuple(
        tuple(one.shape for one in ((q,) if isinstance(q, Block) else q)) for q in questions
    )


@settings(deadline=None)
@given(mixtures, rooms)
def test_nothing_is_wider_than_the_room_and_gaps_are_even_within_a_square(questions, room):
    assume(all(min(s.rows for s in one) <= room.rows for one in shapes_of(questions)))
    for page in arrange(questions, room):
        for placed in page:
            assert placed.label_column >= 0
            assert placed.column + placed.block.scaffold.columns <= room.columns
            assert placed.label_column + placed.block.words_columns <= room.columns
            assert placed.scaffold_row + placed.block.scaffold.rows <= room.rows
        lines = lines_of(page)
        ends = [max(p.scaffold_row + p.block.scaffold.rows for p in line) for line in lines]
        starts = [min(p.row for p in line) for line in lines]
        gaps = [start - end for end, start in zip(ends, starts[1:], strict=False)]
        if gaps:
            assert min(gaps) >= room.gap
            assert max(gaps) - min(gaps) <= 1
            foot = room.rows - ends[-1]
            assert foot <= max(gaps), "as much below the last line as between lines"


@pytest.mark.parametrize(
    ("questions", "lines"),
    [
        (["12.5+7.25"] * 4, [2, 2]),
        (["12.5+7.25"] * 5, [3, 2]),
        (["12.5+7.25"] * 6, [2, 2, 2]),
        (["12.5+7.25"] * 7, [3, 2, 2]),
        (["12.5+7.25"] * 9, [3, 3, 3]),
        (["12.5+7.25"] * 13, [3, 3, 3, 2, 2]),
    ],
    ids=str,
)
def test_a_page_of_a4_is_set_as_a_teacher_would(questions, lines):
    (page,) = arrange([block(q) for q in questions], Room(*A4_7MM))
    assert [len(line) for line in lines_of(page)] == lines


def test_a_wide_question_takes_two_page_columns_and_leaves_the_others_theirs():
    small = block("12.5+7.25")
    questions = [*[small] * 6, worded(16, 1, 3), *[small] * 4]
    (page,) = arrange(questions, Room(*A4_7MM))
    assert [len(line) for line in lines_of(page)] == [3, 3, 2, 3]
    assert {placed.label_column for placed in page} == {1, 10, 19}


@given(st.integers(2, 30), st.sampled_from([(27, 35), (18, 22), (40, 54)]))
def test_the_last_question_is_not_alone_on_its_line_where_two_or_more_go_across(count, size):
    pages = arrange([block("1.5+2.5")] * count, Room(*size))
    across = max(len(line) for page in pages for line in lines_of(page))
    alone = sum(len(line) == 1 for page in pages for line in lines_of(page))
    if across > 2:
        assert not alone
    elif across == 2:
        assert alone == count % 2


@given(st.integers(2, 40), st.sampled_from([(27, 35), (18, 22)]))
def test_pages_hold_as_many_as_each_other_within_a_line(count, size):
    pages = arrange([block("1.5+2.5")] * count, Room(*size))
    across = max(len(line) for page in pages for line in lines_of(page))
    sizes = [len(page) for page in pages]
    assert max(sizes) - min(sizes) <= across, sizes


def test_letters_of_a_line_stand_in_one_row_beside_their_first_numbers():
    taking = block("9.2-4.75")
    assert taking.letter_row == 1, "below the row for exchanged digits"
    adding, words = block("1.5+2.5"), worded(7, 1, 3)
    (page,) = arrange([taking, adding, words], Room(*A4_7MM))
    assert len(lines_of(page)) == 1


@pytest.mark.parametrize("lesson", sorted(LESSONS.glob("*.yaml")), ids=lambda path: path.stem)
def test_shipped_lessons_have_one_left_edge_and_room_for_every_working(lesson):
    """Letters of a section begin at one edge, in squares, and the written working fits."""
    built = work(build_pack(load_spec(lesson, VOCABULARY), seed=3))
    for section in built.of_kinds("starter", "practice"):
        edges = set()
        for page in sheet_pages(section):
            (grid,) = (item for item in page.items if isinstance(item, Grid))
            letters = [t for t in page.texts if re.fullmatch(r"[a-z]{1,2}\)", t.text)]
            columns = {round((t.x - grid.x) / grid.square - 0.5, 6) for t in letters}
            edges.add(min(columns))
            assert all(column == int(column) for column in columns)
        assert len(edges) == 1
        assert edges <= {0, 1}, "the first square only where that saves a page"
        sizes = sheet_type(section.presentation, section.name)
        grid = Grid(0.0, 0.0, sizes.square, *A4_7MM)
        for item in section.items:
            needed = 1 + max(mark.row for mark in item.working.marks())
            on_a_line = not item.working.rules and item.working.rows > 1
            for one in blocks_of(item, grid, sizes):
                if item.frame.squares.rules or on_a_line:
                    assert one.scaffold.rows >= needed - on_a_line, item.calculation


def test_words_side_by_side_share_one_band_of_whole_squares():
    asked = [worded(8, 1, 3), worded(8, 2, 3), block("12.5+7.25"), worded(8, 1, 3)]
    (page,) = arrange(asked, Room(27, 20))
    for line in lines_of(page):
        for placed in line:
            first, end, rows = placed.clear
            if placed.block.lines and first < end:
                others = [p for p in line if p is not placed and not p.block.lines]
                assert not any(first <= p.label_column < end for p in others)
                assert rows == max(p.block.words_rows for p in line)
    if len(lines_of(page)[0]) > 1:
        assert page[1].clear[0] == page[1].clear[1], "the first has the band of both"


IN_SQUARES = """
title: In squares
ladder:
  times: {operation: multiply, digits: [3, 2], places: [2, 1]}
  shared: {operation: divide, divisor_places: 1, dividend: {digits: 3}}
  stall: {operation: multiply, digits: [2, 1], places: [1, 0], context: any}
tiers:
  core: {times: 3, shared: 3}
  mixed: {times: 2, stall: 2}
"""


@pytest.mark.parametrize(("tier", "torn"), [("core", False), ("mixed", True)])
def test_calculations_stand_in_squares_and_only_sentences_take_squares_away(tier, torn):
    read = read_spec(IN_SQUARES.encode(), "in-squares.yaml", VOCABULARY)
    lesson = work(build_pack(read, 1))
    (section,) = [s for s in lesson.of_kinds("practice") if s.name == tier]
    in_squares = 0
    for page in sheet_pages(section):
        (grid,) = [item for item in page.content if isinstance(item, Grid)]
        bands = [i for i in page.items if isinstance(i, Box) and i.fill == WHITE]
        assert bool(bands) == torn
        for text in page.texts:
            if text.text in {*"0123456789×÷="} and grid.y < text.baseline < grid.y + grid.height:
                square = (text.x - grid.x) / grid.square
                assert abs(square % 1 - 0.5) < 0.01
                in_squares += 1
    assert in_squares > 12
