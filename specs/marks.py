"""The marks of a class, read from the CSV file that a spreadsheet saves.

The first row has ``pupil`` and then questions (``starter.a``, ``core.2.a``); each further row
has a pupil's number and what stands on the page: an answer, a tick, a cross or nothing.
With a column ``version`` a plain ``core.a`` is the question of that pupil's version; without
one it is left out where a section has several. ``pupil (K7HM-D4-T)`` says of which pack the
sheet is, and is compared with the pack's code. ``absent`` in any cell of a row without answers
says that the pupil was not there.
Whatever cannot be read, or only in doubt, is reported with its row and column, and nothing
else is lost.
"""

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from specs.csv_rows import Row, table_of
from specs.languages.saying import Saying, say
from specs.mark_cells import ABSENT, Entry, doubts, read_entry, why_unread
from specs.numerals import Convention, shown_by
from specs.problems import did_you_mean, near_word, quoted, write
from specs.replies import A_NUMBER, NUMBER, Asked

__all__ = ["Entry", "Marks", "MarksError", "MarksProblem", "PupilRow", "read_entry", "read_marks"]

PUPIL: Final = "pupil"
VERSION: Final = "version"
LARGEST: Final = 12_000_000
"""The most bytes of a mark sheet: a filled one of as many columns as a spreadsheet has."""

MOST_PUPILS: Final = 500
MOST_ROWS: Final = 2 * MOST_PUPILS
LONGEST_PUPIL: Final = 40
_HEADING_WITHIN: Final = 10
"""Rows among which the heading is looked for: a title may stand above it."""

_MANY: Final = 8
"""So many answers alike are no chance."""

_NO_PUPILS: Final = frozenset(
    {
        *("total", "totals", "sum", "average", "averages", "mean", "median", "mode", "max", "min"),
        *("maximum", "minimum", "range", "count", "out of", "class", "class total", "%"),
        *("class average", "percent", "percentage", "marks", "mark", "score", "right", "correct"),
        *("wrong", "answer", "answers", "key", "grand total", "std dev", "available", "possible"),
    }
)
"""What a spreadsheet's further rows are called."""

_HEAD: Final = re.compile(r"pupils?(?: (?:no\.?|number))?(?: ?\((?P<code>[^)]*)\)?)?")
_VERSION: Final = re.compile(r"[0-9]{1,6}")
_DIGITS: Final = re.compile(r"[0-9]+")


@dataclass(frozen=True, slots=True, order=True)
class MarksProblem:
    """Something in a mark sheet that could not be read, or only in doubt.

    ``column`` is "" for a whole row.
    """

    file: str
    row: int
    column: str
    what: Saying
    instead: Saying

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
    """A pupil's row: entries by the name of their column; empty cells have none.

    ``unread`` has what stands in the cells that could not be read. ``absent`` is said of a pupil
    whose row says so and has no answer.
    """

    pupil: str
    entries: Mapping[str, Entry]
    unread: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    absent: bool = False


@dataclass(frozen=True, slots=True)
class Marks:
    """A mark sheet that was read, and what in it could not be."""

    rows: tuple[PupilRow, ...]
    problems: tuple[MarksProblem, ...]


def read_marks(
    data: bytes,
    source: str,
    columns: Mapping[str, Asked],
    also: Mapping[str, str] | None = None,
    versions: Mapping[str, Mapping[int, str]] | None = None,
    code: str = "",
) -> Marks:
    """The marks in a file's bytes, for questions of those names and what is asked in each.

    ``also`` has other names of columns. ``versions`` has for a plain name the question of each
    version, for sheets with a column that says which version a pupil had. ``code`` is the pack's;
    a sheet that bears another is refused. ``source`` is the file's name, for messages.
    Raises MarksError when no cell can be told to belong to a pupil and a question.
    """
    reading = _Reading(source, columns, also or {}, versions or {}, code)
    table = reading.table(data)
    header = reading.header(table)
    rows: dict[str, PupilRow] = {}
    for at, (number, cells) in enumerate(reading.body):
        if at == MOST_ROWS:
            what = say("there are more than {most} rows", most=MOST_ROWS)
            reading.problem(number, "", what, _FEWER)
            break
        row = reading.row(number, cells, header)
        if row is None:
            continue
        known = pupil_key(row.pupil)
        if known in rows:
            what = say("pupil {pupil} has a row already", pupil=quoted(row.pupil))
            instead = say("give each pupil one row; this one is left out")
            reading.problem(number, "", what, instead)
        elif len(rows) == MOST_PUPILS:
            what = say("there are more than {most} pupils", most=MOST_PUPILS)
            reading.problem(number, "", what, _FEWER)
            break
        else:
            rows[known] = row
    reading.doubt_noughts_and_ones(rows.values())
    if not rows:
        if not reading.problems:
            reading.problem(1, "", *NO_PUPIL)
        raise MarksError(reading.problems)
    return Marks(tuple(rows.values()), tuple(sorted(reading.problems)))


