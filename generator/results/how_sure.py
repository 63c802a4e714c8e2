"""How sure something is, in words no finer than the model behind it."""

from typing import Final

from specs.languages.saying import NOTHING, Saying, say

_WORDS: Final = (
    (0.97, say("almost certain")),
    (0.925, say("19 in 20")),
    (0.85, say("9 in 10")),
    (0.71, say("3 in 4")),
    (0.58, say("2 in 3")),
)


def how_sure(chance: float) -> Saying:
    """``almost certain``, ``19 in 20``, ``9 in 10``, …, ``as likely as not``; NOTHING for none."""
    if not chance:
        return NOTHING
    return next((words for least, words in _WORDS if chance >= least), say("as likely as not"))
