"""Questions that tell mistakes apart: which answers show who did what.

A rung asks for it, or a section does for all its questions together.

A mistake *shows* on a question when something there sets its procedure off. A question
tells mistakes apart when at least one of them shows, and the right answer and
the answers of all that show are different. A set of such questions separates every pair
of the mistakes, and each of them from the right method, exactly when every mistake shows
on one of them: of two mistakes, one shows, and the other then gives another answer there
or the right one.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce
from itertools import combinations
from typing import Final

from generator.allowance import LOOKED_AT_TO_EXPLAIN
from generator.arithmetic.questions import Question
from generator.forms.asking import LOOKED_AT, can_be_asked
from generator.numbered.permutation import Permutation
from generator.numbered.seeds import key
from generator.operations import tells_apart
from generator.operations.mistakes import Mistake, mistake_named, right_reply
from generator.operations.rungs import rung_set
from generator.operations.tells_apart import NAME
from specs.languages.saying import Saying, grouped, say, several
from specs.problems import listed
from specs.replies import Reply
from specs.spec import PLAIN, RungSpec, SectionSpec

RIGHT: Final = say("the right method")


class CannotTellApartError(Exception):
    """The questions of a rung, or of a section, cannot tell apart the mistakes that they should.

    ``line`` is that of the ``tells_apart`` which asks for it. ``rung`` is the rung that asks
    or, where a section does, None.
    """

    def __init__(self, rung: RungSpec | None, line: int, what: Saying, instead: Saying) -> None:
        self.rung = rung
        self.line = line
        self.what = what
        self.instead = instead
        super().__init__(f"{what}; {instead}")


@dataclass(frozen=True, slots=True)
class Wish:
    """Mistakes to be told apart by each question of a slot, and together by those that share it.

    ``rung`` is the rung whose spec asks for it; None where a section does, for all its slots.
    ``possible`` are those that the slot's rung can show, as far as is known; where there is
    any, each of its questions must show one.
    """

    rung: RungSpec | None
    mistakes: tuple[Mistake, ...]
    line: int
    possible: frozenset[Mistake]

    @property
    def each_shows(self) -> bool:
        """Whether on each question one of the mistakes must show."""
        return bool(self.possible)

    def met_by(self, question: Question) -> frozenset[Mistake] | None:
        """The mistakes that show on a question, or None when it does not tell them apart."""
        return shown_apart(question, self.mistakes, each_shows=self.each_shows)


def wishes_of(rung: RungSpec, section: SectionSpec, most: int = LOOKED_AT) -> tuple[Wish, ...]:
    """What the questions of a rung must tell apart in a section: the rung's wish, the section's.

    A section asks nothing of a rung with something missing or worked wrongly already: what
    pupils write there shows no mistake.
    """
    own = mistakes_to_tell_apart(rung)
    lines = [condition.line for condition in rung.conditions if condition.word == NAME]
    wishes = [Wish(rung, own, max(lines, default=rung.line), frozenset(own))] if own else []
    if section.tells_apart and rung.form == PLAIN:
        named = tuple(map(mistake_named, section.tells_apart))
        wishes.append(Wish(None, named, section.tells_apart_line, can_show(rung, named, most)))
    return tuple(wishes)


@lru_cache(maxsize=512)
def can_show(
    rung: RungSpec, mistakes: tuple[Mistake, ...], most: int = LOOKED_AT
) -> frozenset[Mistake]:
    """The mistakes that show on questions of a rung which tell all of these apart.

    Found by looking at so many questions, and so at all of a small rung.
    """
    questions = rung_set(rung)
    order = Permutation(questions.count, key("showing", rung.text))
    # All questions of a rung are of one kind.
    concerned = {m for m in mistakes if questions.count and m.concerns(questions.unrank(0))}
    found: set[Mistake] = set()
    for at in range(min(questions.count, most) if concerned else 0):
        question = questions.unrank(order[at])
        shown = shown_apart(question, mistakes)
        if shown and not shown <= found and can_be_asked(rung, question):
            found |= shown
            if found == concerned:
                break
    return frozenset(found)


def mistakes_to_tell_apart(rung: RungSpec) -> tuple[Mistake, ...]:
    """The mistakes that a rung's questions must tell apart; none where it asks for nothing."""
    return tuple(map(mistake_named, tells_apart.named(rung)))


def shown_apart(
    question: Question, mistakes: Iterable[Mistake], *, each_shows: bool = True
) -> frozenset[Mistake] | None:
    """The mistakes that show on a question, or None when it does not tell them apart.

    With ``each_shows`` one on which none of them shows does not.
    """
    answers = _answers(question, mistakes)
    if each_shows and not answers:
        return None
    if len({right_reply(question), *answers.values()}) <= len(answers):
        return None
    return frozenset(answers)


def _answers(question: Question, mistakes: Iterable[Mistake]) -> dict[Mistake, Reply]:
    given = ((mistake, mistake.works(question)) for mistake in mistakes)
    return {mistake: answer for mistake, answer in given if answer is not None}


