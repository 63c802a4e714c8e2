"""Slides for a presentation program (Office Open XML, ECMA-376), by python-pptx.

What is planned for the PDF is drawn again as what can be changed: text as text, squares and
their digits as a table, lines and boxes as shapes. The notes hold what is said on the slide,
and tables say what they show to whoever cannot see them. The typeface is one that such programs
have; digits stand in the middle of their squares in any.
"""

from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from itertools import groupby
from typing import TYPE_CHECKING, Any, Final, TypeAlias

from layouts.editable.same_bytes import same_bytes
from layouts.editable.squares import Table, in_tables
from layouts.planning.empty_boxes import has_boxes, parts
from layouts.planning.errors import LayoutError
from layouts.planning.plan import (
    Arc,
    Box,
    Colour,
    Item,
    Line,
    PagePlan,
    Role,
    Symbol,
    Text,
    Unit,
    as_units,
    line_height,
)
from layouts.planning.type_scale import MM_PER_POINT
from specs.languages.saying import say
from specs.languages.usage import PLAIN, Usage

if TYPE_CHECKING:
    from pptx.presentation import Presentation
    from pptx.slide import Slide

FACE: Final = "Arial"
_ASCENT: Final = 0.905
"""From the top of a line of that face to its baseline, in ems (its own metrics)."""
_LINE: Final = 1.149
_ROOM: Final = 1.15
"""Boxes of text are so much wider than the text: another face may be wider."""
_TITLE_ONLY: Final = 5
"""The layout of the library's own template that has a title and nothing else."""
_DRAWING: Final = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
_NO_STYLE: Final = "{2D5ABB26-0587-4C30-8999-92F81FD0307C}"
"""The style of tables with neither colours nor lines (from memory)."""
_EMU: Final = 36_000
"""English metric units in a millimetre (ECMA-376)."""


class NoSlidesError(LayoutError):
    """The library that writes slides for presentation programs is not installed."""

    def __init__(self) -> None:
        super().__init__(
            say(
                "slides that can be changed are written by python-pptx, which is not installed; "
                "pip install 'rungsheet[slides]', or project the PDFs, which need nothing more"
            )
        )


def refuse_without_library() -> None:
    """Raise NoSlidesError where such slides cannot be written."""
    try:
        import pptx  # noqa: F401
    except ImportError:
        raise NoSlidesError from None


def slides(pages: Iterable[PagePlan], title: str, usage: Usage = PLAIN) -> bytes:
    """A file with a slide a page, the same bytes for the same pages. Raises NoSlidesError.

    ``usage`` is the land and the language that the pages are in.
    """
    refuse_without_library()
    from pptx import Presentation

    shown = Presentation()
    _nothing_of_the_template(shown)
    for page in pages:
        shown.slide_width, shown.slide_height = _emu(page.width), _emu(page.height)
        slide = shown.slides.add_slide(shown.slide_layouts[_TITLE_ONLY])
        _Drawing(slide, usage).draw(page)
    shown.core_properties.title = title
    shown.core_properties.author = shown.core_properties.last_modified_by = "Rungsheet"
    shown.core_properties.comments = ""
    shown.core_properties.language = usage.language.code
    buffer = BytesIO()
    shown.save(buffer)
    return same_bytes(buffer.getvalue())


def _nothing_of_the_template(shown: "Presentation") -> None:
    """Leave out what the library's own empty file has of where that was made.

    A picture of another file, and a printer.
    """
    package, part = shown.part.package, shown.part
    for relation in list(package.iter_rels()):
        if relation.reltype.endswith("/thumbnail"):
            package.drop_rel(relation.rId)
    for key, relation in list(part.rels.items()):
        if relation.reltype.endswith("/printerSettings"):
            part.rels.pop(key)


def _emu(millimetres: float) -> Any:
    from pptx.util import Emu

    return Emu(round(millimetres * _EMU))


