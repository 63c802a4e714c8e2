"""The rows of a table that a spreadsheet saved as text: commas, semicolons or tabs, UTF-8 or 16."""

import codecs
import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Final

from specs.languages.saying import Saying, grouped, say

MOST_ROWS: Final = 45_000
"""More rows than any mark sheet has are not read."""

MOST_CELLS: Final = 20_000
"""More cells than a spreadsheet has columns, in one row, are no mark sheet's."""

_DELIMITERS: Final = ",;\t"

Row = tuple[int, list[str]]
"""A row's number, as a spreadsheet shows it, and its cells."""


@dataclass(frozen=True, slots=True)
class Table:
    """A file's rows that hold anything, and the sign between its cells.

    ``wrong`` says, of bytes that are no table, what is wrong and what to do.
    """

    rows: tuple[Row, ...] = ()
    delimiter: str = ","
    wrong: tuple[Saying, Saying] | None = None


def table_of(data: bytes) -> Table:
    """The table in a file's bytes, as far as its first ``MOST_ROWS`` rows."""
    text = _decoded(data)
    if "\0" in text:
        return Table(wrong=(say("the file is not text"), say("save the mark sheet as CSV")))
    first = text.lstrip("\r\n").split("\n", 1)[0].strip()
    skip = 0
    delimiter = next((c for c in first if c in _DELIMITERS), ",")
    if first.lower().startswith("sep=") and len(first) == 5:
        delimiter, skip = first[4], 1
    if delimiter in '"\r\n' or (not delimiter.isprintable() and delimiter != "\t"):
        delimiter = ","
    if any(line.count(delimiter) >= MOST_CELLS for line in io.StringIO(text)):
        what = say("a row has more than {cells} cells", cells=grouped(MOST_CELLS))
        return Table(wrong=(what, say("name the mark sheet, saved as CSV")))
    try:
        lines = io.StringIO(text, newline="")
        reader = csv.reader(lines, delimiter=delimiter, skipinitialspace=True)
        rows = list(islice(reader, MOST_ROWS))
        if text.count('"') % 2 or _swallows_rows(rows, skip, delimiter):
            alone = islice(io.StringIO(text, newline=None), MOST_ROWS)
            rows = [_taken_alone(line.rstrip("\n"), delimiter) for line in alone]
    except csv.Error as error:
        what = say("a row cannot be taken apart ({reason})", reason=_reason(error))
        return Table(wrong=(what, say("save the mark sheet as CSV again")))
    return Table(tuple(_filled(rows[skip:])), delimiter)


def _reason(error: csv.Error) -> str:
    """Why Python's reader gave up: a saying where it is a cell that is too long."""
    too_long = say("field larger than field limit ({most})", most=csv.field_size_limit())
    return too_long if str(error) == too_long else str(error)


def _filled(rows: list[list[str]]) -> Iterator[Row]:
    for number, cells in enumerate(rows, 1):
        if any(cell and not cell.isspace() for cell in cells):
            yield number, cells


def _swallows_rows(rows: list[list[str]], first: int, delimiter: str) -> bool:
    """Whether a cell runs on over whole rows, as behind a quotation mark that nothing closes."""
    width = len(rows[first]) if first < len(rows) else 1
    further = (line for cells in rows for cell in cells for line in cell.splitlines()[1:])
    return width > 1 and any(line.count(delimiter) >= width - 1 for line in further)


def _taken_alone(line: str, delimiter: str) -> list[str]:
    """The cells of a line by itself; a quotation mark without its fellow is a sign like others."""
    quotes = None if line.count('"') % 2 else '"'
    cells = csv.reader([line], delimiter=delimiter, skipinitialspace=True, quotechar=quotes)
    return next(cells, [])


def _decoded(data: bytes) -> str:
    """The text of a file in UTF-8 or, with its mark, UTF-16; otherwise as Windows saves it."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return data.decode("utf-16", errors="replace").removeprefix("\ufeff")
    for beginning, encoding in ((b"p\0u\0p\0", "utf-16-le"), (b"\0p\0u\0p", "utf-16-be")):
        if data[:6].lower().startswith(beginning):
            return data.decode(encoding, errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")
