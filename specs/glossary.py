"""Every word of a spec in a sentence, as text for a terminal."""

from collections.abc import Callable, Iterator, Mapping
from textwrap import fill
from typing import Final

from specs.accepted import ACCEPTED
from specs.ladder import rung_words
from specs.languages.saying import Saying, say
from specs.lesson import other_words, said_of
from specs.methods import METHODS
from specs.pages import PAGES
from specs.reading import grammar
from specs.spec import TELLS_APART
from specs.words import Vocabulary

_WIDTH: Final = 96
_INDENT: Final = 18
"""Signs before each sentence: room for the longest word."""


Says = Callable[[str], str]


def glossary(vocabulary: Vocabulary, operation: str | None = None, says: Says = str) -> str:
    """The words of an operation's rungs; without one those of all and of the rest of a spec.

    ``says`` says what they mean.
    """
    operations = (operation,) if operation else vocabulary.operations
    parts = [part for name in operations for part in _of_operation(vocabulary, name, says)]
    if operation is None:
        top = said_of(grammar(vocabulary).fields)
        parts.insert(0, _part(say("at the beginning of a line"), top, says))
        for name, words in other_words(vocabulary):
            parts.append(_part(say("in {part}", part=name), words, says))
        parts.append(_part(say("below 'pages:'"), said_of(PAGES.fields), says))
        parts.append(_part(say("below 'methods:'"), said_of(METHODS.fields), says))
        parts.append(_part(say("what counts as a right answer"), ACCEPTED, says))
    return "\n\n".join(parts)


def _of_operation(vocabulary: Vocabulary, operation: str, says: Says) -> Iterator[str]:
    heading = say("in a rung with 'operation: {operation}'", operation=operation)
    yield _part(heading, said_of(rung_words(operation, vocabulary)), says)
    word = vocabulary.word(operation, TELLS_APART)
    if word is not None:
        mistakes = fill(", ".join(word.shape.words), _WIDTH, break_on_hyphens=False)
        if vocabulary.word(operation, "worked_by"):
            named = say("mistakes that {word} and worked_by may name there", word=TELLS_APART)
        else:
            named = say("mistakes that {word} may name there", word=TELLS_APART)
        yield f"{says(named)}\n{mistakes}"


def _part(heading: Saying, words: Mapping[str, str], says: Says) -> str:
    lines = [
        fill(
            says(meaning),
            _WIDTH,
            initial_indent=f"{word:<{_INDENT}}",
            subsequent_indent=" " * _INDENT,
            break_on_hyphens=False,
        )
        for word, meaning in words.items()
    ]
    return "\n".join((says(heading), *lines))
