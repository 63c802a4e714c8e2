"""The README's pictures: pages of the demo as the build writes them.

``python -m tests.pictures`` builds the demo and renders three of its pages into out/demo
with poppler's pdftoppm.
"""

import subprocess
import tempfile
from pathlib import Path
from typing import Final

import rungsheet.command_line

PAGES: Final = {"practice-core": 1, "examples": 11, "key": 1}
_OUT: Final = Path(__file__).parents[1] / "out" / "demo"

if __name__ == "__main__":
    _OUT.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        rungsheet.command_line.app(["build", "--out", f"{scratch}/pack"], standalone_mode=False)
        for name, page in PAGES.items():
            settings = ["-png", "-r", "80", "-f", str(page), "-singlefile"]
            files = [f"{scratch}/pack/{name}.pdf", str(_OUT / name)]
            subprocess.run(["pdftoppm", *settings, *files], check=True)
