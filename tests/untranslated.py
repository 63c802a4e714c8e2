"""A language that nobody speaks, in which whatever is not said through a saying shows.

It has a Greek letter for each Latin one of a saying's pattern. What stands on a page in Latin
letters then either is the teacher's own (title, names, units, codes) or was never a saying, so
that no language could have it.

``python -m tests.untranslated SPEC.yaml …`` prints what of these specs' files is not a saying.
"""

import re
import sys
from collections.abc import Iterable, Iterator
from dataclasses import replace
from gettext import NullTranslations
from pathlib import Path
from typing import Final

from generator.packs.working_out import WorkedPack, work
from layouts.files.documents import plan
from layouts.planning.plan import PagePlan, Unit
from rungsheet.desk import packs
from rungsheet.desk import specs as desk
from specs.languages.language import Language
from specs.languages.usage import Usage

_GREEK: Final = str.maketrans(
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz",
    "ΑΒΞΔΕΦΓΗΙΪΚΛΜΝΟΠΘΡΣΤΥΏΩΧΨΖαβξδεφγηιϊκλμνοπθρστυώωχψζ",
)
_GAPS: Final = re.compile(r"(\{[^}]*\})")
_LATIN: Final = re.compile(r"[A-Za-z]{2,}")
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
    usage = Usage(worked.facts.usage.land, NOBODYS)
    return replace(worked, facts=replace(worked.facts, usage=usage), _kept={})


def said_on(page: PagePlan) -> Iterator[str]:
    """Every text of a page: what is printed, and what a screen reader says."""
    yield from (entry.says for entry in page.content if isinstance(entry, Unit) and entry.says)
    yield from (text.text for text in page.texts)


def not_sayings(texts: Iterable[str], own: Iterable[str]) -> list[str]:
    """The texts that hold words in Latin letters which are none of the teacher's ``own``."""
    words = {word for text in own for word in _LATIN.findall(text)} | _UNITS
    return [text for text in texts if any(w not in words for w in _LATIN.findall(text))]


def of_spec(text: str, name: str = "x.yaml") -> dict[str, list[str]]:
    """By file, what of a spec's pack is not a saying; each text once."""
    spec = desk.read(text, name)
    worked = in_nobodys(work(packs.choose(spec)))
    found = {}
    for file in plan(worked):
        texts = dict.fromkeys(said for page in file.pages for said in said_on(page))
        left = not_sayings(texts, [spec.text, "".join(codes_of(texts))])
        if left:
            found[file.name] = left
    return found


def codes_of(texts: Iterable[str]) -> Iterator[str]:
    """The codes of pages among texts."""
    for text in texts:
        yield from re.findall(r"\b[0-9A-Z]{4}(?:-[0-9A-Z]+)+\b", text)


def main() -> None:
    """Print them."""
    for name in sys.argv[1:]:
        for file, texts in of_spec(Path(name).read_text("utf-8"), Path(name).name).items():
            print(f"{name}: {file}")
            for text in texts:
                print(f"  {text}")


if __name__ == "__main__":
    main()
