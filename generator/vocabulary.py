"""All that a spec may say of a rung: its operations, conditions and forms, each from its table."""

from dataclasses import replace
from typing import Final

from generator.forms.table import form_words
from generator.operations.conditions import CONDITIONS
from specs.words import Vocabulary


def vocabulary() -> Vocabulary:
    """The words of the tables as they stand."""
    return replace(CONDITIONS, forms=form_words())


VOCABULARY: Final = vocabulary()
