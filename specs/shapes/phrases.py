"""Sets of phrases of several words."""

from dataclasses import dataclass, replace
from typing import Any

from specs.problems import Reading
from specs.shapes.lists import SetOf
from specs.shapes.shape import Unread
from specs.yaml_text import Node, Scalar, Sequence


@dataclass(frozen=True, init=False)
class SetOfPhrases(SetOf):
    """Some of a few phrases, each at most once; hyphens may stand between their words.

    ``[carry-dropped, carry added twice]`` is read as ``[carry dropped, carry added twice]``.
    """

    def __init__(self, *choices: str) -> None:
        super().__init__(*choices)

    def read(self, node: Node, reading: Reading) -> tuple[str, ...] | Unread:
        """The phrases in the order of the choices."""
        if isinstance(node, Sequence):
            return super().read(replace(node, items=tuple(map(self._plain, node.items))), reading)
        return super().read(self._plain(node), reading)

    def _plain(self, node: Node) -> Node:
        if not isinstance(node, Scalar):
            return node
        spelt = {_hyphened(choice): choice for choice in self.words}
        return replace(node, text=spelt.get(_hyphened(node.text), node.text))

    def schema(self) -> dict[str, Any]:
        """A phrase or an array of different phrases, each in either spelling."""
        spelt = [*self.words, *(_hyphened(word) for word in self.words if " " in word)]
        word: dict[str, Any] = {"enum": spelt}
        return {
            "anyOf": [word, {"type": "array", "items": word, "minItems": 1, "uniqueItems": True}]
        }


def _hyphened(phrase: str) -> str:
    return "-".join(phrase.lower().replace("-", " ").split())
