"""Products: exactly those on the rung, counted, fetched and found again."""

from collections import Counter
from collections.abc import Callable
from itertools import combinations_with_replacement, islice, permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.numbered.seeds import Dice, key
from generator.operations.methods import written_working
from generator.operations.products.questions import ProductSignature, signature_of
from generator.operations.working import Ink
from generator.packs.conflicts import conflicts
from specs import SpecError
from tests.generator import oracle_products as oracle
from tests.generator.ladders import questions, rung, spec

Numbers = list[str]


def printed(numbers: Numbers) -> Numbers:
    """More significant digits first, then fewer places, then the greater: as such rungs print."""

    def order(number: str) -> tuple[int, int, int]:
        digits = oracle.significant(number)
        noughts = len(number) - len(number.rstrip("0")) if "." not in number else 0
        return (-len(digits), oracle.places(number) - noughts, -int(digits))

    return sorted(numbers, key=order)


ALIKE: list[tuple[str, int, Numbers, Callable[[Numbers], bool]]] = [
    ("digits: 1, places: 0", 2, oracle.decimals(range(1, 2), range(1)), lambda n: True),
    ("digits: 1, places: {between: [0, 2]}", 2, oracle.decimals(range(1, 2), range(3)),
     lambda n: True),
    ("digits: {between: [1, 2]}, places: 1", 2, oracle.decimals(range(1, 3), range(1, 2)),
     lambda n: True),
    ("digits: {between: [1, 2]}", 2, oracle.decimals(range(1, 3), range(1, 3)),
     lambda n: oracle.places(n[0]) == oracle.places(n[1])),
    ("digits: {between: [1, 2]}, places: {ragged: [0, 1]}", 2,
     oracle.decimals(range(1, 3), range(2)),
     lambda n: oracle.places(n[0]) != oracle.places(n[1])),
    ("digits: 2, places: 0, carries: none", 2, oracle.decimals(range(2, 3), range(1)),
     lambda n: oracle.carries(n) == 0),
    ("digits: 2, places: 0, carries: some", 2, oracle.decimals(range(2, 3), range(1)),
     lambda n: oracle.carries(n) > 0),
    ("digits: 2, places: {between: [0, 1]}, carries: every", 2,
     oracle.decimals(range(2, 3), range(2)),
     lambda n: all(carried for row in oracle.product_rows(n) for carried in row)),
    ("digits: 2, places: 0, carries: {count: [2, 3]}", 2, oracle.decimals(range(2, 3), range(1)),
     lambda n: oracle.carries(n) in (2, 3)),
    ("digits: 2, places: {ragged: [0, 1]}, carries: {count: 1}", 2,
     oracle.decimals(range(2, 3), range(2)),
     lambda n: oracle.places(n[0]) != oracle.places(n[1]) and oracle.carries(n) == 1),
    ("digits: 2, places: 1, carries: {count: 2}, answer: {above: 2, ends_in_zero: true}", 2,
     oracle.decimals(range(2, 3), range(1, 2)),
     lambda n: oracle.carries(n) == 2 and oracle.product(n) > 2
     and oracle.whole_product(n) % 10 == 0),
    ("digits: 2, places: 1, answer: {ends_in_zero: true}", 2,
     oracle.decimals(range(2, 3), range(1, 2)), lambda n: oracle.whole_product(n) % 10 == 0),
    ("digits: 2, places: 1, answer: {ends_in_zero: false}", 2,
     oracle.decimals(range(2, 3), range(1, 2)), lambda n: oracle.whole_product(n) % 10 > 0),
    ("digits: 2, places: 1, answer: {whole_number: true}", 2,
     oracle.decimals(range(2, 3), range(1, 2)), lambda n: oracle.product(n) % 1 == 0),
    ("digits: 2, places: 1, answer: {whole_number: false}", 2,
     oracle.decimals(range(2, 3), range(1, 2)), lambda n: oracle.product(n) % 1 != 0),
    ("digits: {between: [1, 2]}, places: {between: [0, 2]}, answer: {places: [1, 2]}", 2,
     oracle.decimals(range(1, 3), range(3)),
     lambda n: oracle.product(n) % 1 != 0 and oracle.product(n) * 100 % 1 == 0),
    ("digits: {between: [1, 2]}, places: 1, answer: {whole: 0}", 2,
     oracle.decimals(range(1, 3), range(1, 2)), lambda n: oracle.product(n) < 1),
    ("digits: {between: [1, 2]}, places: 1, answer: {whole: [1, 2]}", 2,
     oracle.decimals(range(1, 3), range(1, 2)), lambda n: 1 <= oracle.product(n) < 100),
    ("digits: 2, places: {between: [0, 1]}, answer: {above: 0.48, below: 48}", 2,
     oracle.decimals(range(2, 3), range(2)), lambda n: 48 < 100 * oracle.product(n) < 4800),
    ("digits: {between: [1, 2]}, places: {between: [0, 1]}, answer: {between: [0.48, 4.8]}, "
     "carries: {count: 1}", 2, oracle.decimals(range(1, 3), range(2)),
     lambda n: 48 <= 100 * oracle.product(n) <= 480 and oracle.carries(n) == 1),
    ("digits: {between: [1, 2]}, places: {between: [0, 1]}, zeros: {end: allow}", 2,
     oracle.decimals(range(1, 3), range(2), range(3)), lambda n: True),
    ("digits: {between: [1, 2]}, places: {ragged: [0, 1]}, zeros: {end: allow}", 2,
     oracle.decimals(range(1, 3), range(2), range(3)),
     lambda n: oracle.places(n[0]) != oracle.places(n[1])),
    ("digits: {between: [1, 2]}, places: {between: [0, 1]}, zeros: {end: require}, carries: every",
     2, oracle.decimals(range(1, 3), range(2), range(3)),
     lambda n: any(x.endswith("0") for x in n)
     and all(carried for row in oracle.product_rows(n) for carried in row)),
    ("digits: 1, places: {between: [0, 1]}, zeros: {end: allow}, "
     "answer: {ends_in_zero: true, places: 0}", 2,
     oracle.decimals(range(1, 2), range(2), range(3)),
     lambda n: oracle.whole_product(n) % 10 == 0 and oracle.product(n) % 1 == 0),
    ("digits: {between: [1, 2]}, places: {between: [1, 2]}, zeros: {inside: forbid}", 2,
     oracle.decimals(range(1, 3), range(1, 3)), lambda n: not any(map(oracle.inside_nought, n))),
    ("digits: {between: [1, 2]}, places: {between: [1, 2]}, zeros: {inside: require}", 2,
     oracle.decimals(range(1, 3), range(1, 3)), lambda n: any(map(oracle.inside_nought, n))),
    ("factors: 3, places: {between: [1, 2]}, zeros: {inside: require}, carries: {count: 2}", 3,
     oracle.decimals(range(1, 2), range(1, 3)),
     lambda n: any(map(oracle.inside_nought, n)) and oracle.carries(n) == 2),
    ("factors: 3, places: 0", 3, oracle.decimals(range(1, 2), range(1)), lambda n: True),
    ("factors: 3, places: {between: [0, 1]}, carries: {count: 2}", 3,
     oracle.decimals(range(1, 2), range(2)), lambda n: oracle.carries(n) == 2),
    ("factors: 3, places: {ragged: [0, 1]}, answer: {whole_number: true, above: 20}, "
     "carries: some", 3, oracle.decimals(range(1, 2), range(2)),
     lambda n: len({oracle.places(x) for x in n}) == 2 and oracle.product(n) % 1 == 0
     and oracle.product(n) > 20 and oracle.carries(n) > 0),
]  # fmt: skip


