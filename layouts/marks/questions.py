"""A line for each question: how many have it right, and the wrong answers given most."""

from collections.abc import Iterator, Mapping
from typing import Final

from generator.results.class_results import ClassResults, QuestionResult
from generator.results.mark_sheet import MarkColumn
from layouts.marks.blocks import BAR, BODY, EDGE, Block, bar, fitted, printable, pupils_counted
from layouts.planning import typeface
from layouts.planning.plan import Role, Unit, line_height, paragraph
from layouts.planning.type_scale import DARK, KEY_SMALL, KEY_TEXT
from layouts.planning.wording import breakable, habits_named
from specs.languages.usage import Usage


def questions(results: ClassResults, say: Usage) -> Iterator[Block]:
    """A line for each question that was answered."""
    answered = [result for result in results.questions if result.attempted]
    names = [_name(result.column, results.sections) for result in answered]
    widest = max((_wide(section + letter) for section, letter in names), default=0)
    labels = min(max(widest + 2.0, _NARROW_LABELS), _WIDE_LABELS)
    parts = [part for result in answered for part in _asked(result, say)]
    widest = max((typeface.width(part, KEY_TEXT) for part in parts), default=0)
    room = min(max(widest + 2.0, _NARROW_QUESTION), BODY - labels - 6.0 - BAR - _SCORE)
    for result, (section, letter) in zip(answered, names, strict=True):
        name = fitted(section, labels - 2.0 - _wide(letter)) + letter
        yield _question(result, name, labels, room, say)


_MOST_WRONG: Final = 3
_SCORE: Final = 22.0
_NARROW_LABELS: Final = 26.0
_WIDE_LABELS: Final = 40.0
_NARROW_QUESTION: Final = 54.0


def _wide(name: str) -> float:
    return typeface.width(name, KEY_TEXT, bold=True)


def _name(column: MarkColumn, sections: Mapping[str, str]) -> tuple[str, str]:
    """What a question is called: its section, which may be cut short; its version and letter."""
    own = column.section.name
    letter = printable(column.name.removeprefix(own))
    return printable(sections.get(own, own)), letter


def _asked(result: QuestionResult, say: Usage) -> tuple[str, ...]:
    """The question and its answer, on a line or two, to be wrapped in front of signs only."""
    return tuple(breakable(say.says(part)) for part in result.column.item.in_brief)


def _question(result: QuestionResult, name: str, labels: float, room: float, say: Usage) -> Block:
    """A question: how many were right, and the wrong answers that were given most."""
    asked = _asked(result, say)
    lines = [line for part in asked for line in typeface.wrap(part, KEY_TEXT, room)]
    x = EDGE + labels + room + 6.0
    score = say("{right} of {attempted}", right=result.right, attempted=result.attempted)
    share = tuple(bar(result.right, result.attempted, x, 0))
    texts = [
        *paragraph((name,), EDGE, 0, KEY_TEXT, bold=True),
        *paragraph(lines, EDGE + labels, 0, KEY_TEXT),
        *paragraph((score,), x + BAR + 4.0, 0, KEY_TEXT),
    ]
    below = len(lines) * line_height(KEY_TEXT)
    small: list[str] = []
    for wrong in result.wrong[:_MOST_WRONG]:
        said = f"{say.says(wrong.text)}: {pupils_counted(len(wrong.pupils), say)}"
        if wrong.mistakes:
            names = habits_named([mistake.title for mistake in wrong.mistakes[:2]], say)
            said = f"{said}, {names}"
        small += typeface.wrap(printable(said), KEY_SMALL, BODY - labels)
    texts += paragraph(small, EDGE + labels, below, KEY_SMALL, colour=DARK)
    height = below + len(small) * line_height(KEY_SMALL)
    return Block(height, (Unit(Role.ARTEFACT, share), Unit(Role.PARAGRAPH, tuple(texts))))
