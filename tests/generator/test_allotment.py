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
    A piece of 3.75 m is cut off 20 m of twine. How much twine is left?
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
    Each litre of water needs 2.5 g of plant feed. How much feed goes into 40 litres?
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
    A trough is 1.5 m long, 0.4 m wide and 0.3 m deep inside. What is the volume inside it?
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
seed-order (money): 1.99 + 3.45
    Seed packets in an order cost £1.99 and £3.45. What does the order cost?
    = £5.44
market-days (money): 124.50 + 98.75
    On its market days the stall took £124.50 and £98.75. What did it take in all?
    = £223.25
tool-shed (money): 24.99 + 7.50
    Tools for the shed cost £24.99 and £7.50. How much was spent altogether?
    = £32.49
raffle-tables (money): 45.20 + 32 + 18.60
    The tables of the autumn fair took £45.20, £32 and £18.60. How much was taken?
    = £95.80
jam-and-cake (money): 12.40 + 8.75
    Jams and cakes earned the stall £12.40 and £8.75. How much is that altogether?
    = £21.15
small-change (money): 3.35 + 0.80
    The cash boxes hold £3.35 and £0.80 in coins. How much money is that altogether?
    = £4.15
squash-weights (mass): 2.4 + 3.15
    Squashes of 2.4 kg and 3.15 kg are packed in one box. What is the mass of the squashes?
    = 5.55 kg
berry-punnets (mass): 250 + 187.5
    Punnets of berries hold 250 g and 187.5 g. What mass of berries is that?
    = 437.5 g
wheelbarrow-loads (mass): 62.5 + 58.25
    Barrow loads of gravel have a mass of 62.5 kg and 58.25 kg. What is the mass of all the
    gravel?
    = 120.75 kg
hedge-sides (length): 4.5 + 2.75
    Hedges of 4.5 m and 2.75 m are planted along the sides of a bed. How long is the hedge in
    all?
    = 7.25 m
hose-pieces (length): 15 + 12.5
    Hoses of 15 m and 12.5 m are joined end to end. How long is the hose that they make?
    = 27.5 m
bean-rows (length): 3.6 + 2.45
    Rows of beans are 3.6 m and 2.45 m long. How long are they altogether?
    = 6.05 m
walk-to-market (length): 1.2 + 0.85
    The walk to the market has parts of 1.2 km and 0.85 km. How long is the whole walk?
    = 2.05 km
buckets-filled (capacity): 8.5 + 6.75
    Buckets are filled with 8.5 litres and 6.75 litres of water. How much water is that?
    = 15.25 litres
feed-mixed (capacity): 1.5 + 0.25
    Liquid feeds of 1.5 litres and 0.25 litres are mixed in a can. How much liquid is in the
    can?
    = 1.75 litres
rain-collected (capacity): 42.5 + 18.25
    Week by week the roof gave 42.5 litres and 18.25 litres of rainwater. How much did it give
    in all?
    = 60.75 litres
soup-pots (capacity): 7.5 + 12
    Pots of soup for the fair hold 7.5 litres and 12 litres. How much soup is there?
    = 19.5 litres
compost-tubs (capacity): 25 + 12.5
    Tubs are filled with 25 litres and 12.5 litres of potting soil. How much soil is that?
    = 37.5 litres
change-from-note (money): 10 − 3.65
    A customer's vegetables cost £3.65. The customer pays with a £10 note. How much change is
    there?
    = £6.35
price-cut (money): 8.50 − 6.75
    A tray of plants was £8.50 and is now £6.75. How much cheaper is it?
    = £1.75
saved-for-bench (money): 145 − 87.50
    A bench costs £145, and £87.50 is saved for it. How much is still to be saved?
    = £57.50
left-after-seeds (money): 75 − 28.40
    The garden has £75 to spend, and £28.40 goes on seeds. How much is left?
    = £46.60
carrot-tops (mass): 2.5 − 1.85
    Carrots with their tops have a mass of 2.5 kg; without them, 1.85 kg. What is the mass of
    the tops?
    = 0.65 kg
lighter-pumpkin (mass): 9.4 − 2.75
    The heaviest pumpkin is 9.4 kg and the lightest 2.75 kg. What is the difference in mass?
    = 6.65 kg
