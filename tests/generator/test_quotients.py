"""Divisions: exactly those on the rung, counted, fetched and found again."""

from collections.abc import Callable, Iterator
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.methods import written_working
from generator.operations.quotients.questions import QuotientSignature, signature_of
from generator.operations.rungs import rung_set
from generator.operations.working import Ink
from generator.packs.building import build_pack
from generator.packs.conflicts import conflicts
from specs import SpecError
from tests.generator import oracle_products as oracle
from tests.generator.ladders import questions, rung, spec


def dividends(digits: range, after: range) -> Iterator[str]:
    """Every dividend with so many digits and places, in text: no decimal ends in nought."""
    for length in digits:
        for units in range(10 ** (length - 1), 10**length):
            for p in after:
                text = str(units).rjust(p + 1, "0")
                if not p:
                    yield text
                elif units % 10:
                    yield f"{text[:-p]}.{text[-p:]}"


def divisors(units: range | list[int], after: range = range(1)) -> list[str]:
    """Divisors in text: no decimal ends in nought."""
    found = []
    for number in units:
        for p in after:
            text = str(number).rjust(p + 1, "0")
            if not p:
                found.append(text)
            elif number % 10:
                found.append(f"{text[:-p]}.{text[-p:]}")
    return found


ONE_DIGIT = divisors(range(2, 10))
TWO_DIGITS = divisors(range(11, 100))


def is_exact(dividend: str, divisor: str) -> bool:
    """Whether nothing is left over after the dividend's last digit."""
    return oracle.divide(dividend, divisor).left == 0


def leaves(dividend: str, divisor: str) -> bool:
    """Whether the whole quotient is not nought and something is left over."""
    worked = oracle.divide(dividend, divisor)
    return worked.left > 0 and worked.quotient != ""


def scaled_places(dividend: str, divisor: str) -> int:
    """The dividend's places once the divisor is whole."""
    return max(oracle.places(dividend) - oracle.places(divisor), 0)


def carried_on(dividend: str, divisor: str) -> int | None:
    """For how many places a division is carried on until nothing is left over."""
    needed = oracle.places_needed(oracle.exact(dividend, divisor))
    if needed is None or is_exact(dividend, divisor):
        return None
    return needed - scaled_places(dividend, divisor)


def goes_beyond(dividend: str, divisor: str, places: int) -> bool:
    """Whether a quotient does not end within so many places, and is not nought to there."""
    value = oracle.exact(dividend, divisor) * 10**places
    return value.denominator > 1 and value >= 1


def cut(dividend: str, places: int) -> str:
    """A decimal with no more than so many places; the rest is left out."""
    whole, _, part = dividend.partition(".")
    return f"{whole}.{part[:places]}" if places else whole


def noughts(dividend: str, divisor: str, more: int = 0) -> bool:
    """Whether the quotient has a nought after its first digit."""
    return "0" in oracle.divide(dividend, divisor, more).quotient


def passed(dividend: str, divisor: str, more: int = 0) -> int:
    """How many remainders are handed to the next column."""
    return sum(held > 0 for held in oracle.divide(dividend, divisor, more).passed)


def every_passed(dividend: str, divisor: str) -> bool:
    """Whether each column but the last hands one on, and there is one that does."""
    held = oracle.divide(dividend, divisor).passed
    return len(held) > 0 and all(held)


Meets = Callable[[str, str], bool]

