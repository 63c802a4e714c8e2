"""Sheets beside tomorrow's starter: one for each group with what mends its habit, and a catch-up
sheet for whoever was absent.

A group's rungs are weighed by the answers of its own pupils, and its questions show its habit. What
mends a habit is a pair of examples of the rung on which it showed most: worked by that habit first,
then rightly, and a match for the pupils to put right. A catch-up sheet has two questions of each
rung that the class was asked, from fully set out to bare squares.
"""

import re
from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.questions import Operation
from generator.forms.asking import cannot_be_asked
from generator.forms.spot_the_mistake import SpotTheMistake
from generator.operations import tells_apart, worked_by
from generator.operations.mistakes import MISTAKES, Mistake
from generator.results.class_results import ClassResults, Group, PupilResult
from generator.results.diagnosis import Kind
from generator.results.weighing import (
    ANY,
    NEEDED,
    NEXT_RUNG,
    Choice,
    habits_on,
    needs,
    shared_out,
)
from specs.languages.saying import say
from specs.sections import MOST_TIERS
from specs.spec import FRAMES, PLAIN, RungSpec, SectionSpec, Share, Spec

LOOKED_AT: Final = 200
"""Questions of a rung that are tried for one that can be worked by a habit: where it showed in a
class's answers, one is soon found."""

CATCH_UP: Final = "catch-up"
OF_EACH: Final = 2
"""Questions of each rung on a catch-up sheet: one to see, one to try alone."""

MOST_OF_CATCH_UP: Final = 16
MOST_GROUPS: Final = MOST_TIERS - 1
"""Groups that have a sheet; a spec has so many tiers beside that for catching up."""


@dataclass(frozen=True, slots=True)
class GroupSheet:
    """A group's sheet: its name, the group, its questions, and the rung that mends its habit.

    ``mends`` is None where the group has no habit, or one that cannot be shown on squares.
    """

    name: str
    group: Group
    choices: tuple[Choice, ...]
    mends: RungSpec | None = None

    def section(self, ladder: Collection[RungSpec], minutes: int | None) -> SectionSpec:
        """The sheet as a tier of tomorrow's spec."""
        shares = tuple(Share(choice.rung, choice.count) for choice in self.choices)
        told = (self.group.mistake.name,) if self.group.mistake in MISTAKES else ()
        plain = [rung for rung in ladder if rung.name in {share.rung for share in shares}]
        operations = {Operation(rung.operation) for rung in plain if rung.form == PLAIN}
        if self.group.mistake and not operations & self.group.mistake.operations:
            told = ()
        return SectionSpec(self.name, shares, minutes, tells_apart=told)


def group_sheets(
    spec: Spec, results: ClassResults, questions: int, habits: int
) -> tuple[GroupSheet, ...]:
    """A sheet for each group of the class, in the order of its groups, named ``group-1`` …"""
    ladder = [rung.name for rung in spec.ladder]
    found = []
    for number, group in enumerate(results.groups[:MOST_GROUPS], 1):
        pupils = tuple(pupil for pupil in results.marked if pupil.pupil in group.pupils)
        weighed = needs(ladder, results, pupils, habits)
        if not weighed:
            continue
        if group.finding is Kind.SECURE and group.next_rung in ladder:
            choices: tuple[Choice, ...] = (Choice(group.next_rung, questions, NEXT_RUNG),)
        else:
            least = NEEDED if group.finding is Kind.HABIT else ANY
            choices = shared_out(ladder, weighed, questions, least)
        name = f"group-{number}"
        mending = _mending(spec, group.mistake, results, pupils, f"{name}-mistake")
        found.append(GroupSheet(name, group, choices, mending))
    return tuple(found)


def _mending(
    spec: Spec,
    habit: Mistake | None,
    results: ClassResults,
    pupils: tuple[PupilResult, ...],
    name: str,
) -> RungSpec | None:
    """A rung on which the habit showed, its questions worked by the habit; None where it can't be.

    The rung where most of the pupils showed it comes first.
    """
    if habit is None:
        return None
    weighed = needs([rung.name for rung in spec.ladder], results, pupils)
    for need in sorted(weighed, key=lambda need: -need.weight):
        rung = spec.rung(need.rung)
        if habit not in habits_on(rung.name, results, pupils):
            continue
        wrong = _worked_by(rung, habit, name)
        if wrong is not None:
            return wrong
    return None


def _worked_by(rung: RungSpec, habit: Mistake, name: str) -> RungSpec | None:
    """The rung by another name, worked by the mistake; None where none of it can be shown so."""
    if not Operation(rung.operation).is_calculation or habit not in MISTAKES:
        return None  # mistakes of further methods are shown by none of the ways to work wrongly
    (word,) = (word for word in worked_by.words_of(MISTAKES) if rung.operation in word.operations)
    wrong = replace(
        rung,
        name=name,
        form=SpotTheMistake.name,
        context=(),
        templates=(),
        conditions=(
            *(c for c in rung.conditions if c.word not in (tells_apart.NAME, worked_by.NAME)),
            word.condition((habit.name,)),
        ),
    )
    return None if any(cannot_be_asked((wrong,))) else wrong


def mends(rung: RungSpec) -> bool:
    """Whether a rung is there for a group's examples alone, as its name says."""
    return re.fullmatch(r"group-[0-9]+-mistake", rung.name) is not None


def catch_up(spec: Spec, results: ClassResults) -> tuple[Choice, ...]:
    """What somebody who was absent works: some of each rung that the class was asked."""
    asked = {result.column.item.rung for result in results.questions}
    rungs = [rung.name for rung in spec.ladder if rung.name in asked]
    each = OF_EACH if OF_EACH * len(rungs) <= MOST_OF_CATCH_UP else 1
    return tuple(Choice(rung, each, say("asked today")) for rung in rungs[:MOST_OF_CATCH_UP])


def catch_up_section(choices: tuple[Choice, ...]) -> SectionSpec:
    """The catch-up sheet as a tier of tomorrow's spec, set out less and less."""
    shares = tuple(Share(choice.rung, choice.count) for choice in choices)
    return SectionSpec(CATCH_UP, shares, frames=(FRAMES[0], FRAMES[-1]))
