"""How fast questions are drawn, and that a rare rung costs no more than a common one.

``python -m tests.bench.drawing`` prints the table of the README: for each rung how many
questions it holds, how rare they are among all questions of the same lengths, the time to
count it and then to fetch a first question, and questions a second (an order's place, the
question at it, its answer), with the ratio to the unconditioned rung of the same run. Times
are of the processor, whatever else the machine does. Each rung has a process of its own, so
that nothing is known from the rungs before it, and no question is drawn twice where there
are enough. "Matched" is the set of questions that match the first one drawn on the rung.
"""

from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from time import process_time
from typing import Any, Final, NamedTuple

from generator.arithmetic.questions import Operation
from generator.numbered.permutation import Permutation
from generator.numbered.question_sets import QuestionSet
from generator.numbered.seeds import key
from generator.operations.rungs import fresh_set
from generator.vocabulary import VOCABULARY
from specs import read_spec
from specs.spec import RungSpec

DRAWS: Final = 20_000

ALL: Final = "operation: subtract, places: 3, whole: 5"
RARER: Final = (
    f"{ALL}, exchanges: {{across_point: true}}",
    f"{ALL}, exchanges: {{through_zeros: 1}}",
    f"{ALL}, exchanges: {{through_zeros: 2}}",
    f"{ALL}, exchanges: {{through_zeros: 3}}",
    f"{ALL}, exchanges: {{through_zeros: 4}}",
    f"{ALL}, exchanges: {{through_zeros: 5}}",
    f"{ALL}, exchanges: {{through_zeros: 6}}",
)
USUAL: Final = (
    "operation: add, places: 2, whole: 1, carries: none",
    "operation: add, addends: 3, places: {ragged: [1, 3]}, "
    "carries: {count: [1, 2], across_point: false}",
    "operation: subtract, places: 3, whole: 1, exchanges: {through_zeros: 2}",
    "operation: add, addends: 5, places: {ragged: [1, 3]}",
    "operation: multiply, digits: [3, 2], places: [1, 1], carries: every",
    "operation: divide, dividend: {digits: 4}, divisor: {digits: 2}, ending: remainder",
)
MATCHED: Final = (
    "operation: add, addends: 5, places: {ragged: [1, 3]}",
    "operation: multiply, digits: [3, 2], places: [1, 1], carries: every",
    "operation: divide, dividend: {digits: 4}, divisor: {digits: 2}, ending: remainder",
)
WIDEST: Final = (
    "operation: add, addends: 6, places: {between: [0, 4]}, whole: {between: [0, 5]}",
    "operation: add, addends: 6, places: {ragged: [0, 4]}, whole: {between: [0, 5]}, "
    "carries: {count: [2, 4]}",
    "operation: multiply, digits: [6, 3], places: 0, carries: {count: [5, 8]}",
    "operation: multiply, digits: [6, 3], places: {between: [0, 2]}, carries: {count: [5, 8]}, "
    "answer: {places: [1, 2]}",
    "operation: divide, dividend: {digits: 8}, divisor: {between: [2, 99]}, "
    "remainders: {count: [2, 5]}, zeros: {inside: require}",
    "operation: divide, dividend: {digits: [1, 8]}, divisor: {between: [2, 99]}, "
    "divisor_places: {between: [0, 1]}, places: {between: [0, 3]}, "
    "remainders: {count: [2, 5]}, zeros: {inside: require}, ending: {rounded: 3}",
)


def rung(text: str) -> RungSpec:
    """A rung written on one line."""
    lines = f"title: bench\nladder:\n  rung: {{{text}}}\nstarter: {{rung: 1}}\n"
    return read_spec(lines.encode(), "bench.yaml", VOCABULARY).ladder[0]


class Measured(NamedTuple):
    """A set's count, seconds to count it and then for a first question, questions a second."""

    count: int
    counted: float
    first: float
    speed: float


def measure(text: str, draws: int = DRAWS, *, matched: bool = False) -> Measured:
    """What counting a rung afresh and drawing on it take; the same for a matched set of it."""
    questions = _set(text)
    if matched:
        question = questions.unrank(Permutation(questions.count, key("bench", text))[0])
        questions = questions.matching(questions.signature(question), 0)
    started = process_time()
    count = questions.count
    counted = process_time() - started
    questions.unrank(0)
    first = process_time() - started - counted
    order = Permutation(count, key("bench", text))
    best = 0.0
    for time in range(3):
        started = process_time()
        for place in range(time * draws, (time + 1) * draws):
            _ = questions.unrank(order[place % count]).answer
        best = max(best, draws / (process_time() - started))
    return Measured(count, counted, first, best)


def _set(text: str) -> QuestionSet[Any]:
    asked = rung(text)
    return fresh_set(Operation(asked.operation), asked.conditions)


def _alone(text: str, *, matched: bool = False) -> Measured:
    """The same, measured in a process of its own."""
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as process:
        return process.submit(measure, text, matched=matched).result()


def table() -> str:
    """Every measurement as a Markdown table."""
    common = _alone(ALL)
    rows = [_row(ALL, common, "1", "1.00")]
    for text in RARER:
        rare = _alone(text)
        one_in, cost = common.count / rare.count, common.speed / rare.speed
        rows.append(_row(text, rare, f"{one_in:,.0f}", f"{cost:.2f}"))
    rows += [_row(text, _alone(text)) for text in USUAL]
    rows += [_row(f"{text} (matched)", _alone(text, matched=True)) for text in MATCHED]
    rows += [_row(text, _alone(text)) for text in WIDEST]
    return "\n".join(
        [
            "| rung | questions | one in | counted in | first drawn in | drawn a second "
            "| cost beside all |",
            "| --- | ---: | ---: | ---: | ---: | ---: | ---: |",
            *rows,
        ]
    )


def _row(text: str, found: Measured, one_in: str = "", cost: str = "") -> str:
    count = found.count
    shown = f"{count:,}" if count < 10**15 else f"{count:.2e}"
    times = f"{found.counted * 1000:.1f} ms | {found.first * 1000:.1f} ms | {found.speed:,.0f}"
    return f"| {text.removeprefix('operation: ')} | {shown} | {one_in} | {times} | {cost} |"


if __name__ == "__main__":
    print(table())
