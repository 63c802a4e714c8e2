"""What a pack's answers will tell, before it is printed.

Simulated pupils, some with each habit that the pack can show and some careful ones, answer it
(``simulated_pupils``) and are judged (``judging_many``); what is said of each is counted.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from operator import mul
from typing import Any, Final

import numpy as np

from generator.numbered.seeds import key
from generator.operations.mistakes import (
    EVERY_MISTAKE,
    Mistake,
    mistakes_searched_for,
    with_mistakes_of_their_own,
)
from generator.packs.pack import Pack, Section
from generator.packs.working_out import conventions
from generator.results.diagnosis import FEWEST_ANSWERS, NAMED_FROM
from generator.results.judging_many import Judged, judged, mean
from generator.results.pupil_model import PUBLISHED, rounded
from generator.results.simulated_pupils import Flags, Written, answered
from specs.languages.saying import say

PUPILS: Final = 10_000
"""How many are simulated, shared equally among careful ones and those with each habit."""

CLASS: Final = 30
"""Pupils in a class, for what is foreseen of one."""

MENTIONED_FROM: Final = Fraction(3, 100)
"""What a habit may be taken for is mentioned when it is thought so likely, on average."""


@dataclass(frozen=True, slots=True)
class Rival:
    """What a pupil with a habit may be taken to do, and how likely that is thought on average.

    ``mistake`` is None for careful work with slips and for what is not known.
    """

    mistake: Mistake | None
    chance: Fraction


@dataclass(frozen=True, slots=True)
class HabitForeseen:
    """What answers will tell of pupils with a habit.

    ``named`` has the share of them who are said to have it and ``shows`` on how many questions it
    shows, after each stage. ``alike`` are habits that no question of the pack tells from it;
    ``rivals`` what else it may be taken for after the last stage, likelier ones first.
    """

    mistake: Mistake
    shows: tuple[int, ...]
    named: tuple[Fraction, ...]
    alike: tuple[Mistake, ...]
    rivals: tuple[Rival, ...]


@dataclass(frozen=True, slots=True)
class ClassForeseen:
    """What is to be expected of a class of CLASS after a stage.

    So many ``habits`` that the pack can show, of which so many are ``named``; ``wrongly`` are
    habits said of pupils who do not have them.
    """

    habits: Fraction
    named: Fraction
    wrongly: Fraction


@dataclass(frozen=True, slots=True)
class Stage:
    """After what is looked: all of some sections of a pack, called after the last."""

    name: str
    sections: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Foresight:
    """What the answers to a pack will tell, after each stage.

    ``unseen`` are habits of such questions that no answer can show. ``called`` is the share of
    careful pupils who are said to have a habit.
    """

    stages: tuple[Stage, ...]
    pupils: int
    habits: tuple[HabitForeseen, ...]
    unseen: tuple[Mistake, ...]
    called: tuple[Fraction, ...]
    of_class: tuple[ClassForeseen, ...]
    in_a_class: int = CLASS
    sure: float = NAMED_FROM

    @property
    def plain(self) -> dict[str, Any]:
        """The whole as plain data; shares are of 1, rounded to three places."""
        names = [stage.name for stage in self.stages]
        return {
            "pupils": self.pupils,
            "sure": self.sure,
            "stages": [
                {
                    "stage": stage.name,
                    "sections": list(stage.sections),
                    "careful_pupils_called": rounded(called, 3),
                    "of_class": {
                        "pupils": self.in_a_class,
                        "habits": rounded(of_class.habits, 3),
                        "named": rounded(of_class.named, 3),
                        "wrongly": rounded(of_class.wrongly, 3),
                    },
                }
                for stage, called, of_class in zip(
                    self.stages, self.called, self.of_class, strict=True
                )
            ],
            "habits": [
                {
                    "mistake": habit.mistake.name,
                    "stages": [
                        {"stage": name, "shows": shows, "named": rounded(named, 3)}
                        for name, shows, named in zip(names, habit.shows, habit.named, strict=True)
                    ],
                    "alike": [mistake.name for mistake in habit.alike],
                    "taken_for": [
                        {
                            "mistake": rival.mistake.name if rival.mistake else None,
                            "chance": rounded(rival.chance, 3),
                        }
                        for rival in habit.rivals
                    ],
                }
                for habit in self.habits
            ],
            "unseen": [mistake.name for mistake in self.unseen],
        }


def stages_of(pack: Pack) -> tuple[Stage, ...]:
    """A stage for each part that can tell something, with those before it. Of tiers, which stand
    side by side, a pupil answers one: what follows leaves them aside, and where there are some
    the last stage is the whole pack.
    """
    stages: list[Stage] = []
    before: tuple[str, ...] = ()
    parts = (one for one in pack.sections if one.version == 1)
    for kind, some in groupby(parts, key=lambda one: one.kind):
        if kind == "example":
            continue
        names = [
            one.name for one in some if any(item.form.asks_for_the_answer for item in one.items)
        ]
        if kind == "practice":
            stages += [Stage(name, (*before, name)) for name in names]
            before += (*names,) if len(names) == 1 else ()
            continue
        for name in names:
            before += (name,)
            stages.append(Stage(name, before))
    everything = tuple(stage.name for stage in stages)
    if stages and stages[-1].sections != everything:
        stages.append(Stage(say("whole pack"), everything))
    return tuple(stages)


def _marked(pack: Pack) -> list[Section]:
    """What is answered on paper, in its first version."""
    return [one for one in pack.sections if one.kind != "example" and one.version == 1]


def foresee(pack: Pack, pupils: int = PUPILS) -> Foresight:
    """What the answers to the first version of a pack will tell."""
    stages = stages_of(pack)
    marked = _marked(pack)
    items = [
        (section.name, item.question)
        for section in marked
        for item in section.items
        if item.form.asks_for_the_answer
    ]
    ways = {
        section.name: with_mistakes_of_their_own(
            conventions(pack.presentation, section.asked.methods if section.asked else None).ways
        )
        for section in marked
    }
    asked = [
        Written(question, key(pack.seed, "foresee", at), ways[name])
        for at, (name, question) in enumerate(items)
    ]
    searched = {name: frozenset(mistakes_searched_for(of)) for name, of in ways.items()}
    concerned = [
        mistake
        for mistake in EVERY_MISTAKE
        if any(mistake in searched[name] and mistake.concerns(asks) for name, asks in items)
    ]
    habits = [m for m in concerned if any(m in written.by_procedure for written in asked)]
    each = -(-pupils // (len(habits) + 1))
    answers = answered(asked, (None, *habits), each, key(pack.seed, "foresee"))
    places = [
        [at for at, (name, _) in enumerate(items) if name in stage.sections] for stage in stages
    ]
    found = [
        judged([asked[at] for at in some], answers[:, :, some].reshape(-1, len(some)))
        for some in places
    ]
    sizes = [
        sum(len(one.items) for one in marked if one.name in stage.sections) for stage in stages
    ]
    said = [
        _said(one, len(habits) + 1, habits, enough=size >= FEWEST_ANSWERS)
        for one, size in zip(found, sizes, strict=True)
    ]
    shows = [
        tuple(sum(habit in asked[at].by_procedure for at in some) for some in places)
        for habit in habits
    ]
    return Foresight(
        stages,
        each * (len(habits) + 1),
        tuple(
            HabitForeseen(
                habit,
                shows[at],
                tuple(one.named[at] for one in said),
                _alike(found[-1], habit),
                _rivals(found[-1], habit, slice(each * (at + 1), each * (at + 2))),
            )
            for at, habit in enumerate(habits)
        ),
        tuple(m for m in concerned if m not in habits),
        tuple(one.called for one in said),
        tuple(_of_class(one, habits) for one in said),
    )


@dataclass(frozen=True)
class _Said:
    """Shares of pupils, counted: with each habit, said to have it; and said to have another
    beside or in place of it; of careful ones, said to have any.
    """

    named: tuple[Fraction, ...]
    others: tuple[Fraction, ...]
    called: Fraction


def _said(found: Judged, groups: int, habits: Sequence[Mistake], *, enough: bool) -> _Said:
    named = found.named.reshape(groups, -1, len(found.alike))
    if not enough:
        named = np.zeros_like(named)
    own = np.array([[habit in alike for alike in found.alike] for habit in habits], dtype=bool)
    own = own.reshape(len(habits), len(found.alike))
    right = (named[1:] & own[:, None]).any(axis=2)
    others = (named[1:] & ~own[:, None]).any(axis=2)
    return _Said(
        tuple(map(_share, right)), tuple(map(_share, others)), _share(named[0].any(axis=1))
    )


def _share(pupils: Flags) -> Fraction:
    """The share of some pupils for whom it is so."""
    return Fraction(int(np.count_nonzero(pupils)), pupils.size)


def _alike(found: Judged, habit: Mistake) -> tuple[Mistake, ...]:
    alike = dict.fromkeys(one for some in found.alike if habit in some for one in some)
    for some in found.alike:
        if habit in some:
            alike = {one: None for one in alike if one in some}
    return tuple(one for one in alike if one != habit)


def _rivals(found: Judged, habit: Mistake, pupils: slice) -> tuple[Rival, ...]:
    rivals: dict[Mistake, Fraction] = {}
    for alike, chances in zip(found.alike, found.chances[pupils].T, strict=True):
        if habit not in alike and (chance := mean(chances)) >= MENTIONED_FROM:
            first = next((one for one in alike if not one.together), alike[0])
            rivals[first] = max(chance, rivals.get(first, chance))
    rest = mean(found.careful[pupils])
    listed = [Rival(mistake, chance) for mistake, chance in rivals.items()]
    listed += [Rival(None, rest)] if rest >= MENTIONED_FROM else []
    return tuple(sorted(listed, key=lambda rival: -rival.chance))


def _of_class(said: _Said, habits: Sequence[Mistake]) -> ClassForeseen:
    shares = [Fraction(PUBLISHED.share(habit)) for habit in habits]
    whole = sum(shares, Fraction())
    careful = max(1 - whole, Fraction())
    named, others = (
        sum(map(mul, shares, counted), Fraction()) for counted in (said.named, said.others)
    )
    return ClassForeseen(CLASS * whole, CLASS * named, CLASS * (others + careful * said.called))
