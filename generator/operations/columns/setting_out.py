"""Mistakes made before any column is worked: how the numbers are set out and what is done."""

from typing import Final

from generator.arithmetic.numbers import Number, total
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.mistake import NO_SOURCE, Mistake, reply
from specs.replies import Reply

_BOTH: Final = frozenset({Operation.ADD, Operation.SUBTRACT})


def lined_up_at_the_right(question: Question) -> Reply | None:
    """3.4 + 0.27 as 34 + 27, with the point of the longer number: 0.61."""
    places = [number.places for number in question.operands]
    if len(set(places)) == 1:
        return None
    whole = [number.units for number in question.operands]
    if question.operation is Operation.ADD:
        return reply(Number(sum(whole), max(places)))
    if whole[0] < whole[1]:
        return None  # no pupil gets far with 5 − 27
    return reply(Number(whole[0] - whole[1], max(places)))


def point_ignored(question: Question) -> Reply | None:
    """3.25 + 4.61 as 325 + 461, and no point in the answer: 786."""
    if not any(number.places for number in question.operands):
        return None
    whole = tuple(Number(number.units) for number in question.operands)
    if question.operation is Operation.DIVIDE:
        if not whole[1].units:
            return None
        exact = whole[0].value / whole[1].value
        return reply(Number(exact.numerator)) if exact.denominator == 1 else None
    if question.operation is Operation.SUBTRACT and whole[0].units < whole[1].units:
        return None
    return reply(Question(question.operation, whole, Ending.EXACT).answer)


def parts_apart(question: Question) -> Reply | None:
    """3.7 + 4.8 as 3 + 4 and 7 + 8: 7.15."""
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
    return reply(Number(ones * 10**places + behind, places))


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


def adds_instead(question: Question) -> Reply | None:
    """6 − 2 as 6 + 2."""
    return reply(total(question.operands))


_LINING_UP: Final = (
    "Show the same numbers on a place-value grid, ones under ones and points in line, and fill "
    "the empty places with noughts."
)

LINED_UP: Final = Mistake(
    "numbers lined up at the right-hand end",
    _BOTH,
    "Sets the last digits under one another, whatever their place.",
    _LINING_UP,
    "Resnick et al., J. Research in Mathematics Education 20 (1989), from memory: decimals read "
    "as whole numbers",
    lined_up_at_the_right,
)
POINT_IGNORED: Final = Mistake(
    "point ignored",
    frozenset(operation for operation in Operation if operation.is_calculation),
    "Works with the digits as whole numbers and writes no point.",
    "Ask for an estimate to the nearest whole number first, then where the point must stand.",
    NO_SOURCE,
    point_ignored,
)
PARTS_APART: Final = Mistake(
    "whole and decimal parts worked apart",
    _BOTH,
    "Works the digits before the point and the digits behind it as two whole numbers.",
    "Show that ten tenths make one: count on past 0.9 on a number line, then carry over the point.",
    "Resnick et al., J. Research in Mathematics Education 20 (1989), from memory: decimals read "
    "as whole numbers",
    parts_apart,
)
_FILLING: Final = "Write the noughts in the empty places first, then exchange into them."
COPIED: Final = Mistake(
    "missing place copied down",
    frozenset({Operation.SUBTRACT}),
    "Where the upper number has no digit, writes the lower digit in the answer.",
    _FILLING,
    NO_SOURCE,
    missing_place_copied,
)
DROPPED: Final = Mistake(
    "missing place left out",
    frozenset({Operation.SUBTRACT}),
    "Where the upper number has no digit, leaves the lower digit out of the answer.",
    _FILLING,
    NO_SOURCE,
    missing_place_dropped,
)
ADDS_INSTEAD: Final = Mistake(
    "adds instead",
    frozenset({Operation.SUBTRACT, Operation.MULTIPLY}),
    "Adds the numbers, whatever the sign says.",
    "Have the sign ringed and the question read aloud before any working.",
    NO_SOURCE,
    adds_instead,
)
