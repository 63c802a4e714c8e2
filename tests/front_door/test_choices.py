"""What a rung may be changed to: controls from the one vocabulary, and what each choice leaves."""

import re
from collections.abc import Iterator
from itertools import product
from typing import Final

import pytest

from generator.vocabulary import VOCABULARY
from rungsheet.desk import choices, editing, rungs, sentences, specs
from rungsheet.desk.choices import Choice, Control
from rungsheet.desk.problems import Refused
from specs.ladder import rung_words
from specs.spec import RungSpec
from tests.lessons_that_ship import EACH


def offered(control: Control) -> Iterator[Choice]:
    """Every choice of a control, and of those in it."""
    yield from control.choices
    for part in control.parts:
        yield from offered(part)


def controls(control: Control) -> Iterator[Control]:
    """A control and those in it."""
    yield control
    for part in control.parts:
        yield from controls(part)


@pytest.mark.parametrize("operation", VOCABULARY.operations)
def test_every_word_of_every_operation_has_a_control(operation: str) -> None:
    views = choices.of_a_rung(RungSpec("beans", operation, ()))
    assert [view.word for view in views] == list(rung_words(operation, VOCABULARY))
    for view in views:
        assert view.says
        assert list(offered(view.control)) or view.control.kind == "typed" or view.control.parts


@pytest.mark.parametrize("name", EACH)
def test_what_a_control_offers_is_what_its_word_takes(name: str) -> None:
    for rung in specs.read(specs.shipped_text(name)).ladder:
        offers_what_its_words_take(rung)


def offers_what_its_words_take(rung: RungSpec) -> None:
    words = rung_words(rung.operation, VOCABULARY)
    for view in choices.of_a_rung(rung):
        for control in controls(view.control):
            if control.kind == "one":
                assert sum(choice.chosen for choice in control.choices) == 1, control
        for choice in offered(view.control):
            if choice.value is not None and view.word != "operation":
                editing.value_of(words[view.word].shape, choice.value, view.word)
        if view.word in editing.said_by(rung):
            assert view.said


def made(name: str, word: str, value: object, text: str | None = None) -> int:
    """How many questions a rung has with another value for a word; none where that is refused."""
    text = text or specs.shipped_text()
    try:
        if word == "operation":
            changed = specs.read(editing.set_operation(text, name, str(value)))
        else:
            changed = specs.read(editing.set_word(text, name, word, value))
    except Refused:
        return 0
    (view,) = (one for one in rungs.count(changed) if one.rung.name == name)
    return view.questions


@pytest.mark.parametrize("name", ["over-the-point", "bed-areas"])
@pytest.mark.slow
def test_what_is_said_to_be_left_is_left(name: str) -> None:
    """Every fourth choice of a rung, made: as many questions as were told, or refused."""
    spec = specs.read(specs.shipped_text())
    for view in choices.of_a_rung(spec.rung(name)):
        if view.word in ("form", "context", "tells_apart"):
            continue
        values = [choice.value for choice in offered(view.control)][:17:4]
        left = [one.count for one in choices.left(spec, name, view.word, iter(values))]
        assert left == [made(name, view.word, value) for value in values], view.word


@pytest.mark.parametrize(
    "words",
    [
        "operation: add, places: 1 to 2, whole: 1 to 2, first: 3.46, second: 12.4",
        "operation: add, form: missing digit, carries: none",
        "operation: subtract, form: spot the mistake, places: 1",
        "operation: multiply, digits: [2, 1], places: [1, 0], context: any",
        "operation: divide, divisor: 4, form: missing number",
    ],
)
def test_another_operation_leaves_what_choosing_it_makes(words: str) -> None:
    text = f"title: T\nladder:\n  a: {{{words}}}\nstarter: {{a: 1}}\n"
    for operation in VOCABULARY.operations:
        (left,) = choices.left(specs.read(text), "a", "operation", iter([operation]))
        if left.count is not None:
            assert left.count == made("a", "operation", operation, text), operation
    if "first" in words:
        (left,) = choices.left(specs.read(text), "a", "operation", iter(["subtract"]))
        assert left.count


@pytest.mark.parametrize(
    ("name", "word"),
    [("equal-places", "places"), ("through-zeros", "places"), ("bed-areas", "digits")],
)
def test_what_would_leave_none_is_refused_with_the_reason(name: str, word: str) -> None:
    spec = specs.read(specs.shipped_text())
    (view,) = (view for view in choices.of_a_rung(spec.rung(name)) if view.word == word)
    values = [choice.value for choice in offered(view.control)]
    none = [
        value
        for value, left in zip(values, choices.left(spec, name, word, iter(values)), strict=True)
        if left.count == 0
    ]
    assert none
    for value in none[:3]:
        with pytest.raises(Refused) as refused:
            editing.set_word(specs.shipped_text(), name, word, value)
        assert refused.value.problems[0].what