@pytest.mark.parametrize(("text", "many", "numbers", "meets"), ALIKE)
def test_products_are_exactly_those_that_meet_the_conditions(
    text: str, many: int, numbers: Numbers, meets: Callable[[Numbers], bool]
) -> None:
    """In the usual order, or in the first other that meets them where that does not."""
    found = questions(f"operation: multiply, {text}")
    expected = set()
    for chosen in combinations_with_replacement(printed(numbers), many):
        orders = (order for order in permutations(chosen) if meets(list(order)))
        expected.update(islice(orders, 1))
    asked = [found.unrank(number) for number in range(found.count)]
    assert found.count == len(expected) > 0
    assert {tuple(map(str, question.operands)) for question in asked} == expected
    assert [found.rank(question) for question in asked] == list(range(found.count))


IN_TURN: list[tuple[str, Numbers, Numbers, Callable[[Numbers], bool]]] = [
    ("digits: [2, 1], places: [1, 0]", oracle.decimals(range(2, 3), range(1, 2)),
     oracle.decimals(range(1, 2), range(1)), lambda n: True),
    ("digits: [1, 2], places: [2, 0], carries: every", oracle.decimals(range(1, 2), range(2, 3)),
     oracle.decimals(range(2, 3), range(1)),
     lambda n: all(carried for row in oracle.product_rows(n) for carried in row)),
    ("digits: [3, 1], places: 1, zeros: {inside: require}",
     oracle.decimals(range(3, 4), range(1, 2)), oracle.decimals(range(1, 2), range(1, 2)),
     lambda n: "0" in n[0].replace(".", "")),
    ("digits: [3, 1], places: 0, zeros: {inside: forbid}, carries: {count: [0, 1]}",
     oracle.decimals(range(3, 4), range(1)), oracle.decimals(range(1, 2), range(1)),
     lambda n: "0" not in n[0] and oracle.carries(n) < 2),
    ("digits: [2, 3], places: [1, 0], zeros: {inside: require}, carries: every",
     oracle.decimals(range(2, 3), range(1, 2)), oracle.decimals(range(3, 4), range(1)),
     lambda n: "0" in n[1] and all(c for row in oracle.product_rows(n) for c in row)
     ),
    ("digits: 2, places: [2, 1], carries: {count: 1}", oracle.decimals(range(2, 3), range(2, 3)),
     oracle.decimals(range(2, 3), range(1, 2)), lambda n: oracle.carries(n) == 1),
    ("digits: [3, 2], places: [1, 2], answer: {places: 1, below: 9}",
     oracle.decimals(range(3, 4), range(1, 2)), oracle.decimals(range(2, 3), range(2, 3)),
     lambda n: oracle.whole_product(n) % 100 == 0 and oracle.whole_product(n) % 1000
     and oracle.product(n) < 9),
]  # fmt: skip


