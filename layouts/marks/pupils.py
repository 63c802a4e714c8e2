"""A line for each pupil: how many are right, the finding, and what it rests on."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from typing import Final

from generator.results.class_results import ClassResults, PupilResult
from generator.results.diagnosis import Habit, Kind
from layouts.marks.blocks import EDGE, PAPER, PUPIL, Block, fitted, printable
from layouts.planning import typeface
from layouts.planning.plan import Role, Unit, line_height, paragraph
from layouts.planning.type_scale import DARK, KEY_SMALL, KEY_TEXT
from layouts.planning.wording import both_of, capital, habits_named
from specs.languages.saying import say, several
from specs.languages.usage import Usage

_SCORE: Final = 20.0
"""The least room for how many are right."""

MOST_NAMED: Final = 3
"""The most rungs that are named in a line; more stand in the table of rungs."""


def pupil_lines(results: ClassResults, usage: Usage) -> Iterator[Block]:
    """A line for each pupil who answered anything."""
    asked = {rung.rung: results.called(rung.rung) for rung in results.rungs if rung.attempted}
    scores = [typeface.width(_score(pupil, usage), KEY_TEXT) for pupil in results.marked]
    findings = EDGE + PUPIL + max(_SCORE, *(width + 1.0 for width in scores), 0.0)
    for pupil in results.marked:
        yield _pupil(_as_called(pupil, results), asked, findings, usage)


def _as_called(pupil: PupilResult, results: ClassResults) -> PupilResult:
    """The same, with what would settle its finding called as these pages call questions."""
    if pupil.settle is None:
        return pupil
    called = [printable(results.question_called(column)) for column in pupil.settle.columns]
    return replace(pupil, settle=replace(pupil.settle, columns=tuple(called)))


def _score(pupil: PupilResult, usage: Usage) -> str:
    return usage(say("{right} of {attempted}", right=pupil.right, attempted=pupil.attempted))


def _pupil(pupil: PupilResult, asked: Mapping[str, str], x: float, usage: Usage) -> Block:
    """A pupil's line: how many right, each finding from ``x`` on, and under it what it rests on.

    ``asked`` are the rungs that anybody answered, with what they are called.
    """
    name = fitted(pupil.pupil, PUPIL - 2.0)
    score = _score(pupil, usage)
    words = [
        *paragraph((name,), EDGE, 0, KEY_TEXT, bold=True),
        *paragraph((score,), EDGE + PUPIL, 0, KEY_TEXT),
    ]
    room = PAPER.width - EDGE - x
    top = 0.0
    for heading, rests_on in _findings(pupil, asked, usage):
        bold = pupil.finding.kind is Kind.HABIT
        lines = typeface.wrap(heading, KEY_TEXT, room, bold=True)
        words += paragraph(lines, x, top, KEY_TEXT, bold=bold)
        top += len(lines) * line_height(KEY_TEXT)
        small = [line for text in rests_on for line in typeface.wrap(text, KEY_SMALL, room)]
        words += paragraph(small, x, top, KEY_SMALL, colour=DARK)
        top += len(small) * line_height(KEY_SMALL)
    return Block(top, (Unit(Role.PARAGRAPH, tuple(words)),))


def _findings(
    pupil: PupilResult, asked: Mapping[str, str], usage: Usage
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each finding in words, and what it rests on; what comes next stands for its group."""
    finding = pupil.finding
    pointing = _pointing([mistake.title for mistake in finding.also], usage)
    not_there = [asked[rung] for rung in finding.not_there if rung in asked]
    if finding.habits:
        for habit in finding.habits:
            is_last = habit is finding.habits[-1]
            named, sure = usage.says(habit.mistake.title), usage.says(habit.how_sure)
            yield (
                usage(say("Habit ({how_sure}): {habit}", how_sure=sure, habit=named)),
                (*_rests_on(habit, usage), *(_open(pupil, usage) if is_last else ())),
            )
        return
    said = capital(usage(finding.kind.said))
    sure = f" ({usage.says(finding.how_sure)})" if finding.how_sure else ""
    if finding.kind is Kind.NOT_THERE and not_there:
        yield (
            f"{said}{sure}: {'; '.join(not_there)}",
            (*pointing, *_open(pupil, usage)),
        )
    elif finding.kind is Kind.SECURE:
        tried = {rung.rung for rung in pupil.rungs}
        left = len([rung for rung in asked if rung not in tried])
        on = several(
            "{finding} on {tried} of {rungs} rungs: the other was not tried",
            "{finding} on {tried} of {rungs} rungs: the others were not tried",
            left,
            finding=said,
            tried=len(tried),
            rungs=len(tried) + left,
        )
        yield usage(on) if left else said, ()
    else:
        rests_on = (*pointing, *_perhaps(pupil, asked, usage), *_open(pupil, usage))
        yield f"{said}{sure}", rests_on


def _perhaps(pupil: PupilResult, asked: Mapping[str, str], usage: Usage) -> Iterator[str]:
    """The rungs on which a pupil is perhaps not there, and that crosses do not say why."""
    rungs = [asked[rung] for rung in pupil.finding.perhaps_not_there if rung in asked]
    if not rungs:
        return
    if len(rungs) <= MOST_NAMED:
        yield usage(say("Perhaps not there yet: {rungs}.", rungs="; ".join(rungs)))
    else:
        yield usage(say("Perhaps not there yet on {count} rungs.", count=len(rungs)))
    wrong = [attempt for attempt in pupil.attempts.values() if not attempt.right]
    if not any(attempt.replies for attempt in wrong):
        yield usage(say("There are only crosses; what was written would say why."))


def _open(pupil: PupilResult, usage: Usage) -> Iterator[str]:
    """What is not known, and which questions would settle it."""
    for field in pupil.finding.unknown:
        unknown = say(
            "Wrong in {field} in a way that is not known here: look at the working.",
            field=usage.says(field),
        )
        yield usage(unknown)
    if pupil.settle is None:
        return
    count = len(pupil.settle.columns)
    if not count:
        yield usage(say("No question of this pack would settle it: look at the working."))
        return
    named = both_of(pupil.settle.columns, usage)
    if pupil.settle.unanswered:
        yield usage(
            say("Not answered yet, and it would settle this: {questions}.", questions=named)
        )
    else:
        more = several(
            "{count} more question like {questions} would settle this.",
            "{count} more questions like {questions} would settle this.",
            count,
            questions=named,
        )
        yield usage(more)


def _rests_on(habit: Habit, usage: Usage) -> Iterator[str]:
    if habit.explained == habit.shows:
        seen = several(
            "One question answered can show this habit, and its answer is the one the habit gives.",
            "{shows} of the questions answered can show this habit, and every one of those answers "
            "is the one it gives.",
            habit.shows,
            shows=habit.shows,
        )
    else:
        seen = several(
            "{shows} of the questions answered can show this habit, and {explained} of those "
            "answers is the one it gives.",
            "{shows} of the questions answered can show this habit, and {explained} of those "
            "answers are the ones it gives.",
            habit.explained,
            shows=habit.shows,
            explained=habit.explained,
        )
    yield usage(seen)
    if habit.also:
        others = habits_named([mistake.title for mistake in habit.also], usage)
        yield usage(say("It could equally be: {habits}.", habits=others))


def _pointing(also: Collection[str], usage: Usage) -> tuple[str, ...]:
    if not also:
        return ()
    return (usage(say("Some answers point at: {habits}.", habits=habits_named(also, usage))),)