@pytest.mark.parametrize(
    ("rung", "said"),
    [
        ("equal-places", "Add: 2 numbers, 2 decimal places, 1 digit before the point, no carries."),
        (
            "mixed-places",
            "Add: 3 numbers, 1 to 3 decimal places, not all alike, 1 to 2 carries, "
            "no carry across the point.",
        ),
        (
            "through-zeros",
            "Subtract: 3 decimal places, 1 digit before the point, an exchange through 2 noughts.",
        ),
        ("bed-areas", "Multiply: 2 digits, 1 decimal place, 1 to 2 carries."),
    ],
)
def test_a_rung_is_said_in_a_sentence(rung: str, said: str) -> None:
    assert sentences.sentence(specs.read(specs.shipped_text()).rung(rung)) == said


SENTENCES: Final = (
    ("divide, divisor: {between: [3, 9]}", "Divide: divisor 3 to 9."),
    (
        "divide, divisor: [4, 5, 8], ending: {decimal: 2}",
        "Divide: divisor 4, 5 or 8, carried on to 2 decimal places.",
    ),
    (
        "divide, divisor: {digits: 2}, ending: remainder, zero_in_quotient: require",
        "Divide: divisor of 2 digits, a remainder, a nought in the quotient.",
    ),
    ("divide, divisor: 7, ending: {rounded: 1}", "Divide: divisor 7, rounded to 1 decimal place."),
    (
        "divide, power_of_ten: {by: [ten, thousand], places: 1, whole: [1, 2]}",
        "Divide: by 10 or 1000, 1 decimal place, 1 to 2 digits before the point.",
    ),
    (
        "multiply, digits: [3, 1], places: [2, 0], ones: allow, zeros: {inside: require}",
        "Multiply: 3 then 1 digit, 2 then 0 decimal places, a nought inside a number, "
        "a factor may be a 1.",
    ),
    (
        "multiply, answer: {ends_in_zero: true, between: [1.5, 9]}",
        "Multiply: answer ends in a nought, answer 1.5 to 9.",
    ),
    (
        "add, repeats: forbid, first: 3.46, answer: {places: 1, below: 20}",
        "Add: no digit twice in a column, answer with 1 decimal place, answer below 20, "
        "first number 3.46.",
    ),
    (
        "subtract, places: {ragged: [1, 2]}, longer: second",
        "Subtract: 1 to 2 decimal places, not all alike, more decimal places in the second number.",
    ),
    (
        "round, to: [ones, tenths], goes: up, over_nine: forbid",
        "Round: to ones or tenths, the number goes up, not rounding up a nine.",
    ),
    ("order, same_to: tenths", "Put in order: alike down to the tenths."),
)
"""What a rung asks, as a teacher would say it."""


@pytest.mark.parametrize(("words", "said"), SENTENCES)
def test_conditions_are_said_as_a_teacher_says_them(words: str, said: str) -> None:
    text = f"title: T\nladder:\n  a: {{operation: {words}}}\nstarter: {{a: 1}}\n"
    (rung,) = specs.read(text).ladder
    assert sentences.sentence(rung) == said


@pytest.mark.parametrize("choice", ["allow", "require", "forbid"])
def test_no_choice_is_said_as_the_spec_writes_it(choice: str) -> None:
    told = 0
    for word in VOCABULARY.words:
        values = [choice, f"{{inside: {choice}}}", f"{{end: {choice}}}"]
        for operation, value in product(sorted(word.operations), values):
            rung = f"operation: {operation}, {word.name}: {value}"
            text = f"title: T\nladder:\n  a: {{{rung}}}\nstarter: {{a: 1}}\n"
            try:
                (read,) = specs.read(text).ladder
            except Refused:
                continue
            told += 1
            assert not re.search(f": .*{choice}(?!ed)", sentences.sentence(read)), rung
    assert told


@pytest.mark.parametrize("name", EACH)
def test_every_condition_is_in_the_sentence(name: str) -> None:
    for rung in specs.read(specs.shipped_text(name)).ladder:
        said = sentences.sentence(rung)
        assert said.count(",") + 1 >= len(rung.conditions)
        assert "_" not in said
