"""A line for each pupil: how many are right, the finding, and what it rests on."""

from collections.abc import Collection, Iterable, Iterator
from typing import Final

from generator.results.class_results import ClassResults, PupilResult
from generator.results.diagnosis import Habit, Kind
from layouts.marks.blocks import EDGE, PAPER, PUPIL, Block, fitted
from layouts.planning import typeface
from layouts.planning.plan import Role, Unit, line_height, paragraph
from layouts.planning.type_scale import DARK, KEY_SMALL, KEY_TEXT
from layouts.planning.wording import name_in_words

MOST_NAMED: Final = 3
"""The most rungs that are named in a line; more stand in the table of rungs."""


def pupil_lines(results: ClassResults) -> Iterator[Block]:
    """A line for each pupil who answered anything."""
    asked = [rung.rung for rung in results.rungs if rung.attempted]
    for pupil in results.marked:
        yield _pupil(pupil, asked)


def _pupil(pupil: PupilResult, asked: Collection[str]) -> Block:
    """A pupil's line: how many right, each finding, and under it what it rests on."""
    x = EDGE + PUPIL + 20.0
    name = fitted(pupil.pupil, PUPIL - 2.0)
    score = f"{pupil.right} of {pupil.attempted}"
    words = [
        *paragraph((name,), EDGE, 0, KEY_TEXT, bold=True),
        *paragraph((score,), EDGE + PUPIL, 0, KEY_TEXT),
    ]
    room = PAPER.width - EDGE - x
    top = 0.0
    for heading, rests_on in _findings(pupil, asked):
        bold = pupil.finding.kind is Kind.HABIT
        lines = typeface.wrap(heading, KEY_TEXT, room, bold=True)
        words += paragraph(lines, x, top, KEY_TEXT, bold=bold)
        top += len(lines) * line_height(KEY_TEXT)
        small = [line for text in rests_on for line in typeface.wrap(text, KEY_SMALL, room)]
        words += paragraph(small, x, top, KEY_SMALL, colour=DARK)
        top += len(small) * line_height(KEY_SMALL)
    return Block(top, (Unit(Role.PARAGRAPH, tuple(words)),))


def _findings(pupil: PupilResult, asked: Collection[str]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each finding in words, and what it rests on; what comes next stands for its group."""
    finding = pupil.finding
    pointing = _pointing([mistake.title for mistake in finding.also])
    not_there = [name_in_words(rung) for rung in finding.not_there if rung in asked]
    if finding.habits:
        for habit in finding.habits:
            is_last = habit is finding.habits[-1]
            yield (
                f"Habit ({habit.how_sure}): {habit.mistake.title}",
                (*_rests_on(habit), *(_open(pupil) if is_last else ())),
            )
        return
    said = name_in_words(str(finding.kind))
    sure = f" ({finding.how_sure})" if finding.how_sure else ""
    if finding.kind is Kind.NOT_THERE and not_there:
        yield (
            f"{said}{sure}: {'; '.join(not_there)}",
            (*pointing, *_open(pupil)),
        )
    elif finding.kind is Kind.SECURE:
        tried = {rung.rung for rung in pupil.rungs}
        left = len([rung for rung in asked if rung not in tried])
        others = "the other was" if left == 1 else "the others were"
        of = f"{len(tried)} of {len(tried) + left} rungs"
        on = f" on {of}: {others} not tried" if left else ""
        yield f"{said}{on}", ()
    else:
        rests_on = (*pointing, *_perhaps(pupil, asked), *_open(pupil))
        yield f"{said}{sure}", rests_on


def _perhaps(pupil: PupilResult, asked: Collection[str]) -> Iterator[str]:
    """The rungs on which a pupil is perhaps not there, and that crosses do not say why."""
    rungs = [name_in_words(rung) for rung in pupil.finding.perhaps_not_there if rung in asked]
    if not rungs:
        return
    on = f": {'; '.join(rungs)}" if len(rungs) <= MOST_NAMED else f" on {len(rungs)} rungs"
    yield f"Perhaps not there yet{on}."
    wrong = [attempt for attempt in pupil.attempts.values() if not attempt.right]
    if not any(attempt.replies for attempt in wrong):
        yield "There are only crosses; what was written would say why."


def _open(pupil: PupilResult) -> Iterator[str]:
    """What is not known, and which questions would settle it."""
    for field in pupil.finding.unknown:
        yield f"Wrong in {field} in a way that is not known here: look at the working."
    if pupil.settle is None:
        return
    named = " and ".join(pupil.settle.columns)
    count = len(pupil.settle.columns)
    if not count:
        yield "No question of this pack would settle it: look at the working."
    elif pupil.settle.unanswered:
        yield f"Not answered yet, and it would settle this: {named}."
    else:
        yield f"{count} more question{'' if count == 1 else 's'} like {named} would settle this."


def _rests_on(habit: Habit) -> Iterator[str]:
    all_of_them = habit.explained == habit.shows
    on = "on every one of them" if all_of_them else f"on {habit.explained} of them"
    yield (
        f"Of the questions answered, {habit.shows} can show this habit; {on} the answer is the one "
        "it gives."
    )
    if habit.also:
        yield f"It may as well be: {_names(mistake.title for mistake in habit.also)}."


def _pointing(also: Collection[str]) -> tuple[str, ...]:
    return (f"Some answers point at: {_names(also)}.",) if also else ()


def _names(titles: Iterable[str]) -> str:
    return "; or ".join(titles)
