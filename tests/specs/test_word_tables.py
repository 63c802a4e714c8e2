"""The tables of words that people read are those of the vocabulary."""

import re

from generator.vocabulary import VOCABULARY
from specs.word_tables import word_tables
from tests.word_tables import PAGE


def test_the_page_is_written_from_the_vocabulary() -> None:
    assert PAGE.read_text(encoding="utf-8") == word_tables(VOCABULARY), (
        "run python -m tests.word_tables"
    )


def test_every_word_has_a_row() -> None:
    page = word_tables(VOCABULARY)
    for operation in VOCABULARY.operations:
        heading = f"## A rung with `operation: {operation}`\n"
        part = page.split(heading)[1].split("\n## ")[0]
        rows = set(re.findall(r"^\| `([a-z_]+)` \| \S", part, re.M))
        assert rows >= {word.name for word in VOCABULARY.of(operation) if word.says}
