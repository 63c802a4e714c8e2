"""What the marks of a class say: by question, by rung, by pupil, and what to do tomorrow."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType
from typing import Any, Final

from generator.operations.mistakes import EVERY_MISTAKE, NO_WAYS, Mistake
from generator.packs.likely_answers import asks_for_the_answer, likely_for
from generator.packs.pack import Item
from generator.results.attempts import Attempt
from generator.results.diagnosis import Diagnosed, Finding, Kind, diagnose_class
from generator.results.mark_sheet import MarkColumn
from generator.results.marking import is_right
from generator.results.posterior import Posterior
from generator.results.pupil_model import rounded
from generator.results.settling import in_question, settling
from specs.languages.saying import NOTHING, Saying, say, several
from specs.marks import Entry, Marks, PupilRow, pupil_key
from specs.names import spelt
from specs.replies import Reply

RETEACH_BELOW: Final = Fraction(3, 5)
RETEACH_ANSWERS: Final = 5
"""A rung is to be taught again when under three fifths of at least five answers on it are
right (common practice, no source)."""

DOUBTED_ANSWERS: Final = 20
DOUBTED_SHARE: Final = Fraction(1, 20)
"""Of so many answers hardly so many are right by chance: more than a class gets wrong."""

REACHED: Final = 2
"""A pupil has reached a rung with so many answers on it, or with as many as anyone has there
(common practice, no source)."""

_ALL: Final = 99


@dataclass(frozen=True, slots=True)
class WrongAnswer:
    """A wrong answer that several pupils may have given, and the mistakes that give it."""

    text: str
    pupils: tuple[str, ...]
    mistakes: tuple[Mistake, ...]


@dataclass(frozen=True, slots=True)
class QuestionResult:
    """How a question went. ``wrong`` has the known wrong answers, the most frequent first."""

    column: MarkColumn
    attempted: int
    right: int
    wrong: tuple[WrongAnswer, ...]


@dataclass(frozen=True, slots=True)
class RungResult:
    """How all questions of a rung went together."""

    rung: str
    attempted: int
    right: int

    @property
    def share(self) -> Fraction | None:
        """The share right, None where nobody tried."""
        return Fraction(self.right, self.attempted) if self.attempted else None

    @property
    def needs_teaching(self) -> bool:
        """Whether the rung is to be taught again."""
        return self.attempted >= RETEACH_ANSWERS and self.right < RETEACH_BELOW * self.attempted

    @property
    def plain(self) -> dict[str, Any]:
        """The result as plain data."""
        return {"rung": self.rung, "attempted": self.attempted, "right": self.right}


@dataclass(frozen=True, slots=True)
class Settle:
    """Columns whose questions would settle a finding: ``unanswered`` ones of the pupil's sheets;
    otherwise it takes further questions like them. Without any, none of the pack would.
    """

    columns: tuple[str, ...]
    unanswered: bool


@dataclass(frozen=True, slots=True)
class PupilResult:
    """How a pupil did, and what that says.

    ``attempts`` are by the name of their column; ``rungs`` those that the pupil tried, in the
    pack's order. ``settle`` is what would settle a finding that is open, None where none is.
    """

    pupil: str
    attempts: Mapping[str, Attempt]
    finding: Finding
    rungs: tuple[RungResult, ...] = ()
    settle: "Settle | None" = None
    posterior: Posterior | None = field(default=None, compare=False, repr=False)
    """What the finding rests on."""

    @property
    def is_open(self) -> bool:
        """Whether it is not settled how the pupil works: not enough to say, or several habits
        that the answers do not tell apart.
        """
        return self.settle is not None or self.finding.kind is Kind.NOT_ENOUGH

    @property
    def in_question(self) -> tuple[Mistake, ...]:
        """The habits that the pupil may have where that is not settled, the likelier first; ()
        where it is, or where nothing points at any.
        """
        return in_question(self.posterior) if self.is_open and self.posterior else ()

    @property
    def habits(self) -> tuple[Mistake, ...]:
        """The habits that are found, that which explains most answers first."""
        return tuple(habit.mistake for habit in self.finding.habits)

    def habit_in(self, attempt: Attempt) -> Mistake | None:
        """The habit of the pupil's that gives a wrong answer; None where none does."""
        if attempt.right or not attempt.replies:
            return None
        for habit in self.finding.habits:
            if any(m.wrong_answer(attempt.question) in attempt.replies for m in habit.mistakes):
                return habit.mistake
        return None

    @property
    def attempted(self) -> int:
        """How many answers there are."""
        return len(self.attempts)

    @property
    def right(self) -> int:
        """How many of them are right."""
        return sum(attempt.right for attempt in self.attempts.values())


