"""What the demo gives for a seed, kept: it changes only with Rungsheet's major version.

A colleague with the same spec and seed must print the very same sheets. ``python -m
tests.golden`` writes the kept values anew; do so only when that promise is broken on
purpose, and say so in the commit.
"""

import hashlib
import json
import tempfile
from pathlib import Path
from typing import Any, Final

from generator.packs.building import build_pack
from generator.vocabulary import VOCABULARY
from specs import load_spec, shipped

BUILD: Final = ("build", "--seed", "3", "--versions", "2")
_KEPT: Final = Path(__file__).with_name("golden.json")


def kept() -> dict[str, Any]:
    """The kept values: ``questions`` and ``digests``."""
    found: dict[str, Any] = json.loads(_KEPT.read_text(encoding="utf-8"))
    return found


def questions() -> dict[str, list[str]]:
    """The questions of the demo with seed 3, by section and version."""
    pack = build_pack(load_spec(shipped(), VOCABULARY), 3, versions=2)
    return {
        f"{section.name} {section.version}": [item.question.text for item in section.items]
        for section in pack.sections
    }


def digests(folder: Path) -> dict[str, str]:
    """The SHA-256 of every file in a folder."""
    return {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.iterdir())
    }


if __name__ == "__main__":
    import rungsheet.command_line

    with tempfile.TemporaryDirectory() as scratch:
        rungsheet.command_line.app([*BUILD, "--out", f"{scratch}/pack"], standalone_mode=False)
        values = {"questions": questions(), "digests": digests(Path(scratch, "pack"))}
    _KEPT.write_text(json.dumps(values, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