seed-sown (mass): 75 − 12.5
    A tin holds 75 g of seed, and 12.5 g is sown. How much seed is left?
    = 62.5 g
flour-for-scones (mass): 3.2 − 0.75
    A tub has 3.2 kg of flour, and 0.75 kg goes into scones for the fair. How much is left?
    = 2.45 kg
dried-herbs (mass): 120 − 18.5
    Fresh herbs have a mass of 120 g. Dried, they have a mass of 18.5 g. How much mass have
    they lost?
    = 101.5 g
shorter-plank (length): 2.4 − 1.85
    A plank is 2.4 m long and a shelf needs 1.85 m. How much is sawn off?
    = 0.55 m
path-still-to-lay (length): 18 − 7.25
    A path is to be 18 m long, and 7.25 m of it is laid. How much is still to be laid?
    = 10.75 m
seedling-taller (length): 14.2 − 9.7
    A seedling was 9.7 cm tall and is now 14.2 cm. How much has it grown?
    = 4.5 cm
way-still-to-go (length): 6.4 − 2.75
    The walk to the market is 6.4 km, and 2.75 km of it is done. How far is left?
    = 3.65 km
net-cut (length): 9 − 3.4
    A net is 9 m long, and 3.4 m is cut off for the peas. How long is what is left?
    = 5.6 m
can-half-poured (capacity): 9 − 3.75
    A watering can holds 9 litres, and 3.75 litres is poured out. How much is still in it?
    = 5.25 litres
barrel-leak (capacity): 120 − 97.5
    A barrel held 120 litres in the evening and 97.5 litres in the morning. How much has run
    out?
    = 22.5 litres
tank-to-fill (capacity): 500 − 287.5
    A tank can hold 500 litres and has 287.5 litres in it. How much more can it hold?
    = 212.5 litres
squash-poured (capacity): 24 − 17.25
    The fair has 24 litres of fruit squash, and 17.25 litres is drunk. How much is left?
    = 6.75 litres
soil-used (capacity): 40 − 12.5
    A sack has 40 litres of potting soil, and 12.5 litres goes into pots. How much is left?
    = 27.5 litres
larger-pot (capacity): 7.5 − 2.25
    A large pot takes 7.5 litres of soil and a small one 2.25 litres. How much more does the
    large one take?
    = 5.25 litres
price-of-pots (money): 1.45 × 8
    One flower pot costs £1.45. What do 8 such pots cost?
    = £11.60
price-of-length (money): 2.40 × 3.5
    Edging costs £2.40 a metre. What does 3.5 m of it cost?
    = £8.40
price-of-soil (money): 0.35 × 40
    Potting soil costs £0.35 a litre. What does 40 litres of it cost?
    = £14
punnets-sold (money): 2.25 × 14
    A punnet of raspberries is £2.25. What do 14 punnets cost?
    = £31.50
entry-tickets (money): 3.50 × 24
    A ticket for the autumn fair is £3.50. What do 24 tickets cost?
    = £84
hire-hours (money): 6.75 × 4
    A trailer is hired at £6.75 an hour. What does it cost for 4 hours?
    = £27
sacks-carried (mass): 7.5 × 6
    One sack of onions has a mass of 7.5 kg. What is the mass of 6 sacks?
    = 45 kg
bulbs-in-net (mass): 42.5 × 8
    One bulb has a mass of 42.5 g. What is the mass of 8 bulbs?
    = 340 g
harvest-per-plant (mass): 2.4 × 15
    A tomato plant gives 2.4 kg of tomatoes. How much do 15 plants give?
    = 36 kg
gravel-per-metre (mass): 32.5 × 4
    One metre of path takes 32.5 kg of gravel. How much gravel does 4 m take?
    = 130 kg
canes-length (length): 1.8 × 7
    One cane is 1.8 m long. How long are 7 canes end to end?
    = 12.6 m
rows-of-peas (length): 4.5 × 9
    Each row of peas is 4.5 m long. How long are 9 rows altogether?
    = 40.5 m
growth-by-day (length): 3.5 × 14
    A runner bean grows 3.5 cm a day. How much does it grow in 14 days?
    = 49 cm
