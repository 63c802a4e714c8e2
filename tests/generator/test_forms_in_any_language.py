"""What a question says in its form is a saying to its last word: any language has it."""

import re
from collections.abc import Iterator

import pytest

from generator.arithmetic.questions import Question
from generator.forms.form import Form, Written
from generator.forms.in_words import InWords
from generator.forms.known_fact import KnownFact
from generator.forms.missing_digit import MissingDigit
from generator.forms.missing_number import MissingNumber
from generator.forms.plain import PLAIN
from generator.forms.spot_the_mistake import SpotTheMistake
from generator.operations import in_english
from generator.operations.mistakes import mistakes_of
from generator.operations.working import Conventions
from generator.results.diagnosis import Kind
from generator.results.how_sure import how_sure
from specs.contexts import templates
from specs.languages.language import ENGLISH
from specs.languages.usage import usage
from tests.asked import question
from tests.generator.ladders import questions
from tests.untranslated import NOBODYS

RUNGS = (
    "operation: add, addends: 4, places: {ragged: [0, 2]}, whole: {between: [1, 2]}",
    "operation: subtract, places: {between: [0, 2]}, whole: {between: [1, 2]}",
    "operation: multiply, digits: [2, 1], places: [1, 0]",
    "operation: multiply, digits: 2, places: {between: [0, 1]}",
    "operation: multiply, factors: 3, places: {between: [0, 1]}",
    "operation: multiply, power_of_ten: {by: [ten, hundred]}",
    "operation: divide, dividend: {digits: 3}, places: 1",
    "operation: divide, divisor: {digits: 2}, dividend: {digits: 4}, ending: remainder",
    "operation: divide, divisor: {digits: 2}, dividend: {digits: 4}, ending: fraction",
    "operation: divide, dividend: {digits: 3}, ending: {decimal: 1}",
    "operation: divide, dividend: {digits: 3}, ending: {rounded: 1}",
    "operation: order, places: {between: [1, 2]}",
    "operation: compare, places: 1",
    "operation: round, places: 2, to: [ones, tenths]",
)
_ASKED = 8
_WORD = re.compile("[A-Za-z]{2,}")
_UNITS = {"kg", "cm", "km", "ml", "mm"}


def forms(asked: Question) -> Iterator[Form]:
    """The forms that a question can have."""
    yield PLAIN
    yield from MissingNumber.everywhere(asked)
    yield from MissingDigit.everywhere(asked)
    yield from filter(None, [KnownFact.of(asked), InWords.by(asked, templates())])
    if asked.operation.is_calculation:
        shown = (SpotTheMistake.by(asked, m.name) for m in mistakes_of(asked.operation))
        yield from filter(None, shown)


def said_of(form: Form, asked: Question) -> Iterator[str]:
    yield from (form.asked(asked), form.asked_on_a_line(asked), form.said(asked))
    yield from (*form.answered(asked), *form.with_answer(asked), *form.in_brief(asked))
    yield from (form.reply(asked), form.lead(asked), form.what_was_wrong(), form.found_in_it())


def sentences(form: Form, asked: Question) -> Iterator[str]:
    """Of its workings."""
    example = form.example(Written.by(asked, Conventions()))
    for working in filter(None, (example.wrong, example.right)):
        yield from (step.sentence for step in working.steps)


def left(texts: list[str]) -> list[str]:
    """Those with words that no other language has."""
    words = ((text, set(_WORD.findall(NOBODYS.says(text)))) for text in texts)
    return [text for text, found in words if found - _UNITS]


@pytest.mark.parametrize("rung", RUNGS)
def test_it_is_a_saying(rung: str) -> None:
    exact = questions(rung)
    said: list[str] = []
    for at in range(_ASKED):
        asked = exact.unrank(at * (exact.count - 1) // (_ASKED - 1))
        for form in forms(asked):
            said += said_of(form, asked)
            said += sentences(form, asked) if asked.operation.is_calculation else ()
    assert left(said) == []


def test_what_is_said_of_mistakes_and_findings_is_a_saying() -> None:
    of_mistakes = [
        text
        for name, said in in_english.MISTAKES.items()
        for text in (said.sentence, said.told, said.follow_up, in_english.TITLES[name])
    ]
    findings = [kind.said for kind in Kind] + [how_sure(at / 20) for at in range(21)]
    assert left([*of_mistakes, *in_english.IN_BRIEF.values(), *findings]) == []


@pytest.mark.parametrize("template", templates(), ids=lambda template: template.name)
def test_a_sentence_that_ships_is_a_saying_with_each_of_its_gaps(template) -> None:
    shown = ["1", "2", "3"][: max(len(template.quantities), 2 if template.any_number else 1)]
    filled = template.filled(shown)
    assert left([filled]) == []
    assert all(number in NOBODYS.says(filled) for number in shown)


@pytest.mark.parametrize(
    ("place", "said"),
    [
        (0, "missing digit .42 plus 0.27 equals 3.69"),
        (-1, "3. missing digit 2 plus 0.27 equals 3.69"),
        (-2, "3.4 missing digit plus 0.27 equals 3.69"),
    ],
)
def test_a_missing_digit_is_read_aloud_beside_its_point(place: int, said: str) -> None:
    assert MissingDigit(0, place).said(question("3.42 + 0.27")) == said


def test_english_of_another_land_has_its_money() -> None:
    (pots,) = (one for one in templates() if one.name == "price-of-pots")
    read = question("2.50 × 3")
    form = InWords.by(read, [pots])
    assert form is not None
    said = usage("Germany", ENGLISH).says(form.asked(read))
    assert said == "One flower pot costs 2,50\N{NO-BREAK SPACE}€. What do 3 such pots cost?"
