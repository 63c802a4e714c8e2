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
    paged,
    printable,
    pupils_counted,
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
from specs.languages.saying import Saying, say, several
from specs.languages.usage import PLAIN, Usage

_MOST_UNREAD: Final = 100

CAUTION: Final = say(
    "Pupils are numbers here, and no names are needed. Keep this page, and the mark sheet, as you "
    "keep all marks: for as long as they are needed, and where only those who teach the class can "
    "see them."
)

_RECORD: Final = "marks.json"


def marks_pages(
    title: str,
    results: ClassResults,
    unread: Sequence[str],
    earlier: int = 0,
    usage: Usage = PLAIN,
) -> tuple[PagePlan, ...]:
    """The pages of a class's results. ``unread`` has what was not read, or in doubt.

    ``earlier`` is how many earlier packs the findings rest on as well; ``usage`` is the land and
    the language of the pack's pages.
    """
    blocks = [
        _title(title, results, earlier, usage),
        *section(usage(say("For tomorrow")), for_tomorrow(results, usage)),
        *section(usage(say("Rungs")), rungs(results, usage)),
        *section(usage(say("Pupils by rung")), rung_table(results, usage)),
        *section(usage(say("Pupils and questions")), class_map(results, usage)),
        *section(usage(say("Pupils")), pupil_lines(results, usage)),
        *section(usage(say("Questions")), questions(results, usage)),
        *section(
            usage(say("What to look at in the mark sheet")),
            map(small_line, _first(unread, usage)),
        ),
        *_where_kept(usage),
    ]
    return _pages(title, blocks, usage)


def _where_kept(usage: Usage) -> Iterator[Block]:
    return section(usage(say("Where marks are kept")), (words(usage(CAUTION), KEY_SMALL),))


def pages_of_classes(
    title: str, found: SideBySide, unread: Sequence[Sequence[str]], usage: Usage = PLAIN
) -> Iterator[PagePlan]:
    """Classes side by side, and then the pages of each, beginning on a page of its own.

    ``unread`` has for each class what was not read, or in doubt.
    """
    count = len(found.names)
    of = usage(say("{title}: {count} classes side by side", title=title, count=count))
    heading = Unit(Role.TITLE, paragraph(_titled(of), EDGE, 0, KEY_TITLE, bold=True))
    findings = [(usage.says(said), counts) for said, counts in found.findings]
    habits = [(usage.says(mistake.title), counts) for mistake, counts in found.habits]
    blocks = [
        Block(len(_titled(of)) * line_height(KEY_TITLE), (heading,)),
        *section(usage(say("Pupils")), counts_of_classes(found, findings)),
        *section(usage(say("Rungs")), rungs_of_classes(found, usage)),
        *section(
            usage(say("Habits, and how many pupils have each")), counts_of_classes(found, habits)
        ),
        *_where_kept(usage),
    ]
    yield from _pages(title, blocks, usage)
    for name, results, of_class in zip(found.names, found.classes, unread, strict=True):
        yield from marks_pages(f"{title}: {name}", results, of_class, usage=usage)


def _pages(title: str, blocks: Sequence[Block], usage: Usage) -> tuple[PagePlan, ...]:
    pages = tuple(paged(blocks))
    return tuple(
        _page(page, title, number, len(pages), usage) for number, page in enumerate(pages, start=1)
    )


def _marks_of(title: str, usage: Usage) -> str:
    return usage(say("{title}: marks", title=title))


def _titled(title: str) -> Sequence[str]:
    return typeface.wrap(printable(title), KEY_TITLE, BODY, bold=True)


def names_with_gaps(results: ClassResults) -> Iterator[Saying]:
    """Of each pupil whose name the typeface lacks letters of, what the pages have instead."""
    for pupil in results.marked:
        lacked = typeface.lacking(pupil.pupil)
        if lacked:
            yield say(
                "pupil {pupil} is {shown} there, as the typeface has no {signs}",
                pupil=repr(pupil.pupil),
                shown=repr(printable(pupil.pupil)),
                signs=typeface.listed(lacked),
            )


def _page(blocks: Sequence[Block], title: str, number: int, pages: int, usage: Usage) -> PagePlan:
    content: list[Item | Unit] = []
    top = EDGE
    for block in blocks:
        content.extend(moved(block.content, 0, top))
        top += block.height + BETWEEN
    baseline = PAPER.height - MARGIN - 2.0
    foot = (
        Text(printable(_marks_of(title, usage)), EDGE, baseline, SHEET_FOOT, colour=DARK),
        Text(
            usage(say("{number} of {pages}", number=number, pages=pages)),
            PAPER.width - EDGE,
            baseline,
            SHEET_FOOT,
            colour=DARK,
            anchor="right",
        ),
    )
    return PagePlan(PAPER.width, PAPER.height, (*content, Unit(Role.ARTEFACT, foot)))


def _title(title: str, results: ClassResults, earlier: int, usage: Usage) -> Block:
    lines = _titled(_marks_of(title, usage))
    answers = sum(pupil.attempted for pupil in results.pupils)
    right = sum(pupil.right for pupil in results.pupils)
    counted_right = say(
        "{pupils}, {answers}, {right} of them right.",
        pupils=pupils_counted(len(results.marked), usage),
        answers=several("{count} answer", "{count} answers", answers),
        right=right,
    )
    sentences = [usage(counted_right)]
    if results.absent:
        sentences.append(usage(say("Absent: {count}.", count=len(results.absent))))
    if earlier:
        rests_on = several(
            "Findings rest on {count} earlier pack as well, each counting half as much as the one "
            "after it.",
            "Findings rest on {count} earlier packs as well, each counting half as much as the one "
            "after it.",
            earlier,
        )
        sentences.append(usage(rests_on))
    heading = Unit(Role.TITLE, paragraph(lines, EDGE, 0, KEY_TITLE, bold=True))
    below = len(lines) * line_height(KEY_TITLE)
    told = typeface.wrap(" ".join(sentences), KEY_TEXT, BODY)
    small = Unit(Role.PARAGRAPH, paragraph(told, EDGE, below, KEY_TEXT, colour=DARK))
    return Block(below + len(told) * line_height(KEY_TEXT), (heading, small))


def _first(unread: Sequence[str], usage: Usage) -> Sequence[str]:
    """What could not be read, as much of it as anyone reads on paper."""
    if len(unread) <= _MOST_UNREAD:
        return unread
    more = len(unread) - _MOST_UNREAD
    rest = usage(say("… and {count} more, which {file} lists.", count=more, file=_RECORD))
    return (*unread[:_MOST_UNREAD], rest)
