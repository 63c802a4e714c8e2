"""Questions in words: sensible quantities, units, and the calculation still on its rung."""

import re
from collections import Counter
from fractions import Fraction

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.asking import CannotBeAskedError
from generator.forms.in_words import InWords, fits, with_unit
from generator.operations.rungs import rung_set
from generator.packs.building import build_pack
from generator.packs.pack import Item
from generator.packs.record import record
from generator.results.marking import asked_of
from specs import lands
from specs.contexts import KINDS, Quantity, Template, read_templates, templates
from specs.languages.usage import PLAIN, Usage
from specs.problems import SpecError
from specs.replies import read_replies
from tests.generator.ladders import spec
from tests.untranslated import NOBODYS

LADDER = """
totals: {operation: add, addends: 3, places: {ragged: [1, 3]}, context: [mass, length]}
bills: {operation: add, places: 2, whole: {between: [1, 2]}, context: money}
left: {operation: subtract, places: {ragged: [1, 3]}, context: any}
"""
TWO_FIFTY = Question(Operation.MULTIPLY, (Number(250, 2), Number(3)))
GERMANY = Usage(lands.land("Germany"), NOBODYS)
SECTIONS = "examples: [totals]\ntiers:\n  core: {totals: 4, bills: 3, left: 4}\n"


