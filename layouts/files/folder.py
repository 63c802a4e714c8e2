"""A pack's folder on disk: written whole or not at all.

Everything is written to a hidden scratch folder beside the target first. Only when it is
complete and on the disk does it take the target's name; a pack that is already there gives
way in the same moment where the system can exchange two names, and otherwise within two
renames. Builds to one folder take turns, and each first clears up after any that was killed.
"""

import contextlib
import ctypes
import errno
import hashlib
import json
import os
import re
import secrets
import shutil
import sys
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import Final

from layouts.files.turns import NoTurnError, turn
from specs.languages.saying import Saying, say
from specs.unreadable import reason

RECORD: Final = "pack.json"
"""The file of a pack that lists the others, with a digest of each."""

_OURS: Final = {
    RECORD: (frozenset({"title", "seed", "code", "sections", "files"}),),
    "marks.json": (
        frozenset({"questions", "pupils", "groups", "files"}),
        frozenset({"classes", "rungs", "habits", "files"}),
    ),
}
"""What stands in a record that Rungsheet wrote, by the record's name: of one of these all."""

_ELSEWHERE: Final = say("name another folder with --out")
_MOVE_AWAY: Final = say("move that file away, or name another folder with --out")

_BUSY: Final = (
    say("another build has been writing there for a minute"),
    say("wait for it to end, or name another folder with --out"),
)

_LEFT_BY_THE_SYSTEM: Final = {".DS_Store", "Thumbs.db", "desktop.ini"}
"""What macOS and Windows put into a folder that is looked at (common practice, no source)."""


class FolderError(Exception):
    """A folder that cannot be written, with what to do about it."""

    def __init__(self, folder: Path, what: Saying, instead: Saying) -> None:
        self.folder = folder
        self.what = what
        self.instead = instead
        super().__init__(f"{folder}: {what}; {instead}")


Files = Mapping[str, bytes]
Fill = Callable[[Path], Files]
"""Writes large files into the scratch folder that it is given, and gives the small ones."""


def write_folder(folder: Path, files: Files | Fill, record: str = RECORD) -> None:
    """Write the files to the folder, replacing a pack that is there.

    ``record`` names the file that lists the others. Raises FolderError when that cannot be
    done; the folder is then as it was before, and so it is when ``files`` raises an error of
    its own, which passes through.
    """
    refuse_unless_pack(folder, record)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with turn(folder) as certain:
            if certain:
                _clear_up(folder, record)
            refuse_unless_pack(folder, record)
            _write(folder, files, record)
    except NoTurnError:
        raise FolderError(folder, *_BUSY) from None
    except OSError as error:
        raise FolderError(folder, *_explained(error)) from error


def _write(folder: Path, files: Files | Fill, record: str) -> None:
    scratch = _beside(folder, Path.mkdir)
    try:
        small = files(scratch) if callable(files) else files
        for path in scratch.rglob("*"):
            _sync(path)
        for name, data in small.items():
            _write_through(scratch / name, data)
        _sync(scratch)
        _put_in_place(scratch, folder, record)
        _sync(folder.parent)
    finally:
        shutil.rmtree(scratch, ignore_errors=True)


def _clear_up(target: Path, record: str = "") -> None:
    """Put back or take away what a killed build left. Only for whoever has the turn."""
    left = re.compile(rf"\.{re.escape(target.name)}-[a-z0-9_]{{8}}\.(part|old)")
    for path in sorted(target.parent.iterdir()):
        found = left.fullmatch(path.name)
        if found is None or path.is_symlink():
            continue
        if not path.is_dir():
            path.unlink(missing_ok=True)
        elif found[1] == "old" and not os.path.lexists(target) and (path / record).is_file():
            path.rename(target)
        else:
            shutil.rmtree(path, ignore_errors=True)


