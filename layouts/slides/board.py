"""A working alone on its squares, as large as any screen allows: a picture a step.

Whatever shows them puts the words beside or below. All pictures of one working have one size,
so that nothing jumps between steps; of a tall working each shows the rows in play.
"""

from dataclasses import replace
from typing import Final

from generator.operations.working import Working
from layouts.planning.plan import Item, PagePlan, Role, Unit
from layouts.planning.wording import spoken_working
from layouts.planning.working_ink import Squares, step_ink, working_ink
from layouts.slides.window import first_row, rows_shown

SQUARE: Final = 20.0
"""The side of a square, in millimetres: pictures are shown larger or smaller than they are."""

MOST_ROWS: Final = 12
"""With more rows a digit would be too small for the back of a room, however large the screen."""

_EDGE: Final = 0.2 * SQUARE
"""Room around the squares for bars and boxes that reach over them."""


def step_boards(working: Working) -> tuple[PagePlan, ...]:
    """The working after each of its steps, the last of them made plain."""
    return tuple(step_board(working, steps) for steps in range(1, len(working.steps) + 1))


def step_board(working: Working, steps: int) -> PagePlan:
    """The working after so many of its steps."""
    shown = _shown(working, steps)
    return _board(shown, step_ink(shown, _SQUARES, steps), spoken_working(working, steps))


def finished_board(working: Working) -> PagePlan:
    """The whole working, no step of it before another."""
    count = len(working.steps)
    shown = _shown(working, count)
    ink = (_SQUARES.grid(shown), *working_ink(shown, _SQUARES))
    return _board(shown, ink, spoken_working(working, count))


def unexplained_board(working: Working) -> PagePlan:
    """The whole working, with nothing said of what is right or wrong in it."""
    return finished_board(replace(working, steps=(replace(working.setting_out, sentence=""),)))


_SQUARES: Final = Squares(_EDGE, _EDGE, SQUARE)


def _shown(working: Working, steps: int) -> Working:
    return rows_shown(working, first_row(working, steps, MOST_ROWS), MOST_ROWS)


def _board(working: Working, ink: tuple[Item, ...], says: str) -> PagePlan:
    return PagePlan(
        working.columns * SQUARE + 2 * _EDGE,
        working.rows * SQUARE + 2 * _EDGE,
        (Unit(Role.WORKING, ink, says=says),),
    )
