"""What a spec says is text: it is printed or refused, and is never obeyed."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pypdf
import pypdfium2
import pytest
from typer.testing import CliRunner, Result

import rungsheet.command_line

ROOT = Path(__file__).parents[2]

LESSON = """\
title: {title}
ladder:
  beans: {{operation: add, places: 2, carries: none}}
tiers:
  {tier}: {{beans: 4}}
"""


@pytest.fixture(autouse=True)
def in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "inside").mkdir()
    monkeypatch.chdir(tmp_path / "inside")


def lesson(title: str = "Beans", tier: str = "core", name: str = "lesson.yaml") -> str:
    Path(name).write_text(LESSON.format(title=title, tier=tier), encoding="utf-8")
    return name


def run(*arguments: str) -> Result:
    return CliRunner().invoke(rungsheet.command_line.app, list(arguments))


def everything() -> set[str]:
    """Every file and folder of the test's own place, above the folder that it works in too."""
    return {str(path.relative_to(Path.cwd().parent)) for path in Path.cwd().parent.rglob("*")}


INJECTIONS = [
    ") Tj ET Q BT (owned) Tj",
    "(unbalanced \\\\ (((",
    "\\\\) /JS (app.alert(1)) /S /JavaScript",
    "endstream endobj 99 0 obj << /OpenAction 1 0 R >>",
    "%PDF-1.4 %%EOF",
    "<</Launch (calc)>>",
    "$(touch leaked) `touch leaked`; touch leaked",
    "=cmd|' /C calc'!A0",
    "<script>alert(1)</script> &amp;",
    "%s %d {0} {title!r}",
    "../../leaked",
]


@pytest.mark.parametrize("title", INJECTIONS)
def test_a_title_is_printed_as_it_is(title: str) -> None:
    written = "'" + title.replace("\\\\", "\\").replace("'", "''") + "'"
    before = everything()
    result = run("build", lesson(written), "--out", "pack")
    assert result.exit_code == 0, result.output
    new = {path for path in everything() - before if not path.startswith("inside/pack")}
    assert new == {"inside/lesson.yaml"}
    plain = title.replace("\\\\", "\\")
    for file in Path("pack").glob("*.pdf"):
        reader = pypdf.PdfReader(file)
        assert reader.metadata is not None
        assert str(reader.metadata["/Title"]).startswith(plain)
        assert not {"/OpenAction", "/AA"} & set(reader.trailer["/Root"])
        names = reader.trailer["/Root"].get("/Names", {})
        assert "/JavaScript" not in names
        document = pypdfium2.PdfDocument(file)
        printed = " ".join(page.get_textpage().get_text_range() for page in document)
        assert re.sub(r"\s", "", plain) in re.sub(r"\s", "", printed)
        document.close()


@pytest.mark.parametrize(
    "title",
    [
        '"a\\nb"',
        '"a\\0b"',
        '"\\u202Ereversed"',
        '"\\u2066x"',
        '"\\u2028"',
        '"\\x1b[31mred"',
        '"\\uD800"',
    ],
)
def test_a_title_that_cannot_be_printed_is_refused(title: str) -> None:
    result = run("check", lesson(title))
    assert result.exit_code == 2
    message = result.stderr.removesuffix("\n")
    assert message.isprintable()
    assert message.startswith("lesson.yaml:1: ")


@pytest.mark.parametrize(
    "tier",
    [
        "../leaked",
        "/tmp/leaked",
        "..",
        "a/b",
        "a\\b",
        "con",
        "nul",
        "lpt1",
        "a.b",
        "c:x",
    ],
)
def test_a_tier_whose_file_could_not_be_named_so_anywhere_is_refused(tier: str) -> None:
    """File names: small letters, digits and hyphens, and none that Windows keeps for devices."""
    before = everything()
    result = run("build", lesson(tier=f"'{tier}'"))
    assert result.exit_code == 2
    assert "cannot be the name of a tier" in result.stderr
    assert everything() - before == {"inside/lesson.yaml"}


