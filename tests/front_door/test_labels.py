"""What words of specs are called, and what rungs are said to ask: in whatever language is read."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import rungsheet.page
from generator.operations.in_english import TITLES
from generator.vocabulary import VOCABULARY
from rungsheet.desk import choices, packs, ready, sentences, settings, specs
from rungsheet.desk.choices import Control
from rungsheet.desk.labels import CHOICES, INSIDE, WORDS, some_label
from specs import Spec
from specs.ladder import rung_words
from specs.languages.language import ENGLISH, LANGUAGES, language
from specs.methods import METHODS
from specs.pages import PAGES
from specs.sections import example_words, section_words
from specs.shapes import Either, Fields, ListOf, Made, Named, OneField, OneOf, SetOf, Shape
from specs.spec import RungSpec
from tests.untranslated import NOBODYS, not_sayings

OF_SECTIONS = ("objective", "instructions", "shown_as", "your_turn", "frames")
"""Words of sections that have a control of the same kind."""

SPEC = """\
title: Zz
pages: {tint: {aa: mint}, large: 18, estimate: {aa: true}}
methods: {add: without noughts}
ladder:
  aa: {operation: add, addends: 3, places: [1, 2, 1], carries: {count: [1, 2], in: [ones, tenths],
    across_point: true}, zeros: {inside: allow}}
  ab: {operation: add, places: {ragged: [1, 3]}, carries: {only: tenths}, context: [mass, length]}
  ac: {operation: add, carries: every, form: missing number, first: 3.46}
  sa: {operation: subtract, exchanges: {count: 1, across_point: false, not_in: tens}}
  sb: {operation: subtract, whole: 2, exchanges: {through_zeros: [1, 2]}, longer: neither}
  ma: {operation: multiply, power_of_ten: {by: [ten, hundred], places: [1, 2]}}
  mb: {operation: multiply, factors: 3, digits: 1, answer: {whole_number: false, above: 0.5}}
  da: {operation: divide, divisor: [3, 4, 6], ending: remainder, quotient: {digits: [2, 3]}}
  db: {operation: divide, divisor: {between: [3, 9]}, places: 1, answer: {between: [1.5, 9]}}
  dc: {operation: divide, divisor: 7, ending: {rounded: 2}, remainders: some}
  oa: {operation: order, numbers: 4, same_to: tenths, tells_apart: more digits taken as larger}
  ca: {operation: compare, whole: 1}
  ra: {operation: round, to: [tenths, ones], goes: up}
examples: {your_turn: at once, questions: {sa: 1}}
tiers:
  aa: {frames: {from: full, to: none}, objective: Zz, questions: {aa: 2, da: 1}}
  bb: {frames: {aa: numbers, mb: part}, methods: {multiply: grid}, questions: {aa: 2, mb: 1}}