def pupil_key(pupil: str) -> str:
    """What makes two cells one pupil: 7, 07 and 7.0 are, and a word in large or small letters."""
    plain = pupil.casefold().removesuffix(".0")
    return plain.lstrip("0") or "0" if _DIGITS.fullmatch(plain) else plain


class _Reading:
    """A mark sheet being read: what is known of its columns, and the problems gathered."""

    def __init__(
        self,
        source: str,
        columns: Mapping[str, Asked],
        also: Mapping[str, str],
        versions: Mapping[str, Mapping[int, str]],
        code: str,
    ) -> None:
        self.source = source
        self.columns = columns
        self.also = also
        self.versions = versions
        self.code = code
        self.known_versions = frozenset(version for names in versions.values() for version in names)
        self.at_version: int | None = None
        self.problems: list[MarksProblem] = []
        self.body: tuple[Row, ...] = ()
        self.delimiter = ","

    def problem(self, row: int, column: str, what: Saying, instead: Saying) -> None:
        self.problems.append(MarksProblem(self.source, row, column, what, instead))

    def fatal(self, row: int, what: Saying, instead: Saying) -> MarksError:
        self.problem(row, "", what, instead)
        return MarksError(self.problems)

    def table(self, data: bytes) -> tuple[Row, ...]:
        """The rows that hold anything, from the heading on."""
        if len(data) > LARGEST:
            raise self.fatal(1, *TOO_LARGE)
        found = table_of(data)
        if found.wrong is not None:
            raise self.fatal(1, *found.wrong)
        self.delimiter, rows = found.delimiter, found.rows
        for at, (_, cells) in enumerate(rows[:_HEADING_WITHIN]):
            if any(map(heads_pupils, cells)):
                return rows[at:]
        return rows

    def doubt_noughts_and_ones(self, rows: Iterable[PupilRow]) -> None:
        """Note noughts and ones, which were read as answers and hardly meant so."""
        answers = [entry.text for row in rows for entry in row.entries.values() if entry.replies]
        if len(answers) >= _MANY and set(answers) <= {"0", "1"}:
            instead = say("where they mean wrong and right, write n and y")
            self.problem(1, "", say("each answer is 0 or 1"), instead)

    def header(self, table: Sequence[Row]) -> list[str | None]:
        """The question of each column; None for the pupil's and for those left out.

        With a column for the version, a plain name where a section has several versions.
        """
        if not table:
            raise self.fatal(1, say("the file is empty"), say("begin it with {word},…", word=PUPIL))
        number, cells = table[0]
        names = [cell.strip().casefold() for cell in cells]
        at_pupil = next((at for at, cell in enumerate(cells) if heads_pupils(cell)), None)
        if at_pupil is None:
            what = say("no column is called {name}", name=quoted(PUPIL))
            raise self.fatal(number, what, _FIRST_ROW)
        self._compare_code(number, cells[at_pupil])
        header: list[str | None] = []
        versionless = ""
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
                instead = did_you_mean(near) if near else say("the column is left out")
                what = say("no question of the pack has that name")
                self.problem(number, _shown(name), what, instead)
                header.append(None)
            elif known in header:
                what = say("the column stands there twice")
                self.problem(number, known, what, say("the second is left out"))
                header.append(None)
            else:
                header.append(known)
        if versionless:
            what = say(
                "there are {count} versions, and {column} is in each",
                count=max(self.known_versions),
                column=versionless,
            )
            instead = say(
                "add a column {word}; {column} and its like are left out",
                word=quoted(VERSION),
                column=versionless,
            )
            self.problem(number, versionless, what, instead)
        if not any(header):
            raise self.fatal(number, say("no column is a question of the pack"), _FIRST_ROW)
        self.at_pupil, self.width = at_pupil, len(names)
        self.body = tuple(table[1:])
        self.all_rows_longer = all(len(cells) > self.width for _, cells in self.body)
        self._look_for_conventions(header)
        return header

    def _compare_code(self, number: int, cell: str) -> None:
        """Refuse a sheet that bears another pack's code; one without any may be this pack's."""
        other = of_another_pack(cell, self.code)
        if other is not None:
            raise self.fatal(number, *other)

    def _look_for_conventions(self, header: list[str | None]) -> None:
        """Find out by the answers whether decimals have points or commas, by column and in all."""
        texts: dict[str, list[str]] = {}
        for _, cells in self.body[:MOST_ROWS]:
            for heading, cell in zip(header, cells, strict=False):
                if cell and heading is not None and ("." in cell or "," in cell):
                    names = self.versions.get(heading, {0: heading}).values()
                    if all(self._asked(name).kind == NUMBER for name in names):
                        texts.setdefault(heading, []).append(cell[:60])
        self.convention = shown_by(cell for of_column in texts.values() for cell in of_column)
        self.conventions = {heading: shown_by(cells) for heading, cells in texts.items()}

    def _convention(self, heading: str) -> Convention | None:
        return self.conventions.get(heading) or self.convention

    def _asked(self, name: str) -> Asked:
        return self.columns.get(name, A_NUMBER)

    def row(self, number: int, cells: list[str], header: list[str | None]) -> PupilRow | None:
        """A pupil's row, as much of it as can be read; None where there is no pupil."""
        written = cells[self.at_pupil] if self.at_pupil < len(cells) else ""
        pupil = unicodedata.normalize("NFC", written.strip())
        if is_no_pupil(pupil):
            self.problem(number, PUPIL, *further_row(pupil))
            return None
        if self._too_long(cells):
            self.problem(number, "", row_too_long(len(cells), self.width), _QUOTE_COMMAS)
            return None
        if not pupil or len(pupil) > LONGEST_PUPIL or not pupil.isprintable():
            self.problem(number, PUPIL, *unnamed(pupil))
            return None
        of_version = self._questions_of_version(number, cells, header)
        names = [of_version.get(name, name) if name is not None else None for name in header]
        split = self._split_at_a_comma(cells, names)
        if split:
            what = say("{number} stands in two cells, as if its comma parted them", number=split)
            self.problem(number, "", what, _QUOTE_COMMAS)
            return None
        entries: dict[str, Entry] = {}
        unread: dict[str, str] = {}
        for heading, name, cell in zip(header, names, cells, strict=False):
            if name is None or heading is None or not cell:
                continue
            asked = self._asked(name)
            entry = read_entry(cell, asked, self._convention(heading))
            if entry is None:
                unread[name] = cell
                self.problem(number, heading, *why_unread(cell, asked))
            elif entry.text and name in entries:
                self.problem(number, heading, *answered_twice(name))
            elif entry.text:
                entries[name] = entry
                doubted = doubts(entry, asked)
                if doubted is not None:
                    self.problem(number, heading, *doubted)
        absent = not entries and any(cell.strip().casefold() in ABSENT for cell in cells)
        return PupilRow(pupil, MappingProxyType(entries), MappingProxyType(unread), absent)

    def _too_long(self, cells: list[str]) -> bool:
        """Whether a row has more cells than the heading, or may have by a decimal comma.

        Empty cells at the end are only cells at the end where each row has them, or where no
        two cells side by side could be one number.
        """
        if len(cells) <= self.width:
            return False
        if any(cell.strip() for cell in cells[self.width :]):
            return True
        if self.delimiter != "," or self.all_rows_longer:
            return False
        answers = [cell.strip() for at, cell in enumerate(cells) if at != self.at_pupil]
        return any(map(_may_be_one, answers, answers[1:]))

    def _split_at_a_comma(self, cells: list[str], names: list[str | None]) -> str:
        """A right answer with a decimal comma that fills two cells, each wrong alone; or ""."""
        if self.delimiter != ",":
            return ""
        moved = 0
        for at in range(len(cells) - 1):
            first, second = cells[at].strip(), cells[at + 1].strip()
            if at == self.at_pupil or not _may_be_one(first, second):
                continue
            for back in range(moved + 1):
                name = names[at - back] if at - back < len(names) else None
                asked = self._asked(name) if name else A_NUMBER
                whole = read_entry(f"{first},{second}", asked)
                alone = read_entry(first, asked)
                if (
                    whole is not None
                    and alone is not None
                    and asked.right_in(whole.replies[:1])
                    and not asked.right_in(alone.replies)
                ):
                    return f"{first},{second}"
            moved += 1
        return ""

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
            cell and name in self.versions and read_entry(cell) != Entry("")
            for name, cell in zip(header, cells, strict=False)
        )
        if version not in known and (written or filled):
            what = say("no version is given")
            if written:
                what = say("{words} is no version of the pack", words=quoted(written))
            among = "1" if len(known) == 1 else say("a number from 1 to {most}", most=max(known))
            instead = write(among)
            if filled:
                instead = say(
                    "{this}; answers in {column} and its like are left out",
                    this=instead,
                    column=plain[0],
                )
            self.problem(number, VERSION, what, instead)
        return {
            name: self.versions[name].get(version) if version is not None else None
            for name in plain
            if name is not None
        }


