"""Questions that a pack must not ask: those that pupils have had before, written out."""

import re
from dataclasses import dataclass
from typing import Any, Final

from specs.canonical import Plain
from specs.languages.saying import Saying, say
from specs.problems import Reading, quoted
from specs.shapes import UNREAD, Unread
from specs.shapes.shape import Notation, Shape
from specs.yaml_text import Node, Scalar, Sequence

MOST_AVOIDED: Final = 5_000
LONGEST: Final = 120

_SIGNS: Final = {"add": "+", "subtract": "−", "multiply": "×", "divide": "÷"}
_EXAMPLES: Final = say(
    "'3.4 + 0.27', 'compare 0.5, 0.50', 'order 0.4, 0.35, 0.3' or 'round 3.47 to 1' "
    "(decimal places)"
)
_SPELT: Final = {"-": "−", "–": "−", "*": "×", "x": "×", "/": "÷"}
_COUNTS: Final = {
    "add": range(2, 7),
    "subtract": range(2, 3),
    "multiply": range(2, 4),
    "divide": range(2, 3),
    "order": range(2, 13),
    "compare": range(2, 3),
}
_NUMBER: Final = r"[0-9]{1,18}(?:\.[0-9]{1,18})?"
_CALCULATION: Final = re.compile(rf"{_NUMBER}(?: ?([-+–−×x*÷/]) ?{_NUMBER})+")
_NUMBERS: Final = re.compile(rf"(order|compare) +{_NUMBER}(?: ?, ?{_NUMBER})+")
_ROUNDED: Final = re.compile(rf"round +({_NUMBER}) +to +([-−]?[0-9]{{1,2}})")


@dataclass(frozen=True, slots=True)
class Avoided:
    """A question not to be asked: its operation and its numbers as they are written.

    ``places`` says to how many decimal places a number is rounded, below 0 for tens.
    """

    operation: str
    numbers: tuple[str, ...]
    places: int = 0

    @property
    def text(self) -> str:
        """``3.4 + 0.27``, ``order 0.4, 0.35``, ``round 3.47 to 1``."""
        if self.operation == "round":
            return f"round {self.numbers[0]} to {self.places}"
        if self.operation in _SIGNS:
            return f" {_SIGNS[self.operation]} ".join(self.numbers)
        return f"{self.operation} {', '.join(self.numbers)}"

    @classmethod
    def parse(cls, text: str) -> "Avoided | None":
        """The question that a text asks; None where it asks none."""
        if len(text) > LONGEST:
            return None
        rounded = _ROUNDED.fullmatch(text)
        if rounded:
            return cls("round", (rounded[1],), int(rounded[2].replace("−", "-")))
        numbers = tuple(re.findall(_NUMBER, text))
        in_a_row = _NUMBERS.fullmatch(text)
        if in_a_row:
            operation = in_a_row[1]
        elif _CALCULATION.fullmatch(text):
            signs = {_SPELT.get(sign, sign) for sign in re.findall(r"[-+–−×x*÷/]", text)}
            known = [name for name, sign in _SIGNS.items() if signs == {sign}]
            if not known:
                return None
            (operation,) = known
        else:
            return None
        return cls(operation, numbers) if len(numbers) in _COUNTS[operation] else None


def no_question(node: Node, reading: Reading) -> Saying:
    """That what stands there is no question."""
    shown = quoted(node.text) if isinstance(node, Scalar) else say("an entry")
    return say("{words} in {subject} is no question", words=shown, subject=reading.subject)


@dataclass(frozen=True)
class OneQuestion(Shape[Avoided]):
    """A question written out on one line."""

    notations = frozenset({Notation.WORD, Notation.NUMBER})

    @property
    def says(self) -> Saying:
        """What a question looks like."""
        return say("a question such as '3.46 + 0.2 + 1.75'")

    def read(self, node: Node, reading: Reading) -> Avoided | Unread:
        """The question."""
        asked = Avoided.parse(node.text) if isinstance(node, Scalar) else None
        return self.refuse(node, reading) if asked is None else asked

    def plain(self, value: Avoided) -> Plain:
        """As it is printed."""
        return value.text

    def write(self, value: Avoided) -> str:
        """The same in quotes."""
        return f'"{value.text}"'

    def holds(self, value: object) -> bool:
        """A question."""
        return isinstance(value, Avoided)

    def schema(self) -> dict[str, Any]:
        """A string."""
        return {"type": "string", "maxLength": LONGEST}


@dataclass(frozen=True)
class ListOfAvoided(Shape[tuple[Avoided, ...]]):
    """A list of questions, each on one line."""

    notations = frozenset({Notation.LIST})

    @property
    def says(self) -> Saying:
        """What a list holds."""
        return say("a list of questions such as {examples}", examples=_EXAMPLES)

    def read(self, node: Node, reading: Reading) -> tuple[Avoided, ...] | Unread:
        """The questions in the order written."""
        if not isinstance(node, Sequence) or not node.items:
            return self.refuse(node, reading)
        if len(node.items) > MOST_AVOIDED:
            what = say(
                "{subject} has {count} questions", subject=reading.subject, count=len(node.items)
            )
            reading.problem(node.line, what, say("keep to {most}", most=MOST_AVOIDED))
            return UNREAD
        found = []
        for item in node.items:
            avoided = Avoided.parse(item.text) if isinstance(item, Scalar) else None
            if avoided is None:
                instead = say("write one such as {examples}", examples=_EXAMPLES)
                reading.problem(item.line, no_question(item, reading), instead)
            else:
                found.append(avoided)
        return tuple(found) if len(found) == len(node.items) else UNREAD

    def plain(self, value: tuple[Avoided, ...]) -> Plain:
        """The questions in one order, which says nothing."""
        return tuple(sorted(avoided.text for avoided in value))

    def write(self, value: tuple[Avoided, ...]) -> str:
        """``["3.4 + 0.27", "order 0.4, 0.35"]``."""
        texts = [f'"{avoided.text}"' for avoided in value]
        return f"[{', '.join(texts)}]"

    def holds(self, value: object) -> bool:
        """Some questions."""
        return (
            isinstance(value, tuple)
            and bool(value)
            and all(isinstance(item, Avoided) for item in value)
        )

    def schema(self) -> dict[str, Any]:
        """An array of strings."""
        return {
            "type": "array",
            "items": {"type": "string", "maxLength": LONGEST},
            "minItems": 1,
            "maxItems": MOST_AVOIDED,
        }


AVOID: Final = ListOfAvoided()
