"""How a land's schools write numbers, signs and written methods: one file of facts for each.

Every fact has its source beside it, in the same words as checks use: a published source, or
"common practice, no source"; where it is from memory the file says so.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from itertools import chain, repeat
from typing import Any, Final

import yaml

UNSOURCED: Final = "common practice, no source"

_SIGNS: Final = re.compile("[×÷]")
_DIGIT: Final = "[0-9□]"  # a box stands for a digit that is missing
_NUMBER: Final = re.compile(rf"(?<![0-9.,□]){_DIGIT}+(?:\.{_DIGIT}+)?")
_MONEY: Final = re.compile(r"¤([0-9]+(?:\.[0-9]+)?)")
_LISTED: Final = re.compile(r"(?<=[0-9□]),(?=\s+[0-9□▭]|$)")


@dataclass(frozen=True, slots=True)
class Fact:
    """What is so in a land, and where that is published."""

    value: Any
    source: str


@dataclass(frozen=True, slots=True)
class Land:
    """How a land's schools write.

    ``decimal`` stands before the tenths; ``gap`` between groups of digits before it, in numbers
    of ``grouped_from`` digits there and more ("" for none). ``groups`` are the sizes of these
    groups from the right, the last for all further ones. ``times`` and ``divided_by`` are the
    signs. ``carries``, ``subtraction`` and ``division`` are how the written methods are set out
    where a spec does not say, in the words that specs have for them; ``set_out`` is where divisor
    and quotient of a long division stand, and ``below_the_dividend`` what is written there, in
    the words of ``generator/operations/quotients/set_outs.py``. ``short_division`` is
    what a short one is, in the same words: the half-box with small remainders, or that set-out with
    so much below the dividend. ``factors`` is where those of a
    written multiplication stand, ``first_row`` which digit of the second makes its first row, and
    ``product_carries`` whether what is carried in a row is written, in the words of
    ``generator/operations/products/set_outs.py``. ``money`` is a sum in the land's
    currency, with a gap for the amount. ``sources`` has where each fact is published.
    """

    name: str
    decimal: str
    gap: str
    groups: tuple[int, ...]
    grouped_from: int
    times: str
    divided_by: str
    carries: str
    subtraction: str
    division: str
    set_out: str
    below_the_dividend: str
    short_division: str
    factors: str
    first_row: str
    product_carries: str
    money: str
    sources: Mapping[str, str] = field(compare=False, repr=False)

    def writes(self, text: str) -> str:
        """A text with its numbers and signs as this land writes them.

        It has them as the generator does: ``12345.6 ÷ 3``, and a list as ``0.4, 0.35``, whose
        commas become semicolons where a comma stands in the numbers. Sums in the land's own
        currency have the sign for any, ``¤3.40``.
        """
        text = _MONEY.sub(lambda sum_of: self.money.format(amount=sum_of[1]), text)
        if self.decimal == ",":
            text = _LISTED.sub(";", text)
        text = _NUMBER.sub(self._number, text)
        return _SIGNS.sub(lambda sign: self.sign(sign[0]), text)

    def sign(self, sign: str) -> str:
        """A sign of the generator's as this land writes it."""
        return {"×": self.times, "÷": self.divided_by}.get(sign, sign)

    def _number(self, found: re.Match[str]) -> str:
        whole, _, part = found[0].partition(".")
        if self.gap and len(whole) >= self.grouped_from:
            whole = self.gap.join(self._grouped(whole))
        return f"{whole}{self.decimal}{part}" if part else whole

    def _grouped(self, whole: str) -> list[str]:
        """The digits of a whole number in groups, from the left."""
        found, sizes = list[str](), chain(self.groups, repeat(self.groups[-1]))
        while whole:
            size = next(sizes)
            whole, group = whole[:-size], whole[-size:]
            found.insert(0, group)
        return found


@cache
def _files() -> Mapping[str, str]:
    """The text of each land's file by the land's name."""
    found = {}
    for file in files(__package__).iterdir():
        if file.name.endswith(".yaml"):
            text = file.read_text("utf-8")
            found[str(yaml.safe_load(text)["name"])] = text
    return dict(sorted(found.items()))


def names() -> tuple[str, ...]:
    """The names of the lands, in alphabetical order."""
    return tuple(_files())


@cache
def land(name: str) -> Land:
    """The land of that name. Raises KeyError for one that has no file."""
    said = yaml.safe_load(_files()[name])
    facts = {word: Fact(of["is"], of["source"]) for word, of in said.items() if word != "name"}
    values = {word: fact.value for word, fact in facts.items()}
    return Land(
        name=name,
        **values | {"groups": tuple(values["groups"])},
        sources={word: fact.source for word, fact in facts.items()},
    )
