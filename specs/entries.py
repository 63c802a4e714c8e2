"""Entries of a list of examples or questions: a teacher's own question, and runs of rungs."""

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from specs import yaml_text
from specs.avoided import Avoided, OneQuestion
from specs.canonical import Plain, flow
from specs.languages.saying import Saying, say
from specs.names import tidy
from specs.problems import Reading, choose_from, quoted, write
from specs.shapes import (
    UNREAD,
    Field,
    Fields,
    Notation,
    OneOf,
    Shape,
    Unread,
    WholeNumber,
    is_nothing,
)
from specs.spec import KEEPS, Run, RungSpec, Share
from specs.yaml_text import Node, Scalar, Sequence

MOST_RUNGS: Final = 60

COUNT: Final = WholeNumber(1, 40)
"""Questions from one rung."""

_RUN_ON: Final = re.compile(r"([A-Za-z][A-Za-z0-9 _-]{0,40}?)[ =]+([0-9]{1,2})")
"""A rung and its count without the colon between them."""

Rungs = Mapping[str, RungSpec | None]
"""The ladder as far as it could be read: None for a rung that could not be."""

LONGEST_RUN: Final = 12
RUN: Final = "run"
"""The word that makes an entry a run."""


def is_rung(name: Scalar, rungs: Collection[str] | None, reading: Reading) -> bool:
    """Whether the ladder has a rung of that name; of an empty one all has been said already."""
    if not rungs or name.text in rungs:
        return True
    known = tuple(rung for rung in rungs if rung.isprintable())[:MOST_RUNGS]
    instead = choose_from(name.text, known) if known else say("name a rung of the ladder")
    what = say("the ladder has no rung {name}", name=quoted(name.text))
    reading.missed(name.text, name.line, what, instead)
    return False


def with_colons(
    node: yaml_text.Mapping, rungs: Collection[str] | None, reading: Reading
) -> yaml_text.Mapping:
    """The entries whose name is apart from their count; ``{level 3}`` is reported.

    A name that the ladder has as it stands only lacks its count.
    """
    entries = []
    for name, value in node.entries:
        run_on = _RUN_ON.fullmatch(name.text)
        if run_on and is_nothing(value) and tidy(name).text not in (rungs or ()):
            what = say("{words} has no colon", words=quoted(name.text))
            reading.problem(name.line, what, write(f"{run_on[1]}: {run_on[2]}"))
        else:
            entries.append((name, value))
    return replace(node, entries=tuple(entries))


@dataclass(frozen=True)
class RungName(Shape[str]):
    """The name of a rung of the ladder, where that is known."""

    rungs: Collection[str] | None = None
    notations = frozenset({Notation.WORD, Notation.NUMBER})

    @property
    def says(self) -> Saying:
        """``the name of a rung``."""
        return say("the name of a rung")

    def read(self, node: Node, reading: Reading) -> str | Unread:
        """The name."""
        if not isinstance(node, Scalar) or not node.text:
            return self.refuse(node, reading)
        name = tidy(node)
        return name.text if is_rung(name, self.rungs, reading) else UNREAD

    def plain(self, value: str) -> Plain:
        """The name."""
        return value

    def holds(self, value: object) -> bool:
        """A name."""
        return isinstance(value, str) and bool(value)

    def schema(self) -> dict[str, Any]:
        """A name."""
        return {"type": "string", "$ref": "#/$defs/rung-name"}


@dataclass(frozen=True)
class _RungsInTurn(Shape[tuple[str, ...]]):
    """Rungs in the order in which a run goes through them; one may come again."""

    rungs: Collection[str] | None = None
    notations = frozenset({Notation.LIST})

    @property
    def says(self) -> Saying:
        """``a list of rungs``."""
        return say("a list of at least two rungs, such as [level-places, one-carry]")

    def read(self, node: Node, reading: Reading) -> tuple[str, ...] | Unread:
        """The names."""
        if not isinstance(node, Sequence) or not 2 <= len(node.items) <= LONGEST_RUN:
            return self.refuse(node, reading)
        names = [RungName(self.rungs).read(item, reading) for item in node.items]
        known = tuple(name for name in names if not isinstance(name, Unread))
        return known if len(known) == len(names) else UNREAD

    def plain(self, value: tuple[str, ...]) -> Plain:
        """The names."""
        return value

    def holds(self, value: object) -> bool:
        """At least two names."""
        return isinstance(value, tuple) and len(value) > 1

    def schema(self) -> dict[str, Any]:
        """An array of names of rungs."""
        names = RungName().schema()
        return {"type": "array", "items": names, "minItems": 2, "maxItems": LONGEST_RUN}


