"""The strip of key words below the head of a sheet: each in the pages' language and in another.

For pupils who learn in another language than they speak. Words of the other language are marked
as such for screen readers.
"""

from dataclasses import dataclass
from typing import Final

from generator.packs.working_out import WorkedSection
from layouts.planning import typeface
from layouts.planning.paper_page import PaperPage
from layouts.planning.plan import Box, Role, Text, Unit, line_height
from layouts.planning.type_scale import FINE_LINE, SOFT

_INSIDE: Final = 1.5
"""Between the strip's edge and its words."""
_WITHIN: Final = 1.2
"""Between a word and the same in the other language."""
_BETWEEN: Final = 4.0
"""Between two pairs, at least."""


@dataclass(frozen=True, slots=True)
class Strip:
    """The strip, and how high it is in millimetres; 0 where no key words are asked for."""

    content: tuple[Unit, ...] = ()
    height: float = 0.0


def as_artefact(unit: Unit) -> Unit:
    """The same, not read aloud again on a further page."""
    return Unit(Role.ARTEFACT, unit.items)


def key_words_strip(section: WorkedSection, page: PaperPage, top: float) -> Strip:
    """The key words of a section from ``top`` down, in lines of whole pairs."""
    pairs = section.key_words
    if not pairs:
        return Strip()
    size = page.sizes.text
    left, width = page.left + _INSIDE, page.width - 2 * _INSIDE
    height, x, lines = line_height(size), 0.0, 1
    units = []
    for word, other in pairs:
        first, second = typeface.width(word, size, bold=True), typeface.width(other, size)
        needed = first + _WITHIN + second
        if x and x + needed > width:
            x, lines = 0.0, lines + 1
        baseline = top + _INSIDE + (lines - 1) * height + 0.75 * height
        units += [
            Unit(Role.PARAGRAPH, (Text(word, left + x, baseline, size, bold=True),)),
            Unit(
                Role.PARAGRAPH,
                (Text(other, left + x + first + _WITHIN, baseline, size),),
                language=section.key_words_code,
            ),
        ]
        x += needed + _BETWEEN
    tall = lines * height + 2 * _INSIDE
    frame = Box(page.left, top, page.width, tall, stroke=SOFT, weight=FINE_LINE)
    return Strip((Unit(Role.ARTEFACT, (frame,)), *units), tall)
