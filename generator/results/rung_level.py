"""How much of a rung a pupil can do, from right and wrong alone: ticks and crosses are enough.

The share of such questions that the pupil gets right may be anything to begin with, each twentieth
as likely as the next (Bayes' own assumption, 1763); right and wrong answers weigh that. Four right
of four make four fifths or more likelier than two in three; three wrong of three make less than a
half likelier than nine in ten.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from generator.results.attempts import Attempt
from generator.results.pupil_model import added

_STEPS: Final = 20
_SHARES: Final = tuple((2 * at + 1) / (2 * _STEPS) for at in range(_STEPS))
SECURE_SHARE: Final = 0.8
"""Who gets at least this share of a rung's questions right is secure on it."""

NOT_THERE_SHARE: Final = 0.5
"""Who gets less than this share right is not yet there."""

SECURE_FROM: Final = 0.66
NOT_THERE_FROM: Final = 0.9
PERHAPS_FROM: Final = 0.8
"""How likely each must be to be said (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Level:
    """How likely a pupil is secure on some questions, and how likely not there yet."""

    secure: float
    not_there: float


def level(attempts: Sequence[Attempt]) -> Level:
    """The level that right and wrong answers show; older answers count by their weight."""
    masses = [1.0] * _STEPS
    for weight in sorted({attempt.weight for attempt in attempts}, reverse=True):
        kept = weight.numerator / weight.denominator
        together = [1.0] * _STEPS
        for attempt in attempts:
            if attempt.weight == weight:
                for at, share in enumerate(_SHARES):
                    together[at] *= share if attempt.right else 1.0 - share
        forgotten = (1.0 - kept) * added(together) / _STEPS
        masses = [
            mass * (kept * one + forgotten) for mass, one in zip(masses, together, strict=True)
        ]
        most = max(masses)
        masses = [mass / most for mass in masses]
    whole = added(masses)
    pairs = [*zip(_SHARES, masses, strict=True)]
    return Level(
        added(mass for share, mass in pairs if share > SECURE_SHARE) / whole,
        added(mass for share, mass in pairs if share < NOT_THERE_SHARE) / whole,
    )


def by_rung(attempts: Iterable[Attempt]) -> dict[str, Level]:
    """The level on each rung, in the order in which rungs come; without a rung, of an operation."""
    found: dict[str, list[Attempt]] = {}
    for attempt in attempts:
        found.setdefault(attempt.rung or str(attempt.question.operation), []).append(attempt)
    return {rung: level(of_it) for rung, of_it in found.items()}
