"""Marks read: what a pack's filled-in mark sheet says of each pupil and of the class.

Of several classes that had one pack it is put side by side; what a class answered in earlier packs
counts for its findings.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, Final

from generator.operations.mistakes import with_mistakes_of_their_own
from generator.packs.record import PackRecord, read_record
from generator.packs.working_out import conventions, usage_of
from generator.results.class_results import ClassResults, Group, class_results
from generator.results.mark_sheet import MarkColumn, given_to_all, mark_columns, read_sheet
from generator.results.over_weeks import before_today
from generator.results.side_by_side import MOST_CLASSES, SideBySide
from generator.vocabulary import VOCABULARY
from rungsheet.desk.packs import RECORD, File, as_json
from rungsheet.desk.problems import Problem, Refused, of_a_cell, refusing
from specs import Spec, SpecError, read_spec
from specs.languages.saying import NOTHING, Saying, say, several
from specs.languages.usage import PLAIN, Usage
from specs.marks import LARGEST as LARGEST_SHEET
from specs.marks import Entry, Marks
from specs.names import in_few_words

__all__ = [
    "LARGEST_RECORD",
    "LARGEST_SHEET",
    "Compared",
    "FilledIn",
    "MarkColumn",
    "Marked",
    "PackRecord",
    "Typed",
    "UnreadCell",
    "columns",
    "compare",
    "mark",
    "read_pack",
    "said_of",
    "typed",
]

LARGEST_RECORD: Final = 256 * 1024 * 1024
"""Bytes of pack.json: more than the most versions make."""

TOO_LARGE: Final = (
    say("it is far larger than any pack's record"),
    say("name the folder of a pack"),
)


OTHER_ANSWERS: Final = Fraction(1, 5)
"""Where more than this share of the pupils had other answers, it was hardly the same class."""


@dataclass(frozen=True, slots=True)
class FilledIn:
    """A filled-in mark sheet of a pack: the bytes of a CSV file; ``name`` is for messages."""

    pack: PackRecord
    sheet: str | bytes
    name: str


@dataclass(frozen=True, slots=True)
class UnreadCell:
    """What is wrong with a cell of a mark sheet, and what to write instead.

    Rows count from 1, the heading; ``column`` is "" for a whole row.
    """

    row: int
    column: str
    what: Saying
    instead: Saying


@dataclass(frozen=True, slots=True)
class Typed:
    """A mark sheet as it was written: each pupil's cells by the names of their columns.

    A tick is ``y`` and a cross ``n``; what could not be read stands as it is. ``absent`` are pupils
    of whom it says so.
    """

    rows: tuple[tuple[str, dict[str, str]], ...]
    unread: tuple[Problem, ...]
    absent: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Marked:
    """What a mark sheet says, and what in it could not be read or is to be doubted.

    ``earlier`` is how many earlier packs its findings rest on as well; ``usage`` the land and the
    language of the pack's pages.
    """

    title: str
    results: ClassResults
    unread: tuple[Problem, ...]
    cells: "tuple[UnreadCell, ...]" = ()
    earlier: int = 0
    usage: Usage = PLAIN

    @property
    def not_printed(self) -> tuple[Problem, ...]:
        """Pupils' names that ``marks.pdf`` cannot show whole."""
        from layouts.marks.marks_pages import names_with_gaps

        return tuple(
            Problem("marks.pdf", None, what, say("a number instead of a name always prints"))
            for what in names_with_gaps(self.results)
        )

    def files(self) -> tuple[File, ...]:
        """``marks.pdf`` for the teacher, and ``marks.json``, which lists it, for programs."""
        from layouts.files.documents import render_marks

        unread = [problem.said for problem in self.unread]
        told = [self.usage.language.says(one) for one in unread]
        with refusing(""):
            pdf = render_marks(self.title, self.results, told, self.earlier, self.usage)
        drawn = File("marks.pdf", "marks", pdf)
        earlier = {"earlier_packs": self.earlier} if self.earlier else {}
        plain = {**self.results.plain, **earlier, "unread": unread, "files": [drawn.listed]}
        return drawn, File("marks.json", "record", as_json(plain))

    def replacing(self, before: Any) -> Saying:
        """What is lost where these take the place of a ``marks.json``: nothing to speak of, or so
        many pupils' answers.

        Marks that were added to, or put right here and there, are the same marks.
        """
        return _said_of(_others(self.results, before))


