"""The marks of a class on paper: what to do tomorrow, and the pictures and tables behind it.

Nothing here depends on colour: bars have their numbers beside them, and squares their signs.
"""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Final, TypeAlias

from generator.results.class_results import (
    RETEACH_ANSWERS,
    RETEACH_BELOW,
    ClassResults,
    Group,
    PupilResult,
    QuestionResult,
    RungResult,
)
from generator.results.diagnosis import Attempt, Finding, Kind
from layouts.planning import typeface
from layouts.planning.paper import MARGIN, PAPERS
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
from layouts.planning.type_scale import (
    BLACK,
    DARK,
    FINE_LINE,
    GRID,
    KEY_SMALL,
    KEY_TEXT,
    KEY_TITLE,
    SHEET_FOOT,
    SHEET_HEADING,
    WHITE,
)
from layouts.planning.wording import breakable, name_in_words

_PAPER: Final = PAPERS["A4"]
_EDGE: Final = 14.0
_BODY: Final = _PAPER.width - 2 * _EDGE
_FOOT: Final = 9.0
_BETWEEN: Final = 1.6
_ROOM: Final = _PAPER.height - _EDGE - MARGIN - _FOOT

_BAR: Final = 44.0
_BAR_HEIGHT: Final = 3.2
_SQUARE: Final = 4.6
_PUPIL: Final = 16.0
_MOST_SQUARES: Final = int((_BODY - _PUPIL) / _SQUARE)
_MOST_UNREAD: Final = 100

CAUTION: Final = (
    "Pupils are numbers here, and no names are needed. Keep this page, and the mark sheet, as you "
    "keep all marks: for as long as they are needed, and where only those see them who teach the "
    "class."
)


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
    return sum(block.height for block in blocks) + _BETWEEN * (len(blocks) - 1)


def _paged(blocks: Iterable[Block]) -> Iterator[Sequence[Block]]:
    """The blocks of each page, the heads that a page repeats among them."""
    page: list[Block] = []
    for block in blocks:
        if page and _with_gaps([*page, block]) > _ROOM + 1e-9:
            yield page
            page = [block.head] if block.head else []
        page.append(block)
    yield page


def marks_pages(title: str, results: ClassResults, unread: Sequence[str]) -> tuple[PagePlan, ...]:
    """The pages of a class's results. ``unread`` has what was not read, or in doubt."""
    blocks = [
        _title(title, results),
        *_section("For tomorrow", _groups(results)),
        *_section("Rungs", _rungs(results)),
        *_section("Pupils and questions", _map(results)),
        *_section("Pupils", map(_pupil, results.marked)),
        *_section("Questions", _questions(results)),
        *_section("What to look at in the mark sheet", map(_line, _first(unread))),
        *_section("Where marks are kept", (_words(CAUTION, KEY_SMALL),)),
    ]
    pages = tuple(_paged(blocks))
    return tuple(
        _page(page, title, number, len(pages)) for number, page in enumerate(pages, start=1)
    )


def _page(blocks: Sequence[Block], title: str, number: int, pages: int) -> PagePlan:
    content: list[Item | Unit] = []
    top = _EDGE
    for block in blocks:
        content.extend(moved(block.content, 0, top))
        top += block.height + _BETWEEN
    baseline = _PAPER.height - MARGIN - 2.0
    foot = (
        Text(printable(f"{title}: marks"), _EDGE, baseline, SHEET_FOOT, colour=DARK),
        Text(
            f"{number} of {pages}",
            _PAPER.width - _EDGE,
            baseline,
            SHEET_FOOT,
            colour=DARK,
            anchor="right",
        ),
    )
    return PagePlan(_PAPER.width, _PAPER.height, (*content, Unit(Role.ARTEFACT, foot)))


def printable(text: str) -> str:
    """A teacher's or pupil's text with a question mark for what the typeface lacks."""
    composed = unicodedata.normalize("NFC", text)
    return composed.translate({ord(lacked): "?" for lacked in typeface.lacking(composed)})


def names_with_gaps(results: ClassResults) -> Iterator[str]:
    """Of each pupil whose name the typeface lacks letters of, what the pages have instead."""
    for pupil in results.marked:
        lacked = typeface.lacking(pupil.pupil)
        if lacked:
            yield (
                f"pupil {pupil.pupil!r} is {printable(pupil.pupil)!r} there, as the typeface has "
                f"no {typeface.listed(lacked)}"
            )


def _section(heading: str, blocks: Iterable[Block]) -> Iterator[Block]:
    """The blocks, the first of them with a heading that stays with it."""
    for at, block in enumerate(blocks):
        yield block if at else block.under(_heading(heading))


def _heading(text: str) -> Block:
    lines = paragraph((text,), _EDGE, 4.0, SHEET_HEADING, bold=True)
    return Block(line_height(SHEET_HEADING) + 5.5, (Unit(Role.HEADING, lines),))


