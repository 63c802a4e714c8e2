"""Every page of a pack as a picture of its own, for pasting and for screens."""

import hashlib
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from generator.packs.working_out import WorkedPack
from layouts.files.documents import Drawn
from layouts.files.table import PackFile, files_of
from layouts.pictures.png import png_pages, refuse_without_library
from layouts.pictures.svg import svg
from layouts.planning.wording import page_named

FOLDER: Final = "pictures"
"""Where they are in the pack's folder."""


def refuse_kind(kind: str) -> None:
    """Raise NoPicturesError where pictures of that kind cannot be drawn here."""
    if kind == "png":
        refuse_without_library()


def draw_pictures(pack: WorkedPack, kind: str, folder: Path) -> tuple[Drawn, ...]:
    """Draw a picture of each page into a folder that holds the pack's PDFs, drawn already.

    ``svg`` pictures stay sharp at any size, ``png`` pictures open anywhere.
    The names are ``pictures/practice-core-1.svg`` and so on, numbered within each file. Raises
    LayoutError and OSError as drawing the PDFs does.
    """
    (folder / FOLDER).mkdir(exist_ok=True)
    drawn = []
    for file in files_of(pack):
        pages = _svg_pages(file) if kind == "svg" else png_pages((folder / file.name).read_bytes())
        for number, data in enumerate(pages, start=1):
            name = f"{FOLDER}/{Path(file.name).stem}-{number}.{kind}"
            (folder / name).write_bytes(data)
            drawn.append(Drawn(name, "picture", 1, hashlib.sha256(data).hexdigest()))
    return tuple(drawn)


def _svg_pages(file: PackFile) -> Iterator[bytes]:
    say = file.usage
    for number, page in enumerate(file.pages, start=1):
        yield svg(page, page_named(file.title, number, say), say.language).encode()
