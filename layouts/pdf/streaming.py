"""A PDF file written while it is drawn: what is finished goes out, and memory stays small.

ReportLab keeps every page until the file is saved. Here each finished page, its content and
its tags are formatted by ReportLab's own objects as soon as the page is done and written at
once; only where they stand is remembered. What pages share (fonts, forms, the page tree)
follows at the end, with the cross-reference table (ISO 32000-1, 7.5).
"""

from collections.abc import Iterable
from typing import Any, Protocol

from reportlab.pdfbase.pdfdoc import (
    PDFCrossReferenceTable,
    PDFFile,
    PDFIndirectObject,
    PDFObjectReference,
    PDFTrailer,
)
from reportlab.pdfgen.canvas import Canvas


class Sink(Protocol):
    """Where bytes go."""

    def write(self, data: bytes, /) -> object:
        """Take the next bytes."""


class StreamedFile:
    """Writes the objects of a canvas's file to a sink, each once it is finished."""

    def __init__(self, canvas: Canvas, sink: Sink) -> None:
        self._canvas = canvas
        self._file: Any = canvas._doc
        self._out = PDFFile(self._file._pdfVersion)
        for start in self._out.strings:
            sink.write(start)
        self._out.strings = []
        self._out.write = sink.write

    def page_done(self, tags: Iterable[str]) -> None:
        """Write the page just shown, and its tags (their names in the file)."""
        pages = self._file.Pages.pages
        shown = pages[-1]
        page = self._file.idToObject[shown.name] if isinstance(shown, PDFObjectReference) else shown
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
        file.info.invariant = file.invariant
        file.info.digest(file.signature)
        catalog, info = file.Reference(file.Catalog), file.Reference(file.info)
        file.Outlines.prepare(file, self._canvas)
        if file.Outlines.ready < 0:
            file.Catalog.Outlines = None
        number = 1
        while number in file.numberToId:  # formatting an object may number further ones
            name = file.numberToId[number]
            if name not in file.idToOffset:
                self._write(name)
            number += 1
        names = [file.numberToId[at] for at in range(1, number)]
        table = PDFCrossReferenceTable()
        table.addsection(0, names)
        start = self._out.add(table.format(file))
        trailer = PDFTrailer(
            startxref=start, Size=number, Root=catalog, Info=info, Encrypt=None, ID=file.ID()
        )
        self._out.add(trailer.format(file))

    def _write(self, name: str) -> None:
        file = self._file
        written = PDFIndirectObject(name, file.idToObject[name]).format(file)
        file.idToOffset[name] = self._out.add(written)
        file.idToObject[name] = None
