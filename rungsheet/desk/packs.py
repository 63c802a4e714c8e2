"""A pack of a spec: its questions chosen, and its files, each drawn when it is wanted."""

import hashlib
import json
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass, replace
from fractions import Fraction
from io import BytesIO
from typing import TYPE_CHECKING, Any, Final

from generator.packs.building import build_pack, too_few
from generator.packs.codes import LOOK_AGAIN, PageCode
from generator.packs.pack import Pack
from generator.packs.record import record
from generator.packs.working_out import WorkedPack, work
from generator.results.mark_sheet import empty_sheets
from rungsheet.desk.problems import Problem, Refused, problems_of, refusing
from specs import Spec
from specs.key_words import NUMBERED as KEY_WORDS
from specs.languages.saying import Saying, say
from specs.looks import LARGE, Look
from specs.spec import PRACTICE
from specs.tints import TINTS

if TYPE_CHECKING:
    from layouts.files.documents import Drawn, Planned
    from layouts.pdf.sink import Sink

__all__ = [
    "AS_IN_THE_SPEC",
    "KEY_WORDS",
    "LARGE",
    "PICTURES",
    "SLIDES",
    "TINTS",
    "Built",
    "Edition",
    "File",
    "Look",
    "build",
    "check",
    "choose",
    "plan",
    "planned",
]

MOST_VERSIONS: Final = 10_000
GREATEST_SEED: Final = 999_999_999
RECORD: Final = "pack.json"
PICTURES: Final = ("svg", "png")
"""The kinds of pictures that every page can have beside its PDF."""
SLIDES: Final = ("pptx",)
SHEETS: Final = ("docx",)
"""The kinds of files that other programs can change, of slides and of pupils' sheets."""
AS_IN_THE_SPEC: Final = Look()
"""The look that leaves everything to the spec."""


@dataclass(frozen=True, slots=True)
class Edition:
    """Which of a spec's packs: its seed, how many versions of each practice sheet, its look.

    ``page`` is the code of a page that it must have, where one told of it. ``all_workings`` has
    the key work every version and not the first alone: no other file and no code changes.
    """

    seed: int = 1
    versions: int = 1
    look: Look = AS_IN_THE_SPEC
    page: PageCode | None = None
    all_workings: bool = False


@dataclass(frozen=True, slots=True)
class File:
    """A finished file: its name, its role in the pack, its bytes, and its pages if it has any."""

    name: str
    role: str
    data: bytes
    pages: int = 0

    @property
    def listed(self) -> dict[str, Any]:
        """The file as ``pack.json`` lists it."""
        digest = hashlib.sha256(self.data).hexdigest()
        return {"name": self.name, "role": self.role, "pages": self.pages, "sha256": digest}


@dataclass(frozen=True, slots=True)
class Built:
    """A pack that can be drawn: ``names`` of the files to be drawn, and those that are finished.

    ``sealed`` keeps the spec and seed out of its PDFs. ``beside`` are the small files that go
    with it; ``pack.json`` lists all others, and so is made last, by ``record``.
    """

    spec: Spec
    pack: Pack
    worked: WorkedPack
    names: tuple[str, ...]
    beside: tuple[File, ...] = ()
    sealed: bool = False

    @property
    def headings(self) -> dict[str, str]:
        """What stands over the sheets of some files: where the teacher has another name for pupils
        to see, of parts that come again, and of tiers of other parts than practice.
        """
        from layouts.planning.wording import section_heading

        named = (
            section.name
            for section in self.pack.sections
            if (section.asked and section.asked.shown_as)
            or section.place.number > 1
            or (section.place.tier and section.place.kind != PRACTICE)
        )
        first = self.worked.named(*named).of_version(1)
        return {f"{section.place.stem}.pdf": section_heading(section) for section in first}

    @property
    def pages(self) -> int:
        """About how many pages there are to draw; exactly so many for one version."""
        from layouts.files.documents import expected_pages

        with refusing(self.spec.source, self.spec):
            return expected_pages(self.worked)

    def draw(
        self, name: str, sink: "Sink", page_done: Callable[[], None] = lambda: None
    ) -> "Drawn":
        """Draw one of the files into a sink as its pages are planned; call after each page."""
        from layouts.files.documents import draw

        with refusing(self.spec.source, self.spec):
            return draw(self.worked, name, sink, sealed=self.sealed, page_done=page_done)

    def drawn(self, name: str, page_done: Callable[[], None] = lambda: None) -> File:
        """Draw one of the files, as bytes."""
        buffer = BytesIO()
        done = self.draw(name, buffer, page_done)
        return File(done.name, done.role, buffer.getvalue(), done.pages)

    def record(self, drawn: "Iterable[Drawn]") -> File:
        """``pack.json``, which lists the drawn files and those beside them."""
        listed = [asdict(one) for one in drawn] + [one.listed for one in self.beside]
        look = {"look": self.pack.look} if self.pack.look else {}
        plain = {**record(self.pack), **look, "spec": self.spec.text, "files": listed}
        return File(RECORD, "record", as_json(plain))

    def files(self, page_done: Callable[[], None] = lambda: None) -> tuple[File, ...]:
        """All files with their bytes, ``pack.json`` last."""
        from layouts.files.documents import Drawn

        drawn = [self.drawn(name, page_done) for name in self.names]
        listed = [Drawn(**one.listed) for one in drawn]
        return (*drawn, *self.beside, self.record(listed))


