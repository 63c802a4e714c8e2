"""What a product has, word by word, for a rung that it is not on."""

from collections.abc import Mapping

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from generator.operations.columns.zeros import Noughts
from generator.operations.products.factors import taken_apart
from generator.operations.products.questions import signature_of
from generator.operations.seen import answer as answer
from generator.operations.seen import decimal_places, many, noughts_in, numbers_in
from specs.languages.saying import Saying, counted, say, say_of
from specs.problems import listed


def _digits(number: Number) -> int:
    return taken_apart(number)[0].digits


def admitting(question: Question) -> tuple[Question, Mapping[str, object]]:
    """The words of lengths, and of noughts and ones, that have the question on a rung."""
    numbers = question.operands
    return question, {
        "factors": len(numbers),
        "digits": tuple(map(_digits, numbers)),
        "places": tuple(number.places for number in numbers),
        "zeros": Noughts("allow", "allow"),
        "ones": "allow",
    }


def factors(question: Question) -> Saying:
    """``3 factors``."""
    return say("{count} factors", count=len(question.operands))


def digits(question: Question) -> Saying:
    """``2 and 1 significant digits``."""
    return numbers_in(
        question,
        _digits,
        say("no significant digits in each number"),
        counted(
            "one significant digit in each number", "{count} significant digits in each number"
        ),
        lambda found: say("{found} significant digits", found=found),
    )


def places(question: Question) -> Saying:
    """``1 and 0 decimal places``."""
    return decimal_places(question)


def zeros(question: Question) -> Saying:
    """Which noughts its factors have."""
    inside = [n for n in question.operands if "0" in str(n.units).strip("0")]
    inside += [n for n in question.operands if n.places > len(str(n.units))]
    end = [n for n in question.operands if n.units % 10 == 0]
    if not inside and not end:
        return say("no nought inside or at the end of a factor")
    return noughts_in(inside, end)


def ones(question: Question) -> Saying:
    """Which factor is a 1 in some column."""
    found = [str(n) for n in question.operands if taken_apart(n)[1] == 1]
    if not found:
        return say("no factor that is a 1")
    return say("the factor {numbers}", numbers=listed(found, "and"))


def carries(question: Question) -> Saying:
    """``one carry``."""
    count = signature_of(question).carry_count
    return many(count, say_of("it has", "no carries"), counted("one carry", "{count} carries"))
