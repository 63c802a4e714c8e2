"""Key words for pupils who learn in another language than they speak: one file a language.

A sheet shows its words beside those of this language. The typeface has Latin, Greek and Cyrillic
letters; words in other scripts cannot be printed.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Final

import yaml


@dataclass(frozen=True, slots=True)
class KeyWords:
    """A language that pupils speak, its code (BCP 47), and its word for each English one."""

    name: str
    code: str
    words: Mapping[str, str] = field(compare=False, repr=False)


@cache
def _every() -> Mapping[str, KeyWords]:
    found = {}
    for file in files(__package__).iterdir():
        if file.name.endswith(".yaml"):
            said = yaml.safe_load(file.read_text("utf-8"))
            found[said["name"]] = KeyWords(said["name"], said["code"], said["words"])
    return dict(sorted(found.items()))


NUMBERED: Final = (
    "French",
    "German",
    "Italian",
    "Polish",
    "Portuguese",
    "Romanian",
    "Russian",
    "Spanish",
    "Turkish",
    "Ukrainian",
)
"""The languages as page codes count them: new ones go at the end."""


def names() -> tuple[str, ...]:
    """The names of the languages, in alphabetical order."""
    return tuple(_every())


def key_words(name: str) -> KeyWords:
    """The key words in the language of that name. Raises KeyError for one without a file."""
    return _every()[name]
