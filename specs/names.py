"""The names that a teacher gives to rungs and tiers. Tiers name files, so both stay plain."""

import re
import unicodedata
from collections.abc import Collection
from dataclasses import replace
from typing import Final

from specs.languages.saying import Saying, say, say_of
from specs.problems import Reading, quoted, write
from specs.spec import EXAMPLES, FINDS_OUT, STARTER, TELLS_APART
from specs.yaml_text import Mapping, Node, Scalar

LONGEST_NAME: Final = 40

RESERVED_BY_WINDOWS: Final = (
    *("con", "prn", "aux", "nul"),
    *(f"{port}{number}" for port in ("com", "lpt") for number in range(10)),
)
"""Names that a Windows file cannot have, whatever its extension.

Source: Microsoft Learn, "Naming Files, Paths, and Namespaces"; the list is from memory, and
com0 and lpt0 are kept out with the rest.
"""

SECTION_WORDS: Final = (
    *("minutes", "frames", TELLS_APART, FINDS_OUT, "instructions", "objective", "shown_as"),
    *("your_turn", "methods", "questions", "earlier", "tiers"),
)
"""A section's own words, which no rung may have for a name."""

SECTION_NAMES: Final = (STARTER, EXAMPLES)
"""Sections that are no tier."""

OF_A_RUNG: Final = say_of("whose name", "a rung")
OF_A_TIER: Final = say_of("whose name", "a tier")
"""What a name is that of."""

_FIT: Final = say(
    "at most {most} lower-case letters, digits and hyphens, a letter first", most=LONGEST_NAME
)

_WORDS: Final = r"[\w '’-]+"
"""What may be tidied: letters, digits and what joins words; a path is not meant for a name."""

PATTERN: Final = rf"^[a-z][a-z0-9-]{{0,{LONGEST_NAME - 1}}}$"


def read_name(key: Scalar, whose: Saying, taken: tuple[str, ...], reading: Reading) -> bool:
    """Whether a name is fit for a rung or a tier (``whose``); reports what is wrong with it."""
    name, shown = key.text, quoted(key.text)
    if not re.fullmatch(PATTERN, name):
        plain = plain_name(name)
        what = say("{name} cannot be the name of {whose}", name=shown, whose=whose)
        reading.problem(key.line, what, write(quoted(plain) if plain else _FIT))
    elif name in RESERVED_BY_WINDOWS:
        what = say(
            "{name} cannot be the name of {whose}: Windows keeps it for a device",
            name=shown,
            whose=whose,
        )
        reading.problem(key.line, what, ANOTHER_NAME)
    elif name in taken:
        what = say(
            "{name} cannot be the name of {whose}: it has a meaning of its own",
            name=shown,
            whose=whose,
        )
        reading.problem(key.line, what, ANOTHER_NAME)
    else:
        return True
    return False


ANOTHER_NAME: Final = say("choose another name")


def tidy(key: Scalar) -> Scalar:
    """A name as it is kept: ``Level places`` is ``level-places``, where that is fit."""
    if re.fullmatch(PATTERN, key.text) or not re.fullmatch(_WORDS, key.text):
        return key
    return replace(key, text=plain_name(key.text) or key.text)


def tidied(node: Mapping, reading: Reading) -> Mapping:
    """A mapping with its names as they are kept; names that are then alike are reported."""
    entries: dict[str, tuple[Scalar, Node]] = {}
    for written, value in node.entries:
        key = tidy(written)
        if key.text in entries:
            what = say(
                "{name} is the same name as {other} on line {line}",
                name=quoted(written.text),
                other=quoted(key.text),
                line=entries[key.text][0].line,
            )
            reading.problem(key.line, what, ANOTHER_NAME)
        else:
            entries[key.text] = (key, value)
    return replace(node, entries=tuple(entries.values()))


def name_for(words: str) -> str | None:
    """The name for what a teacher calls something; German umlauts as where they cannot be written.

    ``Übertrag`` gives ``uebertrag``, as addresses and passports have it (common practice; ICAO Doc
    9303 part 3 has the same, from memory).
    """
    return plain_name(words.lower().translate(_UMLAUTS))


_UMLAUTS: Final = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss"})
_CAPITAL_UMLAUTS: Final = str.maketrans({"Ä": "Ae", "Ö": "Oe", "Ü": "Ue"})


def name_in_words(name: str) -> str:
    """A name as a heading: ``over-the-point`` becomes ``Over the point``."""
    words = re.sub(r"[-_\s]+", " ", name).strip()
    return words[:1].upper() + words[1:]


def spelt(name: str, shown_as: str) -> str:
    """A name as a teacher spells it: as pupils see it where that is the same name, else in words.

    ``uebertrag`` is ``Übertrag`` where pupils see that, and ``Uebertrag`` where they see "Sheet A".
    """
    return shown_as if is_spelt(name, shown_as) else name_in_words(name)


def is_spelt(name: str, shown_as: str) -> bool:
    """Whether what pupils see is a spelling of the name, on the page or as the key of a text."""
    return name in (name_for(shown_as), plain_name(shown_as))


def with_umlauts(key: str) -> str:
    """A key of a text in words, where its name lacks German umlauts that it has; else ""."""
    written = key.translate(_UMLAUTS | _CAPITAL_UMLAUTS)
    return name_in_words(key) if written != key and written.isascii() else ""


def in_few_words(called: dict[str, str]) -> dict[str, str]:
    """What things are called, by their names, without the words that all of them begin or end
    with: ``Grundlagen`` of ``Übung Grundlagen``. Nothing where that does not tell them apart.
    """
    words = {name: text.split() for name, text in called.items()}
    for end in (0, -1):
        while len(words) > 1 and _is_shared(end, words.values()):
            for one in words.values():
                one.pop(end)
    few = {name: " ".join(one) for name, one in words.items()}
    return few if all(few.values()) and len(set(few.values())) == len(few) else {}


def _is_shared(end: int, words: Collection[list[str]]) -> bool:
    return all(len(one) > 1 for one in words) and len({one[end] for one in words}) == 1


def plain_name(text: str) -> str | None:
    """The nearest name that is fit: ``Over the point`` gives ``over-the-point``, é an e."""
    letters = unicodedata.normalize("NFKD", text.lower())
    unaccented = "".join(sign for sign in letters if not unicodedata.combining(sign))
    plain = re.sub(r"[^a-z0-9]+", "-", unaccented).strip("-")
    usable = re.fullmatch(PATTERN, plain) and plain not in RESERVED_BY_WINDOWS
    return plain if usable and plain not in SECTION_WORDS + SECTION_NAMES else None
