"""A PDF's pages as pictures of dots (PNG), as a reader of PDFs shows them."""

from collections.abc import Iterator
from io import BytesIO
from typing import Final

from layouts.planning.errors import LayoutError
from specs.languages.saying import say

DOTS_PER_INCH: Final = 150
"""Twice what a screen shows, and what a school's printer still gains from."""


class NoPicturesError(LayoutError):
    """The library that draws pictures of dots is not installed."""

    def __init__(self) -> None:
        super().__init__(
            say(
                "pictures as PNG are drawn by pypdfium2, which is not installed; pip install "
                "'rungsheet[pictures]', or ask for --pictures svg, which needs nothing more"
            )
        )


def refuse_without_library() -> None:
    """Raise NoPicturesError where pictures of dots cannot be drawn."""
    try:
        import pypdfium2  # noqa: F401
    except ImportError:
        raise NoPicturesError from None


def png_pages(pdf: bytes) -> Iterator[bytes]:
    """Each page of a PDF as a PNG file, one after another. Raises NoPicturesError."""
    refuse_without_library()
    from pypdfium2 import PdfDocument

    with PdfDocument(pdf) as file:
        for page in file:
            buffer = BytesIO()
            shown = page.render(scale=DOTS_PER_INCH / 72, rev_byteorder=True)
            shown.to_pil().convert("RGB").save(buffer, "png", dpi=(DOTS_PER_INCH, DOTS_PER_INCH))
            yield buffer.getvalue()
