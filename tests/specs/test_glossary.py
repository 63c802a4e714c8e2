"""The words of a spec as a terminal shows them."""

import pytest

from generator.vocabulary import VOCABULARY
from specs.glossary import glossary
from specs.pages import PAGES, SAYS
from specs.sections import SECTION_WORDS


@pytest.mark.parametrize("operation", VOCABULARY.operations)
def test_an_operation_has_each_of_its_words_with_what_it_means(operation: str) -> None:
    text = glossary(VOCABULARY, operation)
    lines = text.splitlines()
    words = lines[: lines.index("mistakes that tells_apart may name there")]
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
    assert {*SECTION_WORDS, *SAYS} - {"questions"} <= set(firsts)
    assert all(len(line) <= 96 for line in text.splitlines())


def test_every_word_of_pages_is_explained() -> None:
    assert list(SAYS) == list(PAGES.shapes)
