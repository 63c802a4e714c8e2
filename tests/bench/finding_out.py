"""Whether questions that find out do better: ``python -m tests.bench.finding_out``.

The simulated pupils of ``tests.bench.diagnosis`` answer the same number of questions of the same
rungs, chosen in three ways: as they come; with ``tells_apart`` on each rung naming, by hand, the
habits that the pupils have; and with ``finds_out: every habit``, which names none of them. With
``--quick`` fewer pupils.
"""

import sys
from typing import Final

from generator.arithmetic.questions import Question
from generator.packs.building import build_pack
from generator.vocabulary import VOCABULARY
from specs import read_spec
from tests.bench import diagnosis

SIZES: Final = (4, 6, 9, 12)
BY_HAND: Final = ", ".join(name for names in diagnosis.TOLD_APART.values() for name in names)
CHOSEN: Final = {
    "as they come": "",
    "`tells_apart` by hand": f"tells_apart: [{BY_HAND}], ",
    "`finds_out: every habit`": "finds_out: every habit, ",
}


def questions(size: int, seed: int, words: str) -> tuple[Question, ...]:
    """A starter of so many questions, with some words of its own."""
    rungs = [f"  {name}: {{{text}}}" for name, text in diagnosis.RUNGS.items()]
    sums = (size + 1) // 2
    counts = f"{{sums: {sums}, differences: {size - sums}}}"
    lines = ["title: Bench", "ladder:", *rungs, f"starter: {{{words}questions: {counts}}}"]
    pack = build_pack(read_spec("\n".join(lines).encode(), "bench.yaml", VOCABULARY), seed)
    return tuple(item.question for item in pack.sections[0].items)


for size in SIZES:
    for name, words in CHOSEN.items():
        diagnosis.questions = lambda size, seed, *, told_apart: questions(size, seed, words)
        w, wo = diagnosis.simulated(size, told_apart=True)
        print(
            size,
            name,
            diagnosis.percent(w, "right"),
            diagnosis.percent(w, "wrong"),
            diagnosis.percent(w, "unseen"),
            diagnosis.percent(w, "withheld"),
            diagnosis.percent(wo, "wrong"),
        )
