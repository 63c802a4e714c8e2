"""Multiplication of two or three numbers, decimals through whole numbers.

Each decimal is a whole number divided by a power of ten. The whole numbers are multiplied
(by heart, by short or by long multiplication), and the digits of the product are then moved
as many columns to the right as the powers say: 0.6 × 0.07 is 6 × 7 made 1000 times smaller.
Noughts at the end of a whole number are left aside and put back.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from generator.operations.products.expanded_multiplication import expanded_multiplication
from generator.operations.products.grid_multiplication import grid_multiplication
from generator.operations.products.long_multiplication import long_multiplication
from generator.operations.products.multiplication_fact import (
    fact_text,
    is_fact,
    multiplication_fact,
)
from generator.operations.products.scaling import (
    made_larger,
    made_smaller,
    noughts_dropped,
    point_put_in,
    power_of,
    product_of_powers,
    product_of_powers_text,
    stated_power,
    stated_power_text,
)
from generator.operations.products.set_outs import SET_OUTS, Factors, SetOut
from generator.operations.products.short_multiplication import short_multiplication
from generator.operations.products.whole_product import (
    RIGHTLY,
    Manner,
    Turn,
    WholeProduct,
    digits_of,
    next_turn,
    turns,
    without_noughts,
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
from specs.languages.saying import joined, say, several

WholeMethod = Callable[[Factors, Conventions, Ink], WholeProduct]
"""Multiplies two whole numbers, the longer first, from a row downwards."""

_METHODS: Final[dict[str, WholeMethod]] = {
    "grid": grid_multiplication,
    "expanded": expanded_multiplication,
}


@dataclass(frozen=True, slots=True)
class _Plan:
    """What a multiplication needs, before anything is written."""

    factors: tuple[Number, ...]
    point_column: bool
    manner: Manner
    way: str
    set_out: SetOut

    @property
    def cores(self) -> list[int]:
        """The factors as whole numbers, without the noughts at their ends."""
        return [without_noughts(factor.units)[0] for factor in self.factors]

    @property
    def turns(self) -> tuple[Turn, ...]:
        """The products of two whole numbers each, one after another."""
        return turns(self.cores)

    @property
    def noughts(self) -> int:
        """How many noughts are left aside: the factors' and those of the product in between."""
        aside = sum(without_noughts(factor.units)[1] for factor in self.factors)
        return aside + sum(turn.aside for turn in self.turns)

    @property
    def decimals(self) -> list[Number]:
        """The factors that are not written as whole numbers."""
        return [factor for factor in self.factors if factor.places]

    @property
    def places(self) -> int:
        """How many columns the product's digits move to the right."""
        moved = [factor.places for factor in self.factors]
        return sum(moved) if self.manner.places is None else self.manner.places(moved)

    @property
    def columns_alone(self) -> bool:
        """Whether the product of two whole numbers is all that there is to do.

        A grid does not show the numbers themselves: the question stands above it.
        """
        alone = len(self.factors) == 2 and not self.noughts
        alone = alone and (self.stands_on_its_line or not self.decimals)
        return alone and (self.method is not grid_multiplication or is_fact(*self.cores))

    @property
    def stands_on_its_line(self) -> bool:
        """Whether decimals are multiplied where they are asked: their points are in nobody's way.

        That is so on one line, where the point of the answer is put into the product itself; with
        a column for the point there is no room for it.
        """
        alone = len(self.factors) == 2 and bool(self.decimals) and not self.noughts
        if not alone or self.point_column or not self.set_out.is_a_line:
            return False
        return self.method is None and not is_fact(*self.cores)

    def on_its_line(self, turn: Turn) -> tuple[Number, Number] | None:
        """The decimals of a product in the order in which they are set out on their line."""
        if not self.stands_on_its_line:
            return None
        first, second = self.factors
        return (first, second) if turn.upper == turn.first else (second, first)

    @property
    def method(self) -> WholeMethod | None:
        """The method of the school; None for short or long multiplication."""
        # How a mistake changes the rows is known of columns alone.
        return _METHODS.get(self.way) if self.manner == RIGHTLY else None

    @property
    def question_text(self) -> str:
        """The question as it is written on the squares."""
        return "×".join(map(str, self.factors))

    @property
    def powers(self) -> list[int]:
        """The powers of ten of the decimals stated."""
        return [power_of(decimal) for decimal in self.stated]

    @property
    def stated(self) -> list[Number]:
        """The decimals that are written as whole numbers divided by powers of ten.

        None where the point is placed by another rule.
        """
        return self.decimals if self.manner.places is None else []

    @property
    def columns(self) -> Columns:
        """Where the columns stand: the ones as far left as every product allows.

        Of factors on their line these are the columns of the whole-number product.
        """
        if self.stands_on_its_line:
            return Columns(line_width(self.question_text) - 2, 0)
        widths = [
            line_width(fact_text(turn.first, turn.second))
            if is_fact(turn.first, turn.second)
            else 1 + digits_of(turn.first, turn.second)
            for turn in self.turns
        ]
        widths.append(digits_of(self.turns[-1].product) + self.noughts)
        return Columns(max(widths) - 2, -self.places, self.point_column)

    @property
    def lines_width(self) -> int:
        """How many squares the longest line of writing takes."""
        lines = [self.question_text, *map(stated_power_text, self.stated)]
        if len(self.powers) > 1:
            lines.append(product_of_powers_text(self.powers))
        return max(line_width(line, point_column=self.point_column) for line in lines)


