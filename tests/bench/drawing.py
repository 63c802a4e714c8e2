"""How fast questions are drawn, and that a rare rung costs no more than a common one.

``python -m tests.bench.drawing`` prints the table of the README: for each rung how many
questions it holds, how rare they are among all questions of the same lengths, the time to
count it, and questions a second (an order's place, the question at it, its answer), with
the ratio to the unconditioned rung of the same run.
"""

from time import perf_counter
from typing import Final

from generator.column_questions import ColumnQuestions
from generator.conditions import VOCABULARY, outline_of
from generator.counting.permutation import Permutation
from generator.questions import Operation
from generator.seeds import key
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
)
WIDEST: Final = "operation: add, addends: 6, places: {between: [0, 4]}, whole: {between: [0, 5]}"


def rung(text: str) -> RungSpec:
    """A rung written on one line."""
    lines = f"title: bench\nladder:\n  rung: {{{text}}}\nstarter: {{rung: 1}}\n"
    return read_spec(lines.encode(), "bench.yaml", VOCABULARY).ladder[0]


def measure(text: str, draws: int = DRAWS) -> tuple[int, float, float]:
    """The rung's count, the seconds to count it afresh, and questions drawn a second."""
    asked = rung(text)
    started = perf_counter()
    questions = ColumnQuestions(outline_of(Operation(asked.operation), asked.conditions))
    count = questions.count
    questions.unrank(0)
    counted = perf_counter() - started
    order = Permutation(count, key("bench", text))
    best = 0.0
    for _ in range(3):
        started = perf_counter()
        for place in range(draws):
            _ = questions.unrank(order[place % count]).answer
        best = max(best, draws / (perf_counter() - started))
    return count, counted, best


def table() -> str:
    """Every measurement as a Markdown table."""
    lines = [
        "| rung | questions | one in | counted in | drawn a second | cost beside all |",
        "| --- | ---: | ---: | ---: | ---: | ---: |",
    ]
    all_count, all_counted, all_speed = measure(ALL)
    lines.append(_row(ALL, all_count, 1, all_counted, all_speed, "1.00"))
    for text in RARER:
        count, counted, speed = measure(text)
        lines.append(
            _row(text, count, all_count / count, counted, speed, f"{all_speed / speed:.2f}")
        )
    for text in (*USUAL, WIDEST):
        count, counted, speed = measure(text, DRAWS // 10 if text is WIDEST else DRAWS)
        lines.append(_row(text, count, None, counted, speed, ""))
    return "\n".join(lines)


def _row(
    text: str, count: int, one_in: float | None, counted: float, speed: float, ratio: str
) -> str:
    rare = "" if one_in is None else f"{one_in:,.0f}"
    shown = f"{count:,}" if count < 10**15 else f"{count:.2e}"
    return f"| {text} | {shown} | {rare} | {counted * 1000:.1f} ms | {speed:,.0f} | {ratio} |"


if __name__ == "__main__":
    print(table())
