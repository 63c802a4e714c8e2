"""A language that nobody speaks, in which whatever is not said through a saying shows.

It has a Greek letter for each Latin one of a saying's pattern. What stands on a page in Latin
letters then either is the teacher's own (title, names, units, codes) or was never a saying, so
that no language could have it.

``python -m tests.untranslated SPEC.yaml …`` prints what of these specs' files is not a saying.
"""

import re
import sys
from collections.abc import Iterable, Iterator
from gettext import NullTranslations
from pathlib import Path
from typing import Final

from generator.packs.working_out import WorkedPack, work
from layouts.files.documents import Planned, plan
from layouts.planning.plan import PagePlan, Unit
from rungsheet.desk import packs
from rungsheet.desk import specs as desk
from specs import Spec
from specs.languages.language import Language
from specs.languages.usage import Usage

_GREEK: Final = str.maketrans(
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz",
    "ΑΒΞΔΕΦΓΗΙΪΚΛΜΝΟΠΘΡΣΤΥΏΩΧΨΖαβξδεφγηιϊκλμνοπθρστυώωχψζ",
)
_GAPS: Final = re.compile(r"(\{[^}]*\})")
_LATIN: Final = re.compile(r"[A-Za-z]{2,}")
_NO_WORDS: Final = re.compile(
    r"\b[0-9A-Z]{4}(?:-[0-9A-Z]+)+\b|\b[a-z0-9-]+\.(?:pdf|csv|json)\b", re.ASCII
)
"""The codes of pages, and the names of files."""
_UNITS: Final = frozenset(["kg", "cm", "mm", "km", "ml"])


class _InGreekLetters(NullTranslations):
    """Every pattern is known, and has Greek letters."""

    def gettext(self, message: str) -> str:
        return "".join(
            part if part.startswith("{") else part.translate(_GREEK)
            for part in _GAPS.split(message)
        )

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)


NOBODYS: Final = Language("nobody's", "el", _InGreekLetters())
"""The language."""


def in_nobodys(worked: WorkedPack) -> WorkedPack:
    """A pack whose pages speak it."""
    return worked.spoken(Usage(worked.facts.usage.land, NOBODYS))


def said_on(page: PagePlan) -> Iterator[str]:
    """Every text of a page: what is printed, and what a screen reader says."""
    yield from (entry.says for entry in page.content if isinstance(entry, Unit) and entry.says)
    yield from (text.text for text in page.texts)


def not_sayings(texts: Iterable[str], own: Iterable[str]) -> list[str]:
    """The texts that hold words in Latin letters which are none of the teacher's ``own``."""
    words = {word for text in own for word in _words(text)} | _UNITS
    return [text for text in texts if any(word not in words for word in _words(text))]


def _words(text: str) -> Iterator[str]:
    """The words in Latin letters, codes of pages and names of files left out."""
    return (word.casefold() for word in _LATIN.findall(_NO_WORDS.sub(" ", text)))


def own_words(spec: Spec) -> tuple[str, ...]:
    """What of a spec's words the teacher writes for pages: title, names, what is told."""
    tiers = [one.place.tier for one in spec.sections if one.place]
    texts = [text for _, text in spec.texts]
    return (*texts, *(rung.name for rung in spec.ladder), *tiers)


def in_nobodys_language(spec: Spec) -> WorkedPack:
    """The pack of a spec, its pages in the language."""
    return in_nobodys(work(packs.choose(spec)))


def left_of(spec: Spec, files: Iterable[Planned]) -> dict[str, list[str]]:
    """By file, what is not a saying on its pages and in its title; each text once."""
    own, found = own_words(spec), {}
    for file in files:
        said = dict.fromkeys(said for page in file.pages for said in said_on(page))
        left = not_sayings([file.title, *said], own)
        if left:
            found[file.name] = left
    return found


def of_spec(text: str, name: str = "x.yaml") -> dict[str, list[str]]:
    """By file, what of a spec's pack is not a saying."""
    spec = desk.read(text, name)
    return left_of(spec, plan(in_nobodys_language(spec)))


def main() -> None:
    """Print them."""
    for name in sys.argv[1:]:
        for file, texts in of_spec(Path(name).read_text("utf-8"), Path(name).name).items():
            print(f"{name}: {file}")
            for text in texts:
                print(f"  {text}")


if __name__ == "__main__":
    main()
