"""Page plans become a PDF file, on ReportLab's canvas.

The bytes are a function of the plans alone: no clock, no compression (builds of zlib differ
in what they write), and the fonts' files taken by path, not searched for.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from io import BytesIO
from typing import Final

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from layouts.pdf.attaching import attach
from layouts.pdf.bookmarks import Bookmarks
from layouts.pdf.carried import Carried
from layouts.pdf.reportlab_inside import Inside, StreamedFile, text_codes
from layouts.pdf.same_everywhere import nothing_around
from layouts.pdf.sink import Sink
from layouts.pdf.tagging import NEED_CORNERS, Corners, Tagging
from layouts.planning.empty_boxes import has_boxes, parts
from layouts.planning.extent import extent
from layouts.planning.plan import (
    Arc,
    Box,
    Colour,
    Grid,
    Item,
    Line,
    PagePlan,
    Symbol,
    Text,
    Unit,
    as_units,
    dark_runs,
)
from layouts.planning.type_scale import BLACK, MM_PER_POINT
from layouts.planning.typeface import font_path
from specs.languages.usage import PLAIN, Usage

PDF_1_7: Final = (1, 7)
"""What PDF/UA-1 builds on (ISO 32000-1)."""

_CODED_TEXTS: Final = 20_000
"""How many different texts are kept in the faces' codes: labels, digits and words come again."""

_NUMBERS: Final = 20_000
"""How many different numbers are kept as they are written: digits stand in the same squares."""

_COLOURS: Final = 100

_FONT_NAMES = {False: "RungsheetRegular", True: "RungsheetBold"}


def write_pdf(
    sink: Sink,
    pages: Iterable[PagePlan],
    title: str,
    subject: str,
    carried: Carried | None = None,
    page_done: Callable[[], None] = lambda: None,
    usage: Usage = PLAIN,
) -> int:
    """Write a tagged PDF file of the pages, its fonts embedded, with what it carries inside.

    Pages are written as they come, ``page_done`` being called after each; ``usage`` is the land
    and the language that they are in. Gives their number.
    """
    _register_the_face()
    with nothing_around():
        canvas = Canvas(
            BytesIO(),
            pageCompression=0,
            invariant=1,
            pdfVersion=PDF_1_7,
            lang=usage.language.code,
            initialFontName=_FONT_NAMES[False],
            initialFontSize=10,
            initialLeading=12,
        )
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setAuthor("Rungsheet")
    canvas.setCreator("Rungsheet")
    if carried is not None:
        attach(canvas, carried, usage)
    tags = Tagging(canvas)
    bookmarks = Bookmarks(canvas)
    pen = _Pen(canvas, tags)
    file = StreamedFile(canvas, sink)
    count = 0
    for page in pages:
        pen.draw(page)
        bookmarks.page_done(page)
        file.page_done(tags.page_done())
        page_done()
        count += 1
    keywords = carried.keywords if carried else ""
    bookmarks.file_done()
    tags.file_done(title, subject, keywords, usage.language.code)
    file.close()
    return count


@cache
def _register_the_face() -> None:
    """Make the face known to ReportLab, which finds faces by their names, in the whole process.

    Once, under names of ours: what a document has used of a face is kept with the document, so
    several may be under way at a time.
    """
    for bold, name in _FONT_NAMES.items():
        pdfmetrics.registerFont(TTFont(name, str(font_path(bold=bold)), asciiReadable=False))


def pdf(
    pages: Iterable[PagePlan],
    title: str,
    subject: str,
    carried: Carried | None = None,
    usage: Usage = PLAIN,
) -> bytes:
    """The file that ``write_pdf`` writes, as bytes."""
    buffer = BytesIO()
    write_pdf(buffer, pages, title, subject, carried, usage=usage)
    return buffer.getvalue()


def _points(millimetres: float) -> float:
    return millimetres / MM_PER_POINT


@lru_cache(maxsize=_NUMBERS)
def _number(value: float) -> str:
    """A number as a content stream has it, to a thousandth (a third of a micrometre)."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


@lru_cache(maxsize=_COLOURS)
def _colour(colour: Colour) -> str:
    return " ".join(map(_number, colour))


@dataclass(slots=True)
class _State:
    """What a page's content has set last (ISO 32000-1, 8.4.1): no need to say it again."""

    fill: Colour | None = None
    stroke: tuple[Colour, float] | None = None
    font: tuple[str, float] = "", 0.0


