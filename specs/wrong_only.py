"""The marks of a class as a list of wrong answers: a row each, and all else is right.

The first row has ``pupil``, ``question`` and ``written``. A row ``7,core.c,4.1`` says that pupil 7
wrote 4.1 for core.c; with nothing written that it was wrong; with a dash that it was left out. A
row with a pupil alone, or with ``1 to 28``, says who was there, ``7,absent`` who was not. Where
there are several sheets, ``7,core`` or ``7,core.2`` says which a pupil had; a wrong answer does so
as well.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from specs.csv_rows import Row, table_of
from specs.mark_cells import CROSSES, NOTHING, Entry, doubts, read_entry, why_unread
from specs.marks import (
    ABSENT,
    LARGEST,
    LONGEST_PUPIL,
    MOST_PUPILS,
    PUPIL,
    Marks,
    MarksError,
    MarksProblem,
    PupilRow,
    heads_pupils,
    is_no_pupil,
    of_another_pack,
    pupil_key,
)
from specs.numerals import Convention, shown_by
from specs.problems import near_word, quoted
from specs.replies import Asked

QUESTION: Final = "question"
WRITTEN: Final = "written"
MOST_ROWS: Final = 40_000
"""Wrong answers of the largest class to all questions of a long lesson."""

_HEAD: Final = 65_536
"""So many bytes of a file hold the heading of such a list."""

_SEVERAL: Final = re.compile(r"([0-9]{1,4}) ?to ?([0-9]{1,4})", re.IGNORECASE)
_RIGHT: Final = Entry("y", ticked=True)


@dataclass(frozen=True, slots=True)
class Sheets:
    """What pupils may have been given.

    ``parts`` has the questions of each sheet, by its name (``starter``, ``core``, ``core.2``), and
    ``given_to_all`` the names of those that every pupil had.
    """

    parts: Mapping[str, tuple[str, ...]]
    given_to_all: frozenset[str]

    def of(self, question: str) -> str:
        """The sheet that a question is on."""
        return question.rpartition(".")[0]


@dataclass(slots=True)
class _Pupil:
    """What is listed of a pupil: the sheets, the wrong answers, and whether to be marked."""

    name: str
    row: int
    parts: set[str] = field(default_factory=set)
    wrong: list[tuple[int, str, str]] = field(default_factory=list)
    absent: bool = False


def is_wrong_only(data: bytes) -> bool:
    """Whether a file's bytes are such a list, by its heading."""
    rows = table_of(data[:_HEAD]).rows
    names = {cell.strip().casefold() for cell in rows[0][1]} if rows else set()
    return {QUESTION, WRITTEN} <= names and any(map(heads_pupils, rows[0][1]))


def read_wrong_only(
    data: bytes, source: str, columns: Mapping[str, Asked], sheets: Sheets, code: str = ""
) -> Marks:
    """The marks that a list of wrong answers makes; for its arguments see ``read_marks``.

    Raises MarksError when no pupil can be told, or the list is another pack's.
    """
    return _Listing(source, columns, sheets, code).read(data)