def write_file(path: Path, data: bytes) -> None:
    """Write one file, making its folder where that is wanting; whole or not at all.

    A file with those bytes may be there already, another is left alone. Raises FolderError
    when it cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with turn(path) as certain:
            if certain:
                _clear_up(path)
            if not os.path.lexists(path):
                _write_one(path, data)
            elif not path.is_file() or path.read_bytes() != data:
                what = say("there is another {file} in it", file=path.name)
                raise FolderError(path.parent, what, _ELSEWHERE)
    except NoTurnError:
        raise FolderError(path.parent, *_BUSY) from None
    except OSError as error:
        raise FolderError(path.parent, *_explained(error)) from error


def _write_one(path: Path, data: bytes) -> None:
    scratch = _beside(path, partial(Path.touch, exist_ok=False))
    try:
        _write_through(scratch, data)
        scratch.rename(path)
        _sync(path.parent)
    finally:
        scratch.unlink(missing_ok=True)


def refuse_unless_pack(folder: Path, record: str = RECORD) -> None:
    """Raise FolderError when there is something at that place that a pack must not replace.

    What the record there does not list is the teacher's, and so is a listed file that is no
    longer as it was written: a mark sheet that was filled in.
    """
    while True:
        before = _identity(folder)
        try:
            _refuse_unless_pack(folder, record)
        except FolderError:
            if _identity(folder) == before:
                raise
            continue  # another build put its pack there while this one was being read
        return


def _identity(folder: Path) -> tuple[int, int] | None:
    """What is there, whatever its name; None for nothing."""
    try:
        found = os.stat(folder, follow_symlinks=False)
    except (OSError, ValueError):
        return None
    return found.st_dev, found.st_ino


def _refuse_unless_pack(folder: Path, record: str) -> None:
    if not folder.name or folder.name == "..":
        raise FolderError(folder, say("it has no name of its own"), _ELSEWHERE)
    if not os.path.lexists(folder):
        return
    if not folder.is_dir():
        raise FolderError(folder, say("a file of that name is in the way"), _ELSEWHERE)
    if folder.is_symlink():
        what = say("it is a link to another folder")
        raise FolderError(folder, what, say("name that folder with --out"))
    try:
        found = _names_in(folder)
        if not found:
            return
        if record not in found:
            what = say("the folder holds other files and no {record}", record=record)
            raise FolderError(folder, what, _ELSEWHERE)
        plain = json.loads((folder / record).read_bytes())
        if not any(ours <= plain.keys() for ours in _OURS[record]):
            what = say("the {record} there is another program's", record=record)
            raise FolderError(folder, what, _ELSEWHERE)
        listed = plain["files"]
        written = {file["name"]: file["sha256"] for file in listed}
        for within in {name.split("/")[0] for name in written if "/" in name} & found:
            if (folder / within).is_dir() and not (folder / within).is_symlink():
                found.remove(within)
                found |= {f"{within}/{name}" for name in _names_in(folder / within)}
        changed = sorted(
            name
            for name in found & written.keys()
            if hashlib.sha256((folder / name).read_bytes()).hexdigest() != written[name]
        )
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError) as error:
        what = say("{record} cannot be read", record=record)
        raise FolderError(folder, what, _ELSEWHERE) from error
    extra = sorted(found - written.keys() - {record})
    if extra:
        what = say("the pack there would be replaced, but {file} is not part of it", file=extra[0])
        raise FolderError(folder, what, _MOVE_AWAY)
    if changed:
        what = say(
            "{file} there would be lost, and it was changed since it was written", file=changed[0]
        )
        raise FolderError(folder, what, _MOVE_AWAY)


def _names_in(folder: Path) -> set[str]:
    """What a folder holds, but for what the system puts there."""
    return {entry.name for entry in folder.iterdir()} - _LEFT_BY_THE_SYSTEM


def _write_through(path: Path, data: bytes) -> None:
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _sync(path: Path) -> None:
    """Have a file, or a folder's list of names, on the disk where the system can be asked to."""
    with contextlib.suppress(OSError):
        handle = os.open(path, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _beside(target: Path, make: Callable[[Path], None]) -> Path:
    """A hidden file or folder beside a target, made under a name that nothing had.

    It may be read and written by whom anything new may: the system sees to that as it makes it.
    """
    while True:
        path = target.with_name(f".{target.name}-{secrets.token_hex(4)}.part")
        with contextlib.suppress(FileExistsError):
            make(path)
            return path


def _put_in_place(scratch: Path, folder: Path, record: str) -> None:
    if not folder.exists():
        scratch.rename(folder)
        return
    if _exchange(scratch, folder):
        try:
            refuse_unless_pack(scratch, record)
        except FolderError:  # something was put into the old pack meanwhile
            _exchange(scratch, folder)
            refuse_unless_pack(folder, record)
        return
    # Two renames: a name for the old pack from which this build or the next can put it back.
    old = scratch.with_suffix(".old")
    folder.rename(old)
    try:
        scratch.rename(folder)
    except OSError:
        old.rename(folder)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _exchange(first: Path, second: Path) -> bool:
    """Exchange two names in one step, where the system can."""
    names = os.fsencode(first), os.fsencode(second)
    with contextlib.suppress(OSError, AttributeError):
        system = ctypes.CDLL(None, use_errno=True)
        if sys.platform.startswith("linux"):
            here, exchange = -100, 2  # AT_FDCWD, RENAME_EXCHANGE in <linux/fs.h>
            return bool(system.renameat2(here, names[0], here, names[1], exchange) == 0)
        if sys.platform == "darwin":
            swap = 2  # RENAME_SWAP in <sys/stdio.h>, from memory
            return bool(system.renamex_np(*names, ctypes.c_uint(swap)) == 0)
    return False


def _explained(error: OSError) -> tuple[Saying, Saying]:
    if getattr(error, "winerror", None) in (5, 32):  # access denied, sharing violation
        return (
            say("a file there is open in another program"),
            say("close it, or name another folder with --out"),
        )
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return say("the disk is full"), say("make room, then build again")
    if error.errno == errno.EFBIG:
        return say("a file of it is larger than is allowed there"), _ELSEWHERE
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return say("writing there is not allowed"), _ELSEWHERE
    if error.errno in (errno.ENOTDIR, errno.EEXIST):
        return say("a file is in the way of the folder"), _ELSEWHERE
    if error.errno == errno.ELOOP:
        return say("a link is in the way of the folder or of its lock"), _ELSEWHERE
    if error.errno == errno.ENAMETOOLONG:
        return say("the name is too long"), _ELSEWHERE
    why = reason(error) if error.strerror else str(error)
    return say("it cannot be written ({why})", why=why), _ELSEWHERE
