"""What a rung asks, in a sentence for teachers: one phrase for each of its words."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from rungsheet.desk.choices import as_json
from specs.problems import listed
from specs.spec import PLAIN, RungSpec

__all__ = ["sentence"]

_ASKS: Final = {
    "add": "Add",
    "subtract": "Subtract",
    "multiply": "Multiply",
    "divide": "Divide",
    "order": "Put in order",
    "compare": "Compare",
    "round": "Round",
}

_COUNTED: Final = {
    "addends": ("number", "numbers"),
    "factors": ("number", "numbers"),
    "numbers": ("number", "numbers"),
    "places": ("decimal place", "decimal places"),
    "whole": ("digit before the point", "digits before the point"),
    "digits": ("digit", "digits"),
    "divisor_places": ("decimal place in the divisor", "decimal places in the divisor"),
    "carries": ("carry", "carries"),
    "exchanges": ("exchange", "exchanges"),
    "remainders": ("remainder carried", "remainders carried"),
    "dividend": ("digit in the dividend", "digits in the dividend"),
    "quotient": ("digit in the quotient", "digits in the quotient"),
}
"""What a number after a word counts: one of it, and several."""

_NONE: Final = {"none": "no", "some": "some", "every": "all possible"}


def sentence(rung: RungSpec) -> str:
    """``Add: 2 numbers, 2 decimal places, no carries.``"""
    phrases = [
        phrase
        for condition in rung.conditions
        for phrase in _phrases(condition.word, as_json(condition.plain))
    ]
    if rung.form != PLAIN:
        phrases.append(f"asked as {rung.form}")
    if rung.context:
        phrases.append(f"in words about {listed(rung.context)}")
    said = f"{_ASKS[rung.operation]}: {', '.join(phrases)}" if phrases else _ASKS[rung.operation]
    return f"{said}."


def _phrases(word: str, value: Any) -> Iterator[str]:
    one, many = _COUNTED.get(word, ("", ""))
    name = word.replace("_", " ")
    match value:
        case bool():
            yield name if value else f"not {name}"
        case int() if one:
            yield f"{value} {one if value == 1 else many}"
        case int():
            yield f"{name} {value}"
        case str() if value in _NONE and one:
            yield f"{_NONE[value]} {many}"
        case str():
            yield f"{name}: {value}"
        case list() if one and all(isinstance(item, int) for item in value):
            yield f"{', then '.join(map(str, value))} {many}"
        case list():
            yield f"{name}: {listed(map(str, value))}"
        case Mapping():
            for inner, of in value.items():
                yield from _inside(word, inner, of)


def _inside(word: str, inner: str, value: Any) -> Iterator[str]:
    """A word in the braces of another."""
    one, many = _COUNTED.get(word, ("", ""))
    name, within = word.replace("_", " "), inner.replace("_", " ")
    span = " to ".join(map(str, value)) if isinstance(value, list) else str(value)
    if inner == "across_point":
        yield f"{_NO_OR_ONE[bool(value)]} {one or name} across the point"
    elif inner == "through_zeros":
        yield f"an exchange through {span} {'nought' if span == '1' else 'noughts'}"
    elif inner in _IN and isinstance(value, list):
        yield f"{many or name} {_IN[inner]} {listed(map(str, value), 'and')}"
    elif inner in ("count", "digits", "between", "same", "ragged") and one:
        yield f"{span} {one if span == '1' else many}{_HOW.get(inner, '')}"
    elif isinstance(value, bool):
        yield f"{name}: {within}" if value else f"{name}: not {within}"
    elif isinstance(value, list) and not all(isinstance(item, int) for item in value):
        yield f"{name}: {within} {listed(map(str, value))}"
    else:
        yield f"{name}: {within} {span}"


_NO_OR_ONE: Final = ("no", "one")
_IN: Final = {"in": "in the", "not_in": "not in the", "only": "only in the"}
_HOW: Final = {"ragged": ", not all alike", "same": ", all alike"}