RUNGS: list[tuple[str, range, range, list[str], Meets]] = [
    ("dividend: {digits: [1, 3]}", range(1, 4), range(1), ONE_DIGIT, is_exact),
    ("divisor: {digits: 2}, dividend: {digits: 3}", range(3, 4), range(1), TWO_DIGITS, is_exact),
    ("divisor: [12, 5, 1, 10], dividend: {digits: [2, 3]}", range(2, 4), range(1),
     divisors([1, 5, 10, 12]), is_exact),
    ("divisor: {between: [8, 12]}", range(2, 4), range(1), divisors([8, 9, 11, 12]), is_exact),
    ("divisor: 7, ending: remainder", range(2, 4), range(1), ["7"], leaves),
    ("divisor: {digits: 2}, dividend: {digits: [1, 3]}, ending: fraction", range(1, 4), range(1),
     TWO_DIGITS, leaves),
    ("remainders: none", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: is_exact(n, d) and passed(n, d) == 0),
    ("remainders: some, ending: remainder", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: leaves(n, d) and passed(n, d) > 0),
    ("remainders: every, ending: remainder", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: leaves(n, d) and every_passed(n, d)),
    ("remainders: every, dividend: {digits: 4}", range(4, 5), range(1), ONE_DIGIT,
     lambda n, d: is_exact(n, d) and every_passed(n, d)),
    ("remainders: {count: [1, 2]}, dividend: {digits: 4}, divisor: [3, 11, 12]", range(4, 5),
     range(1), divisors([3, 11, 12]), lambda n, d: is_exact(n, d) and 1 <= passed(n, d) <= 2),
    ("zero_in_quotient: require, dividend: {digits: 4}", range(4, 5), range(1), ONE_DIGIT,
     lambda n, d: is_exact(n, d) and noughts(n, d)),
    ("zero_in_quotient: require, ending: remainder", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: leaves(n, d) and noughts(n, d)),
    ("zero_in_quotient: forbid, ending: remainder", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: leaves(n, d) and not noughts(n, d)),
    ("quotient: {digits: 2}, dividend: {digits: [2, 4]}", range(2, 5), range(1), ONE_DIGIT,
     lambda n, d: is_exact(n, d) and len(oracle.divide(n, d).quotient) == 2),
    ("zeros: {inside: require}", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: is_exact(n, d) and "0" in n.rstrip("0")),
    ("zeros: {inside: require}, dividend: {digits: [1, 3]}, places: {between: [1, 3]}",
     range(1, 4), range(1, 4), ONE_DIGIT,
     lambda n, d: is_exact(n, d) and oracle.inside_nought(n)),
    ("zeros: {inside: forbid}, dividend: {digits: [1, 3]}, places: {between: [1, 3]}",
     range(1, 4), range(1, 4), ONE_DIGIT,
     lambda n, d: is_exact(n, d) and not oracle.inside_nought(n)),
    ("zeros: {inside: forbid, end: forbid}, dividend: {digits: [1, 4]}", range(1, 5), range(1),
     ONE_DIGIT, lambda n, d: is_exact(n, d) and "0" not in n),
    ("zeros: {end: require}, places: {between: [0, 1]}", range(2, 4), range(2), ONE_DIGIT,
     lambda n, d: is_exact(n, d) and "." not in n and n.endswith("0")),
    ("places: {between: [0, 3]}", range(2, 4), range(4), ONE_DIGIT, is_exact),
    ("places: {between: [0, 2]}, divisor_places: {between: [0, 2]}, divisor: [2, 6, 12, 30]",
     range(2, 4), range(3), divisors([2, 6, 12, 30], range(3)), is_exact),
    ("divisor_places: 2, divisor: {digits: 2}, dividend: {digits: [1, 2]}, places: 1",
     range(1, 3), range(1, 2), divisors(range(11, 100), range(2, 3)), is_exact),
    ("divisor_places: 1, places: {between: [0, 1]}, remainders: every, zero_in_quotient: forbid",
     range(2, 4), range(2), divisors(range(2, 10), range(1, 2)),
     lambda n, d: is_exact(n, d) and every_passed(n, d) and not noughts(n, d)),
    ("ending: {decimal: 1}", range(2, 4), range(1), ONE_DIGIT, lambda n, d: carried_on(n, d) == 1),
    ("ending: {decimal: 3}, dividend: {digits: [1, 2]}, divisor: {between: [2, 40]}", range(1, 3),
     range(1), [d for d in divisors(range(2, 41)) if d != "10"],
     lambda n, d: carried_on(n, d) in (1, 2, 3)),
    ("ending: {decimal: 2}, places: {between: [0, 2]}, divisor_places: {between: [0, 1]}, "
     "divisor: [4, 8, 15]", range(2, 4), range(3), divisors([4, 8, 15], range(2)),
     lambda n, d: carried_on(n, d) in (1, 2)),
    ("ending: {decimal: 2}, remainders: {count: 2}, zero_in_quotient: require", range(2, 4),
     range(1), ONE_DIGIT,
     lambda n, d: (more := carried_on(n, d)) in (1, 2)
     and passed(n, d, more or 0) == 2 and noughts(n, d, more or 0)),
    ("ending: {decimal: 2}, quotient: {digits: 3}", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: (more := carried_on(n, d)) in (1, 2)
     and len(oracle.divide(n, d, more or 0).quotient) == 3),
    ("ending: {rounded: 0}, dividend: {digits: 2}", range(2, 3), range(1), ONE_DIGIT,
     lambda n, d: goes_beyond(n, d, 0)),
    ("ending: {rounded: 2}, places: {between: [0, 3]}, divisor: [3, 8, 27]", range(2, 4),
     range(4), divisors([3, 8, 27]), lambda n, d: goes_beyond(n, d, 2)),
    ("ending: {rounded: 1}, divisor_places: {between: [1, 2]}, places: {between: [0, 2]}, "
     "divisor: [7, 12]", range(2, 4), range(3), divisors([7, 12], range(1, 3)),
     lambda n, d: goes_beyond(n, d, 1)),
    ("ending: {rounded: 1}, remainders: {count: 2}, quotient: {digits: [2, 3]}, "
     "zero_in_quotient: require", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: goes_beyond(n, d, 1) and noughts(n, d, 1)
     and sum(held > 0 for held in oracle.divide(n, d, 2).passed) == 2
     and 2 <= len(oracle.divide(n, d, 1).quotient) <= 3),
    ("ending: {rounded: 0}, places: {between: [1, 2]}, dividend: {digits: [2, 4]}, "
     "divisor: [4, 12]",
     range(2, 5), range(1, 3), divisors([4, 12]), lambda n, d: goes_beyond(n, d, 0)),
    ("ending: {rounded: 1}, places: 2, dividend: {digits: [3, 4]}, remainders: {count: 2}, "
     "zero_in_quotient: require, zeros: {inside: forbid}, quotient: {digits: [2, 3]}, "
     "answer: {below: 60}", range(3, 5), range(2, 3), ONE_DIGIT,
     lambda n, d: goes_beyond(n, d, 1) and noughts(cut(n, 1), d) and passed(n, d) == 2
     and not oracle.inside_nought(n) and 2 <= len(oracle.divide(cut(n, 1), d).quotient) <= 3
     and oracle.exact(n, d) < 60),
    ("answer: {above: 20, below: 40}, ending: remainder", range(2, 4), range(1), ONE_DIGIT,
     lambda n, d: leaves(n, d) and 20 < oracle.exact(n, d) < 40),
    ("answer: {between: [1.5, 25]}, places: {between: [0, 2]}, divisor_places: {between: [0, 1]}",
     range(2, 4), range(3), divisors(range(2, 10), range(2)),
     lambda n, d: is_exact(n, d) and Fraction(3, 2) <= oracle.exact(n, d) <= 25),
    ("answer: {above: 8}, dividend: {digits: [1, 2]}, zeros: {inside: forbid}", range(1, 3),
     range(1), ONE_DIGIT, lambda n, d: is_exact(n, d) and oracle.exact(n, d) > 8),
]  # fmt: skip


