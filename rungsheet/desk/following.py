"""Tomorrow's starter: a spec and a pack weighted to what the marks of today show.

On request with a sheet for each group, what mends its habit, and a sheet for absent pupils.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.results.follow_up import (
    CATCH_UP,
    SEEDS_TRIED,
    Choice,
    EarlierPack,
    GroupSheet,
    ToSettle,
    Weighting,
    follow_up,
)
from generator.results.follow_up import FILE as SPEC_FILE
from rungsheet.desk import specs
from rungsheet.desk.marks import Marked, PackRecord
from rungsheet.desk.packs import GREATEST_SEED, Built, File, of_pack
from rungsheet.desk.problems import Problem, Refused, refusing
from specs.problems import listed, quoted

__all__ = ["SPEC_FILE", "Before", "Choice", "Followed", "GroupSheet", "Weights", "follow"]


@dataclass(frozen=True, slots=True)
class Weights:
    """How the starter's questions are shared out.

    ``review`` is how many of a hundred ``questions`` go to rungs of earlier packs, ``habits`` what
    a habit weighs beside a wrong answer. ``groups`` and ``catch_up`` ask for further sheets.
    """

    questions: int = 6
    review: int = 33
    habits: int = 1
    groups: bool = False
    catch_up: bool = False


@dataclass(frozen=True, slots=True)
class Before:
    """A pack that the class had before, ``name`` for messages, and its marks if there are any."""

    pack: PackRecord
    name: str
    marked: Marked | None = None


@dataclass(frozen=True, slots=True)
class Followed:
    """The starter with its files, why each rung is in it, and how many questions asked before
    stood in its way: those its spec names, to be avoided.

    ``groups`` are the sheets for groups, ``catch_up`` what is on that for the ``absent``;
    ``without_sheet`` are pupils of groups beyond the most that have one. ``to_settle`` says what
    the questions of sections are chosen to find out; ``left_open`` are pupils of whom no section
    does, as no rung of theirs shows what is in question.
    """

    built: Built
    choices: tuple[Choice, ...]
    avoided: int
    groups: tuple[GroupSheet, ...] = ()
    catch_up: tuple[Choice, ...] = ()
    absent: tuple[str, ...] = ()
    without_sheet: tuple[str, ...] = ()
    to_settle: tuple[ToSettle, ...] = ()
    left_open: tuple[str, ...] = ()

    @property
    def said(self) -> tuple[str, ...]:
        """The choices in words, a line each."""
        lines = [f"{choice.rung}: {choice.count} ({choice.why})" for choice in self.choices]
        for sheet in self.groups:
            asked = ", ".join(f"{choice.rung} {choice.count}" for choice in sheet.choices)
            shown = ", and examples.pdf puts it right" if sheet.mends else ""
            pupils = ", ".join(self._pupils(sheet))
            lines.append(f"{sheet.name}: {asked}; for {pupils} ({sheet.group.name}){shown}")
        lines += map(_chosen_to_settle, self.to_settle)
        if self.left_open:
            lines.append(
                f"not settled either of {listed(self.left_open, 'and')}, and none of these rungs "
                f"shows what is in question"
            )
        if self.without_sheet:
            pupils = ", ".join(self.without_sheet)
            lines.append(f"no sheet for {pupils}: there are more groups than sheets")
        if self.catch_up:
            asked = ", ".join(f"{choice.rung} {choice.count}" for choice in self.catch_up)
            absent = f"for {', '.join(self.absent)}" if self.absent else "nobody was absent"
            lines.append(f"{CATCH_UP}: {asked}; {absent}")
        if self.avoided:
            one = self.avoided == 1
            were = f"{self.avoided} question{'' if one else 's'} asked before stood in the way"
            lines.append(f"{were}; {SPEC_FILE} names {'it' if one else 'them'} below 'avoid:'")
        return tuple(lines)

    def _pupils(self, sheet: GroupSheet) -> Iterator[str]:
        """The pupils of a group; of one with two habits, which other sheets there are."""
        for pupil in sheet.group.pupils:
            others = [o.name for o in self.groups if o is not sheet and pupil in o.group.pupils]
            yield f"{pupil} ({' and '.join(others)} too)" if others else pupil


def follow(
    pack: PackRecord,
    marked: Marked,
    name: str,
    weights: Weights = Weights(),
    seed: int | None = None,
    avoid: Iterable[PackRecord] = (),
    earlier: Sequence[Before] = (),
) -> Followed:
    """Tomorrow's starter for a class whose marks were read; ``name`` is the pack's.

    No question of the pack, of ``earlier`` ones (the newest first, from which older rungs come) or
    of those to ``avoid`` comes again. Without a ``seed`` those after the pack's are tried.
    """
    spec = _spec_of(pack, name)
    before = [
        EarlierPack(
            _spec_of(one.pack, one.name),
            frozenset(item.rung for section in one.pack.sections for item in section.items),
            one.marked.results if one.marked else None,
        )
        for one in earlier
    ]
    after = (pack.seed + further for further in range(1, SEEDS_TRIED + 1))
    seeds = [seed] if seed is not None else [one % (GREATEST_SEED + 1) for one in after]
    asked_before = [
        question
        for one in (pack, *(one.pack for one in earlier), *avoid)
        for question in one.questions
    ]
    weighting = Weighting(
        weights.questions,
        Fraction(weights.review, 100),
        weights.habits,
        weights.groups,
        weights.catch_up,
    )
    with refusing(name):
        found = follow_up(spec, marked.results, weighting, seeds, asked_before, before)
    extra = File(SPEC_FILE, "spec", found.spec.text.encode())
    return Followed(
        of_pack(found.spec, found.pack, (extra,)),
        found.choices,
        found.listed,
        found.groups,
        found.catch_up,
        marked.results.absent,
        _without_sheet(found.groups, marked) if weights.groups else (),
        found.to_settle,
        _left_open(found.to_settle, marked),
    )


def _chosen_to_settle(one: ToSettle) -> str:
    """What a section is chosen to find out, of whom, and of how many that would be enough."""
    pupils = listed(one.pupils, "and")
    said = f"{one.section}: chosen to find out what is not settled of {pupils}"
    if not one.habits:
        return f"{said}; nothing points at a habit yet"
    said += f": {listed([quoted(habit.title) for habit in one.habits])}"
    if one.settled == one.pupils:
        return f"{said}; they are enough to settle it"
    if not one.settled:
        return f"{said}; it may take more than these"
    return f"{said}; enough to settle it of {listed(one.settled, 'and')}"


def _left_open(to_settle: Sequence[ToSettle], marked: Marked) -> tuple[str, ...]:
    asked = {pupil for one in to_settle for pupil in one.pupils}
    return tuple(p.pupil for p in marked.results.marked if p.in_question and p.pupil not in asked)


def _without_sheet(sheets: Sequence[GroupSheet], marked: Marked) -> tuple[str, ...]:
    served = {pupil for sheet in sheets for pupil in sheet.group.pupils}
    return tuple(p.pupil for p in marked.results.marked if p.pupil not in served)


def _spec_of(pack: PackRecord, name: str) -> specs.Spec:
    if not pack.spec_text:
        raise Refused(Problem(name, None, "its pack.json holds no spec", "build the pack again"))
    return specs.read(pack.spec_text, f"{name}: its spec")