class _Drawing:
    """A slide being drawn."""

    def __init__(self, slide: "Slide", usage: Usage) -> None:
        self._slide, self._usage = slide, usage
        self._shapes = slide.shapes

    def draw(self, page: PagePlan) -> None:
        """All of a page; its title in the slide's own place for one, its words in the notes."""
        units = list(as_units(page.content))
        title = next((unit for unit in units if unit.role is Role.TITLE), None)
        self._title(title)
        rest = [unit for unit in units if unit is not title]
        said = [unit.says for unit in rest if unit.role in (Role.WORKING, Role.QUESTION)]
        drawn = in_tables([item for unit in rest for item in unit.items])
        for alike, group in groupby(drawn, lambda item: isinstance(item, Text)):
            if alike:
                for lines in _together([item for item in group if isinstance(item, Text)]):
                    self._text(lines)
            else:
                for item in group:
                    self._item(item, said)
        notes = self._slide.notes_slide.notes_text_frame
        if notes is not None:
            notes.text = "\n".join(_notes(rest))

    def _title(self, unit: Unit | None) -> None:
        place = self._shapes.title
        texts = [item for item in unit.items if isinstance(item, Text)] if unit else []
        if place is None:
            return
        if not texts:
            place.element.getparent().remove(place.element)
            return
        self._put(place, texts, [[text] for text in texts])

    def _item(self, item: "Item | Table", said: Sequence[str]) -> None:
        match item:
            case Table():
                self._table(item, " ".join(said))
            case Line():
                self._line(item)
            case Arc():
                self._arc(item)
            case Box():
                self._box(item)
            case Symbol() | Text():
                pass  # no slide has a symbol, and texts are drawn together

    def _text(self, lines: "_Lines") -> None:
        run = [text for line in lines for text in line]
        if any(map(has_boxes, run)):
            for text in run:
                for part in parts(text):
                    if isinstance(part, Box):
                        self._box(part)
                    else:
                        self._text(((part,),))
            return
        place = self._shapes.add_textbox(*[_emu(0)] * 4)
        self._put(place, run, lines)
        place.name = run[0].text[:40]

    def _put(self, place: Any, run: Sequence[Text], lines: Sequence[Sequence[Text]]) -> None:
        """Lines of text in a place of their own, where the page has them."""
        from pptx.enum.text import MSO_ANCHOR, MSO_AUTO_SIZE, PP_ALIGN

        first, last = run[0], lines[-1][0]
        size = first.size * MM_PER_POINT
        wide = max(sum(text.width for text in line) for line in lines) * _ROOM
        left = {"left": first.left, "centre": first.x - wide / 2, "right": first.x - wide}
        place.left, place.top = _emu(left[first.anchor]), _emu(first.baseline - _ASCENT * size)
        place.width = _emu(wide)
        place.height = _emu(last.baseline - first.baseline + _LINE * size)
        frame = place.text_frame
        frame.margin_left = frame.margin_right = frame.margin_top = frame.margin_bottom = _emu(0)
        frame.auto_size = MSO_AUTO_SIZE.NONE
        frame.vertical_anchor = MSO_ANCHOR.TOP
        frame.word_wrap = False
        paragraph = frame.paragraphs[0]
        ways = {"left": PP_ALIGN.LEFT, "centre": PP_ALIGN.CENTER, "right": PP_ALIGN.RIGHT}
        paragraph.alignment = ways[first.anchor]
        for at, line in enumerate(lines):
            if at:
                paragraph.add_line_break()
            for number, text in enumerate(line):
                apart = number and not line[number - 1].text.endswith(" ")
                _written(paragraph, f" {text.text.lstrip()}" if apart else text.text, text)

    def _table(self, table: Table, says: str) -> None:
        """Squares as a table, each digit in its cell."""
        from pptx.enum.text import MSO_ANCHOR, PP_ALIGN

        grid = table.grid
        frame = self._shapes.add_table(
            grid.rows,
            grid.columns,
            _emu(grid.x),
            _emu(grid.y),
            _emu(grid.width),
            _emu(grid.height),
        )
        frame.name = self._usage(say("squares"))
        frame.element.nvGraphicFramePr.cNvPr.set("descr", says)
        drawn: Any = frame.table
        squares: Any = frame.element.graphic.graphicData.tbl
        drawn.first_row = drawn.horz_banding = False
        _without_style(squares)
        for column in drawn.columns:
            column.width = _emu(grid.square)
        for row in drawn.rows:
            row.height = _emu(grid.square)
        for down in range(grid.rows):
            for across in range(grid.columns):
                cell = drawn.cell(down, across)
                for side in ("left", "right", "top", "bottom"):
                    setattr(cell, f"margin_{side}", _emu(0))
                cell.vertical_anchor = MSO_ANCHOR.MIDDLE
                cell.fill.background()
                _ruled(squares.tc(down, across), grid.colour, grid.weight)
                paragraph = cell.text_frame.paragraphs[0]
                paragraph.alignment = PP_ALIGN.CENTER
                text = table.cells.get((down, across))
                if text:
                    _written(paragraph, text.text, text)
                else:  # an empty cell is as high as its type would be
                    _sized(paragraph.font, 10.0)

    def _line(self, line: Line) -> None:
        from pptx.enum.shapes import MSO_CONNECTOR

        ends = (_emu(at) for at in (line.x1, line.y1, line.x2, line.y2))
        drawn = self._shapes.add_connector(MSO_CONNECTOR.STRAIGHT, *ends)
        drawn.line.color.rgb = _rgb(line.colour)
        drawn.line.width = _emu(line.weight)

    def _arc(self, arc: Arc) -> None:
        start, *others = ((_emu(x), _emu(y)) for x, y in arc.points(_SEGMENTS))
        bent = self._shapes.build_freeform(*start)
        bent.add_line_segments(others, close=False)
        drawn = bent.convert_to_shape()
        drawn.shadow.inherit = False
        drawn.fill.background()
        drawn.line.color.rgb = _rgb(arc.colour)
        drawn.line.width = _emu(arc.weight)

    def _box(self, box: Box) -> None:
        from pptx.enum.shapes import MSO_SHAPE

        drawn: Any

        kind = MSO_SHAPE.ROUNDED_RECTANGLE if box.radius else MSO_SHAPE.RECTANGLE
        place = (_emu(at) for at in (box.x, box.y, box.width, box.height))
        drawn = self._shapes.add_shape(kind, *place)
        drawn.shadow.inherit = False
        if box.radius:
            drawn.adjustments[0] = box.radius / min(box.width, box.height)
        if box.fill is None:
            drawn.fill.background()
        else:
            drawn.fill.solid()
            drawn.fill.fore_color.rgb = _rgb(box.fill)
        if box.stroke is None:
            drawn.line.fill.background()
        else:
            drawn.line.color.rgb = _rgb(box.stroke)
            drawn.line.width = _emu(box.weight)


