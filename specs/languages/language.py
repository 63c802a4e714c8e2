"""The languages that pages can be in: catalogues by gettext, one file each."""

from dataclasses import dataclass, field
from functools import cache
from gettext import GNUTranslations, NullTranslations
from pathlib import Path
from typing import Any, Final

from specs.languages.saying import JOINED, MONEY, Saying

_FOLDER: Final = Path(__file__).parent

CURRENCY: Final = "\N{CURRENCY SIGN}"
"""Stands before a sum in the currency of a land, until the land writes it."""

ENGLISH: Final = "English"
"""The language of the sayings themselves, which needs no catalogue."""

LANGUAGES: Final = {ENGLISH: "en-GB", "German": "de-DE"}
"""The code (BCP 47) of each language that pages can be in."""


@dataclass(frozen=True, slots=True)
class Language:
    """A language that pages are in, its code and its catalogue."""

    name: str
    code: str
    catalogue: NullTranslations = field(default_factory=NullTranslations, compare=False, repr=False)

    def says(self, text: str) -> str:
        """A saying in this language; any other text as it is.

        A sum in a land's own currency stays with a sign for any: ``¤3.40``.
        """
        if not isinstance(text, Saying):
            return text
        values = {name: self._value(value) for name, value in text.values.items()}
        if text.pattern == JOINED:
            return "".join(map(str, values.values()))
        if text.about == MONEY:
            return f"{CURRENCY}{values['amount']}"
        return self._pattern(text).format(**values)

    def _value(self, value: Any) -> Any:
        return self.says(value) if isinstance(value, Saying) else value

    def _pattern(self, text: Saying) -> str:
        known, about = self.catalogue, text.about
        if text.many:
            return known.ngettext(text.pattern, text.many, text.number)
        return known.pgettext(about, text.pattern) if about else known.gettext(text.pattern)


@cache
def language(name: str) -> Language:
    """The language of that name. Raises KeyError for one that pages cannot be in."""
    code, file = LANGUAGES[name], _FOLDER / f"{name.lower()}.mo"
    if not file.exists():
        return Language(name, code)
    with file.open("rb") as catalogue:
        return Language(name, code, GNUTranslations(catalogue))
