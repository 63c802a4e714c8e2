"""The marks of a class, read from the CSV file that a spreadsheet saves.

The first row has ``pupil`` and then questions (``starter.a``, ``core.2.a``); each further row
has a pupil's number and what stands on the page: an answer, a tick, a cross or nothing.
With a column ``version`` a plain ``core.a`` is the question of that pupil's version; without
one it is left out where a section has several.
Whatever cannot be read is reported with its row and column, and nothing else is lost.
"""

import codecs
import csv
import io
import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from specs.problems import near_word, quoted
from specs.replies import NUMBER, ORDER, SIGN, Reply, read_answer

PUPIL: Final = "pupil"
VERSION: Final = "version"
LARGEST: Final = 1_000_000
"""The most bytes of a mark sheet: far more than a school year's."""

MOST_PUPILS: Final = 500
MOST_ROWS: Final = 2 * MOST_PUPILS
LONGEST_PUPIL: Final = 40

_TICKS: Final = frozenset({"✓", "✔", "☑", "✅", "√", "y", "yes", "tick", "right", "correct"})
_CROSSES: Final = frozenset({"✗", "✘", "☒", "❌", "×", "x", "n", "no", "cross", "wrong"})
_NOTHING: Final = frozenset({"", "-", "–", "—", ".", "abs", "absent", "n/a"})
_MANY: Final = 8
"""So many answers alike are no chance."""

_VERSION: Final = re.compile(r"[0-9]{1,6}")
_DELIMITERS: Final = ",;\t"
_ANSWERS: Final = {
    NUMBER: "the answer",
    SIGN: "<, >, smaller, larger or equal",
    ORDER: "the numbers in order with spaces between them",
}
"""What a cell may hold, by the kind of its question's answer."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A cell of the mark sheet: an answer with the ways to read it, or a tick or cross."""

    text: str
    replies: tuple[Reply, ...] = ()
    ticked: bool | None = None


@dataclass(frozen=True, slots=True, order=True)
class MarksProblem:
    """Something in a mark sheet that could not be read. ``column`` is "" for a whole row."""

    file: str
    row: int
    column: str
    what: str
    instead: str

    def __str__(self) -> str:
        where = f"row {self.row}, column {self.column}" if self.column else f"row {self.row}"
        return f"{self.file}: {where}: {self.what}; {self.instead}"


class MarksError(Exception):
    """A mark sheet of which nothing can be used, with what is wrong with it."""

    def __init__(self, problems: list[MarksProblem]) -> None:
        self.problems = tuple(sorted(problems))
        super().__init__("\n".join(map(str, self.problems)))


@dataclass(frozen=True, slots=True)
class PupilRow:
    """A pupil's row: entries by the name of their column; empty cells have none."""

    pupil: str
    entries: Mapping[str, Entry]


@dataclass(frozen=True, slots=True)
class Marks:
    """A mark sheet that was read, and what in it could not be."""

    rows: tuple[PupilRow, ...]
    problems: tuple[MarksProblem, ...]


def read_marks(
    data: bytes,
    source: str,
    columns: Collection[str],
    also: Mapping[str, str] | None = None,
    kinds: Mapping[str, str] | None = None,
    versions: Mapping[str, Mapping[int, str]] | None = None,
) -> Marks:
    """The marks in a file's bytes, for questions of those names.

    ``also`` has other names of columns, ``kinds`` says of questions what their answers are,
    where they are no numbers. ``versions`` has for a plain name the question of each version,
    for sheets with a column that says which version a pupil had. ``source`` is the file's
    name, for messages.
    Raises MarksError when no cell can be told to belong to a pupil and a question.
    """
    reading = _Reading(source, columns, also or {}, kinds or {}, versions or {})
    table = list(_rows(data, reading))
    header = reading.header(table)
    rows: dict[str, PupilRow] = {}
    for at, (number, cells) in enumerate(table[1:]):
        if at == MOST_ROWS:
            what = f"there are more than {MOST_ROWS} rows"
            reading.problem(number, "", what, "mark fewer at a time; the rest is left out")
            break
        row = reading.row(number, cells, header)
        if row is None:
            continue
        if row.pupil in rows:
            what = f"pupil {quoted(row.pupil)} has a row already"
            reading.problem(number, "", what, "give each pupil one row; this one is left out")
        elif len(rows) == MOST_PUPILS:
            what = f"there are more than {MOST_PUPILS} pupils"
            reading.problem(number, "", what, "mark fewer at a time; the rest is left out")
            break
        else:
            rows[row.pupil] = row
    reading.doubt(rows.values())
    if not rows:
        if not reading.problems:
            reading.problem(1, "", "no row has a pupil in it", "write a row for each pupil")
        raise MarksError(reading.problems)
    return Marks(tuple(rows.values()), tuple(sorted(reading.problems)))


