"""ReportLab's inside: the one place that uses what its guide does not promise.

ReportLab draws, but it neither tags a page, nor attaches a file, nor lets go of a page before
all are drawn. That is done with the objects it makes a file of, some of them under names of
its own. Its release is pinned; ``INSIDE`` says what each name is needed for, and
``tests/layouts/test_reportlab_inside.py`` names those that a new release moves.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, Final

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import (
    PDFArray,
    PDFCrossReferenceTable,
    PDFDictionary,
    PDFFile,
    PDFIndirectObject,
    PDFName,
    PDFObjectReference,
    PDFStream,
    PDFString,
    PDFTrailer,
)
from reportlab.pdfgen.canvas import Canvas

from layouts.pdf.sink import Sink

__all__ = [
    "PDF_DOC_ENCODING",
    "Inside",
    "PDFArray",
    "PDFDictionary",
    "PDFName",
    "PDFStream",
    "PDFString",
    "StreamedFile",
    "text_codes",
]

INSIDE: Final = {
    "canvas._code": "the operators of the page in hand, to which text and tags are added",
    "canvas._doc": "the file behind the canvas",
    "canvas._doc.Reference": "an object's place in the file, given before it is written",
    "canvas._doc.Catalog": "the file's root: attached files, bookmarks, the structure tree",
    "canvas._doc.Pages.pages": "the pages so far, the one just shown last",
    "canvas._doc.idToObject": "the objects by their names, let go of when written",
    "canvas._doc.idToOffset": "where each object stands, for the table at the end",
    "canvas._doc.numberToId": "the objects' names in the order of their numbers",
    "canvas._doc.delayedFonts": "the faces, to be embedded once all text is known",
    "canvas._doc.info.digest": "what makes the file's identifier a function of its content",
    "canvas._doc.signature": "the digest that the identifier is taken from",
    "canvas._doc.invariant": "that no date is written",
    "canvas._doc.ID": "the file's identifier",
    "canvas._doc._pdfVersion": "the version in the file's first line",
    "page.__NoDefault__": "the entries of a page that are left out where they have no value",
    "page.Contents.content": "a page's operators",
    "page.check_format": "what completes a page before it is written",
    "font.splitString": "a text in the codes of the faces that are embedded",
    "font.getSubsetInternalName": "what an embedded face is called on a page",
    "output.add": "writes an object and says where it stands",
    "output.strings": "what is to be written first",
}
"""Each name that ReportLab may move, by what holds it, with what it is needed for."""

_READ_BACK_BY: Final = "toUnicodeCMap:"
"""What ReportLab's names begin with for the maps by which type is read back."""

PDF_DOC_ENCODING: Final = "pdfdoc"
"""ReportLab's name for PDFDocEncoding (ISO 32000-1, annex D), which it registers with Python."""


class Inside:
    """The file behind a canvas, while its pages are drawn."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._file: Any = canvas._doc

    def write(self, operators: str) -> None:
        """Add operators to the page in hand, as they stand in its content stream.

        ReportLab's own calls say the same in four times the time, and text in ten.
        """
        self._canvas._code.append(operators)

    def reference(self, thing: Any, name: str | None = None) -> Any:
        """The place of an object in the file; ``name`` is what it is found by later."""
        return self._file.Reference(thing, name)

    def referred_to(self, thing: Any, name: str | None = None) -> bytes:
        """The same as it stands in a file."""
        written: bytes = self.reference(thing, name).format(self._file)
        return written

    @property
    def catalog(self) -> Any:
        """The file's root (ISO 32000-1, 7.7.2)."""
        return self._file.Catalog

    @property
    def page_shown(self) -> Any:
        """The page that was shown last."""
        shown = self._file.Pages.pages[-1]
        if isinstance(shown, PDFObjectReference):
            return self._file.idToObject[shown.name]
        return shown

    def add_to_page(self, page: Any, **entries: Any) -> None:
        """Give a page entries that ReportLab does not know of."""
        page.__NoDefault__ = (*page.__NoDefault__, *entries)
        for name, value in entries.items():
            setattr(page, name, value)


