"""A lesson as a list of parts in its order: each says what it is, and what is asked in it."""

from collections.abc import Iterator
from collections.abc import Mapping as Of
from dataclasses import dataclass, field, replace
from typing import Any, Final

from specs.canonical import Plain
from specs.earlier import OtherLadders
from specs.entries import Rungs
from specs.languages.saying import Saying, say
from specs.problems import Reading, choose_from, listed, quoted
from specs.sections import TIERS, Section, example_words, section_words, tiered_words
from specs.shapes import UNREAD, Defined, Field, Fields, Notation, Shape, Unread
from specs.spec import (
    EXAMPLES,
    EXIT,
    FINDS_OUT,
    HOMEWORK,
    KINDS,
    PRACTICE,
    TELLS_APART,
    Part,
    SectionSpec,
)
from specs.spellings import Also, meant
from specs.words import Vocabulary
from specs.yaml_text import Mapping, Node, Sequence

MOST_PARTS: Final = 20

MEANS: Final[Of[str, Saying]] = {
    "starter": say("Questions that open the lesson."),
    EXAMPLES: say("Rungs shown as a worked question and its match, as in the short form."),
    PRACTICE: say("Sheets of practice: questions for all, or tiers."),
    EXIT: say("Questions on small slips that pupils hand in when they leave."),
    HOMEWORK: say("A sheet to take home."),
}
"""What each kind of part is."""

_ALSO: Final[Also] = {
    **dict.fromkeys(("exit-question", "exit-questions"), EXIT),
    **dict.fromkeys(("example", "worked-examples"), EXAMPLES),
}


@dataclass(frozen=True)
class OfPart(Shape[SectionSpec]):
    """What is asked in a part: a section's words or counts, or tiers beside what they share."""

    kind: str
    vocabulary: Vocabulary
    rungs: Rungs | None = None
    earlier: OtherLadders = field(default_factory=dict, hash=False)

    @property
    def _section(self) -> Shape[SectionSpec]:
        pairs = self.kind == EXAMPLES
        section = Section(self.vocabulary, self.rungs, pairs, self.earlier)
        return Defined.of("examples" if pairs else "section", section)

    @property
    def _tiered(self) -> Fields[SectionSpec]:
        return tiered_words(self._section, self.vocabulary, self.kind, self.rungs)

    @property
    def notations(self) -> frozenset[Notation]:  # type: ignore[override]
        """As a section looks."""
        return self._section.notations

    @property
    def says(self) -> Saying:
        """As its questions say."""
        return self._section.says

    def read(self, node: Node, reading: Reading) -> SectionSpec | Unread:
        """The section, without a name; with its tiers if it has any."""
        words = [key.text for key, _ in node.entries] if isinstance(node, Mapping) else []
        if isinstance(node, Mapping) and any(meant(word, (TIERS,)) for word in words):
            return self._with_tiers(node, reading)
        return self._section.read(node, reading)

    def _with_tiers(self, node: Mapping, reading: Reading) -> SectionSpec | Unread:
        """The part; the habits that it is to find out show in some of the tiers that share them."""
        apart = [entry for entry in node.entries if meant(entry[0].text, (TELLS_APART,))]
        for key, _ in apart:
            what = say(
                "{word} cannot stand beside {other}", word=quoted(key.text), other=quoted(TIERS)
            )
            instead = say(
                "write it in each tier: 'core: {{{word}: …, questions: …}}'", word=TELLS_APART
            )
            reading.problem(key.line, what, instead)
        rest = tuple(entry for entry in node.entries if entry not in apart)
        read = self._tiered.read(Mapping(rest, node.line), reading)
        if isinstance(read, Unread) or apart:
            return UNREAD
        if not read.finds_out:
            return read
        (entry,) = (one for one in node.entries if meant(one[0].text, (FINDS_OUT,)))
        word, value = entry
        section = Section(self.vocabulary, self.rungs, earlier=self.earlier)
        sharing = [tier for tier in read.tiers if not tier.finds_out]
        shares = [share for tier in sharing for share in tier.shares]
        if not sharing:
            what = say(
                "each tier of {subject} says itself what it finds out", subject=reading.subject
            )
            instead = say("leave out this {word}", word=quoted(FINDS_OUT))
            reading.problem(word.line, what, instead)
            return UNREAD
        if not section.mistakes_show(word, value, read.finds_out, shares, reading):
            return UNREAD
        return replace(read, finds_out_line=word.line)

    def _shape(self, value: SectionSpec) -> Shape[SectionSpec]:
        return self._tiered if value.tiers else self._section

    def plain(self, value: SectionSpec) -> Plain:
        """``{level: 3}``, or ``{minutes: 10, tiers: {support: {level: 3}}}``."""
        return self._shape(value).plain(value)

    def write(self, value: SectionSpec) -> str:
        """The same as text."""
        return self._shape(value).write(value)

    def holds(self, value: object) -> bool:
        """A section with questions or tiers."""
        return isinstance(value, SectionSpec) and self._shape(value).holds(value)

    def schema(self) -> dict[str, Any]:
        """A section, or tiers."""
        return {"anyOf": [self._section.schema(), self._tiered.schema()]}


