"""The mark sheet of a pack: a row a pupil, a column a question. Examples are not marked."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from generator.operations.mistakes import NO_WAYS
from generator.packs.pack import Item, Pack, Section
from generator.packs.record import PackRecord
from generator.results.marking import asked_of
from specs.languages.usage import PLAIN, Usage
from specs.marks import PUPIL, VERSION, Marks, read_marks
from specs.replies import Asked
from specs.wrong_only import QUESTION, WRITTEN, Sheets, is_wrong_only, read_wrong_only

FILE: Final = "marks.csv"
BY_VERSION: Final = "marks-by-version.csv"
ROLE: Final = "marks"
BY_VERSION_ROLE: Final = "marks by version"
WRONG_ONLY: Final = "wrong-only.csv"
WRONG_ONLY_ROLE: Final = "wrong answers"
PUPILS: Final = 30
"""Rows of an empty mark sheet; a spreadsheet takes more."""

MOST_COLUMNS: Final = 16_384
"""Columns that the usual spreadsheets have (from memory)."""


@dataclass(frozen=True, slots=True)
class MarkColumn:
    """A column of the mark sheet and the question that it is for.

    ``name`` is ``core.a``, or ``core.2.a`` where the section comes in several versions. ``ways``
    are the methods taught that have mistakes of their own.
    """

    name: str
    section: Section
    item: Item
    ways: frozenset[str] = NO_WAYS

    @property
    def sheet(self) -> str:
        """The section and version that it is of: ``core.2``."""
        return self.name.rpartition(".")[0]

    @property
    def asked(self) -> Asked:
        """What pupils are asked for there."""
        return asked_of(self.item)


def mark_columns(
    sections: Sequence[Section], ways: Mapping[str, frozenset[str]] = MappingProxyType({})
) -> tuple[MarkColumn, ...]:
    """The columns for all questions that pupils answer on paper, in the pack's order.

    ``ways`` has, by the names of sections, the methods taught that have mistakes of their own:
    what is said of answers hangs on them, and nothing else.
    """
    return tuple(_columns(sections, ways))


def _columns(
    sections: Sequence[Section], ways: Mapping[str, frozenset[str]]
) -> Iterator[MarkColumn]:
    marked = [section for section in sections if section.kind != "example"]
    several = {section.name for section in marked if section.version > 1}
    for section in marked:
        version = f".{section.version}" if section.name in several else ""
        for item in section.items:
            name = f"{section.name}{version}.{item.label}"
            yield MarkColumn(name, section, item, ways.get(section.name, NO_WAYS))


def other_names(columns: Sequence[MarkColumn]) -> dict[str, str]:
    """Names that a teacher may use as well: the version written or left out where it is 1."""
    found = {}
    for column in columns:
        if column.section.version == 1:
            name, label = column.section.name, column.item.label
            for other in (f"{name}.{label}", f"{name}.1.{label}"):
                if other != column.name:
                    found[other] = column.name
    return found


def questions_by_version(columns: Sequence[MarkColumn]) -> dict[str, dict[int, str]]:
    """For ``core.a``, where the section comes in several versions, each version's column."""
    several = {column.section.name for column in columns if column.section.version > 1}
    found: dict[str, dict[int, str]] = {}
    for column in columns:
        name, version = column.section.name, column.section.version
        if name in several:
            found.setdefault(f"{name}.{column.item.label}", {})[version] = column.name
    return found


def read_sheet(pack: PackRecord, data: bytes, source: str, usage: Usage = PLAIN) -> Marks:
    """The marks in the bytes of a pack's mark sheet; ``source`` is the file's name, for messages.

    Units in answers are those of the pages, whose land and language ``usage`` is.
    Raises MarksError when nothing in it can be used, as where it is another pack's.
    """
    columns = mark_columns(pack.sections)
    asked = {column.name: asked_of(column.item, usage) for column in columns}
    if is_wrong_only(data):
        return read_wrong_only(data, source, asked, _given(columns), pack.code)
    return read_marks(
        data,
        source,
        asked,
        other_names(columns),
        questions_by_version(columns),
        pack.code,
    )


def _given(columns: Sequence[MarkColumn]) -> Sheets:
    """The sheets of a pack: all pupils have the one that is the only one of its part."""
    parts: dict[str, tuple[str, ...]] = {}
    for column in columns:
        parts[column.sheet] = (*parts.get(column.sheet, ()), column.name)
    return Sheets(parts, given_to_all(columns))


def given_to_all(columns: Sequence[MarkColumn]) -> frozenset[str]:
    """The sheets that all pupils have, as there is no other of their part of the lesson."""
    parts = {column.sheet: column.section.place.part for column in columns}
    alone = {part for part, sheets in Counter(parts.values()).items() if sheets == 1}
    return frozenset(sheet for sheet, part in parts.items() if part in alone)


def empty_sheets(pack: Pack | PackRecord) -> dict[str, tuple[str, str]]:
    """The empty mark sheets of a pack by the names of their files, each with its role and text.

    A sheet wider than any spreadsheet is not made: the one by versions does for it.
    """
    columns = mark_columns(pack.sections)
    narrow = sheet_by_version(pack)
    found = {}
    if columns and (narrow is None or len(columns) < MOST_COLUMNS):
        found[FILE] = (ROLE, mark_sheet(pack))
    if narrow is not None:
        found[BY_VERSION] = (BY_VERSION_ROLE, narrow)
    if columns:
        found[WRONG_ONLY] = (WRONG_ONLY_ROLE, _empty([_head(pack), QUESTION, WRITTEN], 0))
    return found


def sheet_by_version(pack: Pack | PackRecord, pupils: int = PUPILS) -> str | None:
    """An empty mark sheet with a column for each pupil's version, and one for each question of a
    version; None where no section comes in versions.
    """
    columns = mark_columns(pack.sections)
    if all(column.section.version == 1 for column in columns):
        return None
    names = dict.fromkeys(f"{column.section.name}.{column.item.label}" for column in columns)
    return _empty([_head(pack), VERSION, *names], pupils)


def mark_sheet(pack: Pack | PackRecord, pupils: int = PUPILS) -> str:
    """An empty mark sheet as CSV: pupils numbered from 1, and no names needed.

    The head of its first column bears the pack's code.
    """
    return _empty([_head(pack), *(column.name for column in mark_columns(pack.sections))], pupils)


def _head(pack: Pack | PackRecord) -> str:
    return f"{PUPIL} ({pack.code})"


def _empty(header: list[str], pupils: int) -> str:
    rows = [header, *([str(n), *[""] * (len(header) - 1)] for n in range(1, pupils + 1))]
    return "".join(",".join(row) + "\r\n" for row in rows)
