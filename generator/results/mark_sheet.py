"""The mark sheet of a pack: a row a pupil, a column a question. Examples are not marked."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from generator.arithmetic.questions import Operation
from generator.packs.pack import Item, Section
from specs.marks import PUPIL, VERSION
from specs.replies import NUMBER, ORDER, SIGN

FILE: Final = "marks.csv"
BY_VERSION: Final = "marks-by-version.csv"
ROLE: Final = "marks"
PUPILS: Final = 30
"""Rows of an empty mark sheet; a spreadsheet takes more."""


@dataclass(frozen=True, slots=True)
class MarkColumn:
    """A column of the mark sheet and the question that it is for.

    ``name`` is ``core.a``, or ``core.2.a`` where the section comes in several versions.
    """

    name: str
    section: Section
    item: Item

    @property
    def answer_kind(self) -> str:
        """What pupils write: a number, a sign between two numbers, or numbers in order."""
        match self.item.question.operation:
            case Operation.COMPARE:
                return SIGN
            case Operation.ORDER:
                return ORDER
        return NUMBER


def mark_columns(sections: Sequence[Section]) -> tuple[MarkColumn, ...]:
    """The columns for all questions that pupils answer on paper, in the pack's order."""
    return tuple(_columns(sections))


def _columns(sections: Sequence[Section]) -> Iterator[MarkColumn]:
    marked = [section for section in sections if section.kind != "example"]
    several = {section.name for section in marked if section.version > 1}
    for section in marked:
        version = f".{section.version}" if section.name in several else ""
        for item in section.items:
            yield MarkColumn(f"{section.name}{version}.{item.label}", section, item)


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


def sheet_by_version(sections: Sequence[Section], pupils: int = PUPILS) -> str | None:
    """An empty mark sheet with a column for each pupil's version, and one for each question of a
    version; None where no section comes in versions.
    """
    columns = mark_columns(sections)
    if all(column.section.version == 1 for column in columns):
        return None
    names = dict.fromkeys(f"{column.section.name}.{column.item.label}" for column in columns)
    return _empty([PUPIL, VERSION, *names], pupils)


def mark_sheet(sections: Sequence[Section], pupils: int = PUPILS) -> str:
    """An empty mark sheet as CSV: pupils numbered from 1, and no names needed."""
    return _empty([PUPIL, *(column.name for column in mark_columns(sections))], pupils)


def _empty(header: list[str], pupils: int) -> str:
    rows = [header, *([str(n), *[""] * (len(header) - 1)] for n in range(1, pupils + 1))]
    return "".join(",".join(row) + "\r\n" for row in rows)
