"""A working alone on its squares, as large as any screen allows: a picture a step.

Whatever shows them puts the words beside or below. All pictures of one working have one size,
so that nothing jumps between steps; where the whole of it would make digits too small for the
back of a room, each shows the rows in play.
"""

from dataclasses import replace
from typing import Final

from generator.operations.working import Working
from layouts.planning import typeface
from layouts.planning.plan import Item, PagePlan, Role, Unit
from layouts.planning.wording import spoken_working
from layouts.planning.working_ink import FULL, Squares, step_ink, working_ink
from layouts.slides.window import first_row, holds_what_is_spoken_of, rows_shown
from specs.languages.usage import PLAIN, Usage

SQUARE: Final = 20.0
"""The side of a square, in millimetres: pictures are shown larger or smaller than they are."""

MOST_ROWS: Final = 12
"""With more rows a digit would be too small for the back of a room, however large the screen."""

_EDGE: Final = 0.2 * SQUARE
"""Room around the squares for bars and boxes that reach over them."""

WIDE: Final = 1.72
"""The room for a working and its sentence across, in heights of a screen of 16:9."""
HIGH: Final = 0.8
"""And down: the question stands over it, and a line of controls under it."""
ACROSS: Final = 0.68
"""What of the one a working takes beside its sentence …"""
DOWN: Final = 0.66
"""… and of the other above it."""

LARGE_ENOUGH: Final = 1 / 12 / (FULL * typeface.DIGIT_HEIGHT)
"""The side of a square whose digits are a twelfth of the screen's height, in such heights."""


def rows_in_sight(working: Working) -> int:
    """How many rows of a working each of its steps shows on a screen.

    As many as leave digits large enough, or as large as any number of rows does; but no fewer
    than hold all that a step speaks of.
    """
    most = min(working.rows, MOST_ROWS)
    held = [rows for rows in range(most, 0, -1) if holds_what_is_spoken_of(working, rows)]
    return max(
        held or [most],
        key=lambda rows: (min(square_on_a_screen(working, rows), LARGE_ENOUGH), rows),
    )


def square_on_a_screen(working: Working, rows: int) -> float:
    """How large a screen shows squares, in its height, the sentence beside or below them."""
    across, down = working.columns + 2 * _EDGE / SQUARE, rows + 2 * _EDGE / SQUARE
    beside = min(HIGH / down, ACROSS * WIDE / across)
    return max(beside, min(DOWN * HIGH / down, WIDE / across))


def step_boards(working: Working, usage: Usage = PLAIN) -> tuple[PagePlan, ...]:
    """The working after each of its steps, the last of them made plain."""
    rows = rows_in_sight(working)
    return tuple(_after(working, steps, rows, usage) for steps in range(1, len(working.steps) + 1))


def _after(working: Working, steps: int, rows: int, usage: Usage) -> PagePlan:
    shown = _shown(working, steps, rows)
    return _board(shown, step_ink(shown, _SQUARES, steps), spoken_working(working, steps, usage))


def finished_board(working: Working, usage: Usage = PLAIN) -> PagePlan:
    """The whole working, no step of it before another."""
    count = len(working.steps)
    shown = _shown(working, count, MOST_ROWS)
    ink = (_SQUARES.grid(shown), *working_ink(shown, _SQUARES))
    return _board(shown, ink, spoken_working(working, count, usage))


def unexplained_board(working: Working, usage: Usage = PLAIN) -> PagePlan:
    """The whole working, with nothing said of what is right or wrong in it."""
    silent = replace(working, steps=(replace(working.setting_out, sentence=""),))
    return finished_board(silent, usage)


_SQUARES: Final = Squares(_EDGE, _EDGE, SQUARE)


def _shown(working: Working, steps: int, rows: int) -> Working:
    return rows_shown(working, first_row(working, steps, rows), rows)


def _board(working: Working, ink: tuple[Item, ...], says: str) -> PagePlan:
    return PagePlan(
        working.columns * SQUARE + 2 * _EDGE,
        working.rows * SQUARE + 2 * _EDGE,
        (Unit(Role.WORKING, ink, says=says),),
    )
