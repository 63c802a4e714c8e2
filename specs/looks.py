"""A way of printing asked for beside the spec, for a pupil who needs it: large print, a tint."""

from dataclasses import dataclass, replace
from typing import Final

from specs.spec import BySheet, Presentation
from specs.tints import TINTS

LARGE: Final = (18, 24)
"""The points that digits may have in large print."""

_LARGE: Final = (None, *LARGE)
_TINTS: Final = (None, *TINTS)


@dataclass(frozen=True, slots=True)
class Look:
    """The same questions in large print, on a tint, or both; None leaves it to the spec."""

    large: int | None = None
    tint: str | None = None

    @property
    def number(self) -> int:
        """The look as page codes count it; 0 leaves everything to the spec."""
        return _LARGE.index(self.large) + len(_LARGE) * _TINTS.index(self.tint)

    @property
    def ending(self) -> str:
        """What a folder's name ends in, so that a copy does not replace the usual pack."""
        return (f"-large-{self.large}" if self.large else "") + (
            f"-{self.tint}" if self.tint else ""
        )

    @property
    def said(self) -> str:
        """The look in words, "" for the spec's own: ``in large print (24 points) on mint``."""
        large = f"in large print ({self.large} points)" if self.large else ""
        return " ".join(word for word in (large, f"on {self.tint}" if self.tint else "") if word)

    @staticmethod
    def numbered(number: int) -> "Look":
        """The look of a number. Raises ValueError when none has it."""
        tint, large = divmod(number, len(_LARGE))
        if not 0 <= tint < len(_TINTS):
            raise ValueError(f"no look has the number {number}")
        return Look(_LARGE[large], _TINTS[tint])

    def over(self, presentation: Presentation) -> Presentation:
        """A presentation with this look on every sheet."""
        if self.large is not None:
            presentation = replace(presentation, large=BySheet(self.large))
        if self.tint is not None:
            presentation = replace(presentation, tint=BySheet(self.tint))
        return presentation
