"""Worked examples, one step a slide, each followed by a matched question for the class."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from generator.operations.working import Step, Working
from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.paper import SLIDE_WIDTH
from layouts.planning.plan import Item as Drawn
from layouts.planning.plan import PagePlan, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import SLIDE_ALONE, SLIDE_QUESTION, SLIDE_SENTENCES
from layouts.planning.wording import (
    breakable,
    name_in_words,
    sentence_to_wrap,
    spoken_working,
)
from layouts.planning.working_ink import Squares, step_ink, working_ink
from layouts.slides.slide import BODY_BOTTOM, BODY_TOP, LEFT, RIGHT, slide
from layouts.slides.window import first_row, rows_shown

LARGEST_SQUARES: Final = (28.0, 24.0, 20.0)
"""Squares are as large as one of these allows; the last is large enough for any room."""
SMALLEST_SQUARE: Final = 8.0
"""Below this a digit could not be read from the back of a room."""

_GAP: Final = 13.0
_NARROWEST_SENTENCE: Final = 120.0


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
            pages.extend(_shown(title, shown))
        for item in matched:
            with placing(section.name, item.label, item.rung):
                pages.extend(_for_the_class(title, item))
    return tuple(pages)


def stage(working: Working, question: str) -> Stage:
    """Place a working and its sentences: beside one another, or the words below.

    The arrangement with the larger squares is taken, up to those that are large enough, and
    with it the largest type that holds every sentence; then what room is left goes to still
    larger squares. Raises DoesNotFitError when not even small squares fit.
    """
    question_size = SLIDE_QUESTION
    lines = typeface.wrap(breakable(question), question_size, RIGHT - LEFT, bold=True)
    top = BODY_TOP + len(lines) * line_height(question_size) + 6.5
    sentences = [sentence_to_wrap(step.sentence) for step in working.steps]
    tries = [
        stage
        for largest in LARGEST_SQUARES
        for size in SLIDE_SENTENCES
        for stage in (
            _beside(working, sentences, size, top, largest),
            _below(working, sentences, size, top, largest),
        )
        if stage is not None
    ]
    if not tries:
        raise DoesNotFitError(
            f"{question} is too long for a worked example on slides; give that rung shorter numbers"
        )
    enough = LARGEST_SQUARES[-1]
    return max(
        tries,
        key=lambda found: (
            min(found.squares.side, enough),
            found.sentence_size,
            found.squares.side,
        ),
    )


def _beside(
    working: Working, sentences: list[str], size: float, top: float, largest: float
) -> Stage | None:
    widest = RIGHT - LEFT - _GAP - _NARROWEST_SENTENCE
    room = BODY_BOTTOM - top
    rows = min(working.rows, int(room / SMALLEST_SQUARE))
    side = min(largest, room / rows, widest / working.columns)
    side = _whole_halves(side)
    text_left = LEFT + side * working.columns + _GAP
    tallest = _tallest(sentences, size, RIGHT - text_left)
    if side < SMALLEST_SQUARE or tallest > room:
        return None
    return Stage(Squares(LEFT, top, side), rows, SLIDE_QUESTION, size, text_left, BODY_TOP, top)


def _below(
    working: Working, sentences: list[str], size: float, top: float, largest: float
) -> Stage | None:
    tallest = _tallest(sentences, size, RIGHT - LEFT)
    room = BODY_BOTTOM - top - tallest - 4.0
    side = min(largest, room / working.rows, (RIGHT - LEFT) / working.columns)
    side = _whole_halves(side)
    if side < SMALLEST_SQUARE:
        return None
    text_top = top + side * working.rows + 4.0
    return Stage(
        Squares(LEFT, top, side), working.rows, SLIDE_QUESTION, size, LEFT, BODY_TOP, text_top
    )


def _whole_halves(side: float) -> float:
    """Rounded down to half a millimetre."""
    return side * 2 // 1 / 2


def _tallest(sentences: list[str], size: float, width: float) -> float:
    lines = max(len(typeface.wrap(sentence, size, width)) for sentence in sentences)
    return lines * line_height(size)


def _shown(title: str, item: WorkedItem) -> Iterator[PagePlan]:
    """The teacher's question, one step a slide; a mistake is found before it is put right."""
    example, asked, whole = item.example, item.asked, item.with_answer
    wrong, right = example.wrong, example.right
    if wrong is None:
        yield from _steps(title, item, right, asked, whole, 0, len(right.steps))
        return
    found, count = len(wrong.steps), len(wrong.steps) + len(right.steps)
    yield from _steps(title, item, wrong, asked, asked, 0, count)
    yield from _steps(title, item, right, example.then_asked, whole, found, count)


def _steps(
    title: str,
    item: WorkedItem,
    working: Working,
    question: str,
    whole: str,
    before: int,
    count: int,
) -> Iterator[PagePlan]:
    """One working's steps, each on a slide, after so many slides of ``count``.

    ``question`` stands over all of them but the last, which has ``whole``.
    """
    placed = stage(working, max(whole, question, key=len))
    for number, step in enumerate(working.steps, start=1):
        text = whole if number == len(working.steps) else question
        yield slide(
            f"Worked example: {name_in_words(item.rung)}",
            (
                *_question(placed, text),
                _drawn(
                    step_ink(placed.shown(working, number), placed.squares, number),
                    working,
                    number,
                ),
                *_sentence(placed, step),
            ),
            title,
            f"step {before + number} of {count}",
        )


def _drawn(ink: tuple[Drawn, ...], working: Working, steps: int) -> Unit:
    """A working on its squares after so many steps, and how it is said."""
    return Unit(Role.WORKING, ink, says=spoken_working(working, steps))


def _question(placed: Stage, text: str) -> tuple[Text, ...]:
    lines = placed.question_lines(text)
    return paragraph(lines, LEFT, placed.question_top, placed.question_size, bold=True)


def _sentence(placed: Stage, step: Step) -> tuple[Text, ...]:
    lines = typeface.wrap(sentence_to_wrap(step.sentence), placed.sentence_size, placed.text_width)
    return paragraph(lines, placed.text_left, placed.text_top, placed.sentence_size)


def _for_the_class(title: str, item: WorkedItem) -> Iterator[PagePlan]:
    """The matched question, with the working to be put right if it has one; then its answer."""
    question = Unit(Role.QUESTION, tuple(_to_do(item)), says=item.said)
    yield slide("Your turn", (question,), title, "")
    working, whole = item.example.right, item.with_answer
    placed = stage(working, whole)
    count = len(working.steps)
    shown = placed.shown(working, count)
    yield slide(
        "Your turn: answer",
        (
            *_question(placed, whole),
            _drawn(
                (placed.squares.grid(shown), *working_ink(shown, placed.squares)),
                working,
                count,
            ),
        ),
        title,
        "",
    )


def _to_do(item: WorkedItem) -> Iterator[Drawn]:
    """The question alone, or over the wrong working that is to be put right."""
    wrong = item.example.wrong
    if wrong is None:
        yield from _alone(item)
        return
    wrong = replace(wrong, steps=(replace(wrong.setting_out, sentence=""),))
    placed = stage(wrong, item.asked)
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
