"""The words of a bare question: as it is printed, as it is answered, as it is said."""

import re
from collections.abc import Sequence
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question, rounded_to
from specs.languages.saying import joined, say

NO_BREAK: Final = "\N{NO-BREAK SPACE}"


def is_exact(question: Question) -> bool:
    """Whether the printed answer is exact, not rounded off."""
    if question.ending is not Ending.ROUNDED:
        return True
    dividend, divisor = question.operands
    return question.answer.value * divisor.value == dividend.value


def given_answer(question: Question) -> Number:
    """The number that an answer begins with, as it is printed."""
    return question.answer if question.ending is Ending.ROUNDED else question.answer.trimmed()


def equals(question: Question) -> str:
    """``=``, or ``≈`` where the answer is rounded off."""
    return "=" if is_exact(question) else "≈"


def answer_text(question: Question) -> str:
    """The answer as its method leaves it and, where that ends in noughts, without them.

    A rounded answer keeps its noughts; a remainder stands after its quotient.
    """
    if question.ending not in (Ending.EXACT, Ending.DECIMAL):
        return question.answer_text
    written, short = question.answer, question.answer.trimmed()
    return str(written) if written == short else f"{written} = {short}"


def ending_words(question: Question) -> str:
    """How a division's answer is to be given, where that must be said: ``with a remainder``."""
    match question.ending:
        case Ending.EXACT | Ending.MOVED:
            return ""
        case Ending.REMAINDER:
            return say("with a remainder")
        case Ending.FRACTION:
            return say("the remainder as a fraction")
        case Ending.DECIMAL:
            return say("as a decimal")
        case Ending.ROUNDED:
            return rounded_to(question.places)


def answer_so(question: Question) -> str:
    """The same as a sentence: ``Answer to 2 decimal places.``; "" where nothing need be said."""
    match question.ending:
        case Ending.EXACT | Ending.MOVED:
            return ""
        case Ending.REMAINDER:
            return say("Answer with a remainder.")
        case Ending.FRACTION:
            return say("Give the remainder as a fraction.")
        case Ending.DECIMAL:
            return say("Answer as a decimal.")
        case Ending.ROUNDED:
            return say("Answer {rounded}.", rounded=rounded_to(question.places))


def asked(question: Question) -> str:
    """The question alone: ``3.4 + 0.27``, ``20 ÷ 3, to 2 decimal places``."""
    match question.operation:
        case Operation.ORDER:
            return say("Put in order, smallest first: {numbers}", numbers=_apart(question.operands))
        case Operation.COMPARE:
            pair = _kept_together(question.text)
            return say("Write <, > or = in the box: {pair}", pair=pair)
        case Operation.ROUND:
            return say("Round {number}", number=question.text)
    return joined((question.text, ending_words(question)), between=", ")


def asked_on_a_line(question: Question) -> str:
    """The question on a line of its own, to be answered: ``0.6 × 0.07 =``."""
    if not question.operation.is_calculation or ending_words(question):
        return asked(question)
    return f"{question.text} ="


def answered(question: Question) -> tuple[str, str, str]:
    """The question, its sign and its answer, as one line holds them."""
    match question.operation:
        case Operation.ORDER:
            rising = f" <{NO_BREAK}".join(map(str, question.in_order))
            return _apart(question.operands) + ":", "", rising
        case Operation.COMPARE:
            first, second = question.operands
            signed = f"{first} {question.answer_text} {second}"
            return f"{_kept_together(question.text)}:", "", _kept_together(signed)
        case Operation.ROUND:
            return question.text + ":", "", question.answer_text
    return question.text, equals(question), answer_text(question)


def said(question: Question) -> str:
    """The question as a screen reader says it: ``3.4 plus 0.27``.

    Where its spaces are those of print they become even when it is read.
    """
    match question.operation:
        case Operation.ORDER | Operation.ROUND:
            return asked(question)
        case Operation.COMPARE:
            return say(
                "write the sign for is less than, is more than or equals: {numbers}",
                numbers=", ".join(map(str, question.operands)),
            )
    return joined((calculation_said(question), ending_words(question)), between=", ")


def calculation_said(question: Question) -> str:
    """The numbers and their sign alone: ``24 times 16``."""
    return spoken(list(map(str, question.operands)), question.operation)


def spoken(numbers: Sequence[str], operation: Operation) -> str:
    """Numbers as they are read aloud, with an operation's sign between them."""
    first, *others = numbers
    return joined((first, *(part for other in others for part in (operation.spoken, other))))


def evenly_spaced(text: str) -> str:
    """The text with one ordinary space wherever it has any, as it is read aloud.

    The small spaces between groups of a number's digits stay: it is read as one.
    """
    return re.sub(rf"[ {NO_BREAK}]+", " ", text)


def _apart(numbers: tuple[Number, ...]) -> str:
    """Numbers in a row, plainly apart."""
    return ",  ".join(map(str, numbers))


def _kept_together(text: str) -> str:
    """A text that no line breaks."""
    return text.replace(" ", NO_BREAK)
