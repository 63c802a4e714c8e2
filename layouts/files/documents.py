"""A pack's files: which there are, what each holds, and their bytes.

A further kind of file is one more module that plans its pages and one more row below.
"""

import hashlib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Final

from generator.packs.pack import Pack, Section
from layouts.key.key import key_pages
from layouts.pdf.carried import Carried
from layouts.planning.errors import LayoutError
from layouts.planning.plan import PagePlan
from layouts.sheets.example_pages import printed_pairs
from layouts.sheets.imposition import on_sheets
from layouts.sheets.sheet import sheet_pages
from layouts.slides.answer_slides import answer_pages
from layouts.slides.example_slides import example_pages

if TYPE_CHECKING:
    from layouts.pdf.streaming import Sink


@dataclass(frozen=True, slots=True)
class Planned:
    """A file before any ink: its name, its role in the pack, its title and its pages.

    ``sections`` are the names of those whose questions it holds, all when there are none.
    """

    name: str
    role: str
    title: str
    pages: tuple[PagePlan, ...]
    sections: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Document:
    """A PDF file of a pack."""

    name: str
    role: str
    pages: int
    data: bytes


@dataclass(frozen=True, slots=True)
class Drawn:
    """A file of a pack that has been written: its name, role, pages and SHA-256 in hexadecimal."""

    name: str
    role: str
    pages: int
    sha256: str


@dataclass(frozen=True, slots=True)
class _File:
    """A file to be: as ``Planned``, its pages planned one after another as they are asked for."""

    name: str
    role: str
    title: str
    pages: Iterator[PagePlan]
    sections: tuple[str, ...] = ()


def plan(pack: Pack) -> tuple[Planned, ...]:
    """The pack's files as page plans, in the order in which a lesson meets them.

    A section that the pack lacks has no file. Raises LayoutError when something does not
    fit its page or cannot be printed.
    """
    return tuple(
        Planned(file.name, file.role, file.title, tuple(file.pages), file.sections)
        for file in _files(pack)
    )


def refused(pack: Pack) -> Iterator[LayoutError]:
    """Why files of the pack cannot be laid out: of each that cannot, the first reason."""
    for file in _files(pack):
        try:
            for _ in file.pages:
                pass
        except LayoutError as error:
            yield error


def render(pack: Pack, *, sealed: bool = False) -> tuple[Document, ...]:
    """The pack's files as PDF: the same bytes for the same pack on every machine.

    Each carries the spec and seed inside unless ``sealed``. Raises LayoutError as ``plan``
    does.
    """
    documents = []
    for file in _files(pack):
        buffer = BytesIO()
        pages = _write(pack, file, buffer, sealed, lambda: None)
        documents.append(Document(file.name, file.role, pages, buffer.getvalue()))
    return tuple(documents)


def file_names(pack: Pack) -> tuple[str, ...]:
    """The names of the pack's files, in order."""
    return tuple(file.name for file in _files(pack))


def draw_file(
    pack: Pack,
    name: str,
    folder: Path,
    *,
    sealed: bool = False,
    page_done: Callable[[], None] = lambda: None,
) -> Drawn:
    """Draw one of the pack's files into a folder; ``page_done`` is called after each page.

    Pages are planned, drawn and written one after another, so that memory stays small
    however many there are. Raises LayoutError as ``plan`` does, and OSError.
    """
    with (folder / name).open("wb") as target:
        return draw(pack, name, target, sealed=sealed, page_done=page_done)


def draw(
    pack: Pack,
    name: str,
    sink: "Sink",
    *,
    sealed: bool = False,
    page_done: Callable[[], None] = lambda: None,
) -> Drawn:
    """As ``draw_file``, into any sink."""
    file = next(file for file in _files(pack) if file.name == name)
    hashed = _Hashed(sink)
    pages = _write(pack, file, hashed, sealed, page_done)
    return Drawn(file.name, file.role, pages, hashed.digest.hexdigest())


def expected_pages(pack: Pack) -> int:
    """About how many pages the pack's files will have: every version as many as the first."""
    firsts = tuple(section for section in pack.sections if section.version == 1)
    each = tuple(section for section in firsts if section.kind == "practice")
    return _page_count(pack, firsts) + (pack.versions - 1) * _page_count(pack, each)


