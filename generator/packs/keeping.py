"""Questions kept in their places: from what a spec says of them to questions of their rungs."""

from dataclasses import replace
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.rungs import rung_set
from generator.packs.belonging import unmet
from generator.packs.choosing import Slot
from specs.avoided import Avoided
from specs.spec import Kept, RungSpec

NOT_OF_RUNG: Final = "{asked} is no question of {rung}, from which {section} takes its question "
NOT_OF_RUNG_SO: Final = "{asked} is on {rung}, but cannot be asked or told apart as it must be: "
OF_A_RUN: Final = "{asked} cannot be kept: a run shares what all its questions have, and it is "
WANTED: Final = "{asked} is kept twice, or to be avoided, or another rung needs it: "
"""Why a question cannot be kept; the letter of its place goes behind."""


class CannotBeKeptError(Exception):
    """What a spec keeps cannot be asked in its place. The message says why."""

    def __init__(self, kept: Kept, rung: RungSpec, why: str) -> None:
        said = why.format(asked=kept.question.text, rung=rung.name, section=kept.section)
        self.what = said + kept.label
        self.instead = "take it out below 'keep:', or keep another"
        self.line = kept.line
        super().__init__(f"{self.what}; {self.instead}")


class NotOnItsRungError(Exception):
    """The teacher's own example is not on the rung that it stands for. The message says why."""

    def __init__(self, rung: RungSpec, asked: Avoided, line: int, why: str) -> None:
        self.what = f"{asked.text} is not on {rung.name}: {why}"
        self.instead = "take another question, or another rung for it"
        self.line = line
        super().__init__(f"{self.what}; {self.instead}")


def own_question(asked: Avoided, line: int, slot: Slot) -> Question:
    """The question of the teacher's own for a slot. Raises NotOnItsRungError."""
    question = _of_rung(asked, slot)
    if question is not None and slot.accepts(question):
        return question
    if question is not None:
        why = "it is, but cannot be asked or told apart as it must be"
    elif asked.operation != slot.rung.operation:
        why = f"it is one to {asked.operation}, and {slot.rung.name} asks to {slot.rung.operation}"
    else:
        written = _written(asked, rung_set(slot.rung).unrank(0))
        why = _NO_QUESTION if written is None else unmet(slot.rung, written) or _NO_QUESTION
    raise NotOnItsRungError(slot.rung, asked, line, why)


_NO_QUESTION: Final = "it is no question of it"


def kept_question(kept: Kept, slot: Slot) -> Question:
    """The question that is kept in a slot's place. Raises CannotBeKeptError."""
    question = _of_rung(kept.question, slot)
    if question is None:
        raise CannotBeKeptError(kept, slot.rung, NOT_OF_RUNG)
    if not slot.accepts(question):
        raise CannotBeKeptError(kept, slot.rung, NOT_OF_RUNG_SO)
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
