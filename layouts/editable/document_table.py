"""Squares as a table of a word processor: rows of exact height, columns of fixed width.

Written in ECMA-376, Office Open XML; each function gives the XML of one part.
"""

from collections.abc import Sequence
from html import escape
from itertools import pairwise
from typing import Final

from layouts.editable.cells import Cell, Place, SquaredTable, Stroke, Words
from layouts.editable.document_shapes import Shapes
from layouts.editable.document_styles import (
    BEFORE_POINT,
    DIGIT_BEFORE,
    LINE,
    NAMESPACES,
    POINT,
    SQUARE,
    digits_in,
    half_points,
    rgb,
    twips,
)
from layouts.editable.document_text import BASELINE, exact, run
from layouts.planning.plan import Grid
from layouts.planning.type_scale import LEADING, MM_PER_POINT

_SIDES: Final = ("top", "left", "bottom", "right")
_HAIR: Final = 0.05
"""What makes no difference, in millimetres."""
NO_MARGINS: Final = (
    "<w:tblCellMar>"
    + "".join(f'<w:{side} w:w="0" w:type="dxa"/>' for side in _SIDES)
    + "</w:tblCellMar>"
)


def table(squares: SquaredTable, shapes: Shapes, indent: float = 0.0) -> str:
    """Squares as a table with rows of exact height and columns of fixed width."""
    grid = squares.grid
    lines = [twips(at * grid.square) for at in range(max(grid.columns, grid.rows) + 1)]
    widths = [after - before for before, after in pairwise(lines)]
    plain = [_empty(widths[column]) for column in range(grid.columns)]
    starts = {(words.row, words.column): words for words in squares.words}
    rows = []
    for row in range(grid.rows):
        cells = []
        column = 0
        while column < grid.columns:
            held = _holding(squares.words, row, column)
            if held is not None:
                width = lines[held.column + held.columns] - lines[held.column]
                is_first = (row, column) in starts
                cells.append(_words(held, grid, width, is_first=is_first, ruled=squares.is_ruled))
                column += held.columns
                continue
            cell = squares.cells.get((row, column))
            cells.append(
                _cell(cell, widths[column], squares, (row, column), shapes)
                if cell
                else plain[column]
            )
            column += 1
        height = f'<w:trHeight w:val="{widths[row]}" w:hRule="exact"/>'
        rows.append(f"<w:tr><w:trPr><w:cantSplit/>{height}</w:trPr>{''.join(cells)}</w:tr>")
    columns = "".join(f'<w:gridCol w:w="{width}"/>' for width in widths[: grid.columns])
    ruled = Stroke(grid.weight, grid.colour) if squares.is_ruled else None
    return (
        f'<w:tbl {NAMESPACES}><w:tblPr><w:tblW w:w="{lines[grid.columns]}" w:type="dxa"/>'
        f'<w:tblInd w:w="{twips(indent)}" w:type="dxa"/>{_all_ruled(ruled)}'
        '<w:tblLayout w:type="fixed"/>'
        f"{NO_MARGINS}"
        f'<w:tblDescription w:val="{escape(squares.says)}"/></w:tblPr>'
        f"<w:tblGrid>{columns}</w:tblGrid>{''.join(rows)}</w:tbl>"
    )


def _all_ruled(stroke: Stroke | None) -> str:
    sides = (*_SIDES, "insideH", "insideV")
    return f"<w:tblBorders>{''.join(_border(side, stroke) for side in sides)}</w:tblBorders>"


def _border(side: str, stroke: Stroke | None) -> str:
    if stroke is None:
        return f'<w:{side} w:val="nil"/>'
    eighths = max(2, round(stroke.weight / MM_PER_POINT * 8))
    colour = rgb(stroke.colour)
    return f'<w:{side} w:val="single" w:sz="{eighths}" w:space="0" w:color="{colour}"/>'


def _empty(width: int) -> str:
    return (
        f'<w:tc><w:tcPr><w:tcW w:w="{width}" w:type="dxa"/><w:vAlign w:val="center"/></w:tcPr>'
        f'<w:p><w:pPr><w:pStyle w:val="{SQUARE}"/></w:pPr></w:p></w:tc>'
    )


