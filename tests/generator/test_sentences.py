"""Every sentence of some thousands of workings is read, and what it claims is true."""

import itertools
import random
import re
from collections.abc import Iterator

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.form import Written
from generator.forms.missing import Missing
from generator.forms.missing_digit import MissingDigit
from generator.forms.missing_number import MissingNumber
from generator.forms.spot_the_mistake import SpotTheMistake
from generator.operations.columns.questions import signature_of
from generator.operations.methods import Conventions, written_working
from generator.operations.mistakes import MISTAKES
from generator.operations.rungs import rung_set
from generator.operations.spoken import amount
from tests.generator.ladders import spec
from tests.generator.sentences import UnknownSentenceError, read

EACH = 700
"""Questions of each kind."""


def number(dice: random.Random, digits: int, places: int) -> Number:
    """A number that likes noughts and nines: they are where sentences differ."""
    units = "".join(dice.choice("0123456789009") for _ in range(dice.randint(1, digits)))
    return Number(int(units), dice.randint(0, places))


def added(dice: random.Random) -> Question:
    numbers = tuple(number(dice, 7, 4) for _ in range(dice.randint(2, 5)))
    return Question(Operation.ADD, numbers)


def subtracted(dice: random.Random) -> Question:
    numbers = sorted((number(dice, 7, 4) for _ in range(2)), key=lambda n: -n.value)
    return Question(Operation.SUBTRACT, tuple(numbers))


def multiplied(dice: random.Random) -> Question:
    return Question(
        Operation.MULTIPLY, tuple(number(dice, 4, 3) for _ in range(dice.choice((2, 2, 3))))
    )


def divided(dice: random.Random) -> Question:
    ending = dice.choice([ending for ending in Ending if ending is not Ending.MOVED])
    divisor = Number(dice.randint(1, 12) if dice.random() < 0.7 else dice.randint(13, 99))
    if dice.random() < 0.3:
        divisor = Number(divisor.units, dice.randint(1, 2))
    places = dice.randint(0, 3)
    dividend = number(dice, 6, 3)
    if ending is Ending.EXACT:
        dividend = Number(dividend.units * divisor.units, dividend.places + divisor.places)
    return Question(
        Operation.DIVIDE, (dividend, divisor), ending, places if ending is Ending.ROUNDED else 0
    )


def moved(dice: random.Random) -> Question:
    operation = dice.choice((Operation.MULTIPLY, Operation.DIVIDE))
    power = Number(10 ** dice.randint(1, 3))
    return Question(operation, (number(dice, 5, 3).trimmed(), power), Ending.MOVED)


def rounded(dice: random.Random) -> Question:
    of = number(dice, 6, 4)
    return Question(Operation.ROUND, (of,), places=dice.randint(-2, max(of.places - 1, -2)))


def ordered(dice: random.Random) -> Question:
    numbers = {of.value: of for of in (number(dice, 5, 4) for _ in range(dice.randint(3, 7)))}
    near = [Number(n.units + dice.choice((1, 10)), n.places) for n in numbers.values()]
    for of in near[:2]:
        numbers.setdefault(of.value, of)
    return Question(Operation.ORDER, tuple(numbers.values()))


def compared(dice: random.Random) -> Question:
    first = number(dice, 5, 4)
    other = dice.choice([number(dice, 5, 4), Number(first.units * 10, first.places + 1)])
    return Question(Operation.COMPARE, (first, other))


KINDS = [added, subtracted, multiplied, divided, moved, rounded, ordered, compared]
EVERY_WAY = [
    Conventions(carries, placeholders, subtraction, point)
    for carries in ("below", "above")
    for placeholders in (True, False)
    for subtraction in ("exchange", "equal addition")
    for point in ("line", "column")
]


def workings(kind, seed: int = 13) -> Iterator[tuple[Question, Conventions]]:
    """Questions of a kind, each by conventions of its own; none without an end."""
    dice, found = random.Random(f"{kind.__name__} {seed}"), 0
    while found < EACH:
        question = kind(dice)
        try:
            written_working(question)
        except ValueError:  # divided by nought, or without an end
            continue
        found += 1
        yield question, dice.choice(EVERY_WAY)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.slow
def test_every_sentence_of_a_working_is_true(kind):
    claims = 0
    for question, conventions in workings(kind):
        for step in written_working(question, conventions).steps:
            try:
                claims += read(step.sentence)
            except AssertionError as error:
                raise AssertionError(f"{question.text}: {step.sentence}") from error
    assert claims > EACH


def asked_with_a_gap(question: Question) -> Iterator[Missing]:
    for form in (*MissingNumber.everywhere(question), *MissingDigit.everywhere(question)):
        if form.fillings(question) == 1:
            yield form


@pytest.mark.parametrize("kind", [added, subtracted, multiplied, divided, moved])
def test_what_is_missing_is_reasoned_out_and_checked(kind):
    """What is to be found is said last but for the check, and the inverse or the column first."""
    dice = random.Random(2)
    for question, conventions in itertools.islice(workings(kind, 2), 150):
        gaps = list(asked_with_a_gap(question))
        for form in dice.sample(gaps, min(2, len(gaps))):
            said = form.working(Written.by(question, conventions)).steps
            for step in said:
                try:
                    read(step.sentence)
                except AssertionError as error:
                    raise AssertionError(f"{form.text(question)}: {step.sentence}") from error
            told = [at for at, step in enumerate(said) if tells(step.sentence, form, question)]
            assert told
            if form.operand is None:
                assert told == [len(said) - 1]
                continue
            assert told == [len(said) - 2]
            check = said[-1].sentence
            assert check.startswith(f"Check: {question.text} ")
            assert check.endswith(f" {question.answer_text}.")


