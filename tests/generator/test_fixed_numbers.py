"""``first``, ``second``, ``third``: a number settled, and counted like any other condition."""

from collections.abc import Callable
from decimal import Decimal
from itertools import combinations_with_replacement, product

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.packs.building import build_pack
from generator.packs.conflicts import conflicts
from specs import SpecError
from tests.generator import oracle, oracle_products
from tests.generator.ladders import questions, rung, spec
from tests.generator.test_counting import written
from tests.generator.test_quotients import dividends


def texts(question: Question) -> list[str]:
    """The numbers in the order of printing."""
    return [str(number) for number in question.operands]


ADDITIONS: list[tuple[str, list[str], int, list[str], Callable[[list[str]], bool]]] = [
    (
        "operation: add, places: 1, whole: {between: [0, 1]}, carries: none, first: 3.4",
        ["3.4"],
        1,
        written(range(1, 2), range(2)),
        lambda n: not oracle.add(n).transfers,
    ),
    (
        "operation: add, places: {ragged: [0, 2]}, whole: 1, second: 4.06",
        ["4.06"],
        1,
        written(range(3), range(1, 2)),
        lambda n: len({len(x) for x in n}) > 1,
    ),
    (
        "operation: add, addends: 3, places: 1, whole: 0, carries: {count: 1}, first: 0.5",
        ["0.5"],
        2,
        written(range(1, 2), range(1)),
        lambda n: len(oracle.add(n).transfers) == 1,
    ),
    (
        "operation: add, addends: 3, places: 1, whole: 0, first: 0.5, third: 0.5",
        ["0.5", "0.5"],
        1,
        written(range(1, 2), range(1)),
        lambda n: True,
    ),
    (
        "operation: add, addends: 3, places: [2, 1, 1], whole: 0, second: 0.7, carries: {count: 1}",
        ["0.7"],
        2,
        written(range(1, 3), range(1)),
        lambda n: sorted(len(x) for x in n) == [3, 3, 4] and len(oracle.add(n).transfers) == 1,
    ),
    (
        "operation: add, places: 2, whole: 1, zeros: {end: allow}, repeats: forbid, first: 2.50",
        ["2.50"],
        1,
        written(range(2, 3), range(1, 2), end_zero=True),
        lambda n: all(
            len(set(column)) == 2 for column in zip(*n, strict=True) if "." not in column
        ),
    ),
]


@pytest.mark.parametrize(("text", "fixed", "free", "numbers", "belongs"), ADDITIONS)
def test_additions_against_brute_force(
    text: str, fixed: list[str], free: int, numbers: list[str], belongs: Callable[[list[str]], bool]
) -> None:
    wanted = {
        tuple(sorted([*fixed, *others]))
        for others in combinations_with_replacement(numbers, free)
        if belongs([*fixed, *others])
    }
    found = questions(text)
    asked = [found.unrank(number) for number in range(found.count)]
    assert len(asked) == len(wanted)
    assert {tuple(sorted(texts(question))) for question in asked} == wanted
    assert [found.rank(question) for question in asked] == list(range(found.count))
    places = [at for at, word in enumerate(("first", "second", "third")) if f"{word}:" in text]
    for question in asked:
        assert [str(question.operands[at]) for at in places] == fixed


@pytest.mark.parametrize(("at", "word", "number"), [(0, "first", "5.02"), (1, "second", "1.9")])
def test_subtractions_against_brute_force(at: int, word: str, number: str) -> None:
    text = "operation: subtract, places: {ragged: [1, 2]}, whole: 1, exchanges: {count: 1}"
    found = questions(f"{text}, {word}: {number}")
    wanted = set()
    for other in written(range(1, 3), range(1, 2)):
        pair = [other, number] if at else [number, other]
        unlike = len(other) != len(number) and Decimal(pair[0]) > Decimal(pair[1])
        if unlike and len(oracle.subtract(pair).transfers) == 1:
            wanted.add(tuple(pair))
    asked = [found.unrank(place) for place in range(found.count)]
    assert {tuple(texts(question)) for question in asked} == wanted
    assert [found.rank(question) for question in asked] == list(range(len(wanted)))


