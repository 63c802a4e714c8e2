"""Missing numbers and digits: exactly one answer, and it is the one that the key gives.

Outside check: every hidden place is filled by trying, with ``decimal`` and ``fractions``.
"""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.boxes import DIGIT_BOX, NUMBER_BOX
from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.asking import CannotBeAskedError
from generator.forms.form import Turn, Written
from generator.forms.missing_digit import MissingDigit
from generator.forms.missing_number import MissingNumber
from generator.numbered.seeds import Dice, key
from generator.operations.methods import Conventions, written_working
from generator.packs.building import build_pack
from generator.packs.record import record
from specs.problems import SpecError
from specs.spec import RungSpec
from tests.asked import SIGNS, question
from tests.generator.ladders import questions, spec
from tests.worked import worked_item

ANY = RungSpec("any", "add", ())
"""What may be missing hangs on the question alone."""


@pytest.mark.parametrize(
    ("text", "form", "printed", "reply"),
    [
        ("3.4 + 0.27", MissingNumber(1), f"3.4 + {NUMBER_BOX} = 3.67", "0.27"),
        ("3.4 + 0.27", MissingDigit(0, -1), f"3.{DIGIT_BOX} + 0.27 = 3.67", "4"),
        ("3.4 + 0.27", MissingDigit(None, -2), f"3.4 + 0.27 = 3.6{DIGIT_BOX}", "7"),
        ("12 − 3.75", MissingDigit(0, 1), f"{DIGIT_BOX}2 − 3.75 = 8.25", "1"),
        ("12 − 3.75", MissingNumber(0), f"{NUMBER_BOX} − 3.75 = 8.25", "12"),
        ("0.5 × 0.04", MissingNumber(0), f"{NUMBER_BOX} × 0.04 = 0.02", "0.5"),
        ("98 ÷ 7", MissingNumber(1), f"98 ÷ {NUMBER_BOX} = 14", "7"),
        ("98 ÷ 7", MissingDigit(None, 0), f"98 ÷ 7 = 1{DIGIT_BOX}", "4"),
    ],
)
def test_the_box_stands_for_what_is_hidden(text, form, printed, reply):
    asked = question(text)
    assert form.asked(asked) == printed
    assert form.reply(asked) == reply
    assert form.fillings(asked) == 1


def test_a_remainder_stays_in_sight():
    asked = question("432 ÷ 5", Ending.REMAINDER)
    assert MissingDigit(0, 1).asked(asked) == f"4{DIGIT_BOX}2 ÷ 5 = 86 r 2"
    assert MissingDigit(None, 0).asked(asked) == f"432 ÷ 5 = 8{DIGIT_BOX} r 2"
    assert MissingNumber(1).fillings(asked) == 1


@pytest.mark.parametrize(
    ("asked", "form"),
    [
        (question("0 × 3.4"), MissingNumber(1)),  # any factor will do
        (question("0 × 3.4"), MissingDigit(1, -1)),
        (question("3 ÷ 8", Ending.REMAINDER), MissingNumber(1)),  # 0 r 3: any divisor over 3
        (Question(Operation.DIVIDE, (Number(7), Number(3)), Ending.ROUNDED, 2), MissingNumber(0)),
        (
            Question(Operation.DIVIDE, (Number(70000), Number(30)), Ending.ROUNDED, 0),
            MissingDigit(0, 0),
        ),
    ],
)
def test_what_fits_in_more_than_one_way_is_never_hidden(asked, form):
    assert form.fillings(asked) != 1


def arithmetic(text: str) -> Fraction:
    """A printed calculation, done by ``decimal`` (General Decimal Arithmetic, libmpdec)."""
    for sign in "+−×÷":
        numbers = text.split(f" {sign} ")
        if len(numbers) > 1:
            first, *others = (Fraction(Decimal(number)) for number in numbers)
            for other in others:
                first = {
                    "+": lambda a, b: a + b,
                    "−": lambda a, b: a - b,
                    "×": lambda a, b: a * b,
                    "÷": lambda a, b: a / b if b else Fraction(-1),
                }[sign](first, other)
            return first
    raise AssertionError(text)


numbers = st.builds(Number, st.integers(1, 9999), st.integers(0, 3))


