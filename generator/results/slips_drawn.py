"""Slips drawn by key: what somebody writes who meant an answer and slipped, as ``slip_answers``
has it."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.numbered.seeds import Dice
from generator.results.slip_answers import OF_A_HUNDRED, OPPOSITE
from specs.canonical import decimal_text
from specs.replies import Reply

_SIGNS: Final = ("<", ">", "=")
_MOST_TRIED: Final = 20
"""Slips that give what was meant, such as two like digits swapped, are drawn anew."""


def drawn_slip(question: Question, meant: Reply, procedures: Sequence[Reply], dice: Dice) -> Reply:
    """What is written in place of what was meant.

    ``procedures`` has the wrong answers that known procedures give to the question.
    """
    if question.operation is Operation.COMPARE:
        return _another_sign(meant, dice)
    if question.operation is Operation.ORDER:
        return _another_order(meant, dice)
    for _ in range(_MOST_TRIED):
        written = _another_number(meant, procedures, dice)
        if written != meant:
            return written
    return _number(meant, meant.value + 1)


def _another_sign(meant: Reply, dice: Dice) -> Reply:
    others = [sign for sign in _SIGNS if sign != meant.sign]
    if meant.sign != "=":
        others = ["=", *(sign for sign in others if sign != "=")]
        sign = others[1] if dice.below(100) < 100 * OPPOSITE else others[0]
    else:
        sign = others[dice.below(2)]
    return Reply(text=sign, sign=sign)


def _another_order(meant: Reply, dice: Dice) -> Reply:
    while True:
        order = tuple(dice.shuffled(meant.order))
        if order != meant.order or len(set(order)) == 1:
            return Reply(text=", ".join(map(_text, order)), order=order)


def _another_number(meant: Reply, procedures: Sequence[Reply], dice: Dice) -> Reply:
    kind = _kind(dice)
    places = _places(meant.value)
    if kind == "a wrong procedure, this once" and procedures:
        return procedures[dice.below(len(procedures))]
    if kind == "anything else" or places is None:
        most = 10 * int(meant.value) + 100
        size = Fraction(dice.below(most * 10 ** min(places or 0, 3)), 10 ** min(places or 0, 3))
        return _number(meant, size)
    units = int(meant.value * 10**places)
    if kind == "the point misplaced":
        return _number(meant, meant.value * Fraction(10) ** (1, -1, 2, -2)[dice.below(4)])
    digits = [int(digit) for digit in str(units)]
    at = dice.below(len(digits))
    if kind == "a digit one out":
        # a fact one out carries, so 9 may become 10
        up = 10 ** (len(digits) - 1 - at)
        changed = units - up if dice.below(2) and units >= up else units + up
        return _number(meant, Fraction(changed, 10**places))
    if kind == "two neighbours swapped" and at:
        digits[at - 1], digits[at] = digits[at], digits[at - 1]
    else:
        digits[at] = (digits[at] + 2 + dice.below(7)) % 10
    return _number(meant, Fraction(int("".join(map(str, digits))), 10**places))


def _kind(dice: Dice) -> str:
    at = dice.below(100)
    for kind, share in OF_A_HUNDRED.items():
        if at < share:
            return kind
        at -= int(share)
    return "anything else"


def _places(size: Fraction) -> int | None:
    """How many places a number has; None where it never ends."""
    for places in range(13):
        if (size * 10**places).denominator == 1:
            return places
    return None


def _number(meant: Reply, size: Fraction) -> Reply:
    """A number in place of what was meant, what is left over as it was."""
    return Reply(size, meant.left, _text(size) + (f" r {_text(meant.left)}" if meant.left else ""))


def _text(size: Fraction) -> str:
    return str(size) if _places(size) is None else decimal_text(size)
