"""Answers for the class, large enough to be read from the back of a room.

Entries run down the columns in order. As few slides as the smallest allowed type needs,
then the largest type that needs no more; entries are spread evenly over slides and columns.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import flow, typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.plan import PagePlan, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import (
    LEADING,
    MM_PER_POINT,
    QUESTIONS_BESIDE_ANSWERS,
    SLIDE_ANSWERS,
)
from layouts.planning.wording import breakable, section_heading, version_words
from layouts.slides.slide import BODY_BOTTOM, BODY_TOP, LEFT, RIGHT, slide

_COLUMN_GAP: Final = 14.0
_MOST_COLUMNS: Final = 4
_LOOSEST: Final = 1.35
"""Entries with room to spare stand so many times their height apart, and no further."""


def _height(size: float, question_size: float, lines: int) -> float:
    """An entry's height, with so many lines of question above its answer."""
    if not lines:
        return size * MM_PER_POINT * LEADING * 1.15
    return lines * line_height(question_size) + line_height(size) + 0.35 * size * MM_PER_POINT


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
    question_size: float
    indent: float

    @property
    def on_one_line(self) -> bool:
        """Whether the answer follows its question on the same line."""
        return len(self.question) == 1 and self.question[0].endswith(f"{self.sign} ")

    @property
    def height(self) -> float:
        """The entry's height with the space after it."""
        lines = 0 if self.on_one_line else len(self.question)
        return _height(self.size, self.question_size, lines)

    def texts(self, x: float, top: float) -> Iterator[Text]:
        """The entry with its top left corner there."""
        (first, *_) = paragraph(("",), x, top, self.size)
        if self.on_one_line:
            question = Text(self.question[0], x + self.indent, first.baseline, self.question_size)
            yield Text(self.label, x, first.baseline, self.question_size, bold=True)
            yield question
            after = question.x + question.width
            yield Text(self.answer, after, first.baseline, self.size, bold=True)
            return
        lines = paragraph(self.question, x + self.indent, top, self.question_size)
        yield Text(self.label, x, lines[0].baseline, self.question_size, bold=True)
        yield from lines
        below = top + len(lines) * line_height(self.question_size)
        yield from paragraph(
            (f"{self.sign} {self.answer}".lstrip(),), x + self.indent, below, self.size, bold=True
        )


@dataclass(frozen=True, slots=True)
class _Answer:
    """What an entry says, whatever its size."""

    label: str
    asked: str
    sign: str
    answer: str

    @classmethod
    def to(cls, item: WorkedItem) -> "_Answer":
        """What is said of an item."""
        return cls(item.label, *item.answered)

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
    for item in section.items:
        with placing(section.name, item.label, item.rung):
            _fewest_slides([_Answer.to(item)])
    spread = spread_out(section.items)
    version = version_words(section)
    title = f"{section_heading(section)}: answers{', ' if version else ''}{version}"
    count = len(spread.slides)
    return tuple(
        slide(
            title,
            _columns(spread, run),
            section.pack.title,
            f"slide {number} of {count}" if count > 1 else "",
        )
        for number, run in enumerate(spread.slides, start=1)
    )


def spread_out(items: Sequence[WorkedItem]) -> Spread:
    """Choose type size and number of columns. Raises DoesNotFitError when an answer is too wide.

    What comes before the size of type: few slides, then few answers under their questions.
    """
    answers = [_Answer.to(item) for item in items]
    fewest = _fewest_slides(answers)
    best: Spread | None = None
    for ratio in QUESTIONS_BESIDE_ANSWERS:
        for size in SLIDE_ANSWERS:
            sized = _Sized.of(answers, size, size * ratio)
            for columns in range(1, _MOST_COLUMNS + 1):
                if best is not None and sized.stacked(columns) >= best.stacked:
                    continue
                spread = _spread(sized, columns, fewest)
                if spread is not None:
                    best = spread
                    if not best.stacked:
                        return best
    assert best is not None
    return best


def _fewest_slides(answers: Sequence[_Answer]) -> int:
    """How many slides the smallest type needs."""
    smallest = min(SLIDE_ANSWERS)
    sized = _Sized.of(answers, smallest, smallest * min(QUESTIONS_BESIDE_ANSWERS))
    for slides in range(1, len(answers) + 1):
        for columns in range(1, _MOST_COLUMNS + 1):
            if _spread(sized, columns, slides) is not None:
                return slides
    raise DoesNotFitError("its answer is too long for a slide; give its rung shorter numbers")


def _column_width(columns: int) -> float:
    return (RIGHT - LEFT - _COLUMN_GAP * (columns - 1)) / columns


@dataclass(frozen=True, slots=True)
class _Sized:
    """Answers in type of one size, and of another for their questions.

    ``lengths`` are the widths of whole entries, each on one line.
    """

    answers: Sequence[_Answer]
    size: float
    question_size: float
    indent: float
    lengths: tuple[float, ...]

    @classmethod
    def of(cls, answers: Sequence[_Answer], size: float, question_size: float) -> "_Sized":
        """The answers in these sizes: questions begin clear of the widest label."""
        widest = max(typeface.width(answer.label, question_size, bold=True) for answer in answers)
        indent = widest + 0.7 * question_size * MM_PER_POINT
        lengths = tuple(
            indent
            + typeface.width(answer.question, question_size)
            + typeface.width(answer.answer, size, bold=True)
            for answer in answers
        )
        return cls(answers, size, question_size, indent, lengths)

    def stacked(self, columns: int) -> int:
        """How many answers would stand under their questions in so many columns."""
        width = _column_width(columns)
        return sum(length > width for length in self.lengths)

    def least_height(self, columns: int) -> float:
        """The height of all in one column, were each question no longer than a line."""
        stacked = self.stacked(columns)
        alone, below = (_height(self.size, self.question_size, lines) for lines in (0, 1))
        return stacked * below + (len(self.lengths) - stacked) * alone

    def entries(self, width: float) -> Iterator[Entry]:
        """The answers in columns of a width."""
        for told, length in zip(self.answers, self.lengths, strict=True):
            if length <= width:
                lines: tuple[str, ...] = (told.question,)
            else:
                asked = breakable(told.asked)
                lines = typeface.wrap(asked, self.question_size, width - self.indent)
            yield Entry(
                told.label,
                lines,
                told.sign,
                told.answer,
                self.size,
                self.question_size,
                self.indent,
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
