"""``python -m tests.word_tables`` writes the tables of words anew, from the vocabulary."""

from pathlib import Path
from typing import Final

from generator.vocabulary import VOCABULARY
from specs.word_tables import word_tables

PAGE: Final = Path(__file__).parents[1] / "specs" / "WORDS.md"

if __name__ == "__main__":
    PAGE.write_text(word_tables(VOCABULARY), encoding="utf-8")