def multiplication(
    question: Question, conventions: Conventions, manner: Manner = RIGHTLY
) -> Working:
    """Multiply two or three numbers.

    Two whole numbers are set out at once as their method asks. Otherwise the first row is
    the question; then come the powers of ten, the whole-number product, and the answer.
    ``manner`` is how it is gone about. Raises ValueError for another number of factors.
    """
    if len(question.operands) not in (2, 3):
        raise ValueError(f"{question.text}: two or three numbers can be multiplied")
    plan = _Plan(
        question.operands,
        conventions.point_column,
        manner,
        conventions.multiplication,
        SET_OUTS[conventions.factors],
    )
    columns = plan.columns
    if plan.columns_alone:
        return _whole(plan, columns, conventions)
    steps = [_asked(plan)]
    steps.extend(
        stated_power(decimal, row, columns) for row, decimal in enumerate(plan.stated, start=1)
    )
    row = len(steps)
    if len(plan.powers) > 1:
        steps.append(product_of_powers(plan.powers, row))
        row += 1
    last_row, row = _whole_numbers(plan, columns, row, conventions, steps)
    if plan.places:
        whole = read_number(steps, last_row, Ink.PARTIAL).units
        steps.append(made_smaller(whole, plan.places, columns, row))
        last_row, row = row, row + 1
    answer = read_number(steps, last_row, Ink.ANSWER)
    if answer != answer.trimmed():
        steps.append(noughts_dropped(answer, columns, last_row))
    return Working(
        rows=row,
        columns=max(columns.count, plan.lines_width, *map(_reach, steps)),
        units_column=columns[0],
        point_column=columns.point_column,
        rules=(),
        steps=tuple(steps),
        answer=answer,
        outline=_outline(steps) if plan.method is grid_multiplication else None,
    )


def _reach(step: Step) -> int:
    """How many squares wide a step's marks and lines are."""
    marks = [mark.column for mark in step.marks]
    return 1 + max([*marks, *(rule.end for rule in step.rules)], default=-1)


def _outline(steps: list[Step]) -> Step | None:
    """The first grid with the parts of its numbers; None where all is known by heart."""
    return next((step for step in steps if step.uprights), None)