@pytest.mark.parametrize(("text", "first", "second", "meets"), IN_TURN)
def test_factors_with_lengths_of_their_own_stand_in_that_order(
    text: str, first: Numbers, second: Numbers, meets: Callable[[Numbers], bool]
) -> None:
    found = questions(f"operation: multiply, {text}")
    expected = {pair for pair in product(first, second) if meets(list(pair))}
    asked = [found.unrank(number) for number in range(found.count)]
    assert found.count == len(expected)
    assert {tuple(map(str, question.operands)) for question in asked} == expected
    assert all(found.rank(question) == number for number, question in enumerate(asked))


def test_ones_are_left_out_unless_allowed() -> None:
    nine, eight = 9, 8
    free = "operation: multiply, digits: 1, places: [0, 1]"
    assert questions(free).count == eight * eight
    assert questions(f"{free}, ones: allow").count == nine * nine
    tens = f"{free}, ones: allow, zeros: {{end: require}}"
    assert questions(tens).count == 2 * nine * nine
    found = questions("operation: multiply, digits: [3, 1], places: [1, 1], ones: allow")
    assert Question(Operation.MULTIPLY, (Number(245, 1), Number(1, 1))) in found


# Department for Education, "National curriculum in England: mathematics programmes of study",
# Appendix 1, DFE-00180-2013; the numbers are from memory. How often each carries is counted by
# hand: 24 × 16 is 4 × 6 = 24 and 6 × 2 + 2 = 14, then 1 × 4 and 1 × 2, and so on.
ENGLAND = [
    ("digits: [2, 1], places: 0, carries: every", "24", "6", "144", ("11",)),
    ("digits: [3, 1], places: 0, carries: every", "342", "7", "2394", ("111",)),
    ("digits: [4, 1], places: 0, carries: {count: 3}", "2741", "6", "16446", ("1110",)),
    ("digits: 2, places: 0, carries: {count: 2}", "24", "16", "384", ("11", "00")),
    ("digits: [3, 2], places: 0, carries: {count: 2}", "124", "26", "3224", ("011", "000")),
]


