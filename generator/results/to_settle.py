"""What is not settled about how pupils work, and what tomorrow's questions are to find out of it.

Where answers point at several habits, or at one that is not certain yet, a section of tomorrow's
spec names these below ``finds_out``, so that of the questions on its rungs those are chosen that
part them best (``generator/packs/finding_out.py``). Where nothing points at any habit, every one
that the rungs can show is to be found out. Which rungs a section has is decided before, by what
went wrong: a habit that none of them shows is left to another day.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.questions import Question
from generator.operations.mistakes import NO_WAYS, Mistake, mistakes_searched_for
from generator.operations.rungs import rung_set
from generator.packs.finding_out import hidden
from generator.results.class_results import PupilResult
from generator.results.settling import MOST_MORE, settling
from specs.spec import EVERY_HABIT, PLAIN, RungSpec

MOST_NAMED: Final = 6
"""Habits that a section is to find out, those in question for most pupils: with more of them
each question says less of each (an assumption, no source)."""

LOOKED_AT: Final = 600
"""Questions of each rung that are looked at for some that show the habits."""


@dataclass(frozen=True, slots=True)
class ToSettle:
    """What the questions of a section are to find out, and of which pupils.

    ``habits`` are those in question, () for every one that its rungs can show. ``settled`` are
    the pupils of whom right answers, or answers by any of their habits, would then say enough.
    """

    section: str
    habits: tuple[Mistake, ...]
    pupils: tuple[str, ...]
    settled: tuple[str, ...] = ()

    @property
    def finds_out(self) -> tuple[str, ...]:
        """What the section's spec says of it."""
        return tuple(habit.name for habit in self.habits) or (EVERY_HABIT,)

    def asked(self, pupils: Iterable[PupilResult], questions: Sequence[Question]) -> "ToSettle":
        """The same, with what the questions that were chosen would settle."""
        settled = (
            pupil.pupil
            for pupil in pupils
            if pupil.pupil in self.pupils
            and pupil.posterior is not None
            and settling(pupil.posterior, questions, max(len(questions), MOST_MORE))
        )
        return replace(self, settled=tuple(settled))


def to_settle(
    section: str,
    pupils: Collection[PupilResult],
    rungs: Sequence[RungSpec],
    ways: Collection[str] = NO_WAYS,
) -> ToSettle | None:
    """What a section with questions of some rungs is to find out of some pupils; None where all
    is settled, or where no question of the rungs would say anything.

    Pupils at whose answers nothing points are looked at where they are the more. ``ways`` are the
    methods that the questions are worked by: habits of others are not asked about.
    """
    plain = [rung for rung in rungs if rung.form == PLAIN and rung_set(rung).count]
    left_open = [pupil for pupil in pupils if pupil.is_open]
    if not plain or not left_open:
        return None
    pointed = [pupil for pupil in left_open if pupil.in_question]
    unpointed = len(left_open) - len(pointed)
    if unpointed > len(pointed):
        return ToSettle(section, (), tuple(pupil.pupil for pupil in left_open))
    counts = Counter(habit for pupil in pointed for habit in pupil.in_question)
    first = [rung_set(rung).unrank(0) for rung in plain]
    searched = mistakes_searched_for(ways)
    concerned = [
        habit
        for habit, _ in counts.most_common()
        if habit in searched and any(map(habit.concerns, first))
    ]
    if not concerned:
        return None
    never, _ = hidden(concerned, plain, LOOKED_AT)
    named = tuple(habit for habit in concerned if habit not in never)[:MOST_NAMED]
    helped = tuple(p.pupil for p in pointed if not set(named).isdisjoint(p.in_question))
    return ToSettle(section, named, helped) if named else None
