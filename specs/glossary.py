"""Every word of a spec in a sentence, as text for a terminal."""

from collections.abc import Iterator, Mapping
from textwrap import fill
from typing import Final

from specs.accepted import ACCEPTED
from specs.ladder import rung_words
from specs.lesson import other_words, said_of
from specs.methods import METHODS
from specs.pages import PAGES
from specs.reading import grammar
from specs.spec import TELLS_APART
from specs.words import Vocabulary

_WIDTH: Final = 96
_INDENT: Final = 18
"""Signs before each sentence: room for the longest word."""


def glossary(vocabulary: Vocabulary, operation: str | None = None) -> str:
    """The words of an operation's rungs; without one those of all and of the rest of a spec."""
    operations = (operation,) if operation else vocabulary.operations
    parts = [part for name in operations for part in _of_operation(vocabulary, name)]
    if operation is None:
        parts.insert(0, _part("at the beginning of a line", said_of(grammar(vocabulary).fields)))
        parts += [_part(f"in {name}", words) for name, words in other_words(vocabulary)]
        parts.append(_part("below 'pages:'", said_of(PAGES.fields)))
        parts.append(_part("below 'methods:'", said_of(METHODS.fields)))
        parts.append(_part("what counts as a right answer", ACCEPTED))
    return "\n\n".join(parts)


def _of_operation(vocabulary: Vocabulary, operation: str) -> Iterator[str]:
    yield _part(
        f"in a rung with 'operation: {operation}'", said_of(rung_words(operation, vocabulary))
    )
    word = vocabulary.word(operation, TELLS_APART)
    if word is not None:
        mistakes = fill(", ".join(word.shape.words), _WIDTH, break_on_hyphens=False)
        also = " and worked_by" if vocabulary.word(operation, "worked_by") else ""
        yield f"mistakes that {TELLS_APART}{also} may name there\n{mistakes}"


def _part(heading: str, words: Mapping[str, str]) -> str:
    lines = [
        fill(
            says,
            _WIDTH,
            initial_indent=f"{word:<{_INDENT}}",
            subsequent_indent=" " * _INDENT,
            break_on_hyphens=False,
        )
        for word, says in words.items()
    ]
    return "\n".join((heading, *lines))