@pytest.mark.parametrize(("text", "digits", "after", "by", "meets"), RUNGS)
@pytest.mark.slow
def test_divisions_are_exactly_those_that_meet_the_conditions(
    text: str, digits: range, after: range, by: list[str], meets: Meets
) -> None:
    found = questions(f"operation: divide, {text}")
    expected = {(n, d) for n in dividends(digits, after) for d in by if meets(n, d)}
    asked = [found.unrank(number) for number in range(found.count)]
    assert found.count == len(expected) > 0
    assert {tuple(map(str, question.operands)) for question in asked} == expected
    step = 1 + len(asked) // 400
    assert [found.rank(question) for question in asked[::step]] == list(range(0, len(asked), step))


def test_a_dividend_may_have_more_places_than_its_rounded_quotient() -> None:
    """13.57 ÷ 4 = 3.3925 is 3.4 to one place; the 7 is divided too, to see which way."""
    found = questions(
        "operation: divide, ending: {rounded: 1}, places: {between: [2, 3]}, "
        "dividend: {digits: [4, 5]}"
    )
    for text, answer, worked in (("13.57", "3.4", "339"), ("13.578", "3.4", "339")):
        asked = Question(
            Operation.DIVIDE, (Number.parse(text), Number(4)), Ending.ROUNDED, places=1
        )
        assert asked in found
        working = written_working(asked)
        above = [m.text for m in working.marks() if m.row == 0 and m.ink is Ink.PARTIAL]
        assert (str(working.answer), "".join(above)) == (answer, worked)
        assert found.unrank(found.rank(asked)) == asked
        assert asked in found.matching(found.signature(asked), 0)


