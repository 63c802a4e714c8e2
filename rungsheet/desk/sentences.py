"""What a rung asks, in a sentence for teachers: one phrase for each of its words."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from rungsheet.desk.choices import as_json
from rungsheet.desk.labels import plainly, some_label, word_label
from specs.ladder import CONTEXT, FORM
from specs.languages.saying import Saying, counted, joined, say, say_of, several
from specs.problems import listed
from specs.spec import PLAIN, RungSpec

__all__ = ["sentence"]

_ASKS: Final = {
    "add": say_of("rung", "Add"),
    "subtract": say_of("rung", "Subtract"),
    "multiply": say_of("rung", "Multiply"),
    "divide": say_of("rung", "Divide"),
    "order": say_of("rung", "Put in order"),
    "compare": say_of("rung", "Compare"),
    "round": say_of("rung", "Round"),
}

_NUMBERS: Final = counted("{count} number", "{count} numbers")

_COUNTED: Final = {
    "addends": _NUMBERS,
    "factors": _NUMBERS,
    "numbers": _NUMBERS,
    "places": counted("{count} decimal place", "{count} decimal places"),
    "whole": counted("{count} digit before the point", "{count} digits before the point"),
    "digits": counted("{count} digit", "{count} digits"),
    "divisor_places": counted(
        "{count} decimal place in the divisor", "{count} decimal places in the divisor"
    ),
    "carries": counted("{count} carry", "{count} carries"),
    "exchanges": counted("{count} exchange", "{count} exchanges"),
    "remainders": counted("{count} remainder carried", "{count} remainders carried"),
    "dividend": counted("{count} digit in the dividend", "{count} digits in the dividend"),
    "quotient": counted("{count} digit in the quotient", "{count} digits in the quotient"),
}
"""What a number after a word counts: one of it, and several."""

_HOW_MANY: Final = {
    "carries": {
        "none": say("no carries"),
        "some": say("some carries"),
        "every": say("all possible carries"),
    },
    "exchanges": {
        "none": say("no exchanges"),
        "some": say("some exchanges"),
        "every": say("all possible exchanges"),
    },
    "remainders": {
        "none": say("no remainders carried"),
        "some": say("some remainders carried"),
        "every": say("all possible remainders carried"),
    },
}
"""Words of which there are none, some or as many as there can be."""

_ACROSS_POINT: Final = {
    "carries": (say("no carry across the point"), say("one carry across the point")),
    "exchanges": (say("no exchange across the point"), say("one exchange across the point")),
}
_THROUGH_ZEROS: Final = counted(
    "an exchange through {count} nought", "an exchange through {count} noughts"
)
_IN_COLUMNS: Final = {
    ("carries", "in"): counted("carries in the {columns}", "carries in the {columns}"),
    ("carries", "not_in"): counted("carries not in the {columns}", "carries not in the {columns}"),
    ("carries", "only"): counted("carries only in the {columns}", "carries only in the {columns}"),
    ("exchanges", "in"): counted("exchanges in the {columns}", "exchanges in the {columns}"),
    ("exchanges", "not_in"): counted(
        "exchanges not in the {columns}", "exchanges not in the {columns}"
    ),
    ("exchanges", "only"): counted(
        "exchanges only in the {columns}", "exchanges only in the {columns}"
    ),
}
"""In which columns there are some, said of one column and of several."""

_ENDING: Final = {
    "decimal": counted("ending: decimal {count}", "ending: decimal {count}"),
    "rounded": counted("ending: rounded {count}", "ending: rounded {count}"),
}
"""After how many decimal places a division ends."""

_HOW: Final = {"ragged": say(", not all alike"), "same": say(", all alike")}


def sentence(rung: RungSpec) -> Saying:
    """``Add: 2 numbers, 2 decimal places, no carries.``"""
    phrases = [
        phrase
        for condition in rung.conditions
        for phrase in _phrases(condition.word, as_json(condition.plain))
    ]
    if rung.form != PLAIN:
        phrases.append(say("asked as {form}", form=some_label(rung.form, FORM)))
    if rung.context:
        kinds = listed(some_label(kind, CONTEXT) for kind in rung.context)
        phrases.append(say("in words about {kinds}", kinds=kinds))
    asks = _ASKS[rung.operation]
    if not phrases:
        return say("{asks}.", asks=asks)
    return say("{asks}: {phrases}.", asks=asks, phrases=joined(phrases, between=", "))


def _phrases(word: str, value: Any) -> Iterator[Saying]:
    counts, name = _COUNTED.get(word), word_label(word)
    match value:
        case bool():
            yield name if value else say("not {word}", word=name)
        case int() if counts:
            yield several(*counts, value)
        case int():
            yield say("{word} {number}", word=name, number=value)
        case str() if word in _HOW_MANY:
            yield _HOW_MANY[word][value]
        case str():
            yield say("{word}: {choice}", word=name, choice=some_label(value, word))
        case list() if counts and all(isinstance(item, int) for item in value):
            in_turn = joined(map(str, value), between=say(", then "))
            yield several(*counts, len(value), count=in_turn)
        case list():
            chosen = listed(some_label(str(item), word) for item in value)
            yield say("{word}: {choice}", word=name, choice=chosen)
        case Mapping():
            for inner, of in value.items():
                yield _inside(word, inner, of)


def _inside(word: str, inner: str, value: Any) -> Saying:
    """A word in the braces of another."""
    counts, name, within = _COUNTED.get(word), word_label(word), word_label(inner, word)
    if inner == "across_point":
        return _ACROSS_POINT[word][bool(value)]
    if inner == "through_zeros":
        return several(*_THROUGH_ZEROS, _number_of(value), count=_span(value))
    if (word, inner) in _IN_COLUMNS:
        return _in_columns(word, inner, [value] if isinstance(value, str) else value)
    if inner in ("count", "digits", "between", "same", "ragged") and counts:
        how_many = several(*counts, _number_of(value), count=_span(value))
        return joined((how_many, _HOW.get(inner, "")), between="")
    if inner in _ENDING:
        return several(*_ENDING[inner], _number_of(value), count=_span(value))
    if inner == "between" and isinstance(value, list):
        return _between(name, value)
    if isinstance(value, bool):
        if value:
            return say("{word}: {within}", word=name, within=within)
        return say("{word}: not {within}", word=name, within=within)
    if isinstance(value, list) and not all(isinstance(item, int) for item in value):
        chosen: Saying = listed(some_label(str(item), word) for item in value)
    else:
        chosen = _span(value) if isinstance(value, list) else some_label(str(value), word)
    return say("{word}: {within} {choice}", word=name, within=within, choice=chosen)


def _between(name: Saying, ends: list[Any]) -> Saying:
    """A span of numbers that nothing counts, whole or decimal."""
    low, high = ends
    if isinstance(low, int):
        return say("{word}: between {low} to {high}", word=name, low=low, high=high)
    return say("{word}: between {low} or {high}", word=name, low=low, high=high)


def _in_columns(word: str, inner: str, columns: list[str]) -> Saying:
    named = listed((some_label(column, word) for column in columns), "and")
    return several(*_IN_COLUMNS[word, inner], len(columns), columns=named)


def _span(value: Any) -> Saying:
    """``2``, or ``2 to 4``."""
    if not isinstance(value, list):
        return plainly(value)
    low, high = value
    return say("{low} to {high}", low=low, high=high)


def _number_of(value: Any) -> int:
    """One for one; any number of several for a span."""
    return value if isinstance(value, int) else len(value)
