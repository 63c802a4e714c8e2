"""A working by a mistake beside the right one: what goes wrong, seen at one look."""

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem
from layouts.planning import typeface
from layouts.planning.plan import Item, PagePlan, Role, Unit, line_height, paragraph
from layouts.planning.type_scale import SLIDE_SENTENCES
from layouts.planning.wording import sentence_to_wrap, spoken_working
from layouts.planning.working_ink import Squares, working_ink
from layouts.slides.slide import BELOW_SMALL_TITLE, BODY_BOTTOM, LEFT, RIGHT, slide
from specs.languages.saying import say
from specs.languages.usage import Usage

_BETWEEN: Final = 20.0
_HALF: Final = (RIGHT - LEFT - _BETWEEN) / 2
_LARGEST: Final = 28.0
_SMALLEST: Final = 10.0
_HEAD: Final = SLIDE_SENTENCES[3]
_ABOVE_SENTENCE: Final = 5.0
MISTAKE: Final = say("With the mistake")
RIGHT_WAY: Final = say("Put right")


def side_by_side(title: str, item: WorkedItem, heading: str) -> Iterator[PagePlan]:
    """The slide of an example that shows a mistake, under both workings what the mistake was.

    None where the digits of two workings beside one another would be too small to read.
    """
    wrong, right = item.example.wrong, item.example.right
    if wrong is None:
        return
    said = sentence_to_wrap(wrong.steps[-1].sentence)
    for size in SLIDE_SENTENCES:
        lines = typeface.wrap(said, size, RIGHT - LEFT)
        if len(lines) <= 2:
            break
    top = BELOW_SMALL_TITLE + line_height(_HEAD)
    room = BODY_BOTTOM - top - len(lines) * line_height(size) - _ABOVE_SENTENCE
    rows = max(wrong.rows, right.rows)
    columns = max(wrong.columns, right.columns)
    side = math.floor(min(room / rows, _HALF / columns, _LARGEST) * 10 + 1e-6) / 10
    if side < _SMALLEST:
        return
    below = top + rows * side + _ABOVE_SENTENCE
    yield slide(
        heading,
        (
            *_half(item.say, MISTAKE, wrong, LEFT, top, side),
            *_half(item.say, RIGHT_WAY, right, LEFT + _HALF + _BETWEEN, top, side),
            *paragraph(lines, LEFT, below, size),
        ),
        title,
        item.say("side by side"),
        small_title=True,
    )


def _half(
    usage: Usage, named: str, working: Working, x: float, top: float, side: float
) -> Iterator[Item | Unit]:
    """A finished working under its heading. All of it is there at once, and nothing is lit."""
    steps = tuple(replace(step, sentence="") for step in working.steps)
    squares = Squares(x, top, side)
    heading = usage(named)
    yield from paragraph((heading,), x, BELOW_SMALL_TITLE, _HEAD, bold=True)
    ink = (squares.grid(working), *working_ink(replace(working, steps=steps), squares))
    spoken = spoken_working(working, len(working.steps), usage)
    yield Unit(Role.WORKING, ink, says=f"{heading}: {spoken}")
