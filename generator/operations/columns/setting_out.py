"""Mistakes made before any column is worked: how the numbers are set out."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.columns.addition import column_addition
from generator.operations.columns.on_squares import with_steps
from generator.operations.mistake import NO_SOURCE, AnswerAlone, Mistake, reply, reply_as_written
from generator.operations.working import Conventions, Ink, Mark, Point, Step, Working
from specs.languages.saying import say
from specs.replies import Reply

_BOTH: Final = frozenset({Operation.ADD, Operation.SUBTRACT})


@dataclass(frozen=True, slots=True)
class LinedUpAtTheRight:
    """3.4 + 0.27 as 34 + 27, with the point of the longer number: 0.61."""

    def _as_whole(self, question: Question) -> tuple[Question, int]:
        """The question as it is worked, in whole numbers, and the places of its answer."""
        numbers = question.operands
        whole = tuple(Number(number.units) for number in numbers)
        return Question(question.operation, whole), max(number.places for number in numbers)

    def reply(self, question: Question) -> Reply | None:
        """The whole numbers' answer with the point put in."""
        if len({number.places for number in question.operands}) == 1:
            return None
        whole, places = self._as_whole(question)
        if question.operation is Operation.SUBTRACT:
            upper, lower = whole.operands
            if upper.units < lower.units:
                return None  # no pupil gets far with 5 − 27
        return reply(Number(whole.answer.units, places))

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """An addition with the numbers' last digits under one another.

        Its points stand on grid lines by every convention: a column for the point would put
        them in line.
        """
        if question.operation is not Operation.ADD:
            return None
        whole, places = self._as_whole(question)
        right = column_addition(whole, conventions)
        last = right.columns - 1
        first, _, answer_row, _ = conventions.sum_rows(len(question.operands))
        marks, points = list(right.setting_out.marks), []
        for row, number in enumerate(question.operands, first):
            if number.places:
                points.append(Point(row, last - number.places, Ink.GIVEN))
            for column in _noughts_in_front(number, last):
                marks.append(Mark(row, column, "0", Ink.GIVEN))
        set_out = replace(right.setting_out, marks=tuple(marks), points=tuple(points))
        answer = Number(right.answer.units, places)
        noughts = tuple(
            Mark(answer_row, column, "0", Ink.ANSWER) for column in _noughts_in_front(answer, last)
        )
        point = (Point(answer_row, last - places, Ink.ANSWER),)
        put_in = Step(say("The point stands as in the longest number."), None, noughts, point)
        placed = replace(right, units_column=last - places, point_column=False)
        # A nought in front would stand on the sign or off the squares: nobody would write it so.
        signs = {(m.row, m.column) for m in marks if m.ink is Ink.SIGN}
        zeros = {(m.row, m.column) for m in (*marks, *noughts) if m.text == "0"}
        return None if signs & zeros else with_steps(placed, [set_out, *right.steps[1:], put_in])


def _noughts_in_front(number: Number, last: int) -> Iterator[int]:
    """The columns of the noughts in front of a number below one whose last digit is there."""
    written = len(str(number.units))
    for at in range(written, number.places + 1):
        yield last - at


def parts_apart(question: Question) -> Reply | None:
    """3.7 + 4.8 as 3 + 4 and 7 + 8: 7.15; 4.18 + 0.982 as 4 + 0 and 18 + 982: 4.1000."""
    if not any(number.places for number in question.operands):
        return None
    whole = [number.units // 10**number.places for number in question.operands]
    parts = [number.units % 10**number.places for number in question.operands]
    if question.operation is Operation.ADD:
        ones, behind = sum(whole), sum(parts)
    else:
        ones, behind = whole[0] - whole[1], parts[0] - parts[1]
        if ones < 0 or behind < 0:
            return None
    longest = max(number.places for number in question.operands)
    leading_nought = any(
        number.places and number.digit(-1) == 0 and number.units % 10**number.places
        for number in question.operands
    )
    if leading_nought:
        return None  # who reads .05 as "nought five" keeps its column
    places = max(len(str(behind)), 1)
    if question.operation is Operation.SUBTRACT and len({n.places for n in question.operands}) == 1:
        places = max(places, longest)
    given = Number(ones * 10**places + behind, places)
    return reply_as_written(given) if behind else reply(given)


def _missing(question: Question) -> tuple[Number, Number, int] | None:
    """The numbers of a subtraction whose first is the shorter, and its places."""
    first, second = question.operands
    return (first, second, first.places) if first.places < second.places else None


def missing_place_copied(question: Question) -> Reply | None:
    """5.3 − 2.17: nothing above the 7, so the 7 is written down: 3.27."""
    found = _missing(question)
    if found is None:
        return None
    first, second, places = found
    kept, copied = divmod(second.units, 10 ** (second.places - places))
    if first.units < kept:
        return None
    shift = second.places - places
    return reply(Number((first.units - kept) * 10**shift + copied, second.places))


def missing_place_dropped(question: Question) -> Reply | None:
    """5.3 − 2.17: nothing above the 7, so it is left out: 3.2."""
    found = _missing(question)
    if found is None:
        return None
    first, second, places = found
    kept = second.units // 10 ** (second.places - places)
    return reply(Number(first.units - kept, places)) if first.units >= kept else None


_RESNICK: Final = (
    "Resnick et al., J. Research in Mathematics Education 20 (1989), from memory: decimals read "
    "as whole numbers"
)
_SUBTRACT: Final = frozenset({Operation.SUBTRACT})

LINED_UP: Final = Mistake(
    "numbers lined up at the right-hand end", _BOTH, _RESNICK, LinedUpAtTheRight()
)
PARTS_APART: Final = Mistake(
    "whole and decimal parts worked apart", _BOTH, _RESNICK, AnswerAlone(parts_apart)
)
COPIED: Final = Mistake(
    "missing place copied down",
    _SUBTRACT,
    NO_SOURCE,
    AnswerAlone(missing_place_copied),
    ways=frozenset({"exchange", "equal addition"}),
)
DROPPED: Final = Mistake(
    "missing place left out",
    _SUBTRACT,
    NO_SOURCE,
    AnswerAlone(missing_place_dropped),
    ways=frozenset({"exchange", "equal addition"}),
)
