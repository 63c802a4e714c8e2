"""Workings for a screen: large enough for the back of a room, with all that a step speaks of."""

from functools import cache

import pytest

from generator.operations.working import Working
from generator.packs.building import build_pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts.planning.plan import Grid
from layouts.slides.board import LARGE_ENOUGH, rows_in_sight, square_on_a_screen, step_boards
from layouts.slides.window import holds_what_is_spoken_of
from specs import load_spec, shipped
from tests.lessons_that_ship import EACH


@cache
def workings(name: str) -> list[Working]:
    """The workings of a lesson's examples."""
    pack = work(build_pack(load_spec(shipped(name), VOCABULARY), 1))
    return [item.example.right for section in pack.of_kinds("example") for item in section.items]


@pytest.mark.parametrize("name", EACH)
def test_a_screen_shows_as_many_rows_as_leave_its_digits_large(name) -> None:
    for working in workings(name):
        shows_as_many_rows_as_leave_its_digits_large(working)


def shows_as_many_rows_as_leave_its_digits_large(working: Working) -> None:
    rows = rows_in_sight(working)
    side = square_on_a_screen(working, rows)
    others = [one for one in range(1, working.rows + 1) if holds_what_is_spoken_of(working, one)]
    assert rows in others
    if side >= LARGE_ENOUGH:
        assert all(square_on_a_screen(working, one) < LARGE_ENOUGH for one in others if one > rows)
    else:
        assert all(square_on_a_screen(working, one) <= side for one in others)


@pytest.mark.parametrize("name", EACH)
def test_all_boards_of_a_working_have_one_size(name) -> None:
    for working in workings(name):
        has_boards_of_one_size(working)


def has_boards_of_one_size(working: Working) -> None:
    boards = step_boards(working)
    assert len(boards) == len(working.steps)
    assert len({(board.width, board.height) for board in boards}) == 1
    for board in boards:
        (grid,) = [item for item in board.items if isinstance(item, Grid)]
        assert grid.rows == rows_in_sight(working)