def _page_count(pack: Pack, sections: tuple[Section, ...]) -> int:
    return sum(len(file.pages) for file in plan(replace(pack, sections=sections)))


class _Hashed:
    """A sink with the digest of what has been written to it."""

    def __init__(self, target: "Sink") -> None:
        self._target = target
        self.digest = hashlib.sha256()

    def write(self, data: bytes, /) -> None:
        """Take the next bytes."""
        self.digest.update(data)
        self._target.write(data)


def _write(
    pack: Pack, file: _File, sink: "Sink", sealed: bool, page_done: Callable[[], None]
) -> int:
    from layouts.pdf.ink import write_pdf  # here, so that planning alone never loads the drawing

    carried = None if sealed else _carried(pack, file.sections)
    subject = f"seed {pack.seed}, code {pack.code}"
    return write_pdf(sink, file.pages, file.title, subject, carried, page_done)


def _files(pack: Pack) -> Iterator[_File]:
    """The pack's files; none of their pages is planned yet."""
    for kind in _KINDS:
        yield from kind(pack)


def render_key(pack: Pack, names: tuple[str, ...]) -> Document:
    """The teacher's key to some sections alone. Raises LayoutError as ``plan`` does."""
    file = _File("key.pdf", "key", f"{pack.title}: teacher's key", key_pages(pack, names), names)
    buffer = BytesIO()
    pages = _write(pack, file, buffer, False, lambda: None)
    return Document(file.name, file.role, pages, buffer.getvalue())


def _carried(pack: Pack, sections: tuple[str, ...]) -> Carried | None:
    """What a file carries; nothing where the pack's own spec is not known."""
    if not pack.spec_text:
        return None
    names = sections or _names(pack.sections)
    return Carried(pack.spec_text, pack.seed, pack.versions, names, pack.look)


def _names(sections: Iterable[Section]) -> tuple[str, ...]:
    """The names of some sections, each once for all its versions."""
    return tuple(dict.fromkeys(section.name for section in sections))


_SectionPages = Callable[[Pack, Section], tuple[PagePlan, ...]]


def _pages(pack: Pack, plan_section: _SectionPages, *kinds: str) -> Iterator[PagePlan]:
    """The pages of all sections of these kinds, one kind after another."""
    for kind in kinds:
        for section in pack.of_kind(kind):
            yield from plan_section(pack, section)


def _sheets(pack: Pack, kind: str, name: str) -> Iterator[PagePlan]:
    """The pupils' pages of every version of a section, on sheets of paper."""
    versions = (
        sheet_pages(pack, section) for section in pack.of_kind(kind) if section.name == name
    )
    return on_sheets(versions, pack.presentation)


def _starter(pack: Pack) -> Iterator[_File]:
    for name in _names(pack.of_kind("starter")):
        pages = _sheets(pack, "starter", name)
        yield _File("starter.pdf", "starter", f"{pack.title}: starter", pages, (name,))


def _examples(pack: Pack) -> Iterator[_File]:
    names = _names(pack.of_kind("example"))
    if names:
        pages = _pages(pack, example_pages, "example")
        yield _File("examples.pdf", "examples", f"{pack.title}: worked examples", pages, names)


def _examples_on_paper(pack: Pack) -> Iterator[_File]:
    names = _names(pack.of_kind("example"))
    if names:
        pages = _pages(pack, printed_pairs, "example")
        title = f"{pack.title}: worked examples on paper"
        yield _File("examples-on-paper.pdf", "examples", title, pages, names)


def _practice(pack: Pack) -> Iterator[_File]:
    for tier in pack.tiers:
        pages = _sheets(pack, "practice", tier)
        title = f"{pack.title}: {tier} practice"
        yield _File(f"practice-{tier}.pdf", "practice", title, pages, (tier,))


def _answers(pack: Pack) -> Iterator[_File]:
    names = _names(section for section in pack.sections if section.kind != "example")
    if names:
        pages = _pages(pack, answer_pages, "starter", "practice")
        yield _File("answers.pdf", "answers", f"{pack.title}: answers", pages, names)


def _key(pack: Pack) -> Iterator[_File]:
    yield _File("key.pdf", "key", f"{pack.title}: teacher's key", key_pages(pack))


_KINDS: Final[tuple[Callable[[Pack], Iterator[_File]], ...]] = (
    _starter,
    _examples,
    _examples_on_paper,
    _practice,
    _answers,
    _key,
)