@dataclass(frozen=True, slots=True)
class Group:
    """Pupils with the same need: the finding that they share, and what to do.

    ``next_rung`` is what they work on next: the first rung on which they are not there yet, or,
    where they are secure, the first that they have not reached. ``reached`` are then those that
    they have.
    """

    finding: Kind
    mistake: Mistake | None
    pupils: tuple[str, ...]
    advice: Saying
    reached: tuple[str, ...] = ()
    next_rung: str = ""

    @property
    def name(self) -> Saying:
        """The group in words."""
        if self.mistake:
            return self.mistake.title
        so_far = self.finding is Kind.SECURE and self.next_rung
        return say("secure so far") if so_far else self.finding.said


@dataclass(frozen=True, slots=True)
class ClassResults:
    """The whole of it.

    ``reteach`` has names of rungs, the weakest first; ``absent`` pupils of whom nothing is noted,
    or that they were not there. ``shown_as`` are rungs' names for pupils, where they have others;
    ``sections`` what sections are called in few words, where their teacher has named them.
    """

    questions: tuple[QuestionResult, ...]
    rungs: tuple[RungResult, ...]
    pupils: tuple[PupilResult, ...]
    groups: tuple[Group, ...]
    reteach: tuple[str, ...]
    absent: tuple[str, ...] = ()
    shown_as: Mapping[str, str] = field(default_factory=dict)
    sections: Mapping[str, str] = field(default_factory=dict)

    def called(self, rung: str) -> str:
        """What a rung is called on pages for the teacher."""
        return spelt(rung, self.shown_as.get(rung, ""))

    def question_called(self, column: str) -> str:
        """What the question of a column is called: ``core.c``, or ``Grundlagen.c`` where its
        section is called so.
        """
        section, dot, rest = column.partition(".")
        return f"{self.sections.get(section, section)}{dot}{rest}"

    @property
    def doubt(self) -> Saying:
        """Why these may be the marks of another pack; NOTHING where nothing speaks for it."""
        answers, right = sum(p.attempted for p in self.pupils), sum(p.right for p in self.pupils)
        if answers < DOUBTED_ANSWERS or right > DOUBTED_SHARE * answers:
            return NOTHING
        return several(
            "only {count} of {answers} answers are right; look whether this is the mark sheet of "
            "another pack",
            "only {count} of {answers} answers are right; look whether this is the mark sheet of "
            "another pack",
            right,
            answers=answers,
        )

    @property
    def marked(self) -> tuple[PupilResult, ...]:
        """The pupils with any answer at all."""
        return tuple(pupil for pupil in self.pupils if pupil.attempted)

    @property
    def plain(self) -> dict[str, Any]:
        """The results as plain data."""
        return {
            "questions": [
                {
                    "section": result.column.section.name,
                    "version": result.column.section.version,
                    "label": result.column.item.label,
                    "rung": result.column.item.rung,
                    "attempted": result.attempted,
                    "right": result.right,
                }
                for result in self.questions
            ],
            "rungs": [rung.plain for rung in self.rungs],
            "pupils": [
                {
                    "pupil": pupil.pupil,
                    "attempted": pupil.attempted,
                    "right": pupil.right,
                    "finding": str(pupil.finding.kind),
                    "mistake": pupil.finding.mistake.name if pupil.finding.mistake else None,
                    "also": [mistake.name for mistake in pupil.finding.also],
                    "sure": rounded(pupil.finding.sure, 2),
                    "how_sure": pupil.finding.how_sure,
                    "habits": [
                        {
                            "mistake": habit.mistake.name,
                            "also": [mistake.name for mistake in habit.also],
                            "sure": rounded(habit.sure, 2),
                            "how_sure": habit.how_sure,
                            "fields": list(habit.fields),
                            "explained": habit.explained,
                            "shows": habit.shows,
                        }
                        for habit in pupil.finding.habits
                    ],
                    "not_there": list(pupil.finding.not_there),
                    "perhaps_not_there": list(pupil.finding.perhaps_not_there),
                    "secure_on": list(pupil.finding.secure_on),
                    "unknown": list(pupil.finding.unknown),
                    "settle": list(pupil.settle.columns) if pupil.settle else [],
                    "rungs": [rung.plain for rung in pupil.rungs],
                }
                for pupil in self.pupils
            ],
            "groups": [
                {
                    "finding": str(group.finding),
                    "mistake": group.mistake.name if group.mistake else None,
                    "pupils": list(group.pupils),
                    "advice": group.advice,
                    "next": group.next_rung or None,
                }
                for group in self.groups
            ],
            "reteach": list(self.reteach),
            "absent": list(self.absent),
        }


