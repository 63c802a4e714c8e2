"""Random specs for both front doors, and what the command line makes of one."""

import contextlib
import re
from pathlib import Path
from typing import Any

import hypothesis
import pdfplumber
from typer.testing import CliRunner

import rungsheet.command_line
from generator.packs.building import too_few
from generator.packs.conflicts import conflicts
from generator.vocabulary import VOCABULARY
from specs import SpecError, read_spec
from tests.hard.specs_thrown import near_right

SEED = 14


def thrown(good: int, bad: int) -> tuple[list[bytes], list[bytes]]:
    """So many random specs that can be used and that cannot: the same ones in every run of one
    version of Hypothesis.
    """
    found: dict[bool, list[bytes]] = {True: [], False: []}

    @hypothesis.seed(SEED)
    @hypothesis.settings(
        max_examples=4000,
        database=None,
        deadline=None,
        phases=[hypothesis.Phase.generate],
        suppress_health_check=list(hypothesis.HealthCheck),
    )
    @hypothesis.given(near_right())
    def gather(data: bytes) -> None:
        some = found[can_be_used(data)]
        if data not in some:
            some.append(data)
        if len(found[True]) >= good and len(found[False]) >= bad:
            raise EnoughError

    with contextlib.suppress(EnoughError):
        gather()
    return found[True][:good], found[False][:bad]


class EnoughError(Exception):
    """So many specs as were wanted have been found."""


def can_be_used(data: bytes) -> bool:
    """Whether the reader takes a spec and finds questions on all its rungs."""
    try:
        spec = read_spec(data, "lesson.yaml", VOCABULARY)
    except SpecError:
        return False
    return not any(conflicts(spec)) and not any(too_few(spec, 1))


def built_natively(spec: bytes, folder: Path, *options: Any) -> dict[str, bytes] | list[str]:
    """The files that ``rungsheet build`` makes of a spec, or the lines of what it says instead."""
    folder.mkdir(parents=True)
    file = folder / "lesson.yaml"
    file.write_bytes(spec)
    command = ["build", str(file), "--out", str(folder / "pack"), *map(str, options)]
    done = CliRunner().invoke(rungsheet.command_line.app, command)
    if done.exit_code:
        assert done.exit_code == 2, (done.output, done.exception)
        return [line.replace(str(file), file.name) for line in done.stderr.splitlines()]
    return files_in(folder / "pack")


def said_natively(*command: object) -> list[str]:
    """The lines that a command of the command line prints."""
    done = CliRunner().invoke(rungsheet.command_line.app, [*map(str, command)])
    assert not done.exit_code, (done.output, done.exception)
    return done.stdout.splitlines()


def files_in(folder: Path) -> dict[str, bytes]:
    """The files of a folder by their names."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def page_codes(pdf: Path) -> list[str]:
    """The codes at the foot of a file's pages."""
    with pdfplumber.open(pdf) as file:
        text = "\n".join(page.extract_text() for page in file.pages)
    return re.findall(r"code ([0-9A-Z]+(?:-[0-9A-Z]+)+)", text)
