"""A spec's grammar as JSON Schema, so that editors complete and check while a teacher types."""

from typing import Any

from specs.avoided import AVOID
from specs.contexts import KINDS
from specs.ladder import CONTEXT, CONTEXT_SHAPE, FORM, MOST_RUNGS, OPERATION
from specs.names import PATTERN, RESERVED_BY_WINDOWS, SECTION_NAMES, SECTION_WORDS
from specs.pages import pages_schema
from specs.problems import listed
from specs.reading import MATCHING, TIERS, TITLE
from specs.sections import COUNT, FRAMES, MINUTES, MOST_TIERS, PAIRS, told_apart
from specs.shapes import WholeNumber
from specs.spec import EXAMPLES, PLAIN, STARTER, TELLS_APART
from specs.words import Vocabulary

Fragment = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema(vocabulary: Vocabulary) -> Fragment:
    """The JSON Schema (2020-12) of a spec.

    It takes every spec that ``read_spec`` takes. What needs arithmetic or two places at
    once (names that are on the ladder, low before high) is left to ``read_spec``.
    """
    return {
        "$schema": DIALECT,
        "title": "Rungsheet spec",
        "description": "A ladder of written-calculation questions and the pack made from it.",
        "type": "object",
        "properties": {
            "title": TITLE.schema() | {"description": "The heading of every sheet."},
            "ladder": _ladder(vocabulary),
            STARTER: _ref("section", "The questions that open the lesson."),
            EXAMPLES: _examples(),
            TIERS: _tiers(),
            "matching": MATCHING.schema()
            | {
                "description": "How closely the versions of a question match.",
                "default": "signature",
            },
            "pages": pages_schema(),
            "avoid": AVOID.schema()
            | {
                "description": "Questions that the pack must not ask, such as those of an earlier "
                "one: 3.4 + 0.27; compare 0.5, 0.50; order 0.4, 0.35; round 3.47 to 1."
            },
        },
        "required": ["title", "ladder"],
        "anyOf": [{"required": [section]} for section in (STARTER, EXAMPLES, TIERS)],
        "additionalProperties": False,
        "$defs": {
            "rung-name": _name(SECTION_WORDS),
            "tier-name": _name(SECTION_NAMES),
            "counts": _counts(COUNT),
            "section": _section(vocabulary),
            **{
                f"rung-{operation}": rung_schema(operation, vocabulary)
                for operation in vocabulary.operations
            },
        },
    }


def _ref(name: str, description: str | None = None) -> Fragment:
    ref = {"$ref": f"#/$defs/{name}"}
    return ref | {"description": description} if description else ref


def _name(taken: tuple[str, ...]) -> Fragment:
    return {"pattern": PATTERN, "not": {"enum": [*RESERVED_BY_WINDOWS, *taken]}}


def _ladder(vocabulary: Vocabulary) -> Fragment:
    return {
        "description": "The rungs, easiest first: a name, then its operation and conditions.",
        "type": "object",
        "minProperties": 1,
        "maxProperties": MOST_RUNGS,
        "propertyNames": _ref("rung-name"),
        "additionalProperties": {
            "type": "object",
            "properties": {OPERATION: {"enum": list(vocabulary.operations)}},
            "required": [OPERATION],
            "allOf": [
                {
                    "if": {"properties": {OPERATION: {"const": operation}}},
                    "then": _ref(f"rung-{operation}"),
                }
                for operation in vocabulary.operations
            ],
        },
    }


def rung_schema(operation: str, vocabulary: Vocabulary) -> Fragment:
    """A rung of an operation, each word with what it means."""
    words = {
        word.name: word.shape.schema() | {"description": word.says}
        for word in vocabulary.of(operation)
    }
    return {
        "type": "object",
        "properties": {
            OPERATION: {"const": operation, "description": "What the questions of the rung do."},
            FORM: vocabulary.form_shape.schema()
            | {
                "description": "How the questions are asked: "
                f"{listed(map(str, vocabulary.forms))}.",
                "default": PLAIN,
            },
            CONTEXT: CONTEXT_SHAPE.schema()
            | {
                "description": f"Puts the questions in words, about {listed(KINDS)} or any of them."
            },
            **words,
        },
        "additionalProperties": False,
    }


def _counts(count: WholeNumber) -> Fragment:
    return {
        "description": "Rungs, and how many questions from each.",
        "type": "object",
        "minProperties": 1,
        "propertyNames": _ref("rung-name"),
        "additionalProperties": count.schema(),
    }


def _section(vocabulary: Vocabulary) -> Fragment:
    return {"anyOf": [_ref("counts"), section_schema(vocabulary)]}


def section_schema(vocabulary: Vocabulary) -> Fragment:
    """A section that says more than its counts, each word with what it means."""
    return {
        "type": "object",
        "properties": {
            "minutes": MINUTES.schema() | {"description": "How long the section takes."},
            "frames": FRAMES.schema()
            | {
                "description": "How much is set out for the pupil: full (numbers, placeholder "
                "noughts, empty boxes for small digits), numbers, part (sign and points), none "
                "(bare squares); {from: full, to: none} fades over the section."
            },
            TELLS_APART: told_apart(vocabulary).schema()
            | {
                "description": "Mistakes that each chosen question tells from each other and from "
                "the right method, and the section every pair of them."
            },
            "questions": _ref("counts"),
        },
        "required": ["questions"],
        "additionalProperties": False,
    }


def _examples() -> Fragment:
    names = {
        "type": "array",
        "items": {"type": "string", **_ref("rung-name")},
        "minItems": 1,
        "uniqueItems": True,
    }
    return {
        "description": "Rungs shown as a worked question and its match; a number means more pairs.",
        "anyOf": [names, _counts(PAIRS) | {"description": "Rungs, and how many pairs of each."}],
    }


def _tiers() -> Fragment:
    return {
        "description": "Sheets of practice, each under the name of its tier.",
        "type": "object",
        "minProperties": 1,
        "maxProperties": MOST_TIERS,
        "propertyNames": _ref("tier-name"),
        "additionalProperties": _ref("section"),
    }
