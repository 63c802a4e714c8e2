"""The marks of a class on paper: what to do tomorrow, and the pictures and tables behind it."""

from collections.abc import Iterator, Sequence
from typing import Final

from generator.results.class_results import ClassResults
from generator.results.side_by_side import SideBySide
from layouts.marks.blocks import (
    BETWEEN,
    BODY,
    EDGE,
    PAPER,
    Block,
    counted,
    paged,
    printable,
    section,
    small_line,
    words,
)
from layouts.marks.class_map import class_map
from layouts.marks.classes import counts_of_classes, rungs_of_classes
from layouts.marks.for_tomorrow import for_tomorrow
from layouts.marks.pupils import pupil_lines
from layouts.marks.questions import questions
from layouts.marks.rung_table import rung_table
from layouts.marks.rungs import rungs
from layouts.planning import typeface
from layouts.planning.paper import MARGIN
from layouts.planning.plan import Item, PagePlan, Role, Text, Unit, line_height, moved, paragraph
from layouts.planning.type_scale import DARK, KEY_SMALL, KEY_TEXT, KEY_TITLE, SHEET_FOOT

_MOST_UNREAD: Final = 100

CAUTION: Final = (
    "Pupils are numbers here, and no names are needed. Keep this page, and the mark sheet, as you "
    "keep all marks: for as long as they are needed, and where only those see them who teach the "
    "class."
)


def marks_pages(
    title: str, results: ClassResults, unread: Sequence[str], earlier: int = 0
) -> tuple[PagePlan, ...]:
    """The pages of a class's results. ``unread`` has what was not read, or in doubt.

    ``earlier`` is how many earlier packs the findings rest on as well.
    """
    blocks = [
        _title(title, results, earlier),
        *section("For tomorrow", for_tomorrow(results)),
        *section("Rungs", rungs(results)),
        *section("Pupils by rung", rung_table(results)),
        *section("Pupils and questions", class_map(results)),
        *section("Pupils", pupil_lines(results)),
        *section("Questions", questions(results)),
        *section("What to look at in the mark sheet", map(small_line, _first(unread))),
        *section("Where marks are kept", (words(CAUTION, KEY_SMALL),)),
    ]
    return _pages(title, blocks)


def pages_of_classes(
    title: str, found: SideBySide, unread: Sequence[Sequence[str]]
) -> Iterator[PagePlan]:
    """Classes side by side, and then the pages of each, beginning on a page of its own.

    ``unread`` has for each class what was not read, or in doubt.
    """
    of = f"{title}: {len(found.names)} classes side by side"
    heading = Unit(Role.TITLE, paragraph(_titled(of), EDGE, 0, KEY_TITLE, bold=True))
    habits = [(mistake.title, counts) for mistake, counts in found.habits]
    blocks = [
        Block(len(_titled(of)) * line_height(KEY_TITLE), (heading,)),
        *section("Pupils", counts_of_classes(found, tuple(found.findings))),
        *section("Rungs", rungs_of_classes(found)),
        *section("Habits, and how many pupils have each", counts_of_classes(found, habits)),
        *section("Where marks are kept", (words(CAUTION, KEY_SMALL),)),
    ]
    yield from _pages(title, blocks)
    for name, results, of_class in zip(found.names, found.classes, unread, strict=True):
        yield from marks_pages(f"{title}: {name}", results, of_class)


def _pages(title: str, blocks: Sequence[Block]) -> tuple[PagePlan, ...]:
    pages = tuple(paged(blocks))
    return tuple(
        _page(page, title, number, len(pages)) for number, page in enumerate(pages, start=1)
    )


def _titled(title: str) -> Sequence[str]:
    return typeface.wrap(printable(title), KEY_TITLE, BODY, bold=True)


def names_with_gaps(results: ClassResults) -> Iterator[str]:
    """Of each pupil whose name the typeface lacks letters of, what the pages have instead."""
    for pupil in results.marked:
        lacked = typeface.lacking(pupil.pupil)
        if lacked:
            yield (
                f"pupil {pupil.pupil!r} is {printable(pupil.pupil)!r} there, as the typeface has "
                f"no {typeface.listed(lacked)}"
            )


def _page(blocks: Sequence[Block], title: str, number: int, pages: int) -> PagePlan:
    content: list[Item | Unit] = []
    top = EDGE
    for block in blocks:
        content.extend(moved(block.content, 0, top))
        top += block.height + BETWEEN
    baseline = PAPER.height - MARGIN - 2.0
    foot = (
        Text(printable(f"{title}: marks"), EDGE, baseline, SHEET_FOOT, colour=DARK),
        Text(
            f"{number} of {pages}",
            PAPER.width - EDGE,
            baseline,
            SHEET_FOOT,
            colour=DARK,
            anchor="right",
        ),
    )
    return PagePlan(PAPER.width, PAPER.height, (*content, Unit(Role.ARTEFACT, foot)))


def _title(title: str, results: ClassResults, earlier: int) -> Block:
    lines = _titled(f"{title}: marks")
    answers = sum(pupil.attempted for pupil in results.pupils)
    right = sum(pupil.right for pupil in results.pupils)
    said = (
        f"{counted(len(results.marked), 'pupil')}, {counted(answers, 'answer')}, "
        f"{right} of them right."
    )
    if results.absent:
        said += f" Absent: {len(results.absent)}."
    if earlier:
        said += (
            f" Findings rest on {counted(earlier, 'earlier pack')} as well, each counting half as "
            "much as the one after it."
        )
    heading = Unit(Role.TITLE, paragraph(lines, EDGE, 0, KEY_TITLE, bold=True))
    below = len(lines) * line_height(KEY_TITLE)
    told = typeface.wrap(said, KEY_TEXT, BODY)
    small = Unit(Role.PARAGRAPH, paragraph(told, EDGE, below, KEY_TEXT, colour=DARK))
    return Block(below + len(told) * line_height(KEY_TEXT), (heading, small))


def _first(unread: Sequence[str]) -> Sequence[str]:
    """What could not be read, as much of it as anyone reads on paper."""
    if len(unread) <= _MOST_UNREAD:
        return unread
    more = len(unread) - _MOST_UNREAD
    return (*unread[:_MOST_UNREAD], f"… and {more} more, which marks.json lists.")
