"""A lesson as it is shown to a class: starter, worked examples a step at a time, practice, answers.

What slides have no page for is here in values: the words of questions and of what is to be
written, minutes, and workings as pictures that a screen makes as large as it can.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from typing import TYPE_CHECKING

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection
from rungsheet.desk.packs import Built
from rungsheet.desk.problems import refusing

if TYPE_CHECKING:
    from layouts.planning.plan import PagePlan

__all__ = ["Answered", "Example", "Shown", "Step", "Together", "YourTurn", "shown"]


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

    ``version`` is None where there is one alone.
    """

    name: str
    heading: str
    version: int | None
    minutes: int | None
    questions: tuple[Answered, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """What the teacher does and says: the question over it, the sentence, the working so far."""

    question: str
    sentence: str
    picture: str


@dataclass(frozen=True, slots=True)
class YourTurn:
    """The matched question: alone or with a wrong working under it, then worked."""

    asked: str
    to_put_right: str | None
    answered: str
    picture: str


@dataclass(frozen=True, slots=True)
class Example:
    """A worked example: its steps, how it looks when it is finished, and its match."""

    heading: str
    steps: tuple[Step, ...]
    finished: str
    answered: str
    match: YourTurn | None


@dataclass(frozen=True, slots=True)
class Shown:
    """A lesson in the order in which it is shown.

    ``practice`` has every tier once, ``answers`` every sheet of every tier.
    """

    title: str
    seed: int
    starter: tuple[Together, ...]
    examples: tuple[Example, ...]
    practice: tuple[Together, ...]
    answers: tuple[Together, ...]


def shown(built: Built) -> Shown:
    """The lesson of a pack as it is shown to a class."""
    with refusing(built.spec.source, built.spec):
        starter, examples, practice = (
            tuple(section for section in built.worked.of_kinds(kind) if section.items)
            for kind in ("starter", "example", "practice")
        )
        return Shown(
            built.pack.title,
            built.pack.seed,
            tuple(map(_together, starter)),
            tuple(chain.from_iterable(map(_examples, examples))),
            tuple(_together(section) for section in practice if section.version == 1),
            tuple(map(_together, practice)),
        )


def _together(section: WorkedSection) -> Together:
    from layouts.planning.wording import section_heading

    return Together(
        section.name,
        section_heading(section),
        section.version if section.has_versions else None,
        section.minutes,
        tuple(map(_answered, section.items)),
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
            yield _example(teachers, matched[0] if matched else None)


def _example(item: WorkedItem, match: WorkedItem | None) -> Example:
    from layouts.planning.wording import breakable, name_in_words
    from layouts.slides.board import finished_board

    found = item.example
    if found.wrong is None:
        steps = tuple(_steps(found.right, item.asked, item.with_answer))
    else:
        wrong = _steps(found.wrong, item.asked, item.asked)
        right = _steps(found.right, found.then_asked, item.with_answer)
        steps = (*wrong, *right)
    return Example(
        name_in_words(item.rung),
        steps,
        _picture(finished_board(found.right)),
        breakable(item.with_answer),
        None if match is None else _your_turn(match),
    )


def _steps(working: Working, question: str, at_last: str) -> Iterator[Step]:
    from layouts.planning.wording import breakable, sentence_to_wrap
    from layouts.slides.board import step_boards

    count = len(working.steps)
    boards = step_boards(working)
    for number, (step, board) in enumerate(zip(working.steps, boards, strict=True), 1):
        yield Step(
            breakable(at_last if number == count else question),
            sentence_to_wrap(step.sentence),
            _picture(board),
        )


def _your_turn(item: WorkedItem) -> YourTurn:
    from layouts.planning.wording import breakable
    from layouts.slides.board import finished_board, unexplained_board

    wrong = item.example.wrong
    return YourTurn(
        breakable(item.asked),
        None if wrong is None else _picture(unexplained_board(wrong)),
        breakable(item.with_answer),
        _picture(finished_board(item.example.right)),
    )


def _picture(plan: "PagePlan") -> str:
    from layouts.pictures.svg import svg

    return svg(plan)
