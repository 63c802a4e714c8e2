"""The words of a spec: what each means, and what an editor needs to complete them."""

import json
from typing import Final

from generator.vocabulary import VOCABULARY
from specs.schema import schema as schema_of

__all__ = ["OPERATIONS", "VOCABULARY", "glossary", "schema"]

OPERATIONS: Final = VOCABULARY.operations


def glossary(operation: str | None = None) -> str:
    """Every word in a sentence: those of an operation's rungs, or all that there are."""
    from specs.glossary import glossary as glossary_of

    return glossary_of(VOCABULARY, operation)


def schema() -> str:
    """The JSON Schema of specs."""
    return json.dumps(schema_of(VOCABULARY), indent=2)
