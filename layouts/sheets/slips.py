"""Slips of paper: a few questions on a part of a sheet, as many to a sheet as keep them whole.

An exit question needs a corner of a page, not a page: the sheet is cut apart, and every pupil
hands one piece in.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from generator.packs.working_out import WorkedPack, WorkedSection
from layouts.planning.errors import DoesNotFitError
from layouts.planning.paper import page_of
from layouts.sheets.sheet import sheet_pages

_SLIPS: Final = (4, 2, 1)
"""How many go to a sheet, best first."""
_NARROWEST: Final = 95.0
"""A slip is no narrower than a quarter of A4 less its margins."""


def slips_of(pack: WorkedPack) -> tuple[Iterator[WorkedSection], int]:
    """Every section as slips, and how many go to a sheet of paper.

    As many as have each section on a single slip; where none does, what the spec asks for.
    """
    count = next(filter(lambda count: _does(pack, count), _SLIPS), None)
    if count is None:
        count = pack.facts.presentation.to_a_sheet
    return (_cut(section, count) for section in pack), count


def _does(pack: WorkedPack, count: int) -> bool:
    """Whether so many go to a sheet: tried with the first version, as the others are like it."""
    for section in pack.of_version(1):
        slip = _cut(section, count)
        if count > 1 and page_of(slip.presentation).width < _NARROWEST:
            return False
        try:
            if len(sheet_pages(slip)) > 1:
                return False
        except DoesNotFitError:
            return False
    return True


def _cut(section: WorkedSection, count: int) -> WorkedSection:
    """The section on slips, upright, of which so many go to a sheet."""
    shown = replace(section.presentation, to_a_sheet=count, orientation="portrait")
    return replace(section, pack=replace(section.pack, presentation=shown))