@given(st.sampled_from("+−×"), st.lists(numbers, min_size=2, max_size=4), st.integers(0, 99))
def test_exactly_one_digit_makes_the_printed_calculation_true(sign, operands, seed):
    if sign == "−":
        operands = sorted(operands[:2], key=lambda number: number.value, reverse=True)
    asked = Question(SIGNS[sign], tuple(operands))
    form = MissingDigit.offered(asked, ANY, Turn(Dice(key(seed))))
    assert form is not None
    assert digits_that_fit(form.asked(asked)) == [form.reply(asked)]


def digits_that_fit(asked):
    """Every digit that makes a printed equation true, worked out from its text."""
    left, _, right = asked.partition(" = ")
    return [
        digit
        for digit in "0123456789"
        if arithmetic(left.replace(DIGIT_BOX, digit))
        == Fraction(Decimal(right.replace(DIGIT_BOX, digit)))
    ]


MOVES = "power_of_ten: {by: [ten, hundred, thousand], places: [0, 2], whole: [0, 1]}"


@pytest.mark.parametrize("sign", "×÷")
@pytest.mark.slow
def test_no_digit_is_missing_from_the_power_of_ten_by_which_digits_move(sign):
    found = questions(f"operation: {SIGNS[sign]}, {MOVES}")
    for number in range(0, found.count, 17):
        asked = found.unrank(number)
        forms = [
            MissingDigit.offered(asked, ANY, Turn(Dice(key("moved")), turn)) for turn in range(9)
        ]
        assert None not in forms
        for form in forms:
            left, *_ = form.asked(asked).partition(" = ")
            assert left.endswith(f" {sign} {asked.operands[1]}")
            assert digits_that_fit(form.asked(asked)) == [form.reply(asked)]
        for value in map(Number, range(0, 2001, 10)):  # no number tried there raises
            tried = MissingNumber(1).fillings(asked), MissingNumber(1).is_true(asked, value)
            assert tried == (1, value == asked.operands[1])


@given(st.integers(1, 999), st.integers(2, 99), st.integers(0, 99))
def test_a_missing_number_in_a_division_follows_from_the_others(quotient, divisor, seed):
    asked = Question(Operation.DIVIDE, (Number(quotient * divisor), Number(divisor)))
    form = MissingNumber.offered(asked, ANY, Turn(Dice(key(seed))))
    assert form is not None
    left, _, right = form.asked(asked).partition(" = ")
    found = left.replace(NUMBER_BOX, form.reply(asked))
    assert arithmetic(found) == Fraction(Decimal(right))


def test_every_number_may_be_missing():
    assert list(MissingNumber.everywhere(question("1.2 + 3.4"))) == [
        MissingNumber(0),
        MissingNumber(1),
    ]


@pytest.mark.parametrize(
    ("asked", "hidden", "lead"),
    [
        ("3.4 + 0.27", 1, "Subtracting undoes adding: the missing number is 3.67 − 3.4."),
        ("12 − 3.75", 0, "Adding undoes subtracting: the missing number is 8.25 + 3.75."),
        (
            "12 − 3.75",
            1,
            "What is left and what is taken away make the first number: "
            "the missing number is 12 − 8.25.",
        ),
    ],
)
def test_the_inverse_is_stated_first_without_what_it_gives(asked, hidden, lead):
    assert MissingNumber(hidden).lead(question(asked)) == lead


def test_a_remainder_is_part_of_the_inverse():
    with_rest = question("432 ÷ 5", Ending.REMAINDER)
    assert MissingNumber(0).lead(with_rest).endswith("the missing number is 86 × 5 + 2.")
    assert MissingNumber(1).lead(with_rest).endswith("the missing number is (432 − 2) ÷ 86.")


@pytest.mark.parametrize(
    ("asked", "hidden", "finding"),
    [
        ("3.4 + 0.27", 1, "3.67 − 3.4"),
        ("3.74 − 2.4", 1, "3.74 − 1.34"),
        ("12 − 3.75", 0, "8.25 + 3.75"),
        ("24 × 6", 0, "144 ÷ 6"),
        ("665 ÷ 5", 0, "133 × 5"),
        ("144 ÷ 24", 1, "144 ÷ 6"),
        ("144 ÷ 6", 1, None),  # by 24 nobody divides from a table
        ("1.2 + 3.4 + 5", 1, None),
        ("665 ÷ 5", 1, None),  # by 133 no short division is set out
    ],
)
def test_the_calculation_that_finds_a_missing_number(asked, hidden, finding):
    found = MissingNumber(hidden).finding(question(asked))
    assert (found and found.text) == finding
    if found:
        assert found.answer.value == question(asked).operands[hidden].value