_FEWER: Final = say("mark fewer at a time; the rest is left out")
_FIRST_ROW: Final = say("keep the pack's first row")
_QUOTE_COMMAS: Final = say(
    "put answers with a decimal comma in double quotes, or separate cells by semicolons; the row "
    "is left out"
)


# What is said of a mark sheet and of a list of wrong answers alike: what is wrong, what instead

TOO_LARGE: Final = say("the file is too large to be a mark sheet"), say("name another file")
NO_PUPIL: Final = say("no row has a pupil in it"), say("write a row for each pupil")


def further_row(name: str) -> tuple[Saying, Saying]:
    """Of a row of which ``is_no_pupil`` is true."""
    return say("{name} is no pupil", name=quoted(name)), say("the row is left out")


def row_too_long(cells: int, wide: int) -> Saying:
    """Of a row with more cells than the heading has."""
    return say("the row has {cells} cells and the first row {wide}", cells=cells, wide=wide)


def unnamed(name: str) -> tuple[Saying, Saying]:
    """Of a row whose pupil has no name, or one that cannot be."""
    what = say("no pupil is given")
    if name:
        what = say("{name} cannot name a pupil", name=quoted(name))
    return what, say("write the pupil's number; the row is left out")


def answered_twice(question: str) -> tuple[Saying, Saying]:
    """Of a second answer of a pupil to a question."""
    what = say("the pupil has an answer to {question} already", question=question)
    return what, say("keep one; the second is left out")


