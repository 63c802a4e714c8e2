"""A bar for each rung that was answered: how much of it the class has right."""

from collections.abc import Iterator
from typing import Final

from generator.results.class_results import (
    RETEACH_ANSWERS,
    RETEACH_BELOW,
    ClassResults,
    RungResult,
)
from layouts.marks.blocks import BAR, EDGE, PAPER, Block, bar, fitted, small_line
from layouts.marks.rung_table import numbered
from layouts.planning import typeface
from layouts.planning.paper import MARGIN
from layouts.planning.plan import Line, Role, Unit, line_height, paragraph
from layouts.planning.type_scale import BLACK, FINE_LINE, KEY_SMALL, KEY_TEXT
from specs.languages.saying import say
from specs.languages.usage import Usage

_AFTER_BAR: Final = 4.0

_RUNGS_KEY: Final = say(
    "Bar: the answers right. Upright line: {part} in {whole}; a rung whose bar ends before it is "
    "taught again, if it has {count} answers or more.",
    part=RETEACH_BELOW.numerator,
    whole=RETEACH_BELOW.denominator,
    count=RETEACH_ANSWERS,
)


def rungs(results: ClassResults, usage: Usage) -> Iterator[Block]:
    """What the bars say, and a bar for each rung that was answered."""
    if any(rung.attempted for rung in results.rungs):
        yield small_line(usage(_RUNGS_KEY))
    numbers = numbered(results)
    for rung in results.rungs:
        if rung.attempted:
            yield _rung(rung, results.called(rung.rung), numbers[rung.rung], usage)


def _rung(rung: RungResult, called: str, number: int, usage: Usage) -> Block:
    x = EDGE + 86.0
    name = fitted(called, 76.0)
    label = say("{right} of {attempted} right", right=rung.right, attempted=rung.attempted)
    if rung.needs_teaching:
        label = say("{right_of_all}: teach again", right_of_all=label)
    said = usage(label)
    room = PAPER.width - MARGIN - (x + BAR + _AFTER_BAR)
    wide = typeface.width(said, KEY_TEXT, bold=rung.needs_teaching) > room
    size = KEY_SMALL if wide else KEY_TEXT
    share = list(bar(rung.right, rung.attempted, x, 0, weak=rung.needs_teaching))
    limit = x + BAR * float(RETEACH_BELOW)
    share.append(Line(limit, 0.2, limit, line_height(KEY_TEXT) - 0.2, FINE_LINE * 1.5, BLACK))
    texts = (
        *paragraph((str(number),), EDGE, 0, KEY_TEXT, bold=True),
        *paragraph((name,), EDGE + 8.0, 0, KEY_TEXT),
        *paragraph((said,), x + BAR + _AFTER_BAR, 0, size, bold=rung.needs_teaching),
    )
    return Block(
        line_height(KEY_TEXT), (Unit(Role.ARTEFACT, tuple(share)), Unit(Role.PARAGRAPH, texts))
    )