@pytest.mark.parametrize(("text", "first", "second", "answer", "rows"), ENGLAND)
def test_the_england_appendix(
    text: str, first: str, second: str, answer: str, rows: tuple[str, ...]
) -> None:
    asked = Question(Operation.MULTIPLY, (Number.parse(first), Number.parse(second)))
    assert asked.answer_text == answer
    (work,) = signature_of(asked).carries
    assert tuple("".join(str(int(c)) for c in reversed(row)) for row in work) == rows
    found = questions(f"operation: multiply, {text}")
    assert found.unrank(found.rank(asked)) == asked
    for step in range(len(found.widenings)):
        assert asked in found.matching(found.signature(asked), step)


def test_a_whole_product_that_ends_in_nought_is_shown_both_ways() -> None:
    """0.5 × 0.04 = 0.020 = 0.02. Common practice, no source."""
    found = questions(
        "operation: multiply, digits: 1, places: [1, 2], answer: {ends_in_zero: true}"
    )
    asked = Question(Operation.MULTIPLY, (Number(5, 1), Number(4, 2)))
    assert asked in found
    assert (str(asked.answer), asked.answer_text) == ("0.020", "0.02")
    assert "product ends in nought" in found.signature(asked).features
    assert found.count == 4 + 4  # a five with 2, 4, 6 or 8, either way round


def test_the_number_of_free_products() -> None:
    """Digits that end in no nought: 9 × 10ⁿ⁻² × 9 of n, and 8 of one (no 1)."""
    assert questions("operation: multiply, digits: [3, 2], places: [2, 1]").count == 810 * 81
    assert questions("operation: multiply, digits: [6, 3], places: 1").count == 810_000 * 810
    pairs = 81 * 82 // 2
    assert questions("operation: multiply, digits: 2, places: {same: [0, 2]}").count == 3 * pairs
    assert questions("operation: multiply, factors: 3, places: 1").count == 8 * 9 * 10 // 6


def test_carries_share_out_all_products() -> None:
    counts = [
        questions(f"operation: multiply, digits: [4, 2], places: 1, carries: {{count: {n}}}").count
        for n in range(9)
    ]
    assert sum(counts) == 8100 * 81
    every = questions("operation: multiply, digits: [4, 2], places: 1, carries: every").count
    assert every == counts[8] > 0  # two rows of four, as no multiplier here has a nought


LARGE = [
    "operation: multiply",
    "operation: multiply, digits: [5, 2], places: [2, 1], carries: {count: [3, 8]}",
    "operation: multiply, digits: [3, 2], places: {ragged: [0, 2]}, answer: {places: [1, 2]}",
    "operation: multiply, digits: {between: [1, 3]}, places: {between: [0, 2]}, "
    "zeros: {inside: require, end: allow}, answer: {between: [1, 500]}",
    "operation: multiply, factors: 3, digits: [1, 1, 2], places: [0, 1, 2], carries: some",
    "operation: multiply, digits: [1, 4], places: {between: [0, 3]}, answer: {ends_in_zero: true}",
]


@pytest.mark.parametrize("text", LARGE)
@settings(max_examples=50, deadline=None)
@given(data=st.data())
def test_rank_undoes_unrank(text: str, data: st.DataObject) -> None:
    found = questions(text)
    number = data.draw(st.integers(0, found.count - 1))
    asked = found.unrank(number)
    assert found.rank(asked) == number
    turned = data.draw(st.permutations(asked.operands))
    assert found.rank(Question(Operation.MULTIPLY, tuple(turned))) == number


@pytest.mark.parametrize("text", LARGE)
@settings(max_examples=8, deadline=None)
@given(data=st.data())
def test_matched_questions_have_the_same_signature(text: str, data: st.DataObject) -> None:
    found = questions(text)
    asked = found.unrank(data.draw(st.integers(0, found.count - 1)))
    printed_so = found.arranged(asked, Dice(key("order", data.draw(st.integers(0, 99)))))
    signature = found.signature(printed_so)
    assert isinstance(signature, ProductSignature)
    assert signature.carry_count == oracle.carries(list(map(str, printed_so.operands)))
    assert hash(signature) == hash(found.signature(printed_so))
    matched = found.matching(signature, 0)
    other = matched.unrank(data.draw(st.integers(0, matched.count - 1)))
    assert matched.signature(other) == signature
    assert other in found
    counts = [found.matching(signature, step).count for step in range(len(found.widenings))]
    assert 0 < counts[0] <= min(counts[1:])
    assert counts[1] <= counts[2] <= counts[3] <= counts[4] == found.count


