"""A line for each question: how many have it right, and the wrong answers given most."""

from collections.abc import Iterator
from typing import Final

from generator.results.class_results import ClassResults, QuestionResult
from layouts.marks.blocks import BAR, BODY, EDGE, Block, bar, fitted, printable, pupils_counted
from layouts.planning import typeface
from layouts.planning.plan import Role, Unit, line_height, paragraph
from layouts.planning.type_scale import DARK, KEY_SMALL, KEY_TEXT
from layouts.planning.wording import breakable, habits_named
from specs.languages.usage import Usage


def questions(results: ClassResults, say: Usage) -> Iterator[Block]:
    """A line for each question that was answered."""
    answered = [result for result in results.questions if result.attempted]
    parts = [part for result in answered for part in _asked(result, say)]
    widest = max((typeface.width(part, KEY_TEXT) for part in parts), default=0)
    room = min(max(widest + 2.0, _NARROW_QUESTION), _WIDE_QUESTION)
    for result in answered:
        yield _question(result, room, say)


_MOST_WRONG: Final = 3
_SCORE: Final = 22.0
_LABELS: Final = 26.0
_NARROW_QUESTION: Final = 54.0
_WIDE_QUESTION: Final = BODY - _LABELS - 6.0 - BAR - _SCORE


def _asked(result: QuestionResult, say: Usage) -> tuple[str, ...]:
    """The question and its answer, on a line or two, to be wrapped in front of signs only."""
    return tuple(breakable(say.says(part)) for part in result.column.item.in_brief)


def _question(result: QuestionResult, room: float, say: Usage) -> Block:
    """A question: how many were right, and the wrong answers that were given most."""
    name = fitted(result.column.name, 24.0)
    asked = _asked(result, say)
    lines = [line for part in asked for line in typeface.wrap(part, KEY_TEXT, room)]
    x = EDGE + _LABELS + room + 6.0
    score = say("{right} of {attempted}", right=result.right, attempted=result.attempted)
    share = tuple(bar(result.right, result.attempted, x, 0))
    texts = [
        *paragraph((name,), EDGE, 0, KEY_TEXT, bold=True),
        *paragraph(lines, EDGE + _LABELS, 0, KEY_TEXT),
        *paragraph((score,), x + BAR + 4.0, 0, KEY_TEXT),
    ]
    below = len(lines) * line_height(KEY_TEXT)
    small: list[str] = []
    for wrong in result.wrong[:_MOST_WRONG]:
        said = f"{say.says(wrong.text)}: {pupils_counted(len(wrong.pupils), say)}"
        if wrong.mistakes:
            names = habits_named([mistake.title for mistake in wrong.mistakes[:2]], say)
            said = f"{said}, {names}"
        small += typeface.wrap(printable(said), KEY_SMALL, BODY - _LABELS)
    texts += paragraph(small, EDGE + _LABELS, below, KEY_SMALL, colour=DARK)
    height = below + len(small) * line_height(KEY_SMALL)
    return Block(height, (Unit(Role.ARTEFACT, share), Unit(Role.PARAGRAPH, tuple(texts))))
