"""Every word of a spec in a sentence, as text for a terminal."""

from collections.abc import Iterator
from textwrap import fill
from typing import Any, Final

from specs.accepted import ACCEPTED
from specs.pages import SAYS
from specs.schema import rung_schema, section_schema
from specs.spec import TELLS_APART
from specs.words import Vocabulary

_WIDTH: Final = 96
_INDENT: Final = 18
"""Signs before each sentence: room for the longest word."""


def glossary(vocabulary: Vocabulary, operation: str | None = None) -> str:
    """The words of an operation's rungs; without one those of all, of sections and of pages."""
    operations = (operation,) if operation else vocabulary.operations
    parts = [part for name in operations for part in _of_operation(vocabulary, name)]
    if operation is None:
        parts.append(_part("in the starter and in each tier", _said(section_schema(vocabulary))))
        parts.append(_part("below 'pages:'", SAYS))
        parts.append(_part("what counts as a right answer", ACCEPTED))
    return "\n\n".join(parts)


def _of_operation(vocabulary: Vocabulary, operation: str) -> Iterator[str]:
    yield _part(
        f"in a rung with 'operation: {operation}'", _said(rung_schema(operation, vocabulary))
    )
    word = vocabulary.word(operation, TELLS_APART)
    if word is not None:
        mistakes = fill(", ".join(word.shape.words), _WIDTH, break_on_hyphens=False)
        yield f"mistakes that {TELLS_APART} may name there\n{mistakes}"


def _said(fragment: dict[str, Any]) -> dict[str, str]:
    """What a schema says of each of its words."""
    properties: dict[str, dict[str, Any]] = fragment["properties"]
    return {word: of["description"] for word, of in properties.items() if "description" in of}


def _part(heading: str, said: dict[str, str]) -> str:
    lines = [
        fill(
            sentence,
            _WIDTH,
            initial_indent=f"{word:<{_INDENT}}",
            subsequent_indent=" " * _INDENT,
            break_on_hyphens=False,
        )
        for word, sentence in said.items()
    ]
    return "\n".join((heading, *lines))
