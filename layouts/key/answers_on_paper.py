"""Bare answers on paper, to mark from: all parts of the lesson on a page, and slips to cut apart.

What comes in several versions has a table, a line or two a version, and behind the tables a slip
for each version, with its code, to be given out with its sheet.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Final

from generator.packs.working_out import WorkedPack, WorkedSection
from layouts.key.band import EDGE, Band, heading, pages, row
from layouts.planning import typeface
from layouts.planning.foot import FOOT_ALONE, foot, foot_height
from layouts.planning.header import title_lines
from layouts.planning.paper import MARGIN, teachers_paper
from layouts.planning.paper_page import Imprint, PaperPage
from layouts.planning.plan import Line, PagePlan, Role, Text, Unit, line_height, moved, paragraph
from layouts.planning.type_scale import (
    ANSWERS_ON_PAPER,
    CUT_LINE,
    FINE_LINE,
    GRID,
    KEY_TITLES,
    KEY_WRONG,
)
from layouts.planning.wording import section_heading, version_words

_GAP: Final = 5.0
_AFTER_LETTER: Final = 1.5
_AROUND: Final = 0.8
_IN_A_SLIP: Final = 4.0
_FEW: Final = 60
"""Of more sheets than these the page is not looked at whole before its type is chosen."""
_TOGETHER: Final = 40
"""So many versions have their letters under one another."""


def answers_on_paper(pack: WorkedPack) -> Iterator[PagePlan]:
    """The page of answers, in type as large as keeps it one; then the slips."""
    paper = teachers_paper(pack.facts.presentation)
    body = paper.width - 2 * EDGE
    say = pack.facts.usage
    said = say("{title}: answers", title=pack.facts.title)
    title, size = title_lines(said, KEY_TITLES, body)
    first = EDGE + len(title) * line_height(size) + 1.0
    imprint = Imprint.for_teacher(pack.facts, say("Answers on paper"), 2)
    page = PaperPage(imprint, paper, FOOT_ALONE, EDGE, paper.width - EDGE)
    bottom = paper.height - MARGIN - foot_height(page)
    sheets = sum(section.versions for section in pack.of_version(1))
    tables: Iterator[list[Unit]] | list[list[Unit]]
    for type_size in ANSWERS_ON_PAPER:
        tables = pages(_bands(pack, type_size, body), EDGE, first, bottom)
        if sheets > _FEW:
            break
        tables = list(tables)
        if len(tables) == 1:
            break
    slips: Iterator[list[Unit]] | list[list[Unit]]
    slips, total = pages(_slips(pack, body), EDGE, EDGE, bottom), None
    if isinstance(tables, list):
        slips = list(slips)
        total = len(tables) + len(slips)
    heading_unit = Unit(Role.TITLE, paragraph(title, EDGE, EDGE, size, bold=True))
    number = 0
    for content in tables:
        number += 1
        above = (heading_unit,) if number == 1 else ()
        yield PagePlan(paper.width, paper.height, (*above, *content, foot(page, number, total)))
    for content in slips:
        number += 1
        yield PagePlan(paper.width, paper.height, (*content, foot(page, number, total)))


def _bands(pack: WorkedPack, size: float, body: float) -> Iterator[Band]:
    """The answers of each section: its heading, then one version or a table of them."""
    for name in pack.names:
        each = (section for section in pack.named(name) if section.items)
        begun = False
        while together := tuple(islice(each, _TOGETHER)):
            cells = _Cells.of(together, size, body)
            said, say = section_heading(together[0]), together[0].say
            count = together[0].versions
            if not begun:
                of = say("{section}, {count} versions", section=said, count=count)
                yield heading(of if count > 1 else said)
            begun = True
            again = heading(say("{name}, continued", name=said))
            for section in together:
                yield _row(section, cells, again)


def _row(section: WorkedSection, cells: "_Cells", again: Band) -> Band:
    """The answers of one version; where there are several, its number and code over them."""
    units: list[Unit] = []
    top = 0.0
    if section.has_versions:
        top = _AROUND
        (name,) = paragraph((version_words(section),), EDGE, top, KEY_WRONG, bold=True)
        coded = section.say("code {code}", code=section.code)
        code = Text(coded, EDGE + name.width + 4.0, name.baseline, KEY_WRONG)
        rule = Line(EDGE, 0.0, EDGE + cells.body, 0.0, FINE_LINE, GRID)
        units = [Unit(Role.ARTEFACT, (rule,)), row((name, code))]
        top += line_height(KEY_WRONG)
    drawn, height = cells.drawn(section, EDGE, top)
    return Band((*units, *drawn), top + height + _AROUND, again=again)


def _slips(pack: WorkedPack, body: float) -> Iterator[Band]:
    """Two slips side by side, each of one version, with lines to cut along."""
    width = body / 2
    several = (section for section in pack if section.items and section.has_versions)
    while pair := tuple(islice(several, 2)):
        cells = _Cells.of(pair, ANSWERS_ON_PAPER[0], width - 2 * _IN_A_SLIP)
        inner = [_slip(section, cells) for section in pair]
        height = max(one.height for one in inner) + 2 * _IN_A_SLIP
        units: list[Unit] = []
        for at, one in enumerate(inner):
            for unit in moved(one.content, at * width + _IN_A_SLIP, _IN_A_SLIP):
                assert isinstance(unit, Unit)
                units.append(unit)
        left, right, middle = EDGE, EDGE + body, EDGE + width
        cuts = (
            Line(left, 0.0, right, 0.0, FINE_LINE, CUT_LINE),
            Line(left, height, right, height, FINE_LINE, CUT_LINE),
            *(Line(x, 0.0, x, height, FINE_LINE, CUT_LINE) for x in (left, middle, right)),
        )
        yield Band((Unit(Role.ARTEFACT, cuts), *units), height)


def _slip(section: WorkedSection, cells: "_Cells") -> Band:
    name = f"{section_heading(section)}, {version_words(section)}"
    lines = typeface.wrap(name, KEY_WRONG + 1.0, cells.body, bold=True)
    heading_lines = paragraph(lines, EDGE, 0.0, KEY_WRONG + 1.0, bold=True)
    top = len(lines) * line_height(KEY_WRONG + 1.0)
    coded = section.say("code {code}", code=section.code)
    code = paragraph((coded,), EDGE, top, KEY_WRONG)
    top += line_height(KEY_WRONG) + _AROUND
    drawn, height = cells.drawn(section, EDGE, top)
    return Band((row(heading_lines), row(code), *drawn), top + height)


@dataclass(frozen=True, slots=True)
class _Cells:
    """Answers in columns of one width, their letters before them, on as many lines as they need."""

    size: float
    label: float
    width: float
    columns: int
    body: float

    @classmethod
    def of(cls, sections: Sequence[WorkedSection], size: float, body: float) -> "_Cells":
        """As many columns as the widest answer of the sections leaves room for."""
        items = [item for section in sections for item in section.items]
        labels = (typeface.width(item.label, size, bold=True) for item in items)
        label = max(labels) + _AFTER_LETTER
        widest = label + max(typeface.width(item.reply, size) for item in items)
        most = max(len(section.items) for section in sections)
        columns = max(1, min(most, int((body + _GAP) / (widest + _GAP))))
        # As many on each line: nine answers on two lines are five and four, not eight and one.
        columns = -(-most // -(-most // columns))
        return cls(size, label, (body + _GAP) / columns - _GAP, columns, body)

    def drawn(self, section: WorkedSection, x: float, top: float) -> tuple[list[Unit], float]:
        """The answers of a section from there on, and their height."""
        units: list[Unit] = []
        step = line_height(self.size)
        below = top
        for start in range(0, len(section.items), self.columns):
            tallest = 1
            for column, item in enumerate(section.items[start : start + self.columns]):
                left = x + column * (self.width + _GAP)
                room = self.width - self.label
                lines = paragraph(
                    typeface.wrap(item.reply, self.size, max(room, 10.0)),
                    left + self.label,
                    below,
                    self.size,
                )
                letter = Text(item.label, left, lines[0].baseline, self.size, bold=True)
                units.append(row((letter, *lines)))
                tallest = max(tallest, len(lines))
            below += tallest * step
        return units, below - top
