"""The deck of a whole lesson, in its order: what the class sees from the first slide to the last.

Objectives; questions with the time they have, then their answers one after another; each example
a step at a time, its match with the finished example kept beside it, then worked; which sheet is
whose, and its answers; the next part.
"""

from collections.abc import Iterator, Sequence
from itertools import chain
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedPack, WorkedSection
from layouts.planning import typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.plan import Item, Line, PagePlan, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import (
    FINE_LINE,
    GRID,
    SLIDE_ALONE,
    SLIDE_QUESTIONS,
    SLIDE_SMALL,
    SLIDE_WORDS,
)
from layouts.planning.wording import (
    MOST_ANSWERED,
    breakable,
    letters_of,
    minutes_words,
    part_heading,
    question_lines,
    questions_of,
    rung_shown,
    section_heading,
    spoken_working,
)
from layouts.planning.working_ink import Squares, working_ink
from layouts.slides.answer_slides import (
    answer_pages,
    answers_heading,
    one_by_one,
    question_pages,
)
from layouts.slides.example_slides import (
    SMALLEST_SQUARE,
    answered_pages,
    for_the_class,
    match_in_steps,
    shown_pages,
)
from layouts.slides.slide import BELOW_SMALL_TITLE, BODY_BOTTOM, BODY_TOP, LEFT, RIGHT, slide
from specs.languages.saying import say, several

_KEPT_LEFT: Final = LEFT + 0.62 * (RIGHT - LEFT)
"""Where the finished example stands, beside the question that the class works."""
_GAP: Final = 8.0
_LARGEST_KEPT: Final = 20.0
"""The side of its squares at most: the question is what the slide is about."""
_CAPTIONS: Final = (22.0, 20.0, 18.0, SLIDE_SMALL)
_BAR: Final = 0.13
_BETWEEN: Final = 0.7
"""Between two entries on a slide of words, in lines."""


def deck_pages(pack: WorkedPack) -> Iterator[PagePlan]:
    """All slides of a lesson, one after another as they are asked for."""
    first = pack.of_version(1)
    yield _opening(first)
    differ = len({section.objective for section in first if section.objective}) > 1
    for at, part in enumerate(pack.parts):
        sections = tuple(section for section in part.of_version(1) if section.items)
        if not sections:
            continue
        if at and differ and sections[0].objective:
            yield _words(pack.facts.title, [[sections[0].objective]], None)
        yield from _PARTS[sections[0].kind](sections, part)


def _opening(pack: WorkedPack) -> PagePlan:
    """The title over what is to be learnt; where nothing is said of that, the parts in order."""
    sections = [section for section in pack if section.items]
    objectives = list(dict.fromkeys(section.objective for section in sections if section.objective))
    if not objectives:
        leads = {part.places[0]: part for part in pack.parts}
        objectives = [
            part_heading(section)
            for section in sections
            if section.place in leads and section.kind != "homework"
        ]
    entries = [[line] for line in objectives]
    for most in range(len(entries), 0, -1):  # the others stand before their parts
        found = _fitted(pack.facts.title, entries[:most], None)
        if found is not None:
            return found
    return _words(pack.facts.title, [], None)


def _asked(sections: Sequence[WorkedSection], part: WorkedPack) -> Iterator[PagePlan]:
    """Questions for all on a slide, then their answers one after another."""
    for section in sections:
        heading = section_heading(section)
        yield from question_pages(section, _timed(heading, section), section.instructions)
        yield from one_by_one(section, answers_heading(section))


def _at_the_door(sections: Sequence[WorkedSection], part: WorkedPack) -> Iterator[PagePlan]:
    """Questions that are handed in: their answers are not for this lesson."""
    for section in sections:
        told = section.instructions or section.say("On your slip. Hand it in when you leave.")
        yield from question_pages(section, _timed(section_heading(section), section), told)


