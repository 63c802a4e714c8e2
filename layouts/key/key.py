"""The teacher's key: every question of the pack with its answer, features and full working."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedPack, WorkedSection
from layouts.key.likely import likely_text, power_text
from layouts.planning import flow, typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.foot import FOOT_ALONE, foot, foot_height
from layouts.planning.header import title_lines
from layouts.planning.paper import MARGIN, Paper, sheet_of
from layouts.planning.paper_page import Imprint, PaperPage
from layouts.planning.plan import PagePlan, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import DARK, KEY_SMALL, KEY_TEXT, KEY_TITLES, SHEET_HEADING
from layouts.planning.wording import (
    breakable,
    features_text,
    section_heading,
    sentence_to_wrap,
    spoken_working,
    version_words,
)
from layouts.planning.working_ink import Squares, working_ink

SQUARE: Final = 4.5
"""The side of a square in the key."""

_NARROWEST: Final = 46.0
_COLUMN_GAP: Final = 7.0
_AFTER_ENTRY: Final = 6.0
_LABEL: Final = 7.0
_EDGE: Final = 12.0


@dataclass(frozen=True, slots=True)
class Entry:
    """A question in the key: its lines of text and its working below them.

    ``answer`` has the lines of an answer that stands apart from its question, if it does.
    """

    label: str
    lines: tuple[str, ...]
    answer: tuple[str, ...]
    features: tuple[str, ...]
    working: Working

    @property
    def text_height(self) -> float:
        """The height of the words, down to the working's first line."""
        return (
            (len(self.lines) + len(self.answer)) * line_height(KEY_TEXT)
            + len(self.features) * line_height(KEY_SMALL)
            + 1.5
        )

    @property
    def height(self) -> float:
        """The whole entry's height."""
        return self.text_height + self.working.rows * SQUARE

    def drawn(self, x: float, top: float) -> Iterator[Unit]:
        """The entry with its top left corner there."""
        lines = paragraph(self.lines, x + _LABEL, top, KEY_TEXT)
        label = Text(f"{self.label})", x, lines[0].baseline, KEY_TEXT, bold=True)
        below = top + len(lines) * line_height(KEY_TEXT)
        answer = paragraph(self.answer, x + _LABEL, below, KEY_TEXT, bold=True)
        yield Unit(Role.PARAGRAPH, (label, *lines, *answer))
        below += len(answer) * line_height(KEY_TEXT)
        small = paragraph(self.features, x + _LABEL, below, KEY_SMALL, colour=DARK)
        yield Unit(Role.PARAGRAPH, small)
        squares = Squares(x + _LABEL, top + self.text_height, SQUARE)
        ink = squares.grid(self.working), *working_ink(self.working, squares)
        said = spoken_working(self.working, len(self.working.steps))
        yield Unit(Role.WORKING, ink, says=said)


@dataclass(frozen=True, slots=True)
class _Band:
    """What runs across the page and is never split: a row of entries, its heading with it."""

    heading: str
    entries: tuple[Entry, ...]
    column_width: float
    before: float = 0.0  # room kept free above, for the key's title
    note: tuple[str, ...] = ()  # lines under the heading

    @property
    def note_top(self) -> float:
        """Where the note stands, below the band's top."""
        return line_height(SHEET_HEADING) + 1.0

    @property
    def heading_height(self) -> float:
        if not self.heading:
            return 0.0
        note = len(self.note) * line_height(KEY_SMALL) + 1.0 if self.note else 0.0
        return line_height(SHEET_HEADING) + 3.0 + note

    @property
    def height(self) -> float:
        return self.before + self.heading_height + max(entry.height for entry in self.entries)


def key_pages(pack: WorkedPack) -> Iterator[PagePlan]:
    """All pages of the key to a pack, or to those sections of it.

    Each version's part begins with a heading and is planned when its turn comes, so that the
    keys to a whole class set are never held at once. Raises DoesNotFitError when a working is
    wider than the page.
    """
    paper = sheet_of(pack.facts.presentation)
    title, size = title_lines(f"{pack.facts.title}: teacher's key", KEY_TITLES, _body(paper))
    title_height = len(title) * line_height(size) + 4.0
    imprint = Imprint.of_key(pack.facts)
    page = PaperPage(imprint, paper, FOOT_ALONE, _EDGE, paper.width - _EDGE)
    room = paper.height - _EDGE - MARGIN - foot_height(page)
    number = 0
    versions = pack.versions
    for version in versions:
        sections = [section for section in pack.of_version(version) if section.items]
        columns = _columns(sections, paper)
        bands = [band for section in sections for band in _bands(section, columns, _body(paper))]
        if not number:
            bands[0] = replace(bands[0], before=title_height)
        pages = _paginate(bands, room)
        total = len(pages) if len(versions) == 1 else None
        for start, end in pages:
            number += 1
            content = (
                *(_title(title, size) if number == 1 else ()),
                *_drawn(bands[start:end]),
                foot(page, number, total),
            )
            yield PagePlan(paper.width, paper.height, content)


