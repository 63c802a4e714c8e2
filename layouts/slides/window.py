"""The rows of a working that a slide shows, where the whole of it is too tall for one.

The paper is pushed up as the working grows: what was written first leaves at the top.
"""

from dataclasses import replace

from generator.operations.working import Step, Working


def first_row(working: Working, steps: int, rows: int) -> int:
    """The row at the top of a window after so many steps: the rows in play are inside it."""
    last = max(_last_row(step) for step in working.steps[:steps])
    return max(0, last + 1 - rows)


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
    )


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
