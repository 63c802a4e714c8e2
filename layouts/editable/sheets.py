"""Pupils' sheets for a word processor (Office Open XML, ECMA-376), by python-docx.

What is planned for the PDF is written again as what can be changed. Squares are a table with rows
of exact height and columns of fixed width; digits, letters and signs are text in its cells. Words
above and below are paragraphs, lines to write on are tab stops, and each page has a section of its
own, because each has its own code at its foot. Where several pages go to a sheet of paper, each
is in a cell of one more table.
"""

import struct
import zlib
from collections.abc import Iterable, Iterator
from io import BytesIO
from typing import TYPE_CHECKING, Any, Final

from layouts.editable.cells import Around, in_cells, in_rows
from layouts.editable.document_shapes import Shapes
from layouts.editable.document_styles import (
    FACE,
    HEADINGS,
    NAMESPACES,
    THIN,
    THIN_HEIGHT,
    emu,
    rgb,
    style_of_headings,
    style_of_squares,
    style_of_thin_lines,
    twips,
)
from layouts.editable.document_table import NO_MARGINS, table
from layouts.editable.document_text import Flow
from layouts.editable.same_bytes import same_bytes
from layouts.planning.errors import LayoutError
from layouts.planning.plan import Box, Item, Role, Symbol, Text, Unit
from layouts.planning.squared_page import Side, SquaredPage
from layouts.planning.type_scale import (
    CUT_LINE,
    LEADING,
    MM_PER_POINT,
    SHEET_HEADING,
    SHEET_TEXT,
    SHEET_TITLES,
)
from specs.languages.saying import say

if TYPE_CHECKING:
    from docx.document import Document
    from docx.section import Section

_EDGE: Final = 5.0
"""What is left out of a sheet's outermost parts: a page must have room for a line below them."""
_BELOW: Final = 0.7
"""Below the squares there must be room for the paragraph that ends a page."""
_DOTS: Final = 10
"""The side of a module in a picture of a code."""


class NoSheetsError(LayoutError):
    """The library that writes sheets for word processors is not installed."""

    def __init__(self) -> None:
        super().__init__(
            say(
                "sheets that can be changed are written by python-docx, which is not installed; "
                "pip install 'rungsheet[sheets]', or print the PDFs, which need nothing more"
            )
        )


def refuse_without_library() -> None:
    """Raise NoSheetsError where such sheets cannot be written."""
    try:
        import docx  # noqa: F401
    except ImportError:
        raise NoSheetsError from None


def sheets(sides: Iterable[Side], title: str, language: str = "en-GB") -> bytes:
    """A file with a page a side, the same bytes for the same sides. Raises NoSheetsError.

    ``language`` is the one that the pages are in (BCP 47).
    """
    refuse_without_library()
    import docx

    document = docx.Document()
    _ready(document, title, language)
    writing = _Writing(document)
    for side in sides:
        writing.side(side)
    writing.end()
    buffer = BytesIO()
    document.save(buffer)
    return same_bytes(buffer.getvalue())


def _ready(document: "Document", title: str, language: str) -> None:
    """The library's own empty file in our type, with nothing of its time or place."""
    styles: Any = document.styles.element
    styles.replace(styles.find(f"{_W}docDefaults"), _parsed(_defaults(language)))
    for style in styles.findall(f"{_W}style"):
        if style.get(f"{_W}default") != "1":
            styles.remove(style)
    for level, (key, points) in enumerate(_LEVELS.items()):
        styles.append(_parsed(style_of_headings(key, points, level)))
    styles.append(_parsed(style_of_thin_lines()))
    compat: Any = document.settings.element.find(f"{_W}compat")
    for part in list(compat):
        if part.get(f"{_W}name") == "compatibilityMode":
            part.set(f"{_W}val", _NEWEST_LAYOUT)
        elif part.tag == f"{_W}useFELayout":
            compat.remove(part)
    zoom: Any = document.settings.element.find(f"{_W}zoom")
    zoom.set(f"{_W}percent", _WHOLE)
    package: Any = document.part.package
    for part in (package, document.part):
        for key, relation in list(part.rels.items()):
            if relation.reltype.endswith(_OF_THE_TEMPLATE):
                del part.rels[key]
    document.core_properties.title = title
    document.core_properties.author = "Rungsheet"
    document.core_properties.comments = ""
    document.core_properties.language = language