def _title(lines: Sequence[str], size: float) -> tuple[Unit]:
    return (Unit(Role.TITLE, paragraph(lines, _EDGE, _EDGE, size, bold=True)),)


def _body(paper: Paper) -> float:
    return paper.width - 2 * _EDGE


@dataclass(frozen=True, slots=True)
class _Columns:
    """The columns that entries stand in: how many, and how wide each."""

    count: int
    width: float

    @classmethod
    def across(cls, body: float, count: int) -> "_Columns":
        """So many columns that take the whole width."""
        return cls(count, (body - _COLUMN_GAP * (count - 1)) / count)


def _columns(sections: Sequence[WorkedSection], paper: Paper) -> _Columns:
    """As many columns as are wide enough for every working in these sections."""
    widest = 0.0
    for section in sections:
        for item in section.items:
            with placing(section.name, item.label, item.rung):
                widest = max(widest, _working_width(item, paper))
    least = max(widest, _NARROWEST)
    count = max(1, int((_body(paper) + _COLUMN_GAP) // (least + _COLUMN_GAP)))
    return _Columns.across(_body(paper), count)


def _working_width(item: WorkedItem, paper: Paper) -> float:
    """How wide a working is with its label. Raises DoesNotFitError where the page is narrower."""
    width = _LABEL + SQUARE * item.working.columns
    if width > _body(paper):
        raise DoesNotFitError(
            f"its working is too wide for the key on {paper.name}; choose larger paper"
        )
    return width


def _bands(section: WorkedSection, columns: _Columns, body: float) -> Iterator[_Band]:
    if section.kind == "example" and columns.count > 1:  # a pair side by side
        columns = _Columns.across(body, columns.count - columns.count % 2)
    version = version_words(section)
    heading = f"{section_heading(section)}{', ' if version else ''}{version}"
    entries = [_entry(section, index, columns.width) for index in range(len(section.items))]
    note = tuple(
        line for text in power_text(section) for line in typeface.wrap(text, KEY_SMALL, body)
    )
    for start in range(0, len(entries), columns.count):
        row = tuple(entries[start : start + columns.count])
        first = start == 0
        yield _Band(heading if first else "", row, columns.width, note=note if first else ())


def _entry(section: WorkedSection, index: int, width: float) -> Entry:
    item = section.items[index]
    asked, answer = item.with_answer_apart
    return Entry(
        item.label,
        typeface.wrap(breakable(asked), KEY_TEXT, width - _LABEL),
        typeface.wrap(answer, KEY_TEXT, width - _LABEL, bold=True) if answer else (),
        tuple(
            line
            for text in (
                sentence_to_wrap(_small_print(item, section, index)),
                *likely_text(item),
            )
            for line in typeface.wrap(text, KEY_SMALL, width - _LABEL)
        ),
        item.working,
    )


def _small_print(item: WorkedItem, section: WorkedSection, index: int) -> str:
    if section.kind != "example":
        return features_text(item)
    return f"{'Your turn' if index % 2 else 'Shown'}. {features_text(item)}"


def _paginate(bands: Sequence[_Band], height: float) -> tuple[flow.Run, ...]:
    """Which bands share a page: the fewest pages, the last two of them evenly filled."""
    heights = [band.height for band in bands]
    pages = flow.greedy(heights, height, _AFTER_ENTRY)
    if len(pages) < 2:
        return pages
    *full, (start, _), _ = pages
    tail = flow.even(heights[start:], 2, height, _AFTER_ENTRY)
    return (*full, *((start + first, start + end) for first, end in tail))


def _drawn(bands: Sequence[_Band]) -> Iterator[Unit]:
    top = _EDGE
    for band in bands:
        if band.heading:
            heading = top + band.before
            lines = paragraph((band.heading,), _EDGE, heading, SHEET_HEADING, bold=True)
            yield Unit(Role.HEADING, lines)
            if band.note:
                note = paragraph(band.note, _EDGE, heading + band.note_top, KEY_SMALL, colour=DARK)
                yield Unit(Role.PARAGRAPH, note)
        below = top + band.before + band.heading_height
        for column, entry in enumerate(band.entries):
            yield from entry.drawn(_EDGE + column * (band.column_width + _COLUMN_GAP), below)
        top += band.height + _AFTER_ENTRY
