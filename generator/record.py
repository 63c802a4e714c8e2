"""A pack as plain data: what ``pack.json`` holds about its questions."""

from typing import Any

from generator.pack import Item, Pack, Section


def record(pack: Pack) -> dict[str, Any]:
    """The pack's title, seed, code and sections, ready for JSON.

    Answers are written without noughts at their ends, except those that the units need.
    """
    return {
        "title": pack.title,
        "seed": pack.seed,
        "code": pack.code,
        "sections": [_section(section) for section in pack.sections],
    }


def _section(section: Section) -> dict[str, Any]:
    return {
        "name": section.name,
        "kind": section.kind,
        "version": section.version,
        "questions": [{"label": item.label, **sample(item)} for item in section.items],
    }


def sample(item: Item) -> dict[str, Any]:
    """One question as plain data."""
    question = item.question
    return {
        "rung": item.rung,
        "operation": str(question.operation),
        "operands": [str(number) for number in question.operands],
        "answer": str(question.answer.trimmed()),
        "remainder": None if question.remainder is None else str(question.remainder.trimmed()),
        "signature": item.signature,
    }
