"""The plan of a lesson: one page that whoever covers it can teach from.

Its parts in order with their minutes, what to say at each example, the mistakes to look for while
walking round, and what to print, how often, with the codes of the sheets.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate
from typing import Final

from generator.operations.working import Ink, Step
from generator.packs.working_out import WorkedItem, WorkedPack, WorkedSection
from layouts.key.band import EDGE
from layouts.planning import typeface
from layouts.planning.foot import FOOT_ALONE, foot, foot_height
from layouts.planning.header import title_lines
from layouts.planning.paper import MARGIN, teachers_paper
from layouts.planning.paper_page import Imprint, PaperPage
from layouts.planning.plan import Item, Line, PagePlan, Role, Unit, line_height, paragraph
from layouts.planning.type_scale import FINE_LINE, GRID, KEY_TITLES, LESSON_PLAN
from layouts.planning.wording import (
    MOST_ANSWERED,
    breakable,
    letters_of,
    part_heading,
    rung_shown,
    section_heading,
    sentence_to_wrap,
)
from specs.languages.saying import all_of, several
from specs.languages.usage import Usage

MOST_MISTAKES: Final = 3

_DECK: Final = "lesson.pdf"
_ANSWERS: Final = "answers-on-paper.pdf"
_EXAMPLES: Final = "examples-on-paper.pdf"

_MINUTES: Final = 20.0
_PART: Final = 28.0
"""The least room for the name of a part."""
_HAIR: Final = 0.01
_GAP: Final = 3.0
_BETWEEN: Final = 1.6
_AFTER: Final = 1.4
_AIR: Final = 0.3
"""Between two examples, in lines."""
_BRIEF: Final = -1
"""Nothing is said but what is worked: a lesson of very many parts."""
_SMALL: Final = (Ink.CARRY, Ink.TEN, Ink.LEFT, Ink.ADDED, Ink.CORNER, Ink.CARRIED_ON)
"""How the small digits of a working are written."""
_TO_SAY: Final = (2, 1, 0, _BRIEF)
"""Lines said at each example, best first: fewer only where the page would not hold them."""


def lesson_plan(pack: WorkedPack) -> Iterator[PagePlan]:
    """The one page, in type as large as it holds."""
    first, say = pack.of_version(1), pack.facts.usage
    paper = teachers_paper(pack.facts.presentation)
    body = paper.width - 2 * EDGE
    page = PaperPage(
        Imprint.for_teacher(pack.facts, say("Plan of the lesson"), 1),
        paper,
        FOOT_ALONE,
        EDGE,
        paper.width - EDGE,
    )
    bottom = paper.height - MARGIN - foot_height(page)
    said = say("{title}: plan", title=pack.facts.title)
    title, size = title_lines(said, KEY_TITLES, body)
    top = EDGE + len(title) * line_height(size) + 1.0
    for to_say in _TO_SAY:
        for type_size in LESSON_PLAN:
            blocks = list(_blocks(_Page(first, type_size, body, to_say)))
            fits = top + sum(block.height for block in blocks) <= bottom
            if fits:
                break
        if fits:
            break
    content: list[Unit] = [Unit(Role.TITLE, paragraph(title, EDGE, EDGE, size, bold=True))]
    for block in blocks:
        if top + block.height > bottom + 1e-6:
            break  # as nothing shorter can be said: the rest stands in the deck and the key
        content.extend(block.units(top))
        top += block.height
    yield PagePlan(paper.width, paper.height, (*content, foot(page, 1, 1)))


@dataclass(frozen=True, slots=True)
class _Block:
    """Words side by side in columns, each with its x, its lines, and whether they are bold."""

    columns: tuple[tuple[float, tuple[tuple[str, bool], ...]], ...]
    size: float
    role: Role = Role.PARAGRAPH
    rule: float = 0.0
    before: float = 0.0
    after: float = 0.0

    @property
    def height(self) -> float:
        """With what stays free under it."""
        lines = max(len(lines) for _, lines in self.columns)
        between = _BETWEEN if self.rule else 0.0
        return self.before + between + lines * line_height(self.size) + self.after

    def units(self, top: float) -> Iterator[Unit]:
        """The block with its upper edge there."""
        top += self.before
        if self.rule:
            rule = Line(EDGE, top, EDGE + self.rule, top, FINE_LINE, GRID)
            yield Unit(Role.ARTEFACT, (rule,))
            top += _BETWEEN
        items: list[Item] = []
        for x, lines in self.columns:
            for at, (line, bold) in enumerate(lines):
                down = top + at * line_height(self.size)
                items += paragraph((line,), x, down, self.size, bold=bold)
        yield Unit(self.role, tuple(items))


@dataclass(frozen=True)
class _Page:
    """What a plan is made of, and the type that it is tried in."""

    pack: WorkedPack
    size: float
    body: float
    to_say: int

    @property
    def say(self) -> Usage:
        """The land and the language of the page."""
        return self.pack.facts.usage

    @property
    def parts(self) -> list[tuple[WorkedSection, ...]]:
        """The sections of each part in one version."""
        parts = (tuple(one for one in part if one.items) for part in self.pack.parts)
        return [part for part in parts if part]

    def lines(self, text: str, width: float, *, bold: bool = False) -> list[tuple[str, bool]]:
        """A text in lines of a width."""
        wrapped = typeface.wrap(sentence_to_wrap(text), self.size, width, bold=bold)
        return [(line, bold) for line in wrapped]

    @cached_property
    def part_width(self) -> float:
        """The room for the name of a part: no word of one is broken."""
        words = (word for part in self.parts for word in part_heading(part[0]).split())
        widest = max((typeface.width(word, self.size, bold=True) for word in words), default=0.0)
        return max(_PART, widest + _HAIR)

    def heading(self, text: str, before: float = 0.0) -> _Block:
        """A heading in bold."""
        lines = tuple(self.lines(text, self.body, bold=True))
        return _Block(((EDGE, lines),), self.size + 1.0, Role.HEADING, before=before, after=0.8)


def _blocks(page: _Page) -> Iterator[_Block]:
    minutes = [max(section.about_minutes for section in part) for part in page.parts]
    at_home = [part[0].kind == "homework" for part in page.parts]
    taught = [0 if home else lasts for lasts, home in zip(minutes, at_home, strict=True)]
    say = page.say
    told = say(
        several(
            "{count} minutes in all. Show {deck}: its slides have this order.",
            "{count} minutes in all. Show {deck}: its slides have this order.",
            sum(taught),
            deck=_DECK,
        )
    )
    objectives = dict.fromkeys(section.objective for part in page.parts for section in part)
    aims = [say("To learn: {aim}", aim=objective) for objective in objectives if objective]
    lines = [line for text in (*aims, told) for line in page.lines(text, page.body)]
    yield _Block(((EDGE, tuple(lines)),), page.size, after=2.0)
    starts = [0, *accumulate(taught)]
    for at, part in enumerate(page.parts):
        start, end = starts[at], starts[at] + minutes[at]
        when = say("{start}–{end} min", start=start, end=end)
        if at_home[at]:
            when = say("home")
        yield from _part(page, part, when)
    looked_for = list(_mistakes(page))
    if looked_for:
        yield page.heading(say("Mistakes to look for as you walk round"), before=3.0)
        found = [line for text in looked_for for line in page.lines(f"• {text}", page.body)]
        yield _Block(((EDGE, tuple(found)),), page.size, after=2.5)
    yield page.heading(say("Print"), before=0.0 if looked_for else 3.0)
    yield from _to_print(page)


def _part(page: _Page, part: Sequence[WorkedSection], when: str) -> Iterator[_Block]:
    """A row of the plan: when, which part, what is done in it; a little air between examples."""
    x = EDGE + _MINUTES + _GAP + page.part_width + _GAP
    width = EDGE + page.body - x
    name = page.lines(part_heading(part[0]), page.part_width, bold=True)
    beside = (EDGE, ((when, False),)), (EDGE + _MINUTES + _GAP, tuple(name))
    first, *others = (
        tuple(line for text, bold in told for line in page.lines(text, width, bold=bold))
        for told in _does(page, part)
    )
    yield _Block((*beside, (x, first)), page.size, rule=page.body, after=0.0 if others else _AFTER)
    for at, lines in enumerate(others, start=1):
        after = 0.0 if at < len(others) else _AFTER
        before = _AIR * line_height(page.size)
        yield _Block(((x, lines),), page.size, before=before, after=after)


def _does(page: _Page, part: Sequence[WorkedSection]) -> Iterator[list[tuple[str, bool]]]:
    """What is done in a part: in one piece, or in one for each of its examples."""
    told: list[tuple[str, bool]] = []
    for text, bold in _told(page, part):
        if bold and any(heading for _, heading in told):
            yield told
            told = []
        told.append((text, bold))
    yield told


def _told(page: _Page, part: Sequence[WorkedSection]) -> Iterator[tuple[str, bool]]:
    """The lines of a part, and which of them begin an example."""
    section, say = part[0], page.say
    if section.instructions:
        yield section.instructions, False
    letters = letters_of(section)
    if section.kind == "starter":
        told = several(
            "Question {letters} is on the slide; its answer comes after it.",
            "Questions {letters} are on the slide; their answers come one by one.",
            len(section.items),
            letters=letters,
        )
        yield say(told), False
    elif section.kind == "example":
        if page.to_say == _BRIEF:
            shown = (breakable(item.with_answer) for one in part for item in one.items[::2])
            yield "; ".join(shown), False
            return
        for one in part:
            for at in range(0, len(one.items), 2):
                yield from _example(page, *one.items[at : at + 2])
    elif section.kind == "practice":
        yield _sheets(part), False
        if page.to_say != _BRIEF:
            yield from _marked(part)
    elif section.kind == "exit":
        told = several(
            "A slip for each pupil, with question {letters}.",
            "A slip for each pupil, with questions {letters}.",
            len(section.items),
            letters=letters,
        )
        yield say(told), False
        collect = say("Collect the slips at the door; {file} has the answers.", file=_ANSWERS)
        yield collect, False
    else:
        yield say("Give out before the end. {sheets}", sheets=_sheets(part)), False


def _marked(part: Sequence[WorkedSection]) -> Iterator[tuple[str, bool]]:
    """Where the answers to practice are, for pupils to mark their own."""
    say = part[0].say
    slips = [section_heading(one) for one in part if one.versions > MOST_ANSWERED]
    if len(slips) < len(part):
        yield say("Then the answers are on the slides; pupils mark their own."), False
    if slips:
        sheets = all_of(slips)
        yield say("Answers to {sheets}: slips to cut, {file}.", sheets=sheets, file=_ANSWERS), False


def _sheets(part: Sequence[WorkedSection]) -> str:
    say = part[0].say
    if len(part) == 1 and not part[0].place.tier:
        told = several(
            "All work on questions {letters}.",
            "All work on questions {letters}.",
            len(part[0].items),
            letters=letters_of(part[0]),
        )
        return say(told)
    sheets = (f"{section_heading(one)} {letters_of(one)}" for one in part)
    return say("Each pupil has one sheet: {sheets}.", sheets="; ".join(sheets))


def _example(
    page: _Page, shown: WorkedItem, match: WorkedItem | None = None
) -> Iterator[tuple[str, bool]]:
    """The two questions of a pair, and what to say at the first."""
    yield f"{rung_shown(shown)}: {breakable(shown.with_answer)}", True
    for sentence in _said(shown)[: page.to_say]:
        yield page.say("Say: {sentence}", sentence=sentence), False
    if match is not None:
        asked = breakable(match.with_answer)
        yield page.say("Then the class: {question}", question=asked), False


def _said(item: WorkedItem) -> list[str]:
    """The two sentences of a working that matter most: how it is begun, and its hardest step.

    One that puts a wrong working right begins with what went wrong there. The hardest is the
    first that writes a small digit: a carry, an exchange, a remainder. In a working without one
    it is the step that moves what was worked to its place, as in a product of decimals; in others
    the step after it is begun.
    """
    example = item.example
    steps = example.right.steps
    told = example.wrong.steps[::-1] if example.wrong else steps
    begun = [step.sentence for step in told if step.sentence][:1]
    others = [step for step in steps[1:] if step.sentence]
    hard = [step for step in others if _writes(step, *_SMALL)]
    moved = [step for step in others if _writes(step, Ink.ANSWER)]
    if len(moved) != 1 or not any(_writes(step, Ink.PARTIAL) for step in steps):
        moved = []
    hardest = [step.sentence for step in (hard or moved or others)[:1]]
    return list(dict.fromkeys([*begun, *hardest]))


def _writes(step: Step, *inks: Ink) -> bool:
    return any(mark.ink in inks for mark in step.marks)


def _mistakes(page: _Page) -> Iterator[str]:
    """The likeliest mistakes of what pupils work alone, each with an example of it."""
    practice = [section for part in page.parts for section in part if section.kind == "practice"]
    others = [section for part in page.parts for section in part if section.kind != "example"]
    found: Counter[str] = Counter()
    shown: dict[str, str] = {}
    for section in practice or others:
        for item in section.items:
            for likely in item.likely:
                for mistake in likely.mistakes[:1]:
                    found[mistake.in_brief] += 1
                    wrong = page.say(
                        "{question} gives {wrong}, not {right}",
                        question=item.calculation,
                        wrong=page.say.says(likely.reply.text),
                        right=item.reply,
                    )
                    shown.setdefault(mistake.in_brief, wrong)
    for name, _ in found.most_common(MOST_MISTAKES):
        yield f"{page.say.says(name)}: {shown[name]}"


def _to_print(page: _Page) -> Iterator[_Block]:
    """What is printed, how often, and the code at the foot of its first page."""
    say = page.say
    rows: list[tuple[str, str, str]] = []
    for part in page.parts:
        for section in part:
            name = f"{section.place.stem}.pdf"
            if section.kind == "example":
                continue
            rows.append((name, _copies(section), say("code {code}", code=section.code)))
    if any(section.kind == "example" for part in page.parts for section in part):
        rows.append((_EXAMPLES, say("for those who need them in their books"), ""))
    coded = say("pack {code}", code=page.pack.facts.code)
    rows.append((_ANSWERS, say("once, for you"), coded))
    names, copies, codes = (
        max(typeface.width(cell, page.size) for cell in column)
        for column in zip(*rows, strict=True)
    )
    # Where the name of a tier is long, the words in the middle go over more lines.
    copies = min(copies, page.body - names - codes - 4 * _GAP)
    columns: list[list[tuple[str, bool]]] = [[], [], []]
    for name, how_often, code in rows:
        words = page.lines(how_often, copies + _HAIR)
        blank = [("", False)] * (len(words) - 1)
        lines = [(name, False), *blank], words, [(code, False), *blank]
        for column, cell in zip(columns, lines, strict=True):
            column += cell
    widths = names + 2 * _GAP, copies + 2 * _GAP
    lefts = accumulate(widths, initial=EDGE)
    yield _Block(tuple(zip(lefts, map(tuple, columns), strict=True)), page.size, after=1.0)


def _copies(section: WorkedSection) -> str:
    say = section.say
    if section.has_versions:
        return say("once: {count} versions, one per pupil", count=section.versions)
    if section.kind == "exit":
        return say("slips, several to a page, one per pupil")
    if section.kind == "starter":
        return say("one per pupil, where the slide is not enough")
    if section.place.tier:
        return say("one for each pupil who has that sheet")
    return say("one per pupil")
