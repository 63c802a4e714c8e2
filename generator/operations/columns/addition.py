"""Column addition of two to six numbers, with carried digits.

The method is the formal written method of the England appendix (DFE-00180-2013): work
from the right; a column's ten or more is carried to the next column as a small digit.
"""

from collections.abc import Sequence
from dataclasses import replace

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from generator.operations.spoken import amount, column_name
from generator.operations.working import (
    Columns,
    Conventions,
    Ink,
    Mark,
    Rule,
    Step,
    Working,
    read_row,
    set_out,
)
from specs.languages.saying import Saying, joined, say


def column_addition(question: Question, conventions: Conventions) -> Working:
    """Add the numbers in columns.

    Rows: the addends, the answer, then the carried digits; with carries above these come first,
    with carries between before the answer. Needs at least two addends.
    """
    addends = question.operands
    if len(addends) < 2:
        raise ValueError("column addition needs at least two addends")
    places = Columns.holding(addends, point_column=conventions.point_column)
    overflows, totals = column_totals(addends, places)
    columns = replace(places, top=places.top + 1) if overflows else places
    first, carry_row, answer_row, end = conventions.sum_rows(len(addends))

    steps = [
        set_out(
            addends,
            columns,
            range(first, first + len(addends)),
            "+",
            _setting_out(addends, placeholders=conventions.placeholders),
            placeholders=conventions.placeholders,
        )
    ]
    if places.last < 0:
        point = columns.point(answer_row, Ink.ANSWER)
        steps.append(
            Step(say("The point in the answer stands under the other points."), None, (), (point,))
        )
    for place in places.from_the_right:
        steps.append(
            add_column(
                addends,
                columns,
                place,
                totals[place],
                answer_row,
                carry_row,
                is_last=place == places.top,
            )
        )
    return Working(
        rows=end,
        columns=columns.count,
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(Rule(answer_row, 0, columns.count - 1), Rule(answer_row + 1, 0, columns.count - 1)),
        steps=tuple(steps),
        answer=read_row(steps, answer_row, columns),
    )


def column_totals(
    addends: tuple[Number, ...], places: Columns
) -> tuple[bool, dict[int, tuple[int, int]]]:
    """Whether the last column overflows, and each place's (carry in, total) from the right."""
    carry, totals = 0, {}
    for place in places.from_the_right:
        column_total = carry + sum(number.digit(place) for number in addends)
        totals[place] = (carry, column_total)
        carry = column_total // 10
    return carry > 0, totals


def add_column(
    addends: tuple[Number, ...],
    columns: Columns,
    place: int,
    worked: tuple[int, int],
    answer_row: int,
    carry_row: int,
    *,
    is_last: bool,
    ink: Ink = Ink.ANSWER,
) -> Step:
    """One column added: ``worked`` is its carry in and its total, as ``column_totals`` gives them.

    The last column's ten or more is written straight into the answer.
    """
    carried_in, column_total = worked
    kept, carry = column_total % 10, column_total // 10
    marks = [Mark(answer_row, columns[place], str(kept), ink)]
    terms = [amount(number.digit(place), place) for number in addends if number.written_at(place)]
    if carried_in:
        terms.append(say("{amount} carried", amount=amount(carried_in, place)))
    if len(terms) == 1:
        sentence = alone(terms[0], kept)
    elif not terms:
        sentence = say("No {these}: write 0.", these=column_name(place))
    else:
        sentence = makes(terms, column_total, place, is_last=is_last)
    if carry:
        top = is_last
        marks.append(
            Mark(
                answer_row if top else carry_row,
                columns[place + 1],
                str(carry),
                ink if top else Ink.CARRY,
            )
        )
    room = () if is_last else ((carry_row, columns[place + 1]),)
    return Step(sentence, columns[place], tuple(marks), room=room)


def alone(term: str, digit: int) -> Saying:
    """``Only 1 tenth carried in this column: write 1.``"""
    return say("Only {term} in this column: write {digit}.", term=term, digit=digit)


def makes(terms: Sequence[str], total: int, place: int, *, is_last: bool = False) -> Saying:
    """``6 tenths + 7 tenths = 13 tenths = 1 one and 3 tenths: write 3, carry 1 to the ones.``

    ``total`` is what the terms make in the column; all of the last one's is written.
    """
    kept, carry = total % 10, total // 10
    added, found = joined(terms, between=" + "), amount(total, place)
    if not carry:
        return say("{terms} = {total}: write {digit}.", terms=added, total=found, digit=kept)
    if is_last:
        return say(
            "{terms} = {total} = {tens} and {ones}: write {written}.",
            terms=added,
            total=found,
            tens=amount(carry, place + 1),
            ones=amount(kept, place),
            written=total,
        )
    return say(
        "{terms} = {total} = {tens} and {ones}: write {digit}, carry {carry} to the {next}.",
        terms=added,
        total=found,
        tens=amount(carry, place + 1),
        ones=amount(kept, place),
        digit=kept,
        carry=carry,
        next=column_name(place + 1),
    )


def _setting_out(addends: tuple[Number, ...], *, placeholders: bool) -> str:
    lengths = {number.places for number in addends}
    if lengths == {0}:
        return say("Set the numbers out: ones under ones, tens under tens.")
    if len(lengths) > 1 and placeholders:
        return say("Set the numbers out with the points in line. Noughts fill the empty places.")
    return say("Set the numbers out with the points in line.")
