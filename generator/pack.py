"""A pack as values: the sections of a lesson and the questions in them.

``layouts`` turns a pack into pages; ``pack.json`` is its plain record.
"""

from dataclasses import dataclass

from generator.questions import Question
from specs.spec import Presentation


@dataclass(frozen=True, slots=True)
class Item:
    """A question in its place on a sheet.

    ``signature`` names what a matched question shares with this one; ``features`` says
    the same in words for the teacher's key ("carries in the tenths and ones").
    ``matched`` says how closely the versions of this slot match, when not to the letter.
    """

    label: str
    rung: str
    question: Question
    signature: str
    features: tuple[str, ...]
    matched: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """One section in one version.

    ``kind`` is "starter", "example" or "practice". Example sections hold pairs in order:
    the teacher's question, then its match.
    """

    name: str
    kind: str
    version: int
    minutes: int | None
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Pack:
    """A whole pack, ready to be laid out."""

    title: str
    seed: int
    code: str
    versions: int
    sections: tuple[Section, ...]
    presentation: Presentation

    def of_kind(self, kind: str) -> tuple[Section, ...]:
        """The sections of one kind, in order."""
        return tuple(section for section in self.sections if section.kind == kind)

    @property
    def tiers(self) -> tuple[str, ...]:
        """The names of the practice tiers, in order."""
        return tuple(dict.fromkeys(s.name for s in self.of_kind("practice")))
