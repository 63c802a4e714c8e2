"""How a pupil is taken to work: carefully, by a wrong procedure, or in some other way, and slips.

In each *field* of questions (additions, subtractions, …) a pupil works carefully, or by one of
the known wrong procedures, at most two, or by something else. Whoever follows a procedure does
so where it is set off, more or less steadily, and works rightly elsewhere. On top of that
anyone slips now and then, and then writes what ``slip_answers`` says.

That wrong answers come from procedures, with slips on top, is Brown & Burton (1978); that
pupils are unsteady in them is VanLehn (Mind Bugs, 1990); that whoever can do a question gets it
wrong at one rate, and whoever cannot right at another, is the noisy "and" gate of Junker & Sijtsma
(2001), here with an answer's content besides. The rates are assumptions, summed over a grid:
no figure is fitted to a class.

Chances are floats, made by + − × ÷ alone in a fixed order, so they are the same on every machine.
Questions, answers and what is right stay exact.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.mistakes import (
    EVERY_MISTAKE,
    MISTAKES,
    MISTAKES_OF_METHODS,
    NO_WAYS,
    Mistake,
    agree,
    right_reply,
)
from generator.results.attempts import Attempt
from generator.results.how_common import how_common
from generator.results.slip_answers import slip_chance, unknown_chance
from specs.languages.saying import say
from specs.replies import Reply

Rate = tuple[float, float]
"""A rate and the chance that a pupil has it."""

SLIPS: Final[tuple[Rate, ...]] = (
    (0.01, 0.25),
    (0.03, 0.3),
    (0.06, 0.25),
    (0.1, 0.12),
    (0.18, 0.06),
    (0.3, 0.02),
)
"""How often a pupil slips (assumption, no source)."""

STEADY: Final[tuple[Rate, ...]] = ((0.5, 0.1), (0.75, 0.2), (0.95, 0.7))
"""How often a pupil who follows a procedure does so where it is set off (assumption, no source)."""

PASSING: Final[tuple[Rate, ...]] = ((0.1, 0.5), (0.2, 0.35), (0.35, 0.15))
"""How often somebody does who does not follow it, but has an answer of it in passing: tried once,
or copied from a neighbour (assumption, no source)."""

PASSING_SHARE: Final = 0.1
"""So many as follow a procedure times this have answers of it in passing (assumption)."""

ELSE_WRONG: Final[tuple[Rate, ...]] = ((0.5, 0.3), (0.75, 0.4), (0.95, 0.3))
"""How often somebody who works in some other way is wrong (assumption, no source)."""

ALL_CAREFUL: Final = 0.45
"""The share of pupils who work carefully in every field (assumption, no source)."""

SOMETHING_ELSE: Final = 0.06
"""Of the others, the share who work a field in a way that is not known here (assumption)."""

IN_EVERY_FIELD: Final = 0.75
"""Of those with a procedure that belongs to several fields, the share who follow it in all of
them; the rest follow it in one (assumption, no source)."""

PAIRS_OFTENER: Final = 3.0
"""So many times oftener than by chance two procedures come together in one field: among Brown &
Burton's most frequent ones most are pairs (from memory; the figure is an assumption)."""

MOST_OF_A_FIELD: Final = 0.6
"""At most this share of those who do not work carefully throughout follow a known procedure in a
field."""

_FIELDS: Final = {
    Operation.ADD: say("additions"),
    Operation.SUBTRACT: say("subtractions"),
    Operation.MULTIPLY: say("multiplications"),
    Operation.DIVIDE: say("divisions"),
    Operation.ORDER: say("numbers compared"),
    Operation.COMPARE: say("numbers compared"),
    Operation.ROUND: say("rounding"),
}
MOVING: Final = say("digits moved")


def field_of(question: Question) -> str:
    """The field that a question belongs to: ``additions``, ``digits moved``, …"""
    return MOVING if question.power_of_ten else _FIELDS[question.operation]


def _fields_of(mistake: Mistake) -> frozenset[str]:
    plain = {_FIELDS[operation] for operation in mistake.operations}
    moved = {Operation.MULTIPLY, Operation.DIVIDE} & mistake.operations
    if mistake.moving:
        return frozenset((MOVING,))
    if mistake in MISTAKES_OF_METHODS:  # by which no digits are moved
        return frozenset(plain)
    return frozenset(plain | ({MOVING} if moved else set()))


FIELDS: Final = (*dict.fromkeys(_FIELDS.values()), MOVING)
FIELDS_OF: Final[Mapping[Mistake, frozenset[str]]] = {m: _fields_of(m) for m in EVERY_MISTAKE}
PROCEDURES: Final[Mapping[str, tuple[Mistake, ...]]] = {
    field: tuple(mistake for mistake in MISTAKES if field in FIELDS_OF[mistake]) for field in FIELDS
}
"""The known wrong procedures of a field, whatever methods were taught."""


@lru_cache(maxsize=1 << 6)
def procedures_of(field: str, ways: frozenset[str] = NO_WAYS) -> tuple[Mistake, ...]:
    """The known wrong procedures of a field where some methods are taught that have their own."""
    own = (m for m in MISTAKES_OF_METHODS if field in FIELDS_OF[m] and m.is_made_in(ways))
    return (*PROCEDURES[field], *own)


