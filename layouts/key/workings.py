"""The workings of a section, two or more side by side, for whoever asks how it is done."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.key.band import EDGE, Band, heading
from layouts.planning import typeface
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.paper import Paper
from layouts.planning.plan import Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import KEY_TEXT, KEY_WRONG
from layouts.planning.wording import (
    breakable,
    features_text,
    section_heading,
    sentence_to_wrap,
    spoken_working,
    version_words,
)
from layouts.planning.working_ink import Squares, working_ink
from specs.languages.saying import say
from specs.languages.usage import Usage

SQUARE: Final = 4.5
"""The side of a square in the key."""

_NARROWEST: Final = 46.0
_COLUMN_GAP: Final = 7.0
_AFTER_ENTRY: Final = 5.0
_LABEL: Final = 7.0


@dataclass(frozen=True, slots=True)
class Entry:
    """A question in the key: its lines of text and its working below them.

    ``answer`` has the lines of an answer that stands apart from its question, if it does.
    """

    label: str
    lines: tuple[str, ...]
    answer: tuple[str, ...]
    features: tuple[str, ...]
    working: Working
    say: Usage

    @property
    def text_height(self) -> float:
        """The height of the words, down to the working's first line."""
        return (
            (len(self.lines) + len(self.answer)) * line_height(KEY_TEXT)
            + len(self.features) * line_height(KEY_WRONG)
            + 1.5
        )

    @property
    def height(self) -> float:
        """The whole entry's height."""
        return self.text_height + self.working.rows * SQUARE

    def drawn(self, x: float) -> Iterator[Unit]:
        """The entry with its left edge there."""
        lines = paragraph(self.lines, x + _LABEL, 0.0, KEY_TEXT)
        label = Text(f"{self.label})", x, lines[0].baseline, KEY_TEXT, bold=True)
        below = len(lines) * line_height(KEY_TEXT)
        answer = paragraph(self.answer, x + _LABEL, below, KEY_TEXT, bold=True)
        yield Unit(Role.PARAGRAPH, (label, *lines, *answer))
        below += len(answer) * line_height(KEY_TEXT)
        small = paragraph(self.features, x + _LABEL, below, KEY_WRONG)
        yield Unit(Role.PARAGRAPH, small)
        squares = Squares(x + _LABEL, self.text_height, SQUARE)
        ink = squares.grid(self.working), *working_ink(self.working, squares)
        said = spoken_working(self.working, len(self.working.steps), self.say)
        yield Unit(Role.WORKING, ink, says=said)


def workings(section: WorkedSection, paper: Paper) -> Iterator[Band]:
    """The bands of one section: a row of workings each, the first under the section's name."""
    body = paper.width - 2 * EDGE
    count = _columns(section, paper, body)
    width = (body - _COLUMN_GAP * (count - 1)) / count
    yield heading(", ".join(filter(None, (_name(section), version_words(section)))))
    again = heading(section.say("{name}, continued", name=_name(section)))
    entries = [_entry(section, index, width) for index in range(len(section.items))]
    for start in range(0, len(entries), count):
        row = entries[start : start + count]
        units = (
            unit
            for column, entry in enumerate(row)
            for unit in entry.drawn(EDGE + column * (width + _COLUMN_GAP))
        )
        yield Band(
            tuple(units),
            max(entry.height for entry in row),
            _AFTER_ENTRY if start else 0.0,
            again=again,
        )


def _name(section: WorkedSection) -> str:
    return section.say("{section}: workings", section=section_heading(section))


def _columns(section: WorkedSection, paper: Paper, body: float) -> int:
    """As many columns as are wide enough for every working; pairs of examples stay together."""
    widest = _NARROWEST
    for item in section.items:
        with placing(section.name, item.label, item.rung):
            width = _LABEL + SQUARE * item.working.columns
            if width > body:
                raise DoesNotFitError(
                    say(
                        "its working is too wide for the key on {paper}; give its rung shorter "
                        "numbers",
                        paper=paper.name,
                    )
                )
            widest = max(widest, width)
    count = max(1, int((body + _COLUMN_GAP) // (widest + _COLUMN_GAP)))
    if section.kind == "example" and count > 1:  # a pair side by side
        count -= count % 2
    return count


def _entry(section: WorkedSection, index: int, width: float) -> Entry:
    item = section.items[index]
    asked, answer = item.with_answer_apart
    words = [_about(item, section, index)]
    if item.found_in_it:
        words.append(section.say("Shown: {found}", found=item.found_in_it))
    return Entry(
        item.label,
        typeface.wrap(breakable(asked), KEY_TEXT, width - _LABEL),
        typeface.wrap(answer, KEY_TEXT, width - _LABEL, bold=True) if answer else (),
        tuple(
            line
            for text in words
            for line in typeface.wrap(sentence_to_wrap(text), KEY_WRONG, width - _LABEL)
        ),
        item.working,
        section.say,
    )


def _about(item: WorkedItem, section: WorkedSection, index: int) -> str:
    if section.kind != "example":
        return features_text(item)
    features = features_text(item)
    if index % 2:
        return section.say("Your turn. {features}", features=features)
    return section.say("Shown. {features}", features=features)
