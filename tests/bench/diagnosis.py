"""How often the diagnosis is right, wrong and silent: ``python -m tests.bench.diagnosis``.

Simulated pupils answer questions that are half additions, half subtractions. A pupil with a
habit answers by one wrong procedure wherever it shows; a pupil without one answers rightly.
Either slips in one answer of twenty: one digit comes out one larger or smaller. The
questions are drawn from two rungs, once as they come and once with ``tells_apart`` naming
the eight habits that the pupils have, four for each operation. Everything is drawn by key,
so the table is the same on every machine. The slip rate and the kind of slip are
assumptions, no source.
"""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Question
from generator.numbered.seeds import Dice, key
from generator.operations.mistakes import Mistake, mistake_named, right_reply
from generator.packs.building import build_pack
from generator.results.attempts import Attempt
from generator.results.diagnosis import Finding, Kind, diagnose
from generator.vocabulary import VOCABULARY
from specs import read_spec
from specs.replies import Reply

SIZES: Final = (4, 6, 9, 12, 18, 27)
SLIPS: Final = Fraction(1, 20)
PACKS: Final = 12
PUPILS: Final = 10
"""So many pupils with each habit, and ten times as many without one, on each pack."""

WITHOUT: Final = 10

TOLD_APART: Final = {
    "sums": (
        "numbers lined up at the right-hand end",
        "carry written but not added",
        "carry added twice",
        "whole and decimal parts worked apart",
    ),
    "differences": (
        "smaller digit taken from larger",
        "exchange without lowering the next column",
        "stops at a zero",
        "zero minus n gives n",
    ),
}
RUNGS: Final = {
    "sums": "operation: add, addends: 2, places: {between: [1, 2]}, whole: {between: [1, 2]}",
    "differences": "operation: subtract, places: 2, whole: {between: [1, 2]}",
}

Outcomes = Counter[str]


def questions(size: int, seed: int, *, told_apart: bool) -> tuple[Question, ...]:
    """A section of so many questions."""
    rungs = []
    for name, text in RUNGS.items():
        asked = f", tells_apart: [{', '.join(TOLD_APART[name])}]" if told_apart else ""
        rungs.append(f"  {name}: {{{text}{asked}}}")
    sums = (size + 1) // 2
    text = "\n".join(
        [
            "title: Bench",
            "ladder:",
            *rungs,
            f"starter: {{sums: {sums}, differences: {size - sums}}}",
        ]
    )
    pack = build_pack(read_spec(text.encode(), "bench.yaml", VOCABULARY), seed)
    return tuple(item.question for item in pack.sections[0].items)


def slipped(reply: Reply, dice: Dice) -> Reply:
    """The answer with one of its digits one larger or smaller."""
    digits = list(reply.text)
    places = [at for at, digit in enumerate(digits) if digit.isdigit()]
    at = places[dice.below(len(places))]
    digits[at] = str((int(digits[at]) + (1 if dice.below(2) else 9)) % 10)
    whole, _, part = "".join(digits).partition(".")
    return Reply(Fraction(int(whole + part), 10 ** len(part)))


def pupil(asked: Sequence[Question], habit: Mistake | None, dice: Dice) -> list[Attempt]:
    """A pupil's answers to the questions."""
    attempts = []
    for question in asked:
        reply = (habit.wrong_answer(question) if habit else None) or right_reply(question)
        if dice.below(SLIPS.denominator) < SLIPS.numerator:
            reply = slipped(reply, dice)
        attempts.append(Attempt.answered(question, (reply,)))
    return attempts


def outcome(finding: Finding, habit: Mistake | None) -> str:
    """Whether a finding is right, wrong, or withheld."""
    if finding.kind is Kind.NOT_ENOUGH:
        return "withheld"
    if finding.kind is not Kind.HABIT:
        return "unseen" if habit else "right"
    named = {finding.mistake, *finding.also}
    return "right" if habit in named else "wrong"


def simulated(size: int, *, told_apart: bool) -> tuple[Outcomes, Outcomes]:
    """The outcomes for pupils with a habit and for pupils without one."""
    with_habit: Outcomes = Counter()
    without: Outcomes = Counter()
    habits = [mistake_named(name) for names in TOLD_APART.values() for name in names]
    for seed in range(PACKS):
        asked = questions(size, seed, told_apart=told_apart)
        for habit in habits:
            for number in range(PUPILS):
                dice = Dice(key("diagnosis", size, seed, habit.name, number))
                with_habit[outcome(diagnose(pupil(asked, habit, dice)), habit)] += 1
        for number in range(PUPILS * WITHOUT):
            dice = Dice(key("diagnosis", size, seed, number))
            without[outcome(diagnose(pupil(asked, None, dice)), None)] += 1
    return with_habit, without


def percent(outcomes: Outcomes, name: str) -> str:
    """A share of the outcomes as a whole percentage; ``<1%`` for what is rare."""
    share = Fraction(outcomes[name], outcomes.total())
    if 0 < share < Fraction(1, 200):
        return "<1%"
    return f"{round(100 * share)}%"


def table() -> str:
    """The outcomes as a table in Markdown."""
    lines = [
        "| questions | chosen | habit named rightly | another named | called secure or slips "
        "| withheld | no habit: none named | one named | withheld |",
        "| ---: | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    for size in SIZES:
        for told_apart in (False, True):
            with_habit, without = simulated(size, told_apart=told_apart)
            cells = [
                str(size),
                "to tell apart" if told_apart else "as they come",
                *(percent(with_habit, name) for name in ("right", "wrong", "unseen", "withheld")),
                *(percent(without, name) for name in ("right", "wrong", "withheld")),
            ]
            lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines)


if __name__ == "__main__":
    print(table())
