"""Values as plain data: words, numbers, lists and mappings, whatever class holds them.

Plain data has two texts. ``canonical`` is the one that promises hang on, page codes and seeds
among them: JSON with its words in alphabetical order, exact decimals as text, and the version
of this form. ``flow`` is YAML as a teacher would write it.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

VERSION: Final = 1
"""Of the canonical form. A new one changes every code and every choice that a seed makes."""


@dataclass(frozen=True, slots=True)
class InOrder:
    """Names with a value each, where their order says something: rungs, tiers, questions."""

    pairs: "tuple[tuple[str, Plain], ...]"


Plain = bool | int | str | Fraction | tuple["Plain", ...] | Mapping[str, "Plain"] | InOrder
"""``bool``, ``int``, ``str``, an exact decimal, or a tuple or mapping of these."""


def canonical(value: Plain) -> str:
    """The one text of plain data: the same for the same data, on every machine, for ever."""
    return json.dumps(
        [VERSION, _in_json(value)], sort_keys=True, separators=(",", ":"), ensure_ascii=True
    )


def _in_json(value: Plain) -> Any:
    match value:
        case bool() | int() | str():
            return value
        case Fraction():
            return decimal_text(value)
        case tuple():
            return [_in_json(item) for item in value]
        case InOrder():
            return [[name, _in_json(item)] for name, item in value.pairs]
    return {word: _in_json(item) for word, item in value.items()}


def flow(value: Plain) -> str:
    """Plain data in flow YAML: ``{count: [1, 2], across_point: false}``. Text is words only."""
    match value:
        case bool():
            return "true" if value else "false"
        case int() | str():
            return str(value)
        case Fraction():
            return decimal_text(value)
        case tuple():
            return f"[{', '.join(map(flow, value))}]"
    pairs = value.pairs if isinstance(value, InOrder) else value.items()
    return f"{{{', '.join(f'{word}: {flow(item)}' for word, item in pairs)}}}"


def decimal_text(value: Fraction) -> str:
    """A terminating decimal in full. Raises ValueError for any other fraction."""
    places = 0
    while value.denominator != 1 and (value * 10**places).denominator != 1:
        places += 1
        if places > 18:
            raise ValueError(f"{value} has more than 18 decimal places")
    digits = str(abs(value.numerator) * 10**places // value.denominator).rjust(places + 1, "0")
    sign = "-" if value < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else sign + digits
