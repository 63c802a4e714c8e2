"""Retrieval: questions from the rungs of earlier specs, ``earlier: {last-week.yaml: 2}``.

The rungs that are asked join the spec's own ladder under names that say which file they come from,
and their counts the section's own; from then on they are rungs like any other.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import PurePath
from types import MappingProxyType
from typing import Any, Final

from specs import yaml_text
from specs.canonical import Plain
from specs.entries import COUNT
from specs.languages.saying import Saying, say
from specs.names import LONGEST_NAME, PATTERN, plain_name, tidied
from specs.problems import Reading, choose_from, quoted, write
from specs.shapes import UNREAD, Notation, Shape, Unread
from specs.spec import RungSpec, Share
from specs.spellings import folded
from specs.yaml_text import Node, Scalar

EARLIER: Final = "earlier"

MOST_FILES: Final = 12
"""Earlier specs that one spec may take rungs from."""

FILE: Final = r"^[^\"'#:\n\0/\\{}\[\]]{1,100}\.ya?ml$"
"""A file beside the spec: no other folder is looked into."""

OtherLadders = Mapping[str, Mapping[str, RungSpec]]
"""By the name of each earlier file its rungs, by the names that they have there; a rung itself
has the name that it is given here."""

NO_OTHERS: Final[OtherLadders] = MappingProxyType({})

SAYS: Final = say(
    "Questions from the rungs of earlier specs, files beside this one, after those of 'questions': "
    "{{last-lesson.yaml: 3, last-week.yaml: 2, last-month.yaml: 1}}. So many of each file, spread "
    "evenly over its ladder: one is from the middle, as many as it has rungs one from each; or by "
    "rung, {{last-week.yaml: {{ragged: 2}}}}. Such a rung is called last-week-ragged here."
)


def name_here(file: str, rung: str) -> str:
    """What a rung of an earlier file is called: ``last-week-ragged``, the file cut to fit."""
    stem = PurePath(file).stem
    before = plain_name(stem) or plain_name(f"{EARLIER}-{stem}") or EARLIER
    room = max(1, LONGEST_NAME - 1 - len(rung))
    return f"{before[:room].rstrip('-')}-{rung}"[:LONGEST_NAME].rstrip("-")


def spread(asked: int, rungs: int) -> list[int]:
    """How many questions each rung of a ladder gives, so that all are spread evenly over it.

    The ladder is cut into as many equal lengths as questions are asked; each is from the rung at
    the middle of its length, the harder where two meet there.
    """
    counts = [0] * rungs
    for at in range(asked):
        counts[(2 * at + 1) * rungs // (2 * asked)] += 1
    return counts


def files_named(node: Node) -> Iterator[Scalar]:
    """The files that stand below ``earlier`` anywhere in a spec, each as often as it stands."""
    waiting = [node]
    while waiting:
        here = waiting.pop(0)
        if isinstance(here, yaml_text.Sequence):
            waiting.extend(here.items)
        for key, value in here.entries if isinstance(here, yaml_text.Mapping) else ():
            waiting.append(value)
            if folded(key.text) == EARLIER and isinstance(value, yaml_text.Mapping):
                yield from (file for file, _ in value.entries if re.match(FILE, file.text))


@dataclass(frozen=True)
class EarlierCounts(Shape[tuple[Share, ...]]):
    """Earlier files with a count each, or with a count for each of some rungs.

    ``ladders`` are those of the files that could be read; what is wrong with others has been
    reported.
    """

    ladders: OtherLadders = field(default_factory=dict, hash=False)
    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> Saying:
        """``files beside the spec with a count each``."""
        return say("files beside the spec with a count each, such as {{last-week.yaml: 2}}")

    def read(self, node: Node, reading: Reading) -> tuple[Share, ...] | Unread:
        """So many questions from each rung, in the order of the files and of their ladders."""
        if not isinstance(node, yaml_text.Mapping) or not node.entries:
            return self.refuse(node, reading)
        counts: dict[str, Share] = {}
        good = True
        for file, value in node.entries:
            if not re.match(FILE, file.text):
                what = say(
                    "{file} in {subject} is no file beside the spec",
                    file=quoted(file.text),
                    subject=reading.subject,
                )
                reading.problem(file.line, what, write(self.says))
                good = False
                continue
            found = self._of_file(file, value, reading.about(file.text, file.line))
            good = good and not isinstance(found, Unread)
            for share in () if isinstance(found, Unread) else found:
                counts[share.rung] = share
        return tuple(counts.values()) if good else UNREAD

    def _of_file(self, file: Scalar, node: Node, reading: Reading) -> tuple[Share, ...] | Unread:
        ladder = self.ladders.get(file.text, {})
        if isinstance(node, yaml_text.Mapping) and node.entries:
            return self._by_rung(file, tidied(node, reading), ladder, reading)
        asked = COUNT.read(node, reading)
        if isinstance(asked, Unread) or not ladder:
            return UNREAD
        counts = zip(ladder.values(), spread(asked, len(ladder)), strict=True)
        return tuple(Share(rung.name, count, file.line) for rung, count in counts if count)

    def _by_rung(
        self,
        file: Scalar,
        node: yaml_text.Mapping,
        ladder: Mapping[str, RungSpec],
        reading: Reading,
    ) -> tuple[Share, ...] | Unread:
        shares = []
        for name, value in node.entries:
            count = COUNT.read(value, reading.about(name.text, name.line))
            if ladder and name.text not in ladder:
                what = say(
                    "the ladder of {file} has no rung {name}",
                    file=quoted(file.text),
                    name=quoted(name.text),
                )
                reading.problem(name.line, what, choose_from(name.text, tuple(ladder)))
            elif ladder and not isinstance(count, Unread):
                shares.append(Share(ladder[name.text].name, count, name.line))
        return tuple(shares) if len(shares) == len(node.entries) else UNREAD

    def plain(self, value: tuple[Share, ...]) -> Plain:
        """Nothing: what is read stands among the section's questions."""
        return {}

    def holds(self, value: object) -> bool:
        """Some shares."""
        return isinstance(value, tuple) and bool(value)

    def schema(self) -> dict[str, Any]:
        """An object whose properties are names of files."""
        by_rung = {
            "type": "object",
            "minProperties": 1,
            "propertyNames": {"pattern": PATTERN},
            "additionalProperties": COUNT.schema(),
        }
        return {
            "type": "object",
            "minProperties": 1,
            "maxProperties": MOST_FILES,
            "propertyNames": {"pattern": r"^[^\"'#:/\\{}\[\]]{1,100}\.ya?ml$"},
            "additionalProperties": {"anyOf": [COUNT.schema(), by_rung]},
        }
