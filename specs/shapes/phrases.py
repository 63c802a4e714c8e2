"""Sets of phrases of several words."""

from dataclasses import dataclass
from typing import Any

from specs.shapes.lists import SetOf
from specs.spellings import folded


@dataclass(frozen=True, init=False)
class SetOfPhrases(SetOf):
    """Some of a few phrases, each at most once; schemas offer them with hyphens too."""

    def __init__(self, *choices: str) -> None:
        super().__init__(*choices)

    def schema(self) -> dict[str, Any]:
        """A phrase or an array of different phrases, each in either spelling."""
        spelt = [*self.words, *(folded(word) for word in self.words if " " in word)]
        word: dict[str, Any] = {"enum": spelt}
        return {
            "anyOf": [word, {"type": "array", "items": word, "minItems": 1, "uniqueItems": True}]
        }