def test_a_division_that_leaves_something_has_no_one_calculation():
    assert MissingNumber(0).finding(question("432 ÷ 5", Ending.REMAINDER)) is None


def test_an_example_works_the_calculation_that_finds_the_number_and_then_checks_it():
    text = LADDER.replace("places: 2, form", "places: 2, whole: 1, form")
    pack = build_pack(spec(text, "examples: [gaps]\ntiers:\n  core: {gaps: 2}\n"), 5)
    item = pack.of_kind("example")[0].items[0]
    assert isinstance(item.form, MissingNumber)
    finding = item.form.finding(item.question)
    assert finding is not None
    working = worked_item(item, pack).example.right
    assert working.agrees_with(finding)
    first, *_, found, _ = [step.sentence for step in working.steps]
    assert f": the missing number is {finding.text}. " in first
    assert found == f"The missing number is {item.form.reply(item.question)}."
    check = f"Check: {item.question.text} = {item.question.answer_text}."
    assert working.steps[-1].sentence == check


def test_a_missing_digit_is_reasoned_from_its_column():
    asked = question("3.47 + 0.85")
    working = MissingDigit(0, -1).working(Written.by(asked, Conventions()))
    assert [step.sentence for step in working.steps] == [
        "One digit is missing: the tenths digit of the first number. "
        "Set it out with its answer, and leave the gap.",
        "7 hundredths + 5 hundredths = 12 hundredths = 1 tenth and 2 hundredths: "
        "carry 1 to the tenths.",
        "Without the gap: 8 tenths + 1 tenth carried = 9 tenths.",
        "The answer's digit here is 3. Count on from 9 tenths to the next number that ends in 3: "
        "13 tenths.",
        "13 tenths − 9 tenths = 4 tenths: write 4 in the gap.",
        "Check: 3.47 + 0.85 = 4.32.",
    ]
    gap = working.setting_out.lit[0]
    standing = {(mark.row, mark.column) for mark in working.setting_out.marks}
    assert gap not in standing
    (written,) = [mark for mark in working.marks() if (mark.row, mark.column) == gap]
    assert written.text == "4"
    assert working.fits_its_squares


def test_a_missing_nought_is_not_counted_on_to():
    working = MissingDigit(0, -2).working(Written.by(question("3.405 + 0.896"), Conventions()))
    said = [step.sentence for step in working.steps]
    assert "The answer's digit here is 0, and 10 hundredths end in 0." in said
    assert "10 hundredths − 10 hundredths = 0 hundredths: write 0 in the gap." in said


@pytest.mark.parametrize(
    ("text", "ending", "begins"),
    [
        (
            "432 ÷ 5",
            Ending.REMAINDER,
            "The answer times the missing number, plus what is left over, makes what is divided: "
            "the missing number is (432 − 2) ÷ 86. ",
        ),
        (
            "432 ÷ 15",
            Ending.FRACTION,  # 28 4/5 times 15 is 432
            "The answer times the missing number makes what is divided: "
            "the missing number is 432 ÷ 28 4/5. ",
        ),
    ],
)
def test_what_is_left_over_is_said_to_be_a_part_of_what_is_divided(text, ending, begins):
    asked = question(text, ending)
    working = MissingNumber(1).working(Written.by(asked, Conventions()))
    assert working.steps[0].sentence.startswith(begins)


def test_a_digit_of_a_divisor_is_found_with_what_is_left_over():
    working = MissingDigit(1, 0).working(
        Written.by(question("5899 ÷ 30", Ending.REMAINDER), Conventions())
    )
    assert working.steps[0].sentence.startswith(
        "The answer times the second number, plus what is left over, makes what is divided. "
        "First multiply by the digits you can see. The missing digit must make the rest. "
    )


def test_a_number_from_a_long_division_is_built_up_on_lines():
    asked = question("23 × 3.4")
    working = MissingNumber(0).working(Written.by(asked, Conventions()))
    assert [step.sentence for step in working.steps][1:] == [
        "78.2 − 68 = 10.2 is left.",
        "3 × 3.4 = 10.2.",
        "20 + 3 = 23.",
        "The missing number is 23.",
        "Check: 23 × 3.4 = 78.2.",
    ]


