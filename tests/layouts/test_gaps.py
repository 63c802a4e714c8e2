"""Gaps of questions: boxes of whole squares, on a line and in columns, of all four operations."""

import pytest

from generator.packs.building import build_pack
from generator.packs.working_out import work
from layouts.planning.extent import extent
from layouts.planning.plan import Box, Text
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


@pytest.mark.parametrize("land", ["England", "Germany"])
@pytest.mark.parametrize("frames", ["full", "none"])
def test_the_side_of_a_gap_stops_for_a_decimal_sign(frames: str, land: str) -> None:
    """A sign that stands on the line at the side of a box is not drawn over that line."""
    sections = f"tiers:\n  core: {{frames: {frames}, questions: {{rung: 12}}}}\n"
    asked = spec(
        "rung: {operation: add, places: 2, whole: 1, missing: {digit: [ones, tenths]}}",
        f"{sections}pages: {{land: {land}}}\n",
    )
    (section,) = work(build_pack(asked, 1)).of_kinds("practice")
    met = 0
    for page in sheet_pages(section):
        items = list(page.items)
        signs = [item for item in items if isinstance(item, Text) and item.text in (".", ",")]
        for sign in signs:
            left, _, right, _ = extent([sign])
            earlier = items[: items.index(sign)]
            on_a_side = [
                box
                for box in earlier
                if isinstance(box, Box)
                and box.weight == GAP_LINE
                and box.y < sign.baseline < box.y + box.height
                and any(left < x < right for x in (box.x, box.x + box.width))
            ]
            for box in on_a_side:
                met += 1
                over = earlier[earlier.index(box) :]
                assert any(
                    isinstance(clear, Box)
                    and clear.fill
                    and clear.x < sign.x - 0.4 < sign.x + 0.4 < clear.x + clear.width
                    and clear.y < sign.baseline - 0.6 < sign.baseline < clear.y + clear.height
                    for clear in over
                )
    assert met
