"""Makes what goes into the page small and quick to load. Runs in the page's own Python, in Node.

That Python compiles its modules and packs them with its own zlib, whose version the lock file
pins: so the bytes are the same on every machine, which those of another zlib are not.
"""

import importlib.util
import io
import json
import marshal
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path
from typing import Final

STANDARD_LIBRARY_LEFT_OUT: Final = (
    "__hello__",
    "__phello__",
    "_pydatetime",
    "_pyio",
    "_pyrepl",
    "antigravity",
    "bdb",
    "cProfile",
    "cmd",
    "dbm",
    "doctest",
    "ensurepip",
    "ftplib",
    "imaplib",
    "mailbox",
    "nturl2path",
    "optparse",
    "pdb",
    "pickletools",
    "plistlib",
    "poplib",
    "profile",
    "pstats",
    "pydoc",
    "rlcompleter",
    "smtplib",
    "sqlite3",
    "tabnanny",
    "this",
    "tomllib",
    "trace",
    "tracemalloc",
    "turtle",
    "unittest",
    "venv",
    "wsgiref",
    "xmlrpc",
    "zipapp",
    "zoneinfo",
)
"""Modules of the standard library that nothing in the page imports."""

_UNCHECKED: Final = (1).to_bytes(4, "little")
"""The flag of a compiled module that is never compared with its source (PEP 552)."""

_EPOCH: Final = (1980, 1, 1, 0, 0, 0)
"""The earliest moment that a ZIP archive can name."""


OURS: Final = ("generator/", "layouts/", "rungsheet/", "specs/")
"""What is compiled as it stands; of others' modules docstrings and assertions are left out."""


def compiled(source: bytes, path: str) -> bytes:
    """A module's .pyc file, the same for the same source."""
    optimize = 0 if path.startswith(OURS) else 2
    code = compile(source, path, "exec", dont_inherit=True, optimize=optimize)
    return importlib.util.MAGIC_NUMBER + _UNCHECKED + bytes(8) + marshal.dumps(code)


def packed(data: bytes) -> bytes:
    """Data as a gzip file without a name or a time (RFC 1952)."""
    press = zlib.compressobj(9, zlib.DEFLATED, 31)
    return press.compress(data) + press.flush()


def archive(files: Mapping[str, bytes]) -> bytes:
    """Files in one: a line of JSON with their paths and lengths, then their bytes."""
    listed = [[path, len(data)] for path, data in sorted(files.items())]
    line = json.dumps(listed, separators=(",", ":")).encode() + b"\n"
    return line + b"".join(data for _, data in sorted(files.items()))


def pressed_modules(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """Files with every module compiled, without its source."""
    return {
        f"{path}c" if path.endswith(".py") else path: (
            compiled(data, path) if path.endswith(".py") else data
        )
        for path, data in files.items()
    }


def pressed_standard_library(data: bytes) -> bytes:
    """The ZIP archive of the standard library, compiled, without what is never used.

    Nothing in it is compressed: it is compressed once, as a whole.
    """
    with zipfile.ZipFile(io.BytesIO(data)) as given:
        files = {
            name: given.read(name)
            for name in sorted(given.namelist())
            if not name.endswith("/")
            and name.split("/")[0].removesuffix(".py") not in STANDARD_LIBRARY_LEFT_OUT
        }
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as zipped:
        for path, content in pressed_modules(files).items():
            zipped.writestr(zipfile.ZipInfo(path, _EPOCH), content)
    return buffer.getvalue()


def press(given: str, made: str) -> None:
    """Press everything in one folder into another.

    ``given`` has the standard library, the folder ``site`` and further files; ``made`` gets
    a gzip file for each.
    """
    folder, into = Path(given), Path(made)
    site = folder / "site"
    files = {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in sorted(site.rglob("*"))
        if path.is_file()
    }
    (into / "site.gz").write_bytes(packed(archive(pressed_modules(files))))
    for path in sorted(folder.iterdir()):
        if path.is_file():
            data = path.read_bytes()
            if path.name == "python_stdlib.zip":
                data = pressed_standard_library(data)
            (into / f"{path.name}.gz").write_bytes(packed(data))
