"""The language in which the command line speaks: that of the machine's user."""

import os
import re
from pathlib import Path
from typing import Final

import pytest
from typer.testing import CliRunner

from rungsheet.command_line import app
from rungsheet.desk.tongues import ASKED_IN_ORDER, LIST, wanted_by

WANTED: Final = (
    # GNU gettext manual, "Locale Environment Variables": LANGUAGE, then LC_ALL, then LC_MESSAGES,
    # then LANG.
    ({"LANG": "de_DE.UTF-8"}, "German"),
    ({"LANG": "en_GB.UTF-8"}, "English"),
    ({"LC_MESSAGES": "de_DE.UTF-8", "LANG": "en_GB.UTF-8"}, "German"),
    ({"LC_ALL": "en_GB.UTF-8", "LC_MESSAGES": "de_DE.UTF-8", "LANG": "de_DE.UTF-8"}, "English"),
    ({"LC_ALL": "", "LANG": "de_DE.UTF-8"}, "German"),  # empty: as if it were not set (POSIX)
    ({"LC_NUMERIC": "de_DE.UTF-8", "LANG": "en_GB.UTF-8"}, "English"),  # not what is said
    ({"LANGUAGE": "de", "LANG": "en_GB.UTF-8"}, "German"),
    ({"LANGUAGE": "", "LANG": "de_DE.UTF-8"}, "German"),
    # "The LANGUAGE variable": a list, the best first; not where the locale is "C".
    ({"LANGUAGE": "sv:de", "LANG": "sv_SE.UTF-8"}, "German"),
    ({"LANGUAGE": "en:de", "LANG": "de_DE.UTF-8"}, "English"),
    ({"LANGUAGE": "de", "LANG": "C"}, "English"),
    ({"LANGUAGE": "de"}, "English"),
    ({"LANGUAGE": "de", "LC_ALL": "POSIX", "LANG": "de_DE.UTF-8"}, "English"),
    # Its lists are instead of the locale (as in GNU libc and in Python's gettext.find).
    ({"LANGUAGE": "sv", "LANG": "de_DE.UTF-8"}, "English"),
    # "Locale Names": ll, ll_CC, and behind it an encoding or a variant.
    ({"LANG": "de"}, "German"),
    ({"LANG": "de_AT"}, "German"),
    ({"LANG": "de_DE@euro"}, "German"),
    ({"LANG": "de.ISO-8859-1@euro"}, "German"),
    ({"LANG": "den_CA"}, "English"),  # of Slavey
    ({"LANG": "sv_SE.UTF-8"}, "English"),
    ({}, "English"),  # as on Windows
)
"""What the environment has, and the language that is spoken."""


@pytest.mark.parametrize(("surroundings", "name"), WANTED)
def test_the_language_is_that_of_the_environment(surroundings: dict[str, str], name: str) -> None:
    assert wanted_by(surroundings).name == name


def test_tests_do_not_depend_on_what_their_reader_reads() -> None:
    assert not {LIST, *ASKED_IN_ORDER} & set(os.environ)


SHORT: Final = """
title: Short
ladder:
  sums: {operation: add, places: 1, whole: 1}
starter: {sums: 2}
"""


def short(folder: Path) -> str:
    """A spec in a file."""
    file = folder / "short.yaml"
    file.write_text(SHORT, encoding="utf-8")
    return str(file)


def said(*words: str) -> str:
    """What a command prints for somebody who reads German."""
    done = CliRunner(env={"LANG": "de_DE.UTF-8"}).invoke(app, words)
    return done.output


@pytest.mark.slow
def test_what_was_written_is_told_in_german(tmp_path: Path) -> None:
    told = said("build", short(tmp_path), "--out", str(tmp_path / "pack"))
    assert told.startswith(f"{tmp_path / 'pack'}: starter.pdf (1 Seite), lesson.pdf (4 Seiten), ")


def test_what_is_wrong_with_what_was_named_is_told_in_german(tmp_path: Path) -> None:
    told = said("marks", str(tmp_path / "pack.json"), str(tmp_path / "marks.csv"))
    assert told == (
        f"{tmp_path / 'pack.json'}: die Datei gibt es nicht; "
        "den Ordner eines erzeugten Pakets nennen\n"
    )


def test_rungs_and_words_are_told_in_german(tmp_path: Path) -> None:
    head, *_ = said("rungs", short(tmp_path)).splitlines()
    assert re.split("  +", head) == [
        "Stufe",
        "Rechenart",
        "Aufgaben",
        "eine davon",
        "ihre Merkmale",
    ]
    assert said("words").startswith("am Zeilenanfang\n")