def _title(title: str, results: ClassResults) -> Block:
    lines = typeface.wrap(printable(f"{title}: marks"), KEY_TITLE, _BODY, bold=True)
    answers = sum(pupil.attempted for pupil in results.pupils)
    right = sum(pupil.right for pupil in results.pupils)
    said = (
        f"{_count(len(results.marked), 'pupil')}, {_count(answers, 'answer')}, "
        f"{right} of them right."
    )
    heading = Unit(Role.TITLE, paragraph(lines, _EDGE, 0, KEY_TITLE, bold=True))
    below = len(lines) * line_height(KEY_TITLE)
    small = Unit(Role.PARAGRAPH, paragraph((said,), _EDGE, below, KEY_TEXT, colour=DARK))
    return Block(below + line_height(KEY_TEXT), (heading, small))


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _words(text: str, size: float = KEY_TEXT, indent: float = 0.0, *, bold: bool = False) -> Block:
    lines = typeface.wrap(printable(text), size, _BODY - indent, bold=bold)
    drawn = paragraph(lines, _EDGE + indent, 0, size, bold=bold)
    return Block(len(lines) * line_height(size), (Unit(Role.PARAGRAPH, drawn),))


def _line(text: str) -> Block:
    return _words(text, KEY_SMALL)


def _stacked(*blocks: Block) -> Block:
    stacked = blocks[0]
    for block in blocks[1:]:
        stacked = block.under(stacked)
    return stacked


def _groups(results: ClassResults) -> Iterator[Block]:
    """What each group of pupils needs, and what everybody does."""
    if results.reteach:
        rungs = "; ".join(map(name_in_words, results.reteach))
        one = len(results.reteach) == 1
        share = f"{RETEACH_BELOW.numerator} in {RETEACH_BELOW.denominator}"
        yield _stacked(
            _words(f"To teach everyone again: {rungs}", bold=True),
            _words(
                f"Of the answers on {'this rung' if one else 'each of these rungs'}, "
                f"fewer than {share} were right.",
                KEY_TEXT,
                6.0,
            ),
        )
    for group in results.groups:
        yield _group(group)
    if not results.groups:
        yield _words("No answer is on the mark sheet yet.")


def _group(group: Group) -> Block:
    pupils = ", ".join(group.pupils)
    heading = f"{group.name[:1].upper()}{group.name[1:]}: {pupils}"
    says = [group.advice]
    if group.mistake:
        says = [group.mistake.sentence, f"Next: {group.advice}"]
    return _stacked(
        _words(heading, bold=True), *(_words(sentence, KEY_TEXT, 6.0) for sentence in says)
    )


def _bar(right: int, attempted: int, x: float, top: float, *, weak: bool = False) -> Iterator[Item]:
    """A bar as long as the share right, black where it is too short, grey otherwise."""
    y = top + (line_height(KEY_TEXT) - _BAR_HEIGHT) / 2
    share = right / attempted if attempted else 0.0
    if share:
        yield Box(x, y, _BAR * share, _BAR_HEIGHT, fill=BLACK if weak else GRID)
    yield Box(x, y, _BAR, _BAR_HEIGHT, stroke=DARK, weight=FINE_LINE)


_RUNGS_KEY: Final = (
    f"Bar: the answers right. Upright line: {RETEACH_BELOW.numerator} in "
    f"{RETEACH_BELOW.denominator}; a rung whose bar ends before it is taught again, "
    f"if it has {RETEACH_ANSWERS} answers or more."
)


def _rungs(results: ClassResults) -> Iterator[Block]:
    """What the bars say, and a bar for each rung that was answered."""
    if any(rung.attempted for rung in results.rungs):
        yield _line(_RUNGS_KEY)
    for rung in results.rungs:
        if rung.attempted:
            yield _rung(rung)


def _rung(rung: RungResult) -> Block:
    x = _EDGE + 62.0
    words = _fitted(name_in_words(rung.rung), 60.0)
    said = f"{rung.right} of {rung.attempted} right"
    label = f"{said}: teach again" if rung.needs_teaching else said
    bar = list(_bar(rung.right, rung.attempted, x, 0, weak=rung.needs_teaching))
    limit = x + _BAR * float(RETEACH_BELOW)
    bar.append(Line(limit, 0.2, limit, line_height(KEY_TEXT) - 0.2, FINE_LINE * 1.5, BLACK))
    texts = (
        *paragraph((words,), _EDGE, 0, KEY_TEXT),
        *paragraph((label,), x + _BAR + 4.0, 0, KEY_TEXT, bold=rung.needs_teaching),
    )
    return Block(
        line_height(KEY_TEXT), (Unit(Role.ARTEFACT, tuple(bar)), Unit(Role.PARAGRAPH, texts))
    )


