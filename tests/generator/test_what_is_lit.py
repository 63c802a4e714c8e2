"""What a step of a multiplication lights: the digits that it speaks of, and where they go."""

import re

from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.methods import Conventions, written_working
from generator.operations.working import SMALL_MARKS, Ink, Step, Working

PLACES = {
    name: place
    for place, name in enumerate(
        ["one", "ten", "hundred", "thousand", "ten thousand", "hundred thousand", "million"]
    )
}
AMOUNT = r"(\d+) ((?:ten |hundred )?(?:thousand|million)|one|ten|hundred)s?"
PRODUCT = re.compile(rf"(?:{AMOUNT}|(\d+)) × {AMOUNT} = (\d+)")
WRITE = re.compile(r"write (\d+)")
FACTORS = re.compile(r"Set out (\d+) × (\d+)")

factors = st.builds(Number, st.integers(2, 99_999), st.integers(0, 3))


def standing(working: Working, steps: int) -> dict[tuple[int, int], str]:
    """The full-sized digits after so many steps."""
    return {
        (mark.row, mark.column): mark.text
        for mark in working.marks(steps)
        if mark.ink not in SMALL_MARKS | {Ink.CARRY}
    }


def of_a_product(step: Step, working: Working, number: int, factors: tuple[str, str]) -> None:
    """The digit of each factor that the sentence names, and the digits that are written."""
    found = PRODUCT.match(step.sentence)
    assert found is not None
    by, by_unit, by_alone, own, own_unit, _ = found.groups()
    upper, lower = factors
    digits = standing(working, number)
    paper = sorted(step.lit)
    assert len(set(paper)) == len(paper)
    (top, top_column), (low, low_column), *written = paper
    ones = working.units_column
    assert low == top + 1
    assert ones - top_column == PLACES[own_unit]
    assert ones - low_column == (0 if by_alone else PLACES[by_unit])
    assert digits[top, top_column] == own == upper[-1 - PLACES[own_unit]]
    assert digits[low, low_column] == (by_alone or by) == lower[-1 - (ones - low_column)]
    wrote = WRITE.search(step.sentence)
    assert wrote is not None
    assert "".join(digits[square] for square in written) == wrote[1]
    assert len({row for row, _ in written}) == 1


def of_a_sum(step: Step, working: Working, number: int) -> None:
    """One column of the rows that are added, what is carried to it, and its digit."""
    assert step.column is not None
    lit = {square for square in step.lit if square[1] == step.column}
    added = re.split(r" = | in this", step.sentence.removeprefix("Only "))[0].split(" + ")
    terms = [(text.split()[0], text.endswith("carried")) for text in added]
    digits = standing(working, number)
    small = {(m.row, m.column): m.text for m in working.marks(number) if m.ink is Ink.CARRY}
    named = sorted(digit for digit, carried in terms if not carried)
    wrote = WRITE.search(step.sentence)
    assert wrote is not None
    fresh = {(mark.row, mark.column) for mark in step.marks if mark.ink is not Ink.CARRY}
    assert "".join(digits[square] for square in sorted(fresh)) == wrote[1]
    assert fresh <= set(step.lit)
    above = [digits[square] for square in lit - fresh if square in digits]
    assert sorted(above) == named
    carried_to_it = [digit for digit, carried in terms if carried]
    assert [small[square] for square in lit if square in small] == carried_to_it


@given(factors, factors, st.sampled_from(["below", "above", "between"]), st.booleans())
def test_each_step_lights_the_digits_that_it_speaks_of(first, second, carries, column):
    point = "column" if column else "line"
    question = Question(Operation.MULTIPLY, (first, second))
    working = written_working(question, Conventions(carries=carries, point=point))
    upper = lower = ""
    for number, step in enumerate(working.steps, start=1):
        set_out = FACTORS.search(step.sentence)
        if set_out:
            upper, lower = set_out.groups()
        if PRODUCT.match(step.sentence) and step.column is not None:
            of_a_product(step, working, number, (upper, lower))
        elif step.sentence.startswith("Now the "):
            fresh = {(mark.row, mark.column) for mark in step.marks}
            (digit,) = set(step.lit) - fresh
            assert fresh <= set(step.lit)
            named = re.match(rf"Now the {AMOUNT}", step.sentence)
            assert named is not None
            assert standing(working, number)[digit] == named[1] == lower[-1 - PLACES[named[2]]]
        elif step.column is not None:
            of_a_sum(step, working, number)
