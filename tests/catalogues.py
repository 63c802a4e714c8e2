"""The catalogues of the languages that pages can be in, brought up to date from the code.

``python -m tests.catalogues`` gathers every saying (``say``, ``say_of``, ``several``) of the
packages, of the shipped contexts and of the lessons that ship, brings ``specs/languages/*.po`` up
to date and compiles each to the ``.mo`` beside it, which is what pages read. It prints what is
still to be translated.
"""

import datetime
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import Final

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from rungsheet.desk import ready, specs
from specs.contexts import templates
from specs.contexts.templates import SENTENCE
from specs.languages.language import ENGLISH, LANGUAGES
from specs.languages.saying import Saying

ROOT: Final = Path(__file__).parent.parent
FOLDER: Final = ROOT / "specs" / "languages"
PACKAGES: Final = ("specs", "generator", "layouts", "rungsheet")
KEYWORDS: Final = {"say": (1,), "say_of": ((1, "c"), 2), "several": (1, 2), "counted": (1, 2)}
_ALWAYS: Final = datetime.datetime(2026, 1, 1, tzinfo=datetime.UTC)

TRANSLATED: Final = tuple(name for name in LANGUAGES if name != ENGLISH)
"""The languages that have a catalogue."""


def sayings() -> Catalog:
    """Every saying of the packages, with the files in which it stands."""
    found = Catalog(charset="utf-8")
    for package in PACKAGES:
        for file, _, message, _, context in extract_from_dir(
            ROOT / package, [("**.py", "python")], keywords=KEYWORDS
        ):
            found.add(message, locations=[(f"{package}/{file}", 0)], context=context)
    for name in ready.names():
        ready.in_words(specs.shipped_text(name), partial(_gathered, found, name))
    contexts = [("specs/contexts/allotment.yaml", 0)]
    for template in templates():
        found.add(template.says, locations=contexts, context=SENTENCE)
        for quantity in (*template.quantities, template.answer, template.left_over):
            if quantity is not None and quantity.counted:
                found.add(quantity.counted, locations=contexts)
    return found


def _gathered(found: Catalog, lesson: str, saying: Saying) -> str:
    """Put a saying of a lesson that ships into a catalogue; its English."""
    found.add(saying.pattern, locations=[(f"specs/{lesson}.yaml", 0)], context=saying.about)
    return str(saying)


def catalogue(name: str) -> Catalog:
    """The catalogue of a language as its .po file has it; an empty one where there is none."""
    code = LANGUAGES[name].partition("-")[0]
    file = FOLDER / f"{name.lower()}.po"
    if not file.exists():
        return Catalog(locale=code, charset="utf-8")
    with file.open("rb") as there:
        return read_po(there, locale=code, charset="utf-8")


def brought_up_to_date(name: str) -> Catalog:
    """The catalogue of a language with exactly the sayings that there are."""
    found = catalogue(name)
    found.update(sayings(), no_fuzzy_matching=True)
    found.obsolete.clear()
    found.project, found.version = "Rungsheet", ""
    found.header_comment = f"# What is said in {name}; written by `python -m tests.catalogues`."
    found.fuzzy = False
    found.creation_date = found.revision_date = _ALWAYS
    found.last_translator, found.language_team = "", ""
    return found


def compiled(found: Catalog) -> bytes:
    """The bytes of the catalogue that pages read."""
    target = BytesIO()
    write_mo(target, found)
    return target.getvalue()


def untranslated(found: Catalog) -> list[str]:
    """The sayings without a translation."""
    return [
        str(message.id)
        for message in found
        if message.id and not (message.string if not message.pluralizable else all(message.string))
    ]


def main() -> None:
    """Bring all up to date."""
    for name in TRANSLATED:
        found = brought_up_to_date(name)
        target = BytesIO()
        write_po(target, found, width=100, sort_output=True, include_lineno=False)
        (FOLDER / f"{name.lower()}.po").write_bytes(target.getvalue())
        (FOLDER / f"{name.lower()}.mo").write_bytes(compiled(found))
        missing = untranslated(found)
        print(f"{name}: {len(found)} sayings, {len(missing)} to be translated")
        for saying in missing:
            print(f"  {saying}")


if __name__ == "__main__":
    main()
