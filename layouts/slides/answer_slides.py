"""Answers for the class, large enough to be read from the back of a room.

Entries run down the columns in order. Questions and answers have one size, on as few slides as
type large enough for the room needs, and then the largest that needs no more; entries are
spread evenly over slides and columns.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import flow, typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.plan import PagePlan, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import (
    LEADING,
    MM_PER_POINT,
    SLIDE_ANSWERS,
    SLIDE_DIGITS,
)
from layouts.planning.wording import (
    breakable,
    either_of,
    question_lines,
    section_heading,
    slide_number,
    version_words,
)
from layouts.slides.slide import BODY_BOTTOM, BODY_TOP, LEFT, RIGHT, slide, under_title
from specs.languages.saying import say

_COLUMN_GAP: Final = 14.0
_MOST_COLUMNS: Final = 4
_MOST_LINES: Final = 2
"""A question that is to be worked is not broken into more to stand beside another."""
_NOTE: Final = 0.6
"""What was wrong in a mistake to be found, to the answer's size: 27 points beside 45."""
_LOOSEST: Final = 1.6
"""Entries with room to spare stand so many times their height apart, and no further."""


def _height(size: float, lines: int, notes: int) -> float:
    """An entry's height, with lines of question above its answer and of notes below it."""
    below = notes * line_height(size * _NOTE)
    if not lines:
        return size * MM_PER_POINT * LEADING * 1.15 + below
    return (lines + 1) * line_height(size) + 0.35 * size * MM_PER_POINT + below


@dataclass(frozen=True, slots=True)
class Entry:
    """One answer as it will stand: the question's lines, then the answer after or under them.

    ``sign`` stands between the two: ``=``, or ``≈`` where the answer is rounded.
    """

    label: str
    question: tuple[str, ...]
    sign: str
    answer: str
    size: float
    indent: float
    note: tuple[str, ...] = ()
    is_told: bool = True

    @property
    def on_one_line(self) -> bool:
        """Whether the answer follows its question on the same line."""
        return len(self.question) == 1 and self.question[0].endswith(f"{self.sign} ")

    @property
    def height(self) -> float:
        """The entry's height with the space after it."""
        lines = 0 if self.on_one_line else len(self.question)
        return _height(self.size, lines, len(self.note))

    def texts(self, x: float, top: float) -> Iterator[Text]:
        """The entry with its top left corner there."""
        (first, *_) = paragraph(("",), x, top, self.size)
        if self.on_one_line:
            question = Text(self.question[0], x + self.indent, first.baseline, self.size)
            yield Text(self.label, x, first.baseline, self.size, bold=True)
            yield question
            if self.is_told:
                after = question.x + question.width
                yield Text(self.answer, after, first.baseline, self.size, bold=True)
                yield from self._noted(x, top + line_height(self.size))
            return
        lines = paragraph(self.question, x + self.indent, top, self.size)
        yield Text(self.label, x, lines[0].baseline, self.size, bold=True)
        yield from lines
        if not self.is_told:
            return
        below = top + len(lines) * line_height(self.size)
        yield from paragraph(
            (f"{self.sign} {self.answer}".lstrip(),), x + self.indent, below, self.size, bold=True
        )
        yield from self._noted(x, below + line_height(self.size))

    def _noted(self, x: float, top: float) -> tuple[Text, ...]:
        return paragraph(self.note, x + self.indent, top, self.size * _NOTE)


@dataclass(frozen=True, slots=True)
class _Answer:
    """What an entry says, whatever its size."""

    label: str
    asked: str
    sign: str
    answer: str
    note: str = ""
    is_to_come: bool = False

    @classmethod
    def to(cls, item: WorkedItem) -> "_Answer":
        """What is said of an item; where a mistake was to be found, which it was."""
        note = ""
        if item.shows_a_wrong_answer:
            ((wrong),) = item.wrong_answers_to_expect
            causes = either_of(wrong.causes, item.say)
            note = item.say("not {wrong}: {causes}", wrong=wrong.text, causes=causes)
        return cls(item.label, *item.answered, note)

    @classmethod
    def to_come(cls, item: WorkedItem) -> "_Answer":
        """The question as it stands before it is answered, and what is written then."""
        asked = item.asked_on_a_line
        sign = "=" if asked.endswith(" =") else ""
        asked = asked.removesuffix(" =")
        found = replace(cls.to(item), asked=asked, sign=sign, answer=item.reply)
        return replace(found, is_to_come=True)

    @classmethod
    def alone(cls, item: WorkedItem) -> "_Answer":
        """The question as it stands before it is answered, with no room for the answer."""
        return replace(cls.to_come(item), answer="", note="")

    @property
    def question(self) -> str:
        """The question up to where the answer may follow it."""
        return f"{self.asked} {self.sign} "