def class_results(
    columns: Sequence[MarkColumn],
    marks: Marks,
    before: Mapping[str, tuple[Attempt, ...]] = MappingProxyType({}),
    shown_as: Mapping[str, str] = MappingProxyType({}),
    sections: Mapping[str, str] = MappingProxyType({}),
) -> ClassResults:
    """What a mark sheet says about a pack's questions and the pupils.

    ``before`` has, by ``pupil_key``, what pupils answered in earlier packs: their findings rest
    on that as well, and nothing else does.
    """
    by_pupil: dict[str, Mapping[str, Attempt]] = {}
    for row in marks.rows:
        by_pupil[row.pupil] = MappingProxyType(
            {
                column.name: attempt_of(column.item, row.entries[column.name], column.ways)
                for column in columns
                if column.name in row.entries
            }
        )
    questions = tuple(_question(column, by_pupil) for column in columns)
    rungs = _tally((r.column.item.rung, r.right, r.attempted) for r in questions)
    evidence = [
        (*attempts.values(), *(before.get(pupil_key(pupil), ()) if attempts else ()))
        for pupil, attempts in by_pupil.items()
    ]
    pupils = tuple(
        PupilResult(
            pupil,
            attempts,
            diagnosed.finding,
            _tally((one.rung, int(one.right), 1) for one in attempts.values()),
            _settle(columns, attempts, diagnosed),
            diagnosed.posterior,
        )
        for (pupil, attempts), diagnosed in zip(
            by_pupil.items(), diagnose_class(evidence), strict=True
        )
    )
    weak = [rung for rung in rungs if rung.needs_teaching]
    return ClassResults(
        questions,
        rungs,
        pupils,
        _groups(pupils, rungs),
        tuple(rung.rung for rung in sorted(weak, key=lambda rung: rung.share or 0)),
        _absent(marks.rows),
        shown_as,
        sections,
    )


def _settle(
    columns: Sequence[MarkColumn], attempts: Mapping[str, Attempt], diagnosed: Diagnosed
) -> Settle | None:
    """What would settle a finding: questions of the pupil's own sheets first, as they ask."""
    if diagnosed.finding.kind not in (Kind.HABIT, Kind.NOT_ENOUGH, Kind.NOT_THERE):
        return None
    asking = [column for column in columns if asks_for_the_answer(column.item)]
    sheets = {_sheet(column) for column in asking if column.name in attempts}
    own = [column for column in asking if _sheet(column) in sheets]
    left = {column.item.question: column.name for column in own if column.name not in attempts}
    like = {column.item.question: column.name for column in asking if column.section.version == 1}
    for pool, unanswered in ((left, True), (like, False)):
        found = settling(diagnosed.posterior, tuple(pool))
        if found == ():
            return None
        if found:
            return Settle(tuple(pool[question] for question in found), unanswered)
    return Settle((), False)


def _sheet(column: MarkColumn) -> tuple[str, int]:
    return column.section.name, column.section.version


def _absent(rows: Sequence[PupilRow]) -> tuple[str, ...]:
    """Pupils who were not there: their rows say so, or are bare though others below are not.

    Bare rows at the end are those that the class does not need.
    """
    last = max((at for at, row in enumerate(rows) if row.entries or row.absent), default=-1)
    return tuple(row.pupil for row in rows[: last + 1] if not row.entries and not row.unread)


def attempt_of(item: Item, entry: Entry, ways: frozenset[str] = NO_WAYS) -> Attempt:
    """The attempt that a cell of the mark sheet notes.

    Where something is missing from the question, what goes there is what is marked; where it
    is worked wrongly, the right answer is.
    """
    question = item.question
    worked = asks_for_the_answer(item)
    if entry.ticked is not None:
        return Attempt(question, entry.ticked, worked=worked, rung=item.rung, ways=ways)
    right = any(is_right(item, given) for given in entry.replies)
    return Attempt(question, right, entry.replies, worked, item.rung, ways=ways)


