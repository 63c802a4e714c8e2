"""The words of a spec as a terminal shows them."""

from itertools import product

import pytest

from generator.forms.asking import cannot_be_asked
from generator.vocabulary import VOCABULARY
from specs import SpecError, read_spec
from specs.glossary import glossary
from specs.ladder import rung_words
from specs.names import SECTION_WORDS
from specs.pages import PAGES
from specs.reading import grammar


@pytest.mark.parametrize("operation", VOCABULARY.operations)
def test_an_operation_has_each_of_its_words_with_what_it_means(operation: str) -> None:
    text = glossary(VOCABULARY, operation)
    lines = text.splitlines()
    words = lines[: next(at for at, line in enumerate(lines) if line.startswith("mistakes that "))]
    assert lines[0] == f"in a rung with 'operation: {operation}'"
    for word in VOCABULARY.of(operation):
        (line,) = [line for line in words if line.startswith(f"{word.name} ")]
        assert line[18:]
        assert word.says.startswith(line[18:])
    for mistake in VOCABULARY.word(operation, "tells_apart").shape.words:
        assert mistake in " ".join(lines)


def test_without_an_operation_there_are_all_and_what_else_a_spec_knows() -> None:
    text = glossary(VOCABULARY)
    assert all(glossary(VOCABULARY, operation) in text for operation in VOCABULARY.operations)
    firsts = [line.split(" ")[0] for line in text.splitlines()]
    words = {*SECTION_WORDS, *PAGES.fields, *grammar(VOCABULARY).fields}
    assert words - {"questions"} <= set(firsts)
    assert all(len(line) <= 96 for line in text.splitlines())


def test_every_word_of_pages_is_explained() -> None:
    assert all(of.says for of in PAGES.fields.values())


EXTRA = {"known fact": ", places: 1"}
"""What a rung of a form needs beside it."""


ASKED = ["context", *(form.name for form in VOCABULARY.forms)]


@pytest.mark.parametrize(("operation", "word"), product(VOCABULARY.operations, ASKED))
def test_the_words_of_an_operation_list_what_it_takes_and_nothing_else(
    operation: str, word: str
) -> None:
    """Each form, and a context, is offered where some question can be asked so; or refused."""
    asks = "context: any" if word == "context" else f"form: {word}"
    ladder = f"ladder: {{level: {{operation: {operation}, {asks}{EXTRA.get(word, '')}}}}}"
    text = f"title: Beans\n{ladder}\nstarter: {{level: 1}}\n"
    known = rung_words(operation, VOCABULARY)
    said = known["form"].says if "form" in known else ""
    offered = "context" in known if word == "context" else word in said or word == "plain"
    if offered:
        (rung,) = read_spec(text.encode(), "stall.yaml", VOCABULARY).ladder
        assert not list(cannot_be_asked([rung]))
    else:
        with pytest.raises(SpecError, match=r"it goes with .* leave it out"):
            read_spec(text.encode(), "stall.yaml", VOCABULARY)