# Department for Education, "National curriculum in England: mathematics programmes of study",
# Appendix 1, DFE-00180-2013; the numbers are from memory. The remainders handed on are by hand:
# 43 ÷ 5 = 8 and 3 over before the 2; 43 ÷ 15 = 2 and 13 over, 132 ÷ 15 = 8 and 12 over.
ENGLAND = [
    ("remainders: every", "98", "7", "14", "divide digits 2 1; places 0 0; quotient nrn; exact"),
    ("remainders: every, ending: remainder", "432", "5", "86 r 2",
     "divide digits 3 1; places 0 0; quotient nrn; remainder"),
    ("divisor: {digits: 2}, remainders: {count: 1}, ending: remainder", "496", "11", "45 r 1",
     "divide digits 3 2; places 0 0; quotient nrn; remainder"),
    ("divisor: [15], remainders: every, ending: remainder", "432", "15", "28 r 12",
     "divide digits 3 2; places 0 0; quotient nrn; remainder"),
    ("divisor: {digits: 2}, quotient: {digits: 2}, ending: fraction", "432", "15", "28 4/5",
     "divide digits 3 2; places 0 0; quotient nrn; fraction that cancels"),
    ("divisor: {digits: 2}, quotient: {digits: 3}, ending: {decimal: 1}", "432", "15", "28.8",
     "divide digits 3 2; places 0 0; quotient nrnrn; decimal 1"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "dividend", "divisor", "answer", "signature"), ENGLAND)
def test_the_england_appendix(
    text: str, dividend: str, divisor: str, answer: str, signature: str
) -> None:
    found = questions(f"operation: divide, {text}")
    ending = found.unrank(0).ending
    numbers = (Number.parse(dividend), Number.parse(divisor))
    asked = Question(Operation.DIVIDE, numbers, ending, 0)
    assert asked.answer_text == answer
    assert str(signature_of(asked)) == signature
    assert found.unrank(found.rank(asked)) == asked
    for step in range(len(found.widenings)):
        assert asked in found.matching(found.signature(asked), step)


@pytest.mark.parametrize("divisor", [2, 3, 7, 9, 12, 25, 99])
def test_exact_quotients_are_as_many_as_the_multiples(divisor: int) -> None:
    for digits in (2, 4, 6):
        multiples = (10**digits - 1) // divisor - (10 ** (digits - 1) - 1) // divisor
        text = f"operation: divide, divisor: {divisor}, dividend: {{digits: {digits}}}"
        assert questions(text).count == multiples
        left = questions(f"{text}, ending: remainder").count
        assert left == 9 * 10 ** (digits - 1) - multiples - max(divisor - 10 ** (digits - 1), 0)


def test_a_tenth_of_the_rest_is_carried_on_for_each_place() -> None:
    """Divided by 8, a whole number ends at once or within three places: 1, 1, 2, 4 in eight."""
    text = "operation: divide, divisor: 8, dividend: {digits: 4}"
    counts = [questions(f"{text}, ending: {{decimal: {n}}}").count for n in (1, 2, 3, 4)]
    assert [questions(text).count, *counts] == [1125, 1125, 3 * 1125, 7 * 1125, 7 * 1125]


LARGE = [
    "operation: divide",
    "operation: divide, divisor: {digits: 2}, dividend: {digits: 4}, remainders: every, "
    "ending: remainder",
    "operation: divide, divisor: {between: [2, 30]}, dividend: {digits: [2, 5]}, "
    "places: {between: [0, 2]}, divisor_places: {between: [0, 2]}, zero_in_quotient: require",
    "operation: divide, dividend: {digits: 8}, remainders: {count: [3, 6]}, ending: {decimal: 3}",
    "operation: divide, divisor: [3, 6, 7, 11], dividend: {digits: [2, 4]}, places: 1, "
    "ending: {rounded: 2}, answer: {between: [1, 50]}, zeros: {inside: require}",
]  # fmt: skip


