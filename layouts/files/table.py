"""The table of a pack's files: a row for each kind, sheets first, then what is for the teacher.

Which files a pack has follows from its sections alone, so nothing need be planned to know it.
A further kind of file is one more module that plans its pages and one more row below.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import chain
from typing import Final, TypeAlias

from generator.packs.pack import SECTION_KINDS
from generator.packs.working_out import WorkedPack, WorkedSection
from layouts.key.answers_on_paper import answers_on_paper
from layouts.key.key import key_pages
from layouts.key.lesson_plan import lesson_plan
from layouts.planning.plan import PagePlan
from layouts.planning.squared_page import Side
from layouts.planning.wording import file_title
from layouts.sheets.example_pages import pairs_on_sheets
from layouts.sheets.imposition import on_sheets, sides
from layouts.sheets.sheet import sheet_pages, squared_pages
from layouts.sheets.slips import slips_of
from layouts.slides.answer_slides import answer_pages
from layouts.slides.deck import deck_pages
from layouts.slides.example_slides import example_pages
from specs.languages.saying import say
from specs.languages.usage import Usage
from specs.spec import Presentation

_Planner: TypeAlias = Callable[[WorkedPack], Iterator[PagePlan]]
"""Plans the pages of a file with all sections of a pack, one after another as they are asked for.
"""


@dataclass(frozen=True, slots=True)
class FileKind:
    """A row of the table. In ``name`` stands {section} where each section has a file.

    ``title`` is what it is called inside, "" where that is its section's name.
    ``holds`` are the kinds of sections whose questions it has, in the lesson's order.
    ``weight`` is about how much there is to draw for a question, where a pupil's sheet has 1.
    ``once`` is true of what is made once for the lesson, however many versions there are.
    ``sides`` has the same pages as ``planner`` with their squares, where pupils write on them.
    """

    name: str
    role: str
    title: str
    holds: tuple[str, ...]
    planner: _Planner
    weight: float
    once: bool = False
    sides: Callable[[WorkedPack], Iterator[Side]] | None = None

    @property
    def bears_codes(self) -> bool:
        """Whether its pages bear the codes of the sections that they hold."""
        return self.for_each_section or self.role == "examples"

    @property
    def for_each_section(self) -> bool:
        """Whether every section has such a file of its own."""
        return "{section}" in self.name


@dataclass(frozen=True, slots=True)
class PackFile:
    """A file of one pack: its kind, and what of the pack it holds."""

    kind: FileKind
    pack: WorkedPack

    @property
    def sections(self) -> tuple[str, ...]:
        """The names of the sections that it holds."""
        return self.pack.names

    @property
    def name(self) -> str:
        """What the file is called in the pack's folder."""
        return self.kind.name.format(section=self.pack.places[0].stem)

    @property
    def role(self) -> str:
        """What it is to the lesson: starter, practice, key …"""
        return self.kind.role

    @property
    def title(self) -> str:
        """What it is called inside."""
        usage = self.usage
        named = (
            usage(self.kind.title) if self.kind.title else file_title(self.pack.places[0], usage)
        )
        return f"{self.pack.facts.title}: {named}"

    @property
    def usage(self) -> Usage:
        """The land and the language of its pages."""
        return self.pack.facts.usage

    @property
    def pages(self) -> Iterator[PagePlan]:
        """Its pages, planned one after another as they are asked for."""
        return self.kind.planner(self.pack)

    @property
    def sides(self) -> Iterator[Side]:
        """The same pages with their squares; none where pupils do not write on them."""
        return self.kind.sides(self.pack) if self.kind.sides else iter(())

    @property
    def weight(self) -> float:
        """About how much there is to draw, where a question on a pupil's sheet has 1."""
        held = self.pack.of_version(1) if self.kind.once else self.pack
        return self.kind.weight * held.questions


