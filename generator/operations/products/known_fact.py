"""A decimal product from a whole-number fact: 24 × 16 = 384, so 2.4 × 0.16 = 0.384.

Each decimal is the fact's number made so many times smaller; together the powers of ten say
how many columns the digits of the product move (common practice, no source).
"""

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.products.scaling import (
    made_smaller,
    noughts_dropped,
    power_of,
    product_of_powers,
    product_of_powers_text,
    stated_power,
    stated_power_text,
)
from generator.operations.working import (
    Columns,
    Conventions,
    Ink,
    Step,
    Working,
    line_width,
    read_number,
    write_line,
)
from specs.languages.saying import Saying, say


def whole_number_fact(question: Question) -> Question | None:
    """The fact that a product or a division of decimals follows from; None where there is none.

    Its numbers are the question's without their points. A division's fact must be exact, and
    some number of the question must have a point.
    """
    numbers = tuple(Number(number.units) for number in question.operands)
    if question.operation not in (Operation.MULTIPLY, Operation.DIVIDE):
        return None
    if question.power_of_ten or not any(number.places for number in question.operands):
        return None
    if question.operation is Operation.DIVIDE:
        dividend, divisor = numbers
        if not divisor.units or dividend.units % divisor.units:
            return None
    return Question(question.operation, numbers)


def related_product(question: Question, conventions: Conventions | None = None) -> Working:
    """A product worked from its fact. Raises ValueError for a question without one."""
    fact = whole_number_fact(question)
    if fact is None or question.operation is not Operation.MULTIPLY:
        raise ValueError(say("{question} does not follow from a fact", question=question.text))
    decimals = [number for number in question.operands if number.places]
    powers = [power_of(decimal) for decimal in decimals]
    known = f"{fact.text}={fact.answer}".replace(" ", "")
    places = sum(number.places for number in question.operands)
    own_column = (conventions or Conventions()).point_column
    columns = Columns(max(len(str(fact.answer)) - 1, 0), -places, own_column)
    steps = [_known(fact, known)]
    steps.extend(
        stated_power(decimal, row, columns) for row, decimal in enumerate(decimals, start=1)
    )
    lines = [known, *map(stated_power_text, decimals)]
    if len(powers) > 1:
        steps.append(product_of_powers(powers, len(steps)))
        lines.append(product_of_powers_text(powers))
    row = len(steps)
    steps.append(made_smaller(fact.answer.units, places, columns, row))
    answer = read_number(steps, row, Ink.ANSWER)
    if answer != answer.trimmed():
        steps.append(noughts_dropped(answer, columns, row))
    return Working(
        rows=row + 1,
        columns=max(columns.count, *(line_width(line, point_column=own_column) for line in lines)),
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(),
        steps=tuple(steps),
        answer=answer,
    )


def begin_with(fact: Question) -> Saying:
    """What is said of the fact, before the decimals follow."""
    known = f"{fact.text} = {fact.answer}"
    return say("Begin with what is known: {fact}.", fact=known)


def _known(fact: Question, written: str) -> Step:
    line = write_line(written, 0, 0, Ink.GIVEN)
    return Step(begin_with(fact), None, line.marks)
