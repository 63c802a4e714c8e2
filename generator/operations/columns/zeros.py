"""``zeros``: noughts inside numbers and at their ends, allowed, required or forbidden."""

from dataclasses import dataclass, replace

from generator.operations.columns.facts import Column, Fact
from generator.operations.columns.outline import Outline
from specs.languages.saying import say
from specs.shapes import Fields, OneOf
from specs.words import Word


@dataclass(frozen=True, slots=True)
class Noughts:
    """Which noughts numbers may have, inside and at the end: allow, require or forbid.

    None where a spec leaves it open.
    """

    inside: str | None = None
    end: str | None = None


_CHOICE = OneOf("allow", "require", "forbid")

WORD = Word(
    "zeros",
    frozenset({"add", "subtract"}),
    Fields(Noughts, {"inside": _CHOICE, "end": _CHOICE}),
    say(
        "Noughts in the numbers of the question: inside (between other digits) and end (as in 2.50 "
        "or 40), each allow, require (in at least one number) or forbid. When not given, noughts "
        "inside are allowed, and decimals do not end in a nought but whole numbers may."
    ),
)

DEFAULT = Noughts()


@dataclass(frozen=True, slots=True)
class _AtLeastOne:
    """Watches for one nought of a sort."""

    fact: Fact
    start: bool = False

    @property
    def needs(self) -> frozenset[Fact]:
        return frozenset({self.fact})

    def step(self, state: bool, column: Column) -> bool:
        seen = column.inside_zeros if self.fact is Fact.INSIDE_ZEROS else column.end_zeros
        return bool(state) or seen > 0

    def accepts(self, state: bool) -> bool:
        return bool(state)


def narrow(asked: Noughts, outline: Outline) -> Outline:
    """Which noughts a number may have, and which some number must have."""
    inside, end = asked.inside, asked.end
    kinds = (
        replace(
            kind,
            inside_zero=inside != "forbid",
            end_zero=end in ("allow", "require"),
            whole_end_zero=end != "forbid",
        )
        for kind in outline.kinds
    )
    outline = outline.with_kinds(*kinds)
    if inside == "require":
        outline = outline.watched_by(_AtLeastOne(Fact.INSIDE_ZEROS))
    if end == "require":
        outline = outline.watched_by(_AtLeastOne(Fact.END_ZEROS))
    return outline
