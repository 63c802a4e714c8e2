"""The allotment's sentences, each worked by hand once: what stands where, in which unit.

The table was read sentence by sentence against the calculation; no source but sense. Units of a
kind are those of everyday measuring (SI units and those accepted with them: BIPM, The International
System of Units, 9th edition, tables 2 and 8).
"""

import re
from collections.abc import Iterator
from typing import Final

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.in_words import InWords, fits
from generator.packs.pack import Item
from generator.results.marking import asked_of
from specs.contexts import Template, templates
from specs.replies import read_answer

WORKED: Final = """\
takings (money): 4.50 + 12 + 0.75
    The stall took £4.50, £12 and £0.75. How much is that altogether?
    = £17.25
till-slip (money): 1.20 + 2.35
    A customer's vegetables cost £1.20 and £2.35. What is the bill?
    = £3.55
harvest (mass): 12.5 + 20.25
    Crates of potatoes with a mass of 12.5 kg and 20.25 kg are put on one trolley. What is the
    mass altogether?
    = 32.75 kg
salad-bags (mass): 0.25 + 0.4
    Bags of salad have a mass of 0.25 kg and 0.4 kg. What is the mass of all the bags?
    = 0.65 kg
herb-bunches (mass): 12.5 + 30
    Bunches of herbs have a mass of 12.5 g and 30 g. What is the mass of all the bunches?
    = 42.5 g
seed-packets (mass): 1.25 + 2.5
    Packets of seed have a mass of 1.25 g and 2.5 g. What is the mass of all the seed?
    = 3.75 g
compost-heap (mass): 250.5 + 100
    Loads of compost with a mass of 250.5 kg and 100 kg were delivered. What was the mass
    altogether?
    = 350.5 kg
path-stretches (length): 12.4 + 3.75
    A path is laid in stretches of 12.4 m and 3.75 m. How long is the whole path?
    = 16.15 m
shelf-lengths (length): 1.2 + 0.85
    Planks of 1.2 m and 0.85 m are put end to end for a shelf. How long is the shelf?
    = 2.05 m
seedling-growth (length): 2.5 + 3.7
    Over the weeks a seedling grew 2.5 cm and 3.7 cm. How much did it grow altogether?
    = 6.2 cm
delivery-round (length): 3.4 + 12
    A delivery goes in stages of 3.4 km and 12 km. How far is it in all?
    = 15.4 km
watering (capacity): 4.5 + 7.25
    Watering cans hold 4.5 litres and 7.25 litres. How much do they hold altogether?
    = 11.75 litres
juice-jugs (capacity): 0.75 + 1.5
    Jugs with 0.75 litres and 1.5 litres of apple juice are poured together. How much juice is
    that?
    = 2.25 litres
tank-water (capacity): 120.5 + 64
    Rainwater ran into a tank: 120.5 litres and 64 litres. How much ran in altogether?
    = 184.5 litres
change (money): 25 − 7.50
    There is £25 in the till and £7.50 of it goes on seeds. How much is left in the till?
    = £17.50
dearer (money): 4.20 − 3.50
    A box of plums costs £4.20 and a box of apples costs £3.50. How much dearer is the box of
    plums?
    = £0.70
dearer-tool (money): 64.50 − 19.95
    A wheelbarrow costs £64.50 and a spade costs £19.95. How much dearer is the wheelbarrow?
    = £44.55
stall-target (money): 120 − 84.50
    The stall hopes to take £120 and has taken £84.50 so far. How much is still to come?
    = £35.50
sack-used (mass): 40 − 12.5
    A sack holds 40 kg of compost. The gardener uses 12.5 kg. How much is left?
    = 27.5 kg
bean-jar (mass): 1.5 − 0.35
    A jar holds 1.5 kg of dried beans, and 0.35 kg is taken out. How much is left?
    = 1.15 kg
stock-sold (mass): 400 − 126.5
    The stall had 400 kg of potatoes for the season and has sold 126.5 kg. How much is not sold
    yet?
    = 273.5 kg
twine-cut (length): 20 − 3.75
    From 20 m of twine a piece of 3.75 m is cut off. How much twine is left?
    = 16.25 m
taller-sunflower (length): 2.15 − 0.9
    A sunflower is 2.15 m tall and a bean plant 0.9 m. How much taller is the sunflower?
    = 1.25 m
fence-to-paint (length): 36 − 14.5
    A fence is 36 m long, and 14.5 m of it is painted. How much is still to be painted?
    = 21.5 m
butt-emptied (capacity): 200 − 45.5
    A water butt holds 200 litres, and 45.5 litres is used on the beds. How much is left?
    = 154.5 litres
jug-poured (capacity): 2.5 − 0.75
    A jug holds 2.5 litres of apple juice, and 0.75 litres is poured out. How much is left?
    = 1.75 litres
price-for-mass (money): 4.20 × 2.5
    Cherries cost £4.20 a kilogram. What is the price of 2.5 kg?
    = £10.50
price-for-many (money): 0.85 × 12
    One bunch of carrots costs £0.85. How much do 12 bunches cost?
    = £10.20
crates-of-mass (mass): 12.5 × 8
    One crate of apples has a mass of 12.5 kg. What is the mass of 8 such crates?
    = 100 kg
grams-of-seed (mass): 2.5 × 40
    One packet holds 2.5 g of seed. How much seed do 40 packets hold?
    = 100 g
compost-per-metre (mass): 3.5 × 12
    Each metre of a bed needs 3.5 kg of compost. How much is needed for 12 m?
    = 42 kg
feed-per-litre (mass): 2.5 × 40
    Plant feed is mixed at 2.5 g to a litre of water. How much feed goes into 40 litres?
    = 100 g
pieces-of-length (length): 4.5 × 6
    One bed takes 4.5 m of edging. How much edging do 6 beds take?
    = 27 m
scale-plan (length): 2.5 × 12
    On a plan of the allotment 1 cm stands for 2.5 m. A path is 12 cm long on the plan. How
    long is the path?
    = 30 m
hose-minutes (capacity): 8.5 × 6
    A hose gives 8.5 litres a minute. How much water does it give in 6 minutes?
    = 51 litres
bottles-of-juice (capacity): 0.75 × 24
    One bottle holds 0.75 litres of juice. How much do 24 bottles hold?
    = 18 litres
trough-of-soil (capacity): 1.5 × 0.4 × 0.3
    A trough is 1.5 m long, 0.4 m wide and 0.3 m deep inside. What is its capacity?
    = 0.18 m³
share-takings (money): 84.50 ÷ 5
    The stall's £84.50 is shared equally between 5 projects. How much does each get?
    = £16.90
price-each (money): 31.50 ÷ 6
    A gardener pays £31.50 for 6 trays of seedlings. What does one tray cost?
    = £5.25
share-mass (mass): 31.5 ÷ 6
    A gardener shares 31.5 kg of potatoes equally between 6 sacks. How much goes into each?
    = 5.25 kg
bags-filled (mass): 4.8 ÷ 0.4
    How many bags of 0.4 kg can be filled from 4.8 kg of salad?
    = 12 bags
seed-per-metre (mass): 4.5 ÷ 1.5
    A row of 1.5 m takes 4.5 g of seed. How much seed is that for each metre?
    = 3 g
share-length (length): 7.5 ÷ 6
    A roll of 7.5 m of netting is cut into 6 equal pieces. How long is each piece?
    = 1.25 m
pieces-cut (length): 6.3 ÷ 0.7
    How many pieces of 0.7 m can be cut from 6.3 m of twine?
    = 9 pieces
pieces-with-rest (length): 100 ÷ 7
    A reel holds 100 m of twine. How many pieces of 7 m can be cut from it, and how much is
    left over?
    = 14 pieces and 2 m left over
sacks-with-rest (mass): 100 ÷ 7
    The harvest is 100 kg of potatoes. How many sacks of 7 kg does it fill, and how much is
    left over?
    = 14 sacks and 2 kg left over
cans-with-rest (capacity): 100 ÷ 7
    A tank holds 100 litres. How many cans of 7 litres can be filled from it, and how much is
    left over?
    = 14 cans and 2 litres left over
trays-with-rest (money): 100 ÷ 7
    The stall has £100 to spend on trays at £7 each. How many can it buy, and how much money is
    left over?
    = 14 trays and £2 left over
share-water (capacity): 31.5 ÷ 6
    The gardener shares 31.5 litres of water equally between 6 beds. How much does each bed get?
    = 5.25 litres
bottles-filled (capacity): 4.5 ÷ 0.75
    How many bottles of 0.75 litres can be filled with 4.5 litres of juice?
    = 6 bottles
litres-a-minute (capacity): 31.5 ÷ 6
    A tap gives 31.5 litres of water in 6 minutes. How much is that a minute?
    = 5.25 litres
"""

