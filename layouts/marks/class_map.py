"""The map of a class: pupils down, questions across, where it went wrong at a look."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby
from typing import Final, TypeAlias

from generator.results.attempts import Attempt
from generator.results.class_results import ClassResults, PupilResult, QuestionResult
from layouts.marks.blocks import BETWEEN, BODY, BY_HABIT, EDGE, PUPIL, Block, fitted, words
from layouts.planning.plan import Box, Item, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import BLACK, DARK, FINE_LINE, GRID, KEY_SMALL, KEY_TEXT, WHITE
from specs.languages.saying import say, say_of
from specs.languages.usage import Usage
from specs.names import name_in_words
from specs.spec import EXIT, HOMEWORK, PRACTICE, STARTER

_SQUARE: Final = 4.6
_MOST_SQUARES: Final = int((BODY - PUPIL) / _SQUARE)


def _columns(results: ClassResults) -> dict["_Column", list[QuestionResult]]:
    """The questions that were answered, those of all versions of a section together."""
    found: dict[_Column, list[QuestionResult]] = {}
    for result in results.questions:
        if result.attempted:
            key = result.column.section.name, result.column.item.label
            found.setdefault(key, []).append(result)
    return found


def class_map(results: ClassResults, usage: Usage) -> Iterator[Block]:
    """Pupils down, questions across: where the class went wrong, at a look.

    Questions that are too many for the width go on in a further band, and each band has its
    head again on every page.
    """
    columns = _columns(results)
    for band in _bands(tuple(columns)):
        named = {
            name: results.sections.get(name) or _heading(columns[name, label], usage)
            for name, label in band
        }
        head = _map_head(band, named, usage)
        first, *rest = (
            _map_row(pupil, map(columns.__getitem__, band), usage) for pupil in results.marked
        )
        yield first.under(replace(head, height=head.height + BETWEEN))
        for row in rest:
            yield replace(row, head=head)
        yield Block(0.0, ())  # rows stand without a gap, and what follows has one


_Column: TypeAlias = tuple[str, str]
"""A question of the map: its section's name and its letter."""


def _bands(columns: Sequence[_Column]) -> Iterator[Sequence[_Column]]:
    """The questions that stand side by side, a section together wherever the width holds it."""
    band: list[_Column] = []
    for _, run in groupby(columns, key=lambda column: column[0]):
        section = list(run)
        if band and len(band) + len(section) > _MOST_SQUARES:
            yield band
            band = []
        while len(section) > _MOST_SQUARES:
            yield section[:_MOST_SQUARES]
            section = section[_MOST_SQUARES:]
        band += section
    if band:
        yield band


_MAP_KEY: Final = say(
    "Blank: right. Grey with ×: wrong. Black with {h}: wrong by the pupil's habit. Point: no "
    "answer.",
    h=BY_HABIT,
)

_SECTIONS: Final = {
    STARTER: say("Starter"),
    PRACTICE: say("Practice"),
    EXIT: say_of("section", "Exit"),
    HOMEWORK: say("Homework"),
}
"""What the names of sections begin with, but for tiers that have their own alone."""


def _heading(versions: Sequence[QuestionResult], usage: Usage) -> str:
    """What the map calls a section: in a word or two, as its columns are narrow."""
    place = versions[0].column.section.place
    words = name_in_words(place.name)
    if not place.name.startswith(place.kind):
        return words
    return f"{usage(_SECTIONS[place.kind])}{words[len(place.kind) :]}"


def _map_head(columns: Sequence[_Column], named: Mapping[str, str], usage: Usage) -> Block:
    """What the squares mean, and the sections and letters above them."""
    key = words(usage(_MAP_KEY), KEY_SMALL)
    items: list[Item] = []
    step = line_height(KEY_SMALL)
    before = ""
    for at, (section, label) in enumerate(columns):
        x = EDGE + PUPIL + at * _SQUARE
        if section != before:
            run = sum(name == section for name, _ in columns)
            room = run * _SQUARE - 1.0
            items += paragraph((fitted(named[section], room, KEY_SMALL),), x, 0, KEY_SMALL)
            before = section
        [letter] = paragraph((label,), 0, step, KEY_SMALL)
        items.append(Text(label, x + _SQUARE / 2, letter.baseline, KEY_SMALL, anchor="centre"))
    return Block(2 * step, (Unit(Role.PARAGRAPH, tuple(items)),)).under(key)


def _map_row(
    pupil: PupilResult, columns: Iterable[Sequence[QuestionResult]], usage: Usage
) -> Block:
    name = fitted(pupil.pupil, PUPIL - 3.0)
    [label] = paragraph((name,), EDGE, 0, KEY_TEXT)
    items: list[Item] = []
    for at, versions in enumerate(columns):
        attempts = [pupil.attempts.get(result.column.name) for result in versions]
        attempt = next((found for found in attempts if found is not None), None)
        items += _square(EDGE + PUPIL + at * _SQUARE, attempt, pupil, usage)
    # The squares repeat what the tables below say in words.
    return Block(
        _SQUARE - BETWEEN,
        (Unit(Role.ARTEFACT, (label,)), Unit(Role.ARTEFACT, tuple(items))),
    )


def _square(x: float, attempt: Attempt | None, pupil: PupilResult, usage: Usage) -> Iterator[Item]:
    sign, fill, colour = "", WHITE, BLACK
    if attempt is None:
        sign = "."
    elif not attempt.right:
        sign, fill = "×", GRID
        if pupil.habit_in(attempt) is not None:
            sign, fill, colour = usage(BY_HABIT), BLACK, WHITE
    yield Box(x, 0, _SQUARE, _SQUARE, fill=fill, stroke=DARK, weight=FINE_LINE)
    if sign:
        [line] = paragraph((sign,), 0, (_SQUARE - line_height(KEY_TEXT)) / 2, KEY_TEXT)
        yield Text(sign, x + _SQUARE / 2, line.baseline, KEY_TEXT, False, colour, "centre")
