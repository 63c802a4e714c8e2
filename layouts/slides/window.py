"""The rows of a working that a slide shows, where the whole of it is too tall for one.

The paper is pushed up as the working grows: what was written first leaves at the top.
"""

from dataclasses import replace

from generator.operations.working import NumberLine, Step, Working


def first_row(working: Working, steps: int, rows: int) -> int:
    """The row at the top of a window after so many steps: the rows in play are inside it."""
    last = max(_last_row(step) for step in working.steps[:steps])
    first = max(0, last + 1 - rows)
    if working.line is not None and first > working.line.row:
        return max(first, working.line.row + working.line.rows)  # no part of a line is shown alone
    return first


def holds_what_is_spoken_of(working: Working, rows: int) -> bool:
    """Whether a window of so many rows has at each step all that the step speaks of."""
    for steps in range(1, len(working.steps) + 1):
        spoken_of = _rows_spoken_of(working, steps)
        first = first_row(working, steps, rows)
        if spoken_of and not first <= spoken_of[0] <= spoken_of[1] < first + rows:
            return False
    return True


def _rows_spoken_of(working: Working, steps: int) -> tuple[int, int] | None:
    """The first and the last row that a step is about: all written ones where it says none."""
    step = working.steps[steps - 1]
    if step.rows is not None:
        return step.rows
    marks = step.marks if step.column is None else tuple(working.marks(steps))
    rows = [mark.row for mark in marks]
    return (min(rows), max(rows)) if rows else None


def rows_shown(working: Working, first: int, rows: int) -> Working:
    """The working with so many of its rows, from ``first`` on, and what stands in them."""
    if rows >= working.rows:
        return working
    shown = range(first, first + rows)
    return replace(
        working,
        rows=rows,
        rules=tuple(
            replace(rule, row=rule.row - first)
            for rule in working.rules
            if rule.row in shown or rule.row == shown.stop
        ),
        uprights=tuple(
            replace(line, start=line.start - first, end=line.end - first)
            for line in working.uprights
            if line.start in shown and line.end in shown
        ),
        steps=tuple(_step(step, shown) for step in working.steps),
        line=_line(working, shown),
    )


def _line(working: Working, shown: range) -> NumberLine | None:
    """The number line, where all of its rows are seen."""
    line = working.line
    if line is None or line.row not in shown or line.row + line.rows - 1 not in shown:
        return None
    return replace(line, row=line.row - shown.start)


def _last_row(step: Step) -> int:
    """The last row that a step is about; -1 where it is about none."""
    if step.rows is not None:
        return step.rows[1]
    return max((mark.row for mark in step.marks), default=-1)


def _step(step: Step, shown: range) -> Step:
    first = shown.start
    rows = step.rows
    if rows is not None:
        rows = (max(rows[0] - first, 0), min(rows[1] - first, len(shown) - 1))
    return replace(
        step,
        marks=tuple(replace(m, row=m.row - first) for m in step.marks if m.row in shown),
        points=tuple(replace(p, row=p.row - first) for p in step.points if p.row in shown),
        strikes=tuple(replace(s, row=s.row - first) for s in step.strikes if s.row in shown),
        rules=tuple(
            replace(rule, row=rule.row - first)
            for rule in step.rules
            if rule.row in shown or rule.row == shown.stop
        ),
        uprights=tuple(
            replace(line, start=line.start - first, end=line.end - first)
            for line in step.uprights
            if line.start in shown and line.end in shown
        ),
        rows=rows,
        lit=tuple((row - first, column) for row, column in step.lit if row in shown),
    )