"""


def words_in(shape: Shape[Any], of: str) -> Iterator[tuple[str, str, str]]:
    """Every word that a value of a shape may have: "word" or "choice", the word, and whose."""
    match shape:
        case Made():
            yield from words_in(shape.shape, of)
        case Either():
            for one in shape.shapes:
                yield from words_in(one, of)
        case ListOf() | Named():
            yield from words_in(shape.item, of)
        case OneOf() | SetOf():
            yield from (("choice", choice, of) for choice in shape.words)
        case Fields() | OneField():
            for word, inner in shape.shapes.items():
                yield "word", word, of
                yield from words_in(inner, of)


def all_words() -> set[tuple[str, str, str]]:
    """Every word and choice of rungs, pages, methods and sections that has a control."""
    tables = [rung_words(operation, VOCABULARY) for operation in VOCABULARY.operations]
    for fields in (section_words(VOCABULARY), example_words()):
        tables.append({word: of for word, of in fields.fields.items() if word in OF_SECTIONS})
    tables += [dict(PAGES.fields), dict(METHODS.fields)]
    found = {("choice", operation, "operation") for operation in VOCABULARY.operations}
    for table in tables:
        for word, field in table.items():
            found |= {("word", word, ""), *words_in(field.shape, word)}
    return found


def test_every_word_and_choice_of_the_vocabulary_has_a_label_and_no_other_has() -> None:
    found = all_words()
    inside = {(of, word) for _, word, of in found}
    words = {word for kind, word, of in found if kind == "word" and (of, word) not in INSIDE}
    chosen = {word for kind, word, of in found if kind == "choice" and (of, word) not in INSIDE}
    assert inside >= INSIDE.keys()
    assert words <= WORDS.keys()
    assert chosen <= CHOICES.keys()
    named = {word for _, word, _ in found}
    assert {*WORDS, *CHOICES} - named <= set(VOCABULARY.of_methods)


SAID_PLAINER = {
    "duplex": "double-sided",
    "ends_in_zero": "ends in a nought",
    "form": "kind of question",
    "land": "country",
    "large": "large print",
    "over_nine": "rounds up a 9",
    "placeholders": "noughts in empty places",
    "ragged": "different lengths",
    "same_to": "same digits down to",
    "shown_as": "name on sheets",
    "through_zeros": "through noughts",
    "to_a_sheet": "pages to a sheet",
    "zero_in_quotient": "nought in the quotient",
    "zeros": "noughts",
}
"""Words that do not say by themselves, beside a control, what it does."""


def test_a_label_in_english_is_the_word_itself_or_says_it_plainer() -> None:
    for word, label in WORDS.items():
        assert label == SAID_PLAINER.get(word, word.replace("_", " "))
    for word, label in CHOICES.items():
        assert label == TITLES.get(word, {"order": "put in order"}.get(word, word))
    assert some_label("3.46", "first") == "3.46"


def test_a_page_says_nought_and_nowhere_zero() -> None:
    labels = (*WORDS.values(), *CHOICES.values(), *INSIDE.values())
    assert [label for label in labels if "zero" in label] == []


def test_every_operation_is_asked_in_a_sentence() -> None:
    asks = [sentences.sentence(RungSpec("aa", one, ())) for one in VOCABULARY.operations]
    assert len(set(asks)) == len(VOCABULARY.operations)


@pytest.mark.parametrize(("file", "said"), [("words", "English"), ("words_german", "German")])
def test_the_pages_own_lists_have_each_operation_and_language_as_it_is_called_elsewhere(
    file: str, said: str
) -> None:
    text = Path(*rungsheet.page.__path__, "shell", f"{file}.mjs").read_text(encoding="utf-8")
    says = language(said).says
    for name, words in (("operations", VOCABULARY.operations), ("languages", packs.KEY_WORDS)):
        (table,) = re.findall(rf"\n    {name}: \{{\n(.*?)\n    \}},", text, re.DOTALL)
        rows = dict(re.findall(r'(\w+): "(.*)",', table))
        assert rows == {one: says(CHOICES[one]) for one in words}


def test_lessons_that_ship_are_written_as_in_a_land_of_each_language() -> None:
    assert ready._LANDS.keys() == LANGUAGES.keys() - {ENGLISH}


@pytest.fixture(scope="module")
def spec() -> Spec:
    return specs.read(SPEC)


def said_by(control: Control) -> Iterator[str]:
    """All that a control says."""
    yield from (control.label, control.says)
    yield from (choice.says for choice in control.choices)
    for part in control.parts:
        yield from said_by(part)


def said_of(spec: Spec) -> tuple[list[str], list[str]]:
    """All that is said of a spec's rungs and settings: what words mean, and all else."""
    means, said = [], [sentences.sentence(rung) for rung in spec.ladder]
    said += [settings.own(spec, section.name) for section in spec.sections]
    views = [view for rung in spec.ladder for view in choices.of_a_rung(rung)]
    chosen = list(settings.of_the_lesson(spec, None))
    for section in spec.sections:
        chosen += settings.of_a_section(spec, section.name, None)
    for one in (*views, *chosen):
        means.append(one.says)
        said += said_by(one.control)
    return means, [*said, *(view.label for view in views)]


def not_said(texts: list[str], own: tuple[str, ...]) -> list[str]:
    """Those that cannot be said in another language; YAML in them can be in none."""
    return [text for text in texts if not_sayings([without_yaml(NOBODYS.says(text))], own)]


def without_yaml(text: str) -> str:
    """The text without what stands in braces in it, and in braces in these."""
    while "{" in text:
        before, _, rest = text.rpartition("{")
        text = before + rest.partition("}")[2]
    return text


def test_all_that_is_said_of_rungs_and_settings_is_sayings(spec: Spec) -> None:
    means, said = said_of(spec)
    assert not_said(said, HEADINGS) == []
    assert not_said(means, (*CHOICES, "form", "contexts")) == []


HEADINGS = ("Starter", "Practice", "aa", "mb", "bb", "practice")
"""What the pages of a lesson in English call its sheets."""


@pytest.mark.parametrize(
    ("rung", "asks"),
    [
        ("{operation: add, places: 2, carries: {count: 1, across_point: true}}", "ein Übertrag"),
        ("{operation: divide, divisor: {between: [3, 9]}}", "Divisor 3 bis 9"),
        (
            "{operation: subtract, whole: 3, exchanges: {in: [tens, ones]}}",
            "den Spalten Zehner und Einer",
        ),
        ("{operation: divide, ending: remainder}", "mit Rest"),
    ],
)
def test_a_rung_says_in_german_what_it_asks(rung: str, asks: str) -> None:
    read: RungSpec = specs.read(f"title: Z\nladder: {{a: {rung}}}\nstarter: {{a: 1}}").ladder[0]
    assert asks in language("German").says(sentences.sentence(read))
