"""Bookmarks: where each part of a file begins, to go to it from the list beside the pages.

A part begins with the page whose title is another than that of the page before: an example that
is worked in twelve steps has one bookmark. The document outline of ISO 32000-1, 12.3.3.
"""

from itertools import pairwise

from reportlab.pdfgen.canvas import Canvas

from layouts.pdf.reportlab_inside import Inside, PDFDictionary, PDFName
from layouts.pdf.text_string import text_string
from layouts.planning.plan import PagePlan, Role, Text, as_units


def title_of(page: PagePlan) -> str:
    """The title of a page; "" for one that goes on with the page before."""
    titles = (unit for unit in as_units(page.content) if unit.role is Role.TITLE)
    unit = next(titles, None)
    if unit is None:
        return ""
    return unit.says or " ".join(item.text for item in unit.items if isinstance(item, Text))


class Bookmarks:
    """Gathers a file's bookmarks while its pages are drawn on a canvas."""

    def __init__(self, canvas: Canvas) -> None:
        self._inside = Inside(canvas)
        self._parts: list[tuple[str, bytes]] = []  # titles, and references to pages

    def page_done(self, page: PagePlan) -> None:
        """The page was shown."""
        title = title_of(page)
        if title and (not self._parts or self._parts[-1][0] != title):
            shown = self._inside.referred_to(self._inside.page_shown)
            self._parts.append((title, shown))

    def file_done(self) -> None:
        """All pages are there: write the bookmarks, where there is more than one part."""
        if len(self._parts) < 2:
            self._inside.catalog.Outlines = None
            return
        whole = PDFDictionary({"Type": PDFName("Outlines"), "Count": len(self._parts)})
        parts = [
            PDFDictionary(
                {
                    "Title": text_string(title),
                    "Parent": self._inside.reference(whole),
                    "Dest": b"[%b /Fit]" % page,
                }
            )
            for title, page in self._parts
        ]
        for before, after in pairwise(parts):
            before["Next"] = self._inside.reference(after)
            after["Prev"] = self._inside.reference(before)
        whole["First"] = self._inside.reference(parts[0])
        whole["Last"] = self._inside.reference(parts[-1])
        self._inside.catalog.Outlines = whole