def of_another_pack(cell: str, code: str) -> tuple[Saying, Saying] | None:
    """What to say of the pupils' head when it bears another code than the pack's; else None."""
    head = _HEAD.fullmatch(_plain_head(cell))
    written = (head["code"] or "").strip().upper() if head else ""
    if not written or not code or written == code.upper():
        return None
    return (
        say(
            "the sheet is of the pack {other}, and this pack is {code}",
            other=quoted(written),
            code=code,
        ),
        say(
            "name the folder of the sheet's own pack, or, where pupils had this pack's questions "
            "all the same, write {word} alone in that cell",
            word=PUPIL,
        ),
    )


def is_no_pupil(name: str) -> bool:
    """Whether a name is that of a spreadsheet's further row, or the heading again."""
    return name.casefold().rstrip(":") in _NO_PUPILS or heads_pupils(name)


def heads_pupils(cell: str) -> bool:
    """Whether a cell is the head of the pupils' column."""
    return _HEAD.fullmatch(_plain_head(cell)) is not None


def _plain_head(cell: str) -> str:
    return re.sub("[‐-―−]", "-", " ".join(cell.split())).casefold()


def _may_be_one(first: str, second: str) -> bool:
    """Whether two cells side by side could be one number with a decimal comma between them."""
    return _DIGITS.fullmatch(first) is not None and _DIGITS.fullmatch(second) is not None


def _shown(name: str) -> str:
    shown = quoted(name)
    return shown if ":" in name else shown[1:-1]
