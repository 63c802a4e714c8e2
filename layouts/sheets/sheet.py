"""Pupils' sheets: questions set out on squared paper, ready to be worked.

Each step is a module: the block of squares that a question needs (``blocks``), blocks placed
on pages in whole squares (``arranging``), and their ink on the page's one grid (``block_ink``).
Here these make the pages of a section.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from generator.packs.working_out import WorkedSection
from layouts.planning.errors import placing
from layouts.planning.foot import foot, foot_height
from layouts.planning.header import header
from layouts.planning.paper import page_of, squares_between
from layouts.planning.paper_page import PaperPage
from layouts.planning.plan import Grid, PagePlan
from layouts.planning.sheet_type import SheetType, sheet_type
from layouts.planning.squared_page import SquaredPage
from layouts.sheets.arranging import SMALLER_SQUARES, Room, arrange, refuse_too_large
from layouts.sheets.block_ink import drawn, label_size
from layouts.sheets.blocks import Placed, blocks_of
from specs.languages.saying import say

_Pages: TypeAlias = Sequence[Sequence[Placed]]


@dataclass(frozen=True, slots=True)
class _Arranged:
    """A section on pages of one kind: what they have in common, their squares and their blocks."""

    section: WorkedSection
    page: PaperPage
    grid: Grid
    pages: _Pages

    @property
    def alone(self) -> int:
        """How many pages hold a single question."""
        return sum(len(page) == 1 for page in self.pages)

    @property
    def cost(self) -> tuple[int, int]:
        """Less is better: pages, then lonely questions."""
        return len(self.pages), self.alone


def sheet_pages(section: WorkedSection) -> tuple[PagePlan, ...]:
    """The pages of one version of a starter or a tier, numbered on their own."""
    return tuple(page.plan for page in squared_pages(section))


def squared_pages(section: WorkedSection) -> tuple[SquaredPage, ...]:
    """The same with their squares."""
    if not section.items:
        return ()
    sizes = sheet_type(section.presentation, section.name)
    arranged = _arranged(section, sizes)
    if len(arranged.pages) > 1:
        # Calculations on a line of words are narrower: see whether that saves a page.
        in_words = _arranged(section, sizes, spelt=False)
        arranged = min(arranged, in_words, key=lambda tried: len(tried.pages))
    if len(section.items) > 1 and arranged.alone:
        # A question alone on its page: see whether a tighter head holds it elsewhere.
        tight = _arranged(section, sizes.tightened)
        arranged = min(arranged, tight, key=lambda tried: tried.cost)
    return tuple(
        SquaredPage(_drawn(arranged, number, blocks), arranged.grid)
        for number, blocks in enumerate(arranged.pages, start=1)
    )


def _drawn(arranged: _Arranged, number: int, blocks: Sequence[Placed]) -> PagePlan:
    """The page of that number."""
    page, grid, sizes = arranged.page, arranged.grid, arranged.page.sizes
    all_labels = [placed.block.label for on_page in arranged.pages for placed in on_page]
    labels = label_size(all_labels, grid, sizes)
    return PagePlan(
        page.paper.width,
        page.paper.height,
        (
            *sizes.background(page.paper.width, page.paper.height),
            *([grid] if sizes.grid else []),
            *header(arranged.section, page, number).content,
            *(drawn(placed, grid, sizes, labels) for placed in blocks),
            foot(page, number, len(arranged.pages)),
        ),
    )


def _arranged(section: WorkedSection, sizes: SheetType, *, spelt: bool = True) -> _Arranged:
    """The section's blocks placed on as many pages as they need.

    ``spelt`` puts calculations that are not set out into squares too, as far as there is room.
    """
    page = PaperPage.squared(section, page_of(section.presentation), sizes)
    grid = _grid(section, page)
    room = Room(grid.columns, grid.rows, sizes.gap)
    large = section.presentation.large.of(section.name)
    instead = SMALLER_SQUARES
    if large is not None:
        instead = say("choose smaller type than 'large: {large}' or larger paper", large=large)
    blocks = []
    for item in section.items:
        with placing(section.name, item.label, item.rung):
            choices = blocks_of(item, grid, sizes, spelt=spelt)
            refuse_too_large(choices, room, instead)
        blocks.append(choices)
    return _Arranged(section, page, grid, arrange(blocks, room))


def _grid(section: WorkedSection, page: PaperPage) -> Grid:
    """The squares of a page: as many as there is room for between head and foot."""
    sizes = page.sizes
    top, bottom = header(section, page, 1).end, page.bottom - foot_height(page)
    grid = squares_between(page.paper, top, bottom, sizes.square, sizes.edge)
    return replace(grid, colour=sizes.grid) if sizes.grid else grid
