"""The lessons that ship, in other languages: the same questions, in words that a class reads."""

import re
from functools import cache

import pytest

from rungsheet.desk import packs, ready, rungs, specs
from rungsheet.desk.packs import Edition
from specs import shipped_names
from specs.languages.language import language
from specs.languages.saying import Saying

GERMAN = language("German")
SEEDS = (1, 7)


@cache
def english(name: str) -> specs.Spec:
    """A lesson that ships as it stands in its file."""
    return specs.read(specs.shipped_text(name))


@cache
def german(name: str) -> specs.Spec:
    """A lesson that ships as a German teacher opens it."""
    return specs.read(ready.text(name, GERMAN))


def questions(spec: specs.Spec, seed: int) -> list[tuple[str, int, list[tuple[str, int, str]]]]:
    """Everything that is asked in a pack, by section, version, label and rung."""
    rungs = {rung.name: number for number, rung in enumerate(spec.ladder)}
    return [
        (
            one.name,
            one.version,
            [(item.label, rungs[item.rung], item.question.text) for item in one.items],
        )
        for one in packs.choose(spec, Edition(seed)).sections
    ]


def test_every_lesson_that_ships_is_there_the_demo_first() -> None:
    first, *others = ready.names()
    assert first == specs.DEMO
    assert others == sorted(set(shipped_names()) - {first})


@pytest.mark.parametrize("name", ready.names())
def test_in_english_its_text_is_the_file(name: str) -> None:
    assert ready.text(name, language("English")) == specs.shipped_text(name)


def test_every_seed_asks_the_same() -> None:
    assert_same_questions("adding-same-places")


@pytest.mark.slow
@pytest.mark.parametrize("name", ready.names())
def test_every_seed_of_every_lesson_asks_the_same(name: str) -> None:
    assert_same_questions(name)


def assert_same_questions(name: str) -> None:
    """Whether a lesson in German asks what it asks in English."""
    for seed in SEEDS:
        assert questions(german(name), seed) == questions(english(name), seed)


@pytest.mark.parametrize("name", ready.names())
def test_all_that_is_read_in_it_is_german(name: str) -> None:
    left: list[str] = []

    def says(saying: Saying) -> str:
        said = GERMAN.says(saying)
        if said == str(saying):
            left.append(said)
        return said

    ready.in_words(specs.shipped_text(name), says)
    assert left == []
    text = ready.text(name, GERMAN)
    assert "\npages: {land: Germany, language: German}\n" in text
    assert "£" not in text
    assert not re.search(r"\d\.\d|[×÷]", " ".join(re.findall(r"#.*", text)))


def test_what_pupils_see_has_names_in_german() -> None:
    spec = german("adding-same-places")
    assert spec.title == "Dezimalzahlen addieren: gleich viele Stellen"
    assert [rung.shown_as for rung in spec.ladder] == [
        *("Ganze Zahlen", "Eine Stelle", "Zwei Stellen"),
        *("Übertrag zu den Zehnteln", "Längere Zahlen"),
    ]
    assert [rung.name for rung in spec.ladder][-2:] == [
        "uebertrag-zu-den-zehnteln",
        "laengere-zahlen",
    ]
    assert [rungs.called(rung) for rung in spec.ladder] == [rung.shown_as for rung in spec.ladder]
    assert [one.shown_as for one in spec.sections if one.place and one.place.tier] == [
        "Übung Grundlagen",
        "Übung Standard",
        "Übung Vertiefung",
    ]
    two_blocks = german("adding-then-taking-away")
    assert {one.shown_as for one in two_blocks.sections} >= {"Blatt A", "Blatt B"}
    (starter, *_) = two_blocks.sections
    assert starter.instructions == "Rechne zuerst im Kopf, dann schriftlich"
    assert starter.objective == "Komma unter Komma schreiben, wie lang die Zahlen auch sind"
    assert two_blocks.ladder[-1].shown_as == "Tauschen über zwei Nullen"
    assert rungs.called(two_blocks.ladder[-1]) == "Tauschen über zwei Nullen"
    # which is another name than its own
    assert rungs.called(english("adding-then-taking-away").ladder[-1]) == "Two noughts"


@pytest.mark.parametrize("name", ready.names())
def test_in_german_a_rung_is_called_what_pupils_read(name: str) -> None:
    """Nouns have capitals in German, which no name keeps: "Zwei nullen" would be misspelt."""
    for rung in german(name).ladder:
        assert rungs.called(rung) == rung.shown_as
