"""What marks on paper are set with: blocks that no page splits, and their words and bars.

Nothing here depends on colour: bars have their numbers beside them, and squares their signs.
"""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layouts.planning import typeface
from layouts.planning.paper import MARGIN, PAPERS
from layouts.planning.plan import Box, Item, Role, Unit, line_height, moved, paragraph
from layouts.planning.type_scale import (
    BLACK,
    DARK,
    FINE_LINE,
    GRID,
    KEY_SMALL,
    KEY_TEXT,
    SHEET_HEADING,
)
from specs.languages.saying import say_of, several
from specs.languages.usage import Usage

PAPER: Final = PAPERS["A4"]
EDGE: Final = 14.0
BODY: Final = PAPER.width - 2 * EDGE
FOOT: Final = 9.0
BETWEEN: Final = 1.6
_ROOM: Final = PAPER.height - EDGE - MARGIN - FOOT

BAR: Final = 44.0
_BAR_HEIGHT: Final = 3.2
PUPIL: Final = 16.0
"""The room for a pupil's number or name."""
BY_HABIT: Final = say_of("sign of a habit", "h")
"""Stands where a pupil's habit gave a wrong answer: a single letter."""


@dataclass(frozen=True, slots=True)
class Block:
    """Something that is never split between pages: its height, and its content from y = 0.

    ``head`` is what stands above it again where it begins a page, as the head of a table does.
    """

    height: float
    content: tuple[Item | Unit, ...]
    head: "Block | None" = None

    def under(self, heading: "Block") -> "Block":
        """The two as one."""
        below = moved(self.content, 0, heading.height)
        return Block(heading.height + self.height, (*heading.content, *below))


def _with_gaps(blocks: Sequence[Block]) -> float:
    return sum(block.height for block in blocks) + BETWEEN * (len(blocks) - 1)


def paged(blocks: Iterable[Block]) -> Iterator[Sequence[Block]]:
    """The blocks of each page, the heads that a page repeats among them."""
    page: list[Block] = []
    for block in blocks:
        if page and _with_gaps([*page, block]) > _ROOM + 1e-9:
            yield page
            page = [block.head] if block.head else []
        page.append(block)
    yield page


def printable(text: str) -> str:
    """A teacher's or pupil's text with a question mark for what the typeface lacks."""
    composed = unicodedata.normalize("NFC", text)
    return composed.translate({ord(lacked): "?" for lacked in typeface.lacking(composed)})


def fitted(text: str, room: float, size: float = KEY_TEXT) -> str:
    """The text, cut short where it is too wide."""
    shown = printable(text)
    if typeface.width(shown, size) <= room:
        return shown
    while shown and typeface.width(f"{shown}…", size) > room:
        shown = shown[:-1]
    return f"{shown}…"


def section(heading: str, blocks: Iterable[Block]) -> Iterator[Block]:
    """The blocks, the first of them with a heading that stays with it."""
    for at, block in enumerate(blocks):
        yield block if at else block.under(_heading(heading))


def _heading(text: str) -> Block:
    lines = paragraph((text,), EDGE, 4.0, SHEET_HEADING, bold=True)
    return Block(line_height(SHEET_HEADING) + 5.5, (Unit(Role.HEADING, lines),))


def words(text: str, size: float = KEY_TEXT, indent: float = 0.0, *, bold: bool = False) -> Block:
    """A text in as many lines as it needs, so far in from the edge."""
    lines = typeface.wrap(printable(text), size, BODY - indent, bold=bold)
    drawn = paragraph(lines, EDGE + indent, 0, size, bold=bold)
    return Block(len(lines) * line_height(size), (Unit(Role.PARAGRAPH, drawn),))


def small_line(text: str) -> Block:
    """A text in small print."""
    return words(text, KEY_SMALL)


def stacked(*blocks: Block) -> Block:
    """Blocks under one another as one that no page splits."""
    whole = blocks[0]
    for block in blocks[1:]:
        whole = block.under(whole)
    return whole


def bar(right: int, attempted: int, x: float, top: float, *, weak: bool = False) -> Iterator[Item]:
    """A bar as long as the share right, black where it is too short, grey otherwise."""
    y = top + (line_height(KEY_TEXT) - _BAR_HEIGHT) / 2
    share = right / attempted if attempted else 0.0
    if share:
        yield Box(x, y, BAR * share, _BAR_HEIGHT, fill=BLACK if weak else GRID)
    yield Box(x, y, BAR, _BAR_HEIGHT, stroke=DARK, weight=FINE_LINE)


def pupils_counted(count: int, usage: Usage) -> str:
    """``1 pupil``, ``12 pupils``."""
    return usage(several("{count} pupil", "{count} pupils", count))