@dataclass(frozen=True)
class Lesson(Shape[tuple[Part, ...]]):
    """Parts in order: ``[{starter: {level: 3}}, {examples: [ragged]}]``."""

    vocabulary: Vocabulary
    rungs: Rungs | None = None
    earlier: OtherLadders = field(default_factory=dict, hash=False)
    notations = frozenset({Notation.LIST})

    @property
    def says(self) -> Saying:
        """What stands below the word."""
        return say("a list of parts, each a line such as '- starter: {{name-of-rung: 3}}'")

    def of(self, kind: str) -> OfPart:
        """What a part of a kind asks."""
        return OfPart(kind, self.vocabulary, self.rungs, self.earlier)

    def read(self, node: Node, reading: Reading) -> tuple[Part, ...] | Unread:
        """The parts in the order written."""
        if not isinstance(node, Sequence) or not node.items:
            return self.refuse(node, reading)
        if len(node.items) > MOST_PARTS:
            what = say(
                "{subject} has {count} parts", subject=reading.subject, count=len(node.items)
            )
            instead = say("keep to {most}", most=MOST_PARTS)
            reading.problem(node.items[MOST_PARTS].line, what, instead)
        found = [self._part(item, reading) for item in node.items[:MOST_PARTS]]
        parts = tuple(part for part in found if part is not None)
        return parts if len(parts) == len(node.items) else UNREAD

    def _part(self, node: Node, reading: Reading) -> Part | None:
        entries = node.entries if isinstance(node, Mapping) else ()
        if len(entries) != 1:
            names = [key.text for key, _ in entries]
            what = say("a part of the lesson does not say what it is")
            instead = say("write one of {words} and a colon after the dash", words=listed(KINDS))
            if len([name for name in names if meant(name, KINDS, _ALSO)]) > 1:
                what = say(
                    "{words} stand in one part of the lesson",
                    words=listed(map(quoted, names), "and"),
                )
                instead = say("begin each part with a dash of its own, '- '")
            elif names and meant(names[0], KINDS, _ALSO):
                what = say(
                    "{word} stands beside {other}, not in it",
                    word=quoted(names[1]),
                    other=quoted(names[0]),
                )
                instead = say("indent it below '{word}:'", word=names[0])
            reading.problem(node.line, what, instead)
            return None
        ((key, value),) = entries
        kind = meant(key.text, KINDS, _ALSO)
        if kind is None:
            what = say("{word} is no part of a lesson", word=quoted(key.text))
            reading.problem(key.line, what, choose_from(key.text, KINDS))
            return None
        asked = self.of(kind).read(value, reading.alone().about(key.text, key.line))
        if isinstance(asked, Unread):
            return None
        return Part(kind, replace(asked, name=kind, line=key.line))

    def plain(self, value: tuple[Part, ...]) -> Plain:
        """``[{starter: {level: 3}}]``."""
        return tuple({part.kind: self.of(part.kind).plain(part.asked)} for part in value)

    def lines(self, value: tuple[Part, ...]) -> Iterator[str]:
        """The parts as text, a line each."""
        for part in value:
            yield f"{part.kind}: {self.of(part.kind).write(part.asked)}"

    def write(self, value: tuple[Part, ...]) -> str:
        """The same in one line."""
        return f"[{', '.join(f'{{{line}}}' for line in self.lines(value))}]"

    def holds(self, value: object) -> bool:
        """Some parts."""
        return (
            isinstance(value, tuple)
            and bool(value)
            and all(isinstance(p, Part) and self.of(p.kind).holds(p.asked) for p in value)
        )

    def schema(self) -> dict[str, Any]:
        """An array of objects with one property each."""
        properties = {kind: self.of(kind).schema() | {"description": MEANS[kind]} for kind in KINDS}
        return {
            "type": "array",
            "minItems": 1,
            "maxItems": MOST_PARTS,
            "items": {
                "type": "object",
                "properties": properties,
                "additionalProperties": False,
                "minProperties": 1,
                "maxProperties": 1,
            },
        }


def other_words(vocabulary: Vocabulary) -> Iterator[tuple[Saying, Of[str, Saying]]]:
    """What stands beside the ladder: a heading for people, and words with what they mean."""
    words = section_words(vocabulary).fields
    pairs = {word: of for word, of in example_words().fields.items() if word not in words}
    tiers = {TIERS: tiered_words(Section(vocabulary), vocabulary).fields[TIERS]}
    yield say("a section: the starter, a tier, practice for all, exit, homework"), said_of(words)
    yield say("examples, beside most of these words"), said_of(pairs)
    yield say("a part of a lesson ('lesson:'), each in a line of its own with a dash"), MEANS
    yield say("a part that has tiers, beside what they all share"), said_of(tiers)


def said_of(words: Of[str, Field]) -> dict[str, Saying]:
    """The words that mean something of their own, each with its sentence."""
    return {word: of.says for word, of in words.items() if of.says}


def check_own_names(sections: tuple[SectionSpec, ...], reading: Reading) -> None:
    """Report each sheet whose name another has: a tier called as a part of the lesson is."""
    named: dict[str, SectionSpec] = {}
    for section in sections:
        before = named.setdefault(section.name, section)
        if before is not section:
            tier = before if before.place and before.place.tier else section
            what = say("two sheets of the lesson would be called {name}", name=quoted(section.name))
            reading.problem(tier.line, what, say("give the tier another name"))