def _cell(cell: Cell, width: int, squares: SquaredTable, place: Place, shapes: Shapes) -> str:
    grid = squares.grid
    edges = "".join(_border(side, cell.edges[side]) for side in _SIDES if side in cell.edges)
    borders = f"<w:tcBorders>{edges}</w:tcBorders>" if edges else ""
    usual = digits_in(grid.square)
    size = half_points(cell.text.size) / 2 if cell.text else usual
    style, runs = SQUARE, ""
    if cell.text:
        before = DIGIT_BEFORE if cell.point else ""
        runs = run(cell.text, style=before, sized=size != usual)
    if cell.point:
        style = BEFORE_POINT
        alone = "" if cell.text else _at_the_line(grid.square)
        runs += run(cell.point, sized=False)
    else:
        alone = ""
    middle, spacing = '<w:vAlign w:val="center"/>', ""
    if cell.loose:
        # LibreOffice sets what has shapes at the top of its cell, so it is told how far down it is;
        # from there, with that space, shapes are measured.
        row, column = place
        rule = squares.rule_over(row)
        down = max(0.0, (grid.square - rule - LINE * size * MM_PER_POINT) / 2)
        middle, spacing = "", f'<w:spacing w:before="{twips(down)}"/>'
        corner = grid.x + column * grid.square, grid.y + row * grid.square + rule
        runs = "".join(shapes.drawn(item, corner) for item in cell.loose) + runs
    return (
        f'<w:tc><w:tcPr><w:tcW w:w="{width}" w:type="dxa"/>{borders}{middle}</w:tcPr><w:p><w:pPr>'
        f'<w:pStyle w:val="{style}"/>{spacing}{alone}</w:pPr>{runs}</w:p></w:tc>'
    )


def _at_the_line(square: float) -> str:
    """The indent of a point that has no digit before it."""
    em = digits_in(square) * MM_PER_POINT
    left = twips(square - POINT / 2 * em)
    return f'<w:ind w:left="{left}" w:right="{-twips(POINT * em)}"/>'


def _holding(all_words: Sequence[Words], row: int, column: int) -> Words | None:
    return next((words for words in all_words if words.holds((row, column))), None)


def _words(words: Words, grid: Grid, width: int, *, is_first: bool, ruled: bool) -> str:
    """Squares put together, with their words; a row below their first has a part of them."""
    sides = []
    if not words.first:
        sides.append(_border("left", None))
    if not words.last:
        sides.append(_border("right", None))
    borders = f"<w:tcBorders>{''.join(sides)}</w:tcBorders>" if sides and ruled else ""
    span = f'<w:gridSpan w:val="{words.columns}"/>' if words.columns > 1 else ""
    merged = ""
    if words.rows > 1:
        merged = '<w:vMerge w:val="restart"/>' if is_first else "<w:vMerge/>"
    inner = f'<w:p><w:pPr><w:pStyle w:val="{SQUARE}"/></w:pPr></w:p>'
    if is_first and words.lines:
        inner = _lines_of_words(words, grid)
    return (
        f'<w:tc><w:tcPr><w:tcW w:w="{width}" w:type="dxa"/>{span}{merged}{borders}'
        f"</w:tcPr>{inner}</w:tc>"
    )


def _lines_of_words(words: Words, grid: Grid) -> str:
    lines = words.lines
    first = lines[0]
    em = first.size * MM_PER_POINT
    pitch = lines[1].baseline - first.baseline if len(lines) > 1 else LEADING * em
    top = grid.y + words.row * grid.square
    before = first.baseline - BASELINE * pitch - top
    raised = half_points(-before / MM_PER_POINT) if before < -_HAIR else 0
    if first.anchor == "centre":
        place = '<w:jc w:val="center"/>'
    else:
        indent = first.left - grid.x - words.column * grid.square
        place = f'<w:ind w:left="{twips(indent)}"/><w:jc w:val="left"/>'
    written = "<w:r><w:br/></w:r>".join(run(line, raised=raised) for line in lines)
    return (
        f'<w:p><w:pPr><w:pStyle w:val="{SQUARE}"/>{exact(max(0.0, before), pitch)}{place}</w:pPr>'
        f"{written}</w:p>"
    )
