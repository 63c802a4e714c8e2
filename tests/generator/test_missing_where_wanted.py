"""``missing``: the number or the digit that is left out is the one that the teacher wants."""

import pytest

from generator.arithmetic.place_value import column_name
from generator.forms.asking import CannotBeAskedError
from generator.forms.missing import Missing
from generator.forms.missing_digit import MissingDigit
from generator.forms.missing_number import MissingNumber
from generator.packs.building import build_pack
from generator.packs.record import record
from generator.vocabulary import VOCABULARY
from rungsheet.desk import choices
from specs import SpecError, read_spec
from specs.writing import spec_text
from tests.generator.ladders import rung, spec

OF_FOUR = [
    "operation: add, places: 2, whole: 1, carries: some",
    "operation: subtract, places: 2, whole: 1, exchanges: some",
    "operation: multiply, digits: [2, 1], places: [1, 0]",
    "operation: divide, places: 1, dividend: {digits: 3}",
]


def gaps(text: str) -> list[Missing]:
    """What is left out of the questions of a pack."""
    lesson = spec(f"rung: {{{text}}}", "examples: [rung]\ntiers:\n  core: {rung: 8}\n")
    found = []
    for section in build_pack(lesson, 3, 2).sections:
        for item in section.items:
            assert isinstance(item.form, Missing)
            assert item.form.fillings(item.question) == 1
            found.append(item.form)
    return found


@pytest.mark.parametrize("conditions", OF_FOUR)
@pytest.mark.parametrize(("word", "operand"), [("first", 0), ("second", 1)])
def test_the_number_that_is_wanted(conditions: str, word: str, operand: int) -> None:
    found = gaps(f"{conditions}, missing: {word}")
    assert {type(form) for form in found} == {MissingNumber}
    assert {form.operand for form in found} == {operand}


@pytest.mark.parametrize("conditions", OF_FOUR)
def test_the_digit_that_is_wanted(conditions: str) -> None:
    found = gaps(f"{conditions}, missing: {{digit: [tenths, ones], of: answer}}")
    assert {type(form) for form in found} == {MissingDigit}
    assert {form.operand for form in found} == {None}
    assert {column_name(form.place or 0) for form in found} <= {"ones", "tenths"}
    of_any = gaps(f"{conditions}, missing: {{digit: ones}}")
    assert {form.place for form in of_any} == {0}
    assert len({form.operand for form in of_any}) > 1


def test_questions_are_those_of_the_rung_without_it() -> None:
    """What is left out changes no calculation, and is written in the record."""
    ladder = "rung: {operation: add, places: 2, whole: 1, missing: {digit: tenths, of: second}}"
    lesson = spec(ladder, "tiers:\n  core: {rung: 4}\n")
    for one in record(build_pack(lesson, 1))["sections"][0]["questions"]:
        assert one["hidden"]["number"] == 2
        assert one["hidden"]["place"] == "tenths"
        assert one["hidden"]["is"] == one["operands"][1][-2]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("operation: add, missing: fist", "did you mean 'first'?"),
        ("operation: add, missing: {of: answer}", "'missing' has no 'digit'"),
        ("operation: add, missing: {digit: tenth, of: answer}", "'digit' in 'missing'"),
        (
            "operation: add, form: spot the mistake, missing: first",
            "'form: spot the mistake' does not go with 'missing: first'; leave 'form' out",
        ),
        ("operation: round, missing: first", "'missing' is not for 'operation: round'"),
    ],
)
def test_what_does_not_fit_is_told(text: str, problem: str) -> None:
    with pytest.raises(SpecError) as refused:
        rung(text)
    assert problem in str(refused.value)


@pytest.mark.parametrize(
    ("missing", "why"),
    [
        ("third", "no question of rung has a third number that can be left out"),
        ("{digit: thousandths, of: answer}", "has a digit in the thousandths of the answer"),
    ],
)
def test_what_no_question_has_is_told(missing: str, why: str) -> None:
    with pytest.raises(CannotBeAskedError) as refused:
        gaps(f"operation: add, places: 1, whole: 0, missing: {missing}")
    assert why in str(refused.value)
    assert "leave out 'missing'" in str(refused.value)


def test_written_and_read_again_it_is_the_same() -> None:
    ladder = (
        "a: {operation: add, missing: first}\n"
        "b: {operation: divide, places: 1, form: missing digit, missing: {digit: [ones, tenths]}}\n"
        "c: {operation: multiply, missing: {digit: ones, of: answer}}"
    )
    own = spec(ladder)
    again = read_spec(spec_text(own).encode(), "harvest.yaml", VOCABULARY)
    assert again.ladder == own.ladder
    assert [one.form for one in own.ladder] == ["missing number", "missing digit", "missing digit"]


def test_the_page_offers_it() -> None:
    own = spec(f"rung: {{{OF_FOUR[0]}, missing: first}}")
    (view,) = [view for view in choices.of_a_rung(own.ladder[0]) if view.word == "missing"]
    assert [choice.says for choice in view.control.choices if choice.chosen] == ["first"]
    asked = iter(["second", "third", {"digit": ["tenths"], "of": "answer"}, None])
    counts = [left.count for left in choices.left(own, "rung", "missing", asked)]
    assert counts[0] == counts[2] == counts[3]
    assert counts[1] == 0
