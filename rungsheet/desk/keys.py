"""The answers to a pack made again: a line a question, or the teacher's key as a PDF."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.packs.working_out import work
from rungsheet.desk.again import Rebuilt
from rungsheet.desk.packs import File
from rungsheet.desk.problems import refusing

__all__ = ["Answers", "answers", "key", "sections"]


@dataclass(frozen=True, slots=True)
class Answers:
    """The answers of a section in one version: ``replies`` are (``a``, ``1.65``)."""

    name: str
    version: int
    heading: str
    replies: tuple[tuple[str, str], ...]


def sections(rebuilt: Rebuilt) -> Iterator[Answers]:
    """The answers of each wanted section, in the pack's order."""
    from layouts.planning.wording import section_heading, version_words

    for section in work(rebuilt.pack).named(*rebuilt.names):
        heading = ", ".join(filter(None, (section_heading(section), version_words(section))))
        replies = tuple((item.label, item.reply) for item in section.items)
        yield Answers(section.name, section.version, heading, replies)


def answers(rebuilt: Rebuilt) -> Iterator[str]:
    """A line a question, ``a  1.65``; where there are several sections, each one's name first.

    Sections are parted by an empty line.
    """
    several = len(rebuilt.sections) > 1
    for at, section in enumerate(sections(rebuilt)):
        if several and at:
            yield ""
        if several:
            yield section.heading
        for label, reply in section.replies:
            yield f"{label}  {reply}"


def key(rebuilt: Rebuilt, *, all_workings: bool = False) -> File:
    """The teacher's key to the wanted sections alone; it may work all versions."""
    from layouts.files.documents import render_key

    with refusing(rebuilt.spec.source, rebuilt.spec):
        drawn = render_key(work(rebuilt.pack, all_workings=all_workings), rebuilt.names)
    return File(drawn.name, drawn.role, drawn.data, drawn.pages)
