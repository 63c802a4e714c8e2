"""Questions that find out who works how: which question of a rung says most, and how much.

The hypotheses are *ways of working*: carefully, or by one wrong procedure. A question parts them
by the answer that each gives. Two ways that give different answers are told apart by it, though
never for certain: a slip may hide the difference, and nobody follows a wrong procedure every
time. What two answer distributions still have in common is their *overlap* (A. Bhattacharyya,
1943; from memory). Of several questions overlaps multiply, and the chance to name the wrong way
is at most the sum, over pairs of ways, of overlap times the root of both chances (T. Kailath,
1967; from memory). So what some questions say is measured by what they take away of that sum:

    said(questions) = Σ over pairs of weight × (1 − overlap of the pair on all the questions)

Where one of the two gives the right answer the overlap is a half, where both are wrong and
different a quarter. These are the overlaps of pupils who slip in 5 answers of 100, follow a wrong
procedure 85 times in 100, and whose slips give one of 25 answers (0.45 and 0.27; assumptions, no
source), rounded to powers of two: then all is exact in whole numbers, the same on every machine.

What a further question adds is less, the more has been asked: ``said`` is submodular. Taking
the best question each time therefore keeps within 1 − 1/e of the best set where all are of one
rung, and within a half where rungs have their numbers of questions (Nemhauser, Wolsey and Fisher,
*An analysis of approximations for maximizing submodular set functions*, 1978; part II, with Fisher
first, for the half; from memory). ``tests/generator/test_finding_out.py`` compares with all sets
on small rungs.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import combinations
from typing import Final

from generator.arithmetic.questions import Question
from generator.numbered.permutation import Permutation
from generator.numbered.seeds import key
from generator.operations.mistakes import (
    MISTAKES_OF_METHODS,
    NO_WAYS,
    Mistake,
    agree,
    mistake_named,
    mistakes_searched_for,
)
from generator.operations.rungs import rung_set
from generator.packs.telling_apart import CannotTellApartError, each_question
from specs.languages.saying import say, several
from specs.problems import listed, quoted
from specs.replies import Reply
from specs.spec import EVERY_HABIT, FINDS_OUT, PLAIN, RungSpec, SectionSpec

LOOKS_TO_FIND_OUT: Final = 48
"""How many questions that will do are looked at for the one that says most."""

LOOKS_OF_A_SECTION: Final = 480
"""The same for all places of a section, shared equally among them: a quarter of a second."""

CAREFUL: Final = 3
"""What a pair of careful work and a habit weighs beside a pair of habits: careful work is taken
to be nine times as common as any one habit (an assumption, no source), and this is the root."""

ONE_RIGHT: Final = 1
BOTH_WRONG: Final = 2
"""How many times the overlap of a pair is halved by a question to which they answer differently."""

_UNIT: Final = 2 * 60 * BOTH_WRONG
"""Bits after the point: more halvings than a section of 60 questions can make."""


@dataclass(frozen=True, slots=True)
class Inquiry:
    """What a section is to find out: of the ways that its rungs can show, those asked about.

    ``asked`` are some of ``ways``. What somebody does who is not asked about matters too: it may
    be taken for what is asked.
    """

    ways: tuple[Mistake, ...]
    asked: frozenset[Mistake]

    def parts(self, question: Question) -> tuple[int, ...]:
        """How a question parts the ways, careful work first: ways with one number answer alike.

        0 is the right answer.
        """
        return _parts(question, self.ways)

    def matters(self, first: int, second: int) -> bool:
        """Whether a pair of ways is to be told apart; 0 is careful work."""
        return any(at and self.ways[at - 1] in self.asked for at in (first, second))


@lru_cache(maxsize=4096)  # a rung of few questions is looked at for each place anew
def _parts(question: Question, ways: tuple[Mistake, ...]) -> tuple[int, ...]:
    different: list[Reply] = []
    found = [0]
    for way in ways:
        given = way.wrong_answer(question)
        at = 0
        if given is not None:
            alike = (n for n, one in enumerate(different, 1) if agree(question, one, given))
            at = next(alike, 0)
            if not at:
                different.append(given)
                at = len(different)
        found.append(at)
    return tuple(found)


@dataclass
class Said:
    """What the questions of a sheet say, as far as it is filled.

    ``halved`` has how often the overlap of a pair of ways has been halved.
    """

    halved: dict[tuple[int, int], int] = field(default_factory=dict)

    def adds(self, inquiry: Inquiry, question: Question) -> int:
        """What a question would add: more is better, 0 where it says nothing."""
        parts = inquiry.parts(question)
        if not any(parts):
            return 0
        added = 0
        for pair, halvings in _told_apart(inquiry, parts):
            left = _weight(pair) << _UNIT - self.halved.get(pair, 0)
            added += left - (left >> halvings)
        return added

    def add(self, inquiry: Inquiry, question: Question) -> None:
        """Ask a question."""
        for pair, halvings in _told_apart(inquiry, inquiry.parts(question)):
            self.halved[pair] = self.halved.get(pair, 0) + halvings


def said(inquiry: Inquiry, questions: Iterable[Question]) -> int:
    """What some questions say together, in whatever order."""
    sheet, in_all = Said(), 0
    for question in questions:
        in_all += sheet.adds(inquiry, question)
        sheet.add(inquiry, question)
    return in_all


@lru_cache(maxsize=4096)
def _told_apart(
    inquiry: Inquiry, parts: tuple[int, ...]
) -> tuple[tuple[tuple[int, int], int], ...]:
    """The pairs of ways that answer differently, each with how often its overlap is halved."""
    return tuple(
        ((first, second), BOTH_WRONG if parts[first] and parts[second] else ONE_RIGHT)
        for first, second in combinations(range(len(parts)), 2)
        if parts[first] != parts[second] and inquiry.matters(first, second)
    )


def _weight(pair: tuple[int, int]) -> int:
    return 1 if pair[0] else CAREFUL


def inquiry_of(
    section: SectionSpec, rungs: Sequence[RungSpec], ways: Collection[str] = NO_WAYS
) -> Inquiry | None:
    """What the questions of some rungs are to find out in a section; None for nothing.

    Only plain rungs count: what pupils write where something is missing shows no mistake. Of tiers
    that share what they find out, one may have no rung for some of it, or for all. ``ways``
    are the methods taught, some of which have mistakes of their own.
    """
    if not section.finds_out:
        return None
    sets = (rung_set(rung) for rung in rungs if rung.form == PLAIN)
    kinds = [questions.unrank(0) for questions in sets if questions.count]
    searched = mistakes_searched_for(ways)
    habits = tuple(mistake for mistake in searched if any(map(mistake.concerns, kinds)))
    if section.finds_out == (EVERY_HABIT,):
        return inquiry_among(habits)
    asked = frozenset(map(mistake_named, section.finds_out)).intersection(habits)
    return Inquiry(habits, asked) if asked else None


def inquiry_among(ways: Iterable[Mistake]) -> Inquiry:
    """The question which of some habits somebody has."""
    ways = tuple(ways)
    return Inquiry(ways, frozenset(ways))


def made_by_another_method(
    section: SectionSpec, ways: Collection[str]
) -> CannotTellApartError | None:
    """What is wrong where a habit that a section names is that of a method which is not taught."""
    for mistake in MISTAKES_OF_METHODS:
        if mistake.name in section.finds_out and not mistake.is_made_in(ways):
            (word,) = (str(operation) for operation in mistake.operations)
            methods = listed([quoted(way) for way in sorted(mistake.ways)], "or")
            what = say(
                "{mistake} in '{finds_out}' is a mistake made by {methods}, and {section} is "
                "worked by another method",
                mistake=quoted(mistake.name),
                finds_out=FINDS_OUT,
                methods=methods,
                section=section.name,
            )
            way = sorted(mistake.ways)[-1]
            instead = say("leave it out, or write '{this}'", this=f"methods: {{{word}: {way}}}")
            return CannotTellApartError(None, section.finds_out_line, what, instead)
    return None


def hidden(
    habits: Sequence[Mistake], rungs: Sequence[RungSpec], most: int
) -> tuple[list[Mistake], int]:
    """Those of some habits that show on no question looked at, and how many of these there were.

    Of each of the rungs, all plain, so many questions are looked at, fewer the more habits there
    are.
    """
    left = list(habits)
    most = max(most // len(left), 1)
    looked = 0
    for rung in rungs:
        questions = rung_set(rung)
        order = Permutation(questions.count, key("finding out", rung.text))
        for at in range(min(questions.count, most)):
            question = questions.unrank(order[at])
            looked += 1
            left = [mistake for mistake in left if mistake.wrong_answer(question) is None]
            if not left:
                return left, looked
    return left, looked


def never_shown(
    section: SectionSpec, rungs: Sequence[RungSpec], most: int
) -> CannotTellApartError | None:
    """What is wrong where a habit that a section names shows on none of its rungs.

    Of each rung so many questions are looked at, fewer the more habits are named.
    """
    if section.finds_out in ((), (EVERY_HABIT,)):
        return None
    plain = [rung for rung in rungs if rung.form == PLAIN]
    left, looked = hidden(tuple(map(mistake_named, section.finds_out)), plain, most)
    if not left:
        return None
    exist = sum(rung_set(rung).count for rung in plain)
    what = several(
        "{habits} gives the right answer to {each_question} in {section}",
        "{habits} give the right answer to {each_question} in {section}",
        len(left),
        habits=listed([quoted(mistake.name) for mistake in left], "and"),
        each_question=each_question(looked, exist, plain),
        section=section.name,
    )
    instead = several(
        "leave it out of {finds_out}, or loosen a rung",
        "leave them out of {finds_out}, or loosen a rung",
        len(left),
        finds_out=FINDS_OUT,
    )
    return CannotTellApartError(None, section.finds_out_line, what, instead)