class _Listing:
    """A list being read: its pupils and the problems gathered."""

    def __init__(
        self, source: str, columns: Mapping[str, Asked], sheets: Sheets, code: str
    ) -> None:
        self.source = source
        self.columns = columns
        self.sheets = sheets
        self.code = code
        self.problems: list[MarksProblem] = []
        self.pupils: dict[str, _Pupil] = {}

    def problem(self, row: int, column: str, what: str, instead: str) -> None:
        self.problems.append(MarksProblem(self.source, row, column, what, instead))

    def read(self, data: bytes) -> Marks:
        if len(data) > LARGEST:
            self.problem(1, "", "the file is too large to be a mark sheet", "name another file")
            raise MarksError(self.problems)
        found = table_of(data)
        if found.wrong is not None:
            self.problem(1, "", *found.wrong)
            raise MarksError(self.problems)
        (number, heads), *body = found.rows
        at_pupil = next(at for at, cell in enumerate(heads) if heads_pupils(cell))
        other = of_another_pack(heads[at_pupil], self.code)
        if other is not None:
            self.problem(number, "", *other)
            raise MarksError(self.problems)
        names = [head.strip().casefold() for head in heads]
        places = at_pupil, names.index(QUESTION), names.index(WRITTEN)
        for row, cells in body[:MOST_ROWS]:
            name, asked, written = (cells[at].strip() if at < len(cells) else "" for at in places)
            if any(cell.strip() for cell in cells[len(heads) :]):
                what = f"the row has {len(cells)} cells and the first row {len(heads)}"
                instead = "put answers with a decimal comma in double quotes"
                self.problem(row, "", what, f"{instead}; the answer is counted as wrong")
                written = ""
            self._row(row, name, asked, written)
        if len(body) > MOST_ROWS:
            what = f"there are more than {MOST_ROWS} rows"
            self.problem(body[MOST_ROWS][0], "", what, "the rest is left out")
        convention = self._convention(body, places[2])
        rows = [self._marked(pupil, convention) for pupil in self.pupils.values()]
        if not rows:
            self.problem(1, "", "no row has a pupil in it", "write a row for each pupil")
            raise MarksError(self.problems)
        return Marks(tuple(rows), tuple(sorted(self.problems)))

    def _convention(self, body: Iterable[Row], at: int) -> Convention | None:
        return shown_by(cells[at][:60] for _, cells in body if at < len(cells))

    def _row(self, row: int, name: str, question: str, written: str) -> None:
        several = _SEVERAL.fullmatch(name)
        if several is not None and int(several[1]) <= int(several[2]) and not written:
            numbers = range(int(several[1]), int(several[2]) + 1)
            for one in numbers[: MOST_PUPILS + 1]:
                self._row(row, str(one), question, "")
            return
        if is_no_pupil(name):
            self.problem(row, PUPIL, f"{quoted(name)} is no pupil", "the row is left out")
            return
        if not name or len(name) > LONGEST_PUPIL or not name.isprintable():
            what = f"{quoted(name)} cannot name a pupil" if name else "no pupil is given"
            self.problem(row, PUPIL, what, "write the pupil's number; the row is left out")
            return
        key = pupil_key(name)
        if key not in self.pupils and len(self.pupils) == MOST_PUPILS:
            what = f"there are more than {MOST_PUPILS} pupils"
            self.problem(row, "", what, "mark fewer at a time; the row is left out")
            return
        pupil = self.pupils.setdefault(key, _Pupil(name, row))
        asked = question.casefold()
        if ABSENT & {asked, written.casefold()}:
            pupil.absent = True
        elif asked in self.sheets.parts:
            pupil.parts.add(asked)
        elif asked:
            pupil.wrong.append((row, asked, written))
        elif written:
            what = f"no question is given for {quoted(written)}"
            self.problem(row, QUESTION, what, "write its name, such as starter.a")

    def _marked(self, pupil: _Pupil, convention: Convention | None) -> PupilRow:
        if pupil.absent:
            if pupil.wrong:
                what = f"pupil {quoted(pupil.name)} is absent, and has wrong answers"
                self.problem(pupil.row, "", what, "the answers are left out")
            return PupilRow(pupil.name, MappingProxyType({}), absent=True)
        listed = {}
        for row, asked, written in pupil.wrong:
            question = self._question(row, asked, pupil)
            if question in listed:
                what = f"the pupil has an answer to {question} already"
                self.problem(row, QUESTION, what, "keep one; the second is left out")
            elif question is not None:
                listed[question] = row, written
        given = self.sheets.given_to_all | pupil.parts | set(map(self.sheets.of, listed))
        if given == self.sheets.given_to_all != self.sheets.parts.keys():
            others = sorted(self.sheets.parts.keys() - given)
            what = f"it is not said which further sheet pupil {quoted(pupil.name)} had"
            self.problem(pupil.row, QUESTION, what, f"write its name in a row, such as {others[0]}")
        entries = {name: _RIGHT for part in sorted(given) for name in self.sheets.parts[part]}
        for question, (row, written) in listed.items():
            entry = self._entry(row, question, written, convention)
            if entry is None:
                del entries[question]
            else:
                entries[question] = entry
        return PupilRow(pupil.name, MappingProxyType(entries))

    def _question(self, row: int, asked: str, pupil: _Pupil) -> str | None:
        """The question of a name; a plain ``core.a`` is of the version that the pupil had."""
        if asked in self.columns:
            return asked
        section, _, label = asked.rpartition(".")
        had = {*pupil.parts, *(self.sheets.of(name) for _, name, _ in pupil.wrong)}
        found = [
            name
            for part in sorted(had & self.sheets.parts.keys())
            if part.rpartition(".")[0] == section and (name := f"{part}.{label}") in self.columns
        ]
        if len(found) == 1:
            return found[0]
        first = f"{section}.1.{label}"
        if first in self.columns:
            what = f"it is not said which version of {section} the pupil had"
            self.problem(row, QUESTION, what, f"write {first} or its like; the row is left out")
            return None
        near = near_word(asked, self.columns)
        instead = f"did you mean {quoted(near)}?" if near else "the row is left out"
        self.problem(row, QUESTION, f"no question of the pack is called {quoted(asked)}", instead)
        return None

    def _entry(
        self, row: int, question: str, written: str, convention: Convention | None
    ) -> Entry | None:
        """What is listed as a wrong answer; None where the pupil left the question out."""
        cross = Entry(written or "n", ticked=False)
        if not written or written.casefold() in CROSSES:
            return cross
        if written.casefold() in NOTHING:
            return None
        asked = self.columns[question]
        entry = read_entry(written, asked, convention)
        if entry is None:
            what, instead = why_unread(written, asked)
            self.problem(row, WRITTEN, what, f"{instead}; it is counted as wrong")
            return cross
        if entry.ticked or asked.right_in(entry.replies):
            what = f"{quoted(written)} is right for {question}"
            self.problem(row, WRITTEN, what, "it is counted as right; see whether it is meant so")
        elif (doubted := doubts(entry, asked)) is not None:
            self.problem(row, WRITTEN, *doubted)
        return entry
