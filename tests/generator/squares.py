"""A working as its squares show it: a text for each row, as handbooks print examples."""

from collections.abc import Collection

from generator.operations.working import SMALL_MARKS, Ink, Working


def rows(
    working: Working, *, leaving_out: Collection[Ink] = SMALL_MARKS, points: bool = False
) -> list[str]:
    """The marks of each row, blanks for empty squares; ``points`` stand after their digits."""
    marks = {(m.row, m.column): m.text for m in working.marks() if m.ink not in leaving_out}
    after = {(p.row, p.column): "." for p in working.points()} if points else {}
    return [
        "".join(
            marks.get((row, column), " ") + after.get((row, column), "")
            for column in range(working.columns)
        ).rstrip()
        for row in range(working.rows)
    ]
