"""What a question in columns has, word by word, for a rung that it is not on."""

from collections.abc import Mapping

from generator.arithmetic.place_value import column_name
from generator.arithmetic.questions import Operation, Question
from generator.operations.columns.questions import signature_of
from generator.operations.columns.zeros import Noughts
from generator.operations.seen import answer as answer
from generator.operations.seen import decimal_places, many, noughts_in, numbers_in
from specs.languages.saying import Saying, counted, say, say_of, several
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


def addends(question: Question) -> Saying:
    """``3 addends``."""
    return say("{count} addends", count=len(question.operands))


def places(question: Question) -> Saying:
    """``2, 1 and 2 decimal places``."""
    return decimal_places(question)


def whole(question: Question) -> Saying:
    """``1 and 0 digits before the point``."""
    return numbers_in(
        question,
        lambda number: number.whole_digits,
        say("no digits before the point in each number"),
        counted(
            "one digit before the point in each number",
            "{count} digits before the point in each number",
        ),
        lambda found: say("{found} digits before the point", found=found),
    )


def longer(question: Question) -> Saying:
    """The same as of places."""
    return places(question)


def zeros(question: Question) -> Saying:
    """Which noughts its numbers have."""
    inside = [n for n in question.operands if "0" in str(n.units)[1:].rstrip("0")]
    inside += [n for n in question.operands if n.places > len(str(n.units)) and n not in inside]
    end = [n for n in question.operands if n.units % 10 == 0]
    if not inside and not end:
        return say("no nought inside or at the end of a number")
    return noughts_in(inside, end)


def repeats(question: Question) -> Saying:
    """In which columns a digit stands twice."""
    first, last = -max(n.places for n in question.operands), 9
    twice = [
        column_name(place)
        for place in range(last, first - 1, -1)
        if _repeats([n.digit(place) for n in question.operands if n.written_at(place)])
    ]
    if not twice:
        return say("no digit twice in a column")
    return say("a digit twice in the {columns}", columns=listed(twice, "and"))


def _repeats(digits: list[int]) -> bool:
    return len(set(digits)) < len(digits)


def transfers(question: Question) -> Saying:
    """``one carry, in the tenths``; ``no exchanges``."""
    signature = signature_of(question)
    columns = [column_name(place) for place, _ in signature.transfers]
    if question.operation is Operation.ADD:
        found = many(
            len(columns), say_of("it has", "no carries"), counted("one carry", "{count} carries")
        )
    else:
        some = counted("one exchange", "{count} exchanges")
        found = many(len(columns), say_of("it has", "no exchanges"), some)
    if columns:
        found = say("{carries}, in the {columns}", carries=found, columns=listed(columns, "and"))
    if signature.zeros_passed:
        noughts = several("one nought", "{count} noughts", len(signature.zeros_passed))
        found = say("{exchanges}, through {noughts}", exchanges=found, noughts=noughts)
    return found
