"""Reads printed sheets back as a pupil would: from ink on squares to numbers.

Nothing of the page plan is used, only what pdfplumber finds in the file: the grey lines
are the squares, a pair of black rules is an answer's place, and the digits above it are
the question.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Any

from layouts.planning import typeface

POINTS_PER_MM = 72 / 25.4
DIGITS = "0123456789"


@dataclass(frozen=True)
class ReadQuestion:
    label: str
    operands: tuple[str, ...]
    sign: str


@dataclass
class Sheet:
    """One printed page of squared paper."""

    page: Any

    @cached_property
    def verticals(self) -> list[float]:
        return sorted({round(line["x0"], 2) for line in self._grey() if line["width"] < 0.1})

    @cached_property
    def horizontals(self) -> list[float]:
        return sorted({round(line["top"], 2) for line in self._grey() if line["height"] < 0.1})

    @property
    def square(self) -> float:
        """The side of a square in points."""
        return (self.verticals[-1] - self.verticals[0]) / (len(self.verticals) - 1)

    def _grey(self) -> list[dict[str, Any]]:
        return [line for line in self.page.lines if min(line["stroking_color"]) > 0.5]

    @cached_property
    def digits(self) -> list[dict[str, Any]]:
        """The regular digits on the squares."""
        return [
            char
            for char in self.page.chars
            if char["text"] in DIGITS and "Regular" in char["fontname"] and self.on_grid(char)
        ]

    @cached_property
    def points(self) -> list[dict[str, Any]]:
        return [char for char in self.page.chars if char["text"] == "." and self.on_grid(char)]

    def on_grid(self, char: dict[str, Any]) -> bool:
        x, y = self.middle(char)
        return (
            self.verticals[0] < x < self.verticals[-1]
            and self.horizontals[0] < y < self.horizontals[-1]
        )

    def middle(self, char: dict[str, Any]) -> tuple[float, float]:
        """The middle of a character, from the top left, half-way up its digits' height."""
        baseline = float(self.page.height) - char["matrix"][5]
        return (
            (char["x0"] + char["x1"]) / 2,
            baseline - typeface.DIGIT_HEIGHT / 2 * char["size"],
        )

    def place(self, char: dict[str, Any]) -> tuple[int, int]:
        """The row and column of a character's square."""
        x, y = self.middle(char)
        return (
            int((y - self.horizontals[0]) // self.square),
            int((x - self.verticals[0]) // self.square),
        )

    def rules(self) -> list[tuple[int, int, int]]:
        """The black rules on the squares: (row below it, first column, column after the last)."""
        found = []
        for line in self.page.lines:
            on_squares = self.horizontals[0] < line["top"] - 1
            if max(line["stroking_color"]) < 0.1 and line["height"] < 0.1 and on_squares:
                ends = (line["top"], line["x0"], line["x1"])
                starts = (self.horizontals[0], self.verticals[0], self.verticals[0])
                found.append(
                    tuple(round((e - s) / self.square) for e, s in zip(ends, starts, strict=True))
                )
        return found  # type: ignore[return-value]

    def questions(self) -> list[ReadQuestion]:
        """Every question on the page, in order of reading."""
        rules = set(self.rules())
        tops = sorted(rule for rule in rules if (rule[0] + 1, *rule[1:]) in rules)
        return [self._question(*top) for top in tops]

    def _question(self, answer_row: int, start: int, end: int) -> ReadQuestion:
        digits = {self.place(char): char["text"] for char in self.digits}
        after = {
            (
                int((self.middle(char)[1] - self.horizontals[0]) // self.square),
                round((self.middle(char)[0] - self.verticals[0]) / self.square) - 1,
            )
            for char in self.points
        }
        signs = {self.place(char): char["text"] for char in self.page.chars if char["text"] in "+−"}
        operands: list[str] = []
        row = answer_row - 1
        while any((row, column) in digits for column in range(start, end)):
            operands.append(
                "".join(
                    digits.get((row, column), "") + ("." if (row, column) in after else "")
                    for column in range(start, end)
                )
            )
            row -= 1
        return ReadQuestion(
            self._label(row, start), tuple(reversed(operands)), signs[answer_row - 1, start]
        )

    def _label(self, row_above: int, start: int) -> str:
        """The letter in the question's first row or the one over it, nearest to its left."""
        letters: dict[tuple[int, int], str] = {}
        for char in self.page.chars:
            if "Bold" in char["fontname"] and char["text"].isalpha() and self.on_grid(char):
                place = self.place(char)
                letters[place] = letters.get(place, "") + char["text"]
        for column in range(start, -1, -1):
            for row in (row_above + 1, row_above):
                if (row, column) in letters:
                    return letters[row, column]
        raise AssertionError("a question without a label")