class _Writing:
    """A file being written, page after page."""

    def __init__(self, document: "Document") -> None:
        self._document = document
        self._shapes = Shapes()
        self._square = 0.0
        self._begun = False

    def side(self, side: Side) -> None:
        """A side of paper as a section: its size, its words and squares, and its foot."""
        section = self._new_section()
        section.page_width, section.page_height = _length(side.width), _length(side.height)
        from docx.enum.section import WD_ORIENT

        landscape = side.width > side.height
        section.orientation = WD_ORIENT.LANDSCAPE if landscape else WD_ORIENT.PORTRAIT
        section.footer.is_linked_to_previous = False
        section.footer.paragraphs[0].style = "Thin line"  # the library's own style is not kept
        section.header_distance = _length(0.0)
        for page in side.parts:
            if page is not None:
                self._styles_for(page.grid.square)
        if len(side.parts) > 1:
            self._parts(section, side)
        elif side.parts[0] is not None:
            self._page(section, side.parts[0])

    def end(self) -> None:
        """The paragraph that a file must end with."""
        self._add(f'<w:p {NAMESPACES}><w:pPr><w:pStyle w:val="{THIN}"/></w:pPr></w:p>')

    def _new_section(self) -> "Section":
        from docx.enum.section import WD_SECTION

        if not self._begun:
            self._begun = True
            return self._document.sections[0]
        section: Section = self._document.add_section(WD_SECTION.NEW_PAGE)
        self._document.paragraphs[-1].style = "Thin line"
        return section

    def _add(self, xml: str) -> None:
        body: Any = self._document.element.body
        body.sectPr.addprevious(_parsed(xml))

    def _styles_for(self, square: float) -> None:
        """Styles for digits in squares of that size. A file's squares are all of one size."""
        if self._square:
            return
        self._square = square
        styles: Any = self._document.styles.element
        for style in style_of_squares(square).values():
            styles.append(_parsed(style))

    def _page(self, section: "Section", page: SquaredPage) -> None:
        """A page that has the side to itself: its foot is that of its section."""
        grid, width, height = page.grid, page.plan.width, page.plan.height
        squares, around = in_cells(page)
        bottom = grid.y + grid.height
        section.left_margin = _length(grid.x)
        section.right_margin = _length(width - grid.x - grid.width)
        section.top_margin = _length(_EDGE)
        section.bottom_margin = _length(height - bottom - _BELOW)
        flow = Flow(grid.x, _EDGE)
        for xml in self._above(flow, around, grid.y):
            self._add(xml)
        self._add(table(squares, self._shapes))
        footer: Any = section.footer
        flow = Flow(grid.x, _top_of(around.below))
        foot: Any = footer.part.element
        for old in list(foot):
            foot.remove(old)
        for xml in self._below(flow, around, footer.part):
            foot.append(_parsed(xml))
        section.footer_distance = _length(height - flow.top)

    def _parts(self, section: "Section", side: Side) -> None:
        """Several pages on one side, each with its foot in a cell of one table."""
        section.left_margin = section.right_margin = section.top_margin = _length(_EDGE)
        section.bottom_margin = _length(_EDGE - 2 * _BELOW)
        section.footer_distance = _length(0.0)
        across, down = side.across, len(side.parts) // side.across
        widths = [_within(side.part_width, at, across) for at in range(across)]
        rows = []
        for row in range(down):
            cells = []
            for column in range(across):
                page = side.parts[row * across + column]
                corner = (0.0 if column else _EDGE), (0.0 if row else _EDGE)
                inside = "".join(self._part(page, corner)) if page else "<w:p/>"
                width = twips(widths[column])
                cells.append(
                    f'<w:tc><w:tcPr><w:tcW w:w="{width}" w:type="dxa"/></w:tcPr>{inside}</w:tc>'
                )
            high = twips(_within(side.part_height, row, down))
            height = f'<w:trHeight w:val="{high}" w:hRule="exact"/>'
            rows.append(f"<w:tr><w:trPr><w:cantSplit/>{height}</w:trPr>{''.join(cells)}</w:tr>")
        cut = f'w:val="single" w:sz="2" w:space="0" w:color="{rgb(CUT_LINE)}"'
        columns = "".join(f'<w:gridCol w:w="{twips(width)}"/>' for width in widths)
        self._add(
            f'<w:tbl {NAMESPACES}><w:tblPr><w:tblW w:w="{twips(sum(widths))}" w:type="dxa"/>'
            f'<w:tblInd w:w="0" w:type="dxa"/><w:tblBorders><w:insideH {cut}/><w:insideV {cut}/>'
            f'</w:tblBorders><w:tblLayout w:type="fixed"/>{NO_MARGINS}</w:tblPr>'
            f"<w:tblGrid>{columns}</w:tblGrid>{''.join(rows)}</w:tbl>"
        )

    def _part(self, page: SquaredPage, corner: tuple[float, float]) -> Iterator[str]:
        """A page in a cell whose corner is so far right and down on it."""
        grid = page.grid
        squares, around = in_cells(page)
        left, top = corner
        flow = Flow(left, top)
        yield from self._above(flow, around, grid.y)
        yield table(squares, self._shapes, grid.x - left)
        flow.top = grid.y + grid.height
        yield flow.thin(_top_of(around.below))
        yield from self._below(flow, around, self._document.part)

    def _above(self, flow: Flow, around: Around, end: float) -> Iterator[str]:
        """The paragraphs over the squares, which begin where these end."""
        for row in in_rows(around.above):
            yield flow.row(row, HEADINGS.get(row.role, "Normal"))
        boxes = [item for item, _ in around.above if isinstance(item, Box)]
        if boxes:
            corner = flow.left, flow.top
            frames = "".join(self._shapes.drawn(box, corner) for box in boxes)
            yield flow.thin(flow.top, frames)
        yield flow.thin(end)

    def _below(self, flow: Flow, around: Around, part: Any) -> Iterator[str]:
        """What is at the foot: a code's picture on a paragraph of its own, then the words."""
        corner = flow.left, flow.top
        hanging = [self._shapes.drawn(box, corner, behind=True) for box in around.behind]
        said = " ".join(item.text for item, _ in around.below if isinstance(item, Text))
        for item, _ in around.below:
            if isinstance(item, Symbol):
                relation, _image = part.get_or_add_image(BytesIO(_picture(item.rows)))
                hanging.append(self._shapes.picture(item, corner, relation, said))
        yield flow.thin(flow.top, "".join(hanging))
        for row in in_rows(around.below):
            yield flow.row(row)


