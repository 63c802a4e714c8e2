"""Tagged PDF: what each part of a page is, in reading order, and what is said for it.

ReportLab draws but does not tag. Marked content (ISO 32000-1, 14.6) is written through its
canvas as the pages are drawn; the structure tree (14.7) is then built from ReportLab's own
PDF objects. The aim is PDF/UA-1 (ISO 14289-1).
"""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Final
from xml.sax.saxutils import escape

from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFStream, PDFString
from reportlab.pdfgen.canvas import Canvas

from layouts.plan import Role

LANGUAGE: Final = "en-GB"

_NEEDS_BOX: Final = (Role.QUESTION, Role.WORKING)
"""Illustrations say where on the page they are (ISO 14289-1, 7.3 and 7.7)."""

Box = tuple[float, float, float, float]
"""Left, bottom, right and top in points from the page's bottom left corner."""


class Tagging:
    """Tags a file's pages while they are drawn on a canvas."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._file: Any = canvas._doc
        self._root = PDFDictionary({"Type": PDFName("StructTreeRoot")})
        self._whole = self._element("Document", self._file.Reference(self._root))
        self._parts: list[Any] = []  # references to all elements, in reading order
        self._pages: list[list[Any]] = []  # and those of each finished page
        self._on_page: list[Any] = []

    @contextmanager
    def part(self, role: Role, says: str, box: Box | None) -> Iterator[None]:
        """All that is drawn within is one part of the page, read as one."""
        if role is Role.ARTEFACT:
            with self.artefact():
                yield
            return
        element = self._element(role.value, self._file.Reference(self._whole))
        element["Pg"] = self._file.thisPageRef()
        element["K"] = len(self._on_page)
        if says:
            element["Alt" if role in _NEEDS_BOX else "ActualText"] = PDFString(says)
        if box is not None and role in _NEEDS_BOX:
            where = PDFArray([round(side, 2) for side in box])
            element["A"] = PDFDictionary(
                {"O": PDFName("Layout"), "Placement": PDFName("Block"), "BBox": where}
            )
        self._canvas._code.append(f"/{role.value} <</MCID {len(self._on_page)}>> BDC")
        reference = self._file.Reference(element)
        self._on_page.append(reference)
        self._parts.append(reference)
        yield
        self._canvas._code.append("EMC")

    @contextmanager
    def artefact(self) -> Iterator[None]:
        """All that is drawn within is not read: squares, rules, the page's foot."""
        self._canvas._code.append("/Artifact BMC")
        yield
        self._canvas._code.append("EMC")

    def page_done(self) -> list[Any]:
        """The page just shown is complete; gives references to its elements."""
        page = self._file.Pages.pages[-1]
        page = getattr(page, "obj", page)
        page.__NoDefault__ = (*page.__NoDefault__, "StructParents", "Tabs")
        page.StructParents = len(self._pages)
        page.Tabs = PDFName("S")
        self._pages.append(self._on_page)
        self._on_page = []
        return self._pages[-1]

    def file_done(self, title: str, subject: str, keywords: str) -> None:
        """All pages are there: write the structure tree and say what the file is."""
        self._whole["K"] = PDFArray(self._parts)
        numbered: list[Any] = []
        for number, references in enumerate(self._pages):
            numbered += [number, PDFArray(references)]
        parents = PDFDictionary({"Nums": PDFArray(numbered)})
        self._root["K"] = self._file.Reference(self._whole)
        self._root["ParentTree"] = self._file.Reference(parents)
        self._root["ParentTreeNextKey"] = len(self._pages)
        catalog = self._file.Catalog
        catalog.StructTreeRoot = self._root
        catalog.MarkInfo = PDFDictionary({"Marked": "true"})
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        described = PDFStream(
            PDFDictionary({"Type": PDFName("Metadata"), "Subtype": PDFName("XML")}),
            _described(title, subject, keywords),
        )
        catalog.Metadata = described

    def _element(self, kind: str, parent: Any) -> PDFDictionary:
        return PDFDictionary({"Type": PDFName("StructElem"), "S": PDFName(kind), "P": parent})


def _described(title: str, subject: str, keywords: str) -> bytes:
    """The file's title, language and claim to PDF/UA-1, as XMP (ISO 16684-1)."""
    return f"""\
<?xpacket begin="\N{ZERO WIDTH NO-BREAK SPACE}" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{escape(title)}</rdf:li></rdf:Alt></dc:title>
<dc:description><rdf:Alt><rdf:li xml:lang="x-default">{escape(subject)}</rdf:li></rdf:Alt>
</dc:description>
<dc:creator><rdf:Seq><rdf:li>Rungsheet</rdf:li></rdf:Seq></dc:creator>
<dc:language><rdf:Bag><rdf:li>{LANGUAGE}</rdf:li></rdf:Bag></dc:language>
<pdf:Keywords>{escape(keywords)}</pdf:Keywords>
<pdfuaid:part>1</pdfuaid:part>
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>""".encode()
