"""A question in words: ``A box of 3.4 kg and one of 0.27 kg …``, by a template that fits it."""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import permutations
from operator import attrgetter
from typing import Any, ClassVar

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.form import Form, OnSquares, Turn
from generator.forms.frames import Frame
from generator.forms.plain_data import text_of
from generator.forms.question_words import (
    NO_BREAK,
    answer_so,
    equals,
    given_answer,
)
from specs.contexts import Quantity, Template
from specs.contexts.templates import templates
from specs.languages.saying import Saying, joined, money, say, several
from specs.languages.usage import PLAIN, Usage
from specs.problems import listed
from specs.replies import Reply
from specs.shapes import decimal_text
from specs.spec import RungSpec


@dataclass(frozen=True, slots=True)
class InWords(Form):
    """The question put in words: its sentence, the answer with its unit, and the template's name.

    ``kind`` is what the sentence is about: money, mass, length or capacity. ``known`` are the
    templates that it was chosen from.
    """

    kind: str
    template: str
    sentence: str
    answer: str
    known: tuple[Template, ...] = field(default=(), compare=False, repr=False)
    name: ClassVar[str] = "in words"

    @classmethod
    def offered(cls, question: Question, rung: RungSpec, turn: Turn) -> "InWords | None":
        """The question in the words of a template of the rung's; None where none fits."""
        by_name = sorted(rung.templates, key=attrgetter("name"))
        return cls.by(question, turn.order(by_name), turn.used)

    @classmethod
    def by(
        cls, question: Question, templates: Sequence[Template], used: Collection[str] = ()
    ) -> "InWords | None":
        """The question in the words of the first template that fits it; None where none fits.

        Templates named in ``used`` come last.
        """
        for template in sorted(templates, key=lambda template: template.name in used):
            for numbers in _fitting(template, question):
                return cls(
                    template.kind,
                    template.name,
                    _sentence(template, numbers),
                    _reply(template, question),
                    tuple(templates),
                )
        return None

    @classmethod
    def fits(cls, question: Question, rung: RungSpec) -> bool:
        """Whether a template of the rung's fits."""
        return any(fits(template, question) for template in rung.templates)

    @classmethod
    def wanting(cls, rung: RungSpec) -> Saying:
        """``can be put in words about money``."""
        return say("can be put in words about {things}", things=listed(rung.context))

    @classmethod
    def instead(cls, rung: RungSpec) -> Saying:
        """What numbers the templates of a rung take."""
        return _numbers_taken(rung.templates)

    def of_the_match(self, match: Form, question: Question) -> Form:
        """A match is put in the words of its example, where they fit it."""
        known = self.known or templates()
        same = [template for template in known if template.name == self.template]
        return InWords.by(question, same) or match

    @property
    def sentence_used(self) -> str:
        """The template's name."""
        return self.template

    def text(self, question: Question) -> str:
        """The sentence."""
        return self.sentence

    def asked(self, question: Question) -> str:
        """The sentence and, where it must be said, how the answer is to be given."""
        if question.ending not in (Ending.DECIMAL, Ending.ROUNDED):
            return self.sentence
        return joined((self.sentence, answer_so(question)))

    def reply(self, question: Question) -> str:
        """``3.67 kg``."""
        return self.answer

    def answered(self, question: Question) -> tuple[str, str, str]:
        """Words give way to their calculation."""
        return question.text, equals(question), self.answer

    def with_answer(self, question: Question) -> tuple[str, str]:
        """The answer to words has a line of its own."""
        return self.asked(question), self.answer

    def said(self, question: Question) -> str:
        """The sentence."""
        return self.asked(question)

    def lead(self, question: Question) -> str:
        """The calculation that the words ask for."""
        return say("The calculation is {calculation}.", calculation=question.text)

    def on_squares(self, given: OnSquares) -> Frame:
        """The words, and bare squares where no frame is asked for."""
        return replace(given.framed(given.kind or "none"), words=given.words)

    def record(self, question: Question) -> dict[str, Any]:
        """The words, what they are about, and the reply with its unit."""
        words = self.sentence.replace(NO_BREAK, " ")
        reply = self.answer.replace(NO_BREAK, " ")
        said = {"context": self.kind, "template": self.template}
        return {"form": self.name, **said, "asked": words, "reply": reply}

    @classmethod
    def read(cls, data: Mapping[str, Any], question: Question) -> "InWords":
        """The words as they stand."""
        kind, template, asked, reply = (
            text_of(data[name]) for name in ("context", "template", "asked", "reply")
        )
        return cls(kind, template, asked, reply)

    def is_right(self, question: Question, replies: Sequence[Reply]) -> bool:
        """Where words ask how much is left over, both numbers are needed."""
        left = question.remainder
        if left is not None and left.units:
            replies = [given for given in replies if given.left]
        return super(InWords, self).is_right(question, replies)

    def units(self, usage: Usage = PLAIN) -> tuple[str, str]:
        """As the answer has them: ``£``, ``kg``; ``pieces`` and ``m``."""
        ships = next((one for one in templates() if one.name == self.template), None)
        if ships is not None and not usage.is_plain:
            return _unit_of(ships.answer, usage), _unit_of(ships.left_over, usage)
        plain = self.answer.replace(NO_BREAK, " ").removesuffix(_LEFT_OVER)
        whole, _, left = plain.partition(" and ")
        return _unit(whole), _unit(left)

    def minutes(self, usual: Fraction) -> Fraction:
        """One more, to read."""
        return usual + 1