def read_entry(text: str, kind: str = NUMBER) -> Entry | None:
    """What a cell holds; None when it cannot be read. An empty one has no answer and no tick.

    ``kind`` says what an answer is there.
    """
    plain = text.strip().strip("\ufe0f").strip()
    word = plain.casefold().rstrip("\ufe0f")
    if word in _NOTHING:
        return Entry("")
    if word in _TICKS or word in _CROSSES:
        return Entry(plain, ticked=word in _TICKS)
    replies = read_answer(plain, kind)
    return Entry(plain, replies) if replies else None


_Row = tuple[int, list[str]]


class _Reading:
    """A mark sheet being read: what is known of its columns, and the problems gathered."""

    def __init__(
        self,
        source: str,
        columns: Collection[str],
        also: Mapping[str, str],
        kinds: Mapping[str, str],
        versions: Mapping[str, Mapping[int, str]],
    ) -> None:
        self.source = source
        self.columns = columns
        self.also = also
        self.kinds = kinds
        self.versions = versions
        self.known_versions = frozenset(version for names in versions.values() for version in names)
        self.at_version: int | None = None
        self.problems: list[MarksProblem] = []

    def problem(self, row: int, column: str, what: str, instead: str) -> None:
        self.problems.append(MarksProblem(self.source, row, column, what, instead))

    def fatal(self, row: int, what: str, instead: str) -> MarksError:
        self.problem(row, "", what, instead)
        return MarksError(self.problems)

    def doubt(self, rows: Iterable[PupilRow]) -> None:
        """Note what was read as it stands and was hardly meant so."""
        answers = [entry.text for row in rows for entry in row.entries.values() if entry.replies]
        if len(answers) >= _MANY and set(answers) <= {"0", "1"}:
            self.problem(
                1, "", "each answer is 0 or 1", "where they mean wrong and right, write n and y"
            )

    def header(self, table: list[_Row]) -> list[str | None]:
        """The question of each column; None for the pupil's and for those left out.

        With a column for the version, a plain name where a section has several versions.
        """
        if not table:
            raise self.fatal(1, "the file is empty", f"begin it with {PUPIL},…")
        number, cells = table[0]
        names = [cell.strip().casefold() for cell in cells]
        if PUPIL not in names:
            raise self.fatal(
                number, f"no column is called {quoted(PUPIL)}", "keep the pack's first row"
            )
        header: list[str | None] = []
        versionless = ""
        at_pupil = names.index(PUPIL)
        self.at_version = names.index(VERSION) if VERSION in names else None
        by_version = self.versions if self.at_version is not None else {}
        for at, name in enumerate(names):
            known = name if name in by_version else self.also.get(name, name)
            if at in (at_pupil, self.at_version) or not name:
                header.append(None)
            elif self.at_version is None and name in self.versions:
                versionless = versionless or name
                header.append(None)
            elif known not in self.columns and known not in by_version:
                near = near_word(name, [*by_version, *self.columns])
                instead = f"did you mean {quoted(near)}?" if near else "the column is left out"
                self.problem(number, _shown(name), "no question of the pack has that name", instead)
                header.append(None)
            elif known in header:
                what = "the column stands there twice"
                self.problem(number, known, what, "the second is left out")
                header.append(None)
            else:
                header.append(known)
        if versionless:
            what = f"there are {max(self.known_versions)} versions, and {versionless} is in each"
            self.problem(
                number,
                versionless,
                what,
                f"add a column '{VERSION}'; {versionless} and its like are left out",
            )
        if not any(header):
            raise self.fatal(
                number, "no column is a question of the pack", "keep the pack's first row"
            )
        self.at_pupil, self.width = at_pupil, len(names)
        return header

    def row(self, number: int, cells: list[str], header: list[str | None]) -> PupilRow | None:
        """A pupil's row, as much of it as can be read; None where there is no pupil."""
        if not any(cell.strip() for cell in cells):
            return None
        if len(cells) > self.width and any(cell.strip() for cell in cells[self.width :]):
            what = f"the row has {len(cells)} cells and the first row {self.width}"
            instead = (
                "put answers with a decimal comma in double quotes, or separate cells by "
                "semicolons; the row is left out"
            )
            self.problem(number, "", what, instead)
            return None
        written = cells[self.at_pupil] if self.at_pupil < len(cells) else ""
        pupil = unicodedata.normalize("NFC", written.strip())
        if not pupil or len(pupil) > LONGEST_PUPIL or not pupil.isprintable():
            what = "no pupil is given" if not pupil else f"{quoted(pupil)} cannot name a pupil"
            self.problem(number, PUPIL, what, "write the pupil's number; the row is left out")
            return None
        entries: dict[str, Entry] = {}
        of_version = self._questions_of_version(number, cells, header)
        for heading, cell in zip(header, cells, strict=False):
            name = of_version.get(heading, heading) if heading is not None else None
            if name is None:
                continue
            kind = self.kinds.get(name, NUMBER)
            entry = read_entry(cell, kind)
            if entry is None:
                what = f"{quoted(cell.strip())} is no answer, tick or cross"
                instead = f"write {_ANSWERS[kind]}, y, n or nothing"
                self.problem(number, heading or name, what, instead)
            elif entry.text and name in entries:
                what = f"the pupil has an answer to {name} already"
                self.problem(number, heading or name, what, "keep one; the second is left out")
            elif entry.text:
                entries[name] = entry
        return PupilRow(pupil, MappingProxyType(entries))

    def _questions_of_version(
        self, number: int, cells: list[str], header: list[str | None]
    ) -> dict[str, str | None]:
        """For each plain name the question of a row's version; None where that is not known."""
        if self.at_version is None:
            return {}
        written = cells[self.at_version].strip() if self.at_version < len(cells) else ""
        known = self.known_versions or {1}
        version = int(written) if _VERSION.fullmatch(written) else None
        plain = [name for name in header if name in self.versions]
        filled = any(
            name in self.versions and read_entry(cell) != Entry("")
            for name, cell in zip(header, cells, strict=False)
        )
        if version not in known and (written or filled):
            what = (
                f"{quoted(written)} is no version of the pack" if written else "no version is given"
            )
            among = "1" if len(known) == 1 else f"a number from 1 to {max(known)}"
            left_out = f"; answers in {plain[0]} and its like are left out" if filled else ""
            self.problem(number, VERSION, what, f"write {among}{left_out}")
        return {
            name: self.versions[name].get(version) if version is not None else None
            for name in plain
            if name is not None
        }


