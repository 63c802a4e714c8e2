"""The form of a question: bare, with something missing, or put in words.

A form changes what is printed and what the pupil writes, never the calculation: that stays
on its rung.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import ClassVar, Final, TypeAlias, TypeVar

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import column_name
from generator.arithmetic.questions import SIGN_BOX, Ending, Operation, Question
from generator.numbered.seeds import Dice
from generator.operations.mistakes import mistake_named, mistakes_of
from generator.operations.products.known_fact import whole_number_fact
from generator.operations.worked_wrongly import wrong_working
from specs.spec import SPOT

T = TypeVar("T")

NUMBER_BOX: Final = "\N{WHITE RECTANGLE}"
"""Stands for a missing number: a box to write it in."""
DIGIT_BOX: Final = SIGN_BOX
"""Stands for a missing digit."""


@dataclass(frozen=True, slots=True)
class Plain:
    """The question as it is."""

    name: ClassVar[str] = "plain"

    def asked(self, question: Question) -> str:
        """``3.4 + 0.27``."""
        return question.text

    def reply(self, question: Question) -> str:
        """``3.67``."""
        return question.answer_text

    def lead(self, question: Question) -> str:
        """Nothing: the working says what is done."""
        return ""


@dataclass(frozen=True, slots=True)
class Missing:
    """A number or a digit is left out, and the answer is given (unless the digit is its own).

    ``operand`` counts from 0; None is the answer. ``place`` is the digit's column; None
    hides the whole number.
    """

    operand: int | None
    place: int | None = None

    @property
    def name(self) -> str:
        """``missing number`` or ``missing digit``."""
        return "missing number" if self.place is None else "missing digit"

    def asked(self, question: Question) -> str:
        """``3.4 + ▭ = 3.67`` or ``3.□ + 0.27 = 3.67``."""
        numbers = [
            self._boxed(str(number)) if at == self.operand else str(number)
            for at, number in enumerate(question.operands)
        ]
        answer = question.answer_text
        if self.operand is None:
            number = str(_given_answer(question))
            answer = self._boxed(number) + answer.removeprefix(number)
        sign = "=" if is_exact(question) else "≈"
        return f"{f' {question.operation.sign} '.join(numbers)} {sign} {answer}"

    def reply(self, question: Question) -> str:
        """What goes in the box."""
        number = self.number(question)
        return str(number) if self.place is None else str(number.digit(self.place))

    def lead(self, question: Question) -> str:
        """What is said first when the question is worked: how what is missing is found."""
        found = self.number(question)
        if self.place is not None:
            digit = found.digit(self.place)
            article = "an" if digit == 8 else "a"
            return f"Only {article} {digit} fits as {self.where(question)}."
        return f"The missing number is {self._inverse(question)} = {found}."

    def finding(self, question: Question) -> Question | None:
        """The one written calculation that finds a missing number, such as 3.74 − 1.34.

        None for a digit, and where it takes more than one calculation, a division by more
        than two digits, or digits moved by a power of ten.
        """
        others = [n for at, n in enumerate(question.operands) if at != self.operand]
        left, answer = question.remainder, _given_answer(question)
        several = len(others) > 1 or question.power_of_ten or (left and left.units)
        if self.operand is None or self.place is not None or several or not is_exact(question):
            return None
        (other,) = others
        match question.operation:
            case Operation.ADD:
                found = Question(Operation.SUBTRACT, (answer, other))
            case Operation.SUBTRACT if self.operand == 0:
                found = Question(Operation.ADD, (answer, other))
            case Operation.SUBTRACT:
                found = Question(Operation.SUBTRACT, (other, answer))
            case Operation.MULTIPLY:
                found = Question(Operation.DIVIDE, (answer, other))
            case Operation.DIVIDE if self.operand == 0:
                found = Question(Operation.MULTIPLY, (answer, other))
            case Operation.DIVIDE:
                found = Question(Operation.DIVIDE, (other, answer))
            case _:
                return None
        if found.operation is Operation.DIVIDE and not 1 < found.operands[1].trimmed().units < 100:
            return None
        return found if found.answer.value == self.number(question).value else None

    def _inverse(self, question: Question) -> str:
        """The calculation that finds a missing number."""
        others = [str(n) for at, n in enumerate(question.operands) if at != self.operand]
        answer = str(_given_answer(question))
        left = question.remainder
        if question.ending is Ending.FRACTION:  # what is left over is part of the answer
            answer, left = question.answer_text, None
        match question.operation:
            case Operation.ADD:
                return " − ".join([answer, *others])
            case Operation.SUBTRACT:
                return f"{answer} + {others[0]}" if self.operand == 0 else f"{others[0]} − {answer}"
            case Operation.MULTIPLY:
                return " ÷ ".join([answer, *others])
            case Operation.DIVIDE if self.operand == 0:
                and_left = f" + {left.trimmed()}" if left and left.units else ""
                return f"{answer} × {others[0]}{and_left}"
        total = f"({others[0]} − {left.trimmed()})" if left and left.units else others[0]
        return f"{total} ÷ {answer}"

    def number(self, question: Question) -> Number:
        """The number that is hidden, or that has the hidden digit."""
        return _given_answer(question) if self.operand is None else question.operands[self.operand]

    def where(self, question: Question) -> str:
        """The hidden thing in words: ``the tenths digit of the second number``."""
        ordinals = ("first", "second", "third", "fourth", "fifth", "sixth")
        number = "answer" if self.operand is None else f"{ordinals[self.operand]} number"
        if self.place is None:
            return f"the {number}"
        return f"the {column_name(self.place)} digit of the {number}"

    def _boxed(self, written: str) -> str:
        if self.place is None:
            return NUMBER_BOX
        whole = len(written.partition(".")[0])
        at = whole - 1 - self.place if self.place >= 0 else whole - self.place
        return written[:at] + DIGIT_BOX + written[at + 1 :]


@dataclass(frozen=True, slots=True)
class FromFact:
    """The question follows from a whole-number fact, which is given: its decimal relative."""

    fact: Question
    name: ClassVar[str] = "known fact"

    def asked(self, question: Question) -> str:
        """``24 × 16 = 384, so 2.4 × 0.16 =``."""
        return f"{self.fact.text} = {self.fact.answer}, so {question.text} ="

    def reply(self, question: Question) -> str:
        """``0.384``."""
        return question.answer_text

    def lead(self, question: Question) -> str:
        """What is known."""
        return f"{self.fact.text} = {self.fact.answer} is known."


def from_fact(question: Question) -> FromFact | None:
    """The question from its whole-number fact; None where it does not follow from one."""
    fact = whole_number_fact(question)
    return FromFact(fact) if fact else None


@dataclass(frozen=True, slots=True)
class InWords:
    """The question put in words: its sentence, the answer with its unit, and the template's name.

    ``kind`` is what the sentence is about: money, mass, length or capacity.
    """

    kind: str
    template: str
    sentence: str
    answer: str
    name: ClassVar[str] = "in words"

    def asked(self, question: Question) -> str:
        """The sentence."""
        return self.sentence

    def reply(self, question: Question) -> str:
        """``3.67 kg``."""
        return self.answer

    def lead(self, question: Question) -> str:
        """The calculation that the words ask for."""
        return f"The calculation is {question.text}."


@dataclass(frozen=True, slots=True)
class Mistaken:
    """The question worked wrongly, by one procedure, for pupils to find it and put it right.

    ``mistake`` is the procedure's name, ``wrong`` the answer that it gives.
    """

    mistake: str
    wrong: str
    name: ClassVar[str] = SPOT

    def asked(self, question: Question) -> str:
        """``63 − 29 = 46? Find the mistake and put it right.``"""
        return f"{question.text} = {self.wrong}? Find the mistake and put it right."

    def reply(self, question: Question) -> str:
        """The right answer."""
        return question.answer_text

    def lead(self, question: Question) -> str:
        """What was done wrong."""
        return f"The mistake: {mistake_named(self.mistake).told}"


Form: TypeAlias = Plain | Missing | InWords | Mistaken | FromFact

PLAIN: Final = Plain()


def mistaken(question: Question, dice: Dice, turn: int = 0) -> Mistaken | None:
    """The question worked wrongly by a procedure drawn from those that can be shown; or None.

    Each ``turn`` begins one further along the order that ``words`` gives.
    """
    for mistake in turned(dice.shuffled(mistakes_of(question.operation)), turn):
        form = mistaken_by(question, mistake.name)
        if form is not None:
            return form
    return None


def mistaken_by(question: Question, name: str) -> Mistaken | None:
    """The question worked wrongly by the mistake of that name; None where it cannot be shown."""
    mistake = mistake_named(name)
    wrong = mistake.wrong_answer(question)
    if wrong is None or wrong_working(question, mistake) is None:
        return None
    return Mistaken(name, wrong.text)


def is_exact(question: Question) -> bool:
    """Whether the printed answer is exact, not rounded off."""
    if question.ending is not Ending.ROUNDED:
        return True
    dividend, divisor = question.operands
    return question.answer.value * divisor.value == dividend.value


def _given_answer(question: Question) -> Number:
    """The number that an answer begins with, as it is printed."""
    return question.answer if question.ending is Ending.ROUNDED else question.answer.trimmed()


def missing(question: Question, name: str, dice: Dice, turn: int = 0) -> Missing | None:
    """A form with something missing, drawn from those with exactly one answer; None for none.

    Each ``turn`` begins one further along the order that ``words`` gives.
    """
    choices = list(numbers_to_miss(question) if name == "missing number" else _digits(question))
    for choice in turned(dice.shuffled(choices), turn):
        if solutions(question, choice) == 1:
            return choice
    return None


def turned(items: Sequence[T], turn: int) -> list[T]:
    """The items from number ``turn`` on, and round to those before it."""
    at = turn % len(items) if items else 0
    return [*items[at:], *items[:at]]


def can_be_missed(question: Question, name: str) -> bool:
    """Whether some number or digit can be left out with exactly one answer."""
    choices = numbers_to_miss(question) if name == "missing number" else _digits(question)
    return any(solutions(question, choice) == 1 for choice in choices)


def numbers_to_miss(question: Question) -> Iterator[Missing]:
    """Each operand, left out."""
    if question.operation.is_calculation:
        yield from map(Missing, range(len(question.operands)))


def _digits(question: Question) -> Iterator[Missing]:
    """Each written digit of each number and of the answer, but not a nought before the point.

    Nor one of 10, 100 or 1000 by which digits move: that number is known by its length.
    """
    if not question.operation.is_calculation:
        return
    shown = question.operands[:1] if question.power_of_ten else question.operands
    numbers = [*enumerate(shown), (None, _given_answer(question))]
    for at, number in numbers:
        top = number.top_place if number.whole_digits or not number.places else -1
        for place in range(top, number.last_place - 1, -1):
            yield Missing(at, place)


def solutions(question: Question, choice: Missing) -> int:
    """How many ways there are to fill the box truly.

    Every digit from 0 to 9 is tried in a missing digit's place. A missing number follows
    from the others by the inverse operation, unless that leaves it open.
    """
    if choice.place is None:
        return _numbers_that_fit(question, choice)
    number = choice.number(question)
    step = 10 ** (choice.place + number.places)
    smallest = number.units - number.digit(choice.place) * step
    tried = (Number(smallest + digit * step, number.places) for digit in range(10))
    return sum(is_true(question, choice, value) for value in tried)


def is_true(question: Question, choice: Missing, value: Number) -> bool:
    """Whether the printed calculation is true with that number in the hidden one's stead."""
    if choice.operand is None:
        return value.value == question.answer.value
    numbers = list(question.operands)
    numbers[choice.operand] = value
    try:
        changed = replace(question, operands=tuple(numbers))
        return changed.answer.value == question.answer.value and (
            _size(changed.remainder) == _size(question.remainder)
        )
    except (ValueError, ZeroDivisionError):  # no answer from nought upwards, or none that ends
        return False


def _size(number: Number | None) -> Fraction:
    return number.value if number else Fraction(0)


def _numbers_that_fit(question: Question, choice: Missing) -> int:
    """1 when the inverse operation gives back the hidden number and nothing else fits; or 0.

    A rounded quotient fits many dividends, a product of nought any factor, and a quotient
    of nought any large enough divisor.
    """
    assert choice.operand is not None
    others = [n.value for at, n in enumerate(question.operands) if at != choice.operand]
    answer, left = question.answer.value, _size(question.remainder)
    hidden = question.operands[choice.operand].value
    found: Fraction | None = None
    match question.operation:
        case Operation.ADD:
            found = answer - sum(others)
        case Operation.SUBTRACT:
            found = answer + others[0] if choice.operand == 0 else others[0] - answer
        case Operation.MULTIPLY:
            rest = Fraction(1)
            for factor in others:
                rest *= factor
            found = answer / rest if rest else None
        case Operation.DIVIDE if question.ending is not Ending.ROUNDED:
            if choice.operand == 0:
                found = answer * others[0] + left
            else:
                found = (others[0] - left) / answer if answer else None
    return int(found == hidden and is_true(question, choice, choice.number(question)))