def _numbers_taken(templates: Sequence[Template]) -> Saying:
    """What numbers some templates take, in words."""
    quantities = [q for template in templates for q in template.quantities]
    places = sorted({places for q in quantities for places in q.places})
    least = min(quantity.least for quantity in quantities)
    greatest = max(quantity.greatest for quantity in quantities)
    counts = sorted({len(t.quantities) for t in templates if not t.any_number})
    taken = {
        "places": listed(map(str, places)),
        "least": decimal_text(least),
        "greatest": decimal_text(greatest),
    }
    if not counts:
        return say(
            "there numbers have {places} decimal places and lie between {least} and {greatest}, "
            "with an answer to match",
            **taken,
        )
    return say(
        "there numbers have {places} decimal places and lie between {least} and {greatest}, "
        "{counts} of them, with an answer to match",
        counts=listed(map(str, counts)),
        **taken,
    )


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
    return _holds(template.answer, given_answer(question))


def _may_be_rounded(answer: Quantity) -> bool:
    """Whether about so much is an answer: not of things counted, nor of money shared out.

    From 80.7 kg 100 bags of 0.8 kg can be filled, though 100.875 is about 101; and seven shares
    of £4.43 are more than £31.
    """
    return not answer.is_money and answer.places != (0,)


def _holds(quantity: Quantity, number: Number) -> bool:
    if quantity.is_money and number.places not in (0, 2) and number.trimmed().places > 2:
        return False
    return quantity.holds(number.value, number.places)


def _sentence(template: Template, numbers: tuple[Number, ...]) -> str:
    quantities = template.quantities * len(numbers) if template.any_number else template.quantities
    shown = [with_unit(q, number) for q, number in zip(quantities, numbers, strict=True)]
    return template.filled(shown)


def _reply(template: Template, question: Question) -> str:
    answer = with_unit(template.answer, given_answer(question))
    if template.left_over is None or question.remainder is None:
        return answer
    left = with_unit(template.left_over, question.remainder.trimmed())
    return say("{answer} and {left} left over", answer=answer, left=left)


def with_unit(quantity: Quantity, number: Number) -> str:
    """``3.67 kg``, ``£4.50``, ``£12``, ``7``: nothing breaks between a number and its unit.

    A sum of money has two places wherever it has any. Of a quantity that ships the words and the
    currency are those of the pages.
    """
    amount = str(number.to_places(2) if quantity.is_money and number.places else number)
    if quantity.unit == "£":
        return money(amount) if quantity.ships else f"£{amount}"
    if not quantity.unit:
        return amount
    alone = number.value == 1
    if quantity.ships and quantity.counted:
        return several(*quantity.counted, 1 if alone else 2, amount=amount)
    unit = quantity.one if alone and quantity.one else quantity.unit
    return f"{amount}{NO_BREAK}{unit}"


def _unit_of(quantity: Quantity | None, usage: Usage) -> str:
    """The unit of several as pages have it: ``€``."""
    return "" if quantity is None else _unit(usage.says(with_unit(quantity, Number(2))))


def _unit(amount: str) -> str:
    """The unit of an amount that ``with_unit`` wrote."""
    found = _AMOUNT.fullmatch(amount)
    return (found[1] or found[2]) if found else ""


_LEFT_OVER = " left over"
_AMOUNT = re.compile(r"([^0-9]*?)\s?[0-9.]+\s?(.*)")