@pytest.mark.parametrize("text", LARGE)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_rank_undoes_unrank_and_the_answer_is_that_of_fractions(
    text: str, data: st.DataObject
) -> None:
    found = questions(text)
    number = data.draw(st.integers(0, found.count - 1))
    asked = found.unrank(number)
    assert found.rank(asked) == number
    dividend, divisor = (Fraction(str(operand)) for operand in asked.operands)
    left = asked.remainder.value if asked.remainder else Fraction(0)
    if asked.ending is Ending.ROUNDED:
        assert 0 < abs(asked.answer.value - dividend / divisor) <= Fraction(1, 200)
        assert asked.answer.places == 2
    else:
        assert asked.answer.value * divisor + left == dividend
        assert 0 <= left < divisor
        assert (left > 0) is (asked.ending is Ending.REMAINDER)


@pytest.mark.parametrize("text", LARGE)
@settings(max_examples=8, deadline=None)
@given(data=st.data())
def test_matched_questions_have_the_same_signature(text: str, data: st.DataObject) -> None:
    found = questions(text)
    asked = found.unrank(data.draw(st.integers(0, found.count - 1)))
    signature = found.signature(asked)
    assert isinstance(signature, QuotientSignature)
    more = {Ending.DECIMAL: signature.more, Ending.ROUNDED: 2}.get(asked.ending, 0)
    if asked.ending is Ending.ROUNDED:
        more -= max(asked.operands[0].places - asked.operands[1].places, 0)
    dividend, divisor = map(str, asked.operands)
    worked = oracle.divide(dividend, divisor, more)
    assert signature.noughts == worked.quotient.count("0")
    handed_on = sum(held > 0 for held in worked.passed)
    assert signature.passed == handed_on + (asked.ending is Ending.ROUNDED)
    matched = found.matching(signature, 0)
    other = matched.unrank(data.draw(st.integers(0, matched.count - 1)))
    assert found.signature(other) == signature
    assert other in found
    counts = [found.matching(signature, step).count for step in range(len(found.widenings))]
    assert 0 < counts[0] <= counts[1] <= counts[2] <= counts[3] == found.count


@pytest.mark.parametrize(
    "text",
    [
        "dividend: {digits: [2, 4]}, remainders: some",
        "divisor: {digits: 2}, dividend: {digits: 4}, ending: remainder",
        "places: {between: [0, 2]}, divisor_places: {between: [0, 1]}, ending: {decimal: 2}",
        "places: {between: [0, 1]}, ending: {rounded: 2}",
    ],
)
def test_the_written_method_hands_on_as_many_remainders(text: str) -> None:
    """Of a quotient below 1 the method shows those before its first digit too."""
    found = questions(f"operation: divide, {text}, answer: {{above: 1}}")
    for number in range(0, found.count, 1 + found.count // 150):
        asked = found.unrank(number)
        marks = [mark for step in written_working(asked).steps for mark in step.marks]
        handed_on = sum(mark.ink is Ink.CARRIED_ON for mark in marks)
        assert handed_on == signature_of(asked).passed, asked.text


def test_signatures_share_out_a_rung() -> None:
    found = questions(
        "operation: divide, dividend: {digits: [1, 3]}, places: {between: [0, 1]}, "
        "ending: {decimal: 2}"
    )
    signatures = {found.signature(found.unrank(number)) for number in range(found.count)}
    assert sum(found.matching(s, 0).count for s in signatures) == found.count


def test_a_question_off_the_rung_has_no_number() -> None:
    found = questions("operation: divide, remainders: every, ending: remainder")
    numbers = (Number(432), Number(5))
    assert Question(Operation.DIVIDE, numbers, Ending.REMAINDER) in found
    off = [
        Question(Operation.DIVIDE, numbers, Ending.FRACTION),
        Question(Operation.DIVIDE, (Number(430), Number(5)), Ending.REMAINDER),
        Question(Operation.DIVIDE, (Number(432), Number(13)), Ending.REMAINDER),
        Question(Operation.DIVIDE, (Number(4321), Number(5)), Ending.REMAINDER),
        Question(Operation.DIVIDE, (Number(4321, 1), Number(5)), Ending.REMAINDER),
        Question(Operation.DIVIDE, (Number(0), Number(5)), Ending.REMAINDER),
        Question(Operation.MULTIPLY, numbers),
    ]
    for asked in off:
        assert asked not in found
    for number in (-1, found.count):
        with pytest.raises(IndexError):
            found.unrank(number)


def test_features_are_in_words() -> None:
    asked = Question(Operation.DIVIDE, (Number(84, 1), Number(16, 1)), Ending.DECIMAL)
    assert asked.answer_text == "5.25"
    assert signature_of(asked).features == (
        "divisor of 2 digits",
        "decimal divisor",
        "decimal dividend",
        "2 remainders carried",
        "carried on to 2 decimal places",
    )


# Bad and impossible rungs.


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("ending: remainder, places: 1", "a division of decimals does not end with a remainder"),
        ("ending: fraction, divisor_places: 1", "does not end with a fraction"),
        ("ending: {decimal: 1, rounded: 1}", "at once"),
        ("places: 5, ending: {decimal: 3}", "8 decimal places"),
        ("dividend: {digits: 8}, divisor_places: 2", "10 whole digits"),
        ("divisor: 100", "'divisor' cannot be 100"),
        ("carries: none", "'carries' is not a word of 'operation: divide'"),
    ],
)
def test_rungs_that_cannot_be_worked_are_refused(text: str, says: str) -> None:
    with pytest.raises(SpecError, match=says):
        rung(f"operation: divide, {text}")


