"""Every word of a spec as tables in Markdown: the page that the README refers to."""

from collections.abc import Iterator, Mapping
from typing import Final

from specs.accepted import ACCEPTED
from specs.ladder import rung_words
from specs.lesson import other_words, said_of
from specs.methods import METHODS
from specs.pages import PAGES
from specs.reading import grammar
from specs.shapes import Field
from specs.spec import TELLS_APART
from specs.words import Vocabulary

_HEAD: Final = """\
# The words of a spec

This page is written from the vocabulary by `python -m tests.word_tables`; `rungsheet words
divide` says the same in a terminal.
"""


def word_tables(vocabulary: Vocabulary) -> str:
    """The page: the words of a spec, of its rungs, sections and pages, and right answers."""
    return "\n".join((_HEAD, *_parts(vocabulary)))


def _parts(vocabulary: Vocabulary) -> Iterator[str]:
    yield _table("At the beginning of a line", grammar(vocabulary).fields)
    for operation in vocabulary.operations:
        yield _table(f"A rung with `operation: {operation}`", rung_words(operation, vocabulary))
        word = vocabulary.word(operation, TELLS_APART)
        if word is not None:
            also = " and `worked_by`" if vocabulary.word(operation, "worked_by") else ""
            yield f"Mistakes that `{TELLS_APART}`{also} may name: {', '.join(word.shape.words)}.\n"
    for name, words in other_words(vocabulary):
        yield _rows(f"In {name}".replace("'lesson:'", "`lesson:`"), "word", _as_code(words))
    yield _table("`pages:`", PAGES.fields)
    yield _table("`methods:`", METHODS.fields)
    yield _rows("What counts as a right answer", "of", ACCEPTED)


def _table(heading: str, words: Mapping[str, Field]) -> str:
    return _rows(heading, "word", _as_code(said_of(words)))


def _as_code(words: Mapping[str, str]) -> dict[str, str]:
    return {f"`{word}`": says for word, says in words.items()}


def _rows(heading: str, first: str, said: Mapping[str, str]) -> str:
    escaped = {word: says.replace("|", r"\|") for word, says in said.items()}
    rows = (f"| {word} | {says} |" for word, says in escaped.items())
    head = (f"## {heading}", "", f"| {first} | what it means |", "| --- | --- |")
    return "\n".join((*head, *rows, ""))
