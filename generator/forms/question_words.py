"""The words of a bare question: as it is printed, as it is answered, as it is said."""

from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question

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
            return "with remainder"
        case Ending.FRACTION:
            return "remainder as a fraction"
        case Ending.DECIMAL:
            return "as a decimal"
        case Ending.ROUNDED:
            if not question.places:
                return "to the nearest whole number"
            return f"to {question.places} decimal place{'' if question.places == 1 else 's'}"


def asked(question: Question) -> str:
    """The question alone: ``3.4 + 0.27``, ``20 ÷ 3, to 2 decimal places``."""
    match question.operation:
        case Operation.ORDER:
            return f"Put in order, smallest first: {_apart(question.operands)}"
        case Operation.COMPARE:
            return f"Write <, > or = in the box: {_kept_together(question.text)}"
        case Operation.ROUND:
            return f"Round {question.text}"
    return ", ".join(filter(None, (question.text, ending_words(question))))


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
            return f"{question.text}:", "", question.answer_text
    return question.text, equals(question), answer_text(question)


def said(question: Question) -> str:
    """The question as a screen reader says it: ``3.4 plus 0.27``."""
    match question.operation:
        case Operation.ORDER | Operation.ROUND:
            return evenly_spaced(asked(question))
        case Operation.COMPARE:
            first, second = question.operands
            choice = "is less than, is more than or equals"
            return f"write the sign for {choice}: {first}, {second}"
    return ", ".join(filter(None, (calculation_said(question), ending_words(question))))


def calculation_said(question: Question) -> str:
    """The numbers and their sign alone: ``24 times 16``."""
    return f" {question.operation.spoken} ".join(map(str, question.operands))


def evenly_spaced(text: str) -> str:
    """The text with one ordinary space wherever it has any, as it is read aloud."""
    return " ".join(text.split())


def _apart(numbers: tuple[Number, ...]) -> str:
    """Numbers in a row, plainly apart."""
    return ",  ".join(map(str, numbers))


def _kept_together(text: str) -> str:
    """A text that no line breaks."""
    return text.replace(" ", NO_BREAK)