def _rows(data: bytes, reading: _Reading) -> Iterator[_Row]:
    """The file's rows that hold anything, with their numbers as a spreadsheet shows them."""
    if len(data) > LARGEST:
        raise reading.fatal(1, "the file is too large to be a mark sheet", "name another file")
    text = _decoded(data)
    if "\0" in text:
        raise reading.fatal(1, "the file is not text", "save the mark sheet as CSV")
    first = text.lstrip("\r\n").split("\n", 1)[0].strip()
    skip = 0
    delimiter = next((c for c in first if c in _DELIMITERS), ",")
    if first.lower().startswith("sep=") and len(first) == 5:
        delimiter, skip = first[4], 1
    if delimiter in '"\r\n' or (not delimiter.isprintable() and delimiter != "\t"):
        delimiter = ","
    try:
        lines = io.StringIO(text, newline="")
        rows = list(csv.reader(lines, delimiter=delimiter, skipinitialspace=True))
        if text.count('"') % 2 or _swallows_rows(rows, skip, delimiter):
            rows = [_taken_alone(line, delimiter) for line in text.splitlines()]
    except csv.Error as error:
        what = f"a row cannot be taken apart ({error})"
        raise reading.fatal(1, what, "save the mark sheet as CSV again") from error
    for number, cells in enumerate(rows[skip:], 1):
        if any(cell.strip() for cell in cells):
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
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def _shown(name: str) -> str:
    shown = quoted(name)
    return shown if ":" in name else shown[1:-1]