PRODUCTS: list[tuple[str, list[str], list[list[str]], Callable[[list[str]], bool]]] = [
    (
        "digits: [1, 2], places: {between: [0, 1]}, first: 0.4",
        ["0.4", ""],
        [oracle_products.decimals(range(2, 3), range(2))],
        lambda n: True,
    ),
    (
        "digits: 2, places: 1, carries: {count: [1, 2]}, first: 2.3",
        ["2.3", ""],
        [oracle_products.decimals(range(2, 3), range(1, 2))],
        lambda n: 1 <= oracle_products.carries(n) <= 2,
    ),
    (
        "digits: 2, places: {between: [0, 1]}, carries: none, second: 12",
        ["", "12"],
        [oracle_products.decimals(range(2, 3), range(2))],
        lambda n: oracle_products.carries(n) == 0,
    ),
    (
        "digits: [3, 1], places: [2, 0], zeros: {end: allow}, second: 40, carries: some",
        ["", "40"],
        [oracle_products.decimals(range(3, 4), range(2, 3))],
        lambda n: oracle_products.carries(n) > 0,
    ),
    (
        "factors: 3, digits: 1, places: {between: [0, 1]}, second: 0.3, carries: {count: [0, 1]}",
        ["", "0.3", ""],
        [oracle_products.decimals(range(1, 2), range(2))] * 2,
        lambda n: oracle_products.carries(n) <= 1,
    ),
]


@pytest.mark.parametrize(("text", "fixed", "free", "belongs"), PRODUCTS)
def test_products_against_brute_force(
    text: str, fixed: list[str], free: list[list[str]], belongs: Callable[[list[str]], bool]
) -> None:
    found = questions(f"operation: multiply, {text}")
    asked = [found.unrank(number) for number in range(found.count)]
    assert [found.rank(question) for question in asked] == list(range(found.count))
    for question in asked:
        numbers = texts(question)
        assert all(wanted in ("", given) for wanted, given in zip(fixed, numbers, strict=True))
        assert belongs(numbers)
    wanted = set()
    for others in product(*free):
        left = list(others)
        numbers = [number or left.pop(0) for number in fixed]
        if belongs(numbers):
            wanted.add(tuple(sorted(numbers)))
    # Of three factors the order can matter to the carries; of those alike the greater is first.
    if len(fixed) == 2:
        assert {tuple(sorted(texts(question))) for question in asked} == wanted
        assert len(asked) == len(wanted)


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("places: {between: [0, 1]}, dividend: {digits: [2, 3]}, first: 8.4", ["8.4"], None),
        ("places: {between: [0, 1]}, remainders: none, second: 4", None, ["4"]),
        (
            "places: 2, divisor: [4, 12], divisor_places: {between: [0, 1]}, second: 1.2",
            None,
            ["1.2"],
        ),
        ("places: 1, divisor_places: 1, first: 8.4, second: 0.4", ["8.4"], ["0.4"]),
    ],
)
def test_divisions_against_those_of_the_free_rung(
    text: str, first: list[str] | None, second: list[str] | None
) -> None:
    free = ", ".join(p for p in text.split(", ") if not p.startswith(("first:", "second:")))
    every = questions(f"operation: divide, {free}")
    wanted = [
        question
        for question in map(every.unrank, range(every.count))
        if (first is None or texts(question)[:1] == first)
        and (second is None or texts(question)[1:] == second)
    ]
    found = questions(f"operation: divide, {text}")
    assert [found.unrank(number) for number in range(found.count)] == wanted
    assert [found.rank(question) for question in wanted] == list(range(len(wanted)))
    assert wanted


