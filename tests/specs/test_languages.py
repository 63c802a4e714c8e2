"""Sayings, and the catalogues that say them in other languages."""

import ast
import pickle
import re
from string import Formatter

import pytest
from babel import Locale
from babel.messages.catalog import Message
from babel.messages.plurals import get_plural

from specs.languages.language import LANGUAGES, language
from specs.languages.saying import all_of, joined, say, several
from tests.catalogues import (
    FOLDER,
    KEYWORDS,
    PACKAGES,
    ROOT,
    TRANSLATED,
    brought_up_to_date,
    catalogue,
    compiled,
    untranslated,
)


def test_a_saying_is_its_english_text_and_keeps_what_it_was_made_of() -> None:
    exchange = say(
        "Exchange {one} for {ten}.", one=several("{count} ten", "{count} tens", 1), ten=3
    )
    assert exchange == "Exchange 1 ten for 3."
    assert exchange.pattern == "Exchange {one} for {ten}."
    assert several("{count} ten", "{count} tens", 0) == "0 tens"
    assert joined((exchange, "", say("Write 3."))) == "Exchange 1 ten for 3. Write 3."
    assert all_of([say("ones"), say("tens"), say("tenths")]) == "ones, tens and tenths"
    assert "a" + say("b") + "c" == "abc"
    assert pickle.loads(pickle.dumps(exchange)).values == exchange.values


@pytest.mark.parametrize("name", TRANSLATED)
def test_a_catalogue_has_exactly_the_sayings_that_there_are(name: str) -> None:
    """`python -m tests.catalogues` brings it up to date."""
    there, wanted = catalogue(name), brought_up_to_date(name)
    assert {m.id for m in there} == {m.id for m in wanted}
    assert untranslated(wanted) == []


@pytest.mark.parametrize("name", TRANSLATED)
def test_what_pages_read_is_compiled_from_what_people_edit(name: str) -> None:
    assert (FOLDER / f"{name.lower()}.mo").read_bytes() == compiled(catalogue(name))


@pytest.mark.parametrize("name", TRANSLATED)
def test_plurals_are_those_of_the_common_locale_data(name: str) -> None:
    code = LANGUAGES[name].partition("-")[0]
    assert catalogue(name).plural_forms == get_plural(code).plural_forms
    assert Locale.parse(code).language == code


def _gaps(text: str) -> list[str]:
    return sorted(name for _, name, _, _ in Formatter().parse(text) if name is not None)


def _pairs(message: Message) -> list[tuple[str, str]]:
    if message.pluralizable:
        one, many = message.id
        return list(zip((one, *[many] * 9), message.string, strict=False))
    return [(message.id, message.string)]


@pytest.mark.parametrize("name", TRANSLATED)
def test_a_translation_has_the_gaps_of_the_saying(name: str) -> None:
    for message in catalogue(name):
        if message.id:
            for english, other in _pairs(message):
                assert _gaps(other) == _gaps(english), english


@pytest.mark.parametrize("name", TRANSLATED)
def test_a_translation_ends_as_the_saying_does(name: str) -> None:
    """A full stop lost or a space too many would show where sayings follow one another."""
    for message in catalogue(name):
        for english, other in _pairs(message) if message.id else ():
            ends = [re.search(r"[\s.:?!,]*$", text)[0] for text in (english, other)]  # type: ignore[index]
            assert ends[0] == ends[1], english


@pytest.mark.parametrize("package", PACKAGES)
def test_words_of_pages_stand_where_they_are_gathered(package: str) -> None:
    """What is said by a usage that is called otherwise than ``say`` must be a saying: words alone
    would be in no catalogue, and so English on every page.
    """
    lost = []
    for path in sorted((ROOT / package).rglob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        usages = {
            one.arg
            for one in ast.walk(tree)
            if isinstance(one, ast.arg)
            and one.annotation is not None
            and "Usage" in ast.unparse(one.annotation)
        }
        for call in ast.walk(tree):
            if not isinstance(call, ast.Call) or not call.args:
                continue
            called = ast.unparse(call.func).rpartition(".")[2]
            if called in KEYWORDS or not (called in usages or called.endswith("usage")):
                continue
            if isinstance(call.args[0], ast.Constant | ast.JoinedStr):
                lost.append(f"{path.relative_to(ROOT)}:{call.lineno}")
    assert lost == []


def test_english_needs_no_catalogue() -> None:
    one = several("{count} tenth", "{count} tenths", 1)
    assert language("English").says(say("Write {one}.", one=one)) == "Write 1 tenth."
