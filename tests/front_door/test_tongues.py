"""The language in which the command line speaks: that of the machine's user."""

import json
import os
import re
from pathlib import Path
from typing import Any, Final

import pytest
from typer.testing import CliRunner

from generator.operations.mistakes import mistake_named
from rungsheet.command_line import app
from rungsheet.desk import marks, packs, specs
from rungsheet.desk.tongues import ASKED_IN_ORDER, LIST, wanted_by
from rungsheet.page import bridge

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


SHARING: Final = """\
title: Teilen
pages: {land: %s, language: German}
ladder:
  teilen: {operation: divide, ending: remainder, dividend: {digits: 2}}
  malnehmen: {operation: multiply, places: [1, 0], answer: {above: 9.5}}
starter: {teilen: 8, malnehmen: 2}
"""


def told_of(lesson: str, job: str, **asked: str) -> list[str]:
    """Every text in German that a job of the page tells of a lesson."""
    answer, _ = bridge.answer(job, json.dumps({"text": lesson, **asked}), None, lambda *_: None)
    found: list[str] = []

    def look(value: Any) -> None:
        if isinstance(value, dict):
            if bridge.IN_LANGUAGES in value:
                found.append(value[bridge.IN_LANGUAGES]["de-DE"])
            for inner in value.values():
                look(inner)
        elif isinstance(value, list):
            for inner in value:
                look(inner)

    look(json.loads(answer)["result"])
    return found


@pytest.mark.parametrize(("land", "point"), [("Germany", ","), ("England", ".")])
def test_what_the_page_says_of_a_lesson_has_the_numbers_of_its_sheets(
    land: str, point: str
) -> None:
    """5 R 2 is not 5,2 where the sheets in front of the class have a comma."""
    lesson = SHARING % land
    assert any(f"Ergebnis über 9{point}5" in said for said in told_of(lesson, "rungs"))
    habit = mistake_named("remainder written as a decimal digit")
    columns = marks.columns(packs.build(specs.read(lesson)).pack)
    wrong = [habit.wrong_answer(column.item.question) for column in columns]
    cells = [reply.text if reply else "y" for reply in wrong]
    sheet = "\n".join(
        ",".join(row) for row in (["pupil", *(c.name for c in columns)], ["1", *cells])
    )
    said = told_of(lesson, "findings", sheet=sheet)
    assert any(f"5 R 2 als 5{point}2" in one for one in said), said
