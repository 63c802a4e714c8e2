"""A decimal as written: digits on columns, exact, its noughts kept."""

from collections import Counter
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number, difference, total
from generator.arithmetic.place_value import amount, column_name
from generator.arithmetic.questions import Operation, Question
from generator.packs.building import build_pack
from tests.generator.ladders import spec

numbers = st.builds(Number, st.integers(0, 10**9 - 1), st.integers(0, 6))


@pytest.mark.parametrize(
    ("text", "units", "places"),
    [("3.40", 340, 2), ("12", 12, 0), (".5", 5, 1), ("0.05", 5, 2), ("007", 7, 0)],
)
def test_a_number_is_read_with_its_places(text: str, units: int, places: int) -> None:
    assert Number.parse(text) == Number(units, places)


@pytest.mark.parametrize("text", ["", ".", "1.", "-1", "1e3", " 1", "1,5", "١", "+2", "0x1"])
def test_anything_else_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="not a decimal number"):
        Number.parse(text)


@given(numbers)
def test_writing_and_reading_give_the_same_number(number: Number) -> None:
    assert Number.parse(str(number)) == number
    assert Decimal(str(number)) == Decimal(number.units).scaleb(-number.places)


@given(numbers)
def test_digits_stand_where_they_are_written(number: Number) -> None:
    written = str(number).replace(".", "")
    places = range(number.top_place, number.last_place - 1, -1)
    assert "".join(str(number.digit(place)) for place in places) == written
    assert number.digit(number.top_place + 1) == number.digit(number.last_place - 1) == 0
    assert number.whole_digits == len(str(number).partition(".")[0].lstrip("0"))


@given(st.lists(numbers, min_size=2, max_size=6).map(tuple))
def test_totals_agree_with_decimal_and_keep_the_longest_length(many: tuple[Number, ...]) -> None:
    result = total(many)
    assert Decimal(str(result)) == sum(Decimal(str(number)) for number in many)
    assert result.places == max(number.places for number in many)


@given(numbers, numbers)
def test_differences_agree_with_decimal(first: Number, second: Number) -> None:
    if first.value < second.value:
        with pytest.raises(ValueError, match="minus"):
            difference(first, second)
    else:
        exact = Decimal(str(first)) - Decimal(str(second))
        assert Decimal(str(difference(first, second))) == exact


def test_noughts_at_the_end_are_writing_not_size() -> None:
    assert Number.parse("2.50") != Number.parse("2.5")
    assert Number.parse("2.50").value == Number.parse("2.5").value
    assert str(Number.parse("2.50").trimmed()) == "2.5"
    assert str(Number.parse("2.00").trimmed()) == "2"
    assert str(Number.parse("40").trimmed()) == "40"


def test_a_longer_form_is_exact_and_a_shorter_one_only_where_it_can_be() -> None:
    assert str(Number.parse("2.5").to_places(3)) == "2.500"
    with pytest.raises(ValueError, match="no exact form"):
        Number.parse("2.55").to_places(1)


def test_columns_have_their_place_value_names() -> None:
    assert [column_name(place) for place in (1, 0, -1, -2, -3)] == [
        "tens",
        "ones",
        "tenths",
        "hundredths",
        "thousandths",
    ]
    assert (amount(1, -1), amount(0, -2), amount(14, -3)) == (
        "1 tenth",
        "0 hundredths",
        "14 thousandths",
    )


def test_a_calculation_with_noughts_at_the_end_is_the_same_question() -> None:
    short, longer = Number(42, 2), Number(50, 2)
    for operation in (Operation.ADD, Operation.SUBTRACT, Operation.MULTIPLY, Operation.DIVIDE):
        both = (Question(operation, (short, number)) for number in (longer, longer.trimmed()))
        assert len({question.identity for question in both}) == 1
    for operation in (Operation.COMPARE, Operation.ORDER):
        both = (Question(operation, (short, number)) for number in (longer, longer.trimmed()))
        assert len({question.identity for question in both}) == 2


def test_versions_share_no_sum_but_for_a_nought_at_the_end() -> None:
    few = "few: {operation: add, places: {between: [1, 2]}, whole: 0, zeros: {end: allow}, "
    read = spec(f"{few}answer: {{below: 0.3}}}}", "tiers:\n  core: {few: 8}\n")
    asked = [i.question for s in build_pack(read, 1, versions=8).sections for i in s.items]
    sums = {frozenset(Counter(n.value for n in q.operands).items()) for q in asked}
    assert len(sums) == len(asked) == 64
