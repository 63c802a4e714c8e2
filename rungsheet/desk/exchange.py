"""A pack's questions for other programs: as a table, or as items of an open standard."""

from collections.abc import Callable, Mapping
from typing import Final

from generator.packs.working_out import WorkedPack
from rungsheet.desk.archive import zipped
from rungsheet.desk.packs import Built, File
from specs.languages.usage import PLAIN

__all__ = ["KINDS", "of_questions"]


def _table(pack: WorkedPack) -> File:
    from layouts.exchange.questions_csv import questions_csv

    return File("questions.csv", "questions", questions_csv(pack))


def _items(pack: WorkedPack) -> File:
    from layouts.exchange.qti import qti_files

    files = (File(file.name, "questions", file.data) for file in qti_files(pack))
    return File("questions-qti.zip", "questions", zipped(files))


_MADE: Final[Mapping[str, Callable[[WorkedPack], File]]] = {"csv": _table, "qti": _items}

KINDS: Final = tuple(_MADE)
"""A table for spreadsheets; a package of QTI 3.0 items for learning platforms."""


def of_questions(built: Built, kind: str) -> File:
    """The questions of a pack, each with its answer and the wrong answers to expect.

    Programs take numbers with a point alone, so they are in English and as England writes them,
    whatever the pages have.
    """
    return _MADE[kind](built.worked.spoken(PLAIN))
