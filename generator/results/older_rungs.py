"""Rungs of earlier packs that come again in tomorrow's starter, at intervals that double.

What was practised comes again after one further pack, after two, four, eight and so on: of the
earlier packs, the newest first, the 1st, 2nd, 4th, 8th … are *due*. Practice that is spread out is
remembered longer than the same practice at once, in mathematics too (Rohrer and Taylor 2006 and
2007); the further off the day on which it is to be remembered, the wider the best gap (Cepeda and
others 2008), for which gaps that widen from one return to the next do (Landauer and Bjork 1978).
These are cited from memory; that gaps double is common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import takewhile
from typing import Final

from generator.results.class_results import ClassResults
from generator.results.weighing import Choice, needs
from specs.languages.saying import NOTHING, Saying, say, several
from specs.names import LONGEST_NAME
from specs.spec import RungSpec, Spec

FIRST_GAP: Final = 1
"""Packs after which a rung comes again for the first time."""


@dataclass(frozen=True, slots=True)
class EarlierPack:
    """A pack that the class had before: its spec, and the rungs of which it asked questions.

    ``results`` are those of its marks, where they are known.
    """

    spec: Spec
    asked: frozenset[str]
    results: ClassResults | None = None


@dataclass(frozen=True, slots=True)
class Older:
    """A rung of an earlier pack, by a name that is free on tomorrow's ladder, and its questions."""

    rung: RungSpec
    choice: Choice


def due(packs: int) -> Iterator[int]:
    """Which of so many earlier packs are due, 1 for the newest: 1, 2, 4, 8 …"""
    gaps = (FIRST_GAP << doubled for doubled in range(packs + 1))
    return takewhile(lambda back: back <= packs, gaps)


def older_rungs(
    spec: Spec, today: frozenset[str], earlier: Sequence[EarlierPack], questions: int, turn: int
) -> tuple[Older, ...]:
    """So many questions from rungs of the earlier packs that are due, a pack after another.

    ``earlier`` has the newest first; ``today`` names the rungs of ``spec`` that were asked today,
    which are not older. Of a pack whose marks are known the rung where most went wrong comes
    first; of another the rungs come in the ladder's order, beginning with that of the ``turn``.
    """
    seen = [rung.plain for rung in spec.ladder if rung.name in today]
    waiting: list[tuple[int, list[tuple[RungSpec, Saying]]]] = []
    for back in due(len(earlier)):
        rungs = []
        for rung, why in _in_turn(earlier[back - 1], turn):
            if rung.plain not in seen:
                seen.append(rung.plain)
                rungs.append((rung, why))
        if rungs:
            waiting.append((back, rungs))
    counts: dict[tuple[int, int], int] = {}
    for at in range(questions if waiting else 0):
        pack, time = at % len(waiting), at // len(waiting)
        known = pack, time % len(waiting[pack][1])
        counts[known] = counts.get(known, 0) + 1
    found: list[Older] = []
    for (pack, place), count in sorted(counts.items()):
        back, rungs = waiting[pack]
        rung, why = rungs[place]
        named = _named(rung, [*spec.ladder, *(older.rung for older in found)])
        said = several(
            "to keep it up: from the pack before", "to keep it up: from {count} packs before", back
        )
        if why:
            said = say("{said}, {why}", said=said, why=why)
        found.append(Older(named, Choice(named.name, count, said)))
    return tuple(found)


def _in_turn(pack: EarlierPack, turn: int) -> Iterator[tuple[RungSpec, Saying]]:
    """The rungs that a pack asked, in the order in which they come again, and what went wrong."""
    ladder = [rung.name for rung in pack.spec.ladder if rung.name in pack.asked]
    if pack.results is not None and pack.results.marked:
        found = sorted(
            needs(ladder, pack.results, pack.results.marked), key=lambda need: -need.weight
        )
        yield from ((pack.spec.rung(need.rung), need.why) for need in found)
        return
    begin = turn % len(ladder) if ladder else 0
    yield from ((pack.spec.rung(name), NOTHING) for name in ladder[begin:] + ladder[:begin])


def _named(rung: RungSpec, ladder: Sequence[RungSpec]) -> RungSpec:
    """The rung by the name of its like on the ladder, by its own, or by one with a number."""
    for known in ladder:
        if known.plain == rung.plain:
            return known
    taken = {known.name for known in ladder}
    name, number = rung.name, 1
    while name in taken:
        number += 1
        name = f"{rung.name[: LONGEST_NAME - 1 - len(str(number))]}-{number}"
    return replace(rung, name=name)
