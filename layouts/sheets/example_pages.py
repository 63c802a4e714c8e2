"""Worked examples on paper, to stick in books: a page a pair.

Above, the teacher's question with its finished working and its steps in words; below a rule,
the matched question set out as on a practice sheet. Squares and type are the largest with
which a pair stays on one page. Where none will do, and in large print, it goes on to further
pages.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import flow, typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.foot import Imprint, foot, foot_height
from layouts.planning.header import title_lines
from layouts.planning.paper import Paper, paper_named, squares_between
from layouts.planning.plan import (
    Box,
    Item,
    Line,
    PagePlan,
    Role,
    Text,
    Unit,
    line_height,
    moved,
    paragraph,
)
from layouts.planning.sheet_type import SheetType, sheet_type
from layouts.planning.type_scale import DARK, FINE_LINE, MM_PER_POINT, STEP_TEXTS
from layouts.planning.wording import breakable, name_in_words, sentence_to_wrap, spoken_working
from layouts.planning.working_ink import Squares, working_ink
from layouts.sheets.sheet import arrange, block_ink, block_of, label_size

SQUARES: Final = (7.0, 6.0, 5.0)
"""Squares that a pair may have where the pack's own are too large, best first."""
SMALLEST_SQUARE: Final = 4.5
"""The key's, for a working that is otherwise wider than the page."""

_BESIDE: Final = 8.0
"""Between a working and the steps beside it."""
_NARROWEST_STEPS: Final = 14.0
"""The least width of steps beside a working, in ems."""
_BETWEEN: Final = 1.2
"""Between one step and the next."""
_AROUND_RULE: Final = 3.0
_BELOW_HEAD: Final = 2.0

_RING: Final = 1.6
"""The ring around a step's number, in ems of the number."""
_IN_LIST: Final = 0.72
"""The number of a step to its words."""
_MOST_OVER_A_COLUMN: Final = 2
"""Numbers of steps stand over their columns where no column has more than so many."""


@dataclass(frozen=True, slots=True)
class _Part:
    """What is never split between pages: how high it is, and its ink as if at a page's top."""

    height: float
    content: tuple[Unit, ...]


@dataclass(frozen=True, slots=True)
class _Body:
    """The room for a pair's parts on each of its pages, and the squares and type in use there."""

    paper: Paper
    sizes: SheetType
    steps: float
    left: float
    right: float
    top: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top


@dataclass(frozen=True, slots=True)
class _Turn:
    """The matched question: what it needs under its heading is a whole number of squares."""

    item: WorkedItem

    def height(self, body: _Body) -> float:
        """The least height: one free row stands over the question."""
        sizes = body.sizes
        grid = squares_between(body.paper, body.top, body.bottom, sizes.square, sizes.edge)
        rows = block_of(self.item, grid, sizes).rows + 1
        return 2 * _AROUND_RULE + _heading_height(body) + rows * sizes.square

    def drawn(self, body: _Body, top: float, *, first: bool) -> Iterator[Item | Unit]:
        """The question on all the squares that are left of the page, under a rule and a heading."""
        sizes = body.sizes
        if not first:
            top += 2 * _AROUND_RULE
            y = top - _AROUND_RULE
            yield Line(body.left, y, body.right, y, FINE_LINE)
        heading = paragraph(("Your turn",), body.left, top, sizes.heading, bold=True)
        yield Unit(Role.HEADING, heading)
        start = top + _heading_height(body)
        grid = squares_between(body.paper, start, body.bottom, sizes.square, sizes.edge)
        grid = replace(grid, y=start)
        if sizes.grid:
            grid = replace(grid, colour=sizes.grid)
            yield grid
        block = block_of(self.item, grid, sizes)
        ((placed,),) = arrange([block], grid.columns, grid.rows, sizes.gap)
        placed = placed.at_the_left()
        letter = label_size([block.label], grid, sizes)
        yield Unit(Role.QUESTION, tuple(block_ink(placed, grid, sizes, letter)), says=block.says)


def _heading_height(body: _Body) -> float:
    return line_height(body.sizes.heading) + 1.0


@dataclass(frozen=True, slots=True)
class _Arranged:
    """A pair on its pages: which parts share one, the turn counting as the last of them."""

    body: _Body
    parts: tuple[_Part, ...]
    turn: _Turn | None
    runs: tuple[flow.Run, ...]

    def pages(self) -> Iterator[tuple[Item | Unit, ...]]:
        """What each page holds below its head."""
        for start, end in self.runs:
            top, content = self.body.top, list[Item | Unit]()
            for part in self.parts[start:end]:
                content.extend(moved(part.content, 0.0, top))
                top += part.height + _BETWEEN
            if self.turn and end > len(self.parts):
                first = start == len(self.parts)
                content.extend(self.turn.drawn(self.body, top, first=first))
            yield tuple(content)


