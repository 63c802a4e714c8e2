"""What a rung asks, in a sentence for teachers: one phrase for each of its words."""

from collections.abc import Callable, Iterator, Mapping
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

_COUNTED_INSIDE: Final = {
    ("ending", "decimal"): counted(
        "carried on to {count} decimal place", "carried on to {count} decimal places"
    ),
    ("ending", "rounded"): counted(
        "rounded to {count} decimal place", "rounded to {count} decimal places"
    ),
    ("divisor", "digits"): counted("divisor of {count} digit", "divisor of {count} digits"),
    ("power_of_ten", "places"): _COUNTED["places"],
    ("power_of_ten", "whole"): _COUNTED["whole"],
    ("answer", "places"): counted(
        "answer with {count} decimal place", "answer with {count} decimal places"
    ),
    ("answer", "whole"): counted(
        "answer with {count} digit before the point",
        "answer with {count} digits before the point",
    ),
}
"""What a number counts in the braces of a word."""

_CHOSEN: Final = {
    ("ending", "exact"): say("no remainder"),
    ("ending", "remainder"): say("a remainder"),
    ("ending", "fraction"): say("the remainder as a fraction"),
    ("zero_in_quotient", "allow"): say("noughts in the quotient allowed"),
    ("zero_in_quotient", "require"): say("a nought in the quotient"),
    ("zero_in_quotient", "forbid"): say("no nought in the quotient"),
    ("zeros", "inside", "allow"): say("noughts inside numbers allowed"),
    ("zeros", "inside", "require"): say("a nought inside a number"),
    ("zeros", "inside", "forbid"): say("no nought inside a number"),
    ("zeros", "end", "allow"): say("noughts at the end of numbers allowed"),
    ("zeros", "end", "require"): say("a nought at the end of a number"),
    ("zeros", "end", "forbid"): say("no nought at the end of a number"),
    ("repeats", "allow"): say("a digit may stand twice in a column"),
    ("repeats", "forbid"): say("no digit twice in a column"),
    ("ones", "allow"): say("a factor may be a 1"),
    ("ones", "forbid"): say("no factor is a 1"),
    ("longer", "first"): say("more decimal places in the first number"),
    ("longer", "second"): say("more decimal places in the second number"),
    ("longer", "neither"): say("as many decimal places in both numbers"),
    ("goes", "up"): say("the number goes up"),
    ("goes", "down"): say("the number goes down"),
    ("over_nine", "require"): say("rounding up a nine"),
    ("over_nine", "forbid"): say("not rounding up a nine"),
    ("answer", "ends_in_zero", "yes"): say("answer ends in a nought"),
    ("answer", "ends_in_zero", "no"): say("answer does not end in a nought"),
    ("answer", "whole_number", "yes"): say("answer is a whole number"),
    ("answer", "whole_number", "no"): say("answer is no whole number"),
}
"""What is chosen, of a word or of a word in its braces."""

_OF: Final[Mapping[tuple[str, ...], Callable[[str], Saying]]] = {
    ("to",): lambda columns: say("to {columns}", columns=columns),
    ("same_to",): lambda column: say("alike down to the {column}", column=column),
    ("power_of_ten", "by"): lambda powers: say("by {powers}", powers=powers),
    ("answer", "above"): lambda number: say("answer above {number}", number=number),
    ("answer", "below"): lambda number: say("answer below {number}", number=number),
    ("first",): lambda number: say("first number {number}", number=number),
    ("second",): lambda number: say("second number {number}", number=number),
    ("third",): lambda number: say("third number {number}", number=number),
}
"""Phrases around what is chosen."""

_POWERS: Final = {"ten": "10", "hundred": "100", "thousand": "1000"}
"""Powers of ten as sentences have them."""

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
            yield _chosen((word,), name, value)
        case list() if counts and all(isinstance(item, int) for item in value):
            in_turn = joined(map(str, value), between=say(" then "))
            yield several(*counts, value[-1], count=in_turn)
        case list() if all(isinstance(item, int) for item in value):
            yield say("{word} {number}", word=name, number=listed(map(str, value)))
        case list():
            yield _around((word,), name, listed(some_label(str(item), word) for item in value))
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
    if (word, inner) in _COUNTED_INSIDE:
        return several(*_COUNTED_INSIDE[word, inner], _number_of(value), count=_span(value))
    if inner == "between":
        return say("{word} {number}", word=name, number=_span(value))
    called = say("{word}: {within}", word=name, within=within)
    if isinstance(value, bool):
        return _chosen((word, inner), called, "yes" if value else "no")
    if isinstance(value, list):
        chosen = listed(_POWERS.get(item) or some_label(str(item), word) for item in value)
        return _around((word, inner), called, chosen)
    return _chosen((word, inner), called, str(value))


def _chosen(words: tuple[str, ...], called: Saying, value: str) -> Saying:
    """One that is chosen of a word, or of a word in another's braces."""
    if (*words, value) in _CHOSEN:
        return _CHOSEN[(*words, value)]
    return _around(words, called, _POWERS.get(value) or some_label(value, words[0]))


def _around(words: tuple[str, ...], called: Saying, chosen: str) -> Saying:
    """What is chosen, in the phrase that the word has for it."""
    if words in _OF:
        return _OF[words](chosen)
    return say("{word}: {choice}", word=called, choice=chosen)


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
