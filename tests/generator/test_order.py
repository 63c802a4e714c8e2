"""Ordering, comparing, rounding and powers of ten: counted exactly, worked, and checked.

Outside checks: brute force over all short decimals, and ``decimal`` (General Decimal
Arithmetic, libmpdec) for sizes, ROUND_HALF_UP and shifts of the point.
"""

from decimal import ROUND_HALF_UP, Decimal
from itertools import combinations, pairwise
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import COLUMN_NAMES
from generator.arithmetic.questions import Ending, Operation, Question
from generator.numbered.choices import choice_number, chosen
from generator.numbered.seeds import Dice, key
from generator.operations.methods import written_working
from generator.operations.mistakes import mistakes_of
from generator.operations.order.questions import settled_in
from generator.operations.rungs import rung_set
from generator.packs.building import build_pack
from generator.packs.record import read_record, record
from generator.vocabulary import VOCABULARY
from specs import read_spec
from specs.problems import SpecError
from tests.generator.ladders import questions, rung, spec


def decimals(most_places: int, below: int, end_zero: bool = False) -> list[str]:
    """All decimals with so many places at most, as text; none ends in a nought after the point."""
    found = []
    for places in range(most_places + 1):
        for units in range(1, below * 10**places):
            text = str(Number(units, places))
            if end_zero or not places or text[-1] != "0":
                found.append(text)
    return found


def places_of(text: str) -> int:
    return len(text.partition(".")[2])


def whole_of(text: str) -> int:
    return len(text.partition(".")[0].lstrip("0"))


def shown(*numbers: str, operation: Operation = Operation.ORDER, places: int = 0) -> Question:
    moved = operation in (Operation.MULTIPLY, Operation.DIVIDE)
    ending = Ending.MOVED if moved else Ending.EXACT
    return Question(operation, tuple(map(Number.parse, numbers)), ending, places)


# The sets, against brute force.

ORDER_RUNGS = [
    ("operation: order, numbers: 3, whole: 0, places: {ragged: [1, 2]}", {0}, {1, 2}, True, None),
    ("operation: order, numbers: 3, whole: 0, places: 1", {0}, {1}, None, None),
    ("operation: order, numbers: 3, whole: 1, places: {same: [0, 1]}", {1}, {0, 1}, False, None),
    (
        "operation: order, numbers: 3, whole: 0, places: {ragged: [1, 2]}, same_to: tenths",
        {0},
        {1, 2},
        True,
        1,
    ),
    (
        "operation: order, numbers: 3, whole: 1, places: {between: [0, 2]}, same_to: ones",
        {1},
        {0, 1, 2},
        None,
        0,
    ),
    ("operation: compare, whole: 0, places: {ragged: [1, 3]}", {0}, {1, 2, 3}, True, None),
    (
        "operation: compare, whole: 0, places: {ragged: [1, 3]}, same_to: hundredths",
        {0},
        {1, 2, 3},
        True,
        2,
    ),
    *(
        (
            f"operation: compare, places: {{{alike}: [{min(lengths)}, {max(lengths)}]}}, "
            f"whole: {{between: [{min(wholes)}, {max(wholes)}]}}, zeros: {{end: allow}}{same_to}",
            wholes,
            lengths,
            {"between": None, "ragged": True, "same": False}[alike],
            shared,
        )
        for alike, wholes, lengths, same_to, shared in [
            ("between", {0, 1}, {1, 2}, ", same_to: tenths", 1),
            ("ragged", {0, 1}, {0, 1, 2}, ", same_to: ones", 0),
            ("same", {1, 2}, {1, 2}, ", same_to: tenths", 1),
            ("between", {0}, {1, 2, 3}, ", same_to: hundredths", 2),
            ("between", {0, 1}, {1, 2}, "", None),
        ]
    ),
]


@pytest.mark.parametrize(("text", "wholes", "lengths", "ragged", "shared"), ORDER_RUNGS)
@pytest.mark.slow
def test_every_set_of_numbers_to_be_ordered_is_counted(text, wholes, lengths, ragged, shared):
    numbers = 2 if "compare" in text else 3
    below = 10 ** max(1, *wholes)
    universe = [
        d
        for d in decimals(max(lengths), below, end_zero="zeros" in text)
        if places_of(d) in lengths and whole_of(d) in wholes
    ]
    sharing: dict[str, list[str]] = {}
    for decimal in universe:
        whole, _, part = decimal.partition(".")
        if shared is not None and len(part) < shared:
            continue
        sharing.setdefault("" if shared is None else whole + part[:shared], []).append(decimal)
    count = 0
    for alike in sharing.values():
        for choice in combinations(alike, numbers):
            same = len({places_of(d) for d in choice}) == 1
            count += ragged is None or ragged is not same
    assert questions(text).count == count


