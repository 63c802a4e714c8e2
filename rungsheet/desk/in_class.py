"""A lesson as it is shown to a class, part after part: questions, examples in steps, answers.

What slides have no page for is here in values: the words of questions and of what is to be
written, minutes, and workings as pictures that a screen makes as large as it can.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import chain
from typing import TYPE_CHECKING

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection
from rungsheet.desk.packs import Built
from rungsheet.desk.problems import refusing

if TYPE_CHECKING:
    from layouts.planning.plan import PagePlan

__all__ = [
    "Answered",
    "Example",
    "PartShown",
    "Shown",
    "Step",
    "Together",
    "YourTurn",
    "shown",
]


@dataclass(frozen=True, slots=True)
class Answered:
    """A question and its answer: ``a``, ``3.25 + 4.61``, ``=``, ``7.86``.

    ``to_do`` is the question as it stands before it is answered, and ``reply`` what is written
    then: ``Round 7.43 to the nearest whole number``, ``7``.
    """

    label: str
    to_do: str
    reply: str
    asked: str
    sign: str
    answer: str


@dataclass(frozen=True, slots=True)
class Together:
    """A section in one version: what it is called, for how many minutes, and its questions.

    ``version`` is None where there is one alone; ``told`` is what pupils are told to do in the
    teacher's own words, "" for none.
    """

    name: str
    heading: str
    version: int | None
    minutes: int | None
    questions: tuple[Answered, ...]
    told: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """What the teacher does and says: the question over it, the sentence, the working so far."""

    question: str
    sentence: str
    picture: str


@dataclass(frozen=True, slots=True)
class YourTurn:
    """The matched question: alone or with a wrong working under it, then worked.

    ``steps`` has its working a step at a time, where the teacher wants that; else it is empty.
    """

    asked: str
    to_put_right: str | None
    answered: str
    picture: str
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class Example:
    """A worked example: its steps, how it looks when it is finished, and its match."""

    heading: str
    steps: tuple[Step, ...]
    finished: str
    answered: str
    match: YourTurn | None


@dataclass(frozen=True, slots=True)
class PartShown:
    """A part of a lesson: what it is called, what is to be learnt in it ("" for nothing said).

    ``asked`` are questions for all to see, and whether their answers follow is ``are_answered``;
    ``sheets`` has every sheet to be worked on once, ``answers`` those that follow, of every
    version; of very many versions it has no questions and is told where their answers are.
    """

    heading: str
    objective: str
    asked: tuple[Together, ...] = ()
    are_answered: bool = True
    examples: tuple[Example, ...] = ()
    sheets: tuple[Together, ...] = ()
    answers: tuple[Together, ...] = ()


@dataclass(frozen=True, slots=True)
class Shown:
    """A lesson, its parts in the order in which they are shown."""

    title: str
    seed: int
    parts: tuple[PartShown, ...]


def shown(built: Built) -> Shown:
    """The lesson of a pack as it is shown to a class."""
    with refusing(built.spec.source, built.spec):
        parts = (tuple(one for one in part if one.items) for part in built.worked.parts)
        return Shown(
            built.pack.title, built.pack.seed, tuple(_part(part) for part in parts if part)
        )


def _part(sections: tuple[WorkedSection, ...]) -> PartShown:
    """A part of its sections in every version."""
    from layouts.planning.wording import part_heading

    kind, first = sections[0].kind, [one for one in sections if one.version == 1]
    part = PartShown(part_heading(sections[0]), sections[0].objective)
    if kind in ("starter", "exit"):
        return replace(part, asked=tuple(map(_together, first)), are_answered=kind == "starter")
    if kind == "example":
        return replace(part, examples=tuple(chain.from_iterable(map(_examples, sections))))
    part = replace(part, sheets=tuple(map(_together, first)))
    return part if kind == "homework" else replace(part, answers=tuple(_answers(sections)))


def _answers(sections: tuple[WorkedSection, ...]) -> Iterator[Together]:
    """The answers to sheets, as the slides have them: those to very many versions are on slips."""
    from layouts.planning.wording import MOST_ANSWERED

    for section in sections:
        if section.versions <= MOST_ANSWERED:
            yield _together(section)
        elif section.version == 1:
            told = section.say("The answers to each version are on a slip of its own.")
            yield replace(_together(section), version=None, questions=(), told=told)


def _together(section: WorkedSection) -> Together:
    from layouts.planning.wording import section_heading

    return Together(
        section.name,
        section_heading(section),
        section.version if section.has_versions else None,
        section.minutes,
        tuple(map(_answered, section.items)),
        section.instructions,
    )


def _answered(item: WorkedItem) -> Answered:
    from layouts.planning.wording import breakable

    asked, sign, answer = item.answered
    to_do = breakable(item.asked_on_a_line)
    return Answered(item.label, to_do, item.reply, breakable(asked), sign, breakable(answer))


def _examples(section: WorkedSection) -> Iterator[Example]:
    from layouts.planning.errors import placing

    for first in range(0, len(section.items), 2):
        teachers, *matched = section.items[first : first + 2]
        with placing(section.name, teachers.label, teachers.rung):
            in_steps = section.match_in_steps
            yield _example(teachers, _your_turn(matched[0], in_steps) if matched else None)


def _example(item: WorkedItem, match: YourTurn | None) -> Example:
    from layouts.planning.wording import breakable, rung_shown
    from layouts.slides.board import finished_board

    found = item.example
    if found.wrong is None:
        steps = tuple(_steps(item, found.right, item.asked, item.with_answer))
    else:
        wrong = _steps(item, found.wrong, item.asked, item.asked)
        right = _steps(item, found.right, found.then_asked, item.with_answer)
        steps = (*wrong, *right)
    return Example(
        rung_shown(item),
        steps,
        _picture(finished_board(found.right, item.say), item),
        breakable(item.with_answer),
        match,
    )


def _steps(item: WorkedItem, working: Working, question: str, at_last: str) -> Iterator[Step]:
    from layouts.planning.wording import breakable, sentence_to_wrap
    from layouts.slides.board import step_boards

    count = len(working.steps)
    boards = step_boards(working, item.say)
    for number, (step, board) in enumerate(zip(working.steps, boards, strict=True), 1):
        yield Step(
            breakable(at_last if number == count else question),
            sentence_to_wrap(step.sentence),
            _picture(board, item),
        )


def _your_turn(item: WorkedItem, in_steps: bool) -> YourTurn:
    from layouts.planning.wording import breakable
    from layouts.slides.board import finished_board, unexplained_board

    wrong, right = item.example.wrong, item.example.right
    asked = item.asked if wrong is None else item.example.then_asked
    return YourTurn(
        breakable(item.asked),
        None if wrong is None else _picture(unexplained_board(wrong, item.say), item),
        breakable(item.with_answer),
        _picture(finished_board(right, item.say), item),
        tuple(_steps(item, right, asked, item.with_answer)) if in_steps else (),
    )


def _picture(plan: "PagePlan", of: WorkedItem) -> str:
    from layouts.pictures.svg import svg

    return svg(plan, language=of.say.language)
