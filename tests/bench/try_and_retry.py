"""Drawing by counting beside trying numbers at random until they fit.

``python -m tests.bench.try_and_retry`` draws exchanges through more and more noughts, in
subtractions of numbers with five digits before the point and three after it: once by
counting, and once by the best that trying can do, a million random pairs at a time with
numpy. Both are measured in one run; the ratio is what counting gains. With ``--quick`` it tries
for a shorter time.
"""

import sys
from time import perf_counter
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tests.bench.drawing import ALL, RARER, measure

BATCH: Final = 1_000_000
DIGITS: Final = 8
SECONDS: Final = 2.0
"""How long each kind of pair is tried for."""
QUICK: Final = 0.3


def fitting(pairs: int, through_zeros: int, random: np.random.Generator) -> int:
    """How many of so many random pairs have one exchange through so many noughts."""
    upper = random.integers(10 ** (DIGITS - 1), 10**DIGITS, pairs)
    lower = random.integers(10 ** (DIGITS - 1), 10**DIGITS, pairs)
    fits: NDArray[np.bool_] = (upper > lower) & (upper % 10 > 0) & (lower % 10 > 0)
    lends = np.zeros(pairs, dtype=bool)
    passed = np.zeros(pairs, dtype=np.int8)
    runs = np.zeros(pairs, dtype=np.int8)
    before = np.zeros(pairs, dtype=bool)
    for _ in range(DIGITS):
        top, bottom = upper % 10, lower % 10
        passes = lends & (top == 0)
        passed += passes
        runs += passes & ~before
        before = passes
        lends = top - lends < bottom
        upper, lower = upper // 10, lower // 10
    return int((fits & (passed == through_zeros) & (runs == 1)).sum())


def tried(through_zeros: int, seconds: float) -> tuple[float, int, int]:
    """Pairs tried a second, how many were tried, and how many of them fitted."""
    random = np.random.default_rng(1)
    tried_pairs, found = 0, 0
    started = perf_counter()
    while perf_counter() - started < seconds:
        found += fitting(BATCH, through_zeros, random)
        tried_pairs += BATCH
    return tried_pairs / (perf_counter() - started), tried_pairs, found


def table(seconds: float = SECONDS) -> str:
    """Both ways beside each other as a Markdown table.

    Where trying found too few to time, its rate is the pairs tried a second times the
    exact share of fitting ones.
    """
    all_pairs = 9 * 10**7 * 9 * 10**7
    lines = [
        "| noughts passed | one pair in | tried and found | by trying, a second "
        "| by counting, a second | ratio |",
        "| ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    measure(ALL)
    for zeros, text in enumerate(RARER[1:], 1):
        measured = measure(text)
        count, counted = measured.count, measured.speed
        rate, pairs, found = tried(zeros, seconds)
        trying = rate * count / all_pairs
        lines.append(
            f"| {zeros} | {all_pairs / count:,.0f} | {found:,} of {pairs:,} | {trying:,.1f} "
            f"| {counted:,.0f} | {counted / trying:,.2g} |"
        )
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(QUICK if "--quick" in sys.argv else SECONDS))
