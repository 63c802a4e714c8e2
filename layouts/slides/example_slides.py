"""Worked examples, one step a slide, each followed by a matched question for the class."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from generator.operations.working import Ink, Step, Working
from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.paper import SLIDE_WIDTH
from layouts.planning.plan import Item as Drawn
from layouts.planning.plan import PagePlan, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import (
    MM_PER_POINT,
    SLIDE_ALONE,
    SLIDE_DIGITS,
    SLIDE_QUESTIONS,
    SLIDE_SENTENCES,
)
from layouts.planning.wording import (
    breakable,
    rung_shown,
    sentence_to_wrap,
    slide_number,
    spoken_working,
)
from layouts.planning.working_ink import FULL, Squares, step_ink, working_ink
from layouts.slides.side_by_side import side_by_side
from layouts.slides.slide import (
    BELOW_SMALL_TITLE,
    BODY_BOTTOM,
    BODY_TOP,
    CLEAR_OF_SMALL_TITLE,
    LEFT,
    RIGHT,
    slide,
)
from layouts.slides.window import first_row, holds_what_is_spoken_of, rows_shown
from specs.languages.saying import say
from specs.languages.usage import Usage

LARGE_ENOUGH: Final = math.ceil(SLIDE_DIGITS * MM_PER_POINT / FULL * 10) / 10
"""Squares whose digits are large enough for any room."""
LARGEST_SQUARES: Final = (36.0, 28.0, 24.0, LARGE_ENOUGH)
"""Squares are as large as one of these allows."""
SMALLEST_SQUARE: Final = 8.0
"""Below this a digit could not be read from the back of a room."""

_GAP: Final = 10.0
_BAR: Final = 0.09
"""Room over the squares for the bars that mark a column, in squares."""
_OVER_FOOT: Final = 1.6
"""How far bars may reach below the body, and still are clear of the foot."""
_BELOW: Final = 4.0
_NARROWEST_SENTENCE: Final = 62.0
_COMFORTABLE_SENTENCE: Final = 110.0
"""Squares grow past what is large enough only as far as sentences keep this width."""
_KEPT: Final = 64
"""Slides of so many questions are kept for the next file."""
_EASILY_READ: Final = 26.0
"""Sentences are set smaller only where the digits would otherwise be too small."""


@dataclass(frozen=True, slots=True)
class Stage:
    """How one example is arranged on all of its slides, so that nothing jumps between them.

    ``rows`` is how many rows of the working a slide shows: all of them, unless the working
    is too tall. ``question_top`` and ``text_top`` are where the question's and the
    sentence's lines begin.
    """

    squares: Squares
    rows: int
    question_size: float
    sentence_size: float
    text_left: float
    question_top: float
    text_top: float

    @property
    def text_width(self) -> float:
        """The room for words."""
        return RIGHT - self.text_left

    def question_lines(self, question: str) -> tuple[str, ...]:
        """The question wrapped in front of its signs."""
        return typeface.wrap(breakable(question), self.question_size, RIGHT - LEFT, bold=True)

    def shown(self, working: Working, steps: int) -> Working:
        """What a slide shows of the working after so many steps."""
        return rows_shown(working, first_row(working, steps, self.rows), self.rows)


def example_pages(section: WorkedSection) -> tuple[PagePlan, ...]:
    """The slides of every pair of a section: the teacher's question, then its match."""
    title = section.pack.title
    pages: list[PagePlan] = []
    for first in range(0, len(section.items), 2):
        shown, *matched = section.items[first : first + 2]
        with placing(section.name, shown.label, shown.rung):
            pages.extend(shown_pages(title, shown))
        for item in matched:
            with placing(section.name, item.label, item.rung):
                pages.extend(_for_the_class(title, item))
    return tuple(pages)


