"""What a product has, word by word, for a rung that it is not on."""

from collections.abc import Mapping

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from generator.operations.columns.zeros import Noughts
from generator.operations.products.factors import taken_apart
from generator.operations.products.questions import signature_of
from generator.operations.seen import many, numbers_in
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


def factors(question: Question) -> str:
    """``3 factors``."""
    return f"{len(question.operands)} factors"


def digits(question: Question) -> str:
    """``2 and 1 significant digits``."""
    return numbers_in(question, _digits, "significant digit")


def places(question: Question) -> str:
    """``1 and 0 decimal places``."""
    return numbers_in(question, lambda number: number.places, "decimal place")


def zeros(question: Question) -> str:
    """Which noughts its factors have."""
    inside = [n for n in question.operands if "0" in str(n.units).strip("0")]
    inside += [n for n in question.operands if n.places > len(str(n.units))]
    end = [n for n in question.operands if n.units % 10 == 0]
    found = [f"a nought inside {listed(map(str, inside), 'and')}"] if inside else []
    found += [f"a nought at the end of {listed(map(str, end), 'and')}"] if end else []
    return listed(found, "and") if found else "no nought inside or at the end of a factor"


def ones(question: Question) -> str:
    """Which factor is a 1 in some column."""
    found = [str(n) for n in question.operands if taken_apart(n)[1] == 1]
    return f"the factor {listed(found, 'and')}" if found else "no factor that is a 1"


def carries(question: Question) -> str:
    """``one carry``."""
    return many(signature_of(question).carry_count, "carry", "carries")


def answer(question: Question) -> str:
    """``the answer 5.41``."""
    return f"the answer {question.answer}"
