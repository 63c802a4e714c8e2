"""How common each habit is before anything has been answered, and where that is known from.

Of pupils who answer questions of a field, for a low-to-middle attaining class. Where sources
count pupils, a share between theirs stands here, rounded; the tests that the counts come from are
not this class's, so a class of some size soon outweighs them (``class_priors``). All else is an
assumption: habits that teachers' handbooks name first 3 in 100, others 1 in 100; those of one
method are looked for in classes alone that were taught it.
"""

from typing import Final

_SUBTRACTION: Final = (
    "Brown & Burton (1978), 1,325 pupils, the procedure alone and in pairs; VanLehn (1982; Mind "
    "Bugs, 1990), some 1,100 pupils; both counts from memory"
)
_RESNICK: Final = (
    "Resnick et al. (1989), after Nesher & Peled (1986): pupils of 10 to 13 comparing decimals "
    "in three countries, about (from memory)"
)
ASSUMED: Final = "assumption, no source"

COUNTED: Final[dict[str, tuple[float, str]]] = {
    "smaller digit taken from larger": (0.08, _SUBTRACTION),  # 5 and 11 in 100
    "passes over a zero": (0.045, _SUBTRACTION),  # 4 and 4
    "zero minus n gives n": (0.04, _SUBTRACTION),  # 5, and fewer
    "stops at a zero": (0.04, _SUBTRACTION),  # 1 and 6
    "zero minus n gives 0": (0.025, _SUBTRACTION),  # 3, and fewer
    "more digits taken as larger": (0.2, _RESNICK),
    "fewer digits taken as larger": (0.15, _RESNICK),
    "nought after the point handled apart": (0.08, _RESNICK),
}
"""The share of pupils with a habit, and its source."""

NAMED_FIRST: Final = frozenset(
    (
        "numbers lined up at the right-hand end",
        "carry written but not added",
        "exchange without lowering the next column",
        "missing place copied down",
        "whole and decimal parts worked apart",
        "nought added at the end",
        "digits moved the wrong way",
        "point placed as in addition",
        "carry not added in multiplying",
        "rows of a long multiplication not moved along",
        "zero left out of a quotient",
        "remainder not carried",
        "point ignored",
        "cut off and not rounded",
        "only matching parts multiplied",
        "a nought too few in a product of parts",
        "last jump left out",
    )
)
OFTEN: Final = 0.03
SELDOM: Final = 0.01


def how_common(name: str) -> tuple[float, str]:
    """The share of pupils with a habit, and where the figure comes from."""
    return COUNTED.get(name, (OFTEN if name in NAMED_FIRST else SELDOM, ASSUMED))
