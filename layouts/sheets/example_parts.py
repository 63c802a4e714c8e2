"""The parts of a worked example on paper: its question, its working, its steps in words."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem
from layouts.planning import typeface
from layouts.planning.paper_page import PaperPage
from layouts.planning.plan import Box, Item, Role, Text, Unit, line_height, moved, paragraph
from layouts.planning.type_scale import DARK, FINE_LINE, MM_PER_POINT
from layouts.planning.wording import breakable, sentence_to_wrap, spoken_working
from layouts.planning.working_ink import Squares, working_ink

BETWEEN: Final = 1.2
"""Between one step and the next."""
_RING: Final = 1.6
"""The ring around a step's number, in ems of the number."""
_IN_LIST: Final = 0.72
"""The number of a step to its words."""
_MOST_OVER_A_COLUMN: Final = 2
"""Numbers of steps stand over their columns where no column has more than so many."""


@dataclass(frozen=True, slots=True)
class Part:
    """What is never split between pages: how high it is, and its ink as if at a page's top."""

    height: float
    content: tuple[Unit, ...]


@dataclass(frozen=True, slots=True)
class Body:
    """The room for a pair's parts on each of its pages, and the points of its steps."""

    page: PaperPage
    steps: float
    top: float
    bottom: float

    @property
    def width(self) -> float:
        """Between the edges."""
        return self.page.width

    @property
    def height(self) -> float:
        """Below the head and above the foot."""
        return self.bottom - self.top


def opening(
    item: WorkedItem, wrong: Working | None, body: Body, beside: float | None
) -> tuple[Part, ...]:
    """What stands over the working: the question with its answer.

    Where a mistake is to be found, the question as it is asked comes first, then the wrong
    working and the mistake in words, which begin at ``beside``, or below where that is None.
    """
    if wrong is None:
        return (_question(item, item.with_answer, body),)
    question = _question(item, item.asked, body)
    drawn = finished(wrong, body)
    left = body.page.left if beside is None else beside
    named = _words(wrong.steps[-1].sentence, body, left)
    shown = (drawn, named) if beside is None else (together(drawn, (named,)),)
    return (question, *shown, _words(breakable(item.with_answer), body, body.page.left))


def _words(text: str, body: Body, left: float) -> Part:
    """A sentence from ``left`` on."""
    size = body.steps
    lines = typeface.wrap(sentence_to_wrap(text), size, body.page.right - left)
    words = paragraph(lines, left, 0.0, size)
    return Part(len(lines) * line_height(size), (Unit(Role.PARAGRAPH, words),))


def _question(item: WorkedItem, text: str, body: Body) -> Part:
    """The question's letter, then the question in those words."""
    size, label = body.page.sizes.words, f"{item.label})"
    indent = typeface.width(label, size, bold=True) + 0.5 * size * MM_PER_POINT
    lines = typeface.wrap(breakable(text), size, body.width - indent)
    words = paragraph(lines, body.page.left + indent, 0.0, size)
    letter = Text(label, body.page.left, words[0].baseline, size, bold=True)
    return Part(len(lines) * line_height(size), (Unit(Role.PARAGRAPH, (letter, *words)),))


def finished(working: Working, body: Body) -> Part:
    """The finished working on its squares, with the steps' numbers over their columns."""
    side = body.page.sizes.square
    size = min(body.page.sizes.foot, 0.5 * side / MM_PER_POINT)
    pitch = (_RING + 0.15) * size * MM_PER_POINT
    numbers = _over_columns(working)
    tallest = max(Counter(column for _, column in numbers).values(), default=0)
    top = tallest * pitch + (0.4 if tallest else 1.0)
    squares = Squares(body.page.left, top, side)
    ink: list[Item] = []
    if body.page.sizes.grid:
        ink.append(replace(squares.grid(working), colour=body.page.sizes.grid))
    used = Counter[int]()
    for number, column in reversed(numbers):  # the last stands nearest to its column
        used[column] += 1
        x, _ = squares.middle(0, column)
        ink.extend(_ringed(number, x, top - 0.4 - (used[column] - 0.5) * pitch, size))
    ink.extend(working_ink(working, squares))
    said = spoken_working(working, len(working.steps), body.page.imprint.say)
    unit = Unit(Role.WORKING, tuple(ink), says=said)
    return Part(top + working.rows * side + 2.0, (unit,))


def _over_columns(working: Working) -> tuple[tuple[int, int], ...]:
    """The numbers of steps that each speak of one column, with that column.

    None where a column would have too many, or where the columns are not the whole working's.
    """
    found = []
    for number, step in enumerate(working.steps, start=1):
        if step.column is not None:
            if step.rows not in (None, (0, working.rows - 1)):
                return ()
            found.append((number, step.column))
    most = max(Counter(column for _, column in found).values(), default=0)
    return tuple(found) if most <= _MOST_OVER_A_COLUMN else ()


def steps(working: Working, body: Body, left: float) -> Iterator[Part]:
    """The steps, each a number in a ring and its sentence."""
    size = body.steps
    em = size * MM_PER_POINT
    indent = 1.75 * em
    for number, step in enumerate(working.steps, start=1):
        sentence = sentence_to_wrap(step.sentence)
        lines = typeface.wrap(sentence, size, body.page.right - left - indent)
        words = paragraph(lines, left + indent, 0.0, size)
        ring = _ringed(number, left + _RING / 2 * _IN_LIST * em, words[0].middle, _IN_LIST * size)
        height = len(lines) * line_height(size)
        yield Part(height, (Unit(Role.PARAGRAPH, (*ring, *words)),))


def together(working: Part, beside: Sequence[Part]) -> Part:
    """The steps under one another, beside the working."""
    content, top = list(working.content), 0.0
    for step in beside:
        units = moved(step.content, 0.0, top)
        content.extend(unit for unit in units if isinstance(unit, Unit))
        top += step.height + BETWEEN
    return Part(max(working.height, top - BETWEEN), tuple(content))


def _ringed(number: int, x: float, y: float, size: float) -> Iterator[Item]:
    """A step's number in a ring, so that it is no digit of the working."""
    em = size * MM_PER_POINT
    across = _RING * em
    yield Box(
        x - across / 2,
        y - across / 2,
        across,
        across,
        stroke=DARK,
        weight=FINE_LINE,
        radius=across / 2,
    )
    baseline = y + typeface.DIGIT_HEIGHT / 2 * em
    yield Text(str(number), x, baseline, size, colour=DARK, anchor="centre")
