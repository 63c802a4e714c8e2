"""What cannot be printed is named with its place in the spec, as every other problem is."""

import unicodedata
from pathlib import Path

import pdfplumber
import pytest
from typer.testing import CliRunner

import rungsheet.command_line

LADDER = """\
title: Crates
ladder:
  short: {operation: add, addends: 2, places: 1, whole: 1}
  long: {operation: add, addends: 6, places: {ragged: [1, 4]}, whole: 4}
  rising: {operation: order, numbers: 6, places: {ragged: [1, 4]}, whole: {between: [1, 2]}}
"""

NEVER = "{operation: add, addends: 2, places: 1, whole: 1, carries: {count: 4}}"
"""A rung that holds no question: two columns cannot give four carries."""

PLACES = {
    "a sheet's squares": (
        "starter: {short: 1, long: 1}\npages: {paper: A5, squares: 10, to_a_sheet: 4}",
        "starter, question b, rung long: it needs",
        "choose smaller squares or larger paper",
    ),
    "large print": (
        "starter: {short: 1, long: 1}\npages: {paper: A4, to_a_sheet: 4, large: 24}",
        "starter, question a, rung short: it needs",
        "choose smaller type than 'large: 24' or larger paper",
    ),
    "an answer slide": (
        "tiers: {core: {short: 2, rising: 1}}",
        "core, question c, rung rising: its answer is too long for a slide",
        "give its rung shorter numbers",
    ),
}


@pytest.mark.parametrize("jobs", ["1", "2"])
@pytest.mark.parametrize("case", PLACES)
def test_the_message_names_file_line_section_question_and_rung(
    case: str, jobs: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    rest, what, instead = PLACES[case]
    Path("crates.yaml").write_text(LADDER + rest, encoding="utf-8")
    result = CliRunner().invoke(
        rungsheet.command_line.app, ["build", "crates.yaml", "--out", "pack", "--jobs", jobs]
    )
    assert result.exit_code == 2, result.output
    lines = {"short": 3, "long": 4, "rising": 5}
    [line] = [line for rung, line in lines.items() if f"rung {rung}:" in what]
    assert result.stderr.startswith(f"crates.yaml:{line}: {what}"), result.stderr
    assert result.stderr.rstrip().endswith(f"; {instead}")
    assert not Path("pack").exists()
    checked = CliRunner().invoke(rungsheet.command_line.app, ["check", "crates.yaml"])
    assert checked.exit_code == 2
    assert result.stderr.strip() in checked.stderr.splitlines()


def test_check_names_what_does_not_fit_in_every_file_at_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    sections = (
        "starter: {rising: 1}\ntiers: {core: {long: 1}, more: {short: 1}}\n"
        "pages: {paper: A5, squares: 10, to_a_sheet: 4}\n"
    )
    Path("crates.yaml").write_text(LADDER + sections, encoding="utf-8")
    checked = CliRunner().invoke(rungsheet.command_line.app, ["check", "crates.yaml"])
    assert checked.exit_code == 2
    said = [line.split(", question")[0] for line in checked.stderr.splitlines()]
    assert {"crates.yaml:4: core", "crates.yaml:5: starter"} <= set(said)
    assert len(set(checked.stderr.splitlines())) == len(said)


@pytest.mark.parametrize("command", ["check", "build", "rungs"])
def test_a_title_that_cannot_be_printed_is_named_by_its_line(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    text = f"# for Monday\n{LADDER}tiers: {{core: {{short: 2}}}}\n"
    Path("crates.yaml").write_text(text.replace("Crates", "Crates 日"), encoding="utf-8")
    result = CliRunner().invoke(rungsheet.command_line.app, [command, "crates.yaml"])
    assert result.exit_code == 2
    assert result.stderr == (
        "crates.yaml:2: 'Crates 日' cannot be printed: the typeface has no 日, only Latin, Greek "
        "and Cyrillic letters; write it otherwise\n"
    )
    assert not Path("out/crates-1").exists()


def test_a_title_that_cannot_be_printed_hides_no_other_problem(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    text = f"{LADDER.replace('Crates', 'יום')}  never: {NEVER}\nstarter: {{short: 2}}\n"
    Path("crates.yaml").write_text(text, encoding="utf-8")
    result = CliRunner().invoke(rungsheet.command_line.app, ["check", "crates.yaml"])
    assert result.exit_code == 2
    title, rung = result.stderr.splitlines()
    assert title.startswith("crates.yaml:1: 'יום' cannot be printed: the typeface has no י ו ם,")
    assert rung.startswith("crates.yaml:6: ")


@pytest.mark.parametrize("title", ["Δεκαδικοί αριθμοί", "Cafe\u0301: crêpes", "Вага й ціна"])
def test_what_check_lets_pass_is_printed_as_typed_composed(
    title: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A keyboard may give an accent as a character of its own (Unicode's form D)."""
    monkeypatch.chdir(tmp_path)
    apart = unicodedata.normalize("NFD", title)
    text = LADDER.replace("Crates", f'"{apart}"') + "starter: {short: 2}\n"
    Path("crates.yaml").write_text(text, encoding="utf-8")
    for arguments in (["check", "crates.yaml"], ["build", "crates.yaml", "--out", "pack"]):
        result = CliRunner().invoke(rungsheet.command_line.app, arguments)
        assert result.exit_code == 0, result.stderr
    with pdfplumber.open("pack/starter.pdf") as pdf:
        assert unicodedata.normalize("NFC", title) in (pdf.pages[0].extract_text() or "")
