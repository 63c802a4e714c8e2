"""A pair of worked examples arranged on pages: as few as can be, as large as they hold."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import flow, typeface
from layouts.planning.errors import DoesNotFitError
from layouts.planning.foot import foot_height
from layouts.planning.header import title_lines
from layouts.planning.paper import Paper, squares_between
from layouts.planning.paper_page import PaperPage
from layouts.planning.plan import Item, Line, Role, Unit, line_height, moved, paragraph
from layouts.planning.sheet_type import SheetType
from layouts.planning.type_scale import FINE_LINE, MM_PER_POINT, STEP_TEXTS
from layouts.planning.wording import rung_shown
from layouts.sheets.arranging import Room, arrange
from layouts.sheets.block_ink import drawn, label_size
from layouts.sheets.blocks import block_of
from layouts.sheets.example_parts import BETWEEN, Body, Part, finished, opening, steps, together
from specs.languages.saying import say

SQUARES: Final = (7.0, 6.0, 5.0)
"""Squares that a pair may have where the pack's own are too large, best first."""
SMALLEST_SQUARE: Final = 4.5
"""The key's, for a working that is otherwise wider than the page."""

_BESIDE: Final = 8.0
"""Between a working and the steps beside it."""
_NARROWEST_STEPS: Final = 14.0
"""The least width of steps beside a working, in ems."""
_AROUND_RULE: Final = 3.0
_BELOW_HEAD: Final = 2.0


@dataclass(frozen=True, slots=True)
class _Turn:
    """The matched question: what it needs under its heading is a whole number of squares."""

    item: WorkedItem

    def height(self, body: Body) -> float:
        """The least height: one free row stands over the question."""
        page, sizes = body.page, body.page.sizes
        grid = squares_between(page.paper, body.top, body.bottom, sizes.square, sizes.edge)
        rows = block_of(self.item, grid, sizes).rows + 1
        return 2 * _AROUND_RULE + _heading_height(body) + rows * sizes.square

    def on_page(self, body: Body, top: float, *, first: bool) -> Iterator[Item | Unit]:
        """The question on all the squares that are left of the page, under a rule and a heading."""
        page, sizes = body.page, body.page.sizes
        if not first:
            top += 2 * _AROUND_RULE
            y = top - _AROUND_RULE
            yield Line(page.left, y, page.right, y, FINE_LINE)
        heading = paragraph((self.item.say("Your turn"),), page.left, top, sizes.heading, bold=True)
        yield Unit(Role.HEADING, heading)
        start = top + _heading_height(body)
        grid = squares_between(page.paper, start, body.bottom, sizes.square, sizes.edge)
        grid = replace(grid, y=start)
        if sizes.grid:
            grid = replace(grid, colour=sizes.grid)
            yield grid
        block = block_of(self.item, grid, sizes)
        ((placed,),) = arrange([block], Room(grid.columns, grid.rows, sizes.gap))
        placed = placed.at_the_left()
        letter = label_size([block.label], grid, sizes)
        yield drawn(placed, grid, sizes, letter)


def _heading_height(body: Body) -> float:
    return line_height(body.page.sizes.heading) + 1.0


@dataclass(frozen=True, slots=True)
class ArrangedPair:
    """A pair on its pages: which parts share one, the turn counting as the last of them."""

    body: Body
    parts: tuple[Part, ...]
    turn: _Turn | None
    runs: tuple[flow.Run, ...]

    def pages(self) -> Iterator[tuple[Item | Unit, ...]]:
        """What each page holds below its head."""
        for start, end in self.runs:
            top, content = self.body.top, list[Item | Unit]()
            for part in self.parts[start:end]:
                content.extend(moved(part.content, 0.0, top))
                top += part.height + BETWEEN
            if self.turn and end > len(self.parts):
                first = start == len(self.parts)
                content.extend(self.turn.on_page(self.body, top, first=first))
            yield tuple(content)


