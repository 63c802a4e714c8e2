"""Many pupils judged at once, and how often a habit is named: ``python -m tests.bench.foreseeing``.

First 10,000 simulated pupils judged over arrays beside the same posterior worked out for one
after another, of which some are tried; both in time of one core, with nothing known of the
questions beforehand. Then, over the shipped lessons, section by section, how many of 100 pupils
with a habit are said to have it, by the number of questions on which it shows: what the key's
headings rest on. With ``--quick`` fewer pupils, of two lessons.
"""

import sys
from collections import defaultdict
from dataclasses import replace
from statistics import mean, quantiles
from time import process_time
from typing import Final

from generator.numbered.seeds import key
from generator.operations.mistakes import MISTAKES
from generator.packs.building import build_pack
from generator.packs.finding_out import Said, inquiry_among
from generator.packs.likely_answers import FINDS_OUT_FROM, TOLD_FROM
from generator.results import pupil_model
from generator.results.foresight import PUPILS, foresee, stages_of
from generator.results.judging_many import judged
from generator.results.posterior import evidence_of, posterior
from generator.results.simulated_pupils import Written, answered
from generator.vocabulary import VOCABULARY
from specs import load_spec, shipped, shipped_names

ALONE: Final = 100
FOUR: Final = 4


def _forget() -> None:
    for cached in (pupil_model.answers_by_procedure, pupil_model._wrong_by_procedures):
        cached.cache_clear()


def speed(name: str, pupils: int) -> str:
    """A row: a lesson's whole pack, answered by so many pupils."""
    pack = build_pack(load_spec(shipped(name), VOCABULARY), 1)
    items = [item for one in pack.sections if one.kind != "example" for item in one.items]
    questions = [item.question for item in items if item.form.asks_for_the_answer]
    _forget()
    began = process_time()
    asked = [Written(question, key("bench", at)) for at, question in enumerate(questions)]
    habits = [m for m in MISTAKES if any(m in written.by_procedure for written in asked)]
    each = -(-pupils // (len(habits) + 1))
    answers = answered(asked, (None, *habits), each, key("bench")).reshape(-1, len(asked))
    judged(asked, answers)
    at_once = process_time() - began
    _forget()
    step = max(len(answers) // ALONE, 1)
    some = answers[::step]
    began = process_time()
    for numbers in some:
        posterior(evidence_of([w.attempts[n] for w, n in zip(asked, numbers, strict=True)]))
    alone = (process_time() - began) / len(some) * len(answers)
    cells = (
        name,
        len(questions),
        len(habits),
        f"{len(answers):,}",
        f"{at_once:.2f} s",
        f"{alone:.0f} s",
        f"{alone / at_once:.0f} ×",
    )
    return f"| {' | '.join(map(str, cells))} |"


def named_by_shows(names: tuple[str, ...], pupils: int) -> str:
    """A table: by the number of questions that show a habit, how many of 100 pupils are named."""
    found: dict[str, list[float]] = defaultdict(list)
    for name in names:
        pack = build_pack(load_spec(shipped(name), VOCABULARY), 1)
        for section in pack.sections:
            alone = replace(pack, sections=(section,))
            if not stages_of(alone) or len(section.items) < FOUR:
                continue
            foreseen = foresee(alone, pupils)
            single = [one for one in foreseen.habits if not one.mistake.together]
            inquiry, said = inquiry_among([one.mistake for one in single]), Said()
            for item in section.items:
                if item.form.asks_for_the_answer:
                    said.add(inquiry, item.question)
            for at, habit in enumerate(single, 1):
                others = (
                    said.halved.get((min(at, o), max(at, o)), 0)
                    for o in range(1, len(single) + 1)
                    if o != at
                )
                confused = any(0 < halved < TOLD_FROM for halved in others)
                shows = f"{min(habit.shows[0], FOUR)}{' or more' if habit.shows[0] >= FOUR else ''}"
                found["too like another" if confused else shows].append(100 * habit.named[0])
    lines = [
        "| questions that show it | habits | named of 100 pupils | least tenth | most tenth |",
        "| --- | ---: | ---: | ---: | ---: |",
    ]
    for shows, named in sorted(found.items()):
        tenths = quantiles(named, n=10) if len(named) > 1 else named * 2
        cells = (shows, len(named), *(f"{n:.0f}" for n in (mean(named), tenths[0], tenths[-1])))
        lines.append(f"| {' | '.join(map(str, cells))} |")
    return "\n".join(lines)


def main(*, quick: bool) -> None:
    """Print both tables."""
    pupils, names = (PUPILS // 5, shipped_names()[:2]) if quick else (PUPILS, shipped_names())
    print("| lesson | questions | habits | pupils | all at once | one after another | ratio |")
    print("| --- | ---: | ---: | ---: | ---: | ---: | ---: |")
    for name in ("produce-stall", "exchanging-through-noughts"):
        print(speed(name, pupils), flush=True)
    print()
    print(f"Found out, as the key says it: shown {FINDS_OUT_FROM} times and told from others.\n")
    print(named_by_shows(names, pupils // 4))


if __name__ == "__main__":
    main(quick="--quick" in sys.argv[1:])
