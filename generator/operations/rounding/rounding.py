"""Rounding to a column: the digit at its right decides, and 5 or more goes up.

A half goes up, as schools teach it for positive numbers (common practice, no source).
"""

from collections.abc import Iterator

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import becomes, column_name
from generator.arithmetic.questions import Question, rounded_to
from generator.operations.columns.addition import alone, makes
from generator.operations.spoken import amount
from generator.operations.working import Columns, Conventions, Ink, Rule, Step, Working, read_number
from specs.languages.saying import joined, say, several

_NUMBER_ROW, _ANSWER_ROW = 0, 1


def rounding(question: Question, conventions: Conventions) -> Working:
    """Round a number: the column, the deciding digit, what happens, and the answer below."""
    (number,) = question.operands
    to = -question.places
    kept = {place: number.digit(place) for place in range(to, max(to, number.top_place) + 1)}
    decided = _decide(number, to, kept)
    columns = Columns(max(kept), number.last_place, conventions.point_column)
    given = columns.set_number(number, _NUMBER_ROW, Ink.GIVEN, number.last_place)
    look = say(
        "Round to the {column}: the digit to look at is the next one, the {next}.",
        column=column_name(to),
        next=column_name(to - 1),
    )
    steps = [Step(look, columns[to - 1], given.marks, given.points)]
    steps.extend(Step(sentence, columns[place]) for place, sentence in decided)
    digits = _number(kept, to)
    written = columns.set_number(digits, _ANSWER_ROW, Ink.ANSWER, digits.last_place)
    said = say(
        "{rounded}, {number} is about {answer}.",
        rounded=rounded_to(question.places, first=True),
        number=str(number),
        answer=str(digits),
    )
    steps.append(Step(said, None, written.marks, written.points))
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
    column = column_name(to - 1)
    if deciding < 5:
        said = several(
            "The {column} digit is {digit}: less than 5, so the {kept} stays.",
            "The {column} digit is {digit}: less than 5, so the {kept} stay.",
            kept[to],
            column=column,
            digit=deciding,
            kept=amount(kept[to], to),
        )
        return [(to - 1, said)]
    up = say(
        "The {column} digit is {digit}: 5 or more, so round up.", column=column, digit=deciding
    )
    if kept[to] < 9:
        before, kept[to] = kept[to], kept[to] + 1
        change = becomes(before, amount(before, to), amount(kept[to], to))
        return [(to - 1, joined((up, say("{change}.", change=change))))]
    return [(to - 1, up), *_carried_over_nines(number, to, kept)]


def _carried_over_nines(number: Number, to: int, kept: dict[int, int]) -> Iterator[tuple[int, str]]:
    """One more in a column that has a 9, and in those at its left as far as it is carried."""
    place, more = to, amount(1, to)
    while kept.get(place) == 9:
        kept[place] = 0
        yield place, makes((amount(9, place), more), 10, place)
        place += 1
        more = say("{amount} carried", amount=amount(1, place))
    before = kept.get(place, 0)
    kept[place] = before + 1
    if number.written_at(place):
        yield place, makes((amount(before, place), more), before + 1, place)
    else:
        yield place, alone(more, 1)


def _number(kept: dict[int, int], to: int) -> Number:
    """The kept digits as a number, with noughts below a column of whole numbers."""
    units = 0
    for place in range(max(kept), to - 1, -1):
        units = units * 10 + kept[place]
    return Number(units, -to) if to <= 0 else Number(units * int(10**to))
