"""A division on paper as a land sets it out: where its numbers stand, and how far it is written."""

from dataclasses import dataclass, field
from typing import ClassVar, Self

from generator.arithmetic.questions import Question
from generator.operations.quotients.division import Desk
from generator.operations.quotients.set_outs import SET_OUTS, Placing, SetOut, placed
from generator.operations.working import Conventions, Step
from specs.lands import ENGLAND


@dataclass
class PlacedDesk(Desk):
    """The division and the rows below it, of which ``rows_below`` are written in."""

    points_below: ClassVar[bool] = False
    """Whether points are written below the dividend, even of a whole number."""

    rows_below: int = 0
    placing: Placing = field(init=False)

    @classmethod
    def for_question(
        cls, question: Question, conventions: Conventions, *, hands_on: bool = True
    ) -> Self:
        """The division of a question as the land sets it out."""
        desk = super().for_question(question, conventions, hands_on=hands_on)
        desk.placing = placed(
            question,
            desk.dividend,
            desk.divisor,
            desk.quotient_row,
            conventions,
            points_below=cls.points_below,
        )
        desk.columns, desk.quotient_row = desk.placing.dividend, desk.placing.quotient_row
        return desk

    @property
    def dividend_row(self) -> int:
        """The row of the dividend."""
        return self.placing.row

    @property
    def last_row(self) -> int:
        """The last row that is written in."""
        return max(self._lowest, self.quotient_row)

    @property
    def _rows(self) -> tuple[int, int]:
        first = self.quotient_row if self._set_out.is_above else self.dividend_row
        return first, self.dividend_row

    @property
    def room(self) -> tuple[int, int] | None:
        """The rows and the columns for a pupil; None for those of the half-box."""
        return None if self._set_out is SET_OUTS[ENGLAND.set_out] else self.placing.room

    @property
    def point_column(self) -> bool:
        """Whether points have a column of their own: the quotient's has, whatever is divided."""
        return self.placing.quotient.point_column

    @property
    def quotient_start(self) -> int:
        """A column from which on the quotient's row has the quotient alone."""
        return 0 if self._set_out.is_above else self.placing.begins

    @property
    def after_quotient(self) -> int:
        """The column after the quotient, where it is said how the division ends."""
        if self._set_out.is_above:
            return super().after_quotient
        if not self.started:
            return self.placing.begins
        last = self.end if self.last_place is None else self.last_place
        return self.placing.quotient[min(last, 0)] + 1

    @property
    def _set_out(self) -> SetOut:
        return self.placing.set_out

    @property
    def _lowest(self) -> int:
        """The row that what is still to be divided stands in."""
        return self.dividend_row + self.rows_below

    def set_out(self) -> Step:
        """The two numbers, and the lines and signs about them."""
        return self.placing.setting_out
