"""A spec written out as YAML, so that it can be read, changed and built again."""

from collections.abc import Iterator
from typing import Any, Final

from specs.pages import BY_SHEET, PAGES
from specs.shapes import Fieldset, Text
from specs.spec import (
    EXAMPLES,
    PLAIN,
    STARTER,
    TELLS_APART,
    BySheet,
    Presentation,
    SectionSpec,
    Share,
    Spec,
)

_TITLE: Final = Text(80)
_FIELDS: Final = {"squares": "square"}
"""Words of ``pages:`` that have another name in a presentation."""


def spec_text(spec: Spec) -> str:
    """The spec as YAML. Reading it gives the spec again, but for its name and lines."""
    return "\n".join(_lines(spec)) + "\n"


def _lines(spec: Spec) -> Iterator[str]:
    yield f"title: {_TITLE.write(spec.title)}"
    yield "ladder:"
    for rung in spec.ladder:
        yield f"  {rung.name}:"
        yield f"    operation: {rung.operation}"
        if rung.form != PLAIN:
            yield f"    form: {rung.form}"
        if rung.context:
            yield f"    context: [{', '.join(rung.context)}]"
        yield from (f"    {condition.text}" for condition in rung.conditions)
    if spec.starter:
        yield f"{STARTER}: {_section(spec.starter)}"
    if spec.examples:
        yield f"{EXAMPLES}: {_counts(spec.examples)}"
    if spec.tiers:
        yield "tiers:"
        yield from (f"  {tier.name}: {_section(tier)}" for tier in spec.tiers)
    if spec.matching != "signature":
        yield f"matching: {spec.matching}"
    pages = _pages(spec)
    if pages:
        yield f"pages: {PAGES.write(Fieldset(pages))}"
    if spec.avoid:
        yield "avoid:"
        yield from (f"  - {avoided.text}" for avoided in spec.avoid)


def _counts(shares: tuple[Share, ...]) -> str:
    return f"{{{', '.join(f'{share.rung}: {share.count}' for share in shares)}}}"


def _section(section: SectionSpec) -> str:
    words = []
    if section.minutes is not None:
        words.append(f"minutes: {section.minutes}")
    if section.frames:
        first, last = section.frames
        words.append(f"frames: {first if first == last else f'{{from: {first}, to: {last}}}'}")
    if section.tells_apart:
        words.append(f"{TELLS_APART}: [{', '.join(section.tells_apart)}]")
    if not words:
        return _counts(section.shares)
    return f"{{{', '.join([*words, f'questions: {_counts(section.shares)}'])}}}"


def _pages(spec: Spec) -> dict[str, Any]:
    """What differs from the usual look, for the sheets that the spec has."""
    usual, found = Presentation(), {}
    sheets = {section.name for section in (spec.starter, *spec.tiers) if section}
    for word in PAGES.shapes:
        name = _FIELDS.get(word, word)
        value = getattr(spec.presentation, name)
        if isinstance(value, BySheet) and word in BY_SHEET:
            named = {sheet: wish for sheet, wish in value.named if sheet in sheets}
            value = value.usual if value.usual is not None else Fieldset(named)
            if value:
                found[word] = value
        elif value != getattr(usual, name):
            found[word] = value
    return found
