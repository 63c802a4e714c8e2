"""A pack's slides and sheets as files that other programs can change, beside their PDFs."""

import hashlib
from collections.abc import Iterator
from itertools import chain
from pathlib import Path

from generator.packs.working_out import WorkedPack
from layouts.editable import sheets as sheets_to_change
from layouts.editable import slides as slides_to_change
from layouts.files.documents import Drawn
from layouts.files.table import PackFile, files_of
from layouts.planning.errors import LayoutError
from layouts.planning.paper import SLIDE_WIDTH
from layouts.planning.plan import PagePlan
from specs.languages.saying import say

SLIDES_KIND = "pptx"
SHEETS_KIND = "docx"


MOST_VERSIONS = 40
"""A sheet of more versions makes a file that takes a word processor minutes to open."""


class TooManySheetsError(LayoutError):
    """A file of sheets that can be changed would be too large to be opened."""

    def __init__(self, versions: int) -> None:
        super().__init__(
            say(
                "sheets that can be changed are for {most} versions at most, and these have "
                "{versions}: no word processor opens such a file in good time; ask for fewer "
                "versions, or print the PDFs, which hold any number",
                most=MOST_VERSIONS,
                versions=versions,
            )
        )


def refuse_kind(kind: str, pack: WorkedPack) -> None:
    """Refuse files of that kind that cannot be written here.

    Raises NoSlidesError or NoSheetsError without their library, and TooManySheetsError.
    """
    if kind == SLIDES_KIND:
        slides_to_change.refuse_without_library()
    else:
        sheets_to_change.refuse_without_library()
        versions = max((section.versions for section in pack.of_version(1)), default=1)
        if versions > MOST_VERSIONS:
            raise TooManySheetsError(versions)


def draw_slides(pack: WorkedPack, folder: Path) -> tuple[Drawn, ...]:
    """Write each of the pack's files of slides into a folder: ``examples.pptx``, ``answers.pptx``.

    Raises LayoutError and OSError as drawing the PDFs does.
    """
    drawn = []
    for file in files_of(pack):
        pages = list(_slides_of(file))
        if pages:
            data = slides_to_change.slides(pages, file.title, file.usage)
            drawn.append(_written(file, SLIDES_KIND, data, len(pages), folder))
    return tuple(drawn)


def draw_sheets(pack: WorkedPack, folder: Path) -> tuple[Drawn, ...]:
    """Write each of the pupils' sheets into a folder: ``starter.docx``, ``practice-core.docx``.

    Raises LayoutError and OSError as drawing the PDFs does.
    """
    drawn = []
    for file in files_of(pack):
        sides = list(file.sides)
        if sides:
            data = sheets_to_change.sheets(sides, file.title, file.usage.language.code)
            drawn.append(_written(file, SHEETS_KIND, data, len(sides), folder))
    return tuple(drawn)


def _written(file: PackFile, kind: str, data: bytes, pages: int, folder: Path) -> Drawn:
    name = f"{Path(file.name).stem}.{kind}"
    (folder / name).write_bytes(data)
    return Drawn(name, file.role, pages, hashlib.sha256(data).hexdigest())


def _slides_of(file: PackFile) -> Iterator[PagePlan]:
    """Its pages where they are slides; none where they are paper, of which one is planned."""
    pages = iter(file.pages)
    for first in pages:
        if first.width == SLIDE_WIDTH:
            yield from chain((first,), pages)
        return
