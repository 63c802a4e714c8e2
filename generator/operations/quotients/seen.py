"""What a division has, word by word, for a rung that it is not on."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from generator.arithmetic.questions import Ending, Question
from generator.operations.quotients.questions import signature_of
from generator.operations.seen import many
from specs.languages.saying import Saying, counted, say, say_of, several
from specs.shapes import Chosen

_MOST_PLACES = 6


def admitting(question: Question) -> tuple[Question, Mapping[str, object]]:
    """The words of lengths that have the question on a rung, and the ending that it has."""
    dividend, divisor = question.operands
    ended, ending = _ended(question)
    digits = len(str(dividend.units))
    return ended, {
        "divisor": (divisor.units,),
        "divisor_places": divisor.places,
        "dividend": Chosen("digits", (digits, digits)),
        "places": dividend.places,
        "ending": ending,
    }


def _ended(question: Question) -> tuple[Question, object]:
    """The division with an ending that it has, the one asked before others, and its word."""
    dividend, divisor = question.operands
    exact = _is_exact(question)
    if question.ending in (Ending.EXACT, Ending.DECIMAL) or exact:
        if exact:
            return replace(question, ending=Ending.EXACT, places=0), "exact"
        size = dividend.value / divisor.value
        if (size * 10**_MOST_PLACES).denominator == 1 and not _whole(question):
            return replace(question, ending=Ending.DECIMAL, places=0), Chosen("decimal", 6)
        if (size * 10**_MOST_PLACES).denominator == 1 and question.ending is Ending.DECIMAL:
            return question, Chosen("decimal", 6)
        if _whole(question):
            return replace(question, ending=Ending.REMAINDER, places=0), "remainder"
        return replace(question, ending=Ending.ROUNDED, places=2), Chosen("rounded", 2)
    if question.ending is Ending.ROUNDED:
        return question, Chosen("rounded", question.places)
    return question, str(question.ending)


def _whole(question: Question) -> bool:
    return not any(number.places for number in question.operands)


def _is_exact(question: Question) -> bool:
    """Whether nothing is left over after the dividend's last digit."""
    dividend, divisor = question.operands
    places = max(dividend.places - divisor.places, 0)
    scaled: Fraction = dividend.value / divisor.value * 10**places
    return scaled.denominator == 1


def divisor(question: Question) -> Saying:
    """``the divisor 12``."""
    return say("the divisor {number}", number=question.operands[1])


def dividend(question: Question) -> Saying:
    """``a dividend of 3 digits``."""
    return several(
        "one digit in what is divided",
        "{count} digits in what is divided",
        len(str(question.operands[0].units)),
    )


def places(question: Question) -> Saying:
    """``one decimal place in what is divided``."""
    return many(
        question.operands[0].places,
        say("no decimal places in what is divided"),
        counted(
            "one decimal place in what is divided", "{count} decimal places in what is divided"
        ),
    )


def zeros(question: Question) -> Saying:
    """Which noughts the dividend has."""
    number = question.operands[0]
    inside = "0" in str(number.units).strip("0") or number.places > len(str(number.units))
    end = number.units % 10 == 0
    if inside and end:
        return say("a nought inside and at the end of {number}", number=number)
    if inside:
        return say("a nought inside {numbers}", numbers=number)
    if end:
        return say("a nought at the end of {numbers}", numbers=number)
    return say("no nought in {number}", number=number)


def ending(question: Question) -> Saying:
    """Whether something is left over."""
    if _is_exact(question):
        return say("nothing left over after the last digit of what is divided")
    return say("something left over after the last digit of what is divided")


def quotient(question: Question) -> Saying:
    """``3 digits in its quotient``."""
    return several(
        "one digit in its quotient",
        "{count} digits in its quotient",
        len(signature_of(question).columns),
    )


def remainders(question: Question) -> Saying:
    """``2 remainders carried``."""
    return many(
        signature_of(question).passed,
        say_of("it has", "no remainders carried"),
        counted("one remainder carried", "{count} remainders carried"),
    )


def zero_in_quotient(question: Question) -> Saying:
    """``no noughts in its quotient``."""
    return many(
        signature_of(question).noughts,
        say("no noughts in its quotient"),
        counted("one nought in its quotient", "{count} noughts in its quotient"),
    )


def answer(question: Question) -> Saying:
    """``the answer 5.41``."""
    return say("the answer {answer}", answer=question.answer_text)
