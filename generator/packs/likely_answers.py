"""What wrong answers a question invites, and what mistakes a set of questions can show."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from generator.arithmetic.questions import Question
from generator.operations.mistakes import (
    EVERY_MISTAKE,
    NO_WAYS,
    Mistake,
    mistakes_in_methods,
    mistakes_of,
    mistakes_searched_for,
)
from generator.packs.finding_out import BOTH_WRONG, ONE_RIGHT
from generator.packs.pack import Item
from specs.languages.saying import say
from specs.replies import Reply

MOST_LIKELY: Final = 3
"""How many wrong answers the key names beside a question."""

FINDS_OUT_FROM: Final = 3
"""A habit is found out by so many questions on which it shows, if they tell it from other habits
too: about 85 in 100 pupils who have it are then said to have it, with two some 70, with one some
20 (``python -m tests.bench.foreseeing``)."""

TOLD_FROM: Final = 2
"""So often the overlap with every other habit is to be halved (``finding_out``)."""


@dataclass(frozen=True, slots=True)
class LikelyAnswer:
    """A wrong answer and the mistakes that give it, more common ones first."""

    reply: Reply
    mistakes: tuple[Mistake, ...]

    @property
    def names(self) -> str:
        """What pages call the mistakes, joined."""
        return "; or ".join(mistake.title for mistake in self.mistakes)


def wrong_answers(
    question: Question, ways: Collection[str] | None = None
) -> Mapping[Mistake, Reply | None]:
    """The wrong answer that each mistake of the operation gives, None where it gives none.

    With ``ways``, the methods chosen, those alone that are made by them.
    """
    if ways is None:
        mistakes = mistakes_of(question.operation)
    else:
        mistakes = mistakes_in_methods(question.operation, ways)
    return {mistake: mistake.wrong_answer(question) for mistake in mistakes}


def likely_wrong_answers(question: Question, most: int = MOST_LIKELY) -> tuple[LikelyAnswer, ...]:
    """The wrong answers that the most common procedures give on a question.

    In the order of the table of mistakes; where several give the same answer, it stands
    where the most common of them does and names them all.
    """
    return likely_among(wrong_answers(question), most)


def likely_among(
    wrong: Mapping[Mistake, Reply | None], most: int = MOST_LIKELY
) -> tuple[LikelyAnswer, ...]:
    """The first of some wrong answers, each with all the mistakes that give it."""
    found: dict[Reply, list[Mistake]] = {}
    for mistake, given in wrong.items():
        if given is not None:
            found.setdefault(given, []).append(mistake)
    return tuple(
        LikelyAnswer(given, tuple(mistakes)) for given, mistakes in list(found.items())[:most]
    )


def asks_for_the_answer(item: Item) -> bool:
    """Whether a pupil works the question alone: nothing of it is missing or worked already."""
    return item.form.asks_for_the_answer


def likely_for(
    item: Item, most: int = MOST_LIKELY, ways: frozenset[str] = NO_WAYS
) -> tuple[LikelyAnswer, ...]:
    """The likely wrong answers of a question as it is asked; none where something is missing.

    ``ways`` are the methods taught that have mistakes of their own.
    """
    if not asks_for_the_answer(item):
        return ()
    question = item.question
    searched = mistakes_searched_for(ways)
    wrong = {m: m.wrong_answer(question) for m in searched if question.operation in m.operations}
    return likely_among(wrong, most)


@dataclass(frozen=True, slots=True)
class Power:
    """What a set of questions can show.

    Of so many ``questions``, ``catches`` has each mistake that would give a wrong answer, and
    on how many; ``misses`` the further mistakes of such questions that would go unseen;
    ``alike`` the pairs that would give the same answers to every question. ``confused`` are those
    that too few questions tell from some other habit.
    """

    questions: int
    catches: tuple[tuple[Mistake, int], ...]
    misses: tuple[Mistake, ...]
    alike: tuple[tuple[Mistake, Mistake], ...]
    confused: frozenset[Mistake] = frozenset()

    @property
    def finds_out(self) -> tuple[str, ...]:
        """The habits that answers can name with some certainty, in brief, those that are alike
        as one.

        Procedures made of two others are left out here and in ``leaves_open``.
        """
        return tuple(_either(some) for some, count in self._together if self._surely(some, count))

    @property
    def leaves_open(self) -> tuple[tuple[str, int], ...]:
        """The other habits, and on how many questions they show; those that never do last."""
        shown = [(_either(m), n) for m, n in self._together if not self._surely(m, n)]
        never = [mistake.in_brief for mistake in self.misses if not mistake.together]
        return (*shown, *((name, 0) for name in dict.fromkeys(never)))

    def _surely(self, some: tuple[Mistake, ...], count: int) -> bool:
        return count >= FINDS_OUT_FROM and some[0] not in self.confused

    @property
    def _together(self) -> list[tuple[tuple[Mistake, ...], int]]:
        alike = frozenset(self.alike)
        found: list[tuple[tuple[Mistake, ...], int]] = []
        for mistake, count in self.catches:
            if mistake.together:
                continue
            for at, (some, _) in enumerate(found):
                if (some[0], mistake) in alike:
                    found[at] = ((*some, mistake), count)
                    break
            else:
                found.append(((mistake,), count))
        return found

    def separates(self, first: Mistake, second: Mistake) -> bool:
        """Whether some question tells the two apart; neither can be among the unseen."""
        caught = {mistake for mistake, _ in self.catches}
        if not {first, second} & caught:
            return False
        return (first, second) not in self.alike and (second, first) not in self.alike


def _either(mistakes: Iterable[Mistake]) -> str:
    first, *others = dict.fromkeys(mistake.in_brief for mistake in mistakes)
    for other in others:
        first = say("{this} or {that}", this=first, that=other)
    return first


def power(questions: Iterable[Question]) -> Power:
    """What a set of questions can show."""
    return power_of([(question, wrong_answers(question)) for question in questions])


def power_of(asked: Sequence[tuple[Question, Mapping[Mistake, Reply | None]]]) -> Power:
    """What questions can show, each with the wrong answers that mistakes give to it."""
    answers = {
        mistake: tuple(wrong.get(mistake) for _, wrong in asked)
        for mistake in EVERY_MISTAKE  # of these, those that are made by the methods taught
        if any(mistake in wrong and mistake.concerns(question) for question, wrong in asked)
    }
    catches = tuple(
        (mistake, len(given) - given.count(None))
        for mistake, given in answers.items()
        if any(reply is not None for reply in given)
    )
    caught = [mistake for mistake, _ in catches]
    return Power(
        len(asked),
        catches,
        tuple(mistake for mistake in answers if mistake not in caught),
        tuple(
            (first, second)
            for first, second in combinations(caught, 2)
            if answers[first] == answers[second]
        ),
        frozenset(_confused(dict(catches), answers)),
    )


def _confused(
    catches: Mapping[Mistake, int], answers: Mapping[Mistake, tuple[Reply | None, ...]]
) -> Iterator[Mistake]:
    """Those that show often enough, and that too few questions tell from some other habit."""
    single = [mistake for mistake in catches if not mistake.together]
    for mistake in single:
        others = single if catches[mistake] >= FINDS_OUT_FROM else ()
        for other in others:
            halved = sum(
                BOTH_WRONG if one is not None and two is not None else ONE_RIGHT
                for one, two in zip(answers[mistake], answers[other], strict=True)
                if one != two
            )
            if 0 < halved < TOLD_FROM:
                yield mistake
                break
