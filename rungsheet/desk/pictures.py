"""A pack's pages as pictures, for a screen: the very pages that would be printed."""

from dataclasses import dataclass

from generator.packs.working_out import work_alone
from rungsheet.desk.packs import Built, planned
from rungsheet.desk.problems import refusing
from rungsheet.desk.rungs import RungView
from specs import Spec

__all__ = ["Pictured", "of_a_rung", "pictured"]


@dataclass(frozen=True, slots=True)
class Pictured:
    """One of a pack's files: its name, its role, its title, and each page as SVG.

    ``of`` is how many pages it has, where not all of them were drawn; ``sections`` are those
    whose questions it holds.
    """

    name: str
    role: str
    title: str
    pages: tuple[str, ...]
    of: int
    sections: tuple[str, ...]


def pictured(built: Built, name: str, most: int | None = None) -> Pictured:
    """One of the files to be drawn, each page a picture with words for those who hear it.

    No more than ``most`` pages are drawn, where that is given.
    """
    from layouts.pictures.svg import svg

    file = planned(built, name)
    of = len(file.pages)
    pages = tuple(
        svg(page, f"{file.title}, page {at} of {of}")
        for at, page in enumerate(file.pages[:most], 1)
    )
    return Pictured(file.name, file.role, file.title, pages, of, file.sections)


def of_a_rung(view: RungView, spec: Spec) -> str | None:
    """The question that a view shows, on squares as a pupil's sheet has it; None without one."""
    from layouts.pictures.svg import svg
    from layouts.sheets.one_question import one_question

    if view.item is None:
        return None
    with refusing(spec.source, spec):
        return svg(one_question(work_alone(view.item, spec.presentation), spec.presentation))
