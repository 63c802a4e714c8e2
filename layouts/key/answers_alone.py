"""The answers of a section in one version: a row a question, and the wrong ones to expect."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.key.band import EDGE, Band, heading, row
from layouts.key.likely import Expected, expected, power_lines
from layouts.planning import typeface
from layouts.planning.plan import Line, Role, Text, Unit, line_height, moved, paragraph
from layouts.planning.type_scale import (
    FINE_LINE,
    GRID,
    KEY_ANSWER,
    KEY_QUESTION,
    KEY_WRONG,
)
from layouts.planning.wording import breakable, section_heading

_LABEL: Final = 8.0
_GAP: Final = 6.0
_AROUND: Final = 0.9
"""Between a row's words and the lines over and under it."""
_MOST_QUESTION: Final = 0.36
_MOST_ANSWER: Final = 0.32
"""Of the width: what is wider goes on several lines."""
_MOST_WRONG: Final = 26.0
"""What a wider wrong answer comes from stands under it."""
_SLACK: Final = 0.05


def question_alone(item: WorkedItem) -> str:
    """The question without what leads up to its answer."""
    return item.answered[0].rstrip(":, ").replace("  ", " ")


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where questions, answers and wrong answers begin, and how wide wrong answers are."""

    question: float
    answer: float
    wrong: float
    reason: float
    end: float

    @classmethod
    def of(cls, section: WorkedSection, body: float) -> "_Columns":
        """As wide as the section needs, up to a share of the page."""
        items = section.items
        questions = max(typeface.width(question_alone(item), KEY_QUESTION) for item in items)
        estimates = (typeface.width(_estimated(item), KEY_WRONG) for item in items)
        questions = max(questions, *estimates)
        answers = max(typeface.width(item.reply, KEY_ANSWER, bold=True) for item in items)
        wrongs = [wrong.text for item in items for wrong in _expected(item, section.kind)]
        widths = (typeface.width(text, KEY_WRONG) for text in wrongs)
        wrong = max((width for width in widths if width <= _MOST_WRONG), default=0.0)
        question = EDGE + _LABEL
        answer = question + min(questions, _MOST_QUESTION * body) + _GAP
        third = answer + min(answers, _MOST_ANSWER * body) + _GAP
        return cls(question, answer, third, third + wrong + 2.0, EDGE + body)


def answers_alone(section: WorkedSection, body: float) -> Iterator[Band]:
    """The bands of one section: its heading, then a row a question."""
    columns = _Columns.of(section, body)
    yield heading(section_heading(section), power_lines(section, body))
    say = section.say
    again = heading(say("{name}, continued", name=section_heading(section)))
    notes = say("shown"), say("your turn")
    for number, item in enumerate(section.items):
        note = notes[number % 2] if section.kind == "example" else ""
        yield _row(item, columns, again, tuple(_expected(item, section.kind)), note)


def _expected(item: WorkedItem, kind: str) -> Iterator[Expected]:
    """The wrong answers to expect: examples, which are not marked, have that shown alone."""
    if kind != "example" or item.shows_a_wrong_answer:
        yield from expected(item)


def _row(
    item: WorkedItem, columns: _Columns, again: Band, likely: Sequence[Expected], note: str
) -> Band:
    asked = typeface.wrap(
        breakable(question_alone(item)),
        KEY_QUESTION,
        columns.answer - _GAP - columns.question + _SLACK,
    )
    width = columns.answer - _GAP - columns.question + _SLACK
    estimated = typeface.wrap(breakable(_estimated(item)), KEY_WRONG, width)
    estimated = estimated if item.estimate else ()
    room = columns.wrong - _GAP - columns.answer + _SLACK
    answer = typeface.wrap(item.reply, KEY_ANSWER, room, bold=True)
    wrong, wrong_height = _wrong(likely, columns, note)
    answers = len(answer) * line_height(KEY_ANSWER)
    # One line, of whatever size, stands on one baseline.
    down = (line_height(KEY_ANSWER) - line_height(KEY_QUESTION)) / 2
    words = down + len(asked) * line_height(KEY_QUESTION)
    height = max(answers, words + len(estimated) * line_height(KEY_WRONG), wrong_height)
    top = _AROUND
    lines = paragraph(asked, columns.question, top + down, KEY_QUESTION)
    below = paragraph(estimated, columns.question, top + words, KEY_WRONG)
    label = Text(item.label, EDGE, lines[0].baseline, KEY_QUESTION, bold=True)
    right = paragraph(answer, columns.answer, top, KEY_ANSWER, bold=True)
    rule = Line(EDGE, 0.0, columns.end, 0.0, FINE_LINE, GRID)
    content = (
        Unit(Role.ARTEFACT, (rule,)),
        row((label, *lines, *below, *right)),
        *(
            [row(item for item in moved(wrong, 0.0, top) if isinstance(item, Text))]
            if wrong
            else []
        ),
    )
    return Band(content, height + 2 * _AROUND, again=again)


def _estimated(item: WorkedItem) -> str:
    """The estimate that stands in small below its question; "" for none."""
    if item.estimate is None:
        return ""
    return item.say("estimate: {estimate}", estimate=item.say.says(item.estimate.text))


def _wrong(likely: Sequence[Expected], columns: _Columns, note: str) -> tuple[list[Text], float]:
    """The wrong answers with where each comes from, beside it or below, and their height."""
    texts: list[Text] = []
    top = (line_height(KEY_ANSWER) - line_height(KEY_WRONG)) / 2
    step = line_height(KEY_WRONG)
    if note:
        texts += paragraph((note,), columns.wrong, top, KEY_WRONG)
        top += step
    arrow = typeface.width("→ ", KEY_WRONG)
    for wrong in likely:
        x = columns.reason
        said = typeface.wrap(wrong.text, KEY_WRONG, columns.end - columns.wrong)
        texts += paragraph(said, columns.wrong, top, KEY_WRONG)
        if typeface.width(wrong.text, KEY_WRONG) > _MOST_WRONG:
            top, x = top + step * len(said), columns.wrong + 4.0
        lines = typeface.wrap(wrong.reasons, KEY_WRONG, columns.end - x - arrow)
        texts += paragraph(("→",), x, top, KEY_WRONG)
        texts += paragraph(lines, x + arrow, top, KEY_WRONG)
        top += len(lines) * step
    return texts, top