def _whole(plan: _Plan, columns: Columns, conventions: Conventions) -> Working:
    """Two numbers multiplied where they are set out, and nothing else but their points."""
    (turn,) = plan.turns
    block = _product(plan, turn, columns, 0, conventions, Ink.ANSWER)
    set_out, *worked = block.steps
    if plan.places:
        moved = replace(columns, top=columns.top - plan.places, last=-plan.places)
        worked.append(
            point_put_in(
                block.product, plan.places, moved, block.product_row, told=bool(plan.stated)
            )
        )
        columns = moved
    answer = read_number(worked, block.product_row, Ink.ANSWER)
    if answer != answer.trimmed():
        worked.append(noughts_dropped(answer, columns, block.product_row))
    return Working(
        rows=block.rows,
        columns=max(columns.count, *map(_reach, block.steps)),
        units_column=columns[0],
        point_column=columns.point_column,
        rules=set_out.rules,
        steps=(replace(set_out, rules=()), *worked),
        answer=answer,
    )


def _asked(plan: _Plan) -> Step:
    """The question on the first row, and how it is gone about."""
    if plan.decimals:
        sentence = say("Multiply whole numbers first, then move the digits to their columns.")
    elif plan.noughts:
        sentence = say("Leave the noughts at the end aside, and put them back afterwards.")
    elif len(plan.factors) == 2:
        sentence = say("Multiply each part of one number by each part of the other, and add.")
    else:
        sentence = say("Multiply two of the numbers, then multiply by the third.")
    written = write_line(plan.question_text, 0, 0, Ink.GIVEN, point_column=plan.point_column)
    return Step(sentence, None, written.marks, written.points)


def _whole_numbers(
    plan: _Plan, columns: Columns, row: int, conventions: Conventions, steps: list[Step]
) -> tuple[int, int]:
    """Add the steps of the whole-number product; the row it stands in, and the next free one."""
    product, *others = plan.cores
    product_row = row
    for number, core in enumerate(others, start=1):
        last = number == len(others) and not plan.noughts and not plan.places
        ink = Ink.ANSWER if last else Ink.PARTIAL
        turn = next_turn(product, core)
        block = _product(plan, turn, columns, row, conventions, ink)
        rows = (row, row + block.rows - 1)
        first, *rest = (replace(step, rows=step.rows or rows) for step in _in_passing(block, turn))
        if turn.aside:
            aside = several(
                "Leave the nought of {product} aside.",
                "Leave the {count} noughts of {product} aside.",
                turn.aside,
                product=product,
            )
            first = replace(first, sentence=joined((aside, first.sentence)))
        steps.extend((first, *rest))
        product, product_row, row = block.product, block.product_row, row + block.rows
    if plan.noughts:
        ink = Ink.PARTIAL if plan.places else Ink.ANSWER
        steps.append(made_larger(product, plan.noughts, columns, row, ink))
        product_row, row = row, row + 1
    return product_row, row


def _in_passing(block: WholeProduct, turn: Turn) -> tuple[Step, ...]:
    """A product's steps within a longer working: a fact is one step there."""
    if not is_fact(turn.first, turn.second):
        return block.steps
    asked, known = block.steps
    fact = f"{turn.first} × {turn.second} = {block.product}"
    sentence = say("Multiply the whole numbers: {fact}.", fact=fact)
    return (replace(known, sentence=sentence, marks=(*asked.marks, *known.marks)),)


def _product(
    plan: _Plan, turn: Turn, columns: Columns, row: int, conventions: Conventions, ink: Ink
) -> WholeProduct:
    """Two whole numbers multiplied by the school's method, or the one that their lengths call for.

    What is known by heart needs no method.
    """
    if is_fact(turn.first, turn.second):
        return multiplication_fact(turn.first, turn.second, columns, row, ink)
    factors = Factors(turn.upper, turn.lower, columns, row, plan.set_out, plan.on_its_line(turn))
    if plan.method is not None:
        return plan.method(factors, conventions, ink)
    method = short_multiplication if turn.lower < 10 else long_multiplication
    return method(factors, conventions, ink, plan.manner)
