"""``power_of_ten``: a rung on which digits move, by 10, 100 or 1000.

The one word says all that there is to say of such a rung; beside it no other narrows anything
(``digits_only_move`` refuses those that would).
"""

from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.questions import Operation
from generator.operations import worked_by
from generator.operations.rung_values import Found
from generator.operations.spans import spread
from specs.languages.saying import say
from specs.shapes import Fields, Range, SetOf
from specs.spec import TELLS_APART, RungSpec
from specs.words import Word

_MOST_WHOLE: Final = 4


@dataclass(frozen=True, slots=True)
class PowerOutline:
    """Numbers to be multiplied or divided by 10, 100 or 1000."""

    operation: Operation
    powers: tuple[int, ...] = (1, 2, 3)
    whole: tuple[int, ...] = (0, 1)
    places: tuple[int, ...] = (1, 2)


@dataclass(frozen=True, slots=True)
class AskedPower:
    """By which powers of ten digits move, and how long the number is; None: not asked."""

    by: tuple[str, ...] | None = None
    places: tuple[int, int] | None = None
    whole: tuple[int, int] | None = None


POWER_OF_TEN = Word(
    "power_of_ten",
    frozenset({"multiply", "divide"}),
    Fields(
        AskedPower,
        {
            "by": SetOf(
                "ten",
                "hundred",
                "thousand",
                also={"10": "ten", "100": "hundred", "1000": "thousand"},
            ),
            "places": Range(0, 3),
            "whole": Range(0, _MOST_WHOLE),
        },
        short="by",
    ),
    say(
        "Makes the rung one of multiplying or dividing by 10, 100 or 1000 on a place-value grid: "
        "by [ten, hundred, thousand] to choose from (all three when not given), places and whole "
        "of the number, each how many or [fewest, most] (places [1, 2] and whole [0, 1] when not "
        "given)."
    ),
)
_POWERS: Final = {"ten": 1, "hundred": 2, "thousand": 3}


def narrow_power_of_ten(asked: AskedPower, outline: PowerOutline) -> PowerOutline:
    """By what, and how long the numbers are."""
    if asked.by is not None:
        outline = replace(outline, powers=tuple(_POWERS[name] for name in asked.by))
    if asked.whole is not None:
        outline = replace(outline, whole=spread(asked.whole))
    if asked.places is not None:
        outline = replace(outline, places=spread(asked.places))
    return outline


def digits_only_move(rung: RungSpec) -> Found:
    """Where digits move by a power of ten, ``power_of_ten`` says all that there is to say."""
    moves = POWER_OF_TEN.name
    if POWER_OF_TEN.of(rung) is not None:
        for condition in rung.conditions:
            if condition.word not in (moves, TELLS_APART, worked_by.NAME):
                what = say(
                    "'{word}' has no meaning beside '{other}'", word=condition.word, other=moves
                )
                yield condition.line, what, say("leave it out")