@pytest.mark.parametrize(
    ("text", "ink"),
    [
        ("digits: [3, 1], places: {between: [0, 2]}, zeros: {end: allow}", Ink.CARRY),
        ("digits: [3, 2], places: {between: [0, 2]}, carries: {count: [1, 4]}", Ink.CORNER),
        ("digits: 2, places: {ragged: [0, 1]}, answer: {ends_in_zero: true}", Ink.CORNER),
    ],
)
def test_the_written_method_carries_where_the_signature_says(text: str, ink: Ink) -> None:
    """Small digits are carried from all products but the left-most of a row, written in full."""
    found = questions(f"operation: multiply, {text}")
    for number in range(0, found.count, 1 + found.count // 150):
        asked = found.unrank(number)
        (work,) = signature_of(asked).carries
        marks = [mark for step in written_working(asked).steps for mark in step.marks]
        assert sum(mark.ink is ink for mark in marks) == sum(sum(row[:-1]) for row in work)


@pytest.mark.parametrize(
    "digits", ["1", "[1, 1, 2]", "[2, 1, 1]", "[1, 2, 1]", "[2, 2, 1]", "[1, 2, 2]"]
)
def test_three_factors_carry_where_the_worked_steps_do(digits: str) -> None:
    """Noughts of the product in between are left aside: 6 × 5 = 30, then 34 × 3.

    Small digits are carried from all products but the left-most of a row, written in full.
    """
    found = questions(f"operation: multiply, factors: 3, digits: {digits}, places: 0")
    for number in range(0, found.count, 1 + found.count // 400):
        asked = found.unrank(number)
        steps = [step for step in written_working(asked).steps if " × " in step.sentence]
        marks = [mark for step in steps for mark in step.marks]  # of products, not of totals
        signature = signature_of(asked)
        inner = sum(sum(row[:-1]) for work in signature.carries for row in work)
        assert sum(mark.ink in (Ink.CARRY, Ink.CORNER) for mark in marks) == inner
        assert signature.carry_count == oracle.carries(list(map(str, asked.operands)))


@pytest.mark.parametrize("digits", ["1", "[1, 1, 2]", "[1, 2, 1]", "[2, 1, 1]"])
def test_three_factors_are_shared_out_by_their_carries(digits: str) -> None:
    text = f"operation: multiply, factors: 3, digits: {digits}, places: 0"
    whole = questions(text)
    numbers = [list(map(str, whole.unrank(number).operands)) for number in range(0, whole.count)]
    lengths = list(map(len, numbers[0]))
    orders = [[order for order in permutations(each) if list(map(len, order)) == lengths]
              for each in numbers]  # fmt: skip
    tally = Counter(many for each in orders for many in {oracle.carries(list(o)) for o in each})
    for many in range(6):
        assert questions(f"{text}, carries: {{count: {many}}}").count == tally[many]
    every = sum(
        any(all(map(all, oracle.product_rows(list(order)))) for order in each) for each in orders
    )
    assert questions(f"{text}, carries: every").count == every > 0


def test_either_order_of_two_factors_as_long_counts() -> None:
    """13 × 34: 4 × 3 = 12 carries. 34 × 13: 3 × 4 = 12 does, and 3 × 3 + 1 = 10. By hand."""
    one = questions("operation: multiply, digits: 2, places: 0, carries: {count: 1}")
    two = questions("operation: multiply, digits: 2, places: 0, carries: {count: 2}")
    free = questions("operation: multiply, digits: 2, places: 0")
    asked = Question(Operation.MULTIPLY, (Number(34), Number(13)))
    assert [str(number) for number in one.unrank(one.rank(asked)).operands] == ["13", "34"]
    assert [str(number) for number in two.unrank(two.rank(asked)).operands] == ["34", "13"]
    assert [str(number) for number in free.unrank(free.rank(asked)).operands] == ["34", "13"]


TURNED = [
    "digits: 2, places: {between: [0, 1]}, carries: {count: [1, 2]}",
    "digits: 2, places: {ragged: [0, 2]}, carries: {count: [2, 3]}",
    "factors: 3, digits: [1, 2, 2], places: 0, carries: {count: 3}",
]


@pytest.mark.parametrize("text", TURNED)
@settings(max_examples=10, deadline=None)
@given(data=st.data())
def test_what_is_matched_is_printed_as_on_its_rung(text: str, data: st.DataObject) -> None:
    found = questions(f"operation: multiply, {text}")
    asked = found.unrank(data.draw(st.integers(0, found.count - 1)))
    signature = found.signature(asked)
    matched = found.matching(signature, 0)
    assert asked in matched
    other = matched.unrank(data.draw(st.integers(0, matched.count - 1)))
    assert found.signature(other) == signature
    assert found.unrank(found.rank(other)) == other


def test_turned_products_are_shared_out_by_their_signatures() -> None:
    found = questions("operation: multiply, digits: 2, places: 0, carries: {count: [1, 2]}")
    signatures = {found.signature(found.unrank(number)) for number in range(found.count)}
    assert sum(found.matching(s, 0).count for s in signatures) == found.count


def test_a_product_in_between_that_ends_in_nought() -> None:
    """25 × 6 = 150, then 15 × 8: all four products carry. Worked by hand."""
    found = questions(
        "operation: multiply, factors: 3, digits: [2, 1, 1], places: 0, carries: every"
    )
    asked = Question(Operation.MULTIPLY, (Number(25), Number(6), Number(8)))
    assert signature_of(asked).carries == (((True, True),), ((True, True),))
    assert asked in found


def test_signatures_share_out_a_rung() -> None:
    found = questions("operation: multiply, digits: 2, places: {between: [0, 1]}")
    signatures = {found.signature(found.unrank(number)) for number in range(found.count)}
    assert sum(found.matching(s, 0).count for s in signatures) == found.count


def test_factors_of_one_kind_are_printed_either_way_round() -> None:
    found = questions("operation: multiply, digits: {between: [1, 2]}, places: 1")
    dice = Dice(key("orders"))
    both = {found.arranged(found.unrank(0), dice).operands for _ in range(20)}
    sizes = [len(oracle.significant(str(n))) for n in found.unrank(0).operands]
    assert len(both) == (2 if len(set(sizes)) == 2 else 1)
    mixed = next(q for q in map(found.unrank, range(found.count))
                 if len({len(oracle.significant(str(n))) for n in q.operands}) == 2)  # fmt: skip
    assert len({found.arranged(mixed, dice).operands for _ in range(20)}) == 2


def test_a_question_off_the_rung_has_no_number() -> None:
    found = questions("operation: multiply, digits: [2, 1], places: 1, carries: none")
    assert Question(Operation.MULTIPLY, (Number(23, 1), Number(3, 1))) in found
    off = [
        Question(Operation.MULTIPLY, (Number(24, 1), Number(3, 1))),  # carries
        Question(Operation.MULTIPLY, (Number(230, 2), Number(3, 1))),  # ends in nought
        Question(Operation.MULTIPLY, (Number(23, 2), Number(3, 1))),  # two places
        Question(Operation.MULTIPLY, (Number(23, 1), Number(0, 1))),  # nought
        Question(Operation.MULTIPLY, (Number(23, 1), Number(3, 1), Number(2, 1))),
        Question(Operation.ADD, (Number(23, 1), Number(3, 1))),
    ]
    for asked in off:
        assert asked not in found
    for number in (-1, found.count):
        with pytest.raises(IndexError):
            found.unrank(number)


# Bad and impossible rungs.


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("digits: 4", "both factors could have 4 digits"),
        ("factors: 3, digits: 2, places: 0", "three factors could have 6 digits"),
        ("factors: 3, digits: [3, 1, 1], places: 0", "three factors could have 5 digits"),
        ("places: [4, 3]", "7 decimal places"),
        ("factors: 3, digits: [2, 1]", "digits lists 2 numbers but the question has 3"),
        ("places: {same: [1, 2], ragged: [1, 2]}", "at once"),
        ("addends: 2", "'addends' is not a word of 'operation: multiply'"),
        ("digits: 7", "'digits' cannot be 7"),
    ],
)
def test_rungs_that_cannot_be_worked_are_refused(text: str, says: str) -> None:
    with pytest.raises(SpecError, match=says):
        rung(f"operation: multiply, {text}")


def test_an_impossible_product_is_explained() -> None:
    asked = spec("rung: {operation: multiply, digits: 1, places: 1, answer: {above: 1}}")
    ((found),) = conflicts(asked)
    assert found.what == (
        "no question of rung meets `digits: 1`, `places: 1` and `answer: {above: 1}` together"
    )
    assert "there are" in found.instead
