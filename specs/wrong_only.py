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
from specs.languages.saying import Saying, say
from specs.mark_cells import ABSENT, CROSSES, NOTHING, Entry, doubts, read_entry, why_unread
from specs.marks import (
    LARGEST,
    LONGEST_PUPIL,
    MOST_PUPILS,
    NO_PUPIL,
    PUPIL,
    TOO_LARGE,
    Marks,
    MarksError,
    MarksProblem,
    PupilRow,
    answered_twice,
    further_row,
    heads_pupils,
    is_no_pupil,
    of_another_pack,
    pupil_key,
    row_too_long,
    unnamed,
)
from specs.numerals import Convention, shown_by
from specs.problems import did_you_mean, near_word, quoted
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

    def problem(self, row: int, column: str, what: Saying, instead: Saying) -> None:
        self.problems.append(MarksProblem(self.source, row, column, what, instead))

    def read(self, data: bytes) -> Marks:
        if len(data) > LARGEST:
            self.problem(1, "", *TOO_LARGE)
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
                instead = say(
                    "put answers with a decimal comma in double quotes; the answer is counted as "
                    "wrong"
                )
                self.problem(row, "", row_too_long(len(cells), len(heads)), instead)
                written = ""
            self._row(row, name, asked, written)
        if len(body) > MOST_ROWS:
            what = say("there are more than {most} rows", most=MOST_ROWS)
            self.problem(body[MOST_ROWS][0], "", what, say("the rest is left out"))
        convention = self._convention(body, places[2])
        rows = [self._marked(pupil, convention) for pupil in self.pupils.values()]
        if not rows:
            self.problem(1, "", *NO_PUPIL)
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
            self.problem(row, PUPIL, *further_row(name))
            return
        if not name or len(name) > LONGEST_PUPIL or not name.isprintable():
            self.problem(row, PUPIL, *unnamed(name))
            return
        key = pupil_key(name)
        if key not in self.pupils and len(self.pupils) == MOST_PUPILS:
            what = say("there are more than {most} pupils", most=MOST_PUPILS)
            self.problem(row, "", what, say("mark fewer at a time; the row is left out"))
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
            what = say("no question is given for {words}", words=quoted(written))
            instead = say("write its name, such as {name}", name="starter.a")
            self.problem(row, QUESTION, what, instead)

    def _marked(self, pupil: _Pupil, convention: Convention | None) -> PupilRow:
        if pupil.absent:
            if pupil.wrong:
                what = say(
                    "pupil {pupil} is absent, and has wrong answers", pupil=quoted(pupil.name)
                )
                self.problem(pupil.row, "", what, say("the answers are left out"))
            return PupilRow(pupil.name, MappingProxyType({}), absent=True)
        listed = {}
        for row, asked, written in pupil.wrong:
            question = self._question(row, asked, pupil)
            if question is None:
                continue
            if question in listed:
                self.problem(row, QUESTION, *answered_twice(question))
            else:
                listed[question] = row, written
        given = self.sheets.given_to_all | pupil.parts | set(map(self.sheets.of, listed))
        if given == self.sheets.given_to_all != self.sheets.parts.keys():
            others = sorted(self.sheets.parts.keys() - given)
            what = say(
                "it is not said which further sheet pupil {pupil} had", pupil=quoted(pupil.name)
            )
            instead = say("write its name in a row, such as {name}", name=others[0])
            self.problem(pupil.row, QUESTION, what, instead)
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
            what = say("it is not said which version of {section} the pupil had", section=section)
            instead = say("write {name} or its like; the row is left out", name=first)
            self.problem(row, QUESTION, what, instead)
            return None
        near = near_word(asked, self.columns)
        instead = did_you_mean(near) if near else say("the row is left out")
        what = say("no question of the pack is called {name}", name=quoted(asked))
        self.problem(row, QUESTION, what, instead)
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
            self.problem(row, WRITTEN, what, say("{this}; it is counted as wrong", this=instead))
            return cross
        if entry.ticked or asked.right_in(entry.replies):
            what = say("{words} is right for {question}", words=quoted(written), question=question)
            instead = say("it is counted as right; see whether it is meant so")
            self.problem(row, WRITTEN, what, instead)
        elif (doubted := doubts(entry, asked)) is not None:
            self.problem(row, WRITTEN, *doubted)
        return entry
