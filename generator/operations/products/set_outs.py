"""Where the factors of a written multiplication stand: one row for each way of a land.

Which land has which way is in its file in ``specs/lands``. The way of England, "under one
another", is that of the appendix (DFE-00180-2013), 124 × 26; the other is common practice, no
source.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.numbers import Number
from generator.operations.working import (
    Columns,
    Ink,
    Mark,
    Point,
    Rule,
    Square,
    line_width,
    write_line,
)
from specs.languages.saying import Saying, say

HIGHEST_FIRST: Final = "the highest digit"
"""What the first row holds in lands that begin at the left of the second factor."""

FIRST_ROWS: Final = ("the ones", HIGHEST_FIRST)
"""Which digit of the second factor the first row of a long multiplication is made by."""

IN_MIND: Final = "kept in mind"
"""Where the carried digits of a product are in lands that do not write them."""

PRODUCT_CARRIES: Final = ("written", IN_MIND)
"""What a land does with them. Those of the sum of the rows are written in any case."""


@dataclass(frozen=True, slots=True)
class SetOut:
    """One way to set two factors out.

    ``rows`` are those that they take. ``has_noughts`` says that a row of tens begins with a nought;
    without them the row ends under the digit that it is made by. ``says_short`` sets a product by
    one digit out in words, ``says_long`` one by several, from the factors and what is multiplied
    by.
    """

    rows: int
    has_noughts: bool
    says_short: Callable[[str, str], Saying]
    says_long: Callable[[str, str, str], Saying]

    @property
    def is_a_line(self) -> bool:
        """Whether both factors stand on one line."""
        return self.rows == 1


SET_OUTS: Final[Mapping[str, SetOut]] = {
    "under one another": SetOut(
        2,
        True,
        lambda upper, digit: say(
            "Set out {upper} × {digit}: the digit under the ones.", upper=upper, digit=digit
        ),
        lambda upper, lower, these: say(
            "Set out {upper} × {lower}. Multiply by the {these}.",
            upper=upper,
            lower=lower,
            these=these,
        ),
    ),
    "on one line": SetOut(
        1,
        False,
        lambda upper, digit: say(
            "Set out {upper} × {digit} on one line, with a line below.", upper=upper, digit=digit
        ),
        lambda upper, lower, these: say(
            "Set out {upper} × {lower} on one line. Multiply by the {these}. Each row ends under "
            "the digit that it is made by.",
            upper=upper,
            lower=lower,
            these=these,
        ),
    ),
}
"""Every way, by the word that a land's file has for it."""


@dataclass(frozen=True, slots=True)
class Factors:
    """Two whole numbers set out to be multiplied, the first from ``row`` on.

    The product's ones are in the column of the ones. On one line the numbers may be ``written``
    with their points, which leave the digits where they are.
    """

    upper: int
    lower: int
    columns: Columns
    row: int
    set_out: SetOut
    written: tuple[Number, Number] | None = None

    def from_row(self, row: int) -> "Factors":
        """The same from another row on."""
        return replace(self, row=row)

    @property
    def end(self) -> int:
        """The first row below them."""
        return self.row + self.set_out.rows

    @property
    def _as_written(self) -> tuple[str, str]:
        first, second = self.written or (self.upper, self.lower)
        return str(first), str(second)

    @property
    def _line(self) -> str:
        return "×".join(self._as_written)

    @property
    def start(self) -> int:
        """The first column of the room that they take: as wide as any product of theirs needs.

        The room does not tell how many digits the product has.
        """
        if self.set_out.is_a_line:
            return self.columns[0] + 1 - line_width(self._line)
        return self.columns[len(str(self.upper)) + len(str(self.lower))]

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The two numbers and the sign."""
        if self.set_out.is_a_line:
            return write_line(self._line, self.row, self.start, Ink.GIVEN).marks
        return (
            *self._whole(self.upper, self.row),
            Mark(self.row + 1, self.start, "×", Ink.SIGN),
            *self._whole(self.lower, self.row + 1),
        )

    @property
    def points(self) -> tuple[Point, ...]:
        """Their points, where they are written with them."""
        if self.written is None:
            return ()
        return write_line(self._line, self.row, self.start, Ink.GIVEN).points

    def _whole(self, number: int, row: int) -> tuple[Mark, ...]:
        digits = str(number)
        return tuple(
            Mark(row, self.columns[len(digits) - 1 - at], digit, Ink.GIVEN)
            for at, digit in enumerate(digits)
        )

    def own(self, at: int) -> Square:
        """Where the digit of a column of the first number stands."""
        if self.set_out.is_a_line:
            return self.row, self.columns[at] - 1 - line_width(self._as_written[1])
        return self.row, self.columns[at]

    def by(self, place: int) -> Square:
        """Where the digit of a column of the second number stands."""
        return self.end - 1, self.columns[place]

    def across(self, row: int) -> Rule:
        """A rule as wide as the room that they take."""
        return Rule(row, self.start, self.columns[0])

    def in_words(self, these: str) -> Saying:
        """What is said when they are set out to be multiplied by ``these``; "" for one digit."""
        if self.written is None:
            upper, lower = str(self.upper), str(self.lower)
            if not these:
                return self.set_out.says_short(upper, lower)
            return self.set_out.says_long(upper, lower, these)
        first, second = self._as_written
        whole = f"{self.upper} × {self.lower}"
        asked = f"{first} × {second}"
        if not these:
            return say(
                "Set out {asked} on one line, with a line below. Leave points aside and multiply "
                "{whole}.",
                asked=asked,
                whole=whole,
            )
        return say(
            "Set out {asked} on one line. Leave points aside and multiply {whole}, by the {these}. "
            "Each row ends under the digit that it is made by.",
            asked=asked,
            whole=whole,
            these=these,
        )