class StreamedFile:
    """A canvas's file written while it is drawn: what is finished goes out at once.

    ReportLab keeps every page until the file is saved. Here each finished page, its content and
    its tags are formatted by ReportLab's own objects as soon as the page is done, written and
    let go of; only where they stand is remembered, so memory stays small. What pages share
    (fonts, forms, the page tree) follows at the end, with the cross-reference table
    (ISO 32000-1, 7.5).
    """

    def __init__(self, canvas: Canvas, sink: Sink) -> None:
        self._canvas = canvas
        self._file: Any = canvas._doc
        self._output = PDFFile(self._file._pdfVersion)
        for start in self._output.strings:
            sink.write(start)
        self._output.strings = []
        self._output.write = sink.write

    def page_done(self, tags: Iterable[str]) -> None:
        """Write the page that was shown last, and its tags (their names in the file)."""
        pages = self._file.Pages.pages
        page = Inside(self._canvas).page_shown
        page.check_format(self._file)
        content = page.Contents
        content.content = content.content.encode("ascii")  # ReportLab's own way is slow
        page.Contents = self._file.Reference(content)
        reference = self._file.Reference(page)
        pages[-1] = reference
        for finished in (reference.name, page.Contents.name, *tags):
            self._write(finished)

    def close(self) -> None:
        """Write all that is left, and the tables by which a reader finds it."""
        file = self._file
        for font in file.delayedFonts:
            font.addObjects(file)
        for name, thing in file.idToObject.items():
            if name.startswith(_READ_BACK_BY):
                thing.content = read_back_by(thing.content)
        file.info.invariant = file.invariant
        file.info.digest(file.signature)
        catalog, info = file.Reference(file.Catalog), file.Reference(file.info)
        names = list(self._write_by_number())
        table = PDFCrossReferenceTable()
        table.addsection(0, names)
        start = self._output.add(table.format(file))
        size = len(names) + 1
        trailer = PDFTrailer(
            startxref=start, Size=size, Root=catalog, Info=info, Encrypt=None, ID=file.ID()
        )
        self._output.add(trailer.format(file))

    def _write_by_number(self) -> Iterator[str]:
        """Write what is not written yet, in the order of its numbers; gives all names."""
        file, number = self._file, 1
        while number in file.numberToId:  # formatting an object may number further ones
            name = file.numberToId[number]
            if name not in file.idToOffset:
                self._write(name)
            yield name
            number += 1

    def _write(self, name: str) -> None:
        file = self._file
        written = PDFIndirectObject(name, file.idToObject[name]).format(file)
        file.idToOffset[name] = self._output.add(written)
        file.idToObject[name] = None


_MAPPED: Final = re.compile(r"\d+ beginbfchar\n(.*?)\nendbfchar", re.DOTALL)
_NO_CHARACTER: Final = "<0000>"
_MAPPED_AT_ONCE: Final = 100


def read_back_by(written: str) -> str:
    """A face's map of codes to characters (ISO 32000-1, 9.10.3) as PDF/UA-1 wants it.

    ReportLab maps code 0, which is never drawn, to U+0000: no code may be (ISO 14289-1, 7.21.7).
    And it writes any number at once: at most 100 are read (Adobe Technical Note 5014, 4.2; from
    memory).
    """

    def blocks(found: re.Match[str]) -> str:
        entries = [line for line in found[1].split("\n") if not line.endswith(_NO_CHARACTER)]
        return "\n".join(
            "\n".join([f"{len(some)} beginbfchar", *some, "endbfchar"])
            for some in (
                entries[at : at + _MAPPED_AT_ONCE] for at in range(0, len(entries), _MAPPED_AT_ONCE)
            )
        )

    return _MAPPED.sub(blocks, written)


def text_codes(font_name: str, text: str, canvas: Canvas) -> Sequence[tuple[str, str]]:
    """A text in the codes of the embedded faces: each face's name in the file, its part in hex."""
    font, file = pdfmetrics.getFont(font_name), canvas._doc
    parts: Iterable[tuple[int, bytes]] = font.splitString(text, file)
    return [(font.getSubsetInternalName(subset, file), codes.hex()) for subset, codes in parts]
