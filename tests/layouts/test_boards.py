"""Workings for a screen: large enough for the back of a room, with all that a step speaks of."""

import pytest

from generator.packs.building import build_pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts.planning.plan import Grid
from layouts.slides.board import LARGE_ENOUGH, rows_in_sight, square_on_a_screen, step_boards
from layouts.slides.window import holds_what_is_spoken_of
from specs import load_spec, shipped, shipped_names

WORKINGS = [
    pytest.param(item.example.right, id=f"{name}: {item.rung} {item.label}")
    for name in shipped_names()
    for section in work(build_pack(load_spec(shipped(name), VOCABULARY), 1)).of_kinds("example")
    for item in section.items
]


@pytest.mark.parametrize("working", WORKINGS)
def test_a_screen_shows_as_many_rows_as_leave_its_digits_large(working) -> None:
    rows = rows_in_sight(working)
    side = square_on_a_screen(working, rows)
    others = [one for one in range(1, working.rows + 1) if holds_what_is_spoken_of(working, one)]
    assert rows in others
    if side >= LARGE_ENOUGH:
        assert all(square_on_a_screen(working, one) < LARGE_ENOUGH for one in others if one > rows)
    else:
        assert all(square_on_a_screen(working, one) <= side for one in others)


@pytest.mark.parametrize("working", WORKINGS)
def test_all_boards_of_a_working_have_one_size(working) -> None:
    boards = step_boards(working)
    assert len(boards) == len(working.steps)
    assert len({(board.width, board.height) for board in boards}) == 1
    for board in boards:
        (grid,) = [item for item in board.items if isinstance(item, Grid)]
        assert grid.rows == rows_in_sight(working)