def _question(column: MarkColumn, by_pupil: dict[str, Mapping[str, Attempt]]) -> QuestionResult:
    attempts = {
        pupil: found[column.name] for pupil, found in by_pupil.items() if column.name in found
    }
    names = {likely.reply: likely.mistakes for likely in likely_for(column.item, _ALL, column.ways)}
    pupils_of: dict[Reply, list[str]] = {}
    texts: dict[Reply, str] = {}
    for pupil, attempt in attempts.items():
        if not attempt.right and attempt.replies:
            # Of several ways to read it, the one that a mistake gives.
            given = next((reply for reply in attempt.replies if reply in names), attempt.replies[0])
            pupils_of.setdefault(given, []).append(pupil)
            texts.setdefault(given, given.text)
    return QuestionResult(
        column,
        len(attempts),
        sum(attempt.right for attempt in attempts.values()),
        tuple(
            WrongAnswer(texts[given], tuple(pupils), names.get(given, ()))
            for given, pupils in sorted(pupils_of.items(), key=lambda pair: -len(pair[1]))
        ),
    )


def _tally(answers: Iterable[tuple[str, int, int]]) -> tuple[RungResult, ...]:
    """What was tried and right on each rung, of (rung, right, attempted)."""
    attempted: Counter[str] = Counter()
    right: Counter[str] = Counter()
    for rung, were_right, tried in answers:
        attempted[rung] += tried
        right[rung] += were_right
    return tuple(RungResult(rung, attempted[rung], right[rung]) for rung in attempted)


def _groups(pupils: tuple[PupilResult, ...], rungs: tuple[RungResult, ...]) -> tuple[Group, ...]:
    """Pupils with the same habit together, largest group first; then the other findings.

    A pupil with two habits is in two groups.
    """
    marked = [pupil for pupil in pupils if pupil.attempted]
    habits = []
    for mistake in EVERY_MISTAKE:
        found = tuple(p.pupil for p in marked if mistake in p.habits)
        if found:
            habits.append(Group(Kind.HABIT, mistake, found, mistake.follow_up))
    habits.sort(key=lambda group: -len(group.pupils))
    others = [
        Group(kind, None, found, advice)
        for kind, advice in _ADVICE.items()
        if (found := tuple(p.pupil for p in marked if p.finding.kind is kind))
    ]
    return (*habits, *_not_there(marked, rungs), *others, *_secure(marked, rungs))


def _not_there(marked: Iterable[PupilResult], rungs: tuple[RungResult, ...]) -> Iterator[Group]:
    """Pupils who are not there yet, together by the first rung on which they are not."""
    by_rung: dict[str, list[str]] = {}
    names = [rung.rung for rung in rungs]
    for pupil in marked:
        if pupil.finding.kind is Kind.NOT_THERE:
            first = next((rung for rung in names if rung in pupil.finding.not_there), "")
            by_rung.setdefault(first, []).append(pupil.pupil)
    for rung in sorted(by_rung, key=lambda rung: names.index(rung) if rung else len(names)):
        yield Group(Kind.NOT_THERE, None, tuple(by_rung[rung]), _AGAIN, (), rung)


def _secure(marked: Iterable[PupilResult], rungs: tuple[RungResult, ...]) -> Iterator[Group]:
    """Pupils who are secure, those together who have reached the same rungs; the furthest first."""
    most: Counter[str] = Counter()
    secure = []
    for pupil in marked:
        for rung in pupil.rungs:
            most[rung.rung] = max(most[rung.rung], rung.attempted)
        if pupil.finding.kind is Kind.SECURE:
            secure.append(pupil)
    by_reach: dict[tuple[str, ...], list[str]] = {}
    for pupil in secure:
        enough = {r.rung for r in pupil.rungs if r.attempted >= min(REACHED, most[r.rung])}
        reached = tuple(rung.rung for rung in rungs if rung.rung in enough)
        by_reach.setdefault(reached, []).append(pupil.pupil)
    for reached, found in sorted(by_reach.items(), key=lambda pair: -len(pair[0])):
        names = [rung.rung for rung in rungs]
        furthest = max((names.index(rung) for rung in reached), default=-1)
        further = names[furthest + 1 :]
        known = reached if len(reached) < len(names) else ()
        if further:
            yield Group(Kind.SECURE, None, tuple(found), _FURTHER, known, further[0])
        else:
            yield Group(Kind.SECURE, None, tuple(found), _MOVE_ON, known)


_ADVICE: Final = {
    Kind.SLIPS: say("Give them an inverse or an estimate to check each answer by."),
    Kind.NOT_ENOUGH: say("Look at their working, or give a few more questions of the same rungs."),
}
_AGAIN: Final = say(
    "Work an example of that rung with them, then a few questions that are set out."
)
_MOVE_ON: Final = say("Move on to the next rung, or let them explain a mistake to someone.")
_FURTHER: Final = say("Go on to the first rung that they have not reached.")