@dataclass(frozen=True, slots=True)
class Spread:
    """A section's entries over slides, each slide's in columns of one width."""

    entries: tuple[Entry, ...]
    columns: int
    slides: tuple[flow.Run, ...]

    @property
    def stacked(self) -> int:
        """How many answers stand under their questions."""
        return sum(not entry.on_one_line for entry in self.entries)

    @property
    def column_width(self) -> float:
        """The width of a column, in millimetres."""
        return _column_width(self.columns)


def answer_pages(section: WorkedSection) -> tuple[PagePlan, ...]:
    """The answer slides of one version of a section."""
    if not section.items:
        return ()
    spread = _placed(section, _Answer.to)
    title = answers_heading(section)
    version = version_words(section)
    title = f"{title}, {version}" if version else title
    count = len(spread.slides)
    return tuple(
        slide(
            title,
            _columns(spread, run),
            section.pack.title,
            slide_number(section, number, count),
        )
        for number, run in enumerate(spread.slides, start=1)
    )


def answers_heading(section: WorkedSection) -> str:
    """``Starter: answers``."""
    return section.say("{section}: answers", section=section_heading(section))


def question_pages(section: WorkedSection, title: str, told: str) -> tuple[PagePlan, ...]:
    """The questions alone, on as few slides as large type allows, with what is to be done."""
    spread = _placed(section, _Answer.alone)
    return tuple(_to_do(section, title, told, spread, at, 0) for at in range(len(spread.slides)))


def one_by_one(section: WorkedSection, title: str) -> Iterator[PagePlan]:
    """The same slides with their answers, one more on each."""
    spread = _placed(section, _Answer.to_come)
    for at, (start, end) in enumerate(spread.slides):
        for answered in range(1, end - start + 1):
            yield _to_do(section, title, "", spread, at, answered)


def _to_do(
    section: WorkedSection, title: str, told: str, spread: Spread, at: int, answered: int
) -> PagePlan:
    """One of the slides with so many of its questions answered."""
    run, count = spread.slides[at], len(spread.slides)
    entries = tuple(
        replace(entry, is_told=which < run[0] + answered)
        for which, entry in enumerate(spread.entries)
    )
    body = _columns(replace(spread, entries=entries), run)
    foot = slide_number(section, at + 1, count)
    return slide(title, (*under_title(told), *body), section.pack.title, foot)


def _placed(section: WorkedSection, said: "Callable[[WorkedItem], _Answer]") -> Spread:
    for item in section.items:
        with placing(section.name, item.label, item.rung):
            _fewest_slides([said(item)])
    return spread_out(section.items, said)


def spread_out(
    items: Sequence[WorkedItem], said: "Callable[[WorkedItem], _Answer]" = _Answer.to
) -> Spread:
    """Choose type size, slides and columns. Raises DoesNotFitError when an answer is too wide.

    Type is large enough for the back of the room wherever an answer allows it, on as many
    slides as that needs; then as large as those slides hold, with no more answers under their
    questions than need be.
    """
    answers = list(map(said, items))
    floor, fewest = _fewest_slides(answers)
    stacked: int | None = None
    best: Spread | None = None
    for size in sorted(SLIDE_ANSWERS):
        if size < floor:
            continue
        for columns in range(1, _MOST_COLUMNS + 1):
            spread = _spread(_Sized.of(answers, size), columns, fewest)
            if spread is None or (stacked is not None and spread.stacked > stacked):
                continue
            if (
                best is None
                or spread.stacked < best.stacked
                or spread.entries[0].size > best.entries[0].size
            ):
                best, stacked = spread, spread.stacked
    assert best is not None
    return best


def _fewest_slides(answers: Sequence[_Answer]) -> tuple[float, int]:
    """The smallest size that must do, and how many slides it needs: fewer hold larger type."""
    for size in SLIDE_ANSWERS:
        if size > SLIDE_DIGITS:
            continue
        found = _slides_and_stacked(_Sized.of(answers, size))
        if found:
            return size, min(found[:2], key=lambda one: (one[1], one[0]))[0]
    raise DoesNotFitError(say("its answer is too long for a slide; give its rung shorter numbers"))