def stage(
    working: Working,
    question: str,
    *,
    largest: float = LARGEST_SQUARES[0],
    all_rows: bool = False,
) -> Stage:
    """Place a working and its sentences: beside one another, or the words below.

    Of all arrangements those with the largest digits are taken, up to those that are large
    enough; of these, what shows the most rows under sentences that are easily read; then what
    room is left goes to larger sentences and squares. A window on some of the rows is taken
    where it has at each step all that the step speaks of, unless ``all_rows`` must be seen.
    Raises DoesNotFitError when not even small squares fit.
    """
    head = _head(question)
    sentences = [sentence_to_wrap(step.sentence) for step in working.steps]
    tries: list[Stage] = []
    held = min(working.rows, int((BODY_BOTTOM - head.bottom) / SMALLEST_SQUARE - _BAR))
    for rows in range(working.rows, 0, -1):
        if rows < held and (all_rows or not holds_what_is_spoken_of(working, rows)):
            break
        for most in (min(largest, square) for square in LARGEST_SQUARES):
            for sentence_size in SLIDE_SENTENCES:
                for place in (_beside, _below):
                    found = place(working, rows, sentences, head, sentence_size, most)
                    if found is not None:
                        tries.append(found)
        if rows == working.rows and any(_good_enough(found, largest) for found in tries):
            break
    if not tries:
        raise DoesNotFitError(
            say(
                "{question} is too long for a worked example on slides; give that rung shorter "
                "numbers",
                question=question,
            )
        )
    return max(tries, key=lambda found: _worth(working, found))


def _good_enough(found: Stage, largest: float) -> bool:
    """Whether nothing of the working need be out of sight for larger type."""
    enough = found.squares.side >= min(largest, LARGE_ENOUGH)
    return enough and found.sentence_size >= _EASILY_READ


def _worth(working: Working, found: Stage) -> tuple[float, ...]:
    """What is better in one arrangement than in another, the weightiest first."""
    return (
        min(found.squares.side, LARGE_ENOUGH),
        found.sentence_size >= _EASILY_READ,
        found.rows == working.rows,
        _begins_at_a_rule(working, found.rows),
        found.rows,
        found.sentence_size,
        found.squares.side,
    )


def _begins_at_a_rule(working: Working, rows: int) -> bool:
    """Whether the last so many rows are all that stands under a rule across all squares."""
    first = working.rows - rows
    noted = any(mark.ink is Ink.NOTE for mark in working.marks())
    across = 0, working.units_column if noted else working.columns - 1
    return any(
        rule.row == first and (rule.start, rule.end) == across for rule in working.rules_drawn()
    )


@dataclass(frozen=True, slots=True)
class _Head:
    """The question over a working: its size, and from where down to where its lines reach."""

    size: float
    top: float
    bottom: float


def _head(question: str) -> _Head:
    """The question on one line, where any size allows it."""
    text = breakable(question)
    for size in SLIDE_QUESTIONS:
        lines = typeface.wrap(text, size, RIGHT - LEFT, bold=True)
        if len(lines) == 1:
            break
    top = (
        BELOW_SMALL_TITLE if typeface.EMPTY_BOXES.keys().isdisjoint(text) else CLEAR_OF_SMALL_TITLE
    )
    return _Head(size, top, top + len(lines) * line_height(size))


def _beside(
    working: Working,
    rows: int,
    sentences: list[str],
    head: _Head,
    size: float,
    largest: float,
) -> Stage | None:
    narrowest = _NARROWEST_SENTENCE if largest <= LARGE_ENOUGH else _COMFORTABLE_SENTENCE
    widest = RIGHT - LEFT - _GAP - narrowest
    side = _whole_tenths(min(largest, _tall(rows, head.bottom), widest / working.columns))
    text_left = LEFT + side * working.columns + _GAP
    tallest = _tallest(sentences, size, RIGHT - text_left)
    if side < SMALLEST_SQUARE or tallest is None or tallest > BODY_BOTTOM - head.bottom:
        return None
    squares = Squares(LEFT, head.bottom + _BAR * side, side)
    return Stage(squares, rows, head.size, size, text_left, head.top, squares.y)


def _below(
    working: Working,
    rows: int,
    sentences: list[str],
    head: _Head,
    size: float,
    largest: float,
) -> Stage | None:
    tallest = _tallest(sentences, size, RIGHT - LEFT)
    if tallest is None:
        return None
    room = BODY_BOTTOM - head.bottom - tallest - (_BELOW if tallest else 0.0)
    side = _whole_tenths(min(largest, room / (rows + 2 * _BAR), (RIGHT - LEFT) / working.columns))
    if side < SMALLEST_SQUARE:
        return None
    text_top = head.bottom + side * (rows + 2 * _BAR) + _BELOW
    squares = Squares(LEFT, head.bottom + _BAR * side, side)
    return Stage(squares, rows, head.size, size, LEFT, head.top, text_top)


def _tall(rows: int, top: float) -> float:
    """How large squares may be for so many rows: the bars under them end over the foot."""
    squares = (BODY_BOTTOM - top) / (rows + _BAR)
    return min(squares, (BODY_BOTTOM + _OVER_FOOT - top) / (rows + 2 * _BAR))


