"""A pack's slides as files that a presentation program can change, beside their PDFs."""

import hashlib
from collections.abc import Iterator
from itertools import chain
from pathlib import Path

from generator.packs.working_out import WorkedPack
from layouts.editable.slides import refuse_without_library, slides
from layouts.files.documents import Drawn
from layouts.files.table import PackFile, files_of
from layouts.planning.paper import SLIDE_WIDTH
from layouts.planning.plan import PagePlan

KIND = "pptx"


def refuse_kind(kind: str) -> None:
    """Raise NoSlidesError where such slides cannot be written here."""
    refuse_without_library()


def draw_slides(pack: WorkedPack, folder: Path) -> tuple[Drawn, ...]:
    """Write each of the pack's files of slides into a folder: ``examples.pptx``, ``answers.pptx``.

    Raises LayoutError and OSError as drawing the PDFs does.
    """
    drawn = []
    for file in files_of(pack):
        pages = list(_slides_of(file))
        if pages:
            data = slides(pages, file.title, file.usage)
            name = f"{Path(file.name).stem}.{KIND}"
            (folder / name).write_bytes(data)
            drawn.append(Drawn(name, file.role, len(pages), hashlib.sha256(data).hexdigest()))
    return tuple(drawn)


def _slides_of(file: PackFile) -> Iterator[PagePlan]:
    """Its pages where they are slides; none where they are paper, of which one is planned."""
    pages = iter(file.pages)
    for first in pages:
        if first.width == SLIDE_WIDTH:
            yield from chain((first,), pages)
        return
