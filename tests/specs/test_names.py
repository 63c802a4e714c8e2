"""Names of rungs and tiers: plain in specs and in files, and well spelt for people."""

import pytest

from layouts.planning.wording import rung_shown
from rungsheet.desk import packs, rungs, specs
from specs.names import in_few_words, name_for, spelt


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("Over the point", "over-the-point"),
        ("Übertrag über das Komma", "uebertrag-ueber-das-komma"),
        ("GRÖSSER als 10", "groesser-als-10"),
        ("Straße", "strasse"),
        ("café", "cafe"),
        ("!", None),
        ("con", None),  # no file of Windows
    ],
)
def test_what_a_teacher_calls_something_gives_its_name(words: str, name: str | None) -> None:
    assert name_for(words) == name


@pytest.mark.parametrize(
    ("name", "shown_as", "called"),
    [
        ("over-the-point", "", "Over the point"),
        ("uebertrag", "Übertrag", "Übertrag"),
        ("ubertrag", "Übertrag", "Übertrag"),  # as the key of a text gives it
        ("uebertrag", "Sheet A", "Uebertrag"),
        ("gleich-viele-stellen", "Gleich viele Stellen", "Gleich viele Stellen"),
    ],
)
def test_a_name_is_spelt_as_pupils_see_it_where_that_is_the_same(
    name: str, shown_as: str, called: str
) -> None:
    assert spelt(name, shown_as) == called


def test_a_rung_whose_key_has_umlauts_is_seen_so_and_keeps_its_code() -> None:
    """Specs that were written before have ``ubertrag`` in their codes; pupils see the teacher's
    word.
    """

    def lesson(key: str, more: str = "") -> specs.Spec:
        words = f"{{operation: add, places: 1{more}}}"
        return specs.read(f"title: T\nladder:\n  {key}: {words}\nstarter: {{{key}: 2}}\n")

    written, plain = lesson("Übertrag über zehn"), lesson("ubertrag-uber-zehn")
    assert written == plain
    assert packs.choose(written).code == packs.choose(plain).code
    assert [rungs.called(*one.ladder) for one in (written, plain)] == [
        "Übertrag über zehn",
        "Ubertrag uber zehn",
    ]
    (section,) = packs.build(written).worked
    assert {rung_shown(item) for item in section.items} == {"Übertrag über zehn"}
    assert rungs.called(*lesson("Größer", ", shown_as: Sheet A").ladder) == "Größer"
    assert rungs.called(*lesson("naïve").ladder) == "Naive"  # letters that may not be printed


@pytest.mark.parametrize(
    ("called", "few"),
    [
        (("Übung Grundlagen", "Übung Standard"), ("Grundlagen", "Standard")),
        (("Core practice", "Förderung practice"), ("Core", "Förderung")),
        (("Sheet A for 7b", "Sheet B for 7b"), ("A", "B")),
        (("Übung", "Übung Standard"), ("Übung", "Übung Standard")),
        (("Sheet A",), ("Sheet A",)),
        (("Sheet A", "Sheet A"), ()),
        (("Sheet A", ""), ()),
    ],
)
def test_things_are_called_in_as_few_words_as_tell_them_apart(
    called: tuple[str, ...], few: tuple[str, ...]
) -> None:
    found = in_few_words({str(at): one for at, one in enumerate(called)})
    assert tuple(found.values()) == few
