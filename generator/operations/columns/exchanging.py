"""Mistakes with exchanges, in column subtraction.

A habit works a column on digits that it changes as a pupil would. The columns are gone through
in one place (``ExchangedBy.columns``): the answer is read off that, and so are the marks on
squares.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.columns.on_squares import set_out_as, with_steps
from generator.operations.columns.subtraction import EXCHANGE_ROW, MINUEND_ROW, column_subtraction
from generator.operations.mistake import AnswerAlone, Mistake, read_digits, reply
from generator.operations.working import Conventions, Ink, Mark, Step, Strike, Working
from specs.languages.saying import say
from specs.replies import Reply

_BROWN_BURTON: Final = (
    "Brown & Burton, Diagnostic models for procedural bugs in basic mathematical skills, "
    "Cognitive Science 2 (1978), from memory"
)
_VANLEHN: Final = "VanLehn (1983, 1986), as cited in Ben-Zeev, DOI 10.4324/9780203053270-5"
_TWO_AT_ONCE: Final = "DOI 10.4324/9780203052969-6, abstract"


class Paper:
    """The digits of a subtraction by place, the upper ones as they stand while it is worked."""

    def __init__(self, question: Question) -> None:
        first, second = question.operands
        last = min(first.last_place, second.last_place)
        self.places = range(last, max(first.top_place, second.top_place) + 1)
        self.upper = {place: first.digit(place) for place in self.places}
        self.lower = {place: second.digit(place) for place in self.places}
        self.blank = {place for place in self.places if place > second.top_place}

    def exchange(self, place: int) -> bool:
        """The right exchange into a column; False when nothing is left to exchange."""
        source = place + 1
        while self.upper.get(source) == 0:
            source += 1
        if self.upper.get(source, 0) <= 0:
            return False
        self.upper[source] -= 1
        for between in range(place + 1, source):
            self.upper[between] = 9
        self.upper[place] += 10
        return True


ColumnHabit = Callable[[Paper, int], tuple[int, bool] | None]
"""A column's answer digit and whether the habit showed; None when the pupil cannot go on."""


@dataclass(frozen=True, slots=True)
class ExchangedBy:
    """A column subtraction worked by a habit."""

    habit: ColumnHabit

    def columns(self, paper: Paper) -> Iterator[tuple[int, tuple[int, bool] | None]]:
        """Each column from the right and what is done there; ``paper`` changes as it goes on."""
        for place in paper.places:
            yield place, self.habit(paper, place)

    def reply(self, question: Question) -> Reply | None:
        """The figures of the answer; None where the habit never shows."""
        written, shown = {}, False
        for place, done in self.columns(Paper(question)):
            if done is None or not 0 <= done[0] <= 9:
                return None
            written[place], shows = done
            shown = shown or shows
        return reply(read_digits(written)) if shown else None

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """The figures in the answer's row, and the exchanges that the habit makes."""
        right = column_subtraction(question, conventions)
        squares, answer_row = right.places, right.rules[0].row
        paper = Paper(question)
        rows = dict.fromkeys(paper.places, MINUEND_ROW)
        digits: dict[int, int] = {}
        steps, before = set_out_as(right), dict(paper.upper)
        for place, done in self.columns(paper):
            if done is None:
                return None
            digits[place] = done[0]
            marks: list[Mark] = []
            strikes: list[Strike] = []
            for changed in reversed(paper.places):
                if paper.upper[changed] == before[changed]:
                    continue
                if changed == place:
                    marks.append(Mark(rows[place], squares[place], "1", Ink.TEN))
                    continue
                if rows[changed] == EXCHANGE_ROW:
                    return None  # a second small digit finds no room above the first
                left = str(paper.upper[changed])
                strikes.append(Strike(rows[changed], squares[changed]))
                marks.append(Mark(EXCHANGE_ROW, squares[changed], left, Ink.LEFT))
                rows[changed] = EXCHANGE_ROW
            sentence = say("In this column {digit} is written.", digit=digits[place])
            steps.append(Step(sentence, squares[place], tuple(marks), (), tuple(strikes)))
            before = dict(paper.upper)
        top = max([place for place, digit in digits.items() if digit and place > 0], default=0)
        written = tuple(
            Mark(answer_row, squares[place], str(digit), Ink.ANSWER)
            for place, digit in digits.items()
            if place <= top
        )
        return with_steps(right, [*steps, Step(say("So the answer stands."), None, written)])


def _rightly(paper: Paper, place: int) -> tuple[int, bool] | None:
    """A column worked as it should be."""
    if paper.upper[place] < paper.lower[place] and not paper.exchange(place):
        return None
    return paper.upper[place] - paper.lower[place], False


def smaller_from_larger(paper: Paper, place: int) -> tuple[int, bool]:
    """The difference of the two digits, whichever is larger."""
    left = paper.upper[place] - paper.lower[place]
    return abs(left), left < 0


def next_not_lowered(paper: Paper, place: int) -> tuple[int, bool]:
    """Ten more for this column, and nothing taken from the next."""
    too_small = paper.upper[place] < paper.lower[place]
    paper.upper[place] += 10 * too_small
    return paper.upper[place] - paper.lower[place], too_small


