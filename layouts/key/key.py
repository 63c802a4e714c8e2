"""The teacher's key, to mark from: the answers first, then the workings, then what is accepted.

Workings stand there once for what all pupils have, and of the practice in its first version,
unless those of all versions are asked for.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from generator.packs.working_out import WorkedPack
from layouts.key.accepted import accepted
from layouts.key.answers_alone import answers_alone
from layouts.key.band import EDGE, Band, pages
from layouts.key.class_set import class_set
from layouts.key.workings import workings
from layouts.planning.foot import FOOT_ALONE, foot, foot_height
from layouts.planning.header import title_lines
from layouts.planning.paper import MARGIN, teachers_paper
from layouts.planning.paper_page import Imprint, PaperPage
from layouts.planning.plan import PagePlan, Role, Unit, line_height, paragraph
from layouts.planning.type_scale import KEY_TITLES

_COUNTED: Final = 100
"""Up to so many versions, a page says of how many it is: all are planned before the first."""


def key_pages(pack: WorkedPack) -> Iterator[PagePlan]:
    """All pages of the key to a pack, or to those sections of it.

    Of a large class set each page is planned when its turn comes, so that the keys to all
    versions are never held at once. Raises DoesNotFitError when a working is wider than the page.
    """
    say = pack.facts.usage
    paper = teachers_paper(pack.facts.presentation)
    body = paper.width - 2 * EDGE
    title, size = title_lines(
        say("{title}: teacher's key", title=pack.facts.title), KEY_TITLES, body
    )
    first = EDGE + len(title) * line_height(size) + 3.0
    page = PaperPage(Imprint.of_key(pack.facts), paper, FOOT_ALONE, EDGE, paper.width - EDGE)
    bottom = paper.height - MARGIN - foot_height(page)

    def bands() -> Iterator[Band]:
        for name in pack.names:
            part = pack.named(name)
            yield from _answers(part, body)
        for section in pack:
            if section.items and (pack.facts.all_workings or section.version == _first(pack)):
                yield from workings(section, paper)
        yield from accepted(pack.of_version(_first(pack)), body, say)

    contents: Iterator[list[Unit]] | Sequence[list[Unit]] = pages(bands(), EDGE, first, bottom)
    total = None
    if len(pack.versions) <= _COUNTED:
        contents = list(contents)
        total = len(contents)
    heading = Unit(Role.TITLE, paragraph(title, EDGE, EDGE, size, bold=True))
    for number, content in enumerate(contents, start=1):
        above = (heading,) if number == 1 else ()
        yield PagePlan(paper.width, paper.height, (*above, *content, foot(page, number, total)))


def _first(pack: WorkedPack) -> int:
    return pack.versions[0]


def _answers(part: WorkedPack, body: float) -> Iterator[Band]:
    """The answers of one section, in one version or in several."""
    if not part.questions:
        return
    if len(part.versions) > 1:
        yield from class_set((section for section in part if section.items), body)
        return
    for section in part:
        yield from answers_alone(section, body)
