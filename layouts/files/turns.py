"""Turns: one build at a time writes to a folder.

A lock file stands beside the folder while it is written. The system lets go of a lock when
its holder dies, in whatever way, so whoever has the turn knows that every scratch folder
found there is a dead build's. No clock and no process number is trusted.
"""

import contextlib
import os
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Final

_WAIT: Final = 0.05
_MOST_WAITS: Final = 1200  # a minute


class NoTurnError(Exception):
    """Another build has been writing to the folder for a minute."""


@contextlib.contextmanager
def turn(folder: Path) -> Iterator[bool]:
    """Wait for one's turn to write to a folder, and hold it.

    Gives whether the turn is certain: False where the file system has no locks. Raises
    NoTurnError after a minute of waiting, and OSError when the parent cannot be written to.
    """
    path = folder.parent / f".{folder.name}.lock"
    handle = _held(path)
    try:
        yield handle is not None
    finally:
        if handle is not None:
            _let_go(path, handle)


def _held(path: Path) -> int | None:
    """A handle on the file with its lock, or None where there are no locks."""
    for _ in range(_MOST_WAITS):
        handle = _opened(path)
        try:
            _lock(handle)
        except (BlockingIOError, PermissionError):
            os.close(handle)
            time.sleep(_WAIT)
        except OSError:
            os.close(handle)
            with contextlib.suppress(OSError):
                path.unlink()
            return None
        else:
            # The holder before may have taken the file away between opening and locking it.
            with contextlib.suppress(FileNotFoundError):
                if os.path.samestat(os.stat(path), os.fstat(handle)):
                    return handle
            os.close(handle)
    raise NoTurnError


def _opened(path: Path) -> int:
    """The lock file, made where it is wanting; of another's file, for reading alone.

    A link is not followed: it would make a file elsewhere.
    """
    no_links = getattr(os, "O_NOFOLLOW", 0)  # which Windows lacks
    try:
        return os.open(path, os.O_RDWR | os.O_CREAT | no_links, 0o666)
    except PermissionError:
        if not path.exists():
            raise
        return os.open(path, os.O_RDONLY | no_links)  # a lock can be had on it all the same


def _let_go(path: Path, handle: int) -> None:
    if sys.platform == "win32":  # where an open file cannot be taken away
        os.close(handle)
        with contextlib.suppress(OSError):
            path.unlink()
    else:
        with contextlib.suppress(OSError):
            path.unlink()
        os.close(handle)


if sys.platform == "win32":
    import msvcrt

    def _lock(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
