"""Nothing around the program reaches a page: variables, settings files, line ends, the folder."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from rungsheet.desk import packs, specs

LESSON = """\
title: Weighing beans
ladder:
  beans: {operation: add, places: {ragged: [1, 2]}, whole: 1}
starter: {beans: 2}
examples: [beans]
"""

SETTINGS = "canvas_baseColor = (1, 0, 0)\nuseA85 = 0\ninvariant = 0\ndocumentLang = 'fr'\n"

SURROUNDINGS = {
    "an epoch that is none": {"SOURCE_DATE_EPOCH": "x"},
    "an epoch": {"SOURCE_DATE_EPOCH": "1234567890"},
    "settings that a page would show": {
        "RL_canvas_baseColor": "red",
        "RL_defaultEncoding": "MacRomanEncoding",
        "RL_defaultPageSize": "A5",
        "RL_documentLang": "fr",
        "RL_invariant": "0",
        "RL_pageCompression": "1",
        "RL_pdfComments": "1",
        "RL_ttfAsciiReadable": "1",
        "RL_useA85": "0",
        "RL_wrapA85": "1",
    },
    "settings with which nothing starts": {
        "RL_defaultPageSize": "none",
        "RL_invariant": "many",
        "RL_xmlParser": "none",
        "RL_encryptionStrength": "x",
    },
}


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.mark.parametrize("case", SURROUNDINGS)
@pytest.mark.slow
def test_variables_and_settings_files_change_nothing(case: str, tmp_path: Path) -> None:
    (tmp_path / "lesson.yaml").write_text(LESSON, encoding="utf-8")
    (tmp_path / ".reportlab_settings").write_text(SETTINGS, encoding="utf-8")
    (tmp_path / "reportlab_settings.py").write_text(SETTINGS, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "rungsheet", "build", "lesson.yaml", "--out", "pack"],
        env={**os.environ, "HOME": str(tmp_path), **SURROUNDINGS[case]},
        cwd=tmp_path,
        capture_output=True,
        text=True,
    )
    assert (done.returncode, done.stderr) == (0, "")
    usual = packs.build(specs.read(LESSON, "lesson.yaml")).files()
    assert contents(tmp_path / "pack") == {file.name: file.data for file in usual}


def test_the_surroundings_are_left_as_they_were(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "x")
    monkeypatch.setenv("RL_useA85", "0")
    before = dict(os.environ)
    usual = packs.build(specs.read(LESSON, "lesson.yaml")).drawn("key.pdf")
    assert dict(os.environ) == before
    monkeypatch.undo()
    assert packs.build(specs.read(LESSON, "lesson.yaml")).drawn("key.pdf") == usual


def test_settings_of_whoever_loaded_the_drawing_before_are_undone(tmp_path: Path) -> None:
    program = (
        "import sys, reportlab.rl_config as settings\n"
        "assert settings.documentLang == 'fr' and settings.useA85 == 0\n"
        "from rungsheet.desk import packs, specs\n"
        f"drawn = packs.build(specs.read({LESSON!r}, 'lesson.yaml')).drawn('key.pdf')\n"
        "sys.stdout.buffer.write(drawn.data)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        env={**os.environ, "RL_documentLang": "fr", "RL_useA85": "0"},
        cwd=tmp_path,
        capture_output=True,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout == packs.build(specs.read(LESSON, "lesson.yaml")).drawn("key.pdf").data


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_a_spec_from_another_system_gives_the_same_files(end: str) -> None:
    usual = packs.build(specs.read(LESSON, "lesson.yaml")).files()
    other = packs.build(specs.read("\ufeff" + LESSON.replace("\n", end), "lesson.yaml")).files()
    assert other == usual