def printed_pairs(section: WorkedSection) -> tuple[PagePlan, ...]:
    """The pages of every pair of a section, upright whatever the sheets are.

    Raises DoesNotFitError when a working or a question is too large for the paper.
    """
    paper, imprint = paper_named(section.presentation.paper), Imprint.of(section)
    sizes = sheet_type(section.presentation, section.name)
    planned = []
    for first in range(0, len(section.items), 2):
        shown = section.items[first]
        name = name_in_words(shown.rung)
        with placing(section.name, shown.label, shown.rung):
            pair = _arranged(section, first, paper, sizes)
        for on, content in enumerate(pair.pages()):
            planned.append((pair.body, f"{name}, continued" if on else name, content))
    return tuple(
        PagePlan(
            paper.width,
            paper.height,
            (
                *sizes.background(paper.width, paper.height),
                *_head(section.pack.title, name, body, number),
                *content,
                foot(imprint, body.left, body.right, paper, number, len(planned), body.sizes),
            ),
        )
        for number, (body, name, content) in enumerate(planned, start=1)
    )


def _arranged(section: WorkedSection, first: int, paper: Paper, sizes: SheetType) -> _Arranged:
    """The pair that begins there, on as few pages as can be and as large as they hold."""
    shown, *matched = section.items[first : first + 2]
    turn = _Turn(matched[0]) if matched else None
    for squares, texts in _choices(section, sizes):
        tries = (
            arranged
            for square in squares
            for text in texts
            for arranged in _tries(section, shown, turn, paper, sizes, square, text)
        )
        best: _Arranged | None = None
        for arranged in tries:
            if best is None or len(arranged.runs) < len(best.runs):
                best = arranged
            if len(best.runs) == 1:
                break
        if best is not None:
            return best
    raise DoesNotFitError(
        f"{shown.calculation} and its match are too large for worked examples on "
        f"{paper.name}; choose larger paper or smaller type"
    )


def _choices(
    section: WorkedSection, sizes: SheetType
) -> Iterator[tuple[tuple[float, ...], tuple[float, ...]]]:
    """Squares and sizes of steps to choose among, each list only where none before it will do.

    Large print never gives way for the sake of fewer pages.
    """
    smaller = tuple(square for square in SQUARES if square < sizes.square)
    if section.presentation.large.of(section.name) is None:
        yield (sizes.square, *smaller), STEP_TEXTS
        yield (SMALLEST_SQUARE,), STEP_TEXTS[-1:]
    else:
        for square in (sizes.square, *smaller, SMALLEST_SQUARE):
            yield (square,), (sizes.words,)


def _tries(
    section: WorkedSection,
    item: WorkedItem,
    turn: _Turn | None,
    paper: Paper,
    sizes: SheetType,
    square: float,
    text: float,
) -> Iterator[_Arranged]:
    """The pair with such squares and type, its steps beside the working or below it."""
    body = _body(section, name_in_words(item.rung), paper, replace(sizes, square=square), text)
    wrong, working = item.example.wrong, item.example.right
    columns = max(working.columns, wrong.columns if wrong else 0)
    if columns * square > body.width + 1e-6:
        return
    try:
        last = [turn.height(body)] if turn else []
    except DoesNotFitError:
        return
    drawn = _working(working, body)
    start = columns * square + _BESIDE
    beside: tuple[_Part, ...] = ()
    if body.width - start >= _NARROWEST_STEPS * text * MM_PER_POINT:
        steps = list(_steps(working, body, body.left + start))
        opening = _opening(item, wrong, body, body.left + start)
        beside = (*opening, _together(drawn, steps))
    below = (*_opening(item, wrong, body, None), drawn, *_steps(working, body, body.left))
    for parts in filter(None, (beside, below)):
        heights = [*(part.height for part in parts), *last]
        if max(heights) <= body.height:
            yield _Arranged(body, parts, turn, flow.greedy(heights, body.height, _BETWEEN))


def _body(section: WorkedSection, name: str, paper: Paper, sizes: SheetType, steps: float) -> _Body:
    across = squares_between(paper, 0.0, paper.height, sizes.square, sizes.edge)
    left, right = across.x, across.x + across.width
    titles, size = title_lines(section.pack.title, sizes.titles, right - left)
    names = _name_lines(f"{name}, continued", sizes, right - left)
    top = sizes.edge + len(titles) * line_height(size)
    top += len(names) * line_height(sizes.heading) + _BELOW_HEAD
    bottom = paper.height - sizes.edge - foot_height(Imprint.of(section), left, right, sizes)
    return _Body(paper, sizes, steps, left, right, top, bottom)


