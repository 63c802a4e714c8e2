"""A way of printing asked for beside the spec, for a pupil who needs it: large print, a tint,
key words in the language spoken at home.
"""

from dataclasses import dataclass, replace
from typing import Final

from specs import key_words
from specs.languages.saying import NOTHING, Saying, joined, say
from specs.spec import BySheet, Presentation
from specs.tints import TINTS

LARGE: Final = (18, 24)
"""The points that digits may have in large print."""

_LARGE: Final = (None, *LARGE)
_TINTS: Final = (None, *TINTS)
_KEY_WORDS: Final = (None, *key_words.NUMBERED)
_MOST_PRINTS: Final = 100
"""Sizes and tints, with room for more: from so many on the number counts the key words too."""


@dataclass(frozen=True, slots=True)
class Look:
    """The same questions in large print, on a tint, with key words; None leaves it to the spec."""

    large: int | None = None
    tint: str | None = None
    key_words: str | None = None

    @property
    def number(self) -> int:
        """The look as page codes count it; 0 leaves everything to the spec."""
        print_ = _LARGE.index(self.large) + len(_LARGE) * _TINTS.index(self.tint)
        return print_ + _MOST_PRINTS * _KEY_WORDS.index(self.key_words)

    @property
    def ending(self) -> str:
        """What a folder's name ends in, so that a copy does not replace the usual pack."""
        large = f"large-{self.large}" if self.large else ""
        words = self.key_words.lower() if self.key_words else ""
        return "".join(f"-{part}" for part in (large, self.tint, words) if part)

    @property
    def said(self) -> Saying:
        """The look in words, "" for the spec's own: ``in large print (24 points) on mint``."""
        large, tint, words = NOTHING, NOTHING, NOTHING
        if self.large:
            large = say("in large print ({points} points)", points=self.large)
        if self.tint:
            tint = say("on {tint}", tint=self.tint)
        if self.key_words:
            words = say("with key words in {language}", language=self.key_words)
        return joined((large, tint, words))

    @staticmethod
    def numbered(number: int) -> "Look":
        """The look of a number. Raises ValueError when none has it."""
        words, print_ = divmod(number, _MOST_PRINTS)
        tint, large = divmod(print_, len(_LARGE))
        if not (0 <= tint < len(_TINTS) and words < len(_KEY_WORDS)):
            raise ValueError(f"no look has the number {number}")
        return Look(_LARGE[large], _TINTS[tint], _KEY_WORDS[words])

    def before(self, other: "Look") -> "Look":
        """This look, and where it leaves something open the other."""
        return Look(
            self.large or other.large,
            self.tint or other.tint,
            self.key_words or other.key_words,
        )

    def over(self, presentation: Presentation) -> Presentation:
        """A presentation with this look on every sheet."""
        if self.large is not None:
            presentation = replace(presentation, large=BySheet(self.large))
        if self.tint is not None:
            presentation = replace(presentation, tint=BySheet(self.tint))
        if self.key_words is not None:
            presentation = replace(presentation, key_words=BySheet(self.key_words))
        return presentation
