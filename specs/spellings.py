"""Other spellings of a spec's words, where there is no doubt what is meant.

Capitals, and spaces, hyphens and underscores between words, make no difference; and a few words
that teachers use are known by what they are called here.
"""

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from specs import yaml_text
from specs.languages.saying import say
from specs.problems import Reading, quoted

Also = Mapping[str, str]
"""Folded spellings, each with the word that it means."""

NOTHING_ELSE: Final[Also] = MappingProxyType({})

OPERATIONS: Final[Also] = MappingProxyType(
    {
        **dict.fromkeys(("addition", "adding", "plus", "sum", "total", "+"), "add"),
        **dict.fromkeys(
            ("subtraction", "subtracting", "minus", "take-away", "takeaway"), "subtract"
        ),
        **dict.fromkeys(("multiplication", "multiplying", "times", "product"), "multiply"),
        **dict.fromkeys(("division", "dividing", "divided-by"), "divide"),
        **dict.fromkeys(("ordering", "put-in-order"), "order"),
        **dict.fromkeys(("comparing", "comparison"), "compare"),
        **dict.fromkeys(("rounding",), "round"),
    }
)

CONDITIONS: Final[Also] = MappingProxyType(
    {
        **dict.fromkeys(
            ("borrow", "borrows", "borrowing", "exchange", "exchanging", "regroup", "regrouping"),
            "exchanges",
        ),
        **dict.fromkeys(("carry", "carrying"), "carries"),
        **dict.fromkeys(("decimal-places", "place"), "places"),
        **dict.fromkeys(("whole-digits", "digits-before-the-point"), "whole"),
        **dict.fromkeys(("remainders-carried",), "remainders"),
        **dict.fromkeys(("nought-in-quotient", "nought-in-the-quotient"), "zero_in_quotient"),
        **dict.fromkeys(("divisor-decimal-places",), "divisor_places"),
        **dict.fromkeys(("noughts", "zero", "zeroes"), "zeros"),
        **dict.fromkeys(("repeat", "repeated-digits"), "repeats"),
        **dict.fromkeys(("rounded-to", "round-to"), "to"),
        **dict.fromkeys(("ends", "end"), "ending"),
        **dict.fromkeys(("addend", "how-many-numbers"), "addends"),
        **dict.fromkeys(("powers-of-ten", "power-of-10", "powers-of-10"), "power_of_ten"),
    }
)

FIELDS: Final[Also] = MappingProxyType(
    {
        **dict.fromkeys(("through-noughts", "through-zeroes", "through-zero"), "through_zeros"),
        **dict.fromkeys(("ends-in-nought", "ends-in-noughts", "ends-in-zeros"), "ends_in_zero"),
        **dict.fromkeys(("across-the-point", "over-the-point", "crosses-point"), "across_point"),
        **dict.fromkeys(("between-the-digits", "middle"), "inside"),
        **dict.fromkeys(("at-the-end", "last"), "end"),
    }
)


def folded(text: str) -> str:
    """A text without what makes no difference: ``Through zeros`` is ``through-zeros``."""
    return "-".join(re.split(r"[\s_-]+", text.strip().lower()))


def meant(text: str, known: Iterable[str], also: Also = NOTHING_ELSE) -> str | None:
    """The known word that a text means beyond doubt; None where it means none."""
    words = tuple(known)
    if text in words:
        return text
    plain = folded(text)
    found = [word for word in words if folded(word) == plain]
    if len(found) == 1:
        return found[0]
    other = also.get(plain)
    return other if other in words else None


def respelt(
    node: yaml_text.Mapping, known: Collection[str], also: Also, reading: Reading
) -> yaml_text.Mapping:
    """A mapping with the known words spelt as they are known.

    Where two of its words mean the same, that is reported and the first of them stays.
    """
    entries: dict[str, tuple[yaml_text.Scalar, yaml_text.Node]] = {}
    for key, value in node.entries:
        word = meant(key.text, known, also)
        spelt = key if word is None else replace(key, text=word)
        if spelt.text not in entries:
            entries[spelt.text] = (spelt, value)
        else:
            what = say(
                "{word} says the same as {other} on line {line}",
                word=quoted(key.text),
                other=quoted(spelt.text),
                line=entries[spelt.text][0].line,
            )
            reading.problem(key.line, what, say("keep one of them"))
    return replace(node, entries=tuple(entries.values()))
