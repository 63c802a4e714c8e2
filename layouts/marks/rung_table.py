"""The table of pupils and rungs: who has what, at a glance.

Every square has its numbers, so that nothing is lost on a photocopy that knows black and white
alone. A rung has its number everywhere, and over the table its name where there is room.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from generator.results.class_results import RETEACH_BELOW, ClassResults, PupilResult, RungResult
from generator.results.diagnosis import Kind
from layouts.marks.blocks import (
    BETWEEN,
    BODY,
    BY_HABIT,
    EDGE,
    PUPIL,
    Block,
    fitted,
    printable,
    words,
)
from layouts.planning import typeface
from layouts.planning.plan import Box, Item, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import (
    BLACK,
    DARK,
    FINE_LINE,
    GRID,
    KEY_SMALL,
    KEY_TEXT,
    WHITE,
)
from specs.languages.saying import say
from specs.languages.usage import Usage

ROW: Final = 4.8
_SAYS: Final = 26.0
"""The least room for a finding in a word or two."""

_BEFORE_FINDING: Final = 2.0

_WIDEST: Final = 24.0
_NARROWEST: Final = 10.5
_HEAD_LINES: Final = 3

_KEY: Final = say(
    "3/4: 3 right of 4. Black: fewer than {part} in {whole} right. Grey: some wrong. White: all "
    "right. {h}: wrong by the pupil's habit. Point: no answer.",
    part=RETEACH_BELOW.numerator,
    whole=RETEACH_BELOW.denominator,
    h=BY_HABIT,
)
_NUMBERS: Final = say("The numbers over the squares are those of the rungs above.")


@dataclass(frozen=True, slots=True)
class _Column:
    """A rung of the table: its number on the pages, and the results of the class."""

    number: int
    rung: RungResult
    name: str


def numbered(results: ClassResults) -> dict[str, int]:
    """The numbers of the rungs that were answered, in the pack's order."""
    tried = [rung.rung for rung in results.rungs if rung.attempted]
    return {rung: number for number, rung in enumerate(tried, 1)}


def rung_table(results: ClassResults, usage: Usage) -> Iterator[Block]:
    """Pupils down, rungs across; rungs that are too many for the width go on in a further band."""
    numbers = numbered(results)
    columns = [
        _Column(numbers[r.rung], r, printable(results.called(r.rung)))
        for r in results.rungs
        if r.rung in numbers
    ]
    found = {_in_brief(pupil, results, usage) for pupil in results.marked}
    widest = max((typeface.width(said, KEY_SMALL) for said in found), default=0.0)
    room = BODY - PUPIL - max(_SAYS, _BEFORE_FINDING + widest)
    most = int(room / _NARROWEST)
    for first in range(0, len(columns), most):
        band = columns[first : first + most]
        width = min(_WIDEST, room / len(band))
        head = _head(band, width, usage)
        top, *rest = (_row(pupil, band, width, results, usage) for pupil in results.marked)
        yield top.under(replace(head, height=head.height + BETWEEN))
        for row in rest:
            yield replace(row, head=head)
        yield Block(0.0, ())  # rows stand without a gap, and what follows has one


def _head(band: Sequence[_Column], width: float, usage: Usage) -> Block:
    """What the squares mean, and over them each rung's number and, where all fit, names."""
    named = [_wrapped(column.name, width - 1.5) for column in band]
    fits = all(lines is not None for lines in named)
    rest = "" if fits else usage(_NUMBERS)
    key = words(f"{usage(_KEY)} {rest}", KEY_SMALL)
    tall = max((len(lines) for lines in named if lines), default=0) if fits else 0
    step = line_height(KEY_SMALL)
    items: list[Item] = []
    for at, (column, lines) in enumerate(zip(band, named, strict=True)):
        middle = EDGE + PUPIL + (at + 0.5) * width
        shown = [*(lines or ())] if fits else []
        for down, line in enumerate(shown):
            [text] = paragraph((line,), 0, (tall - len(shown) + down) * step, KEY_SMALL)
            items.append(replace(text, x=middle, anchor="centre"))
        [number] = paragraph((str(column.number),), 0, tall * step, KEY_TEXT, bold=True)
        items.append(replace(number, x=middle, anchor="centre"))
    height = tall * step + line_height(KEY_TEXT)
    return Block(height, (Unit(Role.PARAGRAPH, tuple(items)),)).under(key)