def _examples(sections: Sequence[WorkedSection], part: WorkedPack) -> Iterator[PagePlan]:
    """Pairs, one after another: the teacher's question in steps, then the class's."""
    for section in sections:
        title = section.pack.title
        for first in range(0, len(section.items), 2):
            shown, *matched = section.items[first : first + 2]
            with placing(section.name, shown.label, shown.rung):
                yield from shown_pages(title, shown)
            for item in matched:
                with placing(section.name, item.label, item.rung):
                    yield from _your_turn(title, shown, item)
                    if section.match_in_steps:
                        yield from match_in_steps(title, item)
                    else:
                        yield from answered_pages(title, item)


def _on_sheets(sections: Sequence[WorkedSection], part: WorkedPack) -> Iterator[PagePlan]:
    """Which sheet is whose, then the answers to each."""
    yield _whose(sections)
    for section in sections:
        if section.versions <= MOST_ANSWERED:
            yield from chain.from_iterable(map(answer_pages, part.named(section.name)))
        else:
            told = section.say("The answers to each version are on a slip of its own.")
            yield _words(answers_heading(section), [[told]], section)


def _to_take_home(sections: Sequence[WorkedSection], part: WorkedPack) -> Iterator[PagePlan]:
    yield _whose(sections)


_PARTS: Final = {
    "starter": _asked,
    "example": _examples,
    "practice": _on_sheets,
    "exit": _at_the_door,
    "homework": _to_take_home,
}
"""The slides of each kind of part."""


def _timed(heading: str, section: WorkedSection) -> str:
    return ", ".join(filter(None, (heading, minutes_words(section.minutes, section.say))))


def _whose(sections: Sequence[WorkedSection]) -> PagePlan:
    """What is to be done on which sheet, and for how long."""
    heading, say = part_heading(sections[0]), sections[0].say
    longest = max((section.minutes or 0 for section in sections), default=0)
    title = ", ".join(filter(None, (heading, minutes_words(longest or None, say))))
    entries, short = [], []
    for section in sections:
        lines = [] if section_heading(section) == heading else [section_heading(section)]
        usual = _to_do(section, on_your_sheet=not lines)
        told = f"{section.instructions}: {questions_of(section)}" if section.instructions else usual
        entries.append([*lines, told])
        short.append([*lines, usual])
    return _fitted(title, entries, sections[0]) or _words(title, short, sections[0])


def _to_do(section: WorkedSection, *, on_your_sheet: bool) -> str:
    """``On your sheet, work out questions a to f.``"""
    letters, count = letters_of(section), len(section.items)
    said = (
        several(
            "On your sheet, work out question {letters}.",
            "On your sheet, work out questions {letters}.",
            count,
            letters=letters,
        )
        if on_your_sheet
        else several(
            "Work out question {letters}.", "Work out questions {letters}.", count, letters=letters
        )
    )
    return section.say(said)


def _words(title: str, entries: Sequence[Sequence[str]], section: WorkedSection | None) -> PagePlan:
    """A slide of words: entries under one another, the first line of several bold."""
    found = _fitted(title, entries, section)
    if found is None:
        raise DoesNotFitError(
            say("{title} has more to say than a slide holds; give it fewer tiers", title=title)
        )
    return found


