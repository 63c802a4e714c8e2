"""A pack as plain data: what ``pack.json`` holds about its questions, written and read back."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.form import Form
from generator.forms.plain import PLAIN
from generator.forms.plain_data import lines_of, text_of, whole_of
from generator.forms.table import form_named
from generator.operations.table import topic_of
from generator.packs.pack import SECTION_KINDS, Item, Pack, Section
from specs.languages.saying import Saying, say
from specs.problems import quoted
from specs.spec import Place, SectionSpec


def record(pack: Pack) -> dict[str, Any]:
    """The pack's title, seed, code and sections, ready for JSON.

    Answers are written without noughts at their ends, except those that the units need.
    """
    return {
        "title": pack.title,
        "seed": pack.seed,
        "code": pack.code,
        "sections": [_section(section) for section in pack.sections],
    }


def _section(section: Section) -> dict[str, Any]:
    part = section.place.part
    return {
        "name": section.name,
        "kind": section.kind,
        **({} if part == section.place.kind else {"part": part}),
        "version": section.version,
        "questions": [{"label": item.label, **sample(item)} for item in section.items],
    }


def sample(item: Item) -> dict[str, Any]:
    """One question as plain data."""
    question = item.question
    return {
        "rung": item.rung,
        "operation": str(question.operation),
        "operands": [str(number) for number in question.operands],
        "answer": _answer(question),
        "remainder": None if question.remainder is None else str(question.remainder.trimmed()),
        "signature": item.signature,
        **_ending(question),
        **item.form.record(question),
    }


def _answer(question: Question) -> str:
    """The answer: of a calculation its number, otherwise as a marker would write it."""
    if question.operation.is_calculation:
        return str(question.answer.trimmed())
    return question.answer_text


def _ending(question: Question) -> dict[str, Any]:
    """How a division ends and how far is rounded, without which a question cannot be rebuilt."""
    if question.operation is Operation.ROUND:
        return {"places": question.places}
    if question.ending is Ending.MOVED:
        return {"ending": str(question.ending)}
    if question.operation is not Operation.DIVIDE:
        return {}
    return {"ending": str(question.ending), "places": question.places}


LONGEST_NUMBER: Final = 24
LONGEST_REASON: Final = 200
"""No message is longer: one that is repeats what stands in the file."""


class RecordError(Exception):
    """Plain data that is not the record of a pack, with what is wrong."""

    def __init__(self, what: Saying) -> None:
        self.what = what
        super().__init__(what)


@dataclass(frozen=True, slots=True)
class PackRecord:
    """A pack as its record has it: what is asked, without how it is printed.

    ``spec_text`` is the spec as it was written, "" in records that lack it; ``look`` numbers the
    way of printing that was asked for beside it.
    """

    title: str
    seed: int
    code: str
    sections: tuple[Section, ...]
    spec_text: str
    look: int = 0

    @property
    def questions(self) -> Iterator[Question]:
        """Every question of the pack, examples too."""
        return (item.question for section in self.sections for item in section.items)


def read_record(data: Any) -> PackRecord:
    """The pack of a record that was read from JSON. Raises RecordError when it is none.

    Every question's answer is worked out again and must be the one that stands there.
    """
    try:
        sections = tuple(_read_section(section) for section in data["sections"])
        found = PackRecord(
            text_of(data["title"]),
            whole_of(data["seed"]),
            text_of(data["code"]),
            sections,
            lines_of(data.get("spec", "")),
            whole_of(data.get("look", 0)),
        )
    except (LookupError, TypeError, AttributeError, ValueError, ArithmeticError) as error:
        what = say("it is not the record of a pack ({reason})", reason=_reason(error))
        raise RecordError(what) from error
    names = [(section.name, section.version) for section in sections]
    if len(set(names)) < len(names):
        raise RecordError(say("it has the same section twice"))
    return found


def _read_section(data: Any) -> Section:
    items = tuple(map(_read_item, data["questions"]))
    labels = [item.label for item in items]
    if len(set(labels)) < len(labels):
        raise ValueError(say("two questions of a section have one label"))
    if data["kind"] not in SECTION_KINDS.values():
        raise ValueError(say("a section has an unknown kind"))
    name, version = text_of(data["name"]), whole_of(data["version"])
    found = Section(name, data["kind"], version, None, items)
    part = text_of(data.get("part", found.place.kind))
    place = Place.named(found.place.kind, part, name)
    if place.part != part:
        raise ValueError(say("a section is of an unknown part"))
    return replace(found, asked=SectionSpec(name, (), place=place))


def _read_item(data: Any) -> Item:
    operands = tuple(_number(text) for text in data["operands"])
    operation = Operation(data["operation"])
    if not operation.is_calculation:
        return _read_number_question(data, operation, operands)
    ending = Ending(data["ending"]) if "ending" in data else _likely_ending(data, operands)
    answer = _number(data["answer"])
    places = whole_of(data.get("places", answer.places if ending is Ending.ROUNDED else 0))
    if len(operands) < 2 or (len(operands) > 2 and not operation.order_is_free) or places > 12:
        raise ValueError(say("a question has too many numbers or too few"))
    question = Question(operation, operands, ending, places)
    if question.answer.value != answer.value:
        raise ValueError(
            say("{question} is not {answer}", question=question.text, answer=str(answer))
        )
    return Item(
        text_of(data["label"]),
        text_of(data["rung"]),
        question,
        text_of(data["signature"]),
        (),
        form=_read_form(data, question),
    )


def _read_number_question(data: Any, operation: Operation, operands: tuple[Number, ...]) -> Item:
    """A question about numbers as they stand: their order, or rounding."""
    places = data["places"] if operation is Operation.ROUND else 0
    if type(places) is not int or abs(places) > 12:
        raise ValueError(say("a number is rounded too far"))
    question = Question(operation, operands, places=places)
    if not topic_of(question).takes(question) or question.answer_text != data["answer"]:
        raise ValueError(
            say(
                "{numbers} do not give {answer}",
                numbers=str(data["operands"]),
                answer=str(data["answer"]),
            )
        )
    return Item(
        text_of(data["label"]), text_of(data["rung"]), question, text_of(data["signature"]), ()
    )


def _read_form(data: Any, question: Question) -> Form:
    """The form of a question; a record that names none asks plainly."""
    try:
        form = form_named(text_of(data.get("form", PLAIN.name)))
    except KeyError:
        raise ValueError(say("a question has an unknown form")) from None
    return form.read(data, question)


def _likely_ending(data: Any, operands: tuple[Number, ...]) -> Ending:
    """How a division ends in a record that does not say so."""
    if data["operation"] != Operation.DIVIDE:
        return Ending.EXACT
    if data["remainder"] is not None:
        return Ending.REMAINDER
    dividend, divisor = operands
    exact = _number(data["answer"]).value * divisor.value == dividend.value
    return Ending.EXACT if exact else Ending.ROUNDED


def _number(value: Any) -> Number:
    if len(text_of(value)) > LONGEST_NUMBER:
        raise ValueError(say("a number is too long"))
    return Number.parse(value)


def _reason(error: Exception) -> str:
    if isinstance(error, KeyError):
        return say("{part} is missing", part=quoted(str(error.args[0])))
    if not isinstance(error, ValueError):
        return say("a part of it has the wrong form")
    said = str(error)  # which may repeat what stands there
    if len(said) > LONGEST_REASON or not said.isprintable():
        return say("a text of it is wrong")
    return next((known for known in error.args if isinstance(known, Saying)), said)
