"""A pack's files: which there are, what each holds, and their bytes.

A further kind of file is one more module that plans its pages and one more row below.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from generator.pack import Pack, Section
from layouts.answer_slides import answer_pages
from layouts.carried import Carried
from layouts.example_slides import example_pages
from layouts.imposition import on_sheets
from layouts.key import key_pages
from layouts.plan import PagePlan
from layouts.sheet import sheet_pages


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


def plan(pack: Pack) -> tuple[Planned, ...]:
    """The pack's files as page plans, in the order in which a lesson meets them.

    A section that the pack lacks has no file. Raises LayoutError when something does not
    fit its page or cannot be printed.
    """
    planned = (file for kind in _KINDS for file in kind(pack))
    return tuple(file for file in planned if file.pages)


def render(pack: Pack, *, sealed: bool = False) -> tuple[Document, ...]:
    """The pack's files as PDF: the same bytes for the same pack on every machine.

    Each carries the spec and seed inside unless ``sealed``. Raises LayoutError as ``plan``
    does.
    """
    files = plan(pack)
    from layouts.ink import pdf  # here, so that planning alone never loads the drawing

    subject = f"seed {pack.seed}, code {pack.code}"
    return tuple(
        Document(
            file.name,
            file.role,
            len(file.pages),
            pdf(file.pages, file.title, subject, None if sealed else _carried(pack, file)),
        )
        for file in files
    )


def render_key(pack: Pack, names: tuple[str, ...]) -> Document:
    """The teacher's key to some sections alone. Raises LayoutError as ``plan`` does."""
    from layouts.ink import pdf

    pages = key_pages(pack, names)
    file = Planned("key.pdf", "key", f"{pack.title}: teacher's key", pages, names)
    data = pdf(pages, file.title, f"seed {pack.seed}, code {pack.code}", _carried(pack, file))
    return Document(file.name, file.role, len(pages), data)


def _carried(pack: Pack, file: Planned) -> Carried | None:
    """What a file carries; nothing where the pack's own spec is not known."""
    if not pack.spec_text:
        return None
    names = file.sections or tuple(dict.fromkeys(section.name for section in pack.sections))
    return Carried(pack.spec_text, pack.seed, pack.versions, names, pack.look)


_SectionPages = Callable[[Pack, Section], tuple[PagePlan, ...]]


def _pages(pack: Pack, plan_section: _SectionPages, *kinds: str) -> tuple[PagePlan, ...]:
    """The pages of all sections of these kinds, one kind after another."""
    return tuple(
        page
        for kind in kinds
        for section in pack.of_kind(kind)
        for page in plan_section(pack, section)
    )


def _sheets(pack: Pack, kind: str, name: str) -> tuple[PagePlan, ...]:
    """The pupils' pages of every version of a section, on sheets of paper."""
    versions = [
        sheet_pages(pack, section) for section in pack.of_kind(kind) if section.name == name
    ]
    return on_sheets(versions, pack.presentation)


def _starter(pack: Pack) -> Iterator[Planned]:
    for name in dict.fromkeys(section.name for section in pack.of_kind("starter")):
        pages = _sheets(pack, "starter", name)
        yield Planned("starter.pdf", "starter", f"{pack.title}: starter", pages, (name,))


def _examples(pack: Pack) -> Iterator[Planned]:
    pages = _pages(pack, example_pages, "example")
    names = tuple(dict.fromkeys(section.name for section in pack.of_kind("example")))
    yield Planned("examples.pdf", "examples", f"{pack.title}: worked examples", pages, names)


def _practice(pack: Pack) -> Iterator[Planned]:
    for tier in pack.tiers:
        pages = _sheets(pack, "practice", tier)
        title = f"{pack.title}: {tier} practice"
        yield Planned(f"practice-{tier}.pdf", "practice", title, pages, (tier,))


def _answers(pack: Pack) -> Iterator[Planned]:
    pages = _pages(pack, answer_pages, "starter", "practice")
    names = tuple(s.name for s in pack.sections if s.kind != "example" and s.version == 1)
    yield Planned("answers.pdf", "answers", f"{pack.title}: answers", pages, names)


def _key(pack: Pack) -> Iterator[Planned]:
    yield Planned("key.pdf", "key", f"{pack.title}: teacher's key", key_pages(pack))


_KINDS: Final[tuple[Callable[[Pack], Iterator[Planned]], ...]] = (
    _starter,
    _examples,
    _practice,
    _answers,
    _key,
)