SIGNS: Final = {
    "+": Operation.ADD,
    "−": Operation.SUBTRACT,
    "×": Operation.MULTIPLY,
    "÷": Operation.DIVIDE,
}
UNITS: Final = {
    "money": {"£"},
    "mass": {"g", "kg"},
    "length": {"cm", "m", "km"},
    "capacity": {"litres", "m³"},
}
COUNTED: Final = {"bags", "pieces", "sacks", "cans", "trays", "bottles"}
BY_NAME: Final = {template.name: template for template in templates()}


def worked() -> Iterator[tuple[str, str, str, str, str]]:
    """The name, kind, calculation, sentence and answer of each entry."""
    for entry in re.split(r"\n(?=\S)", WORKED.strip()):
        head, *lines = entry.splitlines()
        name, kind, calculation = re.fullmatch(r"([a-z-]+) \((\w+)\): (.+)", head).groups()  # type: ignore[union-attr]
        said, answer = " ".join(map(str.strip, lines)).split(" = ")
        yield name, kind, calculation, said, answer


def question(template: Template, calculation: str, ending: Ending | None = None) -> Question:
    sign = next(sign for sign in SIGNS if f" {sign} " in calculation)
    numbers = tuple(map(Number.parse, calculation.split(f" {sign} ")))
    usual = Ending.REMAINDER if template.left_over else Ending.EXACT
    return Question(SIGNS[sign], numbers, ending or usual)