def choose(spec: Spec, edition: Edition = Edition()) -> Pack:
    """The questions of a pack, in a spec that was read. Refused where they cannot be had.

    Every rung that holds too few of them is named at once.
    """
    seed, versions = edition.seed, edition.versions
    what = say("the seed cannot be {given}", given=seed)
    _refuse_out_of_range(what, seed, 0, GREATEST_SEED)
    what = say("the number of versions cannot be {given}", given=versions)
    _refuse_out_of_range(what, versions, 1, MOST_VERSIONS)
    short = [p for one in too_few(spec, edition.versions) for p in _problems(one, spec)]
    if short:
        raise Refused(*short)
    with refusing(spec.source, spec):
        pack = build_pack(spec, edition.seed, edition.versions)
    if edition.page is not None:
        _refuse_unless_it_has(edition.page, pack, spec)
    return _printed(pack, edition.look)


def check(spec: Spec) -> None:
    """Refuse a spec that was read where ``build`` would: its questions, and every page, planned.

    Of each file that cannot be laid out the first reason is told, all of them at once.
    """
    from layouts.files.documents import refused

    found = [p for error in refused(work(choose(spec))) for p in _problems(error, spec)]
    if found:
        raise Refused(*dict.fromkeys(found))


def build(
    spec: Spec,
    edition: Edition = Edition(),
    *,
    sealed: bool = False,
) -> Built:
    """A pack of a spec that was read, with all its files to be drawn."""
    pack = choose(spec, edition)
    return of_pack(spec, pack, sealed=sealed, all_workings=edition.all_workings)


def of_pack(
    spec: Spec,
    pack: Pack,
    extra: tuple[File, ...] = (),
    *,
    sealed: bool = False,
    all_workings: bool = False,
) -> Built:
    """A pack whose questions are chosen, with its files: the mark sheet, and what is extra."""
    from layouts.files.documents import file_names

    sheets = empty_sheets(pack).items()
    beside = [*extra, *(File(name, role, text.encode()) for name, (role, text) in sheets)]
    worked = work(pack, all_workings=all_workings)
    with refusing(spec.source, spec):
        names = file_names(worked)
    return Built(spec, pack, worked, names, tuple(beside), sealed)


def plan(built: Built) -> "tuple[Planned, ...]":
    """The files to be drawn as page plans, in millimetres: what there is before any ink."""
    from layouts.files.documents import plan as planned

    with refusing(built.spec.source, built.spec):
        return planned(built.worked)


def planned(built: Built, name: str) -> "Planned":
    """One of the files to be drawn as page plans; no other is planned."""
    from layouts.files.documents import planned as plan_file

    with refusing(built.spec.source, built.spec):
        return plan_file(built.worked, name)


def as_json(plain: dict[str, Any]) -> bytes:
    """Plain data as the bytes of a file."""
    return (json.dumps(plain, indent=1, ensure_ascii=False, default=in_json) + "\n").encode()


def in_json(value: object) -> float:
    """What is exact in the generator as JSON has numbers; ``json.dumps`` asks for nothing else."""
    if isinstance(value, Fraction):
        return float(value)
    raise TypeError(f"no plain data: {value!r}")


def _printed(pack: Pack, look: Look) -> Pack:
    return replace(pack, presentation=look.over(pack.presentation), look=look.number)


def _refuse_unless_it_has(page: PageCode, pack: Pack, spec: Spec) -> None:
    """Refuse a code of a page that the pack, printed as the code says, does not have."""
    from layouts.files.finding import has_page

    with refusing(spec.source, spec):
        printed = _printed(pack, Look.numbered(page.look))
        # Where the key works all versions it has every page that it otherwise has, and more.
        found = has_page(work(printed, all_workings=True), page)
    if not found:
        what = say("{code} is of a page that this pack does not have", code=str(page))
        raise Refused(Problem("", None, what, LOOK_AGAIN))


def _problems(error: Exception, spec: Spec) -> tuple[Problem, ...]:
    return problems_of(error, spec.source, spec) or ()


def _refuse_out_of_range(what: Saying, given: int, least: int, most: int) -> None:
    if not least <= given <= most:
        raise Refused(Problem("", None, what, whole_number(least, most)))


def whole_number(least: int, most: int) -> Saying:
    """What is to be given where a number was none of these."""
    return say("give a whole number from {least} to {most}", least=least, most=most)
