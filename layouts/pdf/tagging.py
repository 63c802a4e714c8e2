"""Tagged PDF: what each part of a page is, in reading order, and what is said for it.

ReportLab draws but does not tag. Marked content (ISO 32000-1, 14.6) is written through its
canvas as the pages are drawn; the structure tree (14.7) is then built from ReportLab's own
PDF objects. The aim is PDF/UA-1 (ISO 14289-1).
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import chain
from typing import Final, TypeAlias
from xml.sax.saxutils import escape

from reportlab.pdfgen.canvas import Canvas

from layouts.pdf.reportlab_inside import Inside, PDFDictionary, PDFName, PDFStream
from layouts.pdf.text_string import text_string
from layouts.planning.plan import Role

NEED_CORNERS: Final = (Role.QUESTION, Role.WORKING)
"""Illustrations say where on the page they are (ISO 14289-1, 7.3 and 7.7)."""

Corners: TypeAlias = tuple[float, float, float, float]
"""Left, bottom, right and top in points from the page's bottom left corner."""


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of the page in hand: what it is, what is said for it, and where it is."""

    role: Role
    says: str
    corners: Corners | None
    language: str

    def element(self, number: int, page: bytes, whole: bytes) -> bytes:
        """The structure element of the page's marked content of that number.

        Written out here, as a class set has hundreds of thousands; ``page`` and ``whole``, the
        element that holds all others, are references.
        """
        entries = [
            b"/Type /StructElem /S /%b /P %b /Pg %b /K %d"
            % (self.role.encode(), whole, page, number)
        ]
        if self.corners is not None and self.role in NEED_CORNERS:
            entries.append(
                b"/A <</O /Layout /Placement /Block /BBox [%.2f %.2f %.2f %.2f]>>" % self.corners
            )
        if self.says:
            said = b"/Alt" if self.role in NEED_CORNERS else b"/ActualText"
            entries += said, text_string(self.says)
        if self.language:
            entries += b"/Lang", text_string(self.language)
        return b"<<%b>>" % b" ".join(entries)


class Tagging:
    """Tags a file's pages while they are drawn on a canvas."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._inside = Inside(canvas)
        self._root = PDFDictionary({"Type": PDFName("StructTreeRoot")})
        self._whole = PDFDictionary(
            {
                "Type": PDFName("StructElem"),
                "S": PDFName("Document"),
                "P": self._inside.reference(self._root),
            }
        )
        self._on_page: list[_Part] = []
        self._pages: list[list[bytes]] = []  # references to the elements of each page

    @contextmanager
    def part(
        self, role: Role, says: str, corners: Corners | None, language: str = ""
    ) -> Iterator[None]:
        """All that is drawn within is one part of the page, read as one.

        ``language`` is that of its words where it is not the file's.
        """
        if role is Role.ARTEFACT:
            with self.artefact():
                yield
            return
        self._inside.write(f"/{role} <</MCID {len(self._on_page)}>> BDC")
        self._on_page.append(_Part(role, says, corners, language))
        yield
        self._inside.write("EMC")

    @contextmanager
    def artefact(self) -> Iterator[None]:
        """All that is drawn within is not read: squares, rules, the page's foot."""
        self._inside.write("/Artifact BMC")
        yield
        self._inside.write("EMC")

    def page_done(self) -> list[str]:
        """The page just shown is complete; gives the names of its elements in the file."""
        page = self._inside.page_shown
        self._inside.add_to_page(page, StructParents=len(self._pages), Tabs=PDFName("S"))
        names, references = [], []
        here, whole = self._inside.referred_to(page), self._inside.referred_to(self._whole)
        for number, part in enumerate(self._on_page):
            name = f"part-{len(self._pages)}-{number}"
            element = part.element(number, here, whole)
            references.append(self._inside.referred_to(element, name))
            names.append(name)
        self._pages.append(references)
        self._on_page = []
        return names

    def file_done(self, title: str, subject: str, keywords: str, language: str) -> None:
        """All pages are there: write the structure tree and say what the file is.

        ``language`` is the code (BCP 47) of that of its pages.
        """
        self._whole["K"] = _array(chain.from_iterable(self._pages))
        parents = PDFDictionary(
            {
                "Nums": _array(
                    b"%d %b" % (number, _array(references))
                    for number, references in enumerate(self._pages)
                )
            }
        )
        self._root["K"] = self._inside.reference(self._whole)
        self._root["ParentTree"] = self._inside.reference(parents)
        self._root["ParentTreeNextKey"] = len(self._pages)
        catalog = self._inside.catalog
        catalog.StructTreeRoot = self._root
        catalog.MarkInfo = PDFDictionary({"Marked": "true"})
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        described = PDFStream(
            PDFDictionary({"Type": PDFName("Metadata"), "Subtype": PDFName("XML")}),
            _described(title, subject, keywords, language),
        )
        catalog.Metadata = described


def _array(entries: Iterable[bytes]) -> bytes:
    """An array, an entry a line."""
    return b"[%b]" % b"\n".join(entries)


def _described(title: str, subject: str, keywords: str, language: str) -> bytes:
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
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
<pdf:Keywords>{escape(keywords)}</pdf:Keywords>
<pdfuaid:part>1</pdfuaid:part>
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>""".encode()
