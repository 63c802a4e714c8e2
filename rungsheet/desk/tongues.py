"""The languages in which people at a front door are spoken to; pages have their own.

What the desk tells people is a saying: English where nobody asks for more, and known to each
language that has a catalogue.
"""

import re
from collections.abc import Callable, Mapping
from typing import Final

from specs.languages.language import ENGLISH, LANGUAGES, Language, language
from specs.languages.saying import Saying
from specs.languages.saying import joined as joined
from specs.languages.saying import say as say
from specs.languages.saying import several as several

__all__ = ["ENGLISH", "Language", "Saying", "in_each", "joined", "say", "several", "wanted_by"]

LIST: Final = "LANGUAGE"
ASKED_IN_ORDER: Final = ("LC_ALL", "LC_MESSAGES", "LANG")
"""Where POSIX looks for the language of messages: the first that is set counts."""


def in_each(saying: Saying, writes: Callable[[str], str] = str) -> dict[str, str]:
    """A saying in every language, by the language's code (BCP 47): ``{"en-GB": …, "de-DE": …}``.

    ``writes`` writes its numbers and signs: those of a lesson as its sheets have them.
    """
    return {known.code: writes(known.says(saying)) for known in map(language, LANGUAGES)}


def wanted_by(surroundings: Mapping[str, str]) -> Language:
    """The language that a process is to speak by its environment; English where that has none,
    as on Windows, unless its user sets one of these variables.

    ``LANGUAGE`` is GNU gettext's list of languages, the best first, and goes before the locale;
    it does not count where that is the plain locale "C" (GNU gettext manual, "Locale Environment
    Variables" and "The LANGUAGE variable").
    """
    locale = next((found for name in ASKED_IN_ORDER if (found := surroundings.get(name))), "C")
    if _primary(locale) in ("c", "posix"):
        return language(ENGLISH)
    for asked in (surroundings.get(LIST) or locale).split(":"):
        for name, code in LANGUAGES.items():
            if _primary(asked) == _primary(code):
                return language(name)
    return language(ENGLISH)


def _primary(locale: str) -> str:
    """The language of a locale's or a language's code: ``de`` of ``de_AT.UTF-8``, ``de@euro``."""
    return re.split(r"[-_.@]", locale)[0].lower()