_SEGMENTS: Final = 24
"""Straight pieces that an arc is drawn of."""

_Lines: TypeAlias = Sequence[Sequence[Text]]
"""What stands in one place: lines, each of texts that follow one another."""


def _together(texts: Sequence[Text]) -> Iterator[_Lines]:
    """The texts in places of their own: what goes on in its line, and lines of one paragraph."""
    lines: list[list[Text]] = []
    for text in texts:
        if lines and _follows(lines[-1][-1], text):
            lines[-1].append(text)
        elif lines and len(lines[-1]) == 1 and _below(lines[-1][0], text):
            lines.append([text])
        else:
            if lines:
                yield lines
            lines = [[text]]
    if lines:
        yield lines


def _follows(before: Text, text: Text) -> bool:
    """Whether a text goes on where another ends."""
    gap = text.left - before.left - before.width
    alike = (text.baseline, text.size, text.anchor) == (before.baseline, before.size, "left")
    return alike and 0 <= gap < 0.5 * text.size * MM_PER_POINT


def _below(above: Text, text: Text) -> bool:
    """Whether a text is the next line of the same paragraph."""
    alike = (text.x, text.size, text.bold, text.colour, text.anchor) == (
        above.x,
        above.size,
        above.bold,
        above.colour,
        "left",
    )
    return alike and abs(text.baseline - above.baseline - line_height(text.size)) < 0.1


def _notes(units: Sequence[Unit]) -> Iterator[str]:
    """What is said on a slide, a line a part."""
    for unit in units:
        if unit.role is Role.ARTEFACT:
            continue
        words = unit.says or " ".join(item.text for item in unit.items if isinstance(item, Text))
        if words:
            yield words


def _written(paragraph: Any, words: str, like: Text) -> None:
    """Words in a paragraph, in the size, weight and colour of a text."""
    run = paragraph.add_run()
    run.text = words
    run.font.name = FACE
    run.font.bold = like.bold
    run.font.color.rgb = _rgb(like.colour)
    _sized(run.font, like.size)


def _sized(font: Any, points: float) -> None:
    from pptx.util import Pt

    font.size = Pt(round(points, 1))


def _rgb(colour: Colour) -> Any:
    from pptx.dml.color import RGBColor

    colour_of: Any = RGBColor  # it has no types
    return colour_of(*(round(255 * part) for part in colour))


def _without_style(squares: Any) -> None:
    """None of the colours that a table of the library's template has."""
    style = squares.tblPr.find(f"{_DRAWING}tableStyleId")
    if style is not None:
        style.text = _NO_STYLE


def _ruled(cell: Any, colour: Colour, weight: float) -> None:
    """Lines on all four sides of a cell: the library has no word for them."""
    from lxml.etree import SubElement  # type: ignore[import-untyped]

    properties = cell.get_or_add_tcPr()
    for at, side in enumerate(("lnL", "lnR", "lnT", "lnB")):
        line = SubElement(properties, _DRAWING + side, {"w": str(round(weight * _EMU))})
        properties.remove(line)
        properties.insert(at, line)  # before the fill, as the standard has it
        fill = SubElement(line, f"{_DRAWING}solidFill")
        SubElement(fill, f"{_DRAWING}srgbClr", {"val": str(_rgb(colour))})
