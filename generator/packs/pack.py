"""A pack as values: the sections of a lesson and the questions in them.

``layouts`` turns a pack into pages; ``pack.json`` is its plain record.
"""

from collections import Counter
from dataclasses import dataclass
from typing import Final

from generator.arithmetic.questions import Question
from generator.forms.form import Form
from generator.forms.plain import PLAIN
from specs.spec import (
    EXAMPLES,
    EXIT,
    FRAMES,
    HOMEWORK,
    PRACTICE,
    STARTER,
    Frames,
    FramesByRung,
    Place,
    Presentation,
    SectionSpec,
)


@dataclass(frozen=True, slots=True)
class Item:
    """A question in its place on a sheet.

    ``signature`` names what a matched question shares with this one; ``features`` says
    the same in words for the teacher's key ("carries in the tenths and ones").
    ``matched`` says how closely the versions of this slot match, when not to the letter.
    ``form`` is how the question is asked; ``shown_as`` the rung's name for pupils, "" for its own.
    """

    label: str
    rung: str
    question: Question
    signature: str
    features: tuple[str, ...]
    matched: str = ""
    form: Form = PLAIN
    shown_as: str = ""

    @property
    def in_brief(self) -> tuple[str, ...]:
        """The question with its answer in as few words as can be."""
        return self.form.in_brief(self.question)


SECTION_KINDS: Final = {
    STARTER: "starter",
    EXAMPLES: "example",
    PRACTICE: "practice",
    EXIT: "exit",
    HOMEWORK: "homework",
}
"""What records call the sections of each kind of part."""


def kind_of(part: str) -> str:
    """What records call the sections of a kind of part: "example" for ``examples``."""
    return SECTION_KINDS[part]


@dataclass(frozen=True, slots=True)
class Section:
    """One section in one version, of so many ``versions``.

    ``kind`` is one of ``SECTION_KINDS``. Example sections hold pairs in order:
    the teacher's question, then its match. ``frames`` are those of the first and the last
    question on a pupil's sheet. ``asked`` is what the spec says of it, None where that is
    not known.
    """

    name: str
    kind: str
    version: int
    minutes: int | None
    items: tuple[Item, ...]
    frames: Frames | None = None
    asked: SectionSpec | None = None
    versions: int = 1

    @property
    def place(self) -> Place:
        """Where it stands in its lesson; what its kind and name say, where no more is known."""
        if self.asked is not None and self.asked.place is not None:
            return self.asked.place
        (part,) = (word for word, kind in SECTION_KINDS.items() if kind == self.kind)
        return Place(part, tier=self.name if self.kind == "practice" else "")

    @property
    def framed(self) -> tuple[tuple[Item, str | None], ...]:
        """Each question with its frame, None where the section asks for none in particular."""
        if self.frames is None:
            return tuple((item, None) for item in self.items)
        if isinstance(self.frames, FramesByRung):
            counts = Counter(item.rung for item in self.items)
            turns = {rung: iter(_fading(counts[rung], of)) for rung, of in self.frames.named}
            return tuple((item, next(turns.get(item.rung, iter(())), None)) for item in self.items)
        return tuple(zip(self.items, _fading(len(self.items), self.frames), strict=True))


def _fading(questions: int, frames: tuple[str, str]) -> list[str]:
    """The frames of so many questions, passing from the first frame to the last through those
    between, in shares as equal as can be.
    """
    first, last = map(FRAMES.index, frames)
    kinds = FRAMES[first : last + 1] if first <= last else FRAMES[last : first + 1][::-1]
    last_at, kinds_on = questions - 1, len(kinds) - 1
    if last_at < kinds_on:  # too few questions for every frame: spread them
        return [kinds[at * kinds_on // max(last_at, 1)] for at in range(questions)]
    return [kinds[at * len(kinds) // questions] for at in range(questions)]


@dataclass(frozen=True, slots=True)
class Pack:
    """A whole pack, ready to be laid out.

    ``versions`` is how many of each practice sheet were asked for, beside what the spec says.
    ``look`` numbers the way of printing that was asked for beside the spec (0 for none);
    ``spec_text`` is all that stands in the spec's file, from which the pack can be rebuilt.
    """

    title: str
    seed: int
    code: str
    versions: int
    sections: tuple[Section, ...]
    presentation: Presentation
    look: int = 0
    spec_text: str = ""

    def of_kind(self, kind: str) -> tuple[Section, ...]:
        """The sections of one kind, in order."""
        return tuple(section for section in self.sections if section.kind == kind)

    @property
    def tiers(self) -> tuple[str, ...]:
        """The names of the practice tiers, in order."""
        return tuple(dict.fromkeys(s.name for s in self.of_kind("practice")))
