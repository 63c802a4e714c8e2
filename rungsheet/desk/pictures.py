"""A pack's pages as pictures, for a screen: the very pages that would be printed."""

from dataclasses import dataclass

from rungsheet.desk.packs import Built, planned

__all__ = ["Pictured", "pictured"]


@dataclass(frozen=True, slots=True)
class Pictured:
    """One of a pack's files: its name, its role, its title, and each page as SVG."""

    name: str
    role: str
    title: str
    pages: tuple[str, ...]


def pictured(built: Built, name: str) -> Pictured:
    """One of the files to be drawn, each page a picture with words for those who hear it."""
    from layouts.pictures.svg import svg

    file = planned(built, name)
    of = len(file.pages)
    pages = (svg(page, f"{file.title}, page {at} of {of}") for at, page in enumerate(file.pages, 1))
    return Pictured(file.name, file.role, file.title, tuple(pages))
