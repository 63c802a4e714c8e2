"""The specs that ship with Rungsheet, found wherever it is installed."""

from importlib.resources import files
from pathlib import Path
from typing import Final

DEMO: Final = "produce-stall"
"""The spec that is built when a teacher names none."""

_ENDING: Final = ".yaml"


def shipped_names() -> tuple[str, ...]:
    """The names of the specs that ship, in alphabetical order."""
    found = (entry.name for entry in files("specs").iterdir())
    return tuple(sorted(name.removesuffix(_ENDING) for name in found if name.endswith(_ENDING)))


def shipped(name: str = DEMO) -> Path:
    """The file of a spec that ships. Raises KeyError when none has that name."""
    if name not in shipped_names():
        raise KeyError(name)
    return Path(str(files("specs") / f"{name}{_ENDING}"))