def why_not(
    wish: Wish, rungs: Sequence[RungSpec], missing: Collection[Mistake], slots: int, section: str
) -> CannotTellApartError:
    """Why so many questions of some rungs do not tell a wish's mistakes apart.

    ``missing`` are those that show on none of the questions chosen, none of them where too
    few questions were found. Looks at the rungs' questions, all of them where they are no
    more than LOOKED_AT_TO_EXPLAIN, which makes what is said exact.
    """
    mistakes = wish.mistakes
    sets = [rung_set(rung) for rung in rungs]
    most = LOOKED_AT_TO_EXPLAIN // len(sets)
    exist, examined = sum(s.count for s in sets), sum(min(s.count, most) for s in sets)
    separated: Counter[tuple[str, str]] = Counter()
    clashes: Counter[tuple[str, str]] = Counter()
    told = 0
    for question in (s.unrank(number) for s in sets for number in range(min(s.count, most))):
        right = right_reply(question)
        answers: dict[str, Reply] = {RIGHT: right}
        answers |= {m.name: a for m, a in _answers(question, mistakes).items()}
        shows = len(answers) > 1 or not wish.each_shows
        told += shows and len(set(answers.values())) == len(answers)
        for pair in combinations((RIGHT, *(mistake.name for mistake in mistakes)), 2):
            differ = answers.get(pair[0], right) != answers.get(pair[1], right)
            separated[pair] += differ
            clashes[pair] += not differ and pair[0] in answers and pair[1] in answers
    loosen = say("loosen the rung") if len(rungs) == 1 else say("loosen a rung")
    keep_one = say(
        "keep one of them in {tells_apart}, or {loosen}", tells_apart=NAME, loosen=loosen
    )
    of_all = of_questions(examined, exist, rungs)
    each = each_question(examined, exist, rungs)
    kinds = [s.unrank(0) for s in sets if s.count]
    concerned = {RIGHT, *(m.name for m in mistakes if m in missing or any(map(m.concerns, kinds)))}
    for pair in combinations((*(mistake.name for mistake in mistakes), RIGHT), 2):
        first, second = pair
        if not {first, second} <= concerned:
            continue  # it goes with other rungs of the section
        if not separated[pair] and not separated[second, first]:
            if second == RIGHT:
                what = say(
                    "{mistake} gives the right answer to {each_question}",
                    mistake=_quoted(first),
                    each_question=each,
                )
                leave_out = say(
                    "leave it out of {tells_apart}, or {loosen}", tells_apart=NAME, loosen=loosen
                )
                return CannotTellApartError(wish.rung, wish.line, what, leave_out)
            what = say(
                "{first} and {second} give the same answer to {each_question}",
                first=_quoted(first),
                second=_quoted(second),
                each_question=each,
            )
            return CannotTellApartError(wish.rung, wish.line, what, keep_one)
    if not told:
        (first, second), _ = clashes.most_common(1)[0]
        what = several(
            "the one question of {rungs} does not tell all of {tells_apart} apart; {first} and "
            "{second} give the same answer",
            "not one {of_questions} tells all of {tells_apart} apart; most often {first} and "
            "{second} give the same answer",
            exist,
            rungs=_named(rungs),
            of_questions=of_all,
            tells_apart=NAME,
            first=_quoted(first),
            second=_quoted(second),
        )
        return CannotTellApartError(wish.rung, wish.line, what, keep_one)
    if not missing:
        what = several(
            "the one question of {rungs} can tell {tells_apart} apart, and no other was found for "
            "this pack",
            "{told} {of_questions} can tell {tells_apart} apart, and no more were found for this "
            "pack",
            exist,
            rungs=_named(rungs),
            told=grouped(told),
            of_questions=of_all,
            tells_apart=NAME,
        )
        fewer = say("ask for fewer of them, or loosen the rung")
        return CannotTellApartError(wish.rung, wish.line, what, fewer)
    what = several(
        "{count} question of {rungs} in {section} cannot show {left} as well as the others in "
        "{tells_apart}",
        "{count} questions of {rungs} in {section} cannot show {left} as well as the others in "
        "{tells_apart}",
        slots,
        rungs=_named(rungs),
        section=section,
        left=reduce(_and, (_quoted(mistake.name) for mistake in missing)),
        tells_apart=NAME,
    )
    instead = say("ask for more questions, or for fewer mistakes")
    return CannotTellApartError(wish.rung, wish.line, what, instead)


def of_questions(looked: int, exist: int, rungs: Sequence[RungSpec]) -> Saying:
    """``of all 12 questions of carries``: which of those that exist were looked at."""
    if looked == exist:
        return say(
            "of all {count} questions of {rungs}", count=grouped(looked), rungs=_named(rungs)
        )
    return say(
        "of the first {count} questions of {rungs}", count=grouped(looked), rungs=_named(rungs)
    )


def each_question(looked: int, exist: int, rungs: Sequence[RungSpec]) -> Saying:
    """``each of all 12 questions of carries``, or the one where there is no other."""
    return several(
        "the one question of {rungs}",
        "each {of_questions}",
        exist,
        rungs=_named(rungs),
        of_questions=of_questions(looked, exist, rungs),
    )


def _named(rungs: Sequence[RungSpec]) -> str:
    return listed([rung.name for rung in rungs], "and")


def _and(these: str, last: str) -> str:
    return say("{these} and {last}", these=these, last=last)


def _quoted(name: str) -> str:
    return name if name == RIGHT else f"'{name}'"
