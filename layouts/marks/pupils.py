"""A line for each pupil: how many are right, the finding, and what it rests on."""

from collections.abc import Iterator

from generator.results.class_results import PupilResult
from generator.results.diagnosis import Finding, Kind
from layouts.marks.blocks import EDGE, PAPER, PUPIL, Block, fitted
from layouts.planning import typeface
from layouts.planning.plan import Role, Unit, line_height, paragraph
from layouts.planning.type_scale import DARK, KEY_SMALL, KEY_TEXT
from layouts.planning.wording import name_in_words


def pupil_line(pupil: PupilResult) -> Block:
    """A pupil's line: how many right, the finding, and what it rests on."""
    x = EDGE + PUPIL + 20.0
    name = fitted(pupil.pupil, PUPIL - 2.0)
    score = f"{pupil.right} of {pupil.attempted}"
    first = (
        *paragraph((name,), EDGE, 0, KEY_TEXT, bold=True),
        *paragraph((score,), EDGE + PUPIL, 0, KEY_TEXT),
    )
    heading, *rest = _findings(pupil.finding)
    room = PAPER.width - EDGE - x
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
        yield f"Habit: {finding.mistake.title}"
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
    return "; or ".join(mistake.title for mistake in finding.also)
