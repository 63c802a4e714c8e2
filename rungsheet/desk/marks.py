"""Marks read: what a pack's filled-in mark sheet says of each pupil and of the class."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from generator.packs.record import PackRecord, read_record
from generator.results.class_results import ClassResults, class_results
from generator.results.mark_sheet import MarkColumn, given_to_all, mark_columns, read_sheet
from rungsheet.desk.packs import File, as_json
from rungsheet.desk.problems import Problem, Refused, of_a_cell, refusing
from specs.marks import LARGEST as LARGEST_SHEET
from specs.marks import Entry, Marks

__all__ = [
    "LARGEST_RECORD",
    "LARGEST_SHEET",
    "MarkColumn",
    "Marked",
    "PackRecord",
    "Typed",
    "UnreadCell",
    "columns",
    "mark",
    "read_pack",
    "typed",
]

LARGEST_RECORD: Final = 256 * 1024 * 1024
"""Bytes of pack.json: more than the most versions make."""

TOO_LARGE: Final = ("it is far larger than any pack's record", "name the folder of a pack")


@dataclass(frozen=True, slots=True)
class UnreadCell:
    """What is wrong with a cell of a mark sheet, and what to write instead.

    Rows count from 1, the heading; ``column`` is "" for a whole row.
    """

    row: int
    column: str
    what: str
    instead: str


@dataclass(frozen=True, slots=True)
class Typed:
    """A mark sheet as it was written: each pupil's cells by the names of their columns.

    A tick is ``y`` and a cross ``n``; what could not be read stands as it is.
    """

    rows: tuple[tuple[str, dict[str, str]], ...]
    unread: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Marked:
    """What a mark sheet says, and what in it could not be read or is to be doubted."""

    title: str
    results: ClassResults
    unread: tuple[Problem, ...]
    cells: "tuple[UnreadCell, ...]" = ()

    @property
    def not_printed(self) -> tuple[Problem, ...]:
        """Pupils' names that ``marks.pdf`` cannot show whole."""
        from layouts.marks.marks_pages import names_with_gaps

        return tuple(
            Problem("marks.pdf", None, what, "a number instead of a name always prints")
            for what in names_with_gaps(self.results)
        )

    def files(self) -> tuple[File, ...]:
        """``marks.pdf`` for the teacher, and ``marks.json``, which lists it, for programs."""
        from layouts.files.documents import render_marks

        unread = [str(problem) for problem in self.unread]
        with refusing(""):
            drawn = File("marks.pdf", "marks", render_marks(self.title, self.results, unread))
        plain = {**self.results.plain, "unread": unread, "files": [drawn.listed]}
        return drawn, File("marks.json", "record", as_json(plain))


def read_pack(data: bytes, name: str) -> PackRecord:
    """The pack of a ``pack.json``; ``name`` is the file's, for messages.

    Every question's answer is worked out again and must be the one that stands there.
    """
    if len(data) > LARGEST_RECORD:
        raise Refused(Problem(name, None, *TOO_LARGE))
    try:
        plain = json.loads(data)
    except (ValueError, RecursionError):
        raise Refused(Problem(name, None, "it is not JSON", "build the pack again")) from None
    with refusing(name):
        return read_record(plain)


def columns(pack: PackRecord) -> tuple[MarkColumn, ...]:
    """The columns of a pack's mark sheet, one a question that pupils answer."""
    return mark_columns(pack.sections)


def to_all(of: Sequence[MarkColumn]) -> frozenset[str]:
    """The sheets, as ``column.sheet`` has them, that every pupil was given."""
    return given_to_all(of)


def heading(column: MarkColumn) -> str:
    """What the section of a column is called: ``Starter``, ``Practice 2``."""
    from layouts.planning.wording import place_heading

    return place_heading(column.section.place, several=len(column.section.items) > 1)


def mark(pack: PackRecord, sheet: str | bytes, name: str) -> Marked:
    """What a mark sheet, the bytes of a CSV file, says; ``name`` is the file's, for messages.

    Refused where no cell can be told to belong to a pupil and a question.
    """
    marks = _read(pack, sheet, name)
    results = class_results(columns(pack), marks)
    unread = [of_a_cell(problem) for problem in marks.problems]
    if results.doubt:
        unread.append(Problem(name, None, results.doubt))
    cells = [UnreadCell(one.row, one.column, one.what, one.instead) for one in marks.problems]
    return Marked(pack.title, results, tuple(unread), tuple(cells))


def typed(pack: PackRecord, sheet: str | bytes, name: str) -> Typed:
    """What stands in a mark sheet, to be typed further; ``name`` is the file's, for messages."""
    marks = _read(pack, sheet, name)
    rows = [
        (row.pupil, {**{at: _text(entry) for at, entry in row.entries.items()}, **row.unread})
        for row in marks.rows
    ]
    return Typed(tuple(rows), tuple(map(of_a_cell, marks.problems)))


def _text(entry: Entry) -> str:
    if entry.ticked is None:
        return entry.text
    return "y" if entry.ticked else "n"


def _read(pack: PackRecord, sheet: str | bytes, name: str) -> Marks:
    data = sheet.encode("utf-8", "surrogatepass") if isinstance(sheet, str) else sheet
    with refusing(name):
        return read_sheet(pack, data, name)
