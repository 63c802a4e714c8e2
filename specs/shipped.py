"""The specs that ship with Rungsheet, found wherever it is installed.

Two show all that a spec can say; the lessons in ``specs/lessons`` are ready to be taught.
"""

from importlib.resources import files
from pathlib import Path
from typing import Final

DEMO: Final = "produce-stall"
"""The spec that is built when a teacher names none."""

_ENDING: Final = ".yaml"
_FOLDERS: Final = (".", "lessons")


def _found(folder: str) -> dict[str, Path]:
    """The specs of a folder, by name."""
    entries = Path(str(files("specs") / folder)).iterdir()
    return {entry.stem: entry for entry in entries if entry.name.endswith(_ENDING)}


def lesson_names() -> tuple[str, ...]:
    """The names of the ready lessons, in alphabetical order."""
    return tuple(sorted(_found("lessons")))


def shipped_names() -> tuple[str, ...]:
    """The names of the specs that ship, in alphabetical order."""
    return tuple(sorted(name for folder in _FOLDERS for name in _found(folder)))


def shipped(name: str = DEMO) -> Path:
    """The file of a spec that ships. Raises KeyError when none has that name."""
    for folder in _FOLDERS:
        if (path := _found(folder).get(name)) is not None:
            return path
    raise KeyError(name)
