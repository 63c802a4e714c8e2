"""Paper, slides and the squares that fit on them. Lengths are millimetres."""

from dataclasses import dataclass
from typing import Final

from layouts.planning.errors import DoesNotFitError
from layouts.planning.plan import Grid
from specs.languages.saying import say
from specs.spec import EXAMPLES, Presentation


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, as it lies."""

    name: str
    width: float
    height: float

    @property
    def turned(self) -> "Paper":
        """The same paper lying the other way."""
        return Paper(self.name, self.height, self.width)

    @property
    def halved(self) -> "Paper":
        """One half of upright paper cut across, upright again."""
        return Paper(say("half of {paper}", paper=self.name), self.height / 2, self.width)


PAPERS: Final = {
    paper.name: paper
    for paper in (
        Paper("A4", 210.0, 297.0),  # ISO 216
        Paper("A5", 148.0, 210.0),  # ISO 216
        Paper("A3", 297.0, 420.0),  # ISO 216
        Paper("Letter", 215.9, 279.4),  # ANSI/ASME Y14.1 size A: 8.5 by 11 inches
    )
}

MARGIN: Final = 8.0
"""No ink is nearer to the paper's edge: more than the border that office printers cannot reach."""

_BOOK: Final = 139.0
"""The narrowest page of a worked example: half of Letter is 139.7 mm wide, of A4 148.5."""

SLIDE_WIDTH: Final = 338.667
"""13⅓ inches: the usual 16:9 slide (common practice, no source)."""
SLIDE_HEIGHT: Final = 190.5
SLIDE_MARGIN: Final = 16.0


def paper_named(name: str) -> Paper:
    """The paper of that name, whatever its capitals. Raises DoesNotFitError for an unknown one."""
    for paper in PAPERS.values():
        if paper.name.casefold() == name.casefold():
            return paper
    raise DoesNotFitError(
        say("no paper is called {name}; use {papers}", name=repr(name), papers=", ".join(PAPERS))
    )


def page_of(presentation: Presentation) -> Paper:
    """The page that questions are set out on: the paper or, where several go to a sheet, a part."""
    page = part_of(paper_named(presentation.paper), presentation.to_a_sheet)
    return page.turned if presentation.orientation == "landscape" else page


def part_of(paper: Paper, to_a_sheet: int) -> Paper:
    """The upright page of which so many (1, 2 or 4) go to a sheet."""
    for _ in range(to_a_sheet.bit_length() - 1):
        paper = paper.halved
    return paper


def teachers_paper(presentation: Presentation) -> Paper:
    """What the teacher's key is printed on, upright: A4 or, where pupils have it, Letter."""
    return PAPERS["Letter" if paper_named(presentation.paper).name == "Letter" else "A4"]


def pairs_to_a_sheet(presentation: Presentation) -> tuple[int, ...]:
    """On how many parts of a sheet pairs of worked examples may stand, best first.

    As many as pupils' pages do, and usually two, but on none smaller than half of A4 or Letter:
    what fits there fits on the page of an exercise book. Upright sheets of large print have one.
    """
    paper, asked = paper_named(presentation.paper), presentation.to_a_sheet
    if presentation.orientation == "landscape" or presentation.large.of(EXAMPLES) is None:
        asked = max(2, asked)
    found = [1]
    while 2 * found[0] <= asked and paper.halved.width >= _BOOK:
        paper = paper.halved
        found.insert(0, 2 * found[0])
    return tuple(found)


def squares_between(
    paper: Paper, top: float, bottom: float, square: float, edge: float = MARGIN
) -> Grid:
    """As many whole squares as fit between two heights and two edges at the sides, centred."""
    columns = int((paper.width - 2 * edge) // square)
    rows = max(0, int((bottom - top) // square))
    return Grid(
        x=(paper.width - columns * square) / 2,
        y=top + (bottom - top - rows * square) / 2,
        square=square,
        columns=columns,
        rows=rows,
    )
