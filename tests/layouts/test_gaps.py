"""Gaps of questions: boxes of whole squares, on a line and in columns, of all four operations."""

import pytest

from generator.packs.building import build_pack
from generator.packs.working_out import work
from layouts.planning.plan import Box
from layouts.planning.type_scale import GAP_LINE
from layouts.sheets.sheet import sheet_pages
from tests.generator.ladders import spec

SQUARE = 7.0


def gaps(conditions: str, frames: str = "full") -> list[Box]:
    """The boxes to write in, of six questions on a sheet."""
    sections = f"tiers:\n  core: {{frames: {frames}, questions: {{rung: 6}}}}\n"
    worked = work(build_pack(spec(f"rung: {{{conditions}}}", sections), 1))
    (section,) = worked.of_kinds("practice")
    return [
        item
        for page in sheet_pages(section)
        for item in page.items
        if isinstance(item, Box) and item.weight == GAP_LINE
    ]


@pytest.mark.parametrize(
    ("conditions", "boxes"),
    [
        ("operation: add, places: 2, whole: 1", 6),
        ("operation: subtract, places: 2, whole: 1", 6),
        ("operation: multiply, digits: [2, 1], places: [1, 0]", 12),  # on its line, and below
        ("operation: multiply, digits: [2, 2], places: [1, 0]", 12),
        ("operation: divide, dividend: {digits: 3}", 6),
    ],
)
def test_a_missing_digit_has_a_whole_square(conditions: str, boxes: int) -> None:
    found = gaps(f"{conditions}, missing: {{digit: [ones, tenths, hundredths, tens]}}")
    assert len(found) == boxes
    for box in found:
        assert (box.width, box.height) == pytest.approx((SQUARE, SQUARE))


@pytest.mark.parametrize("operation", ["add", "subtract", "multiply", "divide"])
def test_a_missing_number_has_four_squares_however_long_it_is(operation: str) -> None:
    found = gaps(f"operation: {operation}, missing: second")
    assert len(found) == 6
    for box in found:
        assert (box.width, box.height) == pytest.approx((4 * SQUARE, SQUARE))
