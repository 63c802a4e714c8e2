"""Worked examples on paper, to stick in books: a page a pair.

Above, the teacher's question with its finished working and its steps in words; below a rule,
the matched question set out as on a practice sheet. Squares and type are the largest with
which a pair stays on one page. Where none will do, and in large print, it goes on to further
pages. Two pages or more go to a sheet, to be cut apart and stuck in.
"""

from collections.abc import Iterator
from dataclasses import replace

from generator.packs.working_out import WorkedPack, WorkedSection
from layouts.planning.errors import DoesNotFitError, placing
from layouts.planning.foot import foot
from layouts.planning.header import title_lines
from layouts.planning.paper import pairs_to_a_sheet, paper_named, part_of
from layouts.planning.paper_page import PaperPage
from layouts.planning.plan import PagePlan, Role, Unit, line_height, paragraph
from layouts.planning.sheet_type import sheet_type
from layouts.sheets.imposition import on_sheets
from layouts.sheets.pairs import Pair, name_lines


def pairs_on_sheets(pack: WorkedPack) -> Iterator[PagePlan]:
    """The pages of every pair of a pack, on sheets of paper.

    Raises DoesNotFitError when a working or a question is too large for the whole paper.
    """
    shown = pack.facts.presentation
    counts = pairs_to_a_sheet(shown)
    for count in counts:
        try:
            pages = [printed_pairs(section, count) for section in pack]
        except DoesNotFitError:
            if count == counts[-1]:
                raise
        else:
            yield from on_sheets(pages, replace(shown, to_a_sheet=count, duplex=False))
            return


def printed_pairs(section: WorkedSection, to_a_sheet: int = 1) -> tuple[PagePlan, ...]:
    """The pages of every pair of a section, upright as exercise books are.

    So many of them are to go to a sheet. Raises DoesNotFitError when a working or a question is
    too large for the paper.
    """
    paper = part_of(paper_named(section.presentation.paper), to_a_sheet)
    sizes = sheet_type(section.presentation, section.name)
    planned = []
    for first in range(0, len(section.items), 2):
        pair = Pair.beginning(section, first, paper)
        with placing(section.name, pair.shown.label, pair.shown.rung):
            arranged = pair.arranged(sizes)
        for on, content in enumerate(arranged.pages()):
            name = section.say("{name}, continued", name=pair.name) if on else pair.name
            planned.append((arranged.body.page, name, content))
    return tuple(
        PagePlan(
            paper.width,
            paper.height,
            (
                *sizes.background(paper.width, paper.height),
                *_head(section.pack.title, name, page, number),
                *content,
                foot(page, number, len(planned)),
            ),
        )
        for number, (page, name, content) in enumerate(planned, start=1)
    )


def _head(title: str, name: str, page: PaperPage, number: int) -> Iterator[Unit]:
    """The title and the rung; the title is read aloud once."""
    sizes = page.sizes
    lines, size = title_lines(title, sizes.titles, page.width)
    above = paragraph(lines, page.left, sizes.edge, size, bold=True)
    yield Unit(Role.TITLE if number == 1 else Role.ARTEFACT, above)
    top = sizes.edge + len(lines) * line_height(size)
    names = paragraph(name_lines(name, page), page.left, top, sizes.heading, bold=True)
    yield Unit(Role.HEADING, names)
