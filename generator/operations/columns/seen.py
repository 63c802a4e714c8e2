"""What a question in columns has, word by word, for a rung that it is not on."""

from collections.abc import Mapping

from generator.arithmetic.place_value import column_name
from generator.arithmetic.questions import Operation, Question
from generator.operations.columns.questions import signature_of
from generator.operations.columns.zeros import Noughts
from generator.operations.seen import many, numbers_in
from specs.problems import listed


def admitting(question: Question) -> tuple[Question, Mapping[str, object]]:
    """The words of lengths, and of noughts, that have the question on a rung."""
    numbers = question.operands
    said: dict[str, object] = {
        "places": tuple(number.places for number in numbers),
        "whole": tuple(number.whole_digits for number in numbers),
        "zeros": Noughts("allow", "allow"),
    }
    if question.operation is Operation.ADD:
        said["addends"] = len(numbers)
    return question, said


def addends(question: Question) -> str:
    """``3 addends``."""
    return f"{len(question.operands)} addends"


def places(question: Question) -> str:
    """``2, 1 and 2 decimal places``."""
    return numbers_in(question, lambda number: number.places, "decimal place")


def whole(question: Question) -> str:
    """``1 and 0 digits before the point``."""
    return numbers_in(question, lambda number: number.whole_digits, "digit", " before the point")


def longer(question: Question) -> str:
    """The same as of places."""
    return places(question)


def zeros(question: Question) -> str:
    """Which noughts its numbers have."""
    inside = [n for n in question.operands if "0" in str(n.units)[1:].rstrip("0")]
    inside += [n for n in question.operands if n.places > len(str(n.units)) and n not in inside]
    end = [n for n in question.operands if n.units % 10 == 0]
    found = [f"a nought inside {listed(map(str, inside), 'and')}"] if inside else []
    found += [f"a nought at the end of {listed(map(str, end), 'and')}"] if end else []
    return listed(found, "and") if found else "no nought inside or at the end of a number"


def repeats(question: Question) -> str:
    """In which columns a digit stands twice."""
    first, last = -max(n.places for n in question.operands), 9
    twice = [
        column_name(place)
        for place in range(last, first - 1, -1)
        if _repeats([n.digit(place) for n in question.operands if n.written_at(place)])
    ]
    if not twice:
        return "no digit twice in a column"
    return f"a digit twice in the {listed(twice, 'and')}"


def _repeats(digits: list[int]) -> bool:
    return len(set(digits)) < len(digits)


def transfers(question: Question) -> str:
    """``one carry, in the tenths``; ``no exchanges``."""
    signature = signature_of(question)
    one, more = (
        ("carry", "carries") if question.operation is Operation.ADD else ("exchange", "exchanges")
    )
    columns = [column_name(place) for place, _ in signature.transfers]
    found = many(len(columns), one, more)
    if columns:
        found += f", in the {listed(columns, 'and')}"
    if signature.zeros_passed:
        found += f", through {many(len(signature.zeros_passed), 'nought', 'noughts')}"
    return found


def answer(question: Question) -> str:
    """``the answer 5.41``."""
    return f"the answer {question.answer}"
