"""Questions written as people write them, for tests."""

import re

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question

SIGNS = {
    "+": Operation.ADD,
    "−": Operation.SUBTRACT,
    "-": Operation.SUBTRACT,
    "×": Operation.MULTIPLY,
    "÷": Operation.DIVIDE,
    "□": Operation.COMPARE,
    ",": Operation.ORDER,
}


def question(text: str, ending: Ending = Ending.EXACT, places: int = 0) -> Question:
    """``3.4 + 0.27``, ``432 ÷ 5``, ``0.5 □ 0.45`` or ``0.4, 0.35, 0.3`` as a question."""
    first, sign, rest = re.split(r"\s*([-+−×÷□,])\s*", text, maxsplit=1)
    numbers = (first, *re.split(rf"\s*{re.escape(sign)}\s*", rest))
    return Question(SIGNS[sign], tuple(map(Number.parse, numbers)), ending, places)