class _Pen:
    """Draws one page plan after another on a canvas, turning y upwards and into points."""

    def __init__(self, canvas: Canvas, tags: Tagging) -> None:
        self._canvas = canvas
        self._inside = Inside(canvas)
        self._tags = tags
        self._grids: dict[Grid, str] = {}
        self._height = 0.0
        self._coded: dict[tuple[bool, str], Sequence[tuple[str, str]]] = {}
        self._state = _State()

    def draw(self, page: PagePlan) -> None:
        """Draw a page and turn to the next."""
        self._canvas.setPageSize((_points(page.width), _points(page.height)))
        self._height, self._state = page.height, _State()
        for item in page.items:
            if isinstance(item, Grid):
                self._name_grid(item)
        for unit in as_units(page.content):
            with self._tags.part(unit.role, unit.says, self._corners(unit), unit.language):
                for item in unit.items:
                    self._item(item)
        self._canvas.showPage()

    def _corners(self, unit: Unit) -> Corners | None:
        """Where on the page a unit is, for those that have to say so."""
        box = extent(unit.items) if unit.role in NEED_CORNERS else None
        if box is None:
            return None
        return _points(box[0]), self._up(box[3]), _points(box[2]), self._up(box[1])

    def _item(self, item: Item) -> None:
        match item:
            case Text():
                self._text(item)
            case Line():
                self._line(item)
            case Arc():
                self._arc(item)
            case Box():
                self._box(item)
            case Grid():
                self._grid(item)
            case Symbol():
                self._symbol(item)

    def _up(self, y: float) -> float:
        return _points(self._height - y)

    def _at(self, x: float, y: float) -> str:
        """A place on the page, as a content stream has it."""
        return f"{_number(x / MM_PER_POINT)} {_number((self._height - y) / MM_PER_POINT)}"

    def _filled_with(self, colour: Colour) -> None:
        if colour != self._state.fill:
            self._inside.write(f"{_colour(colour)} rg")
            self._state.fill = colour

    def _stroked_with(self, colour: Colour, weight: float) -> None:
        if (colour, weight) != self._state.stroke:
            self._inside.write(f"{_number(_points(weight))} w {_colour(colour)} RG")
            self._state.stroke = colour, weight

    def _text(self, text: Text) -> None:
        if has_boxes(text):
            for part in parts(text):
                self._text(part) if isinstance(part, Text) else self._box(part)
            return
        self._filled_with(text.colour)
        shown = ""
        for face, codes in self._codes(text.bold, text.text):
            if (face, text.size) != self._state.font:
                self._state.font = face, text.size
                shown += f"{face} {_number(text.size)} Tf "
            shown += f"<{codes}> Tj "
        self._inside.write(f"BT {self._at(text.left, text.baseline)} Td {shown}ET")

    def _codes(self, bold: bool, text: str) -> Sequence[tuple[str, str]]:
        """The text in the codes of the embedded faces: each face's name in the file, its part."""
        known = self._coded.get((bold, text))
        if known is None:
            known = text_codes(_FONT_NAMES[bold], text, self._canvas)
            if len(self._coded) < _CODED_TEXTS:
                self._coded[bold, text] = known
        return known

    def _line(self, line: Line) -> None:
        self._stroked_with(line.colour, line.weight)
        self._inside.write(f"{self._at(line.x1, line.y1)} m {self._at(line.x2, line.y2)} l S")

    def _arc(self, arc: Arc) -> None:
        self._stroked_with(arc.colour, arc.weight)
        left, right = self._at(arc.x1, arc.over), self._at(arc.x2, arc.over)
        start, end = self._at(arc.x1, arc.y), self._at(arc.x2, arc.y)
        self._inside.write(f"{start} m {left} {right} {end} c S")

    def _box(self, box: Box) -> None:
        if box.fill is not None:
            self._filled_with(box.fill)
        if box.stroke is not None:
            self._stroked_with(box.stroke, box.weight)
        corner = _points(box.x), self._up(box.y + box.height)
        size = _points(box.width), _points(box.height)
        stroke, fill = int(box.stroke is not None), int(box.fill is not None)
        if box.radius:
            self._canvas.roundRect(*corner, *size, _points(box.radius), stroke, fill)
        else:
            self._canvas.rect(*corner, *size, stroke, fill)

    def _symbol(self, symbol: Symbol) -> None:
        """All dark modules as one path, so that no seam of light is left between two."""
        self._filled_with(BLACK)
        module = _points(symbol.side) / len(symbol.rows)
        # In modules from the symbol's top left corner, downwards.
        self._inside.write(f"q {module:.5f} 0 0 {-module:.5f} {self._at(symbol.x, symbol.y)} cm")
        for down, row in enumerate(symbol.rows):
            for start, end in dark_runs(row):
                self._inside.write(f"{start} {down} {end - start} 1 re")
        self._inside.write("f Q")

    def _grid(self, grid: Grid) -> None:
        self._inside.write(f"q 1 0 0 1 {self._at(grid.x, grid.y + grid.height)} cm")
        self._canvas.doForm(self._name_grid(grid))
        self._inside.write("Q")

    def _name_grid(self, grid: Grid) -> str:
        """The name of the grid's form, which is drawn once in a file and used by reference."""
        kind = replace(grid, x=0.0, y=0.0)
        name = self._grids.get(kind)
        if name is None:
            name = self._grids[kind] = f"squares-{len(self._grids) + 1}"
            self._form(name, grid)
        return name

    def _form(self, name: str, grid: Grid) -> None:
        edge = _points(grid.weight)
        width, height = _points(grid.width), _points(grid.height)
        canvas = self._canvas
        canvas.beginForm(name, -edge, -edge, width + edge, height + edge)
        canvas.setLineWidth(_points(grid.weight))
        canvas.setStrokeColorRGB(*grid.colour)
        across = [_points(grid.square * column) for column in range(grid.columns + 1)]
        down = [_points(grid.square * row) for row in range(grid.rows + 1)]
        canvas.lines([(x, 0, x, height) for x in across])
        canvas.lines([(0, y, width, y) for y in down])
        canvas.endForm()
