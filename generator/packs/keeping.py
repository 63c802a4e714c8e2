"""Questions kept in their places: from what a spec says of them to questions of their rungs."""

from dataclasses import replace
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.rungs import rung_set
from generator.packs.choosing import Slot
from specs.avoided import Avoided
from specs.spec import Kept, RungSpec

NOT_OF_RUNG: Final = "{asked} is no question of {rung}, from which {section} takes its question "
NOT_OF_RUNG_SO: Final = "{asked} is on {rung}, but cannot be asked or told apart as it must be: "
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
    one = questions.unrank(0)  # all of a rung end alike
    places = asked.places if one.operation is Operation.ROUND else one.places
    numbers = tuple(map(Number.parse, asked.numbers))
    question = replace(one, operands=numbers, places=places)
    if len(numbers) != len(one.operands) or any(not n.units for n in _divisors(question)):
        return None
    return questions.as_written(question) if question in questions else None


def _divisors(question: Question) -> tuple[Number, ...]:
    return question.operands[1:] if question.operation is Operation.DIVIDE else ()
