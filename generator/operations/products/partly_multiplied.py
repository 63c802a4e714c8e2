"""Mistakes with the parts of two numbers, by the grid or expanded."""

from math import prod
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import NO_SOURCE, AnswerAlone, Mistake, reply
from generator.operations.products.partial_products import Part, parts_of
from generator.operations.products.whole_product import next_turn, without_noughts
from specs.replies import Reply


def _parts(question: Question) -> tuple[tuple[Part, ...], tuple[Part, ...]] | None:
    """The parts of two numbers that are multiplied by their parts; None where none are."""
    if len(question.operands) != 2 or question.power_of_ten:
        return None
    cores = [without_noughts(number.units)[0] for number in question.operands]
    turn = next_turn(*cores)
    return (parts_of(turn.upper), parts_of(turn.lower)) if turn.upper >= 10 else None


def _moved(question: Question, whole: int) -> Reply:
    """A whole-number product with the noughts put back and its digits moved."""
    noughts = sum(without_noughts(number.units)[1] for number in question.operands)
    places = sum(number.places for number in question.operands)
    return reply(Number(whole * 10**noughts, places))


def matching_parts_only(question: Question) -> Reply | None:
    """34 × 27: 30 × 20 = 600, 4 × 7 = 28: 628."""
    found = _parts(question)
    if found is None or len(found[1]) < 2:
        return None
    pairs = [(own, by) for own in found[0] for by in found[1] if own.place == by.place]
    return _moved(question, sum(own.times(by) for own, by in pairs))


def a_nought_too_few(question: Question) -> Reply | None:
    """34 × 27: 30 × 20 = 60, as 3 × 2 = 6 and one nought: 60 + 80 + 210 + 28 = 378."""
    found = _parts(question)
    if found is None or not any(own.place and by.place for own in found[0] for by in found[1]):
        return None
    made = (
        prod((own.digit, by.digit, 10 ** max(own.place, by.place)))
        for own in found[0]
        for by in found[1]
    )
    return _moved(question, sum(made))


_MULTIPLY: Final = frozenset({Operation.MULTIPLY})
_BY_PARTS: Final = frozenset({"grid", "expanded"})

MATCHING_ONLY: Final = Mistake(
    "only matching parts multiplied",
    _MULTIPLY,
    NO_SOURCE,
    AnswerAlone(matching_parts_only),
    ways=_BY_PARTS,
)
NOUGHT_TOO_FEW: Final = Mistake(
    "a nought too few in a product of parts",
    _MULTIPLY,
    NO_SOURCE,
    AnswerAlone(a_nought_too_few),
    ways=_BY_PARTS,
)
