"""How long a section takes where its teacher does not say (common practice, no source)."""

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.in_words import InWords
from generator.forms.known_fact import KnownFact
from generator.packs.building import build_pack
from generator.packs.pacing import usual_minutes
from generator.packs.pack import Item
from tests.generator.ladders import spec


def item(operation: str, *numbers: str, ending: Ending = Ending.EXACT) -> Item:
    asked = Question(Operation(operation), tuple(map(Number.parse, numbers)), ending)
    return Item("a", "any", asked, "", ())


@pytest.mark.parametrize(
    ("items", "least", "most"),
    [
        # Nine column questions, or a dozen short products: fifteen to twenty minutes.
        ([item("add", "3.4", "0.27")] * 9, 15, 20),
        ([item("subtract", "3.4", "0.27")] * 9, 15, 20),
        ([item("multiply", "342", "7")] * 12, 15, 20),
        # Six short questions that open a lesson: about ten minutes.
        ([item("add", "3.4", "0.27")] * 6, 10, 10),
    ],
)
def test_the_rule_of_thumb(items, least, most):
    assert least <= usual_minutes(items) <= most


def test_harder_questions_take_longer():
    short, long = item("multiply", "342", "7"), item("multiply", "124", "26")
    moved = item("multiply", "3.4", "100", ending=Ending.MOVED)
    assert usual_minutes([moved] * 10) < usual_minutes([short] * 10) < usual_minutes([long] * 10)
    said = Item("a", "any", short.question, "", (), form=InWords("mass", "x", "?", "3 kg"))
    assert usual_minutes([said] * 10) > usual_minutes([short] * 10)
    known = Item("a", "any", long.question, "", (), form=KnownFact(long.question))
    assert usual_minutes([known] * 10) == 10


def test_minutes_are_whole_fives():
    assert [usual_minutes([item("add", "1.2", "3.4")] * n) for n in range(7)] == [
        *(5, 5, 5, 5, 10, 10, 10)
    ]


def test_stated_minutes_stay_and_others_are_filled_in():
    ladder = "level: {operation: add, places: 2}"
    sections = (
        "starter: {minutes: 7, questions: {level: 2}}\nexamples: [level]\n"
        "tiers:\n  core: {level: 9}\n"
    )
    pack = build_pack(spec(ladder, sections), 1, versions=2)
    assert [section.minutes for section in pack.sections] == [7, None, 20, 20]


def test_a_half_goes_up():
    """Five short products take 7.5 minutes, which is ten; a product by one digit is short."""
    assert usual_minutes([item("multiply", "342", "7")] * 5) == 10
    assert usual_minutes([item("multiply", "342", "0.07")] * 5) == 10
    assert usual_minutes([item("add", "1.2", "3.4"), *[item("multiply", "342", "7")] * 3]) == 5
    assert usual_minutes([item("multiply", "12", "34")] * 4) == 10  # three minutes each
    assert usual_minutes([item("multiply", "12", "34")] * 5) == 15