def zero_gives_n(paper: Paper, place: int) -> tuple[int, bool] | None:
    """Under a 0 the lower digit."""
    lower = paper.lower[place]
    return (lower, True) if lower and not paper.upper[place] else _rightly(paper, place)


def zero_gives_zero(paper: Paper, place: int) -> tuple[int, bool] | None:
    """Under a 0 nought, whatever the lower digit."""
    lower = paper.lower[place]
    return (0, True) if lower and not paper.upper[place] else _rightly(paper, place)


def stops_at_zero(paper: Paper, place: int) -> tuple[int, bool] | None:
    """The exchange from a 0 leaves a 9 and goes no further."""
    if paper.upper[place] < paper.lower[place] and paper.upper.get(place + 1) == 0:
        paper.upper[place] += 10
        paper.upper[place + 1] = 9
        return paper.upper[place] - paper.lower[place], True
    return _rightly(paper, place)


def passes_over_zero(paper: Paper, place: int) -> tuple[int, bool] | None:
    """The exchange comes from beyond the noughts, which stay as they are."""
    if paper.upper[place] >= paper.lower[place]:
        return paper.upper[place] - paper.lower[place], False
    source = place + 1
    while paper.upper.get(source) == 0:
        source += 1
    if paper.upper.get(source, 0) <= 0:
        return None
    paper.upper[source] -= 1
    paper.upper[place] += 10
    return paper.upper[place] - paper.lower[place], source > place + 1


def _lowered_where_blank(habit: ColumnHabit, paper: Paper, place: int) -> tuple[int, bool] | None:
    if place in paper.blank and paper.upper[place] > 0:
        return paper.upper[place] - 1, True
    return habit(paper, place)


def _where_blank(paper: Paper, place: int) -> tuple[int, bool] | None:
    """A digit with nothing below it lowered by one; the other columns right."""
    return _lowered_where_blank(_rightly, paper, place)


def _both(paper: Paper, place: int) -> tuple[int, bool] | None:
    """The same; in the other columns the difference of the two digits."""
    return _lowered_where_blank(smaller_from_larger, paper, place)


def both_show(question: Question) -> Reply | None:
    """671 − 28: 8 − 1 = 7, 7 − 2 = 5, 6 becomes 5: 557. Both must show."""
    if any(ExchangedBy(h).reply(question) is None for h in (smaller_from_larger, _where_blank)):
        return None
    return ExchangedBy(_both).reply(question)


_SUBTRACT: Final = frozenset({Operation.SUBTRACT})
_IN_COLUMNS: Final = frozenset({"exchange", "equal addition"})

# 63 − 29: 9 − 3 = 6, 6 − 2 = 4: 46.
SMALLER_FROM_LARGER: Final = Mistake(
    "smaller digit taken from larger",
    _SUBTRACT,
    f"{_VANLEHN}; {_BROWN_BURTON}",
    ExchangedBy(smaller_from_larger),
    ways=_IN_COLUMNS,
)
# 63 − 29: 13 − 9 = 4, 6 − 2 = 4: 44.
NOT_LOWERED: Final = Mistake(
    "exchange without lowering the next column",
    _SUBTRACT,
    _BROWN_BURTON,
    ExchangedBy(next_not_lowered),
    ways=_IN_COLUMNS,
)
# 140 − 21: 0 − 1 = 1, 4 − 2 = 2, 1: 121.
ZERO_GIVES_N: Final = Mistake(
    "zero minus n gives n", _SUBTRACT, _BROWN_BURTON, ExchangedBy(zero_gives_n), ways=_IN_COLUMNS
)
# 140 − 21: 0 − 1 = 0, 4 − 2 = 2, 1: 120.
ZERO_GIVES_ZERO: Final = Mistake(
    "zero minus n gives 0", _SUBTRACT, _BROWN_BURTON, ExchangedBy(zero_gives_zero), ways=_IN_COLUMNS
)
# 103 − 45: 13 − 5 = 8, the 0 becomes 9, 9 − 4 = 5, 1: 158.
STOPS: Final = Mistake(
    "stops at a zero", _SUBTRACT, _BROWN_BURTON, ExchangedBy(stops_at_zero), ways=_IN_COLUMNS
)
# 304 − 75: 14 − 5 = 9 and the 3 becomes 2; 10 − 7 = 3 and the 2 becomes 1: 139.
PASSES_OVER: Final = Mistake(
    "passes over a zero", _SUBTRACT, _BROWN_BURTON, ExchangedBy(passes_over_zero), ways=_IN_COLUMNS
)
# 35 − 2: 5 − 2 = 3; nothing under the 3, so it becomes 2: 23. No mark shows how it came about.
ONE_WHERE_BLANK: Final = Mistake(
    "one taken where the lower number has no digit",
    _SUBTRACT,
    _TWO_AT_ONCE,
    AnswerAlone(ExchangedBy(_where_blank).reply),
    ways=_IN_COLUMNS,
)
BOTH: Final = Mistake(
    "smaller digit taken from larger and one taken where the lower number has no digit",
    _SUBTRACT,
    _TWO_AT_ONCE,
    AnswerAlone(both_show),
    together=True,
    ways=_IN_COLUMNS,
)