@dataclass(frozen=True, slots=True)
class Compared:
    """What the mark sheets of several classes say, side by side and of each."""

    title: str
    classes: tuple[tuple[str, Marked], ...]
    usage: Usage = PLAIN

    @property
    def side_by_side(self) -> SideBySide:
        """The results."""
        names, marked = zip(*self.classes, strict=True)
        return SideBySide(names, tuple(one.results for one in marked))

    @property
    def unread(self) -> tuple[Problem, ...]:
        """What could not be read in any of the sheets."""
        return tuple(problem for _, one in self.classes for problem in one.unread)

    @property
    def not_printed(self) -> tuple[Problem, ...]:
        """Pupils' names that ``marks.pdf`` cannot show whole."""
        return tuple(problem for _, one in self.classes for problem in one.not_printed)

    def files(self) -> tuple[File, ...]:
        """``marks.pdf``, the classes side by side and then each alone, and ``marks.json``."""
        from layouts.files.documents import render_classes

        found = self.side_by_side
        says = self.usage.language.says
        told = [[problem.told(says) for problem in one.unread] for _, one in self.classes]
        with refusing(""):
            pdf = render_classes(self.title, found, told, self.usage)
        drawn = File("marks.pdf", "marks", pdf)
        unread = list(map(str, self.unread))
        plain = {**found.plain, "unread": unread, "files": [drawn.listed]}
        return drawn, File("marks.json", "record", as_json(plain))

    def replacing(self, before: Any) -> Saying:
        """As of one class."""
        there = {one["class"]: one for one in before.get("classes", ())}
        told = [_others(one.results, there[name]) for name, one in self.classes if name in there]
        return _said_of((sum(other for other, _ in told), sum(of for _, of in told)))


def _others(results: ClassResults, before: Mapping[str, Any]) -> tuple[int, int]:
    """Of so many pupils that are in both, how many have lost answers: those are others'."""
    there = {one["pupil"]: (one["attempted"], one["right"]) for one in before.get("pupils", ())}
    both = [pupil for pupil in results.pupils if pupil.pupil in there]
    lost = 0
    for pupil in both:
        attempted, right = there[pupil.pupil]
        wrong = attempted - right
        lost += right > pupil.right or wrong > pupil.attempted - pupil.right
    return lost, len(both)


def _said_of(pupils: tuple[int, int]) -> Saying:
    others, both = pupils
    if others <= OTHER_ANSWERS * both:
        return NOTHING
    return several(
        "the marks there are replaced, in which {count} pupil has other answers, of {both} that "
        "are in both",
        "the marks there are replaced, in which {count} pupils have other answers, of {both} that "
        "are in both",
        others,
        both=both,
    )


def read_pack(data: bytes, name: str) -> PackRecord:
    """The pack of a ``pack.json``; ``name`` is the file's, for messages.

    Every question's answer is worked out again and must be the one that stands there.
    """
    if len(data) > LARGEST_RECORD:
        raise Refused(Problem(name, None, *TOO_LARGE))
    try:
        plain = json.loads(data)
    except (ValueError, RecursionError):
        what = say("it is not JSON")
        raise Refused(Problem(name, None, what, say("build the pack again"))) from None
    with refusing(name):
        return read_record(plain)


def usage_of_record(pack: PackRecord) -> Usage:
    """The land and the language of a pack's pages, as its spec says them.

    England and English, in which there is the spec of no land, where it cannot be read.
    """
    spec = _spec_of(pack.spec_text)
    return PLAIN if spec is None else usage_of(spec.presentation)


def _shown_as(pack: PackRecord) -> dict[str, str]:
    """The names of rungs that pupils see, by their own; none where the spec cannot be read."""
    spec = _spec_of(pack.spec_text)
    return {} if spec is None else {rung.name: rung.seen_as for rung in spec.ladder}


def sections_shown_as(pack: PackRecord) -> dict[str, str]:
    """The names of sections that pupils see, by their own; none where the spec cannot be read."""
    spec = _spec_of(pack.spec_text)
    return {} if spec is None else {one.name: one.shown_as for one in spec.sections}


def sections_called(pack: PackRecord) -> dict[str, str]:
    """What sections are called in few words, by their own names, where a teacher has named them.

    Those that all pupils have are called as pupils see them, practice sheets without the words
    that all of these have: ``Grundlagen`` of ``Übung Grundlagen``.
    """
    shown_as, found, usage = sections_shown_as(pack), columns(pack), usage_of_record(pack)
    of_all = to_all(found)
    called: dict[str, str] = {}
    practice: dict[str, str] = {}
    for column in found:
        name = column.section.name
        if column.sheet not in of_all:
            practice[name] = shown_as.get(name) or heading(column, usage)
        elif shown_as.get(name):
            called[name] = shown_as[name]
    if any(shown_as.get(name) for name in practice):
        called |= in_few_words(practice)
    return called