def _fitted(text: str, room: float, size: float = KEY_TEXT) -> str:
    """The text, cut short where it is too wide."""
    shown = printable(text)
    if typeface.width(shown, size) <= room:
        return shown
    while shown and typeface.width(f"{shown}…", size) > room:
        shown = shown[:-1]
    return f"{shown}…"


def _columns(results: ClassResults) -> dict["_Column", list[QuestionResult]]:
    """The questions that were answered, those of all versions of a section together."""
    found: dict[_Column, list[QuestionResult]] = {}
    for result in results.questions:
        if result.attempted:
            key = result.column.section.name, result.column.item.label
            found.setdefault(key, []).append(result)
    return found


def _map(results: ClassResults) -> Iterator[Block]:
    """Pupils down, questions across: where the class went wrong, at a look.

    Questions that are too many for the width go on in a further band, and each band has its
    head again on every page.
    """
    columns = _columns(results)
    for band in _bands(tuple(columns)):
        head = _map_head(band)
        first, *rest = (_map_row(pupil, map(columns.__getitem__, band)) for pupil in results.marked)
        yield first.under(replace(head, height=head.height + _BETWEEN))
        for row in rest:
            yield replace(row, head=head)
        yield Block(0.0, ())  # rows stand without a gap, and what follows has one


_Column: TypeAlias = tuple[str, str]
"""A question of the map: its section's name and its letter."""


def _bands(columns: Sequence[_Column]) -> Iterator[Sequence[_Column]]:
    """The questions that stand side by side, a section together wherever the width holds it."""
    band: list[_Column] = []
    for _, run in groupby(columns, key=lambda column: column[0]):
        section = list(run)
        if band and len(band) + len(section) > _MOST_SQUARES:
            yield band
            band = []
        while len(section) > _MOST_SQUARES:
            yield section[:_MOST_SQUARES]
            section = section[_MOST_SQUARES:]
        band += section
    if band:
        yield band


_MAP_KEY: Final = (
    "Blank: right. Grey with ×: wrong. Black with h: wrong by the pupil's habit. Point: no answer."
)


def _map_head(columns: Sequence[_Column]) -> Block:
    """What the squares mean, and the sections and letters above them."""
    key = _words(_MAP_KEY, KEY_SMALL)
    items: list[Item] = []
    step = line_height(KEY_SMALL)
    before = ""
    for at, (section, label) in enumerate(columns):
        x = _EDGE + _PUPIL + at * _SQUARE
        if section != before:
            run = sum(name == section for name, _ in columns)
            room = run * _SQUARE - 1.0
            items += paragraph((_fitted(name_in_words(section), room, KEY_SMALL),), x, 0, KEY_SMALL)
            before = section
        [letter] = paragraph((label,), 0, step, KEY_SMALL)
        items.append(Text(label, x + _SQUARE / 2, letter.baseline, KEY_SMALL, anchor="centre"))
    return Block(2 * step, (Unit(Role.PARAGRAPH, tuple(items)),)).under(key)


def _map_row(pupil: PupilResult, columns: Iterable[Sequence[QuestionResult]]) -> Block:
    name = _fitted(pupil.pupil, _PUPIL - 3.0)
    [label] = paragraph((name,), _EDGE, 0, KEY_TEXT)
    items: list[Item] = []
    for at, versions in enumerate(columns):
        attempts = [pupil.attempts.get(result.column.name) for result in versions]
        attempt = next((found for found in attempts if found is not None), None)
        items += _square(_EDGE + _PUPIL + at * _SQUARE, attempt, pupil.finding)
    # The squares repeat what the tables below say in words.
    return Block(
        _SQUARE - _BETWEEN,
        (Unit(Role.ARTEFACT, (label,)), Unit(Role.ARTEFACT, tuple(items))),
    )


def _square(x: float, attempt: Attempt | None, finding: Finding) -> Iterator[Item]:
    sign, fill, colour = "", WHITE, BLACK
    if attempt is None:
        sign = "."
    elif not attempt.right:
        sign, fill = "×", GRID
        expected = finding.mistake.wrong_answer(attempt.question) if finding.mistake else None
        if expected is not None and expected in attempt.replies:
            sign, fill, colour = "h", BLACK, WHITE
    yield Box(x, 0, _SQUARE, _SQUARE, fill=fill, stroke=DARK, weight=FINE_LINE)
    if sign:
        [line] = paragraph((sign,), 0, (_SQUARE - line_height(KEY_TEXT)) / 2, KEY_TEXT)
        yield Text(sign, x + _SQUARE / 2, line.baseline, KEY_TEXT, False, colour, "centre")


