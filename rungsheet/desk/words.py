"""The words of a spec: what each means, and what an editor needs to complete them."""

import json
from collections.abc import Callable
from typing import Final

from generator.vocabulary import VOCABULARY
from specs.schema import schema as schema_of

__all__ = ["OPERATIONS", "VOCABULARY", "glossary", "schema"]

OPERATIONS: Final = VOCABULARY.operations


def glossary(operation: str | None = None, says: Callable[[str], str] = str) -> str:
    """Every word in a sentence: those of an operation's rungs, or all that there are.

    ``says`` says the sentences.
    """
    from specs.glossary import glossary as glossary_of

    return glossary_of(VOCABULARY, operation, says)


def schema() -> str:
    """The JSON Schema of specs."""
    return json.dumps(schema_of(VOCABULARY), indent=2)
