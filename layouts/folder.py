"""A pack's folder on disk: written whole or not at all.

Everything is written to a hidden folder beside the target first. Only when it is complete
and on the disk does it take the target's name; a pack that is already there gives way in
the same moment where the system can exchange two names, and otherwise within two renames.
"""

import contextlib
import ctypes
import errno
import hashlib
import json
import os
import shutil
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Final

RECORD: Final = "pack.json"
"""The file of a pack that lists the others, with a digest of each."""


class FolderError(Exception):
    """A folder that cannot be written, with what to do about it."""

    def __init__(self, folder: Path, what: str, instead: str) -> None:
        super().__init__(f"{folder}: {what}; {instead}")


def write_folder(folder: Path, files: Mapping[str, bytes], record: str = RECORD) -> None:
    """Write the files to the folder, replacing a pack that is there.

    ``record`` names the file that lists the others. Raises FolderError when that cannot be
    done; the folder is then as it was before.
    """
    refuse_unless_pack(folder, record)
    scratch = None
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        scratch = Path(
            tempfile.mkdtemp(prefix=f".{folder.name}-", suffix=".part", dir=folder.parent)
        )
        for name, data in files.items():
            _write_through(scratch / name, data)
        scratch.chmod(0o777 & ~_umask())
        _put_in_place(scratch, folder)
    except OSError as error:
        raise FolderError(folder, *_explained(error)) from error
    finally:
        if scratch is not None:
            shutil.rmtree(scratch, ignore_errors=True)


def write_file(path: Path, data: bytes) -> None:
    """Write one file, making its folder where that is wanting; whole or not at all.

    A file with those bytes may be there already, another is left alone. Raises FolderError
    when it cannot be written.
    """
    scratch = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if os.path.lexists(path):
            if path.is_file() and path.read_bytes() == data:
                return
            what = f"there is another {path.name} in it"
            raise FolderError(path.parent, what, "name another folder with --out")
        handle, name = tempfile.mkstemp(prefix=f".{path.name}-", suffix=".part", dir=path.parent)
        os.close(handle)
        scratch = Path(name)
        _write_through(scratch, data)
        scratch.chmod(0o666 & ~_umask())
        scratch.rename(path)
    except OSError as error:
        raise FolderError(path.parent, *_explained(error)) from error
    finally:
        if scratch is not None:
            scratch.unlink(missing_ok=True)


def refuse_unless_pack(folder: Path, record: str = RECORD) -> None:
    """Raise FolderError when there is something at that place that a pack must not replace.

    What the record there does not list is the teacher's, and so is a listed file that is no
    longer as it was written: a mark sheet that was filled in.
    """
    elsewhere = "name another folder with --out"
    if not os.path.lexists(folder):
        return
    if not folder.is_dir():
        raise FolderError(folder, "a file of that name is in the way", elsewhere)
    try:
        found = {entry.name for entry in folder.iterdir()}
        if not found:
            return
        if record not in found:
            raise FolderError(folder, f"the folder holds other files and no {record}", elsewhere)
        listed = json.loads((folder / record).read_bytes())["files"]
        written = {file["name"]: file["sha256"] for file in listed}
        changed = sorted(
            name
            for name in found & written.keys()
            if hashlib.sha256((folder / name).read_bytes()).hexdigest() != written[name]
        )
    except (OSError, ValueError, LookupError, TypeError, RecursionError) as error:
        raise FolderError(folder, f"{record} cannot be read", elsewhere) from error
    extra = sorted(found - written.keys() - {record})
    if extra:
        raise FolderError(
            folder,
            f"the pack there would be replaced, but {extra[0]} is not part of it",
            f"move that file away, or {elsewhere}",
        )
    if changed:
        raise FolderError(
            folder,
            f"{changed[0]} there would be lost, and it was changed since it was written",
            f"move that file away, or {elsewhere}",
        )


def _write_through(path: Path, data: bytes) -> None:
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _put_in_place(scratch: Path, folder: Path) -> None:
    if not folder.exists():
        scratch.rename(folder)
        return
    if _exchange(scratch, folder):
        return
    # Two renames: a name for the old pack that the next step can put back.
    old = scratch.with_suffix(".old")
    folder.rename(old)
    try:
        scratch.rename(folder)
    except OSError:
        old.rename(folder)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _exchange(first: Path, second: Path) -> bool:
    """Exchange two names in one step, where the system can (Linux: renameat2)."""
    if not sys.platform.startswith("linux"):
        return False
    with contextlib.suppress(OSError, AttributeError):
        here, exchange = -100, 2  # AT_FDCWD, RENAME_EXCHANGE in <linux/fs.h>
        rename = ctypes.CDLL(None, use_errno=True).renameat2
        return bool(rename(here, os.fsencode(first), here, os.fsencode(second), exchange) == 0)
    return False


def _explained(error: OSError) -> tuple[str, str]:
    elsewhere = "name another folder with --out"
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return "the disk is full", "make room, then build again"
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return "writing there is not allowed", elsewhere
    if error.errno in (errno.ENOTDIR, errno.EEXIST):
        return "a file is in the way of the folder", elsewhere
    if error.errno == errno.ENAMETOOLONG:
        return "the name is too long", elsewhere
    return f"it cannot be written ({error.strerror or error})", elsewhere
