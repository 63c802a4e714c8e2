"""How often the diagnosis is right, wrong and silent: ``python -m tests.bench.diagnosis``.

Simulated pupils (``simulated_pupils``) answer questions that are half additions, half
subtractions, from two rungs, once as they come and once with ``tells_apart`` naming the eight
habits that the pupils have, four for each operation. Then the same under slips of six makes;
for pupils with two habits; alone and in a class; and how often what is said with a chance is
right, with every procedure equally common and all makes together. ``--quick`` takes fewer packs;
``--plot`` writes the last as ``tests/bench/reliability.svg``.
"""

import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Final

from generator.arithmetic.questions import Question
from generator.numbered.seeds import Dice, key
from generator.operations.mistakes import Mistake, mistake_named
from generator.results.diagnosis import NAMED_FROM, Finding, Kind, diagnose, diagnose_class
from generator.results.how_sure import how_sure
from generator.results.posterior import evidence_of, posterior
from generator.results.pupil_model import PROCEDURES
from tests.bench import reliability
from tests.bench.simulated_pupils import COPYING, MAKES, TOLD_APART, pupil, questions

SIZES: Final = (4, 6, 9, 12, 18, 27)
PACKS: Final = 12
FEWER_PACKS: Final = 6
"""How many packs for the first table, and for the others."""

QUICK_PACKS: Final = 2
PUPILS: Final = 10
"""So many pupils with each habit, and ten times as many without one, on each pack."""

WITHOUT: Final = 10
CLASS: Final = 30
PICTURE: Final = Path(__file__).with_name("reliability.svg")
HABITS: Final = {name: tuple(map(mistake_named, names)) for name, names in TOLD_APART.items()}
ALL_HABITS: Final = (*HABITS["sums"], *HABITS["differences"])

Outcomes = Counter[str]


def outcome(finding: Finding, habit: Mistake | None) -> str:
    """Whether a finding is right, wrong, or withheld."""
    if finding.kind in (Kind.NOT_ENOUGH, Kind.NOT_THERE):
        return "withheld"
    if finding.kind is not Kind.HABIT:
        return "unseen" if habit else "right"
    named = [habit in one.mistakes for one in finding.habits]
    return "right" if all(named) else "wrong"


def simulated(
    size: int,
    packs: int,
    *,
    told_apart: bool,
    make: str = "a digit one out",
    pupils: int = PUPILS,
) -> tuple[Outcomes, Outcomes]:
    """The outcomes for pupils with a habit and for pupils without one."""
    with_habit: Outcomes = Counter()
    without: Outcomes = Counter()
    neighbours = ALL_HABITS if make == COPYING else ()
    salt = () if make == "a digit one out" else (make,)
    for seed in range(packs):
        asked = questions(size, seed, told_apart=told_apart)
        for habit in ALL_HABITS:
            for number in range(pupils):
                dice = Dice(key("diagnosis", *salt, size, seed, habit.name, number))
                attempts = pupil(asked, (habit,), dice, make, neighbours)
                with_habit[outcome(diagnose(attempts), habit)] += 1
        for number in range(pupils * WITHOUT):
            dice = Dice(key("diagnosis", *salt, size, seed, number))
            attempts = pupil(asked, (), dice, make, neighbours)
            without[outcome(diagnose(attempts), None)] += 1
    return with_habit, without


def percent(count: int, of: int) -> str:
    """A share as a whole percentage; ``<1%`` for what is rare."""
    share = Fraction(count, of) if of else Fraction(0)
    if 0 < share < Fraction(1, 200):
        return "<1%"
    return f"{round(100 * share)}%"


_OUTCOMES: Final = (
    "| habit named rightly | another named | called secure or slips | withheld "
    "| no habit: none named | one named | withheld |",
    "| ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
)


def _cells(with_habit: Outcomes, without: Outcomes) -> list[str]:
    return [
        *(percent(with_habit[n], with_habit.total()) for n in ("right", "wrong")),
        *(percent(with_habit[n], with_habit.total()) for n in ("unseen", "withheld")),
        *(percent(without[n], without.total()) for n in ("right", "wrong", "withheld")),
    ]


def by_size(packs: int) -> Iterator[str]:
    """The outcomes by how many questions are asked, chosen or not."""
    head, rule = _OUTCOMES
    yield f"| questions | chosen {head}"
    yield f"| ---: | --- {rule}"
    for size in SIZES:
        for told_apart in (False, True):
            outcomes = simulated(size, packs, told_apart=told_apart)
            chosen = "to tell apart" if told_apart else "as they come"
            yield f"| {' | '.join([str(size), chosen, *_cells(*outcomes)])} |"


def by_make(packs: int) -> Iterator[str]:
    """The outcomes under slips of each make."""
    head, rule = _OUTCOMES
    yield f"| questions told apart | slips {head}"
    yield f"| ---: | --- {rule}"
    for size in (6, 9):
        for make in MAKES:
            outcomes = simulated(size, packs, told_apart=True, make=make)
            yield f"| {' | '.join([str(size), make, *_cells(*outcomes)])} |"