def _whole_tenths(side: float) -> float:
    """Rounded down to a tenth of a millimetre."""
    return math.floor(side * 10 + 1e-6) / 10


def _tallest(sentences: list[str], size: float, width: float) -> float | None:
    """The height of the longest sentence; None where a word of one is wider than its line."""
    lines = 0
    for sentence in filter(None, sentences):
        words = sentence.split(" ")
        if max(typeface.width(word, size) for word in words) > width:
            return None
        lines = max(lines, len(typeface.wrap(sentence, size, width)))
    return lines * line_height(size)


@lru_cache(maxsize=_KEPT)  # the lesson's deck has them too
def shown_pages(title: str, item: WorkedItem, heading: str = "") -> tuple[PagePlan, ...]:
    """The teacher's question, one step a slide; a mistake is found before it is put right."""
    return tuple(_shown(title, item, heading))


def _shown(title: str, item: WorkedItem, heading: str) -> Iterator[PagePlan]:
    example, asked, whole = item.example, item.asked, item.with_answer
    wrong, right = example.wrong, example.right
    if wrong is None:
        count = len(right.steps)
        yield from _steps(title, item, right, asked, whole, 0, count, heading=heading)
        return
    found, count = len(wrong.steps), len(wrong.steps) + len(right.steps)
    side = min(stage(wrong, asked).squares.side, stage(right, whole).squares.side)
    yield from _steps(title, item, wrong, asked, asked, 0, count, side, heading)
    yield from _steps(title, item, right, example.then_asked, whole, found, count, side, heading)
    yield from side_by_side(title, item, heading or _worked_example(item))


def _steps(
    title: str,
    item: WorkedItem,
    working: Working,
    question: str,
    whole: str,
    before: int,
    count: int,
    largest: float = LARGEST_SQUARES[0],
    heading: str = "",
) -> Iterator[PagePlan]:
    """One working's steps, each on a slide, after so many slides of ``count``.

    ``question`` stands over all of them but the last, which has ``whole``.
    """
    placed = stage(working, max(whole, question, key=len), largest=largest)
    for number, step in enumerate(working.steps, start=1):
        text = whole if number == len(working.steps) else question
        yield slide(
            heading or _worked_example(item),
            (
                *_question(placed, text),
                _drawn(
                    step_ink(placed.shown(working, number), placed.squares, number),
                    working,
                    number,
                    item.say,
                ),
                *_sentence(placed, step),
            ),
            title,
            item.say("step {number} of {count}", number=before + number, count=count),
            small_title=True,
        )


def _worked_example(item: WorkedItem) -> str:
    return item.say("Worked example: {rung}", rung=rung_shown(item))


def _drawn(ink: tuple[Drawn, ...], working: Working, steps: int, usage: Usage) -> Unit:
    """A working on its squares after so many steps, and how it is said."""
    return Unit(Role.WORKING, ink, says=spoken_working(working, steps, usage))


def _question(placed: Stage, text: str) -> tuple[Text, ...]:
    lines = placed.question_lines(text)
    return paragraph(lines, LEFT, placed.question_top, placed.question_size, bold=True)


def _sentence(placed: Stage, step: Step) -> tuple[Text, ...]:
    lines = typeface.wrap(sentence_to_wrap(step.sentence), placed.sentence_size, placed.text_width)
    return paragraph(lines, placed.text_left, placed.text_top, placed.sentence_size)


def _for_the_class(title: str, item: WorkedItem) -> Iterator[PagePlan]:
    """The matched question, with the working to be put right if it has one; then its answer."""
    yield for_the_class(title, item)
    yield from answered_pages(title, item)


def for_the_class(title: str, item: WorkedItem) -> PagePlan:
    """The matched question, with the working to be put right if it has one."""
    question = Unit(Role.QUESTION, tuple(_to_do(item)), says=item.said)
    return slide(item.say("Your turn"), (question,), title, "", small_title=True)


def match_in_steps(title: str, item: WorkedItem) -> tuple[PagePlan, ...]:
    """The match worked a step at a time, as the teacher's question was."""
    return shown_pages(title, item, item.say("Your turn: answer"))


@lru_cache(maxsize=_KEPT)  # the lesson's deck has them too
def answered_pages(title: str, item: WorkedItem) -> tuple[PagePlan, ...]:
    """The match worked, at once."""
    return tuple(_answered(title, item))


