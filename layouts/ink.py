"""Page plans become a PDF file, on ReportLab's canvas.

The bytes are a function of the plans alone: no clock, no compression (builds of zlib differ
in what they write), and the fonts' files taken by path, not searched for.
"""

from collections.abc import Sequence
from io import BytesIO

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from layouts.plan import Box, Colour, Grid, Line, PagePlan, Text
from layouts.type_scale import GRID, GRID_LINE, MM_PER_POINT
from layouts.typeface import font_path

_FONT_NAMES = {False: "RungsheetRegular", True: "RungsheetBold"}


def pdf(pages: Sequence[PagePlan], title: str, subject: str) -> bytes:
    """A PDF file of the pages, its fonts embedded."""
    for bold, name in _FONT_NAMES.items():
        pdfmetrics.registerFont(TTFont(name, str(font_path(bold=bold)), asciiReadable=True))
    buffer = BytesIO()
    canvas = Canvas(
        buffer,
        pageCompression=0,
        invariant=1,
        lang="en-GB",
        initialFontName=_FONT_NAMES[False],
        initialFontSize=10,
        initialLeading=12,
    )
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setAuthor("Rungsheet")
    canvas.setCreator("Rungsheet")
    pen = _Pen(canvas)
    for page in pages:
        pen.draw(page)
    canvas.save()
    return buffer.getvalue()


def _points(millimetres: float) -> float:
    return millimetres / MM_PER_POINT


class _Pen:
    """Draws one page plan after another on a canvas, turning y upwards and into points."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._grids: set[str] = set()
        self._height = 0.0
        self._font: tuple[bool, float] | None = None
        self._fill: Colour | None = None

    def draw(self, page: PagePlan) -> None:
        """Draw a page and turn to the next."""
        self._canvas.setPageSize((_points(page.width), _points(page.height)))
        self._height, self._font, self._fill = page.height, None, None
        for item in page.items:
            if isinstance(item, Grid):
                self._name_grid(item)
        for item in page.items:
            match item:
                case Text():
                    self._text(item)
                case Line():
                    self._line(item)
                case Box():
                    self._box(item)
                case Grid():
                    self._grid(item)
        self._canvas.showPage()

    def _up(self, y: float) -> float:
        return _points(self._height - y)

    def _filled_with(self, colour: Colour) -> None:
        if colour != self._fill:
            self._canvas.setFillColorRGB(*colour)
            self._fill = colour

    def _text(self, text: Text) -> None:
        if (text.bold, text.size) != self._font:
            self._canvas.setFont(_FONT_NAMES[text.bold], text.size)
            self._font = (text.bold, text.size)
        self._filled_with(text.colour)
        self._canvas.drawString(_points(text.left), self._up(text.baseline), text.text)

    def _line(self, line: Line) -> None:
        self._canvas.setLineWidth(_points(line.weight))
        self._canvas.setStrokeColorRGB(*line.colour)
        self._canvas.line(_points(line.x1), self._up(line.y1), _points(line.x2), self._up(line.y2))

    def _box(self, box: Box) -> None:
        if box.fill is not None:
            self._filled_with(box.fill)
        if box.stroke is not None:
            self._canvas.setLineWidth(_points(box.weight))
            self._canvas.setStrokeColorRGB(*box.stroke)
        corner = _points(box.x), self._up(box.y + box.height)
        size = _points(box.width), _points(box.height)
        stroke, fill = int(box.stroke is not None), int(box.fill is not None)
        if box.radius:
            self._canvas.roundRect(*corner, *size, _points(box.radius), stroke, fill)
        else:
            self._canvas.rect(*corner, *size, stroke, fill)

    def _grid(self, grid: Grid) -> None:
        self._canvas.saveState()
        self._canvas.translate(_points(grid.x), self._up(grid.y + grid.height))
        self._canvas.doForm(self._name_grid(grid))
        self._canvas.restoreState()

    def _name_grid(self, grid: Grid) -> str:
        """The name of the grid's form, which is drawn once in a file and used by reference."""
        name = f"squares-{grid.columns}x{grid.rows}x{grid.square:.3f}".replace(".", "-")
        if name not in self._grids:
            self._grids.add(name)
            self._form(name, grid)
        return name

    def _form(self, name: str, grid: Grid) -> None:
        edge = _points(GRID_LINE)
        width, height = _points(grid.width), _points(grid.height)
        canvas = self._canvas
        canvas.beginForm(name, -edge, -edge, width + edge, height + edge)
        canvas.setLineWidth(_points(GRID_LINE))
        canvas.setStrokeColorRGB(*GRID)
        across = [_points(grid.square * column) for column in range(grid.columns + 1)]
        down = [_points(grid.square * row) for row in range(grid.rows + 1)]
        canvas.lines([(x, 0, x, height) for x in across])
        canvas.lines([(0, y, width, y) for y in down])
        canvas.endForm()
