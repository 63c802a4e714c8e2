"""A column addition with a missing digit: reasoned out from its column, and what comes to it.

The answer stands below from the start. The columns at the right of the missing digit are added
for what they carry; then the column's own total says which digit fits (common practice, no
source).
"""

from collections.abc import Iterator
from dataclasses import replace

from generator.arithmetic.place_value import column_name
from generator.arithmetic.questions import Question
from generator.operations.columns.addition import column_addition, column_totals
from generator.operations.spoken import amount
from generator.operations.working import Columns, Conventions, Ink, Mark, Step, Working
from specs.languages.saying import Saying, say


def with_a_gap(
    question: Question, operand: int, place: int, conventions: Conventions, lead: str
) -> Working:
    """An addition in columns in which a digit of a number is missing."""
    whole = column_addition(question, conventions)
    places = whole.places
    answer_row = whole.rules[0].row
    first_row = answer_row - len(question.operands)
    gap = first_row + operand, places[place]
    set_out = _set_out(whole, gap, answer_row, lead)
    carries = {mark.column: mark for mark in whole.marks() if mark.ink is Ink.CARRY}
    _, totals = column_totals(question.operands, Columns.holding(question.operands))
    steps = [set_out]
    for at in range(min(totals), place):
        carry = carries.get(places[at + 1])
        steps.append(
            Step(
                _added(question, at, totals[at]),
                places[at],
                (carry,) if carry else (),
            )
        )
    steps.extend(_reasoned(question, operand, place, totals[place], gap, whole))
    return replace(whole, steps=tuple(steps))


def _set_out(whole: Working, gap: tuple[int, int], answer_row: int, lead: str) -> Step:
    """The numbers and the answer as they are printed, and the gap empty."""
    given = whole.setting_out
    answer = [
        replace(mark, ink=Ink.GIVEN)
        for mark in whole.marks()
        if mark.ink is Ink.ANSWER and mark.row == answer_row
    ]
    points = [
        replace(point, ink=Ink.GIVEN)
        for step in whole.steps[1:]
        for point in step.points
        if point.row == answer_row
    ]
    marks = tuple(m for m in (*given.marks, *answer) if (m.row, m.column) != gap)
    return replace(
        given,
        sentence=f"{lead} Set it out with its answer, and leave the gap.",
        marks=marks,
        points=(*given.points, *points),
        lit=(gap,),
    )


def _terms(question: Question, place: int, carried_in: int, but: int | None = None) -> list[Saying]:
    """What stands in a column, and what is carried to it."""
    found = [
        amount(number.digit(place), place)
        for at, number in enumerate(question.operands)
        if at != but and number.written_at(place)
    ]
    if carried_in:
        found.append(say("{amount} carried", amount=amount(carried_in, place)))
    return found


def _added(question: Question, place: int, worked: tuple[int, int]) -> str:
    """A column that is whole, for what it carries."""
    carried_in, column_total = worked
    terms = _terms(question, place, carried_in)
    carry, kept = divmod(column_total, 10)
    if len(terms) < 2:
        alone = f"Only {terms[0]}" if terms else f"No {column_name(place)}"
        return f"{alone} in this column: nothing is carried."
    said = f"{' + '.join(terms)} = {amount(column_total, place)}"
    if not carry:
        return f"{said}: nothing is carried."
    return (
        f"{said} = {amount(carry, place + 1)} and {amount(kept, place)}: "
        f"carry {carry} to the {column_name(place + 1)}."
    )


def _reasoned(
    question: Question,
    operand: int,
    place: int,
    worked: tuple[int, int],
    gap: tuple[int, int],
    whole: Working,
) -> Iterator[Step]:
    """What the column has without the gap, what it must make, and the digit that is wanted."""
    carried_in, column_total = worked
    digit = question.operands[operand].digit(place)
    known, column = column_total - digit, gap[1]
    terms = _terms(question, place, carried_in, but=operand)
    if len(terms) > 1:
        yield Step(f"Without the gap: {' + '.join(terms)} = {amount(known, place)}.", column)
    elif not terms:
        yield Step(f"Nothing else stands in the {column_name(place)}.", column)
    stands = column_total % 10
    if column_total < 10:
        makes = f"The answer has {amount(stands, place)} here."
    else:
        makes = (
            f"The answer has a {stands} here: from {amount(known, place)} on, the next that ends "
            f"in {stands} is {amount(column_total, place)}."
        )
        if stands == 8:
            makes = makes.replace("has a 8", "has an 8")
    mark = Mark(*gap, str(digit), Ink.ANSWER)
    carry = [m for m in whole.marks() if m.ink is Ink.CARRY and m.column == column - 1]
    yield Step(makes, column)
    wanted = f"{amount(column_total, place)} − {amount(known, place)} = {amount(digit, place)}"
    yield Step(f"{wanted}: write {digit} in the gap.", column, (mark, *carry))
