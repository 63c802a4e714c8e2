"""The foot of a page on paper: what it is, its code in letters and as a QR code, its number."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from generator.packs.codes import PageCode
from generator.packs.working_out import PackFacts, WorkedSection
from layouts.planning import typeface
from layouts.planning.paper import Paper
from layouts.planning.plan import Item, Role, Text, Unit, line_height
from layouts.planning.qr import QUIET, SIDE, qr
from layouts.planning.sheet_type import SheetType
from layouts.planning.type_scale import BLACK, DARK, MM_PER_POINT
from layouts.planning.wording import section_heading, version_words

USUAL: Final = SheetType(square=0.0)
"""The sizes of a foot that belongs to no pupil's sheet."""

_APART: Final = 4.0
_MOST_PAGES: Final = 88
"""The widest page number that room is kept for."""


@dataclass(frozen=True, slots=True)
class Imprint:
    """What the foot of each page of a run says: what it is, in which version, from which seed.

    ``code`` is that of its first page.
    """

    what: str
    seed: int
    code: PageCode

    @classmethod
    def of(cls, section: WorkedSection) -> "Imprint":
        """The foot of a section's pages."""
        what = ", ".join(filter(None, (section_heading(section), version_words(section))))
        return cls(what, section.pack.seed, section.code)

    @classmethod
    def of_key(cls, pack: PackFacts) -> "Imprint":
        """The foot of the teacher's key."""
        return cls("Teacher's key", pack.seed, pack.key_code)

    def code_of(self, page: int) -> str:
        """The code of a page, the first being page 1."""
        return str(replace(self.code, page=page))


def foot_height(imprint: Imprint, left: float, right: float, sizes: SheetType = USUAL) -> float:
    """The foot's height, with the clear space over it."""
    words = _words(imprint, _MOST_PAGES, _MOST_PAGES)
    lines = _lines(words, _room(left, right), sizes.foot)
    return max(SIDE, len(lines) * line_height(sizes.foot)) + QUIET


def foot(
    imprint: Imprint,
    left: float,
    right: float,
    paper: Paper,
    number: int,
    pages: int | None,
    sizes: SheetType = USUAL,
) -> Unit:
    """The foot of one page.

    ``pages`` is how many there are in all, None where that is not known beforehand.

    It is read by eye and by camera; to a screen reader it repeats what the file says already.
    """
    size = sizes.foot
    lines = _lines(_words(imprint, number, pages), _room(left, right), size)
    bottom = paper.height - sizes.edge
    step = line_height(size)
    first = bottom - typeface.DESCENT * size * MM_PER_POINT - step * (len(lines) - 1)
    items: list[Item] = [qr(imprint.code_of(number), left, bottom - SIDE)]
    for line, pair in enumerate(lines):
        baseline = first + step * line
        colour = BLACK if pair[0].startswith("code ") else DARK  # the code is there to be copied
        items.append(Text(pair[0], left + SIDE + QUIET + 0.5, baseline, size, colour=colour))
        for text in pair[1:]:
            items.append(Text(text, right, baseline, size, colour=DARK, anchor="right"))
    return Unit(Role.ARTEFACT, tuple(items))


def _room(left: float, right: float) -> float:
    return right - left - SIDE - QUIET - 0.5


def _words(imprint: Imprint, number: int, pages: int | None) -> Sequence[Sequence[str]]:
    """The foot's lines, each with a left end and a right one."""
    of = "" if pages is None else f" of {pages}"
    return (
        (imprint.what, f"page {number}{of}"),
        (f"code {imprint.code_of(number)}", f"seed {imprint.seed}"),
    )


def _lines(words: Sequence[Sequence[str]], room: float, size: float) -> list[tuple[str, ...]]:
    """The lines as they fit: a right end that has no room goes below its left one."""
    lines: list[tuple[str, ...]] = []
    for pair in words:
        together = sum(typeface.width(text, size) for text in pair) + _APART
        if together <= room:
            lines.append(tuple(pair))
        else:
            lines.extend((line,) for text in pair for line in typeface.wrap(text, size, room))
    return lines
