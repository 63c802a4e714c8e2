"""The names that a teacher gives to rungs and tiers. Tiers name files, so both stay plain."""

import re
import unicodedata
from dataclasses import replace
from typing import Final

from specs.problems import Reading, quoted
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

_FIT: Final = f"at most {LONGEST_NAME} lower-case letters, digits and hyphens, a letter first"

_WORDS: Final = r"[\w '’-]+"
"""What may be tidied: letters, digits and what joins words; a path is not meant for a name."""

PATTERN: Final = rf"^[a-z][a-z0-9-]{{0,{LONGEST_NAME - 1}}}$"


def read_name(key: Scalar, what_it_names: str, taken: tuple[str, ...], reading: Reading) -> bool:
    """Whether a name is fit for a rung or a tier; reports what is wrong with it."""
    name = key.text
    if not re.fullmatch(PATTERN, name):
        plain = plain_name(name)
        instead = f"write {quoted(plain)}" if plain else f"write {_FIT}"
        reading.problem(key.line, f"{quoted(name)} cannot be the name of {what_it_names}", instead)
    elif name in RESERVED_BY_WINDOWS:
        reading.problem(
            key.line,
            f"{quoted(name)} cannot be the name of {what_it_names}: Windows keeps it for a device",
            "choose another name",
        )
    elif name in taken:
        reading.problem(
            key.line,
            f"{quoted(name)} cannot be the name of {what_it_names}: it has a meaning of its own",
            "choose another name",
        )
    else:
        return True
    return False


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
            before = entries[key.text][0].line
            what = f"{quoted(written.text)} is the same name as {quoted(key.text)} on line {before}"
            reading.problem(key.line, what, "choose another name")
        else:
            entries[key.text] = (key, value)
    return replace(node, entries=tuple(entries.values()))


def plain_name(text: str) -> str | None:
    """The nearest name that is fit: ``Over the point`` gives ``over-the-point``, é an e."""
    letters = unicodedata.normalize("NFKD", text.lower())
    unaccented = "".join(sign for sign in letters if not unicodedata.combining(sign))
    plain = re.sub(r"[^a-z0-9]+", "-", unaccented).strip("-")
    usable = re.fullmatch(PATTERN, plain) and plain not in RESERVED_BY_WINDOWS
    return plain if usable and plain not in SECTION_WORDS + SECTION_NAMES else None