def _wrapped(name: str, width: float) -> tuple[str, ...] | None:
    """A name in a few short lines; None where it does not fit."""
    lines = tuple(typeface.wrap(name, KEY_SMALL, width))
    fits = len(lines) <= _HEAD_LINES
    return lines if fits and all(typeface.width(one, KEY_SMALL) <= width for one in lines) else None


def _row(
    pupil: PupilResult,
    band: Sequence[_Column],
    width: float,
    results: ClassResults,
    usage: Usage,
) -> Block:
    down = (ROW - line_height(KEY_TEXT)) / 2
    [label] = paragraph((fitted(pupil.pupil, PUPIL - 3.0),), EDGE, down, KEY_TEXT, bold=True)
    with_habit = _rungs_with_a_habit(pupil, results)
    of_rung = {rung.rung: rung for rung in pupil.rungs}
    boxes: list[Item] = []
    texts: list[Text] = [label]
    spoken = []
    for at, column in enumerate(band):
        x = EDGE + PUPIL + at * width
        found = of_rung.get(column.rung.rung)
        habit = column.rung.rung in with_habit
        said, fill, colour = _square(found, habit, usage)
        boxes.append(Box(x, 0, width, ROW, fill=fill, stroke=DARK, weight=FINE_LINE))
        bold = fill is not WHITE
        [line] = paragraph((said,), 0, (ROW - line_height(KEY_TEXT)) / 2, KEY_TEXT, bold=bold)
        texts.append(replace(line, x=x + width / 2, anchor="centre", colour=colour))
        if found is not None:
            right, attempted = found.right, found.attempted
            heard = say(
                "{rung} {right} of {attempted}",
                rung=column.name,
                right=right,
                attempted=attempted,
            )
            if habit:
                heard = say("{right_of_all}, wrong by the pupil's habit", right_of_all=heard)
            spoken.append(usage(heard))
    says = _in_brief(pupil, results, usage)
    [finding] = paragraph((says,), EDGE + PUPIL + len(band) * width + _BEFORE_FINDING, 0, KEY_SMALL)
    down = (ROW - line_height(KEY_SMALL)) / 2
    texts.append(replace(finding, baseline=finding.baseline + down))
    all_heard = "; ".join([*spoken, says])
    told = usage(say("Pupil {pupil}: {heard}.", pupil=printable(pupil.pupil), heard=all_heard))
    return Block(
        ROW - BETWEEN,
        (Unit(Role.ARTEFACT, tuple(boxes)), Unit(Role.PARAGRAPH, tuple(texts), told)),
    )


def _square(
    found: RungResult | None, habit: bool, usage: Usage
) -> tuple[str, tuple[float, float, float], tuple[float, float, float]]:
    """What stands in a square, the square's colour and that of its digits."""
    if found is None or not found.attempted:
        return ".", WHITE, BLACK
    said = f"{found.right}/{found.attempted}"
    if habit:
        said = f"{said} {usage(BY_HABIT)}"
    if found.right == found.attempted:
        return said, WHITE, BLACK
    if found.right < RETEACH_BELOW * found.attempted:
        return said, BLACK, WHITE
    return said, GRID, BLACK


def _rungs_with_a_habit(pupil: PupilResult, results: ClassResults) -> set[str]:
    """The rungs on which a habit of the pupil's gave a wrong answer."""
    return {
        result.column.item.rung
        for result in results.questions
        if (attempt := pupil.attempts.get(result.column.name)) is not None
        and pupil.habit_in(attempt) is not None
    }


def _in_brief(pupil: PupilResult, results: ClassResults, usage: Usage) -> str:
    """The finding in a word or two."""
    if pupil.habits:
        count = len(pupil.habits)
        return usage(say("{count} habits", count=count) if count > 1 else Kind.HABIT.said)
    if pupil.finding.kind is Kind.SECURE:
        so_far = any(g.next_rung and pupil.pupil in g.pupils for g in results.groups)
        return usage(say("secure so far") if so_far else Kind.SECURE.said)
    return usage(pupil.finding.kind.said)
