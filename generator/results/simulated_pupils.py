"""Simulated pupils: what many of them write to some questions, as arrays of numbers.

Pupils are drawn as ``pupil_model`` takes them to be: each follows one procedure wherever it is
set off, more or less steadily, and works carefully elsewhere; some slip seldom, some often. What
slips write is drawn for each question beforehand (``slips_drawn``).

Random numbers are SplitMix64 (Steele, Lea and Flood 2014, from memory) of a key and a count: the
same on every machine and with every release of numpy. This module, ``judging_many`` and
``foresight`` are the only ones of the generator that use numpy: ``rungsheet foresee`` and the
benchmarks alone load them.
"""

from collections.abc import Sequence
from functools import cached_property, reduce
from itertools import accumulate
from math import prod
from typing import Final

import numpy as np
from numpy.typing import NDArray

from generator.arithmetic.questions import Question
from generator.numbered.seeds import Dice
from generator.operations.mistakes import NO_WAYS, Mistake, agree, right_reply
from generator.results.attempts import Attempt
from generator.results.pupil_model import (
    SLIPS,
    STEADY,
    Prediction,
    Rate,
    answers_by_procedure,
    chances,
    chances_of_something_else,
)
from generator.results.slips_drawn import drawn_slip
from specs.replies import Reply

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Whole = NDArray[np.intp]

SLIPS_DRAWN: Final = 6
"""So many slips are drawn for each answer that somebody may mean; pupils make one of them."""


class Written:
    """A question with every answer that simulated pupils write to it, numbered from 0.

    ``meant`` has first the right answer, then each different one that procedures give;
    ``slipped`` the numbers of the answers to which who meant one of these slips. ``ways`` are the
    methods taught that have procedures of their own.
    """

    def __init__(self, question: Question, address: bytes, ways: frozenset[str] = NO_WAYS) -> None:
        self.question = question
        self.ways = ways
        self.by_procedure = answers_by_procedure(question, ways)
        wrong = tuple(dict.fromkeys(self.by_procedure.values()))
        self._numbers: dict[Reply, int] = {}
        self.meant = tuple(map(self._number, (right_reply(question), *wrong)))
        dice = Dice(address)
        self.slipped = np.array(
            [
                [self._number(drawn_slip(question, one, wrong, dice)) for _ in range(SLIPS_DRAWN)]
                for one in (right_reply(question), *wrong)
            ]
        )
        self.attempts = tuple(Attempt.answered(question, (reply,), ways) for reply in self._numbers)
        self._tables: dict[tuple[Prediction, tuple[Rate, ...]], Floats] = {}

    def _number(self, reply: Reply) -> int:
        return self._numbers.setdefault(reply, len(self._numbers))

    def meant_by(self, mistake: Mistake | None) -> int:
        """Which of ``meant`` a procedure gives: the right answer where it is not set off."""
        given = self.by_procedure.get(mistake) if mistake else None
        return 0 if given is None else self.meant.index(self._numbers[given])

    def table(self, expected: Prediction, rates: tuple[Rate, ...] = STEADY) -> Floats:
        """The chance of each answer from who would give one of those expected, at some of the
        rates: answers × grid.
        """
        known = expected, rates
        if known not in self._tables:
            if len(expected) > 1:  # one of two, each as likely
                each = [self.table((one,), rates) for one in expected]
                self._tables[known] = reduce(np.add, each) / len(each)
            else:
                found = [chances(one, expected, rates) for one in self.attempts]
                self._tables[known] = np.array(found)
        return self._tables[known]

    @cached_property
    def of_something_else(self) -> Floats:
        """The same from who works in a way that is not known."""
        return np.array([chances_of_something_else(one) for one in self.attempts])

    def gives(self, expected: Prediction) -> Flags:
        """Which answers are wrong ones that are expected."""
        return np.array(
            [
                not one.right
                and any(agree(self.question, e, reply) for e in expected for reply in one.replies)
                for one in self.attempts
            ]
        )


class Fair:
    """Fair random numbers for a key, the same on every machine."""

    def __init__(self, address: bytes) -> None:
        self._at = int.from_bytes(address[:8], "big")

    def uniform(self, *shape: int) -> Floats:
        """Numbers from 0 to 1, 1 itself left out."""
        count = prod(shape)
        start, self._at = self._at, (self._at + count * _STEP) % 2**64
        bits = np.uint64(start) + np.arange(1, count + 1, dtype=np.uint64) * np.uint64(_STEP)
        bits = (bits ^ (bits >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
        bits = (bits ^ (bits >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
        bits ^= bits >> np.uint64(31)
        return ((bits >> np.uint64(11)).astype(np.float64) * 2.0**-53).reshape(shape)

    def among(self, rates: tuple[Rate, ...], count: int) -> Floats:
        """Rates, each as likely as is said beside it."""
        bounds = list(accumulate(chance for _, chance in rates))
        chosen = np.searchsorted(bounds[:-1], self.uniform(count), side="right")
        return np.array([rate for rate, _ in rates])[chosen]


_STEP: Final = 0x9E3779B97F4A7C15


def answered(
    asked: Sequence[Written], habits: Sequence[Mistake | None], pupils: int, address: bytes
) -> Whole:
    """The numbers of the answers of so many pupils with each habit, None for careful work:
    habits × pupils × questions.
    """
    fair = Fair(address)
    found = np.empty((len(habits), pupils, len(asked)), dtype=np.intp)
    for at, habit in enumerate(habits):
        slips, steady = fair.among(SLIPS, pupils), fair.among(STEADY, pupils)
        for number, written in enumerate(asked):
            follows, slip, which = fair.uniform(3, pupils)
            meant = np.where(follows < steady, written.meant_by(habit), 0)
            slipped = written.slipped[meant, (which * SLIPS_DRAWN).astype(np.intp)]
            found[at, :, number] = np.where(slip < slips, slipped, np.array(written.meant)[meant])
    return found
