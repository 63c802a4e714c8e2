"""What a class answered in earlier packs, which counts for today's findings, the less the older.

The answers of a pack are believed of today together: those of the pack before with the chance a
half (``FADING``), of the one before that a quarter, with every pack that came after them half as
much; otherwise the pupil has begun afresh since. So what was certain then is as likely as not after
one pack, answers of today outweigh it either way, and what shows again adds up. Forgetting
at a steady rate is common practice; that the rate is a half, no source. Pupils are the same where
what stands in the pupils' column is.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Final

from generator.results.attempts import Attempt
from generator.results.class_results import attempt_of
from generator.results.mark_sheet import MarkColumn
from specs.marks import Marks, pupil_key

FADING: Final = Fraction(1, 2)
"""What an answer still counts after one further pack."""

MOST_WEEKS: Final = 12
"""Further back an answer counts less than a thousandth."""


def before_today(
    earlier: Sequence[tuple[Sequence[MarkColumn], Marks]],
) -> Mapping[str, tuple[Attempt, ...]]:
    """The answers of earlier packs, the newest pack first, by ``pupil_key``, with their weights."""
    found: dict[str, tuple[Attempt, ...]] = {}
    for back, (columns, marks) in enumerate(earlier[:MOST_WEEKS], 1):
        weight = FADING**back
        for row in marks.rows:
            answered = tuple(
                replace(
                    attempt_of(column.item, row.entries[column.name], column.ways), weight=weight
                )
                for column in columns
                if column.name in row.entries
            )
            known = pupil_key(row.pupil)
            found[known] = (*found.get(known, ()), *answered)
    return found