def files_of(pack: WorkedPack) -> tuple[PackFile, ...]:
    """The files that the pack has. A section without questions has none."""
    return tuple(file for kind in TABLE for file in _of_kind(kind, pack))


def key_to(pack: WorkedPack, sections: tuple[str, ...]) -> PackFile:
    """The teacher's key to some sections alone."""
    return PackFile(_KEY, pack.named(*sections))


def _of_kind(kind: FileKind, pack: WorkedPack) -> Iterator[PackFile]:
    held = pack.of_kinds(*kind.holds)
    for part in map(held.named, held.names) if kind.for_each_section else [held]:
        if part.questions:
            yield PackFile(kind, part)


def _each(plan_section: Callable[[WorkedSection], tuple[PagePlan, ...]]) -> _Planner:
    """A file of one section's pages after another's."""
    return lambda pack: chain.from_iterable(map(plan_section, pack))


def _sheets(pack: WorkedPack) -> Iterator[PagePlan]:
    """The pupils' pages of every version, on sheets of paper."""
    return on_sheets(map(sheet_pages, pack), pack.facts.presentation)


def _slips(pack: WorkedPack) -> Iterator[PagePlan]:
    """The pages of every version, several to a sheet of paper."""
    slips, to_a_sheet = slips_of(pack)
    return on_sheets(map(sheet_pages, slips), _cut_apart(pack, to_a_sheet))


def _sides_of_sheets(pack: WorkedPack) -> Iterator[Side]:
    return sides(map(squared_pages, pack), pack.facts.presentation)


def _sides_of_slips(pack: WorkedPack) -> Iterator[Side]:
    slips, to_a_sheet = slips_of(pack)
    return sides(map(squared_pages, slips), _cut_apart(pack, to_a_sheet))


def _cut_apart(pack: WorkedPack, to_a_sheet: int) -> Presentation:
    return replace(pack.facts.presentation, to_a_sheet=to_a_sheet, duplex=False)


TEACHERS: Final = ("plan", "answers on paper")
"""Roles of the files for the teacher whose pages are counted on from the key, in that order."""

_ALL: Final = tuple(SECTION_KINDS.values())

_KEY: Final = FileKind("key.pdf", "key", say("teacher's key"), _ALL, key_pages, weight=3.0)

TABLE: Final = (
    FileKind(
        "{section}.pdf",
        "starter",
        "",
        ("starter",),
        _sheets,
        weight=1.0,
        sides=_sides_of_sheets,
    ),
    FileKind(
        "examples.pdf",
        "examples",
        say("worked examples"),
        ("example",),
        _each(example_pages),
        weight=10.0,
    ),
    FileKind(
        "examples-on-paper.pdf",
        "examples",
        say("worked examples on paper"),
        ("example",),
        pairs_on_sheets,
        weight=6.0,
    ),
    FileKind(
        "{section}.pdf",
        "practice",
        "",
        ("practice",),
        _sheets,
        weight=1.0,
        sides=_sides_of_sheets,
    ),
    FileKind(
        "{section}.pdf",
        "exit",
        "",
        ("exit",),
        _slips,
        weight=1.0,
        sides=_sides_of_slips,
    ),
    FileKind(
        "{section}.pdf",
        "homework",
        "",
        ("homework",),
        _sheets,
        weight=1.0,
        sides=_sides_of_sheets,
    ),
    FileKind("lesson.pdf", "lesson", say("the lesson"), _ALL, deck_pages, weight=4.0, once=True),
    FileKind(
        "answers.pdf",
        "answers",
        say("answers"),
        ("starter", "practice"),
        _each(answer_pages),
        weight=0.5,
    ),
    FileKind(
        "answers-on-paper.pdf",
        "answers on paper",
        say("answers on paper"),
        tuple(kind for kind in _ALL if kind != "example"),
        answers_on_paper,
        weight=0.2,
    ),
    FileKind("plan.pdf", "plan", say("plan"), _ALL, lesson_plan, weight=0.1, once=True),
    _KEY,
)
