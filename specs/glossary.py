"""Every word of a spec in a sentence, as text for a terminal."""

from collections.abc import Iterator, Mapping
from textwrap import fill
from typing import Final

from specs.ladder import rung_words
from specs.pages import PAGES
from specs.sections import section_words
from specs.shapes import Field
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
        parts.append(_part("in the starter and in each tier", section_words(vocabulary).fields))
        parts.append(_part("below 'pages:'", PAGES.fields))
    return "\n\n".join(parts)


def _of_operation(vocabulary: Vocabulary, operation: str) -> Iterator[str]:
    yield _part(f"in a rung with 'operation: {operation}'", rung_words(operation, vocabulary))
    word = vocabulary.word(operation, TELLS_APART)
    if word is not None:
        mistakes = fill(", ".join(word.shape.words), _WIDTH, break_on_hyphens=False)
        yield f"mistakes that {TELLS_APART} may name there\n{mistakes}"


def _part(heading: str, words: Mapping[str, Field]) -> str:
    """The words that mean something of their own, each in a sentence."""
    lines = [
        fill(
            of.says,
            _WIDTH,
            initial_indent=f"{word:<{_INDENT}}",
            subsequent_indent=" " * _INDENT,
            break_on_hyphens=False,
        )
        for word, of in words.items()
        if of.says
    ]
    return "\n".join((heading, *lines))
