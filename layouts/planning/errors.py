"""Why a pack cannot be laid out. The message of each says what to do instead."""

from collections.abc import Iterator
from contextlib import contextmanager

from specs.languages.saying import Saying, say


class LayoutError(ValueError):
    """The pack is sound, but cannot be printed as asked.

    ``what`` says why, and what to do instead. ``rung`` is the rung of the question that it
    concerns, "" where it concerns none.
    """

    rung = ""

    def __init__(self, what: Saying) -> None:
        self.what = what
        super().__init__(what)


class DoesNotFitError(LayoutError):
    """Something to be printed is larger than the page that it was asked for on."""


class UnprintableError(LayoutError):
    """A text holds characters that the typeface has no glyph for."""


@contextmanager
def placing(section: str, label: str, rung: str) -> Iterator[None]:
    """Within it, a LayoutError says which section, question and rung it concerns."""
    try:
        yield
    except LayoutError as error:
        if error.rung:
            raise
        placed = type(error)(
            say(
                "{section}, question {label}, rung {rung}: {what}",
                section=section,
                label=label,
                rung=rung,
                what=error.what,
            )
        )
        placed.rung = rung
        raise placed from error
