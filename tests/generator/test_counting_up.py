"""Subtraction by counting up on a number line, the option beside exchange and equal addition.

Common practice, no source. 932 − 457 is the England appendix's example (DFE-00180-2013), which
works it by exchange and by equal addition: 475. From memory.
"""

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.working import SMALL_MARKS, Ink
from layouts.planning.extent import extent
from layouts.planning.number_line_ink import LineSquares, number_line_ink
from layouts.planning.plan import Arc, Text


def work(text: str, **agreed: str) -> Working:
    operands = tuple(map(Number.parse, text.split(" − ")))
    conventions = Conventions(subtraction="counting up", **agreed)
    return written_working(Question(Operation.SUBTRACT, operands), conventions)


def stops(text: str) -> list[str]:
    jumps = work(text).jumps()
    return [str(jumps[0].start), *(str(jump.end) for jump in jumps)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("932 − 457", "457 460 500 900 932"),
        ("5.3 − 2.17", "2.17 2.2 3 5 5.3"),
        ("17.4 − 8.65", "8.65 8.7 9 10 17.4"),
        ("10.004 − 3.756", "3.756 3.76 3.8 4 10 10.004"),
        ("500 − 300", "300 500"),
        ("6.00 − 2.00", "2.00 6.00"),
        ("0.7 − 0.64", "0.64 0.7"),
        ("8 − 0", "0 8"),
    ],
)
def test_jumps_go_to_the_next_tenth_whole_number_and_ten(text, expected):
    assert " ".join(stops(text)) == expected


def test_932_minus_457_spoken_in_full():
    assert [step.sentence for step in work("932 − 457").steps] == [
        "Draw a number line from 457 to 932. Count up along it.",
        "From 457 to 460 is 3.",
        "From 460 to 500 is 40.",
        "From 500 to 900 is 400.",
        "From 900 to 932 is 32.",
        "Add the 4 jumps. Set the numbers out: ones under ones, tens under tens.",
        "3 ones + 0 ones + 0 ones + 2 ones = 5 ones: write 5.",
        "4 tens + 0 tens + 3 tens = 7 tens: write 7.",
        "Only 4 hundreds in this column: write 4.",
    ]
    assert str(work("932 − 457").answer) == "475"


def test_a_single_jump_is_the_answer():
    (_, _, last) = work("0.7 − 0.64").steps
    assert last.sentence == "One jump: the answer is 0.06."
    assert [mark.text for mark in last.marks if mark.ink is Ink.ANSWER] == list("006")


numbers = st.builds(Number, st.integers(0, 10**6), st.integers(0, 4))


@given(
    numbers,
    numbers,
    st.booleans(),
    st.sampled_from(["below", "above", "between"]),
    st.sampled_from(["line", "column"]),
)
def test_every_difference_agrees_with_decimal_and_with_exchange(
    one, other, noughts, carries, point
):
    first, second = (one, other) if one.value >= other.value else (other, one)
    asked = Question(Operation.SUBTRACT, (first, second))
    agreed = Conventions(carries, noughts, "counting up", point)
    working = written_working(asked, agreed)
    assert Decimal(str(working.answer)) == Decimal(str(first)) - Decimal(str(second))
    assert working.agrees_with(asked)
    assert working.answer == written_working(asked).answer
    squares = [(m.row, m.column) for m in working.marks() if m.ink not in SMALL_MARKS]
    assert len(squares) == len(set(squares))
    assert all(
        0 <= m.row < working.rows and 0 <= m.column < working.columns for m in working.marks()
    )


@given(numbers, numbers)
def test_jumps_lead_from_the_second_number_to_the_first_without_a_gap(one, other):
    first, second = (one, other) if one.value >= other.value else (other, one)
    asked = Question(Operation.SUBTRACT, (first, second))
    jumps = written_working(asked, Conventions(subtraction="counting up")).jumps()
    at = second.value
    for jump in jumps:
        assert jump.start.value == at
        assert jump.size.value == jump.end.value - at > 0
        at = jump.end.value
    assert at == first.value
    sizes = [str(jump.size).strip("0.").replace(".", "").strip("0") for jump in jumps[:-2]]
    assert all(len(size) == 1 for size in sizes), "but for the last two, one digit each"


# On paper: to scale, and every number beside the others.


@settings(max_examples=30)
@given(numbers, numbers, st.sampled_from([4.5, 7.0, 18.0]))
def test_the_line_is_to_scale_and_its_numbers_lie_side_by_side(one, other, side):
    first, second = (one, other) if one.value >= other.value else (other, one)
    if first.value == second.value:
        return
    asked = Question(Operation.SUBTRACT, (first, second))
    working = written_working(asked, Conventions(subtraction="counting up"))
    squares = LineSquares(0.0, 0.0, side, working.columns)
    for steps in range(1, len(working.steps) + 1):
        items = list(number_line_ink(working, squares, steps, newest=True))
        texts = [item for item in items if isinstance(item, Text)]
        for baseline in {text.baseline for text in texts}:
            row = sorted((t for t in texts if t.baseline == baseline), key=lambda t: t.left)
            assert all(a.left + a.width < b.left for a, b in pairwise(row))
        reach = extent(items)
        assert reach is not None
        assert reach[0] >= 0
        assert reach[2] <= working.columns * side + 1e-6
        assert reach[1] >= 0
        assert reach[3] <= working.line.rows * side
    arcs = [item for item in items if isinstance(item, Arc)]
    whole = arcs[-1].x2 - arcs[0].x1
    for jump, arc in zip(working.jumps(), arcs, strict=True):
        share = float(jump.size.value / (first.value - second.value))
        assert arc.x2 - arc.x1 == pytest.approx(share * whole, abs=1e-6)
