"""Multiplication by the grid and expanded, the options beside short and long multiplication."""

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.working import Ink
from tests.generator.squares import rows

WAYS = ("grid", "expanded")


def work(text: str, way: str, **agreed: str) -> Working:
    operands = tuple(map(Number.parse, text.split(" × ")))
    conventions = Conventions(multiplication=way, **agreed)
    return written_working(Question(Operation.MULTIPLY, operands), conventions)


# The products of the examples of the England appendix (DFE-00180-2013, Open Government Licence;
# from memory), which has them by short and by long multiplication: 24 × 6 = 144, 342 × 7 = 2394,
# 2741 × 6 = 16 446, 24 × 16 = 384, 124 × 26 = 3224.


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(
    ("text", "product"),
    [
        ("24 × 6", "144"),
        ("342 × 7", "2394"),
        ("2741 × 6", "16446"),
        ("24 × 16", "384"),
        ("124 × 26", "3224"),
    ],
)
def test_the_products_of_the_england_appendix(text, product, way):
    assert str(work(text, way).answer) == product


# Common practice, no source: 35 × 24 makes 600 + 100 + 120 + 20.


def test_a_grid_in_full():
    grid = work("35 × 24", "grid")
    assert rows(grid) == [
        "35×24",
        " ×  30  5",
        "20 600100",
        " 4 120 20",
        "",
        "  600",
        "  100",
        "  120",
        "+  20",
        "  840",
        "",
    ]
    assert [step.sentence for step in grid.steps[:7]] == [
        "Multiply each part of one number by each part of the other, and add.",
        "Partition the numbers along the grid: 35 = 30 + 5, and 24 = 20 + 4.",
        "2 tens × 3 tens = 6 hundreds: write 600.",
        "2 tens × 5 ones = 10 tens: write 100.",
        "4 × 3 tens = 12 tens: write 120.",
        "4 × 5 ones = 20 ones: write 20.",
        "Set the 4 products under one another, to be added.",
    ]


def test_an_expanded_multiplication_in_full():
    expanded = work("35 × 24", "expanded")
    assert rows(expanded) == [
        "   35",
        "×  24",
        "   20   4×5",
        "  120  4×30",
        "  100  20×5",
        "  600 20×30",
        "  840",
        "",
    ]
    assert [step.sentence for step in expanded.steps[:3]] == [
        "Set out 35 × 24. A row for each product: by the 4 ones, then by the 2 tens.",
        "4 × 5 ones = 20 ones: write 20.",
        "4 × 3 tens = 12 tens: write 120.",
    ]


def test_a_nought_in_a_number_has_no_part():
    assert rows(work("305 × 7", "grid"))[1:3] == ["× 300 5", "7210035"]
    assert rows(work("305 × 7", "expanded"))[2:4] == ["   35   7×5", " 2100 7×300"]


def test_a_grid_has_room_for_the_longest_product_whatever_its_own():
    """Uprights stand where they do for any two numbers of as many digits."""
    lines = {
        text: work(text, "grid").uprights_drawn() for text in ("11 × 12", "99 × 98", "52 × 34")
    }
    assert len(set(lines.values())) == 1


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("text", ["6 × 7", "0.6 × 0.07", "1 × 48"])
def test_what_is_known_by_heart_needs_no_method(text, way):
    assert work(text, way) == work(text, "columns")


factors = st.builds(Number, st.integers(1, 9_999), st.integers(0, 3))


@given(
    st.lists(factors, min_size=2, max_size=3),
    st.sampled_from(WAYS),
    st.sampled_from(["below", "above", "between"]),
    st.sampled_from(["line", "column"]),
)
def test_every_product_agrees_with_decimal_and_stays_in_its_squares(numbers, way, carries, point):
    asked = Question(Operation.MULTIPLY, tuple(numbers))
    agreed = Conventions(carries=carries, point=point, multiplication=way)
    working = written_working(asked, agreed)
    product = Decimal(1)
    for number in numbers:
        product *= Decimal(str(number))
    assert Decimal(str(working.answer)) == product
    assert working.agrees_with(asked)
    assert working.fits_its_squares
    assert all(0 <= mark.row < working.rows for mark in working.marks())
    assert all(rule.end < working.columns for rule in working.rules_drawn())


UNITS = ["one", "ten", "hundred", "thousand", "ten thousand", "hundred thousand", "million"]


def size(count: str, unit: str) -> int:
    return int(count) * 10 ** UNITS.index(unit.removesuffix("s"))


@given(st.integers(12, 999), st.integers(12, 99), st.sampled_from(WAYS))
def test_each_product_is_said_truly_and_written_where_it_lights(upper, lower, way):
    """Parts that are multiplied are those lit, and the number written is their product."""
    asked = Question(Operation.MULTIPLY, (Number(upper), Number(lower)))
    working = written_working(asked, Conventions(multiplication=way))
    made = 0
    for step in working.steps:
        if " × " not in step.sentence or ": write " not in step.sentence:
            continue
        by, rest = step.sentence.split(" × ")
        own, product, wrote = re.split(r" = |: write ", rest.rstrip("."))
        first = size(*by.split(" ", 1)) if " " in by else int(by)
        second = size(*own.split(" ", 1))
        assert first * second == size(*product.split(" ", 1)) == int(wrote)
        written = [mark for mark in step.marks if mark.ink is Ink.PARTIAL]
        assert "".join(mark.text for mark in written) == wrote
        assert {(mark.row, mark.column) for mark in written} <= set(step.lit)
        made += int(wrote)
    noughts = [str(n)[len(str(n).rstrip("0")) :] for n in (upper, lower)]
    cores = [int(str(n).rstrip("0")) for n in (upper, lower)]
    if max(cores) >= 10 and min(cores) > 1:
        assert made * 10 ** len("".join(noughts)) == upper * lower