def test_an_impossible_division_is_explained() -> None:
    asked = spec(
        "rung: {operation: divide, divisor: [5], ending: {rounded: 1}, zero_in_quotient: allow}"
    )
    ((found),) = conflicts(asked)
    assert found.what == (
        "no question of rung meets `divisor: [5]` and `ending: {rounded: 1}` together"
    )
    assert "with `ending: {rounded: 0}` there are" in found.instead


def test_a_division_is_the_same_to_a_pupil_however_it_ends() -> None:
    numbers = (Number(432), Number(15))
    by_remainder = Question(Operation.DIVIDE, numbers, Ending.REMAINDER)
    by_decimal = Question(Operation.DIVIDE, numbers, Ending.DECIMAL)
    assert by_remainder != by_decimal
    assert by_remainder.identity == by_decimal.identity


def test_matched_divisions_agree_in_whether_the_fraction_cancels():
    """267 ÷ 8 = 33 3/8 is not matched by 501 ÷ 9 = 55 6/9 = 55 2/3."""
    rung = (
        "{operation: divide, dividend: {digits: 3}, divisor: {between: [3, 9]}, ending: fraction}"
    )
    read = spec(f"fr: {rung}", "examples: {fr: 6}\ntiers:\n  core: {fr: 4}\n")
    for seed in range(8):
        for section in build_pack(read, seed, versions=3).sections:
            items = section.items
            if section.kind == "example":
                for shown, match in zip(items[::2], items[1::2], strict=True):
                    assert cancels(shown.question) is cancels(match.question)
        practice = [s for s in build_pack(read, seed, versions=3).sections if s.kind == "practice"]
        for slot in zip(*(s.items for s in practice), strict=True):
            assert len({cancels(item.question) for item in slot}) == 1


def cancels(question):
    dividend, divisor = (number.units for number in question.operands)
    left = dividend % divisor
    return Fraction(left, divisor).denominator < divisor


def test_fractions_that_cancel_and_those_that_do_not_are_counted():
    """Brute force over every dividend and divisor."""
    found = rung_set(
        spec("fr: {operation: divide, dividend: {digits: 2}, ending: fraction}").rung("fr")
    )
    every = [found.unrank(at) for at in range(found.count)]
    for question in every[::37]:
        signature = found.signature(question)
        same = found.matching(signature, 0)
        expected = {q for q in every if found.signature(q) == signature}
        assert {same.unrank(at) for at in range(same.count)} == expected
        assert all(cancels(q) is cancels(question) for q in expected)
