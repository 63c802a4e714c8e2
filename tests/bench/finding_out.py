"""Whether questions that find out do better: ``python -m tests.bench.finding_out``.

The simulated pupils of ``tests.bench.diagnosis`` answer the same number of questions of the same
two rungs, chosen in three ways: as they come; with ``tells_apart`` naming, by hand, eight habits;
and with ``finds_out: every habit``, which names none of them. Pupils have one of the eight or
another that the rungs can show. Then the same for unsteady pupils, and for those who copy. With
``--quick`` fewer pupils.
"""

import sys
from collections import Counter
from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.numbered.seeds import Dice, key
from generator.operations.mistakes import MISTAKES, mistake_named
from generator.packs.building import build_pack
from generator.results.diagnosis import Kind, diagnose
from generator.vocabulary import VOCABULARY
from specs import read_spec
from tests.bench.simulated_pupils import COPYING, RUNGS, TOLD_APART, UNSTEADY, pupil

SIZES: Final = (4, 6, 9, 12)
PACKS: Final = 12
FEWER_PACKS: Final = 6
"""How many packs for the first table, and for the other."""

PUPILS: Final = 5
"""So many pupils with each habit, and twenty times as many without one, on each pack."""

WITHOUT: Final = 20
BY_HAND: Final = [name for names in TOLD_APART.values() for name in names]
HABITS: Final = [
    mistake
    for mistake in MISTAKES
    if mistake.operations & {Operation.ADD, Operation.SUBTRACT} and not mistake.together
]
CHOSEN: Final = {
    "as they come": "",
    "`tells_apart`, the eight by hand": f"tells_apart: [{', '.join(BY_HAND)}], ",
    "`finds_out: every habit`": "finds_out: every habit, ",
}


def questions(size: int, seed: int, words: str) -> tuple[Question, ...]:
    """A starter of so many questions, half additions, with some words of its own."""
    rungs = [f"  {name}: {{{text}}}" for name, text in RUNGS.items()]
    sums = (size + 1) // 2
    counts = f"{{sums: {sums}, differences: {size - sums}}}"
    lines = ["title: Bench", "ladder:", *rungs, f"starter: {{{words}questions: {counts}}}"]
    pack = build_pack(read_spec("\n".join(lines).encode(), "bench.yaml", VOCABULARY), seed)
    return tuple(item.question for item in pack.sections[0].items)


def simulated(
    size: int, words: str, packs: int, make: str = "a digit one out"
) -> dict[str, Counter[str]]:
    """What is said of pupils with one of the eight habits, with another, and without one."""
    eight, others, without = Counter[str](), Counter[str](), Counter[str]()
    neighbours = list(map(mistake_named, BY_HAND)) if make == COPYING else []
    salt = () if make == "a digit one out" else (make,)
    for seed in range(packs):
        asked = questions(size, seed, words)
        for habit in HABITS:
            of_these = eight if habit.name in BY_HAND else others
            for number in range(PUPILS):
                dice = Dice(key("finding out", *salt, size, seed, habit.name, number))
                found = diagnose(pupil(asked, [habit], dice, make, neighbours))
                named = [habit in one.mistakes for one in found.habits]
                of_these["right" if named and all(named) else "wrong" if named else "none"] += 1
        for number in range(PUPILS * WITHOUT):
            dice = Dice(key("finding out", *salt, size, seed, number))
            found = diagnose(pupil(asked, [], dice, make, neighbours))
            without["wrong" if found.kind is Kind.HABIT else "none"] += 1
    return {"eight": eight, "others": others, "without": without}


def percent(outcomes: Counter[str], name: str) -> str:
    """A share of the outcomes; ``<1%`` for what is rare."""
    share = Fraction(outcomes[name], outcomes.total())
    return "<1%" if 0 < share < Fraction(1, 200) else f"{round(100 * share)}%"


def table(packs: int) -> str:
    """The outcomes as a table in Markdown."""
    lines = [
        "| questions | chosen | the eight: named rightly | another named | other habits: named "
        "rightly | another named | no habit: one named |",
        "| ---: | --- | ---: | ---: | ---: | ---: | ---: |",
    ]
    for size in SIZES:
        for chosen, words in CHOSEN.items():
            found = simulated(size, words, packs)
            cells = [str(size), chosen]
            for of_these in ("eight", "others"):
                cells += [percent(found[of_these], name) for name in ("right", "wrong")]
            lines.append(f"| {' | '.join([*cells, percent(found['without'], 'wrong')])} |")
    return "\n".join(lines)


def by_make(packs: int) -> str:
    """The same for unsteady pupils, and for those who copy, with questions chosen for it."""
    lines = [
        "| questions | pupils | chosen | the eight: named rightly | another named "
        "| no habit: one named |",
        "| ---: | --- | --- | ---: | ---: | ---: |",
    ]
    for size in SIZES[1:]:
        for make in (UNSTEADY, COPYING):
            for chosen, words in list(CHOSEN.items())[1:]:
                found = simulated(size, words, packs, make)
                cells = [str(size), make, chosen]
                cells += [percent(found["eight"], name) for name in ("right", "wrong")]
                lines.append(f"| {' | '.join([*cells, percent(found['without'], 'wrong')])} |")
    return "\n".join(lines)


if __name__ == "__main__":
    quick = "--quick" in sys.argv[1:]
    print(table(2 if quick else PACKS))
    print()
    print(by_make(2 if quick else FEWER_PACKS))