@dataclass(frozen=True, slots=True)
class Priors:
    """How common each procedure is, before this pupil has answered anything.

    ``shares`` has the share of pupils, of all, who follow it where it belongs.
    """

    shares: Mapping[Mistake, float]

    def share(self, mistake: Mistake) -> float:
        """The share of pupils with a habit."""
        return self.shares[mistake]


PUBLISHED: Final = Priors({mistake: how_common(mistake.name)[0] for mistake in EVERY_MISTAKE})
"""Priors from published counts and assumptions."""


@lru_cache(maxsize=1 << 16)
def answers_by_procedure(
    question: Question, ways: frozenset[str] = NO_WAYS
) -> Mapping[Mistake, Reply]:
    """The wrong answers that the procedures of a question's field give to it."""
    found = {}
    for mistake in procedures_of(field_of(question), ways):
        if (given := mistake.wrong_answer(question)) is not None:
            found[mistake] = given
    return found


Prediction = tuple[Reply, ...]
"""What a way of working gives to a question in place of the right answer: nothing, one answer, or
one of two where two procedures are set off."""


def predicted(
    question: Question, procedures: Sequence[Mistake], ways: frozenset[str] = NO_WAYS
) -> Prediction:
    """What procedures followed together give to a question; () where none is set off."""
    wrong = answers_by_procedure(question, ways)
    return tuple(dict.fromkeys(wrong[mistake] for mistake in procedures if mistake in wrong))


Grid = tuple[float, ...]
"""A chance for each slip rate and, within it, each steadiness."""

_GRIDS: Final = {
    rates: tuple((slips, rate) for slips, _ in SLIPS for rate, _ in rates)
    for rates in (STEADY, PASSING, ELSE_WRONG)
}
_ELSE_BY_SLIPS: Final = _GRIDS[ELSE_WRONG]


def chances(attempt: Attempt, expected: Prediction, rates: tuple[Rate, ...] = STEADY) -> Grid:
    """The chance of an answer from who would give one of those expected, or else the right one.

    ``rates`` is how often they would. Of what was only crossed, the chance of any wrong answer.
    """
    grid = _GRIDS[rates]
    if attempt.right:
        if not expected:
            return tuple(1.0 - slips for slips, _ in grid)
        return tuple((1.0 - steady) * (1.0 - slips) for slips, steady in grid)
    if not attempt.replies:
        if not expected:
            return tuple(slips for slips, _ in grid)
        return tuple(1.0 - (1.0 - steady) * (1.0 - slips) for slips, steady in grid)
    question = attempt.question
    by_slip = _slipped(attempt, right_reply(question))
    if not expected:
        return tuple(slips * by_slip for slips, _ in grid)
    hit = sum(
        any(agree(question, one, given) for given in attempt.replies) for one in expected
    ) / len(expected)
    from_wrong = added(_slipped(attempt, one) for one in expected) / len(expected)
    return tuple(
        steady * ((1.0 - slips) * hit + slips * from_wrong) + (1.0 - steady) * slips * by_slip
        for slips, steady in grid
    )


def chances_of_something_else(attempt: Attempt) -> Grid:
    """The chance of an answer from who works in a way that is not known here."""
    if attempt.right:
        return tuple((1.0 - wrong) * (1.0 - slips) for slips, wrong in _ELSE_BY_SLIPS)
    if not attempt.replies:
        return tuple(1.0 - (1.0 - wrong) * (1.0 - slips) for slips, wrong in _ELSE_BY_SLIPS)
    question = attempt.question
    procedures = _wrong_by_procedures(question, attempt.ways)
    unknown = max(unknown_chance(question, given, procedures) for given in attempt.replies)
    by_slip = _slipped(attempt, right_reply(question))
    return tuple(
        wrong * unknown + (1.0 - wrong) * slips * by_slip for slips, wrong in _ELSE_BY_SLIPS
    )


@lru_cache(maxsize=1 << 16)
def _wrong_by_procedures(question: Question, ways: frozenset[str]) -> frozenset[Reply]:
    return frozenset(answers_by_procedure(question, ways).values())


def _slipped(attempt: Attempt, meant: Reply) -> float:
    procedures = _wrong_by_procedures(attempt.question, attempt.ways)
    return max(slip_chance(attempt.question, meant, given, procedures) for given in attempt.replies)


def added(chances: Iterable[float]) -> float:
    """Chances added one after another: ``sum`` rounds otherwise from Python 3.12 on."""
    whole = 0.0
    for chance in chances:
        whole += chance
    return whole


def rounded(chance: Fraction | float, places: int) -> Fraction:
    """A chance to so many decimal places, from its exact value."""
    return round(Fraction(chance), places)


def over_grid(grid: Sequence[float], rates: tuple[Rate, ...]) -> tuple[float, ...]:
    """A grid summed over its second rate: a chance for each slip rate."""
    step = len(rates)
    return tuple(
        added(grid[start + at] * rates[at][1] for at in range(step))
        for start in range(0, len(grid), step)
    )
