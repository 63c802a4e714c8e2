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
from rungsheet.desk.rungs import called
from specs.languages.saying import Saying, joined, say, several
from specs.problems import listed

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
    def said(self) -> tuple[Saying, ...]:
        """The choices in words, a line each."""
        return tuple(self._lines())

    def _lines(self) -> Iterator[Saying]:
        for choice in self.choices:
            rung = self._called(choice)
            yield say("{rung}: {count} ({why})", rung=rung, count=choice.count, why=choice.why)
        yield from map(self._of_a_group, self.groups)
        yield from map(_chosen_to_settle, self.to_settle)
        if self.left_open:
            yield say(
                "not settled either of {pupils}, and none of these rungs shows what is in question",
                pupils=listed(self.left_open, "and"),
            )
        if self.without_sheet:
            pupils = ", ".join(self.without_sheet)
            yield say("no sheet for {pupils}: there are more groups than sheets", pupils=pupils)
        if self.catch_up:
            asked, absent = self._asked(self.catch_up), ", ".join(self.absent)
            if absent:
                yield say(
                    "{sheet}: {asked}; for {pupils}", sheet=CATCH_UP, asked=asked, pupils=absent
                )
            else:
                yield say("{sheet}: {asked}; nobody was absent", sheet=CATCH_UP, asked=asked)
        if self.avoided:
            yield several(
                "{count} question asked before stood in the way; {file} names it below 'avoid:'",
                "{count} questions asked before stood in the way; {file} names them below 'avoid:'",
                self.avoided,
                file=SPEC_FILE,
            )

    def _of_a_group(self, sheet: GroupSheet) -> Saying:
        said = say(
            "{sheet}: {asked}; for {pupils} ({group})",
            sheet=sheet.name,
            asked=self._asked(sheet.choices),
            pupils=joined(self._pupils(sheet), between=", "),
            group=sheet.group.name,
        )
        mended = say("and examples.pdf puts it right") if sheet.mends else ""
        return joined((said, mended), between=", ")

    def _asked(self, choices: Iterable[Choice]) -> str:
        return ", ".join(f"{self._called(choice)} {choice.count}" for choice in choices)

    def _called(self, choice: Choice) -> str:
        return called(self.built.spec.rung(choice.rung))

    def _pupils(self, sheet: GroupSheet) -> Iterator[str]:
        """The pupils of a group; of one with two habits, which other sheets there are."""
        for pupil in sheet.group.pupils:
            others = [o.name for o in self.groups if o is not sheet and pupil in o.group.pupils]
            if others:
                yield say("{pupil} ({sheets} too)", pupil=pupil, sheets=listed(others, "and"))
            else:
                yield pupil


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


def _chosen_to_settle(one: ToSettle) -> Saying:
    """What a section is chosen to find out, of whom, and of how many that would be enough."""
    said = say(
        "{section}: chosen to find out what is not settled of {pupils}",
        section=one.section,
        pupils=listed(one.pupils, "and"),
    )
    habits = [say("'{habit}'", habit=habit.title) for habit in one.habits]
    if habits:
        said = joined((said, listed(habits)), between=": ")
    return joined((said, _is_enough(one)), between="; ")


def _is_enough(one: ToSettle) -> Saying:
    if not one.habits:
        return say("nothing points at a habit yet")
    if one.settled == one.pupils:
        return say("they are enough to settle it")
    if not one.settled:
        return say("it may take more than these")
    return say("enough to settle it of {pupils}", pupils=listed(one.settled, "and"))


def _left_open(to_settle: Sequence[ToSettle], marked: Marked) -> tuple[str, ...]:
    asked = {pupil for one in to_settle for pupil in one.pupils}
    return tuple(p.pupil for p in marked.results.marked if p.in_question and p.pupil not in asked)


def _without_sheet(sheets: Sequence[GroupSheet], marked: Marked) -> tuple[str, ...]:
    served = {pupil for sheet in sheets for pupil in sheet.group.pupils}
    return tuple(p.pupil for p in marked.results.marked if p.pupil not in served)


def _spec_of(pack: PackRecord, name: str) -> specs.Spec:
    if not pack.spec_text:
        what = say("its pack.json holds no spec")
        raise Refused(Problem(name, None, what, say("build the pack again")))
    return specs.read(pack.spec_text, say("{name}: its spec", name=name))
