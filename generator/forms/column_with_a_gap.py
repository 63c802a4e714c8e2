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
from specs.languages.saying import Saying, joined, say


def with_a_gap(
    question: Question, operand: int, place: int, conventions: Conventions, lead: str
) -> Working:
    """An addition in columns in which a digit of a number is missing."""
    whole = column_addition(question, conventions)
    places = whole.places
    first_row, _, answer_row, _ = conventions.sum_rows(len(question.operands))
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
        sentence=joined((lead, say("Set it out with its answer, and leave the gap."))),
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
        if terms:
            return say("Only {amount} in this column: nothing is carried.", amount=terms[0])
        return say("No {column} in this column: nothing is carried.", column=column_name(place))
    summed = joined((joined(terms, between=" + "), "=", amount(column_total, place)))
    if not carry:
        return say("{sum}: nothing is carried.", sum=summed)
    return say(
        "{sum} = {carried} and {kept}: carry {carry} to the {column}.",
        sum=summed,
        carried=amount(carry, place + 1),
        kept=amount(kept, place),
        carry=carry,
        column=column_name(place + 1),
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
        summed = joined((joined(terms, between=" + "), "=", amount(known, place)))
        yield Step(say("Without the gap: {sum}.", sum=summed), column)
    elif not terms:
        alone = say("Nothing else stands in the {column}.", column=column_name(place))
        yield Step(alone, column)
    stands = column_total % 10
    if column_total < 10:
        makes = say("The answer has {amount} here.", amount=amount(stands, place))
    else:
        found = {
            "digit": stands,
            "known": amount(known, place),
            "total": amount(column_total, place),
        }
        makes = (
            say(
                "The answer's digit here is {digit}. Count on from {known} to the next number that "
                "ends in {digit}: {total}.",
                **found,
            )
            if digit
            else say("The answer's digit here is {digit}, and {known} end in {digit}.", **found)
        )
    mark = Mark(*gap, str(digit), Ink.ANSWER)
    carry = [m for m in whole.marks() if m.ink is Ink.CARRY and m.column == column - 1]
    yield Step(makes, column)
    wanted = joined(
        (amount(column_total, place), "−", amount(known, place), "=", amount(digit, place))
    )
    write = say("{calculation}: write {digit} in the gap.", calculation=wanted, digit=digit)
    yield Step(write, column, (mark, *carry))
