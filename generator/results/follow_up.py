"""Tomorrow's starter: questions weighted to what today's marks show, and what goes with it.

The rungs of today's pack are weighed by what went wrong (``weighing``), and share the questions. A
part of these, ``review``, goes to rungs of earlier packs, at intervals that double
(``older_rungs``); none where no earlier pack is given. Questions of a needed rung must tell apart
the two most frequent habits that showed on it, as far as the rung allows; what the spec's starter
tells apart this one does too, as far as its rungs allow. Where it is not settled how some pupils
work, the questions are chosen to find that out (``to_settle``). On request there are sheets for
groups and for absent pupils (``group_sheets``), in the same pack.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.mistakes import MISTAKES, Mistake, mistake_named
from generator.operations.tells_apart import NAME, words_of
from generator.packs.building import TooFewQuestionsError, build_pack, passed_over
from generator.packs.likely_answers import asks_for_the_answer
from generator.packs.pack import Pack
from generator.packs.telling_apart import CannotTellApartError
from generator.packs.working_out import conventions, usage_of
from generator.results.class_results import ClassResults
from generator.results.group_sheets import (
    CATCH_UP,
    GroupSheet,
    catch_up,
    catch_up_section,
    group_sheets,
    mends,
)
from generator.results.older_rungs import EarlierPack, Older, older_rungs
from generator.results.to_settle import ToSettle, to_settle
from generator.results.weighing import Choice, habits_on, needs, shared_out
from generator.vocabulary import VOCABULARY
from specs.avoided import MOST_AVOIDED
from specs.languages.saying import Saying, grouped, say
from specs.reading import read_spec
from specs.spec import (
    EXAMPLES,
    PLAIN,
    PRACTICE,
    STARTER,
    BySheet,
    Methods,
    Part,
    RungSpec,
    SectionSpec,
    Share,
    Spec,
)
from specs.writing import spec_text

__all__ = [
    "CATCH_UP",
    "FILE",
    "SEEDS_TRIED",
    "Choice",
    "EarlierPack",
    "FollowUp",
    "GroupSheet",
    "NothingToFollowError",
    "ToSettle",
    "TooManyAvoidedError",
    "Weighting",
    "follow_up",
]

MOST_TOLD_APART: Final = 2
SEEDS_TRIED: Final = 8
USUAL_MINUTES: Final = 10
LONGEST_TITLE: Final = 80
FILE: Final = "follow-up.yaml"
_ENDING: Final = say(": tomorrow's starter")


@dataclass(frozen=True, slots=True)
class Weighting:
    """How tomorrow's questions are shared out, and which sheets there are beside the starter.

    ``review`` is the share for rungs of earlier packs, from 0 to 1; ``habits`` what a class with
    one habit counts for beside a class with only wrong answers. ``groups`` asks for a sheet for
    each group, with as many questions as the starter; ``catch_up`` for one for absent pupils.
    """

    questions: int = 6
    review: Fraction = Fraction(1, 3)
    habits: int = 1
    groups: bool = False
    catch_up: bool = False


@dataclass(frozen=True, slots=True)
class FollowUp:
    """Tomorrow's spec and pack, which the spec and its seed give again.

    ``listed`` is how many questions asked before the spec names, to be avoided, because they
    stood in the pack's way. ``groups`` are the sheets for groups, ``catch_up`` what is on that
    for absent pupils. ``to_settle`` says what sections are chosen to find out.
    """

    spec: Spec
    pack: Pack
    choices: tuple[Choice, ...]
    listed: int = 0
    groups: tuple[GroupSheet, ...] = ()
    catch_up: tuple[Choice, ...] = ()
    to_settle: tuple[ToSettle, ...] = ()


class TooManyAvoidedError(Exception):
    """More questions stand in the way of a starter than its spec can name."""

    def __init__(self, what: Saying) -> None:
        self.what = what
        super().__init__(what)


class NothingToFollowError(Exception):
    """There is no answer on the mark sheet, so nothing follows from it."""

    def __init__(self, what: Saying) -> None:
        self.what = what
        super().__init__(what)


@dataclass(slots=True)
class _Wanted:
    """What tomorrow's pack is to have; what its questions cannot tell apart is taken out of it."""

    choices: tuple[Choice, ...]
    older: tuple[Older, ...]
    groups: tuple[GroupSheet, ...]
    catch_up: tuple[Choice, ...]
    habits: dict[str, tuple[Mistake, ...]]
    together: tuple[str, ...]
    untold: set[str] = field(default_factory=set)
    """The groups whose questions cannot all show their habit."""
    to_settle: dict[str, ToSettle] = field(default_factory=dict)
    """What sections are to find out, by their names."""

    def finds_out(self, section: str) -> tuple[str, ...]:
        """What a section's spec says of that; () for nothing."""
        return self.to_settle[section].finds_out if section in self.to_settle else ()


