"""A working as a land writes it and a language says it.

The generator's methods write numbers with a point, signs as England has them, and English. What
is worked passes through here once, before any page takes it.
"""

from dataclasses import replace
from typing import Final

from generator.forms.form import Shown
from generator.forms.frames import Frame
from generator.operations.working import Ink, Mark, Step, Working
from specs.languages.usage import Usage

_WORDS: Final = frozenset({Ink.HEADING, Ink.LEFT_OVER, Ink.NOTE})
"""Marks that may be words or whole numbers; others are a digit or a sign each."""


def worked_as(usage: Usage, working: Working) -> Working:
    """A working with its signs, its words and its sentences as they are used."""
    if usage.is_plain:
        return working
    return replace(
        working,
        steps=tuple(_step(usage, step) for step in working.steps),
        outline=None if working.outline is None else _step(usage, working.outline),
        land=usage.land,
    )


def shown_as(usage: Usage, shown: Shown) -> Shown:
    """An example with its workings as they are used."""
    if usage.is_plain:
        return shown
    wrong = None if shown.wrong is None else worked_as(usage, shown.wrong)
    return Shown(wrong, worked_as(usage, shown.right), usage.says(shown.then_asked))


def framed_as(usage: Usage, frame: Frame) -> Frame:
    """What a pupil is given, as it is used."""
    if usage.is_plain:
        return frame
    narrower = None if frame.narrower is None else worked_as(usage, frame.narrower)
    return replace(
        frame,
        squares=worked_as(usage, frame.squares),
        words=usage.says(frame.words),
        narrower=narrower,
    )


def _step(usage: Usage, step: Step) -> Step:
    return replace(
        step,
        sentence=usage.says(step.sentence),
        marks=tuple(_mark(usage, mark) for mark in step.marks),
    )


def _mark(usage: Usage, mark: Mark) -> Mark:
    if mark.ink in _WORDS:
        return replace(mark, text=usage.says(mark.text))
    written = usage.land.sign(mark.text)
    return mark if written == mark.text else replace(mark, text=written)