@dataclass(frozen=True, slots=True)
class _Own:
    rung: str = ""
    question: Avoided | None = None


@dataclass(frozen=True, slots=True)
class _Run:
    rungs: tuple[str, ...] = ()
    keep: str = ""


def _own(rungs: Collection[str] | None) -> Fields[_Own]:
    return Fields(
        _Own,
        {
            "rung": Field(RungName(rungs), say("The rung that the question is on.")),
            "question": Field(OneQuestion(), say("The teacher's own question, as it is printed.")),
        },
        required=("rung", "question"),
    )


def _run(rungs: Collection[str] | None) -> Fields[_Run]:
    return Fields(
        _Run,
        {
            RUN: Field(
                _RungsInTurn(rungs),
                say("Rungs in turn, with a question from each."),
                attribute="rungs",
            ),
            "keep": Field(
                OneOf(*KEEPS),
                say(
                    "What all questions of the run share: their first number, their second, or the "
                    "digits of all their numbers, of which only the points are moved."
                ),
            ),
        },
        required=(RUN, "keep"),
    )


@dataclass(frozen=True)
class Entry(Shape[tuple[Share, ...]]):
    """``{rung: ragged, question: 3.46 + 0.2}`` where ``own`` questions go, or
    ``{run: [level, ragged], keep: first number}``: a share for each of its rungs.
    """

    rungs: Collection[str] | None = None
    own: bool = True
    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> Saying:
        """What an entry looks like."""
        run = say("{{run: [name-of-rung, name-of-rung], keep: first number}}")
        if not self.own:
            return run
        return say("{{rung: name-of-rung, question: 3.46 + 0.2}} or {run}", run=run)

    def read(self, node: Node, reading: Reading) -> tuple[Share, ...] | Unread:
        """The share of the question, or those of the run."""
        words = {key.text for key, _ in node.entries} if isinstance(node, yaml_text.Mapping) else ()
        if RUN in words:
            run = _run(self.rungs).read(node, reading)
            if isinstance(run, Unread):
                return UNREAD
            shared = Run(run.keep, node.line)
            return tuple(Share(rung, 1, node.line, run=shared) for rung in run.rungs)
        if self.own and "rung" in words:
            own = _own(self.rungs).read(node, reading)
            if isinstance(own, Unread):
                return UNREAD
            return (Share(own.rung, 1, node.line, own.question),)
        return self.refuse(node, reading)

    def plain(self, value: tuple[Share, ...]) -> Plain:
        """``{rung: ragged, question: 3.46 + 0.2}``, ``{run: [level, ragged], keep: …}``."""
        first = value[0]
        if first.run is not None:
            return {RUN: tuple(share.rung for share in value), "keep": first.run.keep}
        if first.question is not None:
            return {"rung": first.rung, "question": first.question.text}
        return first.rung if first.count == 1 else {first.rung: first.count}

    def write(self, value: tuple[Share, ...]) -> str:
        """The same as text, a question in quotes."""
        (first, *_) = value
        if first.question is not None:
            return f'{{rung: {first.rung}, question: "{first.question.text}"}}'
        return flow(self.plain(value))

    def holds(self, value: object) -> bool:
        """Some shares."""
        return isinstance(value, tuple) and all(isinstance(share, Share) for share in value)

    def schema(self) -> dict[str, Any]:
        """An object of one kind or the other."""
        run = _run(None).schema()
        return {"anyOf": [_own(None).schema(), run]} if self.own else run


def has_more_than_counts(shares: object) -> bool:
    """Whether rungs with a count each do not say all there is to some shares."""
    return isinstance(shares, tuple) and any(share.question or share.run for share in shares)


def numbered(shares: Collection[Share]) -> tuple[Share, ...]:
    """Shares whose runs know which of their section they are, so that no two are one."""
    runs: list[Run] = []
    found = []
    for share in shares:
        if share.run is not None:
            if not runs or share.run is not runs[-1]:
                runs.append(share.run)
            share = replace(share, run=replace(share.run, number=len(runs)))
        found.append(share)
    return tuple(found)


def entries_of(shares: Collection[Share]) -> tuple[tuple[Share, ...], ...]:
    """Shares as a list has them: those of a run together, others by themselves."""
    found: list[list[Share]] = []
    for share in shares:
        if share.run is not None and found and found[-1][0].run == share.run:
            found[-1].append(share)
        else:
            found.append([share])
    return tuple(map(tuple, found))