def follow_up(
    spec: Spec,
    results: ClassResults,
    weighting: Weighting,
    seeds: Sequence[int],
    avoided: Collection[Question],
    earlier: Sequence[EarlierPack] = (),
) -> FollowUp:
    """Tomorrow's starter for a class, with no question among those avoided.

    ``earlier`` are packs that the class had before, the newest first. ``seeds`` are tried in turn
    for a pack that avoids the questions by itself; when none does, they are drawn around them with
    the first, and the spec names those that stood in the way. Raises NothingToFollowError;
    TooFewQuestionsError when so many questions are avoided that too few are left;
    TooManyAvoidedError when a spec cannot name them all.
    """
    spec = replace(spec, ladder=tuple(rung for rung in spec.ladder if not mends(rung)))
    wanted = _wanted(spec, results, weighting, earlier, seeds[0])
    while True:
        read = _spec(spec, wanted)
        try:
            read, pack = _drawn(read, seeds, avoided)
        except CannotTellApartError as error:
            if not _asks_for_less(wanted, read, error):
                raise
        else:
            older = tuple(one.choice for one in wanted.older)
            return FollowUp(
                read,
                pack,
                older + wanted.choices,
                len(read.avoid) - len(spec.avoid),
                wanted.groups,
                wanted.catch_up,
                tuple(_asked(results, wanted, pack)),
            )


def _asked(results: ClassResults, wanted: _Wanted, pack: Pack) -> Iterator[ToSettle]:
    """What each section is to find out, with what the questions chosen would settle."""
    for section in pack.sections:
        if section.name in wanted.to_settle:
            questions = [item.question for item in section.items if asks_for_the_answer(item)]
            yield wanted.to_settle[section.name].asked(results.marked, questions)


