"""A decimal quotient from a whole-number fact: 398 ÷ 2 = 199, so 39.8 ÷ 0.2 = 199.

One number is made smaller at a time, and the answer follows: what is shared out is ten times
smaller, so each share is; the divisor is ten times smaller, so it goes in ten times as often
(common practice, no source).
"""

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.products.known_fact import begin_with, whole_number_fact
from generator.operations.products.scaling import not_needed
from generator.operations.working import (
    Conventions,
    Ink,
    Mark,
    Point,
    Step,
    Strike,
    Working,
    line_width,
    read_number,
    write_line,
)
from specs.languages.saying import say


def follows_from_its_fact(question: Question) -> bool:
    """Whether a division's answer is its fact's, made larger or smaller: not one with a
    remainder, nor one that is rounded.
    """
    exact = question.ending in (Ending.EXACT, Ending.DECIMAL)
    return question.operation is Operation.DIVIDE and exact


def related_quotient(question: Question, conventions: Conventions | None = None) -> Working:
    """A division worked from its fact. Raises ValueError for a question without one."""
    fact = whole_number_fact(question)
    if fact is None or not follows_from_its_fact(question):
        raise ValueError(f"{question.text} does not follow from a fact")
    own_column = (conventions or Conventions()).point_column
    dividend, divisor = question.operands
    whole, by = fact.operands
    lines = [_Line(f"{whole}÷{by}=", fact.answer, own_column)]
    says = [begin_with(fact)]
    if dividend.places:
        share = Number(fact.answer.units, dividend.places)
        power, worked = 10**dividend.places, f"{dividend} ÷ {by} = {share}"
        lines.append(_Line(f"{dividend}÷{by}=", share, own_column))
        says.append(
            say(
                "{dividend} is {whole} ÷ {power}, so divide the answer by {power} too: {worked}.",
                dividend=dividend,
                power=power,
                whole=whole,
                worked=worked,
            )
        )
    if divisor.places:
        power, worked = 10**divisor.places, f"{question.text} = {question.answer}"
        lines.append(_Line(f"{dividend}÷{divisor}=", question.answer, own_column))
        says.append(
            say(
                "{divisor} is {whole} ÷ {power}, so it goes in {power} times as often: {worked}.",
                divisor=divisor,
                power=power,
                whole=by,
                worked=worked,
            )
        )
    last = len(lines) - 1
    steps = [
        Step(
            said,
            None,
            *line.written(row, Ink.ANSWER if row == last else Ink.PARTIAL if row else Ink.GIVEN),
        )
        for row, (said, line) in enumerate(zip(says, lines, strict=True))
    ]
    answer = read_number(steps, last, Ink.ANSWER)
    if answer != answer.trimmed():
        steps.append(_noughts_dropped(answer, steps[-1]))
    return Working(
        rows=len(lines),
        columns=max(line.width for line in lines),
        units_column=0,
        point_column=own_column,
        rules=(),
        steps=tuple(steps),
        answer=answer,
    )


class _Line:
    """A division and its answer on one row of squares."""

    def __init__(self, asked: str, answer: Number, own_column: bool) -> None:
        self.asked, self.answer, self.own_column = asked, answer, own_column

    @property
    def width(self) -> int:
        """How many squares it takes."""
        return line_width(f"{self.asked}{self.answer}", point_column=self.own_column)

    def written(self, row: int, ink: Ink) -> tuple[tuple[Mark, ...], tuple[Point, ...]]:
        """Its marks and points; the answer is in its own ink."""
        start = line_width(self.asked, point_column=self.own_column)
        before = Ink.GIVEN if ink is Ink.GIVEN else Ink.PARTIAL
        asked = write_line(self.asked, row, 0, before, point_column=self.own_column)
        answer = write_line(str(self.answer), row, start, ink, point_column=self.own_column)
        return (*asked.marks, *answer.marks), (*asked.points, *answer.points)


def _noughts_dropped(answer: Number, line: Step) -> Step:
    """The noughts at the end of the decimal part crossed out."""
    gone = answer.places - answer.trimmed().places
    strikes = tuple(Strike(mark.row, mark.column) for mark in line.marks[-gone:])
    return Step(not_needed(answer), None, strikes=strikes)