LADDER = """
plain: {operation: subtract, places: 2}
gaps: {operation: subtract, places: 2, form: missing number}
digits: {operation: add, places: {ragged: [1, 3]}, form: missing digit}
"""
SECTIONS = "tiers:\n  core: {gaps: 4, digits: 4}\n"


def test_a_form_changes_no_calculation():
    """The questions are those of the same rung asked plainly."""
    asked = build_pack(spec(LADDER, SECTIONS), 5).sections[0]
    bare = LADDER.replace(", form: missing number", "").replace(", form: missing digit", "")
    plain = build_pack(spec(bare, SECTIONS), 5)
    assert [i.question for i in asked.items] == [i.question for i in plain.sections[0].items]


def test_versions_miss_the_same_thing_and_neighbours_another():
    sections = build_pack(spec(LADDER, SECTIONS), 5, versions=4).sections
    for items in zip(*(section.items for section in sections), strict=True):
        assert len({item.form for item in items}) == 1
    gaps = [item.form for item in sections[0].items if item.rung == "gaps"]
    assert len(set(gaps)) == 2


def test_the_record_says_what_is_hidden():
    plain = record(build_pack(spec(LADDER, "tiers:\n  core: {plain: 1, gaps: 1, digits: 1}\n"), 5))
    first, gap, digit = plain["sections"][0]["questions"]
    assert "form" not in first
    assert gap["form"] == "missing number"
    assert gap["hidden"]["is"] == gap["operands"][gap["hidden"]["number"] - 1]
    assert digit["form"] == "missing digit"
    assert digit["hidden"]["place"]
    assert digit["asked"].count(DIGIT_BOX) == 1


@pytest.mark.parametrize(
    ("conditions", "message"),
    [
        (
            "operation: add, form: gap",
            "'form' cannot be 'gap'; write plain, missing number, missing",
        ),
        ("operation: add, form: missing digits", "did you mean 'missing digit'"),
        ("operation: add, form: missing digit, context: mass", "cannot have both 'context' and"),
    ],
)
def test_a_wrong_form_is_refused(conditions, message):
    with pytest.raises(SpecError, match=message):
        spec(f"rung: {{{conditions}}}")


def test_a_rung_where_nothing_can_be_missing_says_so():
    error = CannotBeAskedError(spec(LADDER).rung("gaps"), tried_all=True)
    assert str(error).startswith("no question of gaps has a missing number that can be only one;")


@given(
    st.sampled_from("+−×÷"),
    st.builds(Number, st.integers(1, 9999), st.integers(0, 2)),
    st.builds(Number, st.integers(2, 99), st.integers(0, 2)),
    st.integers(0, 1),
)
def test_the_finding_calculation_gives_the_hidden_number_by_its_own_written_method(
    sign, first, second, hidden
):
    asked = Question(SIGNS[sign], (first, second))
    try:
        finding = MissingNumber(hidden).finding(asked)
    except ValueError:  # no answer from nought upwards, or none that ends: never asked
        with pytest.raises(ValueError, match=r"never|less|minus|negative|smaller|larger"):
            _ = asked.answer
        return
    if finding is not None:
        working = written_working(finding)
        assert working.agrees_with(finding)
        assert working.answer.value == asked.operands[hidden].value


@pytest.mark.parametrize(
    ("ending", "operand", "lead"),
    [
        (Ending.REMAINDER, 0, "3 × 4 + 2 = 14"),
        (Ending.REMAINDER, 1, "(14 − 2) ÷ 3 = 4"),
        (Ending.FRACTION, 0, "3 1/2 × 4 = 14"),
        (Ending.FRACTION, 1, "14 ÷ 3 1/2 = 4"),
    ],
)
def test_a_missing_number_is_found_from_what_is_printed(ending, operand, lead):
    """By hand, no source: 14 ÷ 4 = 3 r 2 = 3 1/2."""
    question = Question(Operation.DIVIDE, (Number(14), Number(4)), ending)
    calculation = lead.partition(" = ")[0]
    assert MissingNumber(operand).lead(question).endswith(f"number is {calculation}.")
