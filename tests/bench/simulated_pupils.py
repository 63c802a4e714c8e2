"""Simulated pupils: habits planted in them, and slips of makes that the model does not assume.

A pupil with a habit answers by that wrong procedure wherever it shows, and rightly elsewhere; a
pupil without one answers rightly. Either slips in one answer of twenty, in the way that a *make*
says. Everything is drawn by key, so it is the same on every machine. The slip rate and the makes
are assumptions, no source.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Final

from generator.arithmetic.questions import Question
from generator.numbered.seeds import Dice
from generator.operations.mistakes import Mistake, right_reply
from generator.packs.building import build_pack
from generator.results.attempts import Attempt
from generator.vocabulary import VOCABULARY
from specs import read_spec
from specs.replies import Reply

SLIPS: Final = Fraction(1, 20)
STEADY: Final = Fraction(2, 3)
"""How often an unsteady pupil follows a habit."""

COPIED: Final = Fraction(1, 10)
"""How many answers somebody copies."""

TOLD_APART: Final = {
    "sums": (
        "numbers lined up at the right-hand end",
        "carry written but not added",
        "carry added twice",
        "whole and decimal parts worked apart",
    ),
    "differences": (
        "smaller digit taken from larger",
        "exchange without lowering the next column",
        "stops at a zero",
        "zero minus n gives n",
    ),
}
RUNGS: Final = {
    "sums": "operation: add, addends: 2, places: {between: [1, 2]}, whole: {between: [1, 2]}",
    "differences": "operation: subtract, places: 2, whole: {between: [1, 2]}",
}


def questions(size: int, seed: int, *, told_apart: bool) -> tuple[Question, ...]:
    """A section of so many questions, half additions, half subtractions.

    As they come from their rungs, or chosen to tell apart the eight habits, four of each.
    """
    rungs = []
    for name, text in RUNGS.items():
        asked = f", tells_apart: [{', '.join(TOLD_APART[name])}]" if told_apart else ""
        rungs.append(f"  {name}: {{{text}{asked}}}")
    sums = (size + 1) // 2
    text = "\n".join(
        [
            "title: Bench",
            "ladder:",
            *rungs,
            f"starter: {{sums: {sums}, differences: {size - sums}}}",
        ]
    )
    pack = build_pack(read_spec(text.encode(), "bench.yaml", VOCABULARY), seed)
    return tuple(item.question for item in pack.sections[0].items)


# Slips


def _read(digits: str) -> Reply:
    whole, _, part = digits.partition(".")
    return Reply(Fraction(int((whole + part) or "0"), 10 ** len(part)))


def one_out(reply: Reply, dice: Dice) -> Reply:
    """One of the digits is one larger or smaller."""
    digits = list(reply.text)
    places = [at for at, digit in enumerate(digits) if digit.isdigit()]
    at = places[dice.below(len(places))]
    digits[at] = str((int(digits[at]) + (1 if dice.below(2) else 9)) % 10)
    return _read("".join(digits))


def swapped(reply: Reply, dice: Dice) -> Reply:
    """Two neighbouring digits have changed places; one is one out where all are alike."""
    digits = list(reply.text)
    places = [at for at, digit in enumerate(digits) if digit.isdigit()]
    pairs = [(one, other) for one, other in pairwise(places) if digits[one] != digits[other]]
    if not pairs:
        return one_out(reply, dice)
    one, other = pairs[dice.below(len(pairs))]
    digits[one], digits[other] = digits[other], digits[one]
    return _read("".join(digits))


def fact_wrong(reply: Reply, dice: Dice) -> Reply:
    """A column's fact is 1 to 9 out, and what is carried with it."""
    places = reply.text.partition(".")[2]
    place = dice.below(len(reply.text.replace(".", ""))) - len(places)
    by = (1 + dice.below(9)) * (1 if dice.below(2) else -1) * Fraction(10) ** place
    return Reply(abs(reply.value + by))


def column_skipped(reply: Reply, dice: Dice) -> Reply:
    """A digit is left out, and the others close up."""
    digits = list(reply.text)
    places = [at for at, digit in enumerate(digits) if digit.isdigit()]
    del digits[places[dice.below(len(places))]]
    return _read("".join(digits))


Make = Callable[[Reply, Dice], Reply]
SLIPPED: Final[dict[str, Make]] = {
    "a digit one out": one_out,
    "digits swapped": swapped,
    "a fact wrong": fact_wrong,
    "a column skipped": column_skipped,
}
UNSTEADY: Final = "unsteady habits"
COPYING: Final = "copying a neighbour"
MAKES: Final = (*SLIPPED, UNSTEADY, COPYING)
"""How simulated pupils slip: in one of four ways; a digit one out, and the habit is followed two
times of three; a digit one out, and one answer of ten is that of a neighbour who has a habit."""


def pupil(
    asked: Sequence[Question],
    habits: Sequence[Mistake],
    dice: Dice,
    make: str = "a digit one out",
    neighbours: Sequence[Mistake] = (),
) -> list[Attempt]:
    """A pupil's answers to the questions; a habit of ``neighbours`` is the neighbour's."""
    neighbour = neighbours[dice.below(len(neighbours))] if neighbours else None
    slip = SLIPPED.get(make, one_out)
    attempts = []
    for question in asked:
        followed = habits
        if make == COPYING and neighbour and _happens(COPIED, dice):
            followed = (neighbour,)
        elif make == UNSTEADY and not _happens(STEADY, dice):
            followed = ()
        reply = answered(question, followed)
        if _happens(SLIPS, dice):
            reply = slip(reply, dice)
        attempts.append(Attempt.answered(question, (reply,)))
    return attempts


def answered(question: Question, habits: Sequence[Mistake]) -> Reply:
    """What the first of some habits that shows gives to a question; else the right answer."""
    given = (habit.wrong_answer(question) for habit in habits)
    return next((reply for reply in given if reply is not None), right_reply(question))


def _happens(rate: Fraction, dice: Dice) -> bool:
    return dice.below(rate.denominator) < rate.numerator
