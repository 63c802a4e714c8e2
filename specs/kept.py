"""Questions that a pack keeps in their places, whatever its seed: those a teacher has chosen."""

import re
from dataclasses import dataclass
from typing import Any, Final

from specs.avoided import LONGEST, Avoided, no_question
from specs.canonical import Plain
from specs.languages.saying import Saying, say
from specs.names import PATTERN, tidied
from specs.problems import Reading, choose_from, quoted, write
from specs.shapes import UNREAD, Unread
from specs.shapes.shape import Notation, Shape
from specs.spec import EXAMPLES, Kept, SectionSpec
from specs.yaml_text import Mapping, Node, Scalar

_LABEL: Final = re.compile("[a-z]{1,2}")
_EXAMPLE: Final = "{core: {c: '3.4 + 0.27'}}"


@dataclass(frozen=True)
class KeptBySection(Shape[tuple[Kept, ...]]):
    """Sections by name, in each the letters of questions with what is asked there."""

    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> Saying:
        """What stands below the word."""
        return say("sections with letters and their questions, such as {example}", example=_EXAMPLE)

    def read(self, node: Node, reading: Reading) -> tuple[Kept, ...] | Unread:
        """The questions, in alphabetical order of their sections and letters."""
        if not isinstance(node, Mapping) or not node.entries:
            return self.refuse(node, reading)
        found: list[Kept | None] = []
        for section, inside in tidied(node, reading).entries:
            if not isinstance(inside, Mapping) or not inside.entries:
                what = say(
                    "{name} in {subject} keeps no question",
                    name=quoted(section.text),
                    subject=reading.subject,
                )
                reading.problem(section.line, what, write(self.says))
                found.append(None)
                continue
            for label, asked in inside.entries:
                found.append(_read(section.text, label, asked, reading))
        good = [one for one in found if one is not None]
        whole = len(good) == len(found) and len(tidied(node, reading).entries) == len(node.entries)
        return tuple(sorted(good, key=lambda k: (k.section, k.position))) if whole else UNREAD

    def plain(self, value: tuple[Kept, ...]) -> Plain:
        """``{core: {c: 3.4 + 0.27}}``."""
        names = sorted({kept.section for kept in value})
        return {
            name: {kept.label: kept.question.text for kept in value if kept.section == name}
            for name in names
        }

    def write(self, value: tuple[Kept, ...]) -> str:
        """The same as text, each question in quotes."""
        sections = []
        for name in sorted({kept.section for kept in value}):
            inside = (f'{k.label}: "{k.question.text}"' for k in value if k.section == name)
            sections.append(f"{name}: {{{', '.join(inside)}}}")
        return f"{{{', '.join(sections)}}}"

    def holds(self, value: object) -> bool:
        """Some kept questions."""
        return (
            isinstance(value, tuple)
            and bool(value)
            and all(isinstance(item, Kept) for item in value)
        )

    def schema(self) -> dict[str, Any]:
        """An object of objects of strings."""
        return {
            "type": "object",
            "minProperties": 1,
            "propertyNames": {"pattern": PATTERN},
            "additionalProperties": {
                "type": "object",
                "minProperties": 1,
                "propertyNames": {"pattern": f"^{_LABEL.pattern}$"},
                "additionalProperties": {"type": "string", "maxLength": LONGEST},
            },
        }


def _read(section: str, label: Scalar, asked: Node, reading: Reading) -> Kept | None:
    if not _LABEL.fullmatch(label.text):
        what = say(
            "{label} in {subject} is not the letter of a question",
            label=quoted(label.text),
            subject=reading.subject,
        )
        reading.problem(label.line, what, write(_EXAMPLE))
        return None
    question = Avoided.parse(asked.text) if isinstance(asked, Scalar) else None
    if question is None:
        reading.problem(asked.line, no_question(asked, reading), write(_EXAMPLE))
        return None
    return Kept(section, label.text, question, label.line)


KEPT: Final = KeptBySection()


def check_kept(kept: tuple[Kept, ...], sections: tuple[SectionSpec, ...], reading: Reading) -> None:
    """Report what is kept where the pack, of these sections, has no such question.

    Of examples every second question is the match of the one before it, which alone can be kept.
    """
    pairs = {one.name for one in sections if one.place and one.place.kind == EXAMPLES}
    sizes = {one.name: one.questions * (2 if one.name in pairs else 1) for one in sections}
    for one in kept:
        if one.section not in sizes:
            what = say("'keep' names {name}, which is no section", name=quoted(one.section))
            instead = choose_from(one.section, tuple(sizes)) if sizes else say("leave it out")
            reading.problem(one.line, what, instead)
        elif one.position >= sizes[one.section]:
            what = say("{section} has no question {label}", section=one.section, label=one.label)
            instead = say("it has {count}, from a on", count=sizes[one.section])
            reading.problem(one.line, what, instead)
        elif one.section in pairs and one.position % 2:
            what = say(
                "{label} in {section} is the match of the example before it",
                label=one.label,
                section=one.section,
            )
            reading.problem(one.line, what, say("keep the example; its match follows"))
