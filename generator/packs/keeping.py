"""Questions kept in their places: from what a spec says of them to questions of their rungs."""

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.rungs import rung_set
from generator.packs.belonging import unmet
from generator.packs.choosing import Slot
from specs.avoided import Avoided
from specs.languages.saying import Saying, say
from specs.spec import Kept, RungSpec

Why = Callable[[Kept, RungSpec], Saying]
"""Why what is kept in a place of that rung cannot be."""


def not_of_rung(kept: Kept, rung: RungSpec) -> Saying:
    """It is not on the rung."""
    return say(
        "{asked} is no question of {rung}, from which {section} takes its question {label}",
        asked=kept.question.text,
        rung=rung.name,
        section=kept.section,
        label=kept.label,
    )


def not_as_it_must_be(kept: Kept, rung: RungSpec) -> Saying:
    """It is on the rung, and not as the rung asks."""
    return say(
        "{asked} is on {rung}, but cannot be asked or told apart as it must be: {label}",
        asked=kept.question.text,
        rung=rung.name,
        label=kept.label,
    )


def of_a_run(kept: Kept, rung: RungSpec) -> Saying:
    """It stands in a run."""
    return say(
        "{asked} cannot be kept: a run shares what all its questions have, and it is {label}",
        asked=kept.question.text,
        label=kept.label,
    )


def wanted(kept: Kept, rung: RungSpec) -> Saying:
    """It is not to be had a second time, or not at all."""
    return say(
        "{asked} is kept twice, or to be avoided, or another rung needs it: {label}",
        asked=kept.question.text,
        label=kept.label,
    )


class CannotBeKeptError(Exception):
    """What a spec keeps cannot be asked in its place. The message says why."""

    def __init__(self, kept: Kept, rung: RungSpec, why: Why) -> None:
        self.what = why(kept, rung)
        self.instead = say("take it out below 'keep:', or keep another")
        self.line = kept.line
        super().__init__(f"{self.what}; {self.instead}")


class NotOnItsRungError(Exception):
    """The teacher's own example is not on the rung that it stands for. The message says why."""

    def __init__(self, rung: RungSpec, asked: Avoided, line: int, why: Saying) -> None:
        self.what = say(
            "{asked} is not on {rung}: {why}", asked=asked.text, rung=rung.name, why=why
        )
        self.instead = say("take another question, or another rung for it")
        self.line = line
        super().__init__(f"{self.what}; {self.instead}")


def own_question(asked: Avoided, line: int, slot: Slot) -> Question:
    """The question of the teacher's own for a slot. Raises NotOnItsRungError."""
    question = _of_rung(asked, slot)
    if question is not None and slot.accepts(question):
        return question
    if question is not None:
        why = say("it is, but cannot be asked or told apart as it must be")
    elif asked.operation != slot.rung.operation:
        why = say(
            "it is one to {operation}, and {rung} asks to {other}",
            operation=asked.operation,
            rung=slot.rung.name,
            other=slot.rung.operation,
        )
    else:
        written = _written(asked, rung_set(slot.rung).unrank(0))
        why = _NO_QUESTION if written is None else unmet(slot.rung, written) or _NO_QUESTION
    raise NotOnItsRungError(slot.rung, asked, line, why)


_NO_QUESTION: Final = say("it is no question of it")


def kept_question(kept: Kept, slot: Slot) -> Question:
    """The question that is kept in a slot's place. Raises CannotBeKeptError."""
    question = _of_rung(kept.question, slot)
    if question is None:
        raise CannotBeKeptError(kept, slot.rung, not_of_rung)
    if not slot.accepts(question):
        raise CannotBeKeptError(kept, slot.rung, not_as_it_must_be)
    return question


def as_kept(question: Question) -> Avoided:
    """A question as a spec names it."""
    places = question.places if question.operation is Operation.ROUND else 0
    return Avoided(str(question.operation), tuple(map(str, question.operands)), places)


def _of_rung(asked: Avoided, slot: Slot) -> Question | None:
    questions = rung_set(slot.rung)
    if asked.operation != slot.rung.operation or not questions.count:
        return None
    one = questions.unrank(0)
    question = _written(asked, one)
    if question is None or len(question.operands) != len(one.operands):
        return None
    return questions.as_written(question) if question in questions else None


def _written(asked: Avoided, one: Question) -> Question | None:
    """What is asked, to end as one question of the rung: all of a rung end alike."""
    places = asked.places if one.operation is Operation.ROUND else one.places
    question = replace(one, operands=tuple(map(Number.parse, asked.numbers)), places=places)
    return None if any(not n.units for n in _divisors(question)) else question


def _divisors(question: Question) -> tuple[Number, ...]:
    return question.operands[1:] if question.operation is Operation.DIVIDE else ()