@pytest.mark.parametrize(("name", "kind", "calculation", "says", "answer"), tuple(worked()))
def test_each_sentence_asks_for_its_calculation_in_its_units(
    name: str, kind: str, calculation: str, says: str, answer: str
) -> None:
    template = BY_NAME[name]
    asked = question(template, calculation)
    assert (template.kind, template.operation) == (kind, str(asked.operation))
    said = InWords.by(asked, [template])
    assert said is not None
    assert said.sentence.replace("\N{NO-BREAK SPACE}", " ") == says
    assert said.answer.replace("\N{NO-BREAK SPACE}", " ") == answer
    asks = asked_of(Item("a", "rung", asked, "", (), form=said))
    assert asks.right_in(read_answer(said.answer, asks)), "its own answer is marked right"


def test_every_sentence_that_ships_is_worked_here() -> None:
    assert [name for name, *_ in worked()] == [template.name for template in templates()]


@pytest.mark.parametrize("template", templates(), ids=lambda template: template.name)
def test_units_are_those_of_the_kind(template: Template) -> None:
    """Sums and differences have one unit throughout; what is counted has no kind."""
    answer = template.answer.unit
    if template.operation in ("add", "subtract"):
        assert {quantity.unit for quantity in template.quantities} == {answer}
    if template.left_over is not None:
        assert {quantity.unit for quantity in template.quantities} == {template.left_over.unit}
        assert answer in COUNTED
        assert template.left_over.unit in UNITS[template.kind]
    elif answer in COUNTED:  # how often one goes into the other
        (unit,) = {quantity.unit for quantity in template.quantities}
        assert unit in UNITS[template.kind]
    else:
        assert answer in UNITS[template.kind]


def test_nothing_counted_and_no_money_is_about_so_much() -> None:
    """About £4.43 each is not what seven get who share £31, nor about 101 bags what is filled."""
    for template in templates():
        for calculation in ("31 ÷ 7", "80.7 ÷ 0.8", "9.5 ÷ 7"):
            asked = Question(
                Operation.DIVIDE, question(template, calculation).operands, Ending.ROUNDED, 2
            )
            if template.answer.unit in COUNTED | {"£"}:
                assert not fits(template, asked), template.name
    rounded = Question(Operation.DIVIDE, (Number(31), Number(7)), Ending.ROUNDED, 2)
    assert fits(BY_NAME["share-mass"], rounded)
