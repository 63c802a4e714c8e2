"""Wrong workings in columns: the right one's squares, with other marks on them."""

from dataclasses import replace

from generator.operations.working import Step, Working, read_row


def set_out_as(working: Working) -> list[Step]:
    """The numbers set out, and the answer's point."""
    point = [step for step in working.steps[1:] if step.points]
    return [working.setting_out, *point[:1]]


def with_steps(working: Working, steps: list[Step]) -> Working | None:
    """The working with those steps in place of its own; None where a mark falls off the squares."""
    marks = [mark for step in steps for mark in step.marks]
    if any(not 0 <= mark.column < working.columns for mark in marks):
        return None
    answer_row = working.rules[0].row
    return replace(working, steps=tuple(steps), answer=read_row(steps, answer_row, working.places))