@dataclass(frozen=True, slots=True)
class Pair:
    """What is to be arranged: a question to be shown worked, and its match for the class."""

    section: WorkedSection
    shown: WorkedItem
    turn: _Turn | None
    paper: Paper

    @classmethod
    def beginning(cls, section: WorkedSection, first: int, paper: Paper) -> "Pair":
        """The pair that begins at that place of its section."""
        shown, *matched = section.items[first : first + 2]
        return cls(section, shown, _Turn(matched[0]) if matched else None, paper)

    @property
    def name(self) -> str:
        """What the head of its page calls it."""
        return rung_shown(self.shown)

    def arranged(self, sizes: SheetType) -> ArrangedPair:
        """The pair on as few pages as can be and as large as they hold.

        Raises DoesNotFitError when no square is small enough.
        """
        for squares, texts in self._choices(sizes):
            tries = (
                arranged
                for square in squares
                for text in texts
                for arranged in self._tries(replace(sizes, square=square), text)
            )
            best: ArrangedPair | None = None
            for arranged in tries:
                if best is None or len(arranged.runs) < len(best.runs):
                    best = arranged
                if len(best.runs) == 1:
                    break
            if best is not None:
                return best
        raise DoesNotFitError(
            say(
                "{question} and its match are too large for worked examples on {paper}; choose "
                "larger paper or smaller type",
                question=self.shown.calculation,
                paper=self.paper.name,
            )
        )

    def _choices(self, sizes: SheetType) -> Iterator[tuple[tuple[float, ...], tuple[float, ...]]]:
        """Squares and sizes of steps to choose among, each list only where none before will do.

        Large print never gives way for the sake of fewer pages.
        """
        smaller = tuple(square for square in SQUARES if square < sizes.square)
        if self.section.presentation.large.of(self.section.name) is None:
            yield (sizes.square, *smaller), STEP_TEXTS
            yield (SMALLEST_SQUARE,), STEP_TEXTS[-1:]
        else:
            for square in (sizes.square, *smaller, SMALLEST_SQUARE):
                yield (square,), (sizes.words,)

    def _tries(self, sizes: SheetType, text: float) -> Iterator[ArrangedPair]:
        """The pair in such type, its steps beside the working or below it."""
        body = self._body(sizes, text)
        wrong, working = self.shown.example.wrong, self.shown.example.right
        columns = max(working.columns, wrong.columns if wrong else 0)
        if columns * sizes.square > body.width + 1e-6:
            return
        try:
            last = [self.turn.height(body)] if self.turn else []
        except DoesNotFitError:
            return
        shown, left = finished(working, body), body.page.left
        start = columns * sizes.square + _BESIDE
        beside: tuple[Part, ...] = ()
        if body.width - start >= _NARROWEST_STEPS * text * MM_PER_POINT:
            in_words = list(steps(working, body, left + start))
            beside = (*opening(self.shown, wrong, body, left + start), together(shown, in_words))
        below = (*opening(self.shown, wrong, body, None), shown, *steps(working, body, left))
        for parts in filter(None, (beside, below)):
            heights = [*(part.height for part in parts), *last]
            if max(heights) <= body.height:
                runs = flow.greedy(heights, body.height, BETWEEN)
                yield ArrangedPair(body, parts, self.turn, runs)

    def _body(self, sizes: SheetType, text: float) -> Body:
        page = PaperPage.squared(self.section, self.paper, sizes)
        titles, size = title_lines(self.section.pack.title, sizes.titles, page.width)
        names = name_lines(self.section.say("{name}, continued", name=self.name), page)
        top = sizes.edge + len(titles) * line_height(size)
        top += len(names) * line_height(sizes.heading) + _BELOW_HEAD
        return Body(page, text, top, page.bottom - foot_height(page))


def name_lines(name: str, page: PaperPage) -> tuple[str, ...]:
    """A pair's name as its page's head has it."""
    return typeface.wrap(name, page.sizes.heading, page.width, bold=True)