def tells(sentence: str, form: Missing, question: Question) -> bool:
    """Whether a sentence says what goes in the box."""
    reply = form.reply(question)
    if form.place is None:
        return sentence.endswith(f"The missing number is {reply}.")
    where = form.where()
    return sentence.endswith((f"{where[1:]} is {reply}.", f": write {reply} in the gap."))


@pytest.mark.parametrize("sign", [Operation.MULTIPLY, Operation.DIVIDE])
@pytest.mark.slow
def test_no_inverse_divides_by_more_than_a_table(sign):
    """A division by a long divisor is built up on lines."""
    dice = random.Random(2)
    for _ in range(100):
        first, second = Number(dice.randint(2, 999), 1), Number(dice.randint(2, 99))
        if sign is Operation.DIVIDE:
            first = Number(first.units * second.units, 1)
        question = Question(sign, (first, second))
        for form in asked_with_a_gap(question):
            if form.operand is None:
                continue
            for step in form.working(Written.by(question, Conventions())).steps:
                outside = re.search(r"inside, (\d+) outside", step.sentence)
                assert outside is None or int(outside[1]) <= 12


@pytest.mark.parametrize("kind", [ordered, compared])
def test_the_same_is_said_of_digits_that_are_the_same_alone(kind):
    for question, conventions in workings(kind):
        for step in written_working(question, conventions).steps:
            if "All the same" in step.sentence:
                listed = step.sentence.partition(": ")[2].partition(". ")[0]
                digits = {part[0] for part in listed.replace(" and ", ", ").split(", ")}
                assert len(digits) == 1, step.sentence


@pytest.mark.parametrize(
    "sentence",
    [
        "The tenths digit is 5: less than 5, so the 2 ones stay.",
        "The tenths digit is 4: 5 or more, so round up.",
        "The thousandths digit is 4: 5 or more, so round up.",
        "3 tenths + 4 tenths = 8 tenths: write 8.",
        "7 hundredths + 4 hundredths = 11 hundredths = 1 tenth and 1 hundredth: "
        "write 1, carry 1 to the ones.",
        "8 ones are less than 2 ones.",
        "1 tenth are less than 6 tenths.",
        "2 millions + 1 million = 3 millions: write 3.",
        "Exchange 1 one for 10 hundredths: 3 ones become 2 ones, and 0 tenths become 10 tenths.",
        "23 tens ÷ 4 = 5 tens, 2 tens left over: write 5.",
        "384 ÷ 100: 384 ones become 384 tenths, so 38.4.",
        "3 ones are left over: 3 ÷ 8 = 3/9.",
    ],
)
def test_the_reader_finds_what_is_false(sentence):
    with pytest.raises(AssertionError):
        read(sentence)


@pytest.mark.parametrize(
    "sentence",
    [
        "5 tenths are 5 or more: round up.",
        "1 hundredth is less than 5: the 2 tenths stay.",
        "8 cannot be taken from 2.",
        "9 tenths and 1 more are 10 tenths: write 0 tenths and 1 more in the ones.",
    ],
)
def test_the_reader_is_at_a_loss_with_what_it_does_not_know(sentence):
    with pytest.raises(UnknownSentenceError):
        read(sentence)


def test_pages_say_nought_and_nowhere_zero():
    for mistake in MISTAKES:
        for said in (mistake.title, mistake.sentence, mistake.told, mistake.follow_up):
            assert "zero" not in said.lower()
    assert any("zero" in mistake.name for mistake in MISTAKES), "names stay as records have them"


@pytest.mark.parametrize(
    ("first", "second", "ends"),
    [("159", "71", True), ("1.25", "0.75", True), ("159", "72", False), ("1.5", "0.75", False)],
)
def test_an_answer_that_ends_in_nought_is_said_to(first, second, ends):
    question = Question(Operation.ADD, (Number.parse(first), Number.parse(second)))
    assert ("answer ends in nought" in signature_of(question).features) is ends


def test_a_nine_that_goes_over_carries_a_one():
    rung = spec("r: {operation: round, places: 2, to: tenths, over_nine: require}").rung("r")
    found = rung_set(rung)
    assert "a 1 is carried" in found.signature(found.unrank(0)).features


@pytest.mark.parametrize(
    ("count", "place", "words"),
    [(2, 6, "2 million"), (1, 6, "1 million"), (3, 3, "3 thousands"), (1, -1, "1 tenth")],
)
def test_amounts_in_words(count, place, words):
    assert amount(count, place) == words


def test_the_answer_to_a_mistake_says_what_it_was():
    form = SpotTheMistake("smaller digit taken from larger", "46")
    assert form.what_was_wrong().startswith("The mistake: in each column the pupil takes")
    assert MissingNumber(0).what_was_wrong() == ""
