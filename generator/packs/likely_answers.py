"""What wrong answers a question invites, and what mistakes a set of questions can show."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import Final

from generator.arithmetic.questions import Question
from generator.forms.forms import Missing, Mistaken
from generator.operations.mistakes import MISTAKES, Mistake, mistakes_of
from generator.packs.pack import Item
from specs.replies import Reply

MOST_LIKELY: Final = 3
"""How many wrong answers the key names beside a question."""


@dataclass(frozen=True, slots=True)
class LikelyAnswer:
    """A wrong answer and the mistakes that give it, more common ones first."""

    reply: Reply
    mistakes: tuple[Mistake, ...]

    @property
    def names(self) -> str:
        """The mistakes' names, joined."""
        return "; or ".join(mistake.name for mistake in self.mistakes)


@lru_cache(maxsize=512)  # a key asks for them beside the question, and again for its section
def wrong_answers(question: Question) -> Mapping[Mistake, Reply | None]:
    """The wrong answer that each mistake of the operation gives, None where it gives none."""
    return {mistake: mistake.wrong_answer(question) for mistake in mistakes_of(question.operation)}


def likely_wrong_answers(question: Question, most: int = MOST_LIKELY) -> tuple[LikelyAnswer, ...]:
    """The wrong answers that the most common procedures give on a question.

    In the order of the table of mistakes; where several give the same answer, it stands
    where the most common of them does and names them all.
    """
    found: dict[Reply, list[Mistake]] = {}
    for mistake, given in wrong_answers(question).items():
        if given is not None:
            found.setdefault(given, []).append(mistake)
    return tuple(
        LikelyAnswer(given, tuple(mistakes)) for given, mistakes in list(found.items())[:most]
    )


def asks_for_the_answer(item: Item) -> bool:
    """Whether a pupil works the question alone: nothing of it is missing or worked already."""
    return not isinstance(item.form, Missing | Mistaken)


def likely_for(item: Item, most: int = MOST_LIKELY) -> tuple[LikelyAnswer, ...]:
    """The likely wrong answers of a question as it is asked; none where something is missing."""
    return likely_wrong_answers(item.question, most) if asks_for_the_answer(item) else ()


@dataclass(frozen=True, slots=True)
class Power:
    """What a set of questions can show.

    ``catches`` has each mistake that would give a wrong answer, and on how many questions;
    ``misses`` the further mistakes of such questions that would go unseen; ``alike`` the pairs
    that would give the same answers to every question.
    """

    catches: tuple[tuple[Mistake, int], ...]
    misses: tuple[Mistake, ...]
    alike: tuple[tuple[Mistake, Mistake], ...]

    def separates(self, first: Mistake, second: Mistake) -> bool:
        """Whether some question tells the two apart; neither can be among the unseen."""
        caught = {mistake for mistake, _ in self.catches}
        if not {first, second} & caught:
            return False
        return (first, second) not in self.alike and (second, first) not in self.alike


def power(questions: Iterable[Question]) -> Power:
    """What a set of questions can show."""
    asked = tuple(questions)
    answers = {
        mistake: tuple(wrong_answers(question).get(mistake) for question in asked)
        for mistake in MISTAKES
        if any(map(mistake.concerns, asked))
    }
    catches = tuple(
        (mistake, len(given) - given.count(None))
        for mistake, given in answers.items()
        if any(reply is not None for reply in given)
    )
    caught = [mistake for mistake, _ in catches]
    return Power(
        catches,
        tuple(mistake for mistake in answers if mistake not in caught),
        tuple(
            (first, second)
            for first, second in combinations(caught, 2)
            if answers[first] == answers[second]
        ),
    )
