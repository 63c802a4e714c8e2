"""Rounding to a column: the digit at its right decides, and 5 or more goes up.

A half goes up, as schools teach it for positive numbers (common practice, no source).
"""

from collections.abc import Iterator

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import becomes, column_name
from generator.arithmetic.questions import Question, rounded_to
from generator.operations.spoken import amount
from generator.operations.working import Columns, Conventions, Ink, Rule, Step, Working, read_number
from specs.languages.saying import say

_NUMBER_ROW, _ANSWER_ROW = 0, 1


def rounding(question: Question, conventions: Conventions) -> Working:
    """Round a number: the column, the deciding digit, what happens, and the answer below."""
    (number,) = question.operands
    to = -question.places
    kept = {place: number.digit(place) for place in range(to, max(to, number.top_place) + 1)}
    decided = _decide(number, to, kept)
    columns = Columns(max(kept), number.last_place, conventions.point_column)
    given = columns.set_number(number, _NUMBER_ROW, Ink.GIVEN, number.last_place)
    look = (
        f"Round to the {column_name(to)}: the digit to look at is the next one, "
        f"the {column_name(to - 1)}."
    )
    steps = [Step(look, columns[to - 1], given.marks, given.points)]
    steps.extend(Step(sentence, columns[place]) for place, sentence in decided)
    digits = _number(kept, to)
    written = columns.set_number(digits, _ANSWER_ROW, Ink.ANSWER, digits.last_place)
    says = f"{rounded_to(question.places)}, {number} is about {digits}."
    steps.append(Step(says[:1].upper() + says[1:], None, written.marks, written.points))
    return Working(
        rows=2,
        columns=columns.count,
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(Rule(_ANSWER_ROW, 0, columns.count - 1),),
        steps=tuple(steps),
        answer=read_number(steps, _ANSWER_ROW, Ink.ANSWER),
    )


def _decide(number: Number, to: int, kept: dict[int, int]) -> list[tuple[int, str]]:
    """What is said of each column in turn; ``kept`` becomes the answer's digits."""
    deciding = number.digit(to - 1)
    looked_at = f"The {column_name(to - 1)} digit is {deciding}"
    if deciding < 5:
        stay = "stays" if kept[to] == 1 else "stay"
        return [(to - 1, f"{looked_at}, less than 5: the {amount(kept[to], to)} {stay}.")]
    if kept[to] < 9:
        before, kept[to] = kept[to], kept[to] + 1
        change = becomes(before, amount(before, to), amount(kept[to], to))
        return [(to - 1, f"{looked_at}, 5 or more: round up. {change}.")]
    return [
        (to - 1, f"{looked_at}, 5 or more: round up."),
        *_carried_over_nines(number, to, kept),
    ]


def _carried_over_nines(number: Number, to: int, kept: dict[int, int]) -> Iterator[tuple[int, str]]:
    """One more in a column that has a 9, and in those at its left as far as it is carried."""
    place, more = to, amount(1, to)
    while kept.get(place) == 9:
        kept[place] = 0
        yield (
            place,
            f"{amount(9, place)} + {more} = {amount(10, place)} = {amount(1, place + 1)} and "
            f"{amount(0, place)}: write 0, carry 1 to the {column_name(place + 1)}.",
        )
        place += 1
        more = say("{amount} carried", amount=amount(1, place))
    before = kept.get(place, 0)
    kept[place] = before + 1
    if number.written_at(place):
        yield (
            place,
            f"{amount(before, place)} + {more} = {amount(before + 1, place)}: write {before + 1}.",
        )
    else:
        yield place, f"Only {more} in this column: write 1."


def _number(kept: dict[int, int], to: int) -> Number:
    """The kept digits as a number, with noughts below a column of whole numbers."""
    units = 0
    for place in range(max(kept), to - 1, -1):
        units = units * 10 + kept[place]
    return Number(units, -to) if to <= 0 else Number(units * int(10**to))