def _head(title: str, name: str, body: _Body, number: int) -> Iterator[Unit]:
    """The title and the rung; the title is read aloud once."""
    sizes = body.sizes
    lines, size = title_lines(title, sizes.titles, body.width)
    heading = paragraph(lines, body.left, sizes.edge, size, bold=True)
    yield Unit(Role.TITLE if number == 1 else Role.ARTEFACT, heading)
    top = sizes.edge + len(lines) * line_height(size)
    names = _name_lines(name, sizes, body.width)
    yield Unit(Role.HEADING, paragraph(names, body.left, top, sizes.heading, bold=True))


def _name_lines(name: str, sizes: SheetType, width: float) -> tuple[str, ...]:
    return typeface.wrap(name, sizes.heading, width, bold=True)


# The parts of an example.


def _opening(
    item: WorkedItem, wrong: Working | None, body: _Body, beside: float | None
) -> tuple[_Part, ...]:
    """What stands over the working: the question with its answer.

    Where a mistake is to be found, the question as it is asked comes first, then the wrong
    working and the mistake in words, which begin at ``beside``, or below where that is None.
    """
    if wrong is None:
        return (_question(item, item.with_answer, body),)
    question = _question(item, item.asked, body)
    drawn = _working(wrong, body)
    left = body.left if beside is None else beside
    named = _words(wrong.steps[-1].sentence, body, left)
    shown = (drawn, named) if beside is None else (_together(drawn, (named,)),)
    return (question, *shown, _words(breakable(item.with_answer), body, body.left))


def _words(text: str, body: _Body, left: float) -> _Part:
    """A sentence from ``left`` on."""
    size = body.steps
    lines = typeface.wrap(sentence_to_wrap(text), size, body.right - left)
    words = paragraph(lines, left, 0.0, size)
    return _Part(len(lines) * line_height(size), (Unit(Role.PARAGRAPH, words),))


def _question(item: WorkedItem, text: str, body: _Body) -> _Part:
    """The question's letter, then the question in those words."""
    size, label = body.sizes.words, f"{item.label})"
    indent = typeface.width(label, size, bold=True) + 0.5 * size * MM_PER_POINT
    lines = typeface.wrap(breakable(text), size, body.width - indent)
    words = paragraph(lines, body.left + indent, 0.0, size)
    letter = Text(label, body.left, words[0].baseline, size, bold=True)
    return _Part(len(lines) * line_height(size), (Unit(Role.PARAGRAPH, (letter, *words)),))


def _working(working: Working, body: _Body) -> _Part:
    """The finished working on its squares, with the steps' numbers over their columns."""
    side = body.sizes.square
    size = min(body.sizes.foot, 0.5 * side / MM_PER_POINT)
    pitch = (_RING + 0.15) * size * MM_PER_POINT
    numbers = _over_columns(working)
    tallest = max(Counter(column for _, column in numbers).values(), default=0)
    top = tallest * pitch + (0.4 if tallest else 1.0)
    squares = Squares(body.left, top, side)
    ink: list[Item] = []
    if body.sizes.grid:
        ink.append(replace(squares.grid(working), colour=body.sizes.grid))
    used = Counter[int]()
    for number, column in reversed(numbers):  # the last stands nearest to its column
        used[column] += 1
        x, _ = squares.middle(0, column)
        ink.extend(_ringed(number, x, top - 0.4 - (used[column] - 0.5) * pitch, size))
    ink.extend(working_ink(working, squares))
    said = spoken_working(working, len(working.steps))
    unit = Unit(Role.WORKING, tuple(ink), says=said)
    return _Part(top + working.rows * side + 2.0, (unit,))


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


def _steps(working: Working, body: _Body, left: float) -> Iterator[_Part]:
    """The steps, each a number in a ring and its sentence."""
    size = body.steps
    em = size * MM_PER_POINT
    indent = 1.75 * em
    for number, step in enumerate(working.steps, start=1):
        sentence = sentence_to_wrap(step.sentence)
        lines = typeface.wrap(sentence, size, body.right - left - indent)
        words = paragraph(lines, left + indent, 0.0, size)
        ring = _ringed(number, left + _RING / 2 * _IN_LIST * em, words[0].middle, _IN_LIST * size)
        height = len(lines) * line_height(size)
        yield _Part(height, (Unit(Role.PARAGRAPH, (*ring, *words)),))


def _together(working: _Part, steps: Sequence[_Part]) -> _Part:
    """The steps under one another, beside the working."""
    content, top = list(working.content), 0.0
    for step in steps:
        units = moved(step.content, 0.0, top)
        content.extend(unit for unit in units if isinstance(unit, Unit))
        top += step.height + _BETWEEN
    return _Part(max(working.height, top - _BETWEEN), tuple(content))


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