def _wanted(
    spec: Spec,
    results: ClassResults,
    weighting: Weighting,
    earlier: Sequence[EarlierPack],
    seed: int,
) -> _Wanted:
    ladder = [rung.name for rung in spec.ladder]
    weighed = needs(ladder, results, results.marked, weighting.habits)
    if not weighed:
        raise NothingToFollowError(say("no question of the ladder has an answer yet"))
    share = weighting.review * weighting.questions + Fraction(1, 2)  # a half goes up
    review = min(share.numerator // share.denominator, weighting.questions - 1)
    today = frozenset(result.column.item.rung for result in results.questions)
    older = older_rungs(spec, today, earlier, review, seed)
    review = sum(one.choice.count for one in older)
    choices = shared_out(ladder, weighed, weighting.questions - review)
    rungs = [*(spec.rung(one.rung) for one in choices), *(one.rung for one in older)]
    groups = (
        group_sheets(spec, results, weighting.questions, weighting.habits)
        if weighting.groups
        else ()
    )
    return _Wanted(
        choices,
        older,
        groups,
        catch_up(spec, results) if weighting.catch_up else (),
        {
            choice.rung: habits_on(choice.rung, results, results.marked)[:MOST_TOLD_APART]
            for choice in choices
        },
        _told_apart_together(spec, rungs),
        to_settle=dict(_to_settle(spec, results, rungs, groups)),
    )


def _to_settle(
    spec: Spec, results: ClassResults, rungs: Sequence[RungSpec], groups: Sequence[GroupSheet]
) -> Iterator[tuple[str, ToSettle]]:
    """What the starter, of those rungs, and the sheets of groups are to find out."""
    sections = [(STARTER, results.marked, rungs)]
    for sheet in groups:
        pupils = tuple(p for p in results.marked if p.pupil in sheet.group.pupils)
        sections.append((sheet.name, pupils, [spec.rung(one.rung) for one in sheet.choices]))
    for name, pupils, of_section in sections:
        methods = _methods(spec, [rung.name for rung in of_section])
        ways = conventions(spec.presentation, methods).ways
        found = to_settle(name, pupils, of_section, ways)
        if found is not None:
            yield name, found


def _asks_for_less(wanted: _Wanted, read: Spec, error: CannotTellApartError) -> bool:
    """Take out what the questions of a rung or section cannot tell apart; whether there was any."""
    if error.rung is not None:
        if not wanted.habits.get(error.rung.name):
            return False
        wanted.habits[error.rung.name] = wanted.habits[error.rung.name][:-1]
        return True
    for section in read.sections:
        if section.finds_out and section.finds_out_line == error.line:
            return wanted.to_settle.pop(section.name, None) is not None
        if section.name != STARTER and section.tells_apart_line == error.line:
            wanted.untold.add(section.name)
            return True
    asked = bool(wanted.together)
    wanted.together = ()
    return asked


def _drawn(spec: Spec, seeds: Sequence[int], avoided: Collection[Question]) -> tuple[Spec, Pack]:
    """The pack of the first seed that avoids the questions, and the spec that gives it."""
    identities = {question.identity for question in avoided}
    for seed in seeds:
        try:
            pack = build_pack(spec, seed)
        except TooFewQuestionsError:
            break
        asked = (item.question for section in pack.sections for item in section.items)
        if not any(question.identity in identities for question in asked):
            return spec, pack
    names = (*spec.avoid, *passed_over(spec, seeds[0], avoided))
    if len(names) > MOST_AVOIDED:
        raise TooManyAvoidedError(
            say(
                "{count} questions asked before stand in the way, more than the {most} that a spec "
                "can name; give another seed, or name fewer packs",
                count=grouped(len(names)),
                most=grouped(MOST_AVOIDED),
            )
        )
    around = _read(replace(spec, avoid=names))
    return around, build_pack(around, seeds[0])


def _told_apart_together(spec: Spec, rungs: Sequence[RungSpec]) -> tuple[str, ...]:
    """The mistakes that the starter tells apart and that go with rungs of tomorrow's."""
    starter = spec.first(STARTER)
    if starter is None:
        return ()
    operations = {Operation(rung.operation) for rung in rungs if rung.form == PLAIN}
    return tuple(
        name for name in starter.tells_apart if operations & mistake_named(name).operations
    )


def _spec(spec: Spec, wanted: _Wanted) -> Spec:
    """Tomorrow's spec: the whole ladder with the older rungs, the starter, and further sheets."""
    before = spec.first(STARTER)
    minutes = before.minutes if before else USUAL_MINUTES
    frames = before.frames if before else None
    asked = (*(one.choice for one in wanted.older), *wanted.choices)
    shares = tuple(Share(choice.rung, choice.count) for choice in asked)
    starter = SectionSpec(
        STARTER,
        shares,
        minutes,
        frames,
        tells_apart=wanted.together,
        finds_out=wanted.finds_out(STARTER),
        methods=_methods(spec, [share.rung for share in shares]),
    )
    known = {rung.name for rung in spec.ladder}
    mending = [sheet.mends for sheet in wanted.groups if sheet.mends is not None]
    # In front, so that what is next on the ladder stays so when the starter is followed.
    ladder = (
        *mending,
        *(one.rung for one in wanted.older if one.rung.name not in known),
        *(_rung(rung, wanted.habits.get(rung.name, ())) for rung in spec.ladder),
    )
    tiers = [
        replace(
            section,
            tells_apart=() if section.name in wanted.untold else section.tells_apart,
            finds_out=wanted.finds_out(section.name),
            methods=_methods(spec, [share.rung for share in section.shares]),
        )
        for section in (sheet.section(ladder, minutes) for sheet in wanted.groups)
    ]
    if wanted.catch_up:
        tiers.append(catch_up_section(wanted.catch_up))
    parts = [Part(STARTER, starter)]
    if mending:
        shown = tuple(Share(rung.name, 1) for rung in mending)
        parts.append(Part(EXAMPLES, SectionSpec(EXAMPLES, shown)))
    if tiers:
        parts.append(Part(PRACTICE, SectionSpec(PRACTICE, (), tiers=tuple(tiers))))
    ending = usage_of(spec.presentation).says(_ENDING)
    title = shortened(spec.title.removesuffix(ending), LONGEST_TITLE - len(ending))
    return _read(
        replace(
            spec,
            title=title + ending,
            ladder=ladder,
            parts=tuple(parts),
            versions=BySheet(),
            keep=(),
        )
    )


def shortened(title: str, most: int) -> str:
    """A title in at most so many letters: its first clauses, or else its first words, and "…"."""
    if len(title) <= most:
        return title
    room = title[:most]  # of which the ellipsis takes one
    clause = max(room.rfind(mark) for mark in (", ", "; ", ": "))
    word = room.rfind(" ")
    end = clause if clause > most // 2 else word if word > 0 else most - 1
    return f"{room[:end].rstrip(' ,;:')}…"


def _methods(spec: Spec, rungs: Collection[str]) -> Methods:
    """The written methods of the sections that asked some rungs, where these have the same of
    their own; those of the whole lesson otherwise.
    """
    asked = {
        section.methods
        for section in spec.sections
        if any(share.rung in rungs for share in section.shares)
    }
    return asked.pop() if len(asked) == 1 else Methods()


def _read(wanted: Spec) -> Spec:
    """A spec as it reads when it has been written out."""
    return read_spec(spec_text(wanted).encode(), FILE, VOCABULARY)


def _rung(rung: RungSpec, habits: tuple[Mistake, ...]) -> RungSpec:
    """A rung whose questions tell some habits apart, where they show in its answers.

    As it is where its spec asks for that already.
    """
    names = tuple(mistake.name for mistake in MISTAKES if mistake in habits)
    asked_already = any(condition.word == NAME for condition in rung.conditions)
    if not names or asked_already or rung.form != PLAIN:
        return rung
    (word,) = (word for word in words_of(MISTAKES) if rung.operation in word.operations)
    return replace(rung, conditions=(*rung.conditions, word.condition(names)))
