"""Mistakes with exchanges, in column subtraction.

Each procedure works the columns from the right on digits that it changes as a pupil would.
"""

from collections.abc import Callable
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import Mistake, read_digits, reply
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


def _worked(question: Question, habit: ColumnHabit) -> Reply | None:
    """The subtraction worked by a habit; None where it never shows."""
    paper = Paper(question)
    written, shown = {}, False
    for place in paper.places:
        done = habit(paper, place)
        if done is None or not 0 <= done[0] <= 9:
            return None
        written[place], shows = done
        shown = shown or shows
    return reply(read_digits(written)) if shown else None


def _rightly(paper: Paper, place: int) -> tuple[int, bool] | None:
    """A column worked as it should be."""
    if paper.upper[place] < paper.lower[place] and not paper.exchange(place):
        return None
    return paper.upper[place] - paper.lower[place], False


def smaller_from_larger_habit(paper: Paper, place: int) -> tuple[int, bool]:
    """The difference of the two digits, whichever is larger."""
    left = paper.upper[place] - paper.lower[place]
    return abs(left), left < 0


def next_not_lowered_habit(paper: Paper, place: int) -> tuple[int, bool]:
    """Ten more for this column, and nothing taken from the next."""
    too_small = paper.upper[place] < paper.lower[place]
    paper.upper[place] += 10 * too_small
    return paper.upper[place] - paper.lower[place], too_small


def zero_gives_habit(result: Callable[[int], int]) -> ColumnHabit:
    """Under a 0 a result of the lower digit alone."""

    def habit(paper: Paper, place: int) -> tuple[int, bool] | None:
        lower = paper.lower[place]
        if paper.upper[place] == 0 and lower:
            return result(lower), True
        return _rightly(paper, place)

    return habit


def stops_at_zero_habit(paper: Paper, place: int) -> tuple[int, bool] | None:
    """The exchange from a 0 leaves a 9 and goes no further."""
    if paper.upper[place] < paper.lower[place] and paper.upper.get(place + 1) == 0:
        paper.upper[place] += 10
        paper.upper[place + 1] = 9
        return paper.upper[place] - paper.lower[place], True
    return _rightly(paper, place)


def passes_over_zero_habit(paper: Paper, place: int) -> tuple[int, bool] | None:
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


def _one_where_blank(habit: ColumnHabit, paper: Paper, place: int) -> tuple[int, bool] | None:
    if place in paper.blank and paper.upper[place] > 0:
        return paper.upper[place] - 1, True
    return habit(paper, place)


def smaller_from_larger(question: Question) -> Reply | None:
    """63 − 29: 9 − 3 = 6, 6 − 2 = 4: 46."""
    return _worked(question, smaller_from_larger_habit)


def next_not_lowered(question: Question) -> Reply | None:
    """63 − 29: 13 − 9 = 4, 6 − 2 = 4: 44."""
    return _worked(question, next_not_lowered_habit)


def zero_minus_n_is_n(question: Question) -> Reply | None:
    """140 − 21: 0 − 1 = 1, 4 − 2 = 2, 1: 121."""
    return _worked(question, zero_gives_habit(lambda lower: lower))


def zero_minus_n_is_zero(question: Question) -> Reply | None:
    """140 − 21: 0 − 1 = 0, 4 − 2 = 2, 1: 120."""
    return _worked(question, zero_gives_habit(lambda lower: 0))


def stops_at_zero(question: Question) -> Reply | None:
    """103 − 45: 13 − 5 = 8, the 0 becomes 9, 9 − 4 = 5, 1: 158."""
    return _worked(question, stops_at_zero_habit)


def passes_over_zero(question: Question) -> Reply | None:
    """304 − 75: 14 − 5 = 9 and the 3 becomes 2; 10 − 7 = 3 and the 2 becomes 1: 139."""
    return _worked(question, passes_over_zero_habit)


def one_where_blank(question: Question) -> Reply | None:
    """35 − 2: 5 − 2 = 3; nothing under the 3, so it becomes 2: 23."""
    return _worked(question, lambda paper, place: _one_where_blank(_rightly, paper, place))


def smaller_from_larger_and_one_where_blank(question: Question) -> Reply | None:
    """671 − 28: 8 − 1 = 7, 7 − 2 = 5, 6 becomes 5: 557. Both must show."""
    if smaller_from_larger(question) is None or one_where_blank(question) is None:
        return None
    return _worked(
        question, lambda paper, place: _one_where_blank(smaller_from_larger_habit, paper, place)
    )


_SUBTRACT: Final = frozenset({Operation.SUBTRACT})

SMALLER_FROM_LARGER: Final = Mistake(
    "smaller digit taken from larger",
    _SUBTRACT,
    "In each column takes the smaller digit from the larger, whichever stands above.",
    "Work 42 − 18 with tens and ones: 8 cannot be taken from 2, so a ten is exchanged.",
    f"{_VANLEHN}; {_BROWN_BURTON}",
    smaller_from_larger,
)
NOT_LOWERED: Final = Mistake(
    "exchange without lowering the next column",
    _SUBTRACT,
    "Makes a column ten larger and changes nothing in the next column.",
    "Cross out and rewrite the next digit before the small 1 is written; check by adding back.",
    _BROWN_BURTON,
    next_not_lowered,
)
ZERO_GIVES_N: Final = Mistake(
    "zero minus n gives n",
    _SUBTRACT,
    "Where the upper digit is 0, writes the lower digit.",
    "Work 40 − 7 with tens and ones: an empty column needs an exchange first.",
    _BROWN_BURTON,
    zero_minus_n_is_n,
)
ZERO_GIVES_ZERO: Final = Mistake(
    "zero minus n gives 0",
    _SUBTRACT,
    "Where the upper digit is 0, writes 0.",
    "Work 40 − 7 with tens and ones: an empty column needs an exchange first.",
    _BROWN_BURTON,
    zero_minus_n_is_zero,
)
STOPS: Final = Mistake(
    "stops at a zero",
    _SUBTRACT,
    "Exchanges from a 0, makes it 9, and takes nothing from the column beyond.",
    "Work 103 − 45 with hundreds, tens and ones: the ten must first come out of the hundred.",
    _BROWN_BURTON,
    stops_at_zero,
)
PASSES_OVER: Final = Mistake(
    "passes over a zero",
    _SUBTRACT,
    "Exchanges straight from the column beyond a 0 and leaves the 0 as it was.",
    "Work 103 − 45 with hundreds, tens and ones: the ten must first come out of the hundred.",
    _BROWN_BURTON,
    passes_over_zero,
)
ONE_WHERE_BLANK: Final = Mistake(
    "one taken where the lower number has no digit",
    _SUBTRACT,
    "Lowers every digit that has nothing below it by one.",
    "Write the missing digits of the lower number as noughts, and take nought from each.",
    _TWO_AT_ONCE,
    one_where_blank,
)
BOTH: Final = Mistake(
    "smaller digit taken from larger and one taken where the lower number has no digit",
    _SUBTRACT,
    "Takes the smaller digit from the larger and lowers every digit that has nothing below it.",
    "Begin with the exchange, 42 − 18 with tens and ones; then fill missing digits with noughts.",
    _TWO_AT_ONCE,
    smaller_from_larger_and_one_where_blank,
    together=True,
)
