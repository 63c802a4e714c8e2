"""Several classes side by side: how each did on every rung, which habits it has, how many pupils.

No pupil stands on these pages; those of each class follow after them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Final

from generator.results.class_results import RETEACH_BELOW, RungResult
from generator.results.side_by_side import SideBySide
from layouts.marks.blocks import BETWEEN, BODY, EDGE, Block, fitted, small_line
from layouts.planning import typeface
from layouts.planning.plan import Box, Item, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import BLACK, DARK, FINE_LINE, GRID, KEY_SMALL, KEY_TEXT
from layouts.planning.wording import capital
from specs.languages.saying import say
from specs.languages.usage import Usage

_NAMES: Final = 62.0
_WIDEST: Final = 40.0
_BAR: Final = 2.2
FAR_APART: Final = Fraction(1, 5)
"""Classes whose shares differ by so much hardly differ by chance alone (common practice, no
source)."""

_RUNGS_KEY: Final = say(
    "Bar: the answers right; black: fewer than {part} in {whole} right. ≠: between the classes the "
    "share of right answers differs by {apart} in {of} or more.",
    part=RETEACH_BELOW.numerator,
    whole=RETEACH_BELOW.denominator,
    apart=FAR_APART.numerator,
    of=FAR_APART.denominator,
)


def rungs_of_classes(found: SideBySide, usage: Usage) -> Iterator[Block]:
    """A row a rung, with each class's answers right and a bar."""
    yield small_line(usage(_RUNGS_KEY))
    head = _head(found.names)
    for at, rung in enumerate(found.rungs):
        apart = len(found.classes) > 1 and found.spread(rung) >= FAR_APART
        results = [found.on(one, rung) for one in found.classes]
        row = _rung(found.called(rung), results, apart, usage)
        yield (
            row.under(replace(head, height=head.height + BETWEEN))
            if not at
            else replace(row, head=head)
        )


def counts_of_classes(
    found: SideBySide, rows: Sequence[tuple[str, tuple[int, ...]]]
) -> Iterator[Block]:
    """A row a finding or a habit, with the number of each class's pupils."""
    head = _head(found.names)
    for at, (said, counts) in enumerate(rows):
        texts = [*_name(said)]
        width = _width(len(counts))
        for column, count in enumerate(counts):
            x = EDGE + _NAMES + column * width
            texts += paragraph((str(count) if count else "–",), x, 0, KEY_TEXT)
        spoken = ", ".join(f"{n} {count}" for n, count in zip(found.names, counts, strict=True))
        height = max(len(texts) - len(counts), 1) * line_height(KEY_TEXT)
        row = Block(height, (Unit(Role.PARAGRAPH, tuple(texts), f"{said}: {spoken}"),))
        yield (
            row.under(replace(head, height=head.height + BETWEEN))
            if not at
            else replace(row, head=head)
        )


def _width(classes: int) -> float:
    return min(_WIDEST, (BODY - _NAMES) / classes)


def _head(names: Sequence[str]) -> Block:
    width = _width(len(names))
    texts = [
        text
        for at, name in enumerate(names)
        for text in paragraph(
            (fitted(name, width - 2.0),), EDGE + _NAMES + at * width, 0, KEY_TEXT, bold=True
        )
    ]
    return Block(line_height(KEY_TEXT), (Unit(Role.PARAGRAPH, tuple(texts)),))


def _name(said: str) -> tuple[Text, ...]:
    return paragraph(typeface.wrap(capital(said), KEY_TEXT, _NAMES - 4.0), EDGE, 0, KEY_TEXT)


def _rung(name: str, results: Sequence[RungResult], apart: bool, usage: Usage) -> Block:
    width = _width(len(results))
    step = line_height(KEY_TEXT)
    texts = [*paragraph((fitted(name, _NAMES - 8.0),), EDGE, 0, KEY_TEXT)]
    if apart:
        texts += paragraph(("≠",), EDGE + _NAMES - 6.0, 0, KEY_TEXT, bold=True)
    bars: list[Item] = []
    for at, result in enumerate(results):
        x = EDGE + _NAMES + at * width
        texts += paragraph((_said(result, width - 2.0, usage),), x, 0, _size(width))
        long = width - 3.0
        share = result.right / result.attempted if result.attempted else 0.0
        if share:
            fill = BLACK if result.needs_teaching else GRID
            bars.append(Box(x, step, long * share, _BAR, fill=fill))
        bars.append(Box(x, step, long, _BAR, stroke=DARK, weight=FINE_LINE))
    return Block(
        step + _BAR, (Unit(Role.ARTEFACT, tuple(bars)), Unit(Role.PARAGRAPH, tuple(texts)))
    )


def _size(width: float) -> float:
    return KEY_TEXT if width > 20.0 else KEY_SMALL


def _said(result: RungResult, room: float, usage: Usage) -> str:
    """``14 of 20``, or ``14/20`` where there is less room."""
    if not result.attempted:
        return "–"
    right, attempted = result.right, result.attempted
    said = usage(say("{right} of {attempted}", right=right, attempted=attempted))
    return said if typeface.width(said, _size(room)) <= room else f"{right}/{attempted}"
