"""Names of rungs and tiers: plain in specs and in files, and well spelt for people."""

import pytest

from specs.names import name_for, spelt


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
        ("uebertrag", "Sheet A", "Uebertrag"),
        ("gleich-viele-stellen", "Gleich viele Stellen", "Gleich viele Stellen"),
    ],
)
def test_a_name_is_spelt_as_pupils_see_it_where_that_is_the_same(
    name: str, shown_as: str, called: str
) -> None:
    assert spelt(name, shown_as) == called
