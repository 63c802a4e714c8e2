"""Class sets: the same bytes for any number of processes, and nothing left when interrupted."""

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest
from typer.testing import CliRunner

import rungsheet.command_line
from generator.packs.building import build_pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts.files.documents import expected_pages
from layouts.files.press import draw_pack
from specs import load_spec, shipped

SET = """\
title: A class set
ladder:
  ragged: {operation: add, addends: 3, places: {ragged: [1, 3]}, carries: {count: [1, 3]}}
tiers:
  core: {ragged: 4}
  more: {ragged: 3}
"""


PATIENCE = 300
"""Seconds until a build that has drawn nothing is taken to hang; a busy machine needs far fewer."""


posix = pytest.mark.skipif(sys.platform == "win32", reason="signals are POSIX's")


@pytest.fixture(autouse=True)
def in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("set.yaml").write_text(SET, encoding="utf-8")


def contents(folder: str) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in Path(folder).iterdir()}


def test_any_number_of_processes_gives_the_same_bytes() -> None:
    for jobs in ("1", "2", "5"):
        arguments = ["build", "set.yaml", "--versions", "12", "--jobs", jobs, "--out", f"by-{jobs}"]
        assert CliRunner().invoke(rungsheet.command_line.app, arguments).exit_code == 0
    assert contents("by-1") == contents("by-2") == contents("by-5")


@pytest.mark.parametrize("jobs", [1, 3])
def test_every_page_is_told_once(tmp_path: Path, jobs: int) -> None:
    pack = build_pack(load_spec(shipped(), VOCABULARY), 1, versions=3)
    told: list[int] = []
    drawn = draw_pack(work(pack), tmp_path, jobs=jobs, pages_done=told.append)
    pages = sum(file.pages for file in drawn)
    assert sum(told) == pages
    assert abs(expected_pages(work(pack)) - pages) <= 3


@contextmanager
def a_long_build() -> Iterator["subprocess.Popen[bytes]"]:
    """A class set being drawn by two processes, in a process group of its own.

    It minds Ctrl-C even where the tests run in the background, and their shell has it ignored.
    """
    command = [sys.executable, "-m", "rungsheet", "build", "set.yaml"]
    build = subprocess.Popen(
        [*command, "--versions", "2000", "--jobs", "2", "--out", "pack"],
        start_new_session=True,
        stderr=subprocess.PIPE,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    try:
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline:  # until the pages are being drawn
            if any(path.stat().st_size for path in Path().glob(".pack-*.part/*.pdf")):
                break
            assert build.poll() is None, "the build ended before it drew anything"
            time.sleep(0.05)
        assert list(Path().glob(".pack-*.part/*.pdf"))
        yield build
    finally:
        with suppress(ProcessLookupError):
            os.killpg(build.pid, signal.SIGKILL)


def is_gone(group: int) -> bool:
    """Whether no process of a group is left, after some time if need be."""
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.05)
    return False


@posix
@pytest.mark.slow
def test_interrupted_a_build_leaves_no_half_pack_and_no_process() -> None:
    with a_long_build() as build:
        os.killpg(build.pid, signal.SIGINT)
        _, said = build.communicate(timeout=30)
        assert build.returncode == 130
        assert said == b""
        assert not Path("pack").exists()
        assert not list(Path().glob(".pack-*.part"))
        with pytest.raises(ProcessLookupError):  # the group is gone
            os.killpg(build.pid, 0)


@pytest.mark.skipif(sys.platform != "linux", reason="children are listed in /proc")
@pytest.mark.slow
def test_a_process_that_dies_ends_the_build_in_words() -> None:
    with a_long_build() as build:
        crew = Path(f"/proc/{build.pid}/task/{build.pid}/children").read_text().split()
        os.kill(int(crew[-1]), signal.SIGKILL)
        _, said = build.communicate(timeout=30)
        assert build.returncode == 2
        assert re.fullmatch(
            r"\S+\.pdf: the process that drew it was ended, perhaps for want of memory; "
            r"build with --jobs 1, or with fewer --versions\n",
            said.decode(),
        )
        assert not Path("pack").exists()
        assert not list(Path().glob(".pack-*.part"))
        assert is_gone(build.pid)


@posix
@pytest.mark.slow
def test_when_the_one_that_leads_is_killed_the_others_go() -> None:
    with a_long_build() as build:
        build.kill()
        build.wait(timeout=30)
        build.stderr.close()
        assert is_gone(build.pid)