netting-for-beds (length): 6.25 × 8
    A bed needs 6.25 m of netting. How much do 8 beds need?
    = 50 m
barrow-trips (length): 37.5 × 12
    A trip with the barrow is 37.5 m. How far is it in 12 trips?
    = 450 m
labels-in-line (length): 7.5 × 24
    One plant label is 7.5 cm long. How long are 24 labels end to end?
    = 180 cm
cans-carried (capacity): 7.5 × 12
    A can holds 7.5 litres. How much water do 12 full cans hold?
    = 90 litres
pots-of-soil (capacity): 2.4 × 15
    A pot takes 2.4 litres of soil. How much do 15 pots take?
    = 36 litres
water-per-metre (capacity): 4.5 × 6
    One metre of bed needs 4.5 litres of water. How much water does 6 m need?
    = 27 litres
jugs-for-fair (capacity): 1.25 × 16
    A jug holds 1.25 litres of lemonade. How much do 16 jugs hold?
    = 20 litres
spray-tank (capacity): 2.5 × 6
    A sprayer takes 2.5 litres each time it is filled. How much do 6 fillings take?
    = 15 litres
price-of-one-pot (money): 17.40 ÷ 6
    A pack of 6 flower pots costs £17.40. What does one pot cost?
    = £2.90
seed-swap-share (money): 145.50 ÷ 3
    The fair took £145.50. It is shared equally between 3 gardens. How much does each get?
    = £48.50
bill-shared (money): 64.80 ÷ 4
    A bill of £64.80 for compost is shared equally by 4 gardeners. What does each pay?
    = £16.20
price-of-one-metre (money): 22.50 ÷ 9
    A roll of 9 m of fleece costs £22.50. What does one metre cost?
    = £2.50
plants-for-money (money): 31.50 ÷ 4.50
    A plant costs £4.50. How many can be bought for £31.50?
    = 7 plants
crates-equal (mass): 94.5 ÷ 7
    A load of 94.5 kg of apples fills 7 crates equally. What mass is in each?
    = 13.5 kg
one-bulb (mass): 340 ÷ 8
    Together 8 bulbs have a mass of 340 g. What is the mass of each, if all are alike?
    = 42.5 g
nets-filled (mass): 31.5 ÷ 4.5
    How many nets of 4.5 kg can be filled with 31.5 kg of onions?
    = 7 nets
compost-each-metre (mass): 87.5 ÷ 7
    A bed of 7 m gets 87.5 kg of compost. How much is that for each metre?
    = 12.5 kg
cane-cut (length): 2.4 ÷ 8
    A cane of 2.4 m is cut into 8 equal stakes. How long is each?
    = 0.3 m
beds-along-path (length): 31.5 ÷ 9
    A path of 31.5 m has 9 beds of equal length along it, end to end. How long is each bed?
    = 3.5 m
growth-a-day (length): 49 ÷ 14
    In 14 days a bean grew 49 cm. How much is that a day, if it grew evenly?
    = 3.5 cm
stakes-along-fence (length): 31.5 ÷ 4.5
    A fence of 31.5 m is made of panels of 4.5 m. How many panels are there?
    = 7 panels
stages-equal (length): 8.4 ÷ 6
    A walk of 8.4 km to the market is split into 6 equal stages. How long is each stage?
    = 1.4 km
jugs-filled (capacity): 31.5 ÷ 4.5
    How many jugs of 4.5 litres can be filled with 31.5 litres of lemonade?
    = 7 jugs
pots-filled (capacity): 37.5 ÷ 15
    A sack with 37.5 litres of soil fills 15 pots equally. How much goes into each?
    = 2.5 litres
water-each-metre (capacity): 31.5 ÷ 7
    A row of 7 m gets 31.5 litres of water. How much is that for each metre?
    = 4.5 litres
tanks-emptied (capacity): 262.5 ÷ 7
    A tank of 262.5 litres is used up evenly over 7 days. How much is that a day?
    = 37.5 litres
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
COUNTED: Final = {
    *("bags", "pieces", "sacks", "cans", "trays", "bottles", "plants", "nets", "panels", "jugs")
}
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