def _answered(title: str, item: WorkedItem) -> Iterator[PagePlan]:
    """The match worked: on two slides or more where one would make its digits too small.

    Where a mistake was to be found, the first says which it was.
    """
    example, whole = item.example, item.with_answer
    said = example.wrong.steps[-1].sentence if example.wrong else ""
    steps = (replace(example.right.setting_out, sentence=said), *example.right.steps[1:])
    silent = tuple(replace(step, sentence="") for step in steps[1:])
    as_in_steps = max(LARGE_ENOUGH, stage(example.right, whole).squares.side)
    worked = replace(example.right, steps=(steps[0], *silent))
    placed = stage(worked, whole, largest=as_in_steps, all_rows=True)
    parts: tuple[tuple[int, int], ...] = ((0, example.right.rows),)
    if placed.squares.side < LARGE_ENOUGH:
        placed, parts = _in_parts(example.right, placed, whole, said)
    count = len(example.right.steps)
    for number, (first, rows) in enumerate(parts, start=1):
        shown = rows_shown(example.right, first, rows)
        ink = placed.squares.grid(shown), *working_ink(shown, placed.squares)
        yield slide(
            item.say("Your turn: answer"),
            (
                *_question(placed, whole),
                _drawn(ink, example.right, count, item.say),
                *(_sentence(placed, steps[0]) if number == 1 and said else ()),
            ),
            title,
            slide_number(item, number, len(parts)),
            small_title=True,
        )


def _in_parts(
    working: Working, placed: Stage, question: str, said: str
) -> tuple[Stage, tuple[tuple[int, int], ...]]:
    """The working's rows shared among as few slides as large enough digits need.

    The last has as many as fit, or all under a rule across the squares.
    """
    top = _head(question).bottom
    words = placed.text_left if said else RIGHT + _GAP
    widest = (words - _GAP - LEFT) / working.columns
    side = _whole_tenths(min(LARGE_ENOUGH, widest))
    fit = int((BODY_BOTTOM - top) / side - _BAR)
    below = said and placed.text_left == LEFT
    if below or side <= placed.squares.side or fit >= working.rows:
        return placed, ((0, working.rows),)
    last = next((r for r in range(fit, 0, -1) if _begins_at_a_rule(working, r)), fit)
    if any(line.start == line.end == working.rows - last for line in working.uprights_drawn()):
        last -= 1  # the answer stays on its half-box
    if working.line is not None and working.rows - last < working.line.rows <= fit:
        last = working.rows - working.line.rows
    if working.rows - last > fit:
        last = fit
    ends = list(range(working.rows - last, 0, -fit))
    parts = [(max(0, end - fit), end - max(0, end - fit)) for end in reversed(ends)]
    tallest = max(last, *(rows for _, rows in parts))
    side = _whole_tenths(min(LARGEST_SQUARES[0], widest, _tall(tallest, top)))
    squares = Squares(LEFT, top + _BAR * side, side)
    moved = replace(placed, squares=squares, rows=fit, text_top=squares.y)
    return moved, (*parts, (working.rows - last, last))


def _to_do(item: WorkedItem) -> Iterator[Drawn]:
    """The question alone, or over the wrong working that is to be put right."""
    wrong = item.example.wrong
    if wrong is None:
        yield from _alone(item)
        return
    wrong = replace(wrong, steps=(replace(wrong.setting_out, sentence=""),))
    placed = stage(wrong, item.asked, all_rows=True)
    shown = placed.shown(wrong, 1)
    yield from _question(placed, item.asked)
    yield placed.squares.grid(shown)
    yield from working_ink(shown, placed.squares)


def _alone(item: WorkedItem) -> Iterator[Text]:
    """The question in the middle of the slide, as large as it goes on a line or two."""
    text = breakable(item.asked)
    for size in SLIDE_ALONE:
        lines = typeface.wrap(text, size, RIGHT - LEFT)
        if len(lines) == 1:
            break
    else:
        size = SLIDE_ALONE[2]
        lines = typeface.wrap(text, size, RIGHT - LEFT)
    height = len(lines) * line_height(size)
    top = (BODY_TOP + BODY_BOTTOM - height) / 2
    for text_line in paragraph(lines, LEFT, top, size):
        yield Text(text_line.text, SLIDE_WIDTH / 2, text_line.baseline, size, anchor="centre")