def plain_number(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize(
    ("unit", "number", "written"),
    [
        ("kg", "3.67", "3.67 kg"),
        ("£", "4.5", "£4.50"),
        ("£", "12", "£12"),
        ("£", "0.30", "£0.30"),
        ("€", "4.5", "4.50 €"),
        ("litres", "1", "1 litre"),
        ("litres", "1.5", "1.5 litres"),
        ("", "7", "7"),
    ],
)
def test_quantities_are_written_with_their_units(unit, number, written):
    quantity = Quantity(unit, one="litre" if unit == "litres" else "")
    assert plain_number(with_unit(quantity, Number.parse(number))) == written


@pytest.mark.parametrize(
    ("land", "written"),
    [
        ("England", "ονε βυνξη οφ ξαρροτσ ξοστσ £2.50. ηοω μυξη δο 3 βυνξηεσ ξοστ?"),
        ("Germany", "ονε βυνξη οφ ξαρροτσ ξοστσ 2,50 €. ηοω μυξη δο 3 βυνξηεσ ξοστ?"),
    ],
)
def test_a_sentence_that_ships_has_the_language_of_the_pages_and_the_money_of_the_land(
    land, written
):
    (carrots,) = (template for template in templates() if template.name == "price-for-many")
    form = InWords.by(TWO_FIFTY, [carrots])
    said = plain_number(Usage(lands.land(land), NOBODYS).says(form.asked(TWO_FIFTY)))
    assert said.casefold().replace("ς", "σ") == written
    assert plain_number(form.reply(TWO_FIFTY)) == "£7.50"


def test_an_answer_may_have_the_unit_that_the_pages_have():
    (carrots,) = (template for template in templates() if template.name == "price-for-many")
    item = Item("a", "rung", TWO_FIFTY, "", (), form=InWords.by(TWO_FIFTY, [carrots]))
    for usage, right, wrong in ((PLAIN, "£7.50", "€7.50"), (GERMANY, "7,50 €", "£7.50")):
        asks = asked_of(item, usage)
        for text, is_right in ((right, True), (wrong, False)):
            assert asks.right_in(read_replies(text, asks)) is is_right


def test_a_teachers_own_sentence_stays_as_it_is_but_for_its_numbers():
    quantities = (Quantity("£"), Quantity(""))
    own = Template(
        "own", "money", "multiply", "Each is {first}; {second}?", quantities, Quantity("£")
    )
    form = InWords.by(TWO_FIFTY, [own])
    assert GERMANY.says(form.asked(TWO_FIFTY)) == "Each is £2,50; 3?"
    assert GERMANY.says(form.reply(TWO_FIFTY)) == "£7,50"


@pytest.mark.parametrize("template", templates(), ids=lambda t: t.name)
def test_a_template_has_sensible_quantities(template):
    """Sizes are bounded, money has no thousandths, and no name of a person is in the words."""
    for quantity in template.quantities:
        assert 0 < quantity.least < quantity.greatest <= 99999
        assert quantity.unit != "£" or set(quantity.places) <= {0, 2}
    assert template.says[0].isupper()
    assert template.says.endswith(("?", "."))
    gaps = re.findall(r"\{(\w+)\}", template.says)
    inside = set(re.findall(r"(?<=[a-z,] )[A-Z][a-z]+", template.says))
    assert not inside, "capitals inside a sentence would be names"
    assert sorted(gaps) == sorted(set(gaps))


def test_every_operation_can_be_about_everything():
    assert {(t.operation, t.kind) for t in templates()} == {
        (operation, kind)
        for operation in ("add", "subtract", "multiply", "divide")
        for kind in KINDS
    }


def test_there_are_at_least_eight_sentences_of_each_kind_and_operation():
    counts = Counter((template.operation, template.kind) for template in templates())
    assert min(counts.values()) >= 8, counts


def test_change_is_given_from_a_note():
    note = next(t for t in templates() if t.name == "change-from-note")
    paid = [Question(Operation.SUBTRACT, (Number(n), Number(365, 2))) for n in (10, 12, 20)]
    assert [fits(note, question) for question in paid] == [True, False, True]


def test_a_template_that_does_not_hold_together_is_found():
    with pytest.raises(ValueError, match="'seeds' does not hold together"):
        read_templates(
            "seeds: {kind: mass, operation: add, says: 'How much?', each: {unit: g}, answer: {}}"
        )


@pytest.mark.parametrize("seed", range(6))
def test_the_words_hold_the_numbers_and_the_calculation_stays_on_its_rung(seed):
    read = spec(LADDER, SECTIONS)
    for section in build_pack(read, seed, versions=2).sections:
        for item in section.items:
            assert isinstance(item.form, InWords)
            assert item.form.kind in read.rung(item.rung).context
            assert item.question in rung_set(read.rung(item.rung))
            said = [Fraction(n) for n in re.findall(r"\d+(?:\.\d+)?", item.form.sentence)]
            values = [number.value for number in item.question.operands]
            assert sorted(said) == sorted(values)
            reply = re.search(r"\d+(?:\.\d+)?", item.form.answer)
            assert reply
            assert Fraction(reply[0]) == item.question.answer.value


@pytest.mark.parametrize("seed", range(6))
def test_quantities_stay_in_the_ranges_of_their_templates(seed):
    known = {template.name: template for template in templates()}
    for section in build_pack(spec(LADDER, SECTIONS), seed).sections:
        for item in section.items:
            assert isinstance(item.form, InWords)
            template = known[item.form.template]
            quantities = template.quantities * (3 if template.any_number else 1)
            for quantity, number in zip(quantities, item.question.operands, strict=False):
                assert quantity.least <= number.value <= quantity.greatest
                assert number.places in quantity.places


def test_a_sheet_does_not_say_the_same_twice_where_that_can_be_helped():
    (section,) = build_pack(spec(LADDER, "tiers:\n  core: {left: 4}\n"), 2).sections
    assert len({item.form.template for item in section.items}) == 4


def test_example_pairs_say_the_same_of_other_numbers():
    pair = build_pack(spec(LADDER, SECTIONS), 4).sections[0].items
    assert pair[0].form.template == pair[1].form.template
    assert pair[0].form.sentence != pair[1].form.sentence


def product(*numbers: str) -> Question:
    return Question(Operation.MULTIPLY, tuple(map(Number.parse, numbers)))


def test_factors_may_stand_in_either_order():
    many = next(t for t in templates() if t.name == "price-for-many")
    assert fits(many, product("1.25", "16"))
    assert fits(many, product("16", "1.25"))
    said = InWords.by(product("16", "1.25"), [many])
    assert said
    assert said.sentence == "One bunch of carrots costs £1.25. How much do 16 bunches cost?"
    assert said.answer == "£20"


def test_money_never_has_thousandths():
    for question in (product("1.25", "0.3"), product("2.125", "0.3")):
        assert not [t for t in templates() if t.kind == "money" and fits(t, question)]


def test_a_remainder_goes_only_with_words_that_ask_for_it():
    left_over = Question(Operation.DIVIDE, (Number(432), Number(15)), Ending.REMAINDER)
    fitting = [t for t in templates() if fits(t, left_over)]
    assert fitting
    assert all(t.left_over for t in fitting)
    said = InWords.by(left_over, [t for t in fitting if t.name == "pieces-with-rest"])
    assert said
    assert plain_number(said.answer) == "28 pieces and 12 m left over"
    exact = Question(Operation.DIVIDE, (Number(430), Number(5)), Ending.EXACT)
    assert not [t for t in templates() if t.left_over and fits(t, exact)]


def test_the_record_holds_the_words():
    (question,) = record(build_pack(spec(LADDER, "tiers:\n  core: {bills: 1}\n"), 1))["sections"][
        0
    ]["questions"]
    assert question["form"] == "in words"
    assert question["context"] == "money"
    assert question["reply"].startswith("£")
    assert "\N{NO-BREAK SPACE}" not in question["asked"]


def test_a_rung_that_no_words_fit_is_refused():
    """A thousandth of a pound is no price."""
    read = spec("prices: {operation: add, places: 3, context: money}")
    with pytest.raises(CannotBeAskedError, match="can be put in words about money; there numbers"):
        build_pack(read, 1)


def shares(places, context):
    return spec(
        "shares: {operation: divide, dividend: {digits: 3}, places: 1, divisor: {between: [3, 9]}, "
        f"divisor_places: {{between: [0, 1]}}, ending: {{rounded: {places}}}, context: {context}}}"
    )


@pytest.mark.parametrize(("places", "context"), [(0, "mass"), (1, "any"), (2, "any")])
def test_what_is_counted_is_not_rounded(places, context):
    """From 80.7 kg 100 bags of 0.8 kg can be filled, though 100.875 is about 101."""
    (section,) = build_pack(shares(places, context), 1).sections
    units = {item.form.answer.split("\N{NO-BREAK SPACE}")[-1] for item in section.items}
    assert units <= {"kg", "g", "m", "litres"}


@pytest.mark.parametrize("places", [0, 1, 2])
def test_money_shared_out_is_not_rounded(places):
    """Seven shares of £4.43 are more than £31."""
    with pytest.raises(CannotBeAskedError):
        build_pack(shares(places, "money"), 1)


def test_an_unknown_context_is_refused():
    with pytest.raises(SpecError, match="'context' cannot be 'maas'; did you mean 'mass'"):
        spec("prices: {operation: add, context: maas}")
