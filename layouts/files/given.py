"""Files that a teacher gives: read up to a limit, whatever they turn out to be."""

import os
from pathlib import Path


def is_folder(path: Path) -> bool:
    """Whether a folder is there; of a name that no file can have, none is."""
    return os.path.isdir(path)


def whole(path: Path) -> Path:
    """The whole path, its links followed; of one that leads to itself as far as it leads.

    (``Path.resolve`` raises RuntimeError there, in Python before 3.13.)
    """
    try:
        return Path(os.path.realpath(path))
    except ValueError:  # a name that no file can have
        return Path(os.path.abspath(path))


def is_larger(path: Path, most: int) -> bool:
    """Whether a file has more bytes than ``most``; not known of a pipe, a device or no file."""
    try:
        return path.stat().st_size > most
    except (OSError, ValueError):
        return False


def bytes_of(path: Path, most: int) -> bytes:
    """A file's bytes; of one with more than ``most``, so many that this shows.

    Raises OSError, and ValueError for a name that no file can have.
    """
    with path.open("rb") as file:
        size = os.fstat(file.fileno()).st_size or most  # a pipe or a device tells no size
        return file.read(min(size, most) + 1)
