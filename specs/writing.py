"""A spec written out as YAML, so that it can be read, changed and built again."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from specs.ladder import CONTEXT, FORM, GAP, OPERATION, SHOWN_AS
from specs.lesson import Lesson
from specs.missing import MISSING
from specs.reading import LADDER, LESSON, grammar
from specs.sections import SHOWN, TIERS
from specs.spec import PLAIN, RungSpec, Spec
from specs.words import Vocabulary

_NO_WORDS: Final = Vocabulary((), ())
"""Rungs keep their conditions as text, so nothing needs to be known of their words."""


def spec_text(spec: Spec) -> str:
    """The spec as YAML. Reading it gives the spec again, but for its name and lines."""
    return "\n".join(_lines(spec)) + "\n"


def _lines(spec: Spec) -> Iterator[str]:
    sheets = {section.name for section in spec.sections}
    look = spec.presentation
    look = replace(
        look,
        large=look.large.among(sheets),
        tint=look.tint.among(sheets),
        estimate=look.estimate.among(sheets),
        key_words=look.key_words.among(sheets),
    )
    words = grammar(_NO_WORDS)
    versions = spec.versions.among(sheets)
    given = words.given(replace(spec, presentation=look, versions=versions))
    for word, value in given.items():
        if word == LADDER:
            yield f"{LADDER}:"
            for rung in spec.ladder:
                yield from _rung(rung)
        elif word == TIERS:
            yield f"{TIERS}:"
            tier_shape = words.shapes["starter"]
            yield from (f"  {tier.name}: {tier_shape.write(tier)}" for tier in spec.tiers)
        elif word == LESSON:
            yield f"{LESSON}:"
            yield from (f"  - {line}" for line in Lesson(_NO_WORDS).lines(spec.lesson))
        elif word == "avoid":
            yield "avoid:"
            yield from (f"  - {avoided.text}" for avoided in spec.avoid)
        else:
            yield f"{word}: {words.shapes[word].write(value)}"


def _rung(rung: RungSpec) -> Iterator[str]:
    yield f"  {rung.name}:"
    yield f"    {OPERATION}: {rung.operation}"
    if rung.missing is not None:
        yield f"    {GAP}: {MISSING.write(rung.missing)}"
    elif rung.form != PLAIN:
        yield f"    {FORM}: {rung.form}"
    if rung.context:
        yield f"    {CONTEXT}: [{', '.join(rung.context)}]"
    if rung.shown_as:
        yield f"    {SHOWN_AS}: {SHOWN.shape.write(rung.shown_as)}"
    yield from (f"    {condition.text}" for condition in rung.conditions)