def two_habits(packs: int) -> Iterator[str]:
    """Pupils with one habit in additions and another in subtractions."""
    yield "| questions told apart | both named | one of them | neither | another named |"
    yield "| ---: | ---: | ---: | ---: | ---: |"
    for size in (6, 9, 12, 18):
        outcomes: Outcomes = Counter()
        for seed in range(packs):
            asked = questions(size, seed, told_apart=True)
            for first in HABITS["sums"]:
                for second in HABITS["differences"]:
                    for number in range(5):
                        dice = Dice(key("two", size, seed, first.name, second.name, number))
                        finding = diagnose(pupil(asked, (first, second), dice))
                        found = [{first, second} & set(habit.mistakes) for habit in finding.habits]
                        outcomes[str(sum(map(bool, found)))] += 1
                        outcomes["another"] += not all(found)
        cases = sum(outcomes[count] for count in "012")
        shares = [percent(outcomes[count], cases) for count in (*"210", "another")]
        yield f"| {' | '.join([str(size), *shares])} |"


def in_a_class(packs: int) -> Iterator[str]:
    """Pupils of a class of 30 looked at alone, and with the class's other pupils."""
    yield (
        "| questions told apart | looked at | habit named rightly | another named "
        "| not named | no habit: one named |"
    )
    yield "| ---: | --- | ---: | ---: | ---: | ---: |"
    for size in (4, 6, 9):
        tallies = {
            "alone": (Counter[str](), Counter[str]()),
            "in the class": (Counter[str](), Counter[str]()),
        }
        for seed in range(2 * packs):
            asked = questions(size, seed, told_apart=True)
            dice = Dice(key("class", size, seed))
            common, other = (ALL_HABITS[dice.below(len(ALL_HABITS))] for _ in range(2))
            singles = [ALL_HABITS[dice.below(len(ALL_HABITS))] for _ in range(3)]
            habits = [*[common] * 6, *[other] * 3, *singles]
            of_pupils = [*habits, *[None] * (CLASS - len(habits))]
            answers = [
                pupil(asked, (habit,) if habit else (), Dice(key("class", size, seed, number)))
                for number, habit in enumerate(of_pupils)
            ]
            looks = {
                "alone": [*map(diagnose, answers)],
                "in the class": [one.finding for one in diagnose_class(answers)],
            }
            for look, findings in looks.items():
                for finding, habit in zip(findings, of_pupils, strict=True):
                    tallies[look][habit is None][outcome(finding, habit)] += 1
        for look, (with_habit, without) in tallies.items():
            whole = with_habit.total()
            rest = with_habit["withheld"] + with_habit["unseen"]
            cells = [
                percent(with_habit["right"], whole),
                percent(with_habit["wrong"], whole),
                percent(rest, whole),
                percent(without["wrong"], without.total()),
            ]
            yield f"| {' | '.join([str(size), look, *cells])} |"


def _is_so(habits: Sequence[Mistake], names: Sequence[Mistake]) -> bool:
    return any(habit in names for habit in habits)


def statements(packs: int) -> Iterator[tuple[float, bool]]:
    """The chance of every procedure that was likelier than one in twenty, and whether it was so.

    Half of the pupils have no habit, three of eight have one, and the rest one in additions and
    one in subtractions, of all procedures known there, each equally often; slips of all makes.
    """
    of_sums, of_differences = PROCEDURES["additions"], PROCEDURES["subtractions"]
    for size in (4, 6, 9, 12):
        for told_apart in (False, True):
            for seed in range(packs):
                asked = questions(size, seed, told_apart=told_apart)
                for make in MAKES:
                    for number in range(32):
                        yield from _statements(asked, make, number, of_sums, of_differences)


def _statements(
    asked: Sequence[Question],
    make: str,
    number: int,
    of_sums: Sequence[Mistake],
    of_differences: Sequence[Mistake],
) -> Iterator[tuple[float, bool]]:
    texts = [question.text for question in asked]
    dice = Dice(key("reliability", make, number, *texts))
    one = of_sums[dice.below(len(of_sums))]
    other = of_differences[dice.below(len(of_differences))]
    single = one if dice.below(2) else other
    habits = ((), (single,), (one, other))[(number % 8 >= 4) + (number % 8 == 7)]
    attempts = pupil(asked, habits, dice, make, ALL_HABITS if make == COPYING else ())
    for field in posterior(evidence_of(attempts)).fields:
        for possible in field.possible:
            if possible.chance >= reliability.EDGES[0]:
                yield min(possible.chance, 1.0), _is_so(habits, possible.mistakes)


def in_words(said: Sequence[tuple[float, bool]]) -> Iterator[str]:
    """What is said of habits that are named, word by word, and how often it was right."""
    yield "| a habit named, and said to be | how often | right |"
    yield "| --- | ---: | ---: |"
    counts: Counter[str] = Counter()
    right: Counter[str] = Counter()
    for chance, so in said:
        if chance >= NAMED_FROM:
            counts[how_sure(chance)] += 1
            right[how_sure(chance)] += so
    for words in ("9 in 10", "19 in 20", "almost certain"):
        yield f"| {words} | {counts[words]:,} | {percent(right[words], counts[words])} |"


def main(arguments: Sequence[str]) -> None:
    """Print the tables, one after another."""
    quick = "--quick" in arguments
    for rows in (by_size, by_make, two_habits, in_a_class):
        packs = QUICK_PACKS if quick else PACKS if rows is by_size else FEWER_PACKS
        for row in rows(packs):
            print(row, flush=True)
        print()
    said = [*statements(QUICK_PACKS if quick else FEWER_PACKS)]
    found = reliability.bins(said)
    print(reliability.table(found), end="\n\n")
    print("\n".join(in_words(said)))
    if "--plot" in arguments:
        PICTURE.write_text(reliability.drawn(found), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