def _slides_and_stacked(sized: "_Sized") -> list[tuple[int, int]]:
    """The fewest slides and one more, with how many answers then stand under their questions."""
    found: list[tuple[int, int]] = []
    for slides in range(1, len(sized.answers) + 1):
        tries = (_spread(sized, columns, slides) for columns in range(1, _MOST_COLUMNS + 1))
        stacked = [spread.stacked for spread in tries if spread is not None]
        if stacked:
            found.append((slides, min(stacked)))
        if len(found) == 2:
            break
    return found


def _column_width(columns: int) -> float:
    return (RIGHT - LEFT - _COLUMN_GAP * (columns - 1)) / columns


@dataclass(frozen=True, slots=True)
class _Sized:
    """Answers and their questions in type of one size.

    ``lengths`` are the widths of whole entries, each on one line.
    """

    answers: Sequence[_Answer]
    size: float
    indent: float
    lengths: tuple[float, ...]

    @classmethod
    def of(cls, answers: Sequence[_Answer], size: float) -> "_Sized":
        """The answers in this size: questions begin clear of the widest label."""
        widest = max(typeface.width(answer.label, size, bold=True) for answer in answers)
        indent = widest + 0.7 * size * MM_PER_POINT
        lengths = tuple(
            indent
            + typeface.width(answer.question, size)
            + typeface.width(answer.answer, size, bold=True)
            for answer in answers
        )
        return cls(answers, size, indent, lengths)

    def stacked(self, columns: int) -> int:
        """How many answers would stand under their questions in so many columns."""
        width = _column_width(columns)
        return sum(length > width for length in self.lengths)

    def least_height(self, columns: int) -> float:
        """The height of all in one column, were each question no longer than a line."""
        stacked = self.stacked(columns)
        alone, below = (_height(self.size, lines, 0) for lines in (0, 1))
        return stacked * below + (len(self.lengths) - stacked) * alone

    def entries(self, width: float) -> Iterator[Entry]:
        """The answers in columns of a width."""
        for told, length in zip(self.answers, self.lengths, strict=True):
            if length <= width:
                lines: tuple[str, ...] = (told.question,)
            else:
                room = width - self.indent
                lines = (
                    question_lines(told.asked, self.size, room)
                    if told.is_to_come
                    else typeface.wrap(breakable(told.asked), self.size, room)
                )
            yield Entry(
                told.label,
                lines,
                told.sign,
                told.answer,
                self.size,
                self.indent,
                typeface.wrap(told.note, self.size * _NOTE, width - self.indent)
                if told.note
                else (),
            )


def _spread(sized: _Sized, columns: int, slides: int) -> Spread | None:
    """The answers in so many columns on so many slides, where they fit."""
    width, height = _column_width(columns), BODY_BOTTOM - BODY_TOP
    if sized.least_height(columns) > slides * columns * height + 1e-6:
        return None
    for told in sized.answers:
        answer = typeface.width(f"{told.sign} {told.answer}", sized.size, bold=True)
        if sized.indent + answer > width:
            return None
    entries = tuple(sized.entries(width))
    to_come = sized.answers[0].is_to_come
    if to_come and columns > 1 and any(len(one.question) > _MOST_LINES for one in entries):
        return None
    heights = [entry.height for entry in entries]
    if max(heights) > height:
        return None
    runs = flow.even(heights, slides, height * columns, 0.0)
    if len(runs) > slides or any(
        len(flow.greedy(heights[start:end], height, 0.0)) > columns for start, end in runs
    ):
        return None
    return Spread(entries, columns, runs)


def _columns(spread: Spread, run: flow.Run) -> Iterator[Unit]:
    """The entries of a slide, each read as one."""
    entries = spread.entries[run[0] : run[1]]
    heights = [entry.height for entry in entries]
    stacks = flow.even(heights, spread.columns, BODY_BOTTOM - BODY_TOP, 0.0)
    tallest = max(sum(heights[start:end]) for start, end in stacks)
    looser = min(_LOOSEST, (BODY_BOTTOM - BODY_TOP) / tallest)
    for column, (start, end) in enumerate(stacks):
        x = LEFT + column * (spread.column_width + _COLUMN_GAP)
        top = BODY_TOP
        for entry in entries[start:end]:
            yield Unit(Role.PARAGRAPH, tuple(entry.texts(x, top)))
            top += entry.height * looser