def _pupil(pupil: PupilResult) -> Block:
    """A pupil's line: how many right, the finding, and what it rests on."""
    x = _EDGE + _PUPIL + 20.0
    name = _fitted(pupil.pupil, _PUPIL - 2.0)
    score = f"{pupil.right} of {pupil.attempted}"
    first = (
        *paragraph((name,), _EDGE, 0, KEY_TEXT, bold=True),
        *paragraph((score,), _EDGE + _PUPIL, 0, KEY_TEXT),
    )
    heading, *rest = _findings(pupil.finding)
    room = _PAPER.width - _EDGE - x
    lines = typeface.wrap(heading, KEY_TEXT, room, bold=True)
    small = [line for text in rest for line in typeface.wrap(text, KEY_SMALL, room)]
    below = len(lines) * line_height(KEY_TEXT)
    words = (
        *first,
        *paragraph(lines, x, 0, KEY_TEXT, bold=pupil.finding.kind is Kind.HABIT),
        *paragraph(small, x, below, KEY_SMALL, colour=DARK),
    )
    height = below + len(small) * line_height(KEY_SMALL)
    return Block(height, (Unit(Role.PARAGRAPH, words),))


def _findings(finding: Finding) -> Iterator[str]:
    """The finding in words, then what it rests on; what comes next stands for its group."""
    if finding.mistake:
        yield f"Habit: {finding.mistake.name}"
        yield (
            f"Of the questions answered, {finding.shows} can show this habit; "
            f"{_on_how_many(finding)} the answer is the one it gives."
        )
        if finding.also:
            yield f"Also: {_names(finding)}."
        return
    yield name_in_words(str(finding.kind))
    if finding.also:
        yield f"Some answers point at: {_names(finding)}."


def _on_how_many(finding: Finding) -> str:
    all_of_them = finding.explained == finding.shows
    return "on every one of them" if all_of_them else f"on {finding.explained} of them"


def _names(finding: Finding) -> str:
    return "; or ".join(mistake.name for mistake in finding.also)


def _questions(results: ClassResults) -> Iterator[Block]:
    answered = [result for result in results.questions if result.attempted]
    parts = [part for result in answered for part in _asked(result)]
    widest = max((typeface.width(part, KEY_TEXT) for part in parts), default=0)
    room = min(max(widest + 2.0, _NARROW_QUESTION), _WIDE_QUESTION)
    for result in answered:
        yield _question(result, room)


_MOST_WRONG: Final = 3
_SCORE: Final = 22.0
_LABELS: Final = 26.0
_NARROW_QUESTION: Final = 54.0
_WIDE_QUESTION: Final = _BODY - _LABELS - 6.0 - _BAR - _SCORE


def _asked(result: QuestionResult) -> tuple[str, ...]:
    """The question and its answer, on a line or two, to be wrapped in front of signs only."""
    return tuple(map(breakable, result.column.item.in_brief))


def _question(result: QuestionResult, room: float) -> Block:
    """A question: how many were right, and the wrong answers that were given most."""
    name = _fitted(result.column.name, 24.0)
    lines = [line for part in _asked(result) for line in typeface.wrap(part, KEY_TEXT, room)]
    x = _EDGE + _LABELS + room + 6.0
    score = f"{result.right} of {result.attempted}"
    bar = tuple(_bar(result.right, result.attempted, x, 0))
    texts = [
        *paragraph((name,), _EDGE, 0, KEY_TEXT, bold=True),
        *paragraph(lines, _EDGE + _LABELS, 0, KEY_TEXT),
        *paragraph((score,), x + _BAR + 4.0, 0, KEY_TEXT),
    ]
    below = len(lines) * line_height(KEY_TEXT)
    small: list[str] = []
    for wrong in result.wrong[:_MOST_WRONG]:
        names = "; or ".join(mistake.name for mistake in wrong.mistakes[:2])
        said = f"{wrong.text}: {_count(len(wrong.pupils), 'pupil')}"
        said = f"{said}, {names}" if names else said
        small += typeface.wrap(printable(said), KEY_SMALL, _BODY - _LABELS)
    texts += paragraph(small, _EDGE + _LABELS, below, KEY_SMALL, colour=DARK)
    height = below + len(small) * line_height(KEY_SMALL)
    return Block(height, (Unit(Role.ARTEFACT, bar), Unit(Role.PARAGRAPH, tuple(texts))))


def _first(unread: Sequence[str]) -> Sequence[str]:
    """What could not be read, as much of it as anyone reads on paper."""
    if len(unread) <= _MOST_UNREAD:
        return unread
    more = len(unread) - _MOST_UNREAD
    return (*unread[:_MOST_UNREAD], f"… and {more} more, which marks.json lists.")


def marks_pdf(title: str, results: ClassResults, unread: Sequence[str]) -> bytes:
    """The results as a PDF file: the same bytes for the same marks on every machine."""
    from layouts.pdf.ink import pdf

    return pdf(marks_pages(title, results, unread), f"{printable(title)}: marks", "marks")
