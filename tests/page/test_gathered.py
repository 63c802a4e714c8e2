"""What goes into the page is all that the engine needs, and no more than can be explained."""

import ast
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from rungsheet.desk import packs
from rungsheet.page.gather import LIBRARIES, SHELL, engine_files, licences
from rungsheet.page.press import OURS, STANDARD_LIBRARY_LEFT_OUT, archive, compiled, packed
from specs import shipped
from specs.mark_cells import ABSENT, TICKS

EVERY_JOB = """
import json, sys
sys.path.insert(0, sys.argv[1])
from rungsheet.page import bridge
text = sys.stdin.read()

def ask(job, data=None, **plain):
    answer, files = bridge.answer(job, json.dumps({"text": text, **plain}), data, lambda *_: None)
    found = json.loads(answer)
    done.add(job)
    assert "result" in found, (job, found)
    return found["result"], None, files

done = set()
ask("words"), ask("lessons"), ask("read"), ask("rungs"), ask("pages")
built, _, files = ask("build")
ask("draw", file="key.pdf"), ask("show"), ask("zip"), ask("in class")
(rung, *_), _, _ = ask("rungs")
ask("rung", rung=rung["name"])
ask("left", rung=rung["name"], word="carries", values=["none"])
ask("edit", do="title", to=["Beans"])
ask("settings"), ask("settings", section="core")
ask("key", files[0])
grid, _, _ = ask("grid")
names = [column["name"] for column in grid["columns"]]
sheet = "\\n".join([",".join(["pupil", *names]), ",".join(["1", *["n"] * len(names)])])
ask("typed", sheet=sheet), ask("findings", sheet=sheet), ask("marks", sheet=sheet)
_, _, undrawn = ask("follow", sheet=sheet)
_, _, drawn = ask("follow", sheet=sheet, files=True)
assert drawn and not undrawn, "the page opens its spec: nobody waits for files"
assert done == set(bridge.JOBS), set(bridge.JOBS) - done
names = sorted({name.split(".")[0] for name in sys.modules})
print(json.dumps([names, bridge.__file__]))
"""


def test_the_engine_does_every_job_with_nothing_but_what_is_gathered(tmp_path: Path) -> None:
    """In a Python of its own, without what is installed beside the standard library."""
    for path, data in engine_files().items():
        target = tmp_path / "site" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    done = subprocess.run(
        [sys.executable, "-S", "-I", "-c", EVERY_JOB, str(tmp_path / "site")],
        input=shipped().read_text("utf-8"),
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    imported, bridge = json.loads(done.stdout)
    assert Path(bridge).is_relative_to(tmp_path)
    assert {"typer", "hypothesis", "numpy", "lxml"}.isdisjoint(imported)
    assert set(STANDARD_LIBRARY_LEFT_OUT).isdisjoint(imported)


@pytest.mark.slow
def test_nothing_is_left_out_of_the_standard_library_that_the_engine_imports() -> None:
    """Neither by our packages nor by the libraries, wherever in a module they do it."""
    imported: dict[str, str] = {}
    for path, data in engine_files().items():
        if path.endswith(".py"):
            for node in ast.walk(ast.parse(data)):
                if isinstance(node, ast.Import):
                    imported |= {name.name.split(".")[0]: path for name in node.names}
                elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                    imported[node.module.split(".")[0]] = path
    wanting = {name: path for name, path in imported.items() if name in STANDARD_LIBRARY_LEFT_OUT}
    assert wanting == NEVER_REACHED


NEVER_REACHED = {"doctest": "reportlab/lib/colors.py"}
"""Modules that a library imports in a function which is never called here, and where."""


def test_no_text_for_people_names_an_option_of_the_command_line() -> None:
    """The page has none: each front door says what to do in its own words."""
    named = set()
    for path, data in engine_files().items():
        if not path.endswith(".py") or not path.startswith(OURS):
            continue
        tree = ast.parse(data)
        documented = {
            id(node.body[0].value)
            for node in ast.walk(tree)
            if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
            and node.body
            and isinstance(node.body[0], ast.Expr)
        }
        named |= {
            path
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant) and isinstance(node.value, str)
            if id(node) not in documented and re.search(r"(^|[ (])--[a-z]", node.value)
        }
    assert named == OF_FOLDERS


OF_FOLDERS = {
    "layouts/files/crew.py",
    "layouts/files/folder.py",
    "layouts/pictures/png.py",
    "rungsheet/desk/folders.py",
}
"""Where folders, processes and files on disk are spoken of, which the page has none of."""


def test_every_library_comes_with_its_licence() -> None:
    named = dict(licences())
    assert len(named) == len(LIBRARIES) + 1  # and the typeface
    assert all(len(text) > 300 for text in named.values()), named


def test_what_is_pressed_depends_on_nothing_but_its_input() -> None:
    files = {"b.py": b"x = {'a', 'b'}\n", "a.yaml": b"title: Beans\n"}
    line, _, rest = archive(files).partition(b"\n")
    assert json.loads(line) == [["a.yaml", 13], ["b.py", 15]]
    assert rest == files["a.yaml"] + files["b.py"]
    assert packed(b"beans")[4:8] == bytes(4), "a gzip file names no time (RFC 1952, 2.3)"
    assert compiled(b"x = 1\n", "x.py")[4:16] == (1).to_bytes(4, "little") + bytes(8)


def test_ways_of_printing_in_the_page_are_those_of_the_desk() -> None:
    sheets = (SHELL / "sheets.mjs").read_text("utf-8")

    def listed(name: str) -> list[str]:
        written = re.search(rf"const {name} = \[(.*?)\n?\];", sheets, re.DOTALL)
        assert written
        return re.findall(r'"(.*?)"', written[1])

    assert listed("TINTS") == ["", *packs.TINTS]
    assert listed("KEY_WORDS") == ["", *packs.KEY_WORDS]


def test_words_for_right_and_away_in_the_page_are_those_of_a_mark_sheet() -> None:
    """What the page takes from whoever types, a file may hold too."""
    grid = (SHELL / "mark_sheet.mjs").read_text("utf-8")

    def words(name: str) -> set[str]:
        written = re.search(rf"const {name} = new Set\(\[(.*?)\]\);", grid)
        assert written
        return set(filter(str.isalpha, re.findall(r'"(.*?)"', written[1])))

    assert words("RIGHT") <= TICKS
    assert words("AWAY") == ABSENT
