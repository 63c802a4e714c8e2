"""Questions put in words: the templates that fit a question, and the one chosen for it."""

from collections.abc import Collection, Iterator, Sequence
from itertools import permutations
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.forms import InWords
from specs.contexts import Quantity, Template
from specs.contexts.templates import POSITIONS

NO_BREAK: Final = "\N{NO-BREAK SPACE}"


def in_words(
    question: Question, templates: Sequence[Template], used: Collection[str] = ()
) -> InWords | None:
    """The question in the words of the first template that fits it; None where none fits.

    Templates named in ``used`` come last.
    """
    for template in sorted(templates, key=lambda template: template.name in used):
        for numbers in _fitting(template, question):
            return InWords(
                template.kind,
                template.name,
                _sentence(template, numbers),
                _reply(template, question),
            )
    return None


def fits(template: Template, question: Question) -> bool:
    """Whether a template fits a question."""
    return any(True for _ in _fitting(template, question))


def _fitting(template: Template, question: Question) -> Iterator[tuple[Number, ...]]:
    """The question's numbers in each order in which the template can take them."""
    if template.operation != question.operation or not _answer_fits(template, question):
        return
    numbers = question.operands
    orders = permutations(numbers) if question.operation is Operation.MULTIPLY else [numbers]
    for order in orders:
        quantities = (
            template.quantities * len(order) if template.any_number else template.quantities
        )
        if len(quantities) == len(order) and all(map(_holds, quantities, order)):
            yield tuple(order)


def _answer_fits(template: Template, question: Question) -> bool:
    if question.ending is Ending.ROUNDED and not _may_be_rounded(template.answer):
        return False
    left = question.remainder
    with_rest = left is not None and left.units > 0
    if with_rest is not (template.left_over is not None):
        return False
    if question.ending is Ending.FRACTION and with_rest:
        return False
    if template.left_over and left and not _holds(template.left_over, left):
        return False
    return _holds(template.answer, _given(question))


def _may_be_rounded(answer: Quantity) -> bool:
    """Whether about so much is an answer: not of things counted, nor of money shared out.

    From 80.7 kg 100 bags of 0.8 kg can be filled, though 100.875 is about 101; and seven shares
    of £4.43 are more than £31.
    """
    return answer.unit != "£" and answer.places != (0,)


def _holds(quantity: Quantity, number: Number) -> bool:
    if quantity.unit == "£" and number.places not in (0, 2) and number.trimmed().places > 2:
        return False
    return quantity.holds(number.value, number.places)


def _given(question: Question) -> Number:
    return question.answer if question.ending is Ending.ROUNDED else question.answer.trimmed()


def _sentence(template: Template, numbers: tuple[Number, ...]) -> str:
    quantities = template.quantities * len(numbers) if template.any_number else template.quantities
    shown = [with_unit(q, number) for q, number in zip(quantities, numbers, strict=True)]
    if template.any_number:
        return template.says.format(all=f"{', '.join(shown[:-1])} and {shown[-1]}")
    return template.says.format(**dict(zip(POSITIONS, shown, strict=False)))


def _reply(template: Template, question: Question) -> str:
    answer = with_unit(template.answer, _given(question))
    if template.left_over is None or question.remainder is None:
        return answer
    return f"{answer} and {with_unit(template.left_over, question.remainder.trimmed())} left over"


def with_unit(quantity: Quantity, number: Number) -> str:
    """``3.67 kg``, ``£4.50``, ``£12``, ``7``: nothing breaks between a number and its unit.

    A sum of money has two places wherever it has any.
    """
    if quantity.unit == "£":
        return f"£{number.to_places(2) if number.places else number}"
    if not quantity.unit:
        return str(number)
    one = number.value == 1 and quantity.unit.endswith("s")
    unit = _SINGULAR.get(quantity.unit, quantity.unit[:-1]) if one else quantity.unit
    return f"{number}{NO_BREAK}{unit}"


_SINGULAR = {"boxes": "box"}