def said_of(group: Group, results: ClassResults) -> tuple[Saying, ...]:
    """What there is to say of a group, in sentences, as ``marks.pdf`` says it."""
    from layouts.marks.for_tomorrow import said_of as sentences  # here, as typing needs no pages

    return sentences(group, results)


def columns(pack: PackRecord) -> tuple[MarkColumn, ...]:
    """The columns of a pack's mark sheet, one a question that pupils answer."""
    return mark_columns(pack.sections, _ways(pack))


def _ways(pack: PackRecord) -> dict[str, frozenset[str]]:
    """The methods of a pack's sections that have mistakes of their own."""
    spec = _spec_of(pack.spec_text)
    if spec is None:
        return {}
    return {
        section.name: with_mistakes_of_their_own(
            conventions(spec.presentation, section.methods).ways
        )
        for section in spec.sections
    }


@lru_cache(maxsize=16)
def _spec_of(text: str) -> Spec | None:
    """The spec of a pack's record; None where it holds none that can be read."""
    try:
        return read_spec(text.encode("utf-8", "surrogatepass"), RECORD, VOCABULARY)
    except SpecError:
        return None


def to_all(of: Sequence[MarkColumn]) -> frozenset[str]:
    """The sheets, as ``column.sheet`` has them, that every pupil was given."""
    return given_to_all(of)


def heading(column: MarkColumn, say: Usage = PLAIN) -> str:
    """What the section of a column is called: ``Starter``, ``Practice 2``; as pages say it."""
    from layouts.planning.wording import place_heading

    return place_heading(column.section.place, say, several=len(column.section.items) > 1)


def mark(
    pack: PackRecord, sheet: str | bytes, name: str, earlier: Sequence[FilledIn] = ()
) -> Marked:
    """What a mark sheet, the bytes of a CSV file, says; ``name`` is the file's, for messages.

    ``earlier`` are the class's sheets of earlier packs, the newest first: their answers count too,
    with every pack that came after half as much. Refused where no cell can be told to belong to a
    pupil and a question.
    """
    marks = _read(pack, sheet, name)
    read = [_read(one.pack, one.sheet, one.name) for one in earlier]
    before = before_today(
        [(columns(one.pack), of_one) for one, of_one in zip(earlier, read, strict=True)]
    )
    results = class_results(columns(pack), marks, before, _shown_as(pack), sections_called(pack))
    unread = [of_a_cell(problem) for of_one in (marks, *read) for problem in of_one.problems]
    if results.doubt:
        unread.append(Problem(name, None, results.doubt))
    cells = [UnreadCell(one.row, one.column, one.what, one.instead) for one in marks.problems]
    usage = usage_of_record(pack)
    return Marked(pack.title, results, tuple(unread), tuple(cells), len(earlier), usage)


def compare(pack: PackRecord, sheets: Sequence[FilledIn], names: Sequence[str]) -> Compared:
    """What the mark sheets of several classes that had one pack say, each class by a name."""
    if len(sheets) > MOST_CLASSES:
        what = say("{count} classes do not stand beside one another on a page", count=len(sheets))
        instead = say("name {most} mark sheets at most", most=MOST_CLASSES)
        raise Refused(Problem("", None, what, instead))
    marked = [mark(pack, one.sheet, one.name) for one in sheets]
    classes = tuple(zip(names, marked, strict=True))
    return Compared(pack.title, classes, usage_of_record(pack))


def typed(pack: PackRecord, sheet: str | bytes, name: str) -> Typed:
    """What stands in a mark sheet, to be typed further; ``name`` is the file's, for messages."""
    marks = _read(pack, sheet, name)
    rows = [
        (row.pupil, {**{at: _text(entry) for at, entry in row.entries.items()}, **row.unread})
        for row in marks.rows
    ]
    absent = frozenset(row.pupil for row in marks.rows if row.absent)
    return Typed(tuple(rows), tuple(map(of_a_cell, marks.problems)), absent)


def _text(entry: Entry) -> str:
    if entry.ticked is None:
        return entry.text
    return "y" if entry.ticked else "n"


def _read(pack: PackRecord, sheet: str | bytes, name: str) -> Marks:
    data = sheet.encode("utf-8", "surrogatepass") if isinstance(sheet, str) else sheet
    with refusing(name):
        return read_sheet(pack, data, name, usage_of_record(pack))
