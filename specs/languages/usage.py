"""How pages speak and write: in the words of a language, and in the numbers and signs of a land."""

from dataclasses import dataclass
from typing import Any, Final

from specs.lands import ENGLAND, Land, land
from specs.languages.language import ENGLISH, Language, language
from specs.languages.saying import Saying


@dataclass(frozen=True, slots=True)
class Usage:
    """A land's way of writing numbers in a language's words.

    Whatever pages show of the generator's passes through ``says``, once: the generator itself
    writes numbers with a point and speaks English.
    """

    land: Land
    language: Language

    @property
    def is_plain(self) -> bool:
        """Whether it is the generator's own: English, with the numbers of England."""
        return self.language.name == ENGLISH and self.land is ENGLAND

    def says(self, text: str) -> str:
        """A text of the generator's in the language's words and the land's numbers and signs."""
        return text if self.is_plain else self.land.writes(self.language.says(text))

    def __call__(self, words: str, /, **values: Any) -> str:
        """Words of a page itself: ``say("version {number}", number=3)``, or a saying.

        What fills their gaps stands there as it is: the teacher's own words, codes, and what was
        said already. What the generator writes is to be said first, by ``says``.
        """
        if isinstance(words, Saying):
            return self.language.says(words)
        if self.language.name == ENGLISH:
            return words.format(**values)
        return self.language.says(Saying(words, values))


def usage(land_name: str, language_name: str) -> Usage:
    """The usage of a land and a language by their names. Raises KeyError for unknown ones."""
    return Usage(land(land_name), language(language_name))


PLAIN: Final = usage(ENGLAND.name, ENGLISH)
"""English with the numbers and signs of England."""
