"""Puts everything into one file: the page's text and styles, its program, and the packed engine.

The policy in the file's head forbids every address of a network (Content Security Policy
Level 3): what may run is named by its digest, and nothing may be fetched.
"""

import base64
import hashlib
import json
import subprocess
import tempfile
from html import escape
from pathlib import Path
from shutil import which
from typing import Final

from rungsheet.desk import packs, pictures, specs
from rungsheet.page.gather import SHELL, CannotBeMadeError, engine_files, licences

PARTS: Final = ("worker.js", "pyodide.asm.wasm", "python_stdlib.zip", "site")
"""What the page unpacks when the engine starts: ``engine.mjs`` knows them by these names."""

HERE: Final = Path(__file__).parent

_POLICY: Final = (
    "default-src 'none'; script-src {script} 'wasm-unsafe-eval'; style-src {style}; "
    "worker-src blob:; img-src blob: data:; font-src data:; frame-src blob:; "
    "base-uri 'none'; form-action 'none'"
)


def page() -> bytes:
    """The page's bytes, the same for the same inputs: our files, the libraries, the lock file.

    Raises CannotBeMadeError when something is missing to make it.
    """
    with tempfile.TemporaryDirectory() as scratch:
        given, made = Path(scratch) / "given", Path(scratch) / "made"
        made.mkdir()
        for path, data in engine_files().items():
            target = given / "site" / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
        _press(given, made)
        return _bound(made)


def made_of() -> str:
    """A digest of all that the page is made of: the mark of pages made of the same."""
    found = hashlib.sha256()
    ours = [HERE / name for name in ("bind.py", "press.mjs", "press.py", "package-lock.json")]
    files = {path.name: path.read_bytes() for path in (*ours, *sorted(SHELL.iterdir()))}
    for name, data in (*files.items(), *engine_files().items()):
        found.update(f"{name} {len(data)}\n".encode() + data)
    return found.hexdigest()


def _press(given: Path, made: Path) -> None:
    node = which("node")
    if node is None:
        raise CannotBeMadeError("the page needs Node.js to be made; install it (18 or later)")
    if not (HERE / "node_modules" / "pyodide").is_dir():
        raise CannotBeMadeError(
            "what the page is made of has not been fetched; run: npm ci --ignore-scripts "
            f"--prefix {HERE}"
        )
    done = subprocess.run(
        [node, str(HERE / "press.mjs"), str(given), str(made)],
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        raise CannotBeMadeError(f"Node.js could not press the page:\n{done.stderr.strip()}")


def _bound(made: Path) -> bytes:
    script, style = ((made / name).read_text("utf-8") for name in ("page.js", "page.css"))
    if "</script" in script.lower():
        raise CannotBeMadeError("the page's program holds the end of a script")
    text = (SHELL / "index.html").read_text("utf-8")
    policy = _POLICY.format(script=_digest(script), style=_digest(style))
    parts = "".join(
        f'<script type="text/plain" id="part-{name}">'
        f"{base64.b64encode((made / f'{name}.gz').read_bytes()).decode()}</script>\n"
        for name in PARTS
    )
    for mark, filling in (
        ("<!-- policy -->", f'<meta http-equiv="Content-Security-Policy" content="{policy}">'),
        ("<!-- made of -->", f'<meta name="made-of" content="{made_of()}">'),
        ("<!-- style -->", f"<style>{style}</style>"),
        ("<!-- first sheet -->", first_sheet()),
        ("<!-- licences -->", escape(_licences())),
        ("<!-- parts -->", parts),
        ("<!-- program -->", f"<script>{script}</script>"),
    ):
        if text.count(mark) != 1:
            raise CannotBeMadeError(f"index.html must hold {mark} once")
        text = text.replace(mark, filling)
    return text.encode()


def first_sheet() -> str:
    """The first sheet of the demo as a picture: there to be seen while the engine starts."""
    built = packs.build(specs.read(specs.shipped_text()))
    return pictures.pictured(built, built.names[0]).pages[0]


def _licences() -> str:
    """What the page holds that others have made, and on what terms."""
    runtime = json.loads((HERE / "node_modules" / "pyodide" / "package.json").read_text("utf-8"))
    made_by_others = [
        (
            f"Pyodide {runtime['version']}, with Python",
            f"{runtime['license']}: https://www.mozilla.org/MPL/2.0/\nIts source is at "
            "https://github.com/pyodide/pyodide\nPython: PSF License Agreement, "
            "https://docs.python.org/3/license.html",
        ),
        *licences(),
    ]
    return "\n\n\n".join(f"{name}\n\n{text}" for name, text in made_by_others)


def _digest(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"
