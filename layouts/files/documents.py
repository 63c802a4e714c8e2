"""A pack's files as page plans, and their bytes."""

import hashlib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from generator.packs.working_out import WorkedPack
from layouts.files.table import PackFile, files_of, key_to
from layouts.planning.errors import LayoutError
from layouts.planning.plan import PagePlan
from layouts.planning.wording import MOST_ANSWERED
from specs.languages.saying import say
from specs.languages.usage import PLAIN, Usage

if TYPE_CHECKING:
    from generator.results.class_results import ClassResults
    from generator.results.side_by_side import SideBySide
    from layouts.pdf.carried import Carried
    from layouts.pdf.sink import Sink


@dataclass(frozen=True, slots=True)
class Planned:
    """A file before any ink: its name, its role in the pack, its title and its pages.

    ``sections`` are the names of those whose questions it holds.
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


def plan(pack: WorkedPack) -> tuple[Planned, ...]:
    """The pack's files as page plans, in the order in which a lesson meets them.

    A section that the pack lacks has no file. Raises LayoutError when something does not
    fit its page or cannot be printed.
    """
    return tuple(
        Planned(file.name, file.role, file.title, tuple(file.pages), file.sections)
        for file in files_of(pack)
    )


def planned(pack: WorkedPack, name: str) -> Planned:
    """One of the pack's files as page plans; no other is planned. Raises as ``plan`` does."""
    file = next(file for file in files_of(pack) if file.name == name)
    return Planned(file.name, file.role, file.title, tuple(file.pages), file.sections)


def refused(pack: WorkedPack) -> Iterator[LayoutError]:
    """Why files of the pack cannot be laid out: of each that cannot, the first reason."""
    for file in files_of(pack):
        try:
            for _ in file.pages:
                pass
        except LayoutError as error:
            yield error


def render(pack: WorkedPack, *, sealed: bool = False) -> tuple[Document, ...]:
    """The pack's files as PDF: the same bytes for the same pack on every machine.

    Each carries the spec and seed inside unless ``sealed``. Raises LayoutError as ``plan``
    does.
    """
    return tuple(_document(file, sealed=sealed) for file in files_of(pack))


def render_key(pack: WorkedPack, names: tuple[str, ...]) -> Document:
    """The teacher's key to some sections alone. Raises LayoutError as ``plan`` does."""
    return _document(key_to(pack, names), sealed=False)


def render_marks(
    title: str,
    results: "ClassResults",
    unread: Sequence[str],
    earlier: int = 0,
    usage: Usage = PLAIN,
) -> bytes:
    """A class's results as a PDF file: the same bytes for the same marks on every machine.

    ``unread`` has what of the mark sheet was not read, or in doubt; ``earlier`` is how many
    earlier packs the findings rest on as well; ``usage`` is the land and the language of the
    pack's pages.
    """
    from layouts.marks.blocks import printable
    from layouts.marks.marks_pages import marks_pages
    from layouts.pdf.ink import pdf

    pages = marks_pages(title, results, unread, earlier, usage)
    named = usage(say("{title}: marks", title=printable(title)))
    return pdf(pages, named, usage(say("marks")), usage=usage)


def render_classes(
    title: str, found: "SideBySide", unread: Sequence[Sequence[str]], usage: Usage = PLAIN
) -> bytes:
    """The results of several classes as a PDF file: side by side, then each alone."""
    from layouts.marks.blocks import printable
    from layouts.marks.marks_pages import pages_of_classes
    from layouts.pdf.ink import pdf

    pages = tuple(pages_of_classes(title, found, unread, usage))
    named = usage(say("{title}: marks", title=printable(title)))
    return pdf(pages, named, usage(say("marks")), usage=usage)


def file_names(pack: WorkedPack) -> tuple[str, ...]:
    """The names of the pack's files, in order."""
    return tuple(file.name for file in files_of(pack))


def draw_file(
    pack: WorkedPack,
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
    pack: WorkedPack,
    name: str,
    sink: "Sink",
    *,
    sealed: bool = False,
    page_done: Callable[[], None] = lambda: None,
) -> Drawn:
    """As ``draw_file``, into any sink. Plans the pages of that file and of no other."""
    file = next(file for file in files_of(pack) if file.name == name)
    hashed = _Hashed(sink)
    pages = _write(file, hashed, sealed, page_done)
    return Drawn(file.name, file.role, pages, hashed.digest.hexdigest())


def expected_pages(pack: WorkedPack) -> int:
    """About how many pages the pack's files will have: every version as many as the first.

    In the key a further version takes as many, or a tenth of a page; on paper its answers take
    a tenth too, with the slip.
    """
    first = pack.of_version(1)
    found = sum(len(file.pages) for file in plan(first))
    tenths = 0
    for section in first:
        more = section.versions - 1
        for file in files_of(first.named(section.name)) if more else ():
            if file.kind.once or file.role == "answers on paper":
                tenths += more * (file.role == "answers on paper")
            elif file.role == "key" and not pack.facts.all_workings:
                tenths += more
            else:
                pages = len(tuple(file.pages))
                in_the_deck = file.role == "answers" and section.versions <= MOST_ANSWERED
                found += more * pages * (2 if in_the_deck else 1)
    return found + tenths // 10


class _Hashed:
    """A sink with the digest of what has been written to it."""

    def __init__(self, target: "Sink") -> None:
        self._target = target
        self.digest = hashlib.sha256()

    def write(self, data: bytes, /) -> None:
        """Take the next bytes."""
        self.digest.update(data)
        self._target.write(data)


def _document(file: PackFile, *, sealed: bool) -> Document:
    buffer = BytesIO()
    pages = _write(file, buffer, sealed, lambda: None)
    return Document(file.name, file.role, pages, buffer.getvalue())


def _write(file: PackFile, sink: "Sink", sealed: bool, page_done: Callable[[], None]) -> int:
    from layouts.pdf.ink import write_pdf  # here, so that planning alone never loads the drawing

    carried = None if sealed else _carried(file)
    facts, say = file.pack.facts, file.usage
    subject = say("seed {seed}, code {code}", seed=facts.seed, code=facts.code)
    return write_pdf(sink, file.pages, file.title, subject, carried, page_done, say)


def _carried(file: PackFile) -> "Carried | None":
    """What a file carries; nothing where the pack's own spec is not known."""
    from layouts.pdf.carried import MOST_ON_A_PAGE, Carried

    pack = file.pack.facts
    sections = file.sections
    if file.kind.once and pack.versions > MOST_ON_A_PAGE:  # more than so few pages can speak for
        sections = tuple(section.name for section in file.pack if not section.has_versions)
    if not pack.spec_text or not sections:
        return None
    return Carried(pack.spec_text, pack.seed, pack.versions, sections, pack.look)
