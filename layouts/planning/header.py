"""The head of a pupil's sheet: title, section, how long it takes, name and date."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from generator.packs.working_out import WorkedSection
from layouts.planning import typeface
from layouts.planning.key_words import as_artefact, key_words_strip
from layouts.planning.paper_page import PaperPage
from layouts.planning.plan import Item, Line, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import FINE_LINE
from layouts.planning.wording import minutes_words, section_heading, version_words

_BELOW: Final = 3.0
"""Between the line to write on and the squares."""
_BESIDE: Final = 4.0


@dataclass(frozen=True, slots=True)
class Header:
    """The head of a page and where it ends."""

    content: tuple[Unit, ...]
    end: float


def header(section: WorkedSection, page: PaperPage, number: int) -> Header:
    """The head between the page's edges; on pages after the first it is no longer read aloud."""
    sizes, left, right, width = page.sizes, page.left, page.right, page.width
    lines, size = title_lines(section.pack.title, sizes.titles, width)
    title = paragraph(lines, left, sizes.edge, size, bold=True)
    top = sizes.edge + len(title) * line_height(size)

    heading = paragraph(
        typeface.wrap(section_heading(section), sizes.heading, width, bold=True),
        left,
        top,
        sizes.heading,
        bold=True,
    )
    top += len(heading) * line_height(sizes.heading)

    say = section.say
    first_of_all = say("estimate first: write it after ≈") if section.is_estimated else ""
    minutes = minutes_words(section.minutes, say)
    words = " · ".join(filter(None, (minutes, version_words(section), first_of_all)))
    beside: tuple[Text, ...] = ()
    if words:
        x = left + heading[-1].width + _BESIDE
        if x + typeface.width(words, sizes.text) <= right:
            beside = (Text(words, x, heading[-1].baseline, sizes.text),)
        else:
            beside = paragraph(typeface.wrap(words, sizes.text, width), left, top, sizes.text)
            top += len(beside) * line_height(sizes.text)

    told = typeface.wrap(section.instructions, sizes.text, width) if section.instructions else ()
    to_do = paragraph(told, left, top, sizes.text)
    top += len(to_do) * line_height(sizes.text)

    baseline = top + sizes.write_on - 1.5
    named, dated = say("Name"), say("Date")
    date = left + 0.68 * width
    if typeface.width(dated, sizes.text) > 0.14 * width:  # room for both words and lines
        date = left + 0.6 * width
    first = number == 1
    units = (
        Unit(Role.TITLE if first else Role.ARTEFACT, title),
        Unit(Role.HEADING if first else Role.ARTEFACT, heading),
        *([Unit(Role.PARAGRAPH if first else Role.ARTEFACT, beside)] if beside else []),
        *([Unit(Role.PARAGRAPH if first else Role.ARTEFACT, to_do)] if to_do else []),
        Unit(Role.PARAGRAPH, tuple(_write_on(named, left, date - 5.0, baseline, sizes.text))),
        Unit(Role.PARAGRAPH, tuple(_write_on(dated, date, right, baseline, sizes.text))),
    )
    top += sizes.write_on + _BELOW
    strip = key_words_strip(section, page, top)
    content = strip.content if first else map(as_artefact, strip.content)
    return Header((*units, *content), top + (strip.height + _BELOW if strip.height else 0.0))


def title_lines(
    title: str, sizes: tuple[float, ...], width: float
) -> tuple[tuple[str, ...], float]:
    """The title's lines: one if a smaller size does it, otherwise several."""
    for size in sizes:
        lines = typeface.wrap(title, size, width, bold=True)
        if len(lines) == 1:
            break
    return lines, size


def _write_on(word: str, left: float, right: float, baseline: float, size: float) -> Iterator[Item]:
    """A word and a line to write on."""
    text = Text(word, left, baseline, size)
    yield text
    yield Line(left + text.width + 2.0, baseline, right, baseline, FINE_LINE)
