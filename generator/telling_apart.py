"""Questions that tell mistakes apart: which answers show who did what.

A mistake *shows* on a question when something there sets its procedure off. A question
tells a rung's mistakes apart when at least one of them shows, and the right answer and
the answers of all that show are different. A set of such questions separates every pair
of the mistakes, and each of them from the right method, exactly when every mistake shows
on one of them: of two mistakes, one shows, and the other then gives another answer there
or the right one.
"""

from collections import Counter
from collections.abc import Iterable
from itertools import combinations
from typing import Final

from generator.conditions.tells_apart import NAME
from generator.mistakes import Mistake, mistake_named, right_reply
from generator.question_sets import QuestionSet
from generator.questions import Question
from specs.replies import Reply
from specs.spec import RungSpec

MOST_EXAMINED: Final = 20_000
"""How many questions of a rung are looked at to say why they tell nothing apart: all of them
on a small rung, which makes what is said there exact."""

RIGHT: Final = "the right method"


class CannotTellApartError(Exception):
    """A rung's questions cannot tell apart the mistakes that its spec names."""

    def __init__(self, rung: RungSpec, what: str, instead: str) -> None:
        self.rung = rung
        super().__init__(f"{what}; {instead}")

    @property
    def line(self) -> int:
        """The line of the rung's ``tells_apart``."""
        lines = [condition.line for condition in self.rung.conditions if condition.word == NAME]
        return max(lines, default=self.rung.line)


def mistakes_to_tell_apart(rung: RungSpec) -> tuple[Mistake, ...]:
    """The mistakes that a rung's questions must tell apart; none where it asks for nothing."""
    for condition in rung.conditions:
        if condition.word == NAME:
            assert isinstance(condition.value, tuple)
            return tuple(map(mistake_named, condition.value))
    return ()


def shown_apart(question: Question, mistakes: Iterable[Mistake]) -> frozenset[Mistake] | None:
    """The mistakes that show on a question, or None when it does not tell them apart."""
    answers = _answers(question, mistakes)
    if not answers or len({right_reply(question), *answers.values()}) <= len(answers):
        return None
    return frozenset(answers)


def _answers(question: Question, mistakes: Iterable[Mistake]) -> dict[Mistake, Reply]:
    given = ((mistake, mistake.works(question)) for mistake in mistakes)
    return {mistake: answer for mistake, answer in given if answer is not None}


def why_not(
    rung: RungSpec, questions: QuestionSet, missing: Iterable[Mistake], slots: int, section: str
) -> CannotTellApartError:
    """Why so many questions of a rung do not tell its mistakes apart.

    ``missing`` are those that show on none of the questions chosen, none of them where too
    few questions were found. Looks at the rung's
    questions, all of them where they are no more than MOST_EXAMINED.
    """
    mistakes = mistakes_to_tell_apart(rung)
    examined = min(questions.count, MOST_EXAMINED)
    some = f"all {examined:,}" if examined == questions.count else f"the first {examined:,}"
    separated: Counter[tuple[str, str]] = Counter()
    clashes: Counter[tuple[str, str]] = Counter()
    told = 0
    for number in range(examined):
        question = questions.unrank(number)
        right = right_reply(question)
        answers = {RIGHT: right}
        answers |= {m.name: a for m, a in _answers(question, mistakes).items()}
        told += len(answers) > 1 and len(set(answers.values())) == len(answers)
        for pair in combinations((RIGHT, *(mistake.name for mistake in mistakes)), 2):
            differ = answers.get(pair[0], right) != answers.get(pair[1], right)
            separated[pair] += differ
            clashes[pair] += not differ and pair[0] in answers and pair[1] in answers
    of_all = f"of {some} questions of {rung.name}"
    for pair in combinations((*(mistake.name for mistake in mistakes), RIGHT), 2):
        first, second = pair
        if not separated[pair] and not separated[second, first]:
            if second == RIGHT:
                what = f"{_quoted(first)} gives the right answer to each {of_all}"
                instead = f"leave it out of {NAME}, or loosen the rung"
            else:
                what = f"{_quoted(first)} and {_quoted(second)} give the same answer to each "
                what += of_all
                instead = f"keep one of them in {NAME}, or loosen the rung"
            return CannotTellApartError(rung, what, instead)
    if not told:
        (first, second), _ = clashes.most_common(1)[0]
        what = f"not one {of_all} tells all of {NAME} apart; most often {_quoted(first)} and "
        what += f"{_quoted(second)} give the same answer"
        return CannotTellApartError(rung, what, f"keep one of them in {NAME}, or loosen the rung")
    names = " and ".join(_quoted(mistake.name) for mistake in missing)
    if not names:
        what = f"{told:,} {of_all} tell {NAME} apart, and no more were found for this pack"
        return CannotTellApartError(rung, what, "ask for fewer of them, or loosen the rung")
    what = (
        f"{slots} question{'' if slots == 1 else 's'} of {rung.name} in {section} cannot show "
        f"{names} as well as the others in {NAME}"
    )
    return CannotTellApartError(rung, what, "ask for more questions, or for fewer mistakes")


def _quoted(name: str) -> str:
    return name if name == RIGHT else f"'{name}'"