def test_a_match_keeps_the_number() -> None:
    found = questions("operation: add, places: 2, whole: 1, carries: some, first: 3.46")
    question = found.unrank(found.count // 2)
    matching = found.matching(found.signature(question), 0)
    assert 1 < matching.count < found.count
    for number in range(matching.count):
        match = matching.unrank(number)
        assert str(match.operands[0]) == "3.46"
        assert matching.rank(match) == number
        assert found.signature(match) == found.signature(question)


def test_a_pack_prints_the_number_first() -> None:
    lesson = spec(
        "mine: {operation: add, addends: 3, places: {ragged: [1, 2]}, whole: 1, first: 3.46}\n"
        "half: {operation: multiply, digits: [2, 2], places: [1, 1], first: 2.3}",
        "examples: [mine, half]\ntiers:\n  core: {mine: 6, half: 6}\n",
    )
    for seed in range(5):
        for section in build_pack(lesson, seed, 2).sections:
            for item in section.items:
                wanted = {"mine": "3.46", "half": "2.3"}[item.rung]
                assert str(item.question.operands[0]) == wanted


def test_conflicts_are_explained() -> None:
    clash = "operation: add, places: 2, whole: 1, carries: {count: 1}, first: 3.46, second: 1.22"
    (found,) = conflicts(spec(f"mine: {{{clash}}}"))
    assert "`carries: {count: 1}`, `first: 3.46` and `second: 1.22` together" in found.what
    assert "without `first: 3.46` there are 266" in found.instead


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        (
            "operation: add, first: 34.6",
            "first: 34.6 has 2 digits before the point, and numbers have 0 or 1 where whole is "
            "not given; add 'whole:' with lengths that it fits",
        ),
        ("operation: subtract, first: 3.4567", "first: 3.4567 has 4 decimal places"),
        ("operation: add, third: 0.4", "third is given but the question has 2 numbers"),
        ("operation: multiply, first: 345", "first: 345 has 3 significant digits"),
        ("operation: divide, first: 8.4", "first: 8.4 has 1 decimal place"),
        ("operation: divide, second: 12", "second: 12 has 2 digits"),
        ("operation: add, first: nought", "'first' cannot be 'nought'"),
        ("operation: add, first: 0.00", "'first' cannot be 0.00"),
        ("operation: round, first: 3.4", "'first' is not a word of 'operation: round'"),
    ],
)
def test_what_does_not_fit_is_told(text: str, problem: str) -> None:
    with pytest.raises(SpecError) as refused:
        spec(f"mine: {{{text}}}")
    assert problem in str(refused.value)


def test_a_number_is_as_it_is_written() -> None:
    written_out = rung("operation: add, places: 2, whole: 1, zeros: {end: allow}, first: 2.50")
    assert written_out.conditions[-1].text == "first: 2.50"
    found = questions("operation: add, places: 2, whole: 1, first: 2.50")
    assert found.count == 0  # decimals do not end in nought unless that is said
    with pytest.raises(ValueError, match="not among"):
        found.rank(Question(Operation.ADD, (Number(250, 2), Number(111, 2))))


@pytest.mark.parametrize(
    "text",
    [
        "add, places: 1, whole: 1, first: 3.46",
        "add, places: 0, whole: 1, second: 5.1",
        "add, addends: 3, places: {ragged: [0, 1]}, whole: 1, third: 3.46",
        "add, places: 1, whole: 1, first: 12.4",
        "add, places: 1, whole: {between: [1, 2]}, first: 0.4",
        "subtract, places: 1, whole: 1, first: 3.46",
        "subtract, places: 0, whole: 1, second: 3.4",
        "subtract, places: [1, 2], whole: 1, first: 3.46",
        "multiply, places: 0, digits: 2, first: 3.4",
        "multiply, places: 1, digits: 1, second: 3.4",
        "divide, places: 0, dividend: {digits: 2}, first: 3.4",
        "divide, places: 1, dividend: {digits: 3}, first: 3.4",
        "divide, divisor: 4, divisor_places: 0, second: 0.4",
    ],
)
def test_a_number_longer_or_shorter_than_its_rung_has_is_never_cut(text: str) -> None:
    assert questions(f"operation: {text}").count == 0
    assert conflicts(spec(f"mine: {{operation: {text}}}"))


def test_dividends_of_every_divisor() -> None:
    for dividend in list(dividends(range(2, 3), range(2)))[::9]:
        text = "operation: divide, places: {between: [0, 1]}, dividend: {digits: 2}"
        found = questions(f"{text}, first: {dividend}")
        exact = [d for d in "23456789" if oracle_products.divide(dividend, d).left == 0]
        kept = [d for d in exact if oracle_products.divide(dividend, d).quotient]
        assert [texts(found.unrank(at))[1] for at in range(found.count)] == kept
