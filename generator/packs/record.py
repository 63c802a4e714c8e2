"""A pack as plain data: what ``pack.json`` holds about its questions, written and read back."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import PLACE_NAMED, column_name
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.contexts import NO_BREAK
from generator.forms.forms import PLAIN, Form, FromFact, InWords, Missing, Mistaken, from_fact
from generator.operations.mistakes import mistake_named
from generator.packs.pack import Item, Pack, Section


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
    return {
        "name": section.name,
        "kind": section.kind,
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
        **_form(item),
    }


def _answer(question: Question) -> str:
    """The answer: of a calculation its number, otherwise as a marker would write it."""
    if question.operation.is_calculation:
        return str(question.answer.trimmed())
    return question.answer_text


def _form(item: Item) -> dict[str, Any]:
    """How a question is asked, where not plainly: its words, and what is hidden."""
    form, question = item.form, item.question
    match form:
        case Missing():
            hidden = {
                "number": "answer" if form.operand is None else form.operand + 1,
                "place": None if form.place is None else column_name(form.place),
                "is": form.reply(question),
            }
            return {"form": form.name, "asked": form.asked(question), "hidden": hidden}
        case Mistaken():
            shown = {"mistake": form.mistake, "shown": form.wrong}
            return {"form": form.name, **shown, "asked": form.asked(question)}
        case FromFact():
            return {"form": form.name, "asked": form.asked(question)}
        case InWords():
            words = form.sentence.replace(NO_BREAK, " ")
            reply = form.answer.replace(NO_BREAK, " ")
            said = {"context": form.kind, "template": form.template}
            return {"form": form.name, **said, "asked": words, "reply": reply}
    return {}


def _ending(question: Question) -> dict[str, Any]:
    """How a division ends and how far is rounded, without which a question cannot be rebuilt."""
    if question.operation is Operation.ROUND:
        return {"places": question.places}
    if question.ending is Ending.MOVED:
        return {"ending": str(question.ending)}
    if question.operation is not Operation.DIVIDE:
        return {}
    return {"ending": str(question.ending), "places": question.places}


KINDS: Final = ("starter", "example", "practice")
LONGEST_NUMBER: Final = 24


class RecordError(Exception):
    """Plain data that is not the record of a pack, with what is wrong."""


@dataclass(frozen=True, slots=True)
class PackRecord:
    """A pack as its record has it: what is asked, without how it is printed.

    ``spec_text`` is the spec as it was written, "" in records that lack it.
    """

    title: str
    seed: int
    code: str
    sections: tuple[Section, ...]
    spec_text: str

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
            _text(data["title"]),
            _whole(data["seed"]),
            _text(data["code"]),
            sections,
            _text(data.get("spec", "")),
        )
    except (LookupError, TypeError, AttributeError, ValueError, ArithmeticError) as error:
        raise RecordError(f"it is not the record of a pack ({_reason(error)})") from error
    names = [(section.name, section.version) for section in sections]
    if len(set(names)) < len(names):
        raise RecordError("it has the same section twice")
    return found


def _read_section(data: Any) -> Section:
    items = tuple(map(_read_item, data["questions"]))
    labels = [item.label for item in items]
    if len(set(labels)) < len(labels):
        raise ValueError("two questions of a section have one label")
    if data["kind"] not in KINDS:
        raise ValueError("a section has an unknown kind")
    return Section(_text(data["name"]), data["kind"], _whole(data["version"]), None, items)


def _read_item(data: Any) -> Item:
    operands = tuple(_number(text) for text in data["operands"])
    operation = Operation(data["operation"])
    if not operation.is_calculation:
        return _read_number_question(data, operation, operands)
    ending = Ending(data["ending"]) if "ending" in data else _likely_ending(data, operands)
    answer = _number(data["answer"])
    places = _whole(data.get("places", answer.places if ending is Ending.ROUNDED else 0))
    if len(operands) < 2 or (len(operands) > 2 and not operation.order_is_free) or places > 12:
        raise ValueError("a question has too many numbers or too few")
    question = Question(operation, operands, ending, places)
    if question.answer.value != answer.value:
        raise ValueError(f"{question.text} is not {answer}")
    return Item(
        _text(data["label"]),
        _text(data["rung"]),
        question,
        _text(data["signature"]),
        (),
        form=_read_form(data, question),
    )


def _read_number_question(data: Any, operation: Operation, operands: tuple[Number, ...]) -> Item:
    """A question about numbers as they stand: their order, or rounding."""
    places = data["places"] if operation is Operation.ROUND else 0
    if type(places) is not int or abs(places) > 12:
        raise ValueError("a number is rounded too far")
    counts = {Operation.ROUND: (1, 1), Operation.COMPARE: (2, 2), Operation.ORDER: (2, 12)}
    fewest, most = counts[operation]
    question = Question(operation, operands, places=places)
    if not fewest <= len(operands) <= most or question.answer_text != data["answer"]:
        raise ValueError(f"{data['operands']} do not give {data['answer']}")
    return Item(_text(data["label"]), _text(data["rung"]), question, _text(data["signature"]), ())


def _read_form(data: Any, question: Question) -> Form:
    """The form of a question; what is said to be hidden must be what is hidden there."""
    if data.get("form", PLAIN.name) == PLAIN.name:
        return PLAIN
    if data["form"] == InWords.name:
        said = (data[name] for name in ("context", "template", "asked", "reply"))
        return InWords(*map(_text, said))
    if data["form"] == Mistaken.name:
        wrong = mistake_named(_text(data["mistake"])).wrong_answer(question)
        if wrong is None or wrong.text != data["shown"]:
            raise ValueError(f"the mistake in {question.text} does not hold together")
        return Mistaken(data["mistake"], wrong.text)
    if data["form"] == FromFact.name:
        form = from_fact(question)
        if form is None:
            raise ValueError(f"{question.text} does not follow from a fact")
        return form
    return _read_missing(data, question)


def _read_missing(data: Any, question: Question) -> Missing:
    """What a question misses; it must be what is hidden there."""
    hidden = data["hidden"]
    operand = None if hidden["number"] == "answer" else _whole(hidden["number"]) - 1
    place = None if hidden["place"] is None else PLACE_NAMED[hidden["place"]]
    form = Missing(operand, place)
    if not (operand is None or 0 <= operand < len(question.operands)) or (
        form.name != data["form"] or form.reply(question) != hidden["is"]
    ):
        raise ValueError(f"what is missing in {question.text} does not hold together")
    return form


def _likely_ending(data: Any, operands: tuple[Number, ...]) -> Ending:
    """How a division ends in a record that does not say so."""
    if data["operation"] != Operation.DIVIDE:
        return Ending.EXACT
    if data["remainder"] is not None:
        return Ending.REMAINDER
    dividend, divisor = operands
    exact = _number(data["answer"]).value * divisor.value == dividend.value
    return Ending.EXACT if exact else Ending.ROUNDED


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError("text is missing")
    return value


def _whole(value: Any) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise TypeError("a whole number is missing")
    return value


def _number(value: Any) -> Number:
    if len(_text(value)) > LONGEST_NUMBER:
        raise ValueError("a number is too long")
    return Number.parse(value)


def _reason(error: Exception) -> str:
    if isinstance(error, KeyError):
        return f"{error} is missing"
    return str(error) if isinstance(error, ValueError) else "a part of it has the wrong form"