_W: Final = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_LEVELS: Final = {
    HEADINGS[Role.TITLE]: SHEET_TITLES[0],
    HEADINGS[Role.HEADING]: SHEET_HEADING,
}
_OF_THE_TEMPLATE: Final = ("/thumbnail", "/stylesWithEffects", "/customXml", "/numbering")
"""What the library's empty file has and no sheet needs: a picture of another file, old styles."""
_WHOLE: Final = "100"
"""The percentage that a reader zooms to: the schema asks for one, and the library's own file has
none (ECMA-376, part 1, 17.15.1.94)."""
_NEWEST_LAYOUT: Final = "15"
"""How word processors since 2013 lay pages out (the compatibility mode of [MS-DOCX], 2.3.3)."""


def _defaults(language: str) -> str:
    """The XML of what holds where no style says otherwise."""
    size = round(2 * SHEET_TEXT)
    return (
        f"<w:docDefaults {NAMESPACES}><w:rPrDefault><w:rPr>"
        f'<w:rFonts w:ascii="{FACE}" w:hAnsi="{FACE}" w:eastAsia="{FACE}" w:cs="{FACE}"/>'
        f'<w:sz w:val="{size}"/><w:szCs w:val="{size}"/>'
        f'<w:lang w:val="{language}" w:eastAsia="{language}"/></w:rPr></w:rPrDefault>'
        '<w:pPrDefault><w:pPr><w:spacing w:before="0" w:after="0" w:line="240" '
        'w:lineRule="auto"/></w:pPr></w:pPrDefault></w:docDefaults>'
    )


def _parsed(xml: str) -> Any:
    from docx.oxml import parse_xml

    return parse_xml(xml if "xmlns:w=" in xml else xml.replace(">", f" {NAMESPACES}>", 1))


def _length(millimetres: float) -> Any:
    from docx.shared import Emu

    return Emu(emu(millimetres))


def _within(length: float, at: int, count: int) -> float:
    """What of a part's length is inside the edges of the sheet."""
    return length - (_EDGE if at == 0 else 0.0) - (_EDGE if at == count - 1 else 0.0)


def _top_of(items: Iterable[tuple[Item, Unit]]) -> float:
    """Where the foot begins."""
    tops = [item.y for item, _ in items if isinstance(item, Symbol)]
    tops += [row.baseline - row.size * MM_PER_POINT * LEADING for row in in_rows(tuple(items))]
    return min(tops) - THIN_HEIGHT


def _picture(rows: tuple[tuple[bool, ...], ...]) -> bytes:
    """A code's modules as a PNG picture (ISO/IEC 15948), with the same bytes everywhere."""
    side = len(rows) * _DOTS
    lines = bytearray()
    for row in rows:
        bits = "".join(("0" if dark else "1") * _DOTS for dark in row)
        padded = bits.ljust(-(-side // 8) * 8, "1")
        line = bytes([0]) + int(padded, 2).to_bytes(len(padded) // 8, "big")
        lines += line * _DOTS
    header = struct.pack(">IIBBBBB", side, side, 1, 0, 0, 0, 0)
    parts = ((b"IHDR", header), (b"IDAT", zlib.compress(bytes(lines), 0)), (b"IEND", b""))
    found = b"\x89PNG\r\n\x1a\n"
    for name, data in parts:
        found += struct.pack(">I", len(data)) + name + data
        found += struct.pack(">I", zlib.crc32(name + data))
    return found