@pytest.mark.parametrize("text", [text for text, *_ in ORDER_RUNGS])
def test_questions_have_numbers_and_back(text):
    found = questions(text)
    step = max(1, found.count // 300)
    seen = set()
    for number in range(0, found.count, step):
        question = found.unrank(number)
        assert found.rank(question) == number
        assert found.rank(found.arranged(question, Dice(key(number)))) == number
        seen.add(question.identity)
    assert len(seen) == len(range(0, found.count, step))


def test_one_number_written_in_two_ways_is_compared_where_noughts_may_end_it():
    rung_of = "operation: compare, places: {between: [1, 2]}, whole: {between: [0, 1]}"
    found = questions(f"{rung_of}, zeros: {{end: allow}}, same_to: tenths")
    assert found.count == 5481  # by hand: 99 beginnings of C(11, 2), and C(9, 2) after 0.0
    assert shown("0.5", "0.50", operation=Operation.COMPARE) in found
    assert shown("0.5", "0.50", operation=Operation.COMPARE) not in questions(
        f"{rung_of}, same_to: tenths"
    )


def rounds_as_asked(text: str, places: int, up: bool | None, nine: bool | None) -> bool:
    """Whether a decimal rounds as a rung asks, by its digits as text."""
    digits = text.replace(".", "")
    point = text.index(".")
    kept, deciding = digits[point + places - 1], digits[point + places]
    goes_up = deciding >= "5"
    carried = goes_up and kept == "9"
    return (up is None or up is goes_up) and (nine is None or nine is carried)


@pytest.mark.parametrize(
    ("text", "places", "up", "nine"),
    [
        ("operation: round, places: 3, whole: 1, to: tenths", 1, None, None),
        ("operation: round, places: 3, whole: 1, to: hundredths, goes: up", 2, True, None),
        ("operation: round, places: 3, whole: 1, to: tenths, over_nine: require", 1, None, True),
        ("operation: round, places: 2, whole: 2, to: ones, goes: down", 0, False, None),
        ("operation: round, places: 2, whole: 2, to: ones, over_nine: forbid", 0, None, False),
    ],
)
def test_every_number_to_be_rounded_is_counted(text, places, up, nine):
    found = questions(text)
    whole = 2 if "whole: 2" in text else 1
    decimals_of = 3 if "places: 3" in text else 2
    universe = [
        str(Number(units, decimals_of))
        for units in range(10 ** (whole - 1 + decimals_of), 10 ** (whole + decimals_of))
        if units % 10
    ]
    expected = {text for text in universe if rounds_as_asked(text, places, up, nine)}
    assert found.count == len(expected)
    assert {str(found.unrank(n).operands[0]) for n in range(found.count)} == expected
    assert all(found.rank(found.unrank(n)) == n for n in range(0, found.count, 7))


@pytest.mark.parametrize(
    ("whole", "places", "to", "goes"),
    [
        (0, 3, -2, ""),
        (0, 3, -2, ", goes: down"),
        (0, 2, -1, ""),
        (0, 3, 0, ""),
        (0, 4, -2, ", over_nine: require"),
        (3, 0, 1, ""),
        (3, 0, 2, ""),
        (4, 0, 2, ", goes: down"),
        (3, 0, 1, ", over_nine: forbid"),
        (3, 1, 2, ""),
    ],
)
def test_all_are_rounded_but_to_nought_and_what_is_round_already(whole, places, to, goes):
    """Every number of a length, rounded by ``decimal``: 0.047 is about 0.05; 600 stays out."""
    found = questions(
        f"operation: round, to: [{COLUMN_NAMES[to]}], whole: {whole}, places: {places}{goes}"
    )
    step, least = Decimal(1).scaleb(to), 10 ** (whole - 1 + places) if whole else 1
    expected = set()
    for units in range(least, 10 ** (whole + places)):
        number = Decimal(units).scaleb(-places)
        steps = (number / step).quantize(Decimal(1), ROUND_HALF_UP)
        up, kept = steps * step > number, number // step
        if not steps or steps * step == number or (places and units % 10 == 0):
            continue
        nine = up and kept % 10 == 9
        wanted = {"down": not up, "require": nine, "forbid": not nine, "": True}
        if wanted[goes.rpartition(": ")[2]]:
            expected.add(str(Number(units, places)))
    assert {str(found.unrank(n).operands[0]) for n in range(found.count)} == expected
    assert found.count == len(expected)
    assert all(found.rank(found.unrank(n)) == n for n in range(found.count))


def test_numbers_whose_digits_move_are_counted():
    found = questions("operation: multiply, power_of_ten: {by: [ten, hundred], places: [1, 2]}")
    numbers = [d for d in decimals(2, 10) if places_of(d) and whole_of(d) < 2]
    assert found.count == 2 * len(numbers)
    assert {found.unrank(n).text for n in range(found.count)} == {
        f"{number} × {power}" for number in numbers for power in (10, 100)
    }
    assert all(found.rank(found.unrank(n)) == n for n in range(found.count))


def test_beside_a_power_of_ten_no_other_condition_has_a_meaning():
    words = {
        "multiply": "digits: 1\ncarries: none\nzeros: {end: require}\nanswer: {below: 5}",
        "divide": "divisor: 7\nending: remainder\nquotient: {digits: 2}\nremainders: none",
    }
    for operation, beside in words.items():
        indented = "".join(f"    {line}\n" for line in beside.splitlines())
        text = (
            f"title: Beans\nladder:\n  r:\n    operation: {operation}\n"
            f"    power_of_ten: {{by: [ten]}}\n{indented}starter: {{r: 1}}\n"
        )
        with pytest.raises(SpecError) as caught:
            read_spec(text.encode(), "beans.yaml", VOCABULARY)
        assert [str(problem) for problem in caught.value.problems] == [
            f"beans.yaml:{line}: '{word.partition(':')[0]}' has no meaning beside 'power_of_ten'; "
            "leave it out"
            for line, word in enumerate(beside.splitlines(), start=6)
        ]


@pytest.mark.parametrize("operation", ["multiply", "divide"])
def test_mistakes_are_told_apart_where_digits_move(operation):
    conditions = f"operation: {operation}, power_of_ten: {{by: ten}}"
    mistakes = [m.name for m in mistakes_of(Operation(operation))]
    apart = rung(f"{conditions}, tells_apart: [{mistakes[0]}]")
    assert rung_set(apart).count == questions(conditions).count > 0


@given(st.integers(2, 60), st.integers(1, 5), st.data())
def test_choices_are_numbered_without_gaps(among, size, data):
    size = min(size, among)
    things = data.draw(st.sets(st.integers(0, among - 1), min_size=size, max_size=size))
    assert set(chosen(choice_number(things), size, among)) == things


# Answers and workings.


@pytest.mark.parametrize(
    ("question", "answer"),
    [
        (shown("0.5", "0.45", "0.405"), "0.405, 0.45, 0.5"),
        (shown("0.45", "0.5", operation=Operation.COMPARE), "<"),
        (shown("0.5", "0.50", operation=Operation.COMPARE), "="),
        (shown("12.3", "1.99", operation=Operation.COMPARE), ">"),
        (shown("3.4729", operation=Operation.ROUND, places=2), "3.47"),
        (shown("3.996", operation=Operation.ROUND, places=2), "4.00"),
        (shown("99.5", operation=Operation.ROUND, places=0), "100"),
        (shown("250.1", operation=Operation.ROUND, places=-2), "300"),
        (shown("3.45", "100", operation=Operation.MULTIPLY), "345"),
        (shown("0.07", "10", operation=Operation.MULTIPLY), "0.7"),
        (shown("3.4", "1000", operation=Operation.DIVIDE), "0.0034"),
        (shown("340", "10", operation=Operation.DIVIDE), "34"),
    ],
)
def test_answers(question, answer):
    assert question.answer_text == answer
    assert written_working(question).agrees_with(question)


numbers = st.builds(Number, st.integers(1, 99_999), st.integers(0, 4))


@given(st.lists(numbers, min_size=2, max_size=6, unique_by=lambda n: n.value))
def test_numbers_stand_in_order_in_the_working(operands):
    question = Question(Operation.ORDER, tuple(operands))
    working = written_working(question)
    expected = sorted((str(n) for n in operands), key=Decimal)
    assert question.answer_text.split(", ") == expected
    assert read_rows(working)[-len(operands) :] == expected
    assert working.agrees_with(question)


def read_rows(working) -> list[str]:
    """The numbers that stand in the rows in the ink of answers, from the top."""
    rows: dict[int, dict[int, str]] = {}
    for mark in working.marks():
        if mark.ink == "answer":
            rows.setdefault(mark.row, {})[mark.column] = mark.text
    points = {point.row: point.column for point in working.points() if point.ink == "answer"}
    found = []
    for row in sorted(rows):
        marks = rows[row]
        text = "".join(
            marks[column] + ("." if points.get(row) == column else "") for column in sorted(marks)
        )
        found.append(text)
    return found


@given(numbers, st.integers(-2, 3))
def test_rounding_agrees_with_decimal(number, places):
    if number.places <= places or number.top_place < -places:
        return
    question = Question(Operation.ROUND, (number,), places=places)
    step = Decimal(1).scaleb(-places)
    rounded = (Decimal(str(number)) / step).quantize(Decimal(1), ROUND_HALF_UP) * step
    assert Decimal(question.answer_text) == rounded
    working = written_working(question)
    assert read_rows(working) == [question.answer_text]
    assert working.agrees_with(question)


@given(numbers, st.sampled_from([1, 2, 3]), st.sampled_from([Operation.MULTIPLY, Operation.DIVIDE]))
def test_moved_digits_agree_with_decimal(number, power, operation):
    question = Question(operation, (number.trimmed(), Number(10**power)), Ending.MOVED)
    moved = Decimal(str(number)).scaleb(power if operation is Operation.MULTIPLY else -power)
    assert Decimal(question.answer_text) == moved
    working = written_working(question)
    assert read_rows(working) == [str(question.answer)]
    assert working.agrees_with(question)


def test_the_steps_of_ordering_go_from_column_to_column():
    said = [step.sentence for step in written_working(shown("0.5", "0.45", "0.405")).steps]
    assert said == [
        "Set the numbers out with the points in line. Noughts fill the empty places.",
        "Ones: 0, 0 and 0. All the same: look one column further to the right.",
        "Tenths: 5, 4 and 4. 4 tenths are less than 5 tenths. 0.45 and 0.405 are still alike.",
        "Hundredths: 5 for 0.45 and 0 for 0.405. 0 hundredths are less than 5 hundredths.",
        "In order, smallest first: 0.405, 0.45, 0.5.",
    ]


def test_the_steps_of_rounding():
    said = [
        step.sentence
        for step in written_working(shown("3.96", operation=Operation.ROUND, places=1)).steps
    ]
    assert said == [
        "Round to the tenths: the digit to look at is the next one, the hundredths.",
        "The hundredths digit is 6: 5 or more, so round up.",
        "9 tenths + 1 tenth = 10 tenths = 1 one and 0 tenths: write 0, carry 1 to the ones.",
        "3 ones + 1 one carried = 4 ones: write 4.",
        "To 1 decimal place, 3.96 is about 4.0.",
    ]


def test_the_steps_of_moving_digits():
    said = [
        step.sentence
        for step in written_working(shown("3.4", "100", operation=Operation.DIVIDE)).steps
    ]
    assert said == [
        "Set 3.4 out in its columns.",
        "÷ 100: each digit moves 2 columns to the right, and the point stays where it is.",
        "3 ones become 3 hundredths.",
        "4 tenths become 4 thousandths.",
        "Write noughts in the empty ones and tenths columns.",
    ]


def test_where_an_order_is_settled():
    assert settled_in(shown("0.45", "0.405").operands) == -2
    assert settled_in(shown("0.5", "0.50").operands) is None
    assert settled_in(shown("12", "9.5", "9.45").operands) == -1


# In a pack.

LADDER = """
order: {operation: order, numbers: 4, places: {ragged: [1, 3]}, same_to: ones}
compare: {operation: compare, zeros: {end: allow}}
round: {operation: round, to: [tenths, ones]}
up: {operation: multiply, power_of_ten: {by: [ten, hundred]}}
down: {operation: divide, power_of_ten: {by: ten, places: [0, 2]}}
"""
SECTIONS = (
    "examples: [order, round, down]\n"
    "tiers:\n  core: {order: 3, compare: 4, round: 3, up: 3, down: 3}\n"
)


@pytest.mark.parametrize("seed", range(4))
def test_a_pack_of_numbers(seed):
    read = spec(LADDER, SECTIONS)
    pack = build_pack(read, seed, versions=3)
    asked = [item.question.identity for s in pack.sections for item in s.items]
    assert len(asked) == len(set(asked))
    for section in pack.sections:
        for item in section.items:
            assert item.question in rung_set(read.rung(item.rung))
            if item.question.operation is Operation.ORDER:
                assert list(item.question.operands) != list(item.question.in_order)
    first, second, third = (s for s in pack.sections if s.kind == "practice")
    for slot in zip(first.items, second.items, third.items, strict=True):
        assert len({(item.signature, item.matched) for item in slot}) == 1


@pytest.mark.parametrize("seed", range(6))
def test_versions_are_settled_in_the_same_column_or_say_so(seed):
    """Worked again on text: the right-most column at which two neighbours in order differ."""

    def settled(question: Question) -> int:
        padded = sorted(f"{Decimal(str(n)):08.4f}" for n in question.operands)
        return max(
            next(at for at, (a, b) in enumerate(zip(one, other, strict=True)) if a != b)
            for one, other in pairwise(padded)
        )

    ladder = "loose: {operation: order, numbers: 4}\nfew: {operation: order, numbers: 3, places: 1}"
    read = spec(ladder, "tiers:\n  core: {loose: 4, few: 4}\n")
    first, *later = build_pack(read, seed, versions=6).sections
    said = set()
    for section in later:
        for item, other in zip(first.items, section.items, strict=True):
            said.add(other.matched)
            if not other.matched:
                assert settled(other.question) == settled(item.question)
    assert said <= {"", "matched in lengths only"}
    assert "" in said


def test_what_cannot_match_in_its_column_says_that_it_matches_in_lengths():
    """0.5 and 0.50 are equal: there are nine such pairs, and twelve versions."""
    text = "near: {operation: compare, whole: 0, zeros: {end: allow}, same_to: tenths, "
    read = spec(f"{text}places: {{ragged: [1, 2]}}}}", "tiers:\n  core: {near: 6}\n")
    said = set()
    for seed in range(8):
        first, *later = build_pack(read, seed, versions=12).sections
        for section in later:
            for item, other in zip(first.items, section.items, strict=True):
                equal = {i.question.answer_text == "=" for i in (item, other)}
                said.add((len(equal), other.matched))
    assert said >= {(1, ""), (2, "matched in lengths only")}
    assert (2, "") not in said


def test_the_record_of_such_questions_is_read_back():
    pack = build_pack(spec(LADDER, SECTIONS), 2)
    plain = record(pack)
    answers = {q["operation"]: q["answer"] for s in plain["sections"] for q in s["questions"]}
    assert answers["compare"] in "<=>"
    assert answers["order"].count(",") == 3
    back = read_record(plain)
    assert list(back.questions) == [i.question for s in pack.sections for i in s.items]


def test_a_rung_that_cannot_be_is_refused_by_its_count():
    assert questions("operation: round, places: 1, to: hundredths").count == 0
    assert questions("operation: round, places: 0, whole: 2, to: hundreds").count == 0
    assert questions("operation: order, numbers: 3, places: 1, same_to: tenths").count == 0


def test_words_go_with_their_operations():
    with pytest.raises(SpecError, match="'same_to' is not a word of 'operation: round'"):
        rung("operation: round, same_to: ones")
    with pytest.raises(SpecError, match="'to' cannot be 'tenth'"):
        rung("operation: round, to: tenth")


@pytest.mark.parametrize("whole", [1, 2, 3])
def test_the_number_that_ends_where_all_are_alike_is_there_once(whole: int) -> None:
    """625.2 among 625.21, 625.28, …: one number of one place, nine of two."""
    text = f"operation: order, numbers: 5, places: {{between: [1, 2]}}, whole: {whole}"
    found = rung_set(rung(f"{text}, same_to: tenths"))
    beginnings = 9 * 10 ** (whole - 1)
    with_one_place = 9 * beginnings * (comb(9, 5) + comb(9, 4))
    assert found.count == with_one_place + beginnings * comb(9, 5)
    for number in range(0, found.count, found.count // 97):
        question = found.unrank(number)
        assert len(set(question.operands)) == 5
        assert found.rank(question) == number
