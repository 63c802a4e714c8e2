"""The answers to a pack made again: a line a question, or the teacher's key as a PDF."""

from collections.abc import Iterator

from generator.packs.working_out import work
from rungsheet.desk.again import Rebuilt
from rungsheet.desk.packs import File
from rungsheet.desk.problems import refusing

__all__ = ["answers", "key"]


def answers(rebuilt: Rebuilt) -> Iterator[str]:
    """A line a question, ``a  1.65``; where there are several sections, each one's name first.

    Sections are parted by an empty line.
    """
    from layouts.planning.wording import section_heading, version_words

    several = len(rebuilt.sections) > 1
    for at, section in enumerate(work(rebuilt.pack).named(*rebuilt.names)):
        if several and at:
            yield ""
        if several:
            version = version_words(section)
            yield ", ".join(filter(None, (section_heading(section), version)))
        for item in section.items:
            yield f"{item.label}  {item.reply}"


def key(rebuilt: Rebuilt, *, all_workings: bool = False) -> File:
    """The teacher's key to the wanted sections alone; it may work all versions."""
    from layouts.files.documents import render_key

    with refusing(rebuilt.spec.source, rebuilt.spec):
        drawn = render_key(work(rebuilt.pack, all_workings=all_workings), rebuilt.names)
    return File(drawn.name, drawn.role, drawn.data, drawn.pages)