def _fitted(
    title: str, entries: Sequence[Sequence[str]], section: WorkedSection | None
) -> PagePlan | None:
    """The same in type as large as fits, in columns where one does not do; None for too much."""
    width, room = RIGHT - LEFT, BODY_BOTTOM - BODY_TOP
    for columns in (1, 2, 3):
        across = (width - (columns - 1) * 2 * _GAP) / columns
        for size in SLIDE_WORDS:
            found = [_wrapped(entry, size, across) for entry in entries]
            deep = -(-len(found) // columns)
            stacks = [found[at : at + deep] for at in range(0, len(found), max(deep, 1))]
            if all(_height(stack, size) <= room for stack in stacks):
                units = [
                    unit
                    for column, stack in enumerate(stacks)
                    for unit in _stacked(stack, LEFT + column * (across + 2 * _GAP), size)
                ]
                foot = section.pack.title if section else ""
                return slide(title, units, foot, "")
    return None


def _wrapped(entry: Sequence[str], size: float, width: float) -> list[tuple[str, bool]]:
    return [
        (line, len(entry) > 1 and not at)
        for at, text in enumerate(entry)
        for line in typeface.wrap(text, size, width, bold=len(entry) > 1 and not at)
    ]


def _height(stack: Sequence[Sequence[tuple[str, bool]]], size: float) -> float:
    lines = sum(map(len, stack)) + _BETWEEN * max(len(stack) - 1, 0)
    return lines * line_height(size)


def _stacked(stack: Sequence[Sequence[tuple[str, bool]]], x: float, size: float) -> Iterator[Unit]:
    top = BODY_TOP
    for entry in stack:
        lines: list[Text] = []
        for line, bold in entry:
            lines += paragraph((line,), x, top, size, bold=bold)
            top += line_height(size)
        yield Unit(Role.PARAGRAPH, tuple(lines))
        top += _BETWEEN * line_height(size)


def _your_turn(title: str, shown: WorkedItem, item: WorkedItem) -> Iterator[PagePlan]:
    """The class's question with the finished example beside it, where both are large enough."""
    kept = tuple(_kept(shown))
    mine = tuple(_mine(item)) if kept else ()
    if not mine:
        yield for_the_class(title, item)
        return
    body = Unit(Role.QUESTION, mine, says=item.said)
    yield slide(item.say("Your turn"), (body, *kept), title, rung_shown(item), small_title=True)


def _kept(item: WorkedItem) -> Iterator[Item | Unit]:
    """The finished example on its squares, under what was asked; nothing where it is too wide."""
    left, width = _KEPT_LEFT + _GAP, RIGHT - _KEPT_LEFT - _GAP
    working, text = item.example.right, breakable(item.with_answer)
    for size in _CAPTIONS:
        lines = typeface.wrap(text, size, width)
        if len(lines) == 1:
            break
    top = BELOW_SMALL_TITLE + len(lines) * line_height(size) + 4.0
    side = min(
        _LARGEST_KEPT, width / working.columns, (BODY_BOTTOM - top) / (working.rows + 2 * _BAR)
    )
    if side < SMALLEST_SQUARE:
        return
    squares = Squares(left, top, side)
    ink = squares.grid(working), *working_ink(working, squares)
    yield Line(_KEPT_LEFT, BELOW_SMALL_TITLE, _KEPT_LEFT, BODY_BOTTOM, FINE_LINE, GRID)
    yield Unit(Role.PARAGRAPH, paragraph(lines, left, BELOW_SMALL_TITLE, size))
    yield Unit(Role.WORKING, ink, says=spoken_working(working, len(working.steps), item.say))


def _mine(item: WorkedItem) -> Iterator[Item]:
    """The question in what is left of the slide, over a wrong working if there is one to mend."""
    width = _KEPT_LEFT - _GAP - LEFT
    wrong = item.example.wrong
    sizes = SLIDE_ALONE if wrong is None else SLIDE_QUESTIONS
    for size in sizes:
        lines = question_lines(item.asked, size, width)
        if len(lines) <= (1 if size > sizes[-2] else 4):
            break
    height = len(lines) * line_height(size)
    if wrong is None:
        top = (BODY_TOP + BODY_BOTTOM - height) / 2
        yield from paragraph(lines, LEFT, top, size)
        return
    top = BELOW_SMALL_TITLE + height + 2.0
    side = min(width / wrong.columns, (BODY_BOTTOM - top) / (wrong.rows + 2 * _BAR))
    if side < SMALLEST_SQUARE:
        return
    squares = Squares(LEFT, top + _BAR * side, min(side, 28.0))
    yield from paragraph(lines, LEFT, BELOW_SMALL_TITLE, size, bold=True)
    yield squares.grid(wrong)
    yield from working_ink(wrong, squares)
