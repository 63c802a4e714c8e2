"""A spec's grammar as JSON Schema, so that editors complete and check while a teacher types."""

from typing import Any, Final

from specs.entries import COUNT
from specs.ladder import rung_schema
from specs.methods import METHODS
from specs.names import SECTION_NAMES, SECTION_WORDS
from specs.reading import SECTIONS, grammar
from specs.sections import Counts, Section, found_out, name_schema
from specs.words import Vocabulary

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"


def schema(vocabulary: Vocabulary) -> dict[str, Any]:
    """The JSON Schema (2020-12) of a spec.

    It takes every spec in the words that it offers. What needs arithmetic or two places at
    once (names that are on the ladder, low before high) is left to ``read_spec``, and so are
    other spellings that ``read_spec`` understands.
    """
    whole = grammar(vocabulary).schema()
    return {
        "$schema": DIALECT,
        "title": "Rungsheet spec",
        "description": "A ladder of written-calculation questions and the pack made from it.",
        **whole,
        "anyOf": [{"required": [section]} for section in SECTIONS],
        "$defs": {
            "rung-name": name_schema(SECTION_WORDS),
            "tier-name": name_schema(SECTION_NAMES),
            "counts": Counts(COUNT).schema(),
            "methods": METHODS.schema(),
            "section": Section(vocabulary).schema(),
            "examples": Section(vocabulary, pairs=True).schema(),
            "habits": found_out(vocabulary).schema(),
            **{
                f"rung-{operation}": rung_schema(operation, vocabulary)
                for operation in vocabulary.operations
            },
        },
    }