@pytest.mark.parametrize(
    ("name", "folder"),
    [
        ("../lesson.yaml", "out/lesson-1"),
        ("a b.yaml", "out/a b-1"),
        ("$(touch leaked).yaml", "out/$(touch leaked)-1"),
        ("-o.yaml", "out/-o-1"),
        ("...yaml", "out/..-1"),
        (".yaml", "out/.yaml-1"),
        ("con.yaml", "out/con-1"),
    ],
)
def test_a_specs_file_name_leads_nowhere_else(name: str, folder: str) -> None:
    lesson(name=name)
    before = everything()
    result = run("build", "--", name)
    assert result.exit_code == 0, result.output
    made = {path for path in everything() - before if not path.startswith(f"inside/{folder}/")}
    assert made == {"inside/out", f"inside/{folder}"}


def test_every_file_of_a_pack_has_a_name_that_is_legal_everywhere() -> None:
    """No name differs from another in case alone, none is a device's, none is odd."""
    assert run("build", "--out", "pack").exit_code == 0
    names = [path.name for path in Path("pack").iterdir()]
    assert all(re.fullmatch(r"[a-z0-9][a-z0-9-]*\.(pdf|json|csv)", name) for name in names)
    assert len({name.casefold() for name in names}) == len(names)


def test_a_spec_with_line_ends_of_any_system_gives_the_same_pack() -> None:
    packs = []
    for at, end in enumerate(("\n", "\r\n", "\r")):
        text = LESSON.format(title="Beans", tier="core").replace("\n", end)
        Path("lesson.yaml").write_bytes(text.encode())
        assert run("build", "lesson.yaml", "--sealed", "--out", f"pack-{at}").exit_code == 0
        packs.append({p.name: p.read_bytes() for p in Path(f"pack-{at}").glob("*.pdf")})
    assert packs[0] == packs[1] == packs[2]


def test_a_csv_cell_that_a_spreadsheet_would_run_is_never_written() -> None:
    assert run("build", lesson(), "--out", "pack").exit_code == 0
    for line in Path("pack/marks.csv").read_text(encoding="utf-8").splitlines():
        assert not any(cell[:1] in "=+-@" for cell in line.split(",") if cell)


WATCHED = """\
import sys

def watch(event, _):
    if event.startswith(("socket.", "urllib.", "http.", "ftplib.", "smtplib.", "subprocess.",
                         "os.system", "os.exec", "os.posix_spawn", "os.spawn", "os.startfile")):
        raise RuntimeError(event)

sys.addaudithook(watch)
import rungsheet.command_line
rungsheet.command_line.app(sys.argv[1:], standalone_mode=False)
"""

COMMANDS = (
    ["build", "--out", "pack"],
    ["check", "produce-stall"],
    ["rungs"],
    ["key", "pack/practice-core.pdf"],
    ["marks", "pack", "pack/marks.csv"],
)


@pytest.mark.slow
def test_no_command_opens_a_socket_or_starts_a_program() -> None:
    for command in COMMANDS:
        done = subprocess.run(
            [sys.executable, "-c", WATCHED, *command], capture_output=True, text=True, env=here()
        )
        assert "Traceback" not in done.stderr, done.stderr
    tried = WATCHED.replace("import rungsheet.command_line", "import socket; socket.socket()")
    done = subprocess.run([sys.executable, "-c", tried], capture_output=True, text=True)
    assert "RuntimeError: socket." in done.stderr


def here() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(ROOT)}


@pytest.mark.skipif(not shutil.which("unshare"), reason="no network can be taken away here")
def test_the_pack_is_built_where_there_is_no_network() -> None:
    command = ["unshare", "-n", sys.executable, "-m", "rungsheet", "build", "--out", "pack"]
    done = subprocess.run(command, capture_output=True, text=True, env=here())
    if "unshare" in done.stderr:
        pytest.skip("no network can be taken away here")
    assert done.returncode == 0, done.stderr
    assert Path("pack/pack.json").is_file()
