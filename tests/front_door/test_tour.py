"""The contributors' tour: its code runs as it stands, and its paths lead somewhere."""

import re
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
TOUR = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```python\n(.*?)^```$", TOUR, re.M | re.S)
PATHS = re.findall(r"`((?:specs|generator|layouts|rungsheet|tests|out)/[\w/.-]*)`", TOUR)


def test_the_phases_can_be_tried_as_the_tour_shows() -> None:
    names: dict[str, Any] = {}
    for block in BLOCKS:
        exec(compile(block, "DEVELOPERS.md", "exec"), names)
    assert names["rung"].unrank(names["rung"].rank(names["rung"].unrank(7))) is not None
    assert names["item"].working.steps
    watch = names["NoNines"]
    assert watch().accepts(watch.start)


def test_every_path_of_the_tour_exists() -> None:
    assert len(set(PATHS)) > 30
    assert [path for path in PATHS if not (ROOT / path).exists()] == []
